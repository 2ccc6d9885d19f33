//! The merge held against what both hands did, line by line, and against an
//! independent merge of three texts.

use super::merge::{Clash, merge};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::cell::Cell;
use std::fs;
use std::path::Path;
use std::process::Command;

/// What a hand does to one line of a text whose lines all differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fate {
    Stays,
    Changed,
    Gone,
    /// Another line is put below it.
    Doubled,
}

/// Any fate; to stay is so many times as likely as another.
fn fate(stays: u32) -> impl Strategy<Value = Fate> {
    prop_oneof![
        stays => Just(Fate::Stays),
        1 => Just(Fate::Changed),
        1 => Just(Fate::Gone),
        1 => Just(Fate::Doubled),
    ]
}

/// What both hands do to the lines of a text. Lines put in where others are taken
/// out cannot be told from lines that were changed, so no hand does that.
fn fates() -> impl Strategy<Value = Vec<(Fate, Fate)>> {
    let plain = |mut fates: Vec<Fate>| {
        let mut added = false;
        for fate in &mut fates {
            match *fate {
                Fate::Stays => added = false,
                Fate::Doubled => added = true,
                Fate::Gone if added => *fate = Fate::Changed,
                Fate::Gone | Fate::Changed => {}
            }
        }
        fates
    };
    prop::collection::vec((fate(8), fate(8)), 1..24).prop_map(move |both| {
        let (mine, theirs) = both.into_iter().unzip();
        plain(mine).into_iter().zip(plain(theirs)).collect()
    })
}

/// A line after both hands did something to it; none where nobody can say what it
/// is to be.
fn line(number: usize, fates: (Fate, Fate)) -> Option<String> {
    let below = |hand: &str| format!("line {number} below by {hand}\n");
    let own = |fate: Fate, hand: &str| match fate {
        Fate::Changed => format!("line {number} by {hand}\n"),
        Fate::Gone => String::new(),
        Fate::Stays | Fate::Doubled => format!("line {number}\n"),
    };
    let (mine, theirs) = fates;
    let text = match (mine, theirs) {
        (Fate::Stays | Fate::Doubled, other) => own(other, "them"),
        (other, Fate::Stays | Fate::Doubled) => own(other, "me"),
        (Fate::Gone, Fate::Gone) => String::new(),
        (Fate::Changed | Fate::Gone, _) => return None,
    };
    let added = match (mine, theirs) {
        (Fate::Doubled, Fate::Doubled) => return None,
        (Fate::Doubled, Fate::Gone) | (Fate::Gone, Fate::Doubled) => return None,
        (Fate::Doubled, _) => below("me"),
        (_, Fate::Doubled) => below("them"),
        _ => String::new(),
    };
    Some(text + &added)
}

/// The base, both hands' texts, and what the two make of it, where that can be said.
fn texts(fates: &[(Fate, Fate)]) -> ([String; 3], Option<String>) {
    let text = |of: fn((Fate, Fate)) -> (Fate, Fate)| -> Option<String> {
        let lines = fates.iter().enumerate();
        lines.map(|(n, fates)| line(n, of(*fates))).collect()
    };
    let alone = |of| text(of).expect("one hand alone is never in doubt");
    let base = alone(|_| (Fate::Stays, Fate::Stays));
    let mine = alone(|(mine, _)| (mine, Fate::Stays));
    let theirs = alone(|(_, theirs)| (Fate::Stays, theirs));
    ([base, mine, theirs], text(|fates| fates))
}

/// The text after some of its lines met their fate at one's hands.
fn after(base: &[String], fates: &[Fate], hand: &str) -> Vec<String> {
    let mut out = Vec::new();
    for (line, fate) in base.iter().zip(fates) {
        match fate {
            Fate::Stays => out.push(line.clone()),
            Fate::Changed => out.push(format!("{line} by {hand}")),
            Fate::Gone => {}
            Fate::Doubled => out.extend([line.clone(), format!("{line} below, by {hand}")]),
        }
    }
    out
}

fn joined(lines: &[String]) -> String {
    lines.iter().map(|line| format!("{line}\n")).collect()
}

proptest! {
    /// Where each hand leaves alone what the other touches, both changes are made;
    /// only where they stand side by side it may be asked.
    #[test]
    fn disjoint_changes_always_merge(
        fates in prop::collection::vec((fate(6), any::<bool>()), 1..60)
    ) {
        let base: Vec<String> = (0..fates.len()).map(|n| format!("line {n}")).collect();
        let of = |hand: bool| -> Vec<Fate> {
            let own = |(fate, whose): &(Fate, bool)| {
                if *whose == hand { *fate } else { Fate::Stays }
            };
            fates.iter().map(own).collect()
        };
        let [mine, theirs] = [after(&base, &of(true), "me"), after(&base, &of(false), "them")];
        let mut wanted = Vec::new();
        for (line, (fate, whose)) in base.iter().zip(&fates) {
            let hand = if *whose { "me" } else { "them" };
            wanted.extend(after(std::slice::from_ref(line), std::slice::from_ref(fate), hand));
        }
        let beside = fates.windows(2).any(|pair| {
            pair[0].1 != pair[1].1 && pair.iter().all(|(fate, _)| *fate != Fate::Stays)
        });
        let [base, mine, theirs] = [joined(&base), joined(&mine), joined(&theirs)];
        match merge(&base, &mine, &theirs) {
            Ok(merged) => prop_assert_eq!(merged, joined(&wanted)),
            Err(Clash) => prop_assert!(beside),
        }
    }
}

/// What another program makes of three texts; none where it asks.
fn by_git(folder: &Path, [base, mine, theirs]: &[String; 3]) -> Option<String> {
    let [base, mine, theirs] =
        [("base", base), ("mine", mine), ("theirs", theirs)].map(|(name, text)| {
            let path = folder.join(name);
            fs::write(&path, text).unwrap();
            path
        });
    let output = Command::new("git")
        .args(["merge-file", "--stdout"])
        .args([mine, base, theirs])
        .output()
        .expect("git is there");
    let text = String::from_utf8(output.stdout).unwrap();
    output.status.success().then_some(text)
}

/// Every line that either hand changed, took out or put in is in a merge as that
/// hand left it, and where both touched one line it is asked about. What `git
/// merge-file` merges without a question is merged to the same text.
#[test]
fn a_merge_is_what_both_hands_did() {
    let folder = std::env::temp_dir().join(format!("boxwright-oracle-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    let mut runner = TestRunner::new(Config {
        cases: 400,
        failure_persistence: None,
        ..Config::default()
    });
    let [merged, asked, by_both] = [(); 3].map(|()| Cell::new(0));
    let one_more = |count: &Cell<u32>| count.set(count.get() + 1);
    let outcome = runner.run(&fates(), |fates| {
        let (three, wanted) = texts(&fates);
        let [base, mine, theirs] = &three;
        let ours = merge(base, mine, theirs);
        match (&ours, &wanted) {
            (Ok(ours), Some(wanted)) => {
                prop_assert_eq!(ours, wanted);
                one_more(&merged);
            }
            (Ok(ours), None) => prop_assert!(false, "decided what nobody can: {}", ours),
            (Err(Clash), _) => one_more(&asked),
        }
        if let Some(other) = by_git(&folder, &three) {
            prop_assert_eq!(ours, Ok(other));
            one_more(&by_both);
        }
        Ok(())
    });
    fs::remove_dir_all(&folder).unwrap();
    outcome.unwrap();
    let [merged, asked, by_both] = [merged, asked, by_both].map(Cell::into_inner);
    assert!(
        merged > 40 && asked > 40 && by_both > 20,
        "too much alike: {merged} merged, {asked} asked about, {by_both} merged by both"
    );
}
