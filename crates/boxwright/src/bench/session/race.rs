//! An editor that saves in the very moment the bench does.

use super::{Longer, Session, Side};
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

/// A folder of its own, gone afterwards.
struct Scratch(PathBuf);

impl Scratch {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("boxwright-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        Self(folder)
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

/// How an editor saves a text into a file, so long after it began.
type Saving = fn(&Path, &str, Duration);

/// Writes a file of its own and puts it in the place of the design.
fn by_renaming(design: &Path, text: &str, after: Duration) {
    let draft = design.with_file_name("draft");
    fs::write(&draft, text).unwrap();
    thread::sleep(after);
    fs::rename(&draft, design).unwrap();
}

/// Empties the design and writes it anew, in two goes.
fn in_place(design: &Path, text: &str, after: Duration) {
    thread::sleep(after / 3);
    let mut file = fs::File::create(design).unwrap();
    let (one, other) = text.split_at(text.len() / 2);
    file.write_all(one.as_bytes()).unwrap();
    thread::sleep(after / 3);
    file.write_all(other.as_bytes()).unwrap();
}

/// Opens the design, and writes over what is in it later.
fn in_place_later(design: &Path, text: &str, after: Duration) {
    let mut file = OpenOptions::new().write(true).open(design).unwrap();
    thread::sleep(after);
    file.set_len(0).unwrap();
    file.write_all(text.as_bytes()).unwrap();
}

/// Lets an editor save in the moment the bench does, again and again.
/// Whenever the editor saves, its line is in the file afterwards, and so is the bench's.
fn race(name: &str, rounds: u32, saving: Saving) {
    let scratch = Scratch::new(name);
    let design = scratch.0.join("design.toml");
    fs::write(&design, "mine = 0\n\ntheirs = 0\n").unwrap();
    let mut session = Session::open(&design, None).unwrap();
    for round in 1..=rounds {
        let before = session.text().to_string();
        let theirs = before.replace(
            &format!("theirs = {}\n", round - 1),
            &format!("theirs = {round}\n"),
        );
        let [was, is] = [round - 1, round].map(|round| format!("mine = {round}\n"));
        let mine = before.replace(&was, &is);
        let at = design.clone();
        let part = (f64::from(round) * 0.618_034).fract();
        let after = Duration::from_micros((part * 3000.0) as u64);
        let editor = thread::spawn(move || saving(&at, &theirs, after));
        session.change(&mine, "mine").unwrap();
        editor.join().unwrap();
        while session.look() {}
        // Half of what the editor wrote was met: that may be asked about.
        session.settle(Side::Theirs).unwrap();
        // An editor that knew nothing of the change has put its whole text over
        // it: then undo has the change.
        if !session.text().contains(&is) {
            let now = session.text().to_string();
            while !session.text().contains(&is) {
                assert!(
                    session.undo_words().is_some(),
                    "round {round}: mine is lost"
                );
                session.undo().unwrap();
            }
            session.change(&now.replace(&was, &is), "again").unwrap();
        }
        assert!(
            session.text().contains(&format!("theirs = {round}\n")),
            "round {round}: {:?}",
            session.text()
        );
        assert_eq!(fs::read_to_string(&design).unwrap(), **session.text());
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_editor_that_renames_is_never_overwritten() {
    race("race-rename", 200, by_renaming);
}

#[cfg(target_os = "linux")]
#[test]
fn an_editor_that_writes_in_place_is_never_overwritten() {
    race("race-in-place", 100, in_place);
}

#[cfg(target_os = "linux")]
#[test]
fn an_editor_that_opened_the_file_before_is_never_overwritten() {
    race("race-later", 100, in_place_later);
}

/// The same on the shelf, where parts come while the editor writes.
#[cfg(target_os = "linux")]
#[test]
fn an_editor_of_the_shelf_is_never_overwritten() {
    let scratch = Scratch::new("shelf-race");
    let [design, shelf, draft] =
        ["design.toml", "shelf.toml", "draft"].map(|name| scratch.0.join(name));
    fs::write(&design, "a = 0\n").unwrap();
    fs::write(&shelf, "format = 1\n").unwrap();
    let mut session = Session::open(&design, None).unwrap();
    let mut kept = 0;
    for round in 1..=200_u32 {
        let remark = format!("# theirs {round}\n");
        let theirs = format!("{}{remark}", session.shelf().unwrap());
        let (target, draft) = (shelf.clone(), draft.clone());
        let moment = (f64::from(round) * 0.618_034).fract();
        let editor = thread::spawn(move || {
            fs::write(&draft, theirs).unwrap();
            thread::sleep(Duration::from_micros((moment * 3000.0) as u64));
            fs::rename(&draft, &target).unwrap();
        });
        let part = format!("[[driver]]\nname = \"mine {round}\"\n");
        loop {
            session.look();
            let longer = Longer::new(session.shelf().map(|text| &**text), &part);
            if session.shelve(&longer, "a = 0\n", "mine").unwrap() {
                break;
            }
        }
        editor.join().unwrap();
        session.look();
        let now = fs::read_to_string(&shelf).unwrap();
        assert!(now.contains(&remark), "round {round}: {now}");
        // An editor that knew nothing of the part has put its whole text over it.
        kept += u32::from(now.contains(&part));
    }
    assert!(kept > 0, "both were never kept");
}

#[test]
fn the_same_line_is_asked_about() {
    for side in [Side::Mine, Side::Theirs] {
        let scratch = Scratch::new(&format!("ask-{side:?}"));
        let design = scratch.0.join("design.toml");
        fs::write(&design, "a = 0\n").unwrap();
        let mut session = Session::open(&design, None).unwrap();
        fs::write(&design, "a = 1\n").unwrap();
        session.change("a = 2\n", "mine").unwrap();
        assert_eq!(&*session.conflict().unwrap().theirs, "a = 1\n");
        assert_eq!(&**session.text(), "a = 2\n");
        assert_eq!(fs::read_to_string(&design).unwrap(), "a = 1\n");
        assert!(session.change("a = 3\n", "more").is_err());
        assert!(session.undo().is_err());
        // It goes on meanwhile: that counts.
        fs::write(&design, "a = 4\n").unwrap();
        session.look();
        assert_eq!(&*session.conflict().unwrap().theirs, "a = 4\n");
        session.settle(side).unwrap();
        let (kept, other) = match side {
            Side::Mine => ("a = 2\n", "a = 4\n"),
            Side::Theirs => ("a = 4\n", "a = 2\n"),
        };
        assert!(session.conflict().is_none());
        assert_eq!(fs::read_to_string(&design).unwrap(), kept);
        session.undo().unwrap();
        assert_eq!(fs::read_to_string(&design).unwrap(), other);
    }
}

/// An editor that changes its mind ends the question.
#[test]
fn a_question_can_answer_itself() {
    let scratch = Scratch::new("answer");
    let design = scratch.0.join("design.toml");
    fs::write(&design, "a = 0\n").unwrap();
    let mut session = Session::open(&design, None).unwrap();
    fs::write(&design, "a = 1\n").unwrap();
    session.change("a = 2\n", "mine").unwrap();
    fs::write(&design, "a = 2\n").unwrap();
    assert!(session.look());
    assert!(session.conflict().is_none());
    assert_eq!(&**session.text(), "a = 2\n");
}
