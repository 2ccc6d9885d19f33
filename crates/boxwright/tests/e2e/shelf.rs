//! `boxwright shelf` and `boxwright explain`.

use crate::support::{answer, boxwright, golden};

#[test]
fn the_shelf_and_the_checks_are_listed() {
    golden("shelf.txt", &answer(&["shelf"]));
    golden("explain.txt", &answer(&["explain"]));
    golden(
        "explain-lead-acid.txt",
        &answer(&["explain", "lead-acid-airtight"]),
    );
    golden(
        "shelf-woofer.txt",
        &answer(&["shelf", "woofer 4 in, 4 ohm"]),
    );
}

#[test]
fn the_maker_s_own_shelf_comes_with_the_design() {
    let own = [
        "shelf",
        "--design",
        "examples/salvage-party",
        "birch plywood 15 mm",
    ];
    let told = answer(&own);
    assert!(
        told.contains("thickness = \"14.6 mm ± 0.2 mm\"  # your own"),
        "{told}"
    );
    assert!(!answer(&["shelf", "birch plywood 15 mm"]).contains("14.6"));
    let listed = answer(&["shelf", "--shelf", "examples/salvage-party/shelf.toml"]);
    assert!(
        listed.contains("coaxial from an old estate car"),
        "{listed}"
    );
    assert!(listed.contains("2 on hand"), "{listed}");
    assert!(
        listed.contains("640 mm long, 350 mm wide, 2 alike"),
        "{listed}"
    );
    // Its offcuts are shown with the sheet they are of.
    let offcuts = told.matches("[[offcut]]\nsheet = \"birch plywood 15 mm\"");
    assert_eq!(offcuts.count(), 2, "{told}");
}

#[test]
fn what_the_carpentry_needs_is_told() {
    let told = answer(&["shelf", "rotary potentiometer, M7"]);
    for said in [
        "[[control]]",
        "kind = \"potentiometer\"",
        "thread = \"M7\"",
        "bush = \"7 mm\"",
        "body = \"17 mm x 18 mm x 14 mm\"",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
    let driver = answer(&["shelf", "woofer 4 in, 4 ohm"]);
    assert!(driver.contains("screw_circle = "), "{driver}");
    let metal = answer(&["shelf", "aluminium plate 2 mm"]);
    assert!(metal.contains("metal = true"), "{metal}");
    let listed = answer(&["shelf", "--json"]);
    assert!(listed.contains("\"kind\": \"control\""), "{listed}");
}

#[test]
fn slips_of_the_pen_are_understood() {
    for (arguments, meant) in [
        (["shelf", "wofer 4 in, 4 ohm"], "woofer 4 in, 4 ohm"),
        (["explain", "lead-acid-airtigt"], "lead-acid-airtight"),
    ] {
        let ran = boxwright(&arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        assert!(
            ran.err.contains(&format!("did you mean {meant:?}")),
            "{}",
            ran.err
        );
    }
    let ran = boxwright(&["explain", "unit-missing"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("mistake in its text"), "{}", ran.err);
}

#[test]
fn every_check_is_told_whole() {
    let listed = answer(&["explain"]);
    let ids: Vec<&str> = listed
        .lines()
        .take_while(|line| !line.is_empty())
        .filter(|line| !line.starts_with(' '))
        .map(|line| line.split_whitespace().next().unwrap())
        .collect();
    assert!(ids.len() > 20, "{ids:?}");
    for id in ids {
        let told = answer(&["explain", id]);
        for heading in [
            "What is checked",
            "Why",
            "Limits",
            "Finds fault with",
            "Passes",
            "Sources",
        ] {
            let body = told.split(&format!("\n{heading}\n")).nth(1);
            assert!(
                body.is_some_and(|body| body.starts_with("  ")),
                "{id}: {heading}"
            );
        }
    }
}
