//! Killed at any moment of saving, a thousand times.
//!
//! A process of this test's own runs the code that saves, over and over, and
//! is killed without a warning. The whole bench is killed in the tests beside
//! this crate, not as often: it takes longer to start.

use super::Session;
use std::collections::BTreeSet;
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

const KILLS: u32 = 1000;

/// Designs that are written at once: a save waits for the disk more than it works.
const WRITERS: u32 = 4;

/// So often what is kept for undo is tried and forgotten.
const BEGUN_ANEW: u32 = 25;

/// Where the process that is to be killed finds its design.
const VICTIM: &str = "BOXWRIGHT_TEST_VICTIM";

/// Longer than a page of a disk.
fn text(number: u64) -> String {
    let filling = "# a remark among many\n".repeat(250);
    format!("first = {number}\n{filling}last = {number}\n")
}

/// The number of a text that is whole.
fn number(text: &str) -> Option<u64> {
    let first = text.lines().next()?.strip_prefix("first = ")?;
    let number = first.parse().ok()?;
    (text == self::text(number)).then_some(number)
}

#[test]
#[ignore = "is run and killed by the test below"]
fn victim() {
    let Some(design) = std::env::var_os(VICTIM) else {
        return;
    };
    let mut session = Session::open(Path::new(&design), None).unwrap();
    let from = number(session.text()).expect("a whole text to begin with");
    for number in from + 1.. {
        if number == from + 2 {
            // The one that kills waits for the first of this.
            println!("@");
        }
        session.change(&text(number), "one more").unwrap();
    }
}

/// Runs the victim and kills it after so long.
fn kill(design: &Path, after: Duration) {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args([
            "--exact",
            "bench::session::kill::victim",
            "--ignored",
            "--nocapture",
        ])
        .env(VICTIM, design)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let said = BufReader::new(child.stdout.take().unwrap());
    let ready = said
        .lines()
        .map_while(Result::ok)
        .any(|line| line.contains('@'));
    assert!(ready, "the victim ended early");
    std::thread::sleep(after);
    child.kill().unwrap();
    child.wait().unwrap();
}

/// Runs and kills writers of one design, one after the other; what they left unfinished.
fn besiege(folder: &Path) -> usize {
    fs::create_dir_all(folder).unwrap();
    let design = folder.join("design.toml");
    fs::write(&design, text(0)).unwrap();
    let mut last = 0;
    let mut left = 0;
    for round in 0..KILLS / WRITERS {
        // Golden steps leave no moment out.
        let part = (f64::from(round) * 0.618_034).fract();
        kill(&design, Duration::from_micros((part * 6000.0) as u64));
        let now = fs::read_to_string(&design).unwrap();
        let number = number(&now).unwrap_or_else(|| panic!("torn in round {round}"));
        assert!(number > last, "round {round}: what was saved is gone");
        last = number;
        if round % BEGUN_ANEW == BEGUN_ANEW - 1 {
            left += undone(&design);
        }
    }
    left
}

/// Goes back over all that is remembered, then forgets it: what is written with
/// every save stays short.
fn undone(design: &Path) -> usize {
    let left = drafts(design.parent().unwrap()).len();
    let mut session = Session::open(design, None).unwrap();
    let newest = session.text().to_string();
    for _ in 0..BEGUN_ANEW {
        assert!(session.undo_words().is_some(), "undo has suffered");
        session.undo().unwrap();
        assert!(number(&fs::read_to_string(design).unwrap()).is_some());
    }
    session.change(&newest, "back").unwrap();
    drop(session);
    fs::remove_dir_all(design.with_file_name(".design.toml.bench")).unwrap();
    for draft in drafts(design.parent().unwrap()) {
        fs::remove_file(draft).unwrap();
    }
    left
}

#[test]
fn a_thousand_kills_tear_no_file() {
    let name = format!("boxwright-kill-{}", std::process::id());
    let folder = std::env::temp_dir().join(name);
    let writers = [(); WRITERS as usize].iter().enumerate().map(|(n, ())| {
        let folder = folder.join(n.to_string());
        std::thread::spawn(move || besiege(&folder))
    });
    let writers: Vec<_> = writers.collect();
    let left: usize = writers
        .into_iter()
        .map(|writer| writer.join().unwrap())
        .sum();
    // Some were killed in the middle of a save: the draft they were at is left.
    assert!(left > 20, "only {left} were killed while saving");
    fs::remove_dir_all(&folder).unwrap();
}

/// Files that were being written when the writer was killed.
fn drafts(folder: &Path) -> Vec<PathBuf> {
    let inside = |folder: &Path| -> BTreeSet<PathBuf> {
        let entries = fs::read_dir(folder).unwrap();
        entries.map(|entry| entry.unwrap().path()).collect()
    };
    let mut found = inside(folder);
    let aside = folder.join(".design.toml.bench");
    found.extend(aside.exists().then(|| inside(&aside)).into_iter().flatten());
    let is_draft = |path: &PathBuf| path.extension().is_some_and(|end| end == "part");
    found.into_iter().filter(is_draft).collect()
}
