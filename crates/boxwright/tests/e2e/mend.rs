//! `boxwright mend`.

use crate::support::{FEW, Scratch, boxwright};
use serde_json::Value;
use std::fs;

fn finding(path: &str, id: &str) -> Option<Value> {
    let ran = boxwright(&["check", "--json", FEW, path]);
    let report: Value = serde_json::from_str(&ran.out).unwrap();
    let findings = report["findings"].as_array().unwrap();
    findings.iter().find(|finding| finding["id"] == id).cloned()
}

#[test]
fn a_mend_is_made_and_every_other_byte_stays() {
    let scratch = Scratch::new();
    let path = scratch.with_a_stop();
    let before = fs::read_to_string(&path).unwrap();
    assert_eq!(
        finding(&path, "lead-acid-airtight").unwrap()["severity"],
        "stop"
    );
    let ran = boxwright(&["mend", FEW, &path, "lead-acid-airtight"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let after = fs::read_to_string(&path).unwrap();
    let kept = before.replace("vented_bay = false", "vented_bay = true");
    let added = after.strip_prefix(&kept).expect("every other byte stays");
    assert!(added.trim_start().starts_with("[bay]"), "{added}");
    assert!(ran.out.contains("- vented_bay = false"), "{}", ran.out);
    assert!(ran.out.contains("+ vented_bay = true"), "{}", ran.out);
    assert!(ran.out.contains("+ [bay]"), "{}", ran.out);
    assert!(
        !ran.out.contains("[box.vent]"),
        "only what changed: {}",
        ran.out
    );
    assert_eq!(
        finding(&path, "lead-acid-airtight").unwrap()["severity"],
        "good"
    );
    assert_eq!(
        scratch.names(),
        ["design.toml", "shelf.toml"],
        "nothing is left behind"
    );
}

#[test]
fn every_mend_on_offer_can_be_made() {
    for example in crate::support::EXAMPLES {
        let listed = boxwright(&["mend", "--json", &crate::support::example(example)]);
        let listed: Value = serde_json::from_str(&listed.out).unwrap();
        for offer in listed["mends"].as_array().unwrap() {
            let id = offer["name"].as_str().unwrap();
            let scratch = Scratch::new();
            let path = scratch.copied(example);
            let ran = boxwright(&["mend", &path, id]);
            assert_eq!(ran.status, 0, "{example} {id}: {}", ran.err);
            let checked = boxwright(&["check", &path]);
            assert_eq!(checked.status, 0, "{example} {id}: {}", checked.out);
        }
    }
}

#[test]
fn what_cannot_be_mended_is_said() {
    let scratch = Scratch::new();
    let path = scratch.with_a_stop();
    let before = fs::read(&path).unwrap();
    for (id, words) in [
        ("nothing", "no finding nothing"),
        ("driver-unknown", "no single edit"),
    ] {
        let ran = boxwright(&["mend", FEW, &path, id]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        assert!(ran.err.contains(words), "{}", ran.err);
    }
    assert_eq!(fs::read(&path).unwrap(), before);
}

/// A design in which two things are let into the wrong places of two walls.
fn with_two_stops_of_one_check(scratch: &Scratch) -> String {
    let path = scratch.copied("bathing-beach");
    let text = fs::read_to_string(&path).unwrap();
    let panel = text.replace("at = \"120 x 100 mm\"", "at = \"82 x 100 mm\"");
    let both = panel.replace("inset = \"25 mm\"", "inset = \"8 mm\"");
    assert!(both != panel && panel != text);
    fs::write(&path, both).unwrap();
    path
}

#[test]
fn one_of_several_of_a_check_is_mended_by_its_number() {
    let scratch = Scratch::new();
    let path = with_two_stops_of_one_check(&scratch);
    let ran = boxwright(&["check", FEW, &path]);
    for name in ["[holes-clear.1]", "[holes-clear.2]"] {
        assert!(ran.out.contains(name), "{name}: {}", ran.out);
    }
    let ran = boxwright(&["mend", FEW, &path, "holes-clear"]);
    assert_eq!(ran.status, 2, "{}", ran.out);
    for words in [
        "2 findings are called holes-clear",
        "holes-clear.2 (A hole for a foot screw",
    ] {
        let said = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(words), "{words}: {}", ran.err);
    }
    let ran = boxwright(&["mend", FEW, &path, "holes-clear.2"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("- inset = \"8 mm\""), "{}", ran.out);
    let left = finding(&path, "holes-clear").unwrap();
    assert_eq!(left["name"], "holes-clear", "one alone needs no number");
    assert!(left["title"].as_str().unwrap().contains("panel"), "{left}");
}

#[test]
fn what_only_follows_is_mended_with_its_cause() {
    let scratch = Scratch::new();
    let path = with_two_stops_of_one_check(&scratch);
    let ran = boxwright(&["mend", FEW, &path, "parts-collide"]);
    assert_eq!(ran.status, 2, "{}", ran.out);
    assert!(
        ran.err.contains("parts-collide follows from holes-clear.1"),
        "{}",
        ran.err
    );
}

#[test]
fn what_is_in_order_needs_no_mend() {
    let scratch = Scratch::new();
    let path = scratch.copied("salvage-party");
    let before = fs::read(&path).unwrap();
    let ran = boxwright(&["mend", FEW, &path, "lead-acid-airtight"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert_eq!(ran.out, "lead-acid-airtight is in order: nothing to mend\n");
    let ran = boxwright(&["mend", "--json", FEW, &path, "lead-acid-airtight"]);
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(
        (ran.status, &answer["written"]),
        (0, &serde_json::json!([]))
    );
    assert_eq!(fs::read(&path).unwrap(), before);
}

#[test]
fn mends_are_listed() {
    let scratch = Scratch::new();
    let ran = boxwright(&["mend", FEW, &scratch.with_a_stop()]);
    assert_eq!(ran.status, 0);
    assert!(ran.out.contains("battery.vented_bay = true"), "{}", ran.out);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_permissions_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let scratch = Scratch::new();
    let path = scratch.with_a_stop();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let link = scratch.path("link.toml");
    symlink("design.toml", &link).unwrap();
    let ran = boxwright(&["mend", FEW, &link, "lead-acid-airtight"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(
        fs::metadata(&path).unwrap().permissions().mode() & 0o777,
        0o640
    );
    assert!(
        fs::read_to_string(&path)
            .unwrap()
            .contains("vented_bay = true")
    );
}
