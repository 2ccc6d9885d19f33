//! Links that lead out of the design's folder.
#![cfg(unix)]

use crate::bench::{Bench, Scratch, complaint, until};
use serde_json::json;
use std::fs;
use std::os::unix::fs::symlink;

const SECRET: &str = "password = \"of somebody else\"\n";

fn scratch() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    fs::write(scratch.path("secret"), SECRET).unwrap();
    fs::create_dir(scratch.path("outside")).unwrap();
    scratch
}

/// Nothing outside the design's folder was changed or made.
fn untouched(scratch: &Scratch) {
    assert_eq!(fs::read_to_string(scratch.path("secret")).unwrap(), SECRET);
    assert_eq!(fs::read_dir(scratch.path("outside")).unwrap().count(), 0);
}

#[test]
fn a_shelf_elsewhere_must_be_named() {
    let scratch = scratch();
    let shelf = scratch.path("box/shelf.toml");
    symlink(scratch.path("secret"), &shelf).unwrap();
    let mut child = scratch.command().spawn().unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(2));
    let said = complaint(&mut child);
    assert!(!said.contains("password"), "{said}");
    // Named, it is what the maker wants.
    fs::write(scratch.path("secret"), "format = 1\n").unwrap();
    let mut command = scratch.command();
    command.arg("--shelf").arg(scratch.path("secret"));
    let bench = Bench::start(command);
    bench.wait(|event| event["number"] == 1);
}

#[test]
fn a_shelf_that_becomes_a_link_is_not_read() {
    let scratch = scratch();
    let bench = Bench::open(&scratch);
    symlink(scratch.path("secret"), scratch.path("box/shelf.toml")).unwrap();
    // Long enough for the bench to have looked twice.
    std::thread::sleep(std::time::Duration::from_millis(700));
    let number = bench.set("brief.loudness", "77 dB");
    let event = bench.wait(|event| event["number"].as_u64() >= Some(number));
    assert_ne!(event["stage"], "broken");
    let page = bench.page();
    assert!(!page.contains("password") && !page.contains("somebody else"));
    untouched(&scratch);
}

#[test]
fn a_design_that_becomes_a_link_is_neither_read_nor_written() {
    let scratch = scratch();
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["number"] == 1);
    fs::remove_file(scratch.design()).unwrap();
    symlink(scratch.path("secret"), scratch.design()).unwrap();
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "77 dB"});
    let answer = bench.post("/do", &edit);
    assert_eq!(answer.status(), 422, "{}", answer.text());
    until("the bench says so", || {
        bench.page().contains("no longer a file")
    });
    assert!(!bench.page().contains("somebody else"));
    untouched(&scratch);
}

#[test]
fn what_is_kept_beside_the_design_stays_beside_it() {
    for link in [
        ".design.toml.bench",
        ".design.toml.bench/history",
        ".design.toml.bench/lock",
        ".design.toml.bench/steps",
    ] {
        let scratch = scratch();
        let path = scratch.path("box").join(link);
        let inside = link.contains('/');
        if inside {
            fs::create_dir(path.parent().unwrap()).unwrap();
            symlink(scratch.path("secret"), &path).unwrap();
        } else {
            symlink(scratch.path("outside"), &path).unwrap();
        }
        let bench = Bench::open(&scratch);
        bench.set("brief.loudness", "77 dB");
        bench.act(&json!({"what": "undo"}));
        bench.set("brief.loudness", "78 dB");
        assert!(scratch.text().contains("\"78 dB\""), "{link}");
        untouched(&scratch);
    }
}

/// The maker named the link: the file it leads to is the design, and stays where it is.
#[test]
fn a_design_named_by_a_link_is_edited_in_its_place() {
    let scratch = scratch();
    let link = scratch.path("outside/link.toml");
    symlink(scratch.design(), &link).unwrap();
    let mut command = scratch.bare();
    command.arg(&link);
    let bench = Bench::start(command);
    bench.set("brief.loudness", "77 dB");
    assert!(scratch.text().contains("\"77 dB\""));
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::read_dir(scratch.path("outside")).unwrap().count(), 1);
}
