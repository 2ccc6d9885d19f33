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

/// Where the process that is to be killed finds its design.
const VICTIM: &str = "BOXWRIGHT_TEST_VICTIM";

/// Long enough to take more than one write.
fn text(number: u64) -> String {
    let filling = "# a remark among many\n".repeat(4000);
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

#[test]
fn a_thousand_kills_tear_no_file() {
    let name = format!("boxwright-kill-{}", std::process::id());
    let folder = std::env::temp_dir().join(name);
    let halves = [folder.join("a"), folder.join("b")];
    let half = |folder: PathBuf| {
        move || {
            fs::create_dir_all(&folder).unwrap();
            let design = folder.join("design.toml");
            fs::write(&design, text(0)).unwrap();
            let mut last = 0;
            for round in 0..KILLS / 2 {
                // Golden steps leave no moment out.
                let part = (f64::from(round) * 0.618_034).fract();
                kill(&design, Duration::from_micros((part * 6000.0) as u64));
                let now = fs::read_to_string(&design).unwrap();
                let number = number(&now).unwrap_or_else(|| panic!("torn in round {round}"));
                assert!(number > last, "round {round}: what was saved is gone");
                last = number;
            }
            let mut session = Session::open(&design, None).unwrap();
            for _ in 0..20 {
                session.undo().unwrap();
                assert!(number(&fs::read_to_string(&design).unwrap()).is_some());
            }
            drafts(&folder)
        }
    };
    let [one, other] = halves.map(|folder| std::thread::spawn(half(folder)));
    let left = [one.join().unwrap(), other.join().unwrap()].concat();
    // Some were killed in the middle of a save: the draft they were at is left.
    assert!(
        left.len() > 20,
        "only {} were killed while saving",
        left.len()
    );
    fs::remove_dir_all(&folder).unwrap();
}

/// Files that were being written when the writer was killed.
fn drafts(folder: &Path) -> Vec<PathBuf> {
    let inside = |folder: &Path| -> BTreeSet<PathBuf> {
        let entries = fs::read_dir(folder).unwrap();
        entries.map(|entry| entry.unwrap().path()).collect()
    };
    let mut found = inside(folder);
    found.extend(inside(&folder.join(".design.toml.bench")));
    let is_draft = |path: &PathBuf| path.extension().is_some_and(|end| end == "part");
    found.into_iter().filter(is_draft).collect()
}
