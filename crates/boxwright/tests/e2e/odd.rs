//! Odd designs: every number of every example, from nothing to a thousand times
//! as large. Whatever is read is answered, and whatever is refused is shown.

use crate::support::root;
use std::fs;
use studies::{Options, Report, Texts, run, survey};

/// By turns from number to number: each study takes a good part of a second.
const FACTORS: [[f64; 3]; 2] = [[0.0, 3.0, 30.0], [0.03, 3.0, 1000.0]];

/// Mends are tried, which takes longest, for one number in so many.
const MENDED: usize = 4;

/// Where the numbers of a text stand: after `= ` or `= "`.
fn numbers(text: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if let Some((key, value)) = line.split_once(" = ") {
            let quote = usize::from(value.starts_with('"'));
            let digits = value[quote..]
                .find(|c: char| !c.is_ascii_digit() && c != '.')
                .unwrap_or(0);
            let start = at + key.len() + 3 + quote;
            if digits > 0 && key != "format" {
                found.push((start, start + digits));
            }
        }
        at += line.len();
    }
    found
}

/// The report, where the design can be read; every mistake must lie in a text.
fn answered(design: &str, shelf: Option<&str>, mending: bool) -> Option<Report> {
    let options = Options {
        builds: 8,
        spread: 1.0,
        progress: &|_| {},
    };
    let study = if mending { run } else { survey };
    match study(Texts { design, shelf }, options) {
        Ok(report) => Some(report),
        Err(found) => {
            assert!(!found.is_empty());
            for mistake in found {
                let text = match mistake.place.file {
                    design::FileId::Design => design,
                    design::FileId::Shelf => shelf.expect("it has a shelf"),
                    design::FileId::BuiltIn => design::BUILT_IN_SHELF,
                };
                assert!(text.get(mistake.place.start..mistake.place.end).is_some());
            }
            None
        }
    }
}

fn sound(report: &Report, what: &str) {
    for promise in &report.promises {
        assert!(
            !promise.value.is_nan(),
            "{what}: {} is no number",
            promise.id
        );
        assert!(
            promise.odds.is_none_or(|odds| (0.0..=1.0).contains(&odds)),
            "{what}"
        );
    }
    for curve in &report.curves {
        assert_eq!(curve.x.len(), curve.y.len(), "{what}");
        assert!(
            curve.y.iter().all(|y| !y.is_nan()),
            "{what}: {} has holes",
            curve.id
        );
    }
    assert!(!report.findings.is_empty(), "{what}");
}

/// Every number of one example, made odd.
fn odd_numbers_are_answered_or_refused(name: &str) {
    let (mut read, mut refused) = (0, 0);
    let folder = root().join("examples").join(name);
    let text = fs::read_to_string(folder.join("design.toml")).unwrap();
    let shelf = fs::read_to_string(folder.join("shelf.toml")).ok();
    let places = numbers(&text);
    assert!(places.len() > 15, "{name}: {places:?}");
    for (turn, (start, end)) in places.into_iter().enumerate() {
        for factor in FACTORS[turn % 2] {
            let number: f64 = text[start..end].parse().unwrap();
            let odd = format!("{}{}{}", &text[..start], factor * number, &text[end..]);
            let line = odd[start..].lines().next().unwrap();
            let mending = turn % MENDED == 0;
            match answered(&odd, shelf.as_deref(), mending) {
                Some(report) => {
                    sound(&report, &format!("{name}: {line}"));
                    read += 1;
                }
                None => refused += 1,
            }
        }
    }
    assert!(read > 40 && refused > 10, "{read} read, {refused} refused");
}

// One test for each example: they run beside one another.

#[test]
fn odd_numbers_of_the_bathing_beach() {
    odd_numbers_are_answered_or_refused("bathing-beach");
}

#[test]
fn odd_numbers_of_the_salvage_party() {
    odd_numbers_are_answered_or_refused("salvage-party");
}

#[test]
fn odd_numbers_of_the_workshop_mono() {
    odd_numbers_are_answered_or_refused("workshop-mono");
}
