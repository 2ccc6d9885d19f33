//! What a design says is text, wherever it is shown.

use crate::bench::{Bench, Scratch};
use serde_json::json;
use std::io::Write;
use std::process::{Command, Stdio};

const EVIL: &str = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)>";

/// A design whose every name is an attack.
fn evil() -> Scratch {
    named(EVIL)
}

/// A design in which everything bears this name.
fn named(name: &str) -> Scratch {
    let scratch = Scratch::new();
    scratch.copy("salvage-party");
    let text = scratch.text();
    let quoted: String = name.chars().map(escaped).collect();
    let mut named = text.clone();
    let line = text
        .lines()
        .find(|line| line.starts_with("name ="))
        .unwrap();
    named = named.replacen(line, &format!("name = \"{quoted}\""), 1);
    named += &format!("\n[[inside]]\nname = \"{quoted}\"\nvolume = \"10 cm³\"\n");
    // A part of the maker's own with such a name, and the use of it.
    let shelf = std::fs::read_to_string(scratch.path("box/shelf.toml")).unwrap();
    let part = shelf
        .lines()
        .find_map(|l| l.strip_prefix("name = \"")?.strip_suffix('"'))
        .unwrap();
    let own = shelf.replace(&format!("\"{part}\""), &format!("\"{quoted}\""));
    named = named.replace(&format!("\"{part}\""), &format!("\"{quoted}\""));
    std::fs::write(scratch.path("box/shelf.toml"), own).unwrap();
    scratch.write(&named);
    scratch
}

/// A character as the design file may hold it between quotes.
fn escaped(c: char) -> String {
    match c {
        '"' | '\\' => format!("\\{c}"),
        c if c.is_control() => format!("\\u{:04x}", u32::from(c)),
        c => c.to_string(),
    }
}

/// No tag of the attack is left in a text of marks.
fn harmless(text: &str, what: &str) {
    assert!(
        text.contains("alert(1)"),
        "{what} does not show the name at all"
    );
    for tag in ["<script>alert", "<img src=x", "\"'><img"] {
        assert!(!text.contains(tag), "{what} holds {tag}");
    }
}

#[test]
fn names_are_text_on_the_page() {
    let scratch = evil();
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["number"] == 1);
    for path in [
        "/",
        "/parts",
        "/?sheet=parts",
        "/?sheet=build",
        "/parts?sheet=%3Cscript%3Ealert(1)%3C/script%3E&part=%22%3E%3Cimg%20src=x%3E",
    ] {
        harmless(&bench.get(path).text(), path);
    }
    let edit = json!({"what": "set", "key": "brief.loudness", "value": EVIL});
    for path in ["/do", "/try"] {
        let answer = bench.post(path, &edit);
        assert_eq!(answer.status(), 422);
        assert_eq!(
            answer.header("Content-Type").as_deref(),
            Some("application/json")
        );
    }
    let rename = json!({"what": "set", "key": "name", "value": format!("{EVIL} 2")});
    let tried = bench.post("/try", &rename);
    assert_eq!(tried.status(), 200);
    assert!(!tried.text().contains("<script>"));
    // What is refused is said as text too.
    let answer = bench.get("/explain/%3Cscript%3Ealert(1)%3C%2Fscript%3E");
    assert!(!answer.text().contains("<script>"));
}

#[test]
fn names_are_text_on_sheets() {
    let scratch = evil();
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["number"] == 1);
    let mut shown = 0;
    for number in 1.. {
        let answer = bench.get(&format!("/sheet/{number}.svg"));
        if answer.status() == 404 {
            break;
        }
        let kind = answer.header("Content-Type");
        assert_eq!(kind.as_deref(), Some("image/svg+xml"));
        let text = answer.text();
        for tag in ["<script", "<img", "onerror=\""] {
            assert!(!text.contains(tag), "sheet {number} holds {tag}");
        }
        shown += usize::from(text.contains("alert(1)"));
        assert!(is_xml(text.as_bytes()), "sheet {number} is no XML");
    }
    assert!(shown > 3, "{shown} sheets show the name");
    let pack = bench.get("/pack.pdf");
    assert_eq!(
        pack.header("Content-Type").as_deref(),
        Some("application/pdf")
    );
    let bytes = pack.body();
    for active in [
        &b"/JavaScript"[..],
        b"/JS",
        b"/OpenAction",
        b"/Launch",
        b"/URI",
    ] {
        assert!(!bytes.windows(active.len()).any(|window| window == active));
    }
    assert!(
        text_of_pdf(bytes).contains("<script>alert(1)</script>"),
        "it is shown as it is written"
    );
}

#[test]
fn names_are_text_in_tables() {
    let scratch = evil();
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["number"] == 1);
    for name in ["shopping.csv", "accounts.csv", "check.json"] {
        let answer = bench.get(&format!("/cut/{name}"));
        assert_eq!(answer.status(), 200, "{name}");
        let kept = answer.header("Content-Disposition").unwrap();
        assert_eq!(kept, format!("attachment; filename=\"{name}\""));
        let kind = answer.header("Content-Type").unwrap();
        assert!(!kind.contains("html"), "{name}: {kind}");
        let text = answer.text();
        if name.ends_with(".csv") {
            // Quotes are doubled inside of quotes, so a name stays one field.
            let field = format!("\"{}\"", EVIL.replace('"', "\"\""));
            assert!(text.contains(&field[1..field.len() - 1]), "{name}");
        } else {
            assert_eq!(answer.json()["name"], EVIL);
        }
    }
}

/// What ends a section, an attribute, a line or a cell, and what a spreadsheet would run.
#[test]
fn marks_of_every_language_are_text() {
    for name in [
        "=cmd()|x!A1 ]]>",
        "@SUM(1)\tb\rc",
        "\"onload=\"alert(1) --> </textarea><b>\u{1}\u{b}",
    ] {
        let scratch = named(name);
        let bench = Bench::open(&scratch);
        bench.wait(|event| event["number"] == 1 && event["stage"] != "broken");
        let page = bench.page();
        for mark in ["\"onload=\"", "</textarea><b>"] {
            assert!(!page.contains(mark), "{name:?}: the page holds {mark}");
        }
        for number in [1, 2, 5, 12, 20] {
            let sheet = bench.get(&format!("/sheet/{number}.svg"));
            assert_eq!(sheet.status(), 200);
            assert!(is_xml(sheet.body()), "{name:?}: sheet {number} is no XML");
        }
        assert_eq!(bench.get("/sheet/1.pdf").status(), 200, "{name:?}");
        for table in ["shopping.csv", "accounts.csv"] {
            let text = bench.get(&format!("/cut/{table}")).text();
            for begins in ["\n", ",", "\"", "\t", "\r"] {
                for formula in ["=cmd", "@SUM"] {
                    let cell = format!("{begins}{formula}");
                    assert!(!text.contains(&cell), "{name:?}: {table} holds {cell:?}");
                }
            }
        }
        assert_eq!(bench.get("/cut/check.json").json()["name"], name);
    }
}

/// Whether a strict reader takes it.
fn is_xml(bytes: &[u8]) -> bool {
    let code = "import sys, xml.dom.minidom as m; m.parseString(sys.stdin.buffer.read())";
    let mut child = Command::new("python3")
        .args(["-c", code])
        .stdin(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(bytes).unwrap();
    child.wait().unwrap().success()
}

fn text_of_pdf(bytes: &[u8]) -> String {
    let scratch = Scratch::new();
    let path = scratch.path("pack.pdf");
    std::fs::write(&path, bytes).unwrap();
    let output = Command::new("pdftotext")
        .arg(&path)
        .arg("-")
        .output()
        .unwrap();
    String::from_utf8_lossy(&output.stdout).replace('\n', "")
}
