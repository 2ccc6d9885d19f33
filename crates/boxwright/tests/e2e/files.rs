//! Files that are no designs, and places nothing can be written to.

use crate::support::{FEW, Scratch, boxwright, command, example, ran};
use std::fs;

/// No answer, exit status 2, and these words in the complaint.
fn refused(arguments: &[&str], words: &[&str]) {
    let ran = boxwright(arguments);
    assert_eq!(
        (ran.status, ran.out.as_str()),
        (2, ""),
        "{arguments:?}: {}",
        ran.err
    );
    let said = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
    for word in words {
        assert!(said.contains(word), "{arguments:?}: {said}");
    }
}

#[test]
fn what_cannot_be_read_is_said_plainly() {
    let scratch = Scratch::new();
    refused(
        &["check", "nowhere.toml"],
        &["there is no file nowhere.toml", "boxwright new"],
    );
    refused(
        &["check", &scratch.path("")],
        &["is a folder", "design.toml"],
    );
    let latin = scratch.file("latin.toml", b"format = 1\nname = \"caf\xe9\"\n");
    refused(&["check", &latin], &["line 2", "UTF-8"]);
    let large = scratch.file("large.toml", "#".repeat((4 << 20) + 1));
    refused(&["check", &large], &["larger than 4 MB"]);
    let empty = scratch.file("empty.toml", "");
    refused(&["check", &empty], &["format"]);
    let no_shelf = scratch.path("none.toml");
    refused(
        &["check", &example("bathing-beach"), "--shelf", &no_shelf],
        &["there is no file"],
    );
}

#[test]
fn a_folder_stands_for_the_design_in_it() {
    let by_folder = boxwright(&["check", FEW, "examples/salvage-party"]);
    let by_file = boxwright(&["check", FEW, &example("salvage-party")]);
    assert_eq!(by_folder.status, 0, "{}", by_folder.err);
    assert_eq!(by_folder.out, by_file.out);
}

#[test]
fn the_design_where_we_stand_is_found() {
    let scratch = Scratch::new();
    scratch.copied("salvage-party");
    let ran = ran(command(&["check", FEW]).current_dir(scratch.path("")));
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.starts_with("Salvage party"));
}

#[test]
fn a_shelf_can_be_named() {
    let scratch = Scratch::new();
    let design = fs::read_to_string(crate::support::root().join(example("salvage-party"))).unwrap();
    let alone = scratch.file("alone.toml", design);
    refused(&["check", &alone], &["coaxial from an old estate car"]);
    let named = boxwright(&[
        "check",
        FEW,
        &alone,
        "--shelf",
        "examples/salvage-party/shelf.toml",
    ]);
    assert_eq!(named.status, 0, "{}", named.err);
}

#[test]
fn a_broken_shelf_beside_a_design_is_shown_as_the_shelf() {
    let scratch = Scratch::new();
    let design = scratch.copied("bathing-beach");
    let shelf = scratch.file(
        "shelf.toml",
        "format = 1\n[[driver]]\nname = \"x\"\nkind = 3\n",
    );
    refused(&["check", &design], &[&shelf, "kind"]);
}

#[test]
fn a_stop_is_exit_status_one() {
    let scratch = Scratch::new();
    let path = scratch.with_a_stop();
    let ran = boxwright(&["check", FEW, &path]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    assert!(ran.out.contains("■ stop"), "{}", ran.out);
    assert_eq!(boxwright(&["check", "--json", FEW, &path]).status, 1);
}

#[test]
fn a_full_disk_is_noticed() {
    if !std::path::Path::new("/dev/full").exists() {
        return;
    }
    let full = fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .unwrap();
    let output = command(&["shelf"]).stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("cannot write the answer"));
}

#[test]
fn what_is_not_understood_is_exit_status_two() {
    for arguments in [
        &["chek"][..],
        &["check", "--builds", "many"],
        &["check", "--builds", "100001"],
        &["check", "--builds", "1"],
        &["check", "--builds", "99"],
        &["export"],
        &["export", "--netlist", "--curves"],
        &["new", "--like", "nothing"],
        &["pack", "--paper", "a3"],
    ] {
        let ran = boxwright(arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!ran.err.is_empty());
    }
}
