//! An editor that saves in the very moment the bench does.

use super::{Session, Side};
use std::fs;
use std::path::PathBuf;
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

/// Whenever the editor saves, its line is in the file afterwards, and so is the bench's.
#[cfg(target_os = "linux")]
#[test]
fn an_editor_is_never_overwritten() {
    let scratch = Scratch::new("race");
    let design = scratch.0.join("design.toml");
    let draft = scratch.0.join("draft");
    fs::write(&design, "mine = 0\n\ntheirs = 0\n").unwrap();
    let mut session = Session::open(&design, None).unwrap();
    for round in 1..=400_u32 {
        let before = session.text().to_string();
        let theirs = before.replace(
            &format!("theirs = {}", round - 1),
            &format!("theirs = {round}"),
        );
        let mine = before.replace(&format!("mine = {}", round - 1), &format!("mine = {round}"));
        let (design, draft) = (design.clone(), draft.clone());
        let part = (f64::from(round) * 0.618_034).fract();
        let editor = thread::spawn(move || {
            fs::write(&draft, theirs).unwrap();
            thread::sleep(Duration::from_micros((part * 3000.0) as u64));
            fs::rename(&draft, &design).unwrap();
        });
        session.change(&mine, "mine").unwrap();
        editor.join().unwrap();
        session.look();
        // An editor that knew nothing of the change has put its whole text over
        // it: then undo has the change.
        if !session.text().contains(&format!("mine = {round}")) {
            session.undo().unwrap();
            assert!(
                session.text().contains(&format!("mine = {round}")),
                "round {round}"
            );
            session.redo().unwrap();
            let both = session
                .text()
                .replace(&format!("mine = {}", round - 1), &format!("mine = {round}"));
            session.change(&both, "again").unwrap();
        }
        assert!(
            session.text().contains(&format!("theirs = {round}")),
            "round {round}"
        );
        assert_eq!(
            fs::read_to_string(scratch.0.join("design.toml")).unwrap(),
            **session.text()
        );
    }
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
