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
            let id = offer["id"].as_str().unwrap();
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
