//! Texts made to break a reader: deep, long, huge and odd ones.

use boxwright_design::{key_path, path_at, read, remove_value, set_value};

#[track_caller]
fn refused(text: &str) {
    let found = read(text, Some(text)).expect_err("no such text is a design");
    assert!(!found.is_empty());
    for d in &found {
        assert!(text.get(d.place.start..d.place.end).is_some(), "{d:?}");
        assert!(d.message.len() < 400 && d.mend.len() < 400, "{d:?}");
        let _ = path_at(text, d.place);
    }
    let _ = set_value(text, &key_path("box.kind"), "sealed");
    let _ = remove_value(text, &key_path("a.a"));
}

#[test]
fn deep_texts() {
    let deep = 20_000;
    refused(&format!("a = {}", "[".repeat(deep)));
    refused(&format!("a = {}1{}", "[".repeat(deep), "]".repeat(deep)));
    refused(&format!(
        "a = {}1{}",
        "{a = ".repeat(deep),
        "}".repeat(deep)
    ));
    refused(&format!("{}a = 1", "a.".repeat(deep)));
    refused(&format!("[{}a]\nb = 1", "a.".repeat(deep)));
    refused(&format!("[[{}a]]\nb = 1", "a.".repeat(deep)));
    refused(&format!("a = {{{}a = 1}}", "a.".repeat(deep)));
}

#[test]
fn long_texts() {
    let long = 300_000;
    refused(&format!("distance = \"{} m\"", "9".repeat(long)));
    refused(&format!("distance = {}", "9".repeat(long)));
    refused(&format!("name = \"{}\"", "x ".repeat(long)));
    refused(&format!("{} = 1", "k".repeat(long)));
    refused(&format!("[box]\noutside = \"{}\"", "1 x ".repeat(20_000)));
    refused(&"\n".repeat(long));
    refused(&"[[drivers]]\n".repeat(2_000));
    refused(&"#".repeat(long));
}

#[test]
fn odd_texts() {
    for text in [
        "",
        "\u{feff}",
        "\u{feff}format = 1",
        "\0",
        "\r",
        "\r\n\r\n",
        "format = 1\rname = 2",
        "format = -9223372036854775808",
        "format = 9223372036854775807",
        "format = 1\n[brief]\ndistance = \"\\u0000\"",
        "format = 1\n[brief]\ndistance = \"\u{202e}m 3\"",
        "format = 1\n[brief]\ndistance = \"\"\"\n3 m\n\"\"\"",
        "format = 1\n[brief]\ndistance = '''3\nm'''",
        "format = 1\n[brief]\ndistance = \"3 \\u006d ± \\u0031 q\"",
        "format = 1\n[brief]\ndistance = nan",
        "format = 1\n[brief]\ndistance = 1979-05-27",
        "format = 1\nbrief = 3\ndrivers = 4\nbox = []\ninside = [1]\nbattery = [{}]",
        "format = 1\nbrief.distance = \"3 q\"",
        "format = 1\nbrief = { distance = \"3 q\", }",
        "format = 1\ndrivers = [{ part = \"x\", count = 2 }]",
        "\"\" = 1\n'' = 2",
        "é = 1",
        "[box]\n[box.vent]\n[box.vent.vent]\n[box]\n",
        "[[box]]\n[[brief]]\n[drivers]\n",
    ] {
        refused(text);
    }
}
