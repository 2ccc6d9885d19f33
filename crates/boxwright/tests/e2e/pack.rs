//! `boxwright pack`.

use crate::support::{
    EXAMPLES, FEW, Scratch, answer, boxwright, command, example, names, python, ran, root,
};
use std::fs;
use std::path::Path;
use std::process::Command;

fn text_of(pdf: &str) -> String {
    let output = Command::new("pdftotext")
        .args(["-layout", pdf, "-"])
        .output()
        .expect("pdftotext of poppler-utils; ./check installs it");
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn a_pack_holds_sheets_curves_and_the_report() {
    for name in EXAMPLES {
        let scratch = Scratch::new();
        let out = scratch.path("pack");
        answer(&["pack", &example(name), "--out", &out]);
        assert_eq!(
            names(Path::new(&out)),
            [
                "accounts.csv",
                "check.json",
                "curves",
                "cut",
                "pack.pdf",
                "sheets",
                "shopping.csv",
                "solid",
                "templates.pdf"
            ]
        );
        assert_eq!(scratch.names(), ["pack"], "nothing else is left behind");
        let json = fs::read_to_string(format!("{out}/check.json")).unwrap();
        assert_eq!(json, answer(&["check", "--json", &example(name)]));
        let curves = names(Path::new(&format!("{out}/curves")));
        for id in [
            "discharge.csv",
            "impedance.csv",
            "max-level.csv",
            "response.csv",
        ] {
            assert!(curves.iter().any(|curve| curve == id), "{curves:?}");
        }
        for sheet in names(Path::new(&format!("{out}/sheets"))) {
            let svg = fs::read_to_string(format!("{out}/sheets/{sheet}")).unwrap();
            assert!(
                svg.contains("<svg") && svg.trim_end().ends_with("</svg>"),
                "{sheet}"
            );
        }
    }
}

#[test]
fn the_printed_pack_says_what_check_says() {
    let scratch = Scratch::new();
    answer(&[
        "pack",
        &example("salvage-party"),
        "--out",
        &scratch.path("pack"),
    ]);
    let printed = text_of(&scratch.path("pack/pack.pdf"));
    let squeezed: String = printed.split_whitespace().collect();
    for title in [
        "Salvage party",
        "Bass booms",
        "Data of coaxial from an old estate car are guessed",
    ] {
        let wanted: String = title.split_whitespace().collect();
        assert!(squeezed.contains(&wanted), "{title} is not printed");
    }
}

#[test]
fn the_same_design_and_day_give_the_same_bytes() {
    let scratch = Scratch::new();
    for (out, threads) in [("a", "1"), ("b", "2")] {
        let design = example("workshop-mono");
        let mut command = command(&["pack", FEW, &design, "--out", &scratch.path(out)]);
        command
            .env("SOURCE_DATE_EPOCH", "1767225600")
            .env("RAYON_NUM_THREADS", threads);
        assert_eq!(ran(&mut command).status, 0);
    }
    let read = |file: &str| fs::read(scratch.path(file)).unwrap();
    for name in ["pack.pdf", "templates.pdf", "solid/box.stl"] {
        let (a, b) = (format!("a/{name}"), format!("b/{name}"));
        assert!(read(&a) == read(&b), "{name}");
    }
    for name in names(Path::new(&scratch.path("a/cut"))) {
        let (a, b) = (format!("a/cut/{name}"), format!("b/cut/{name}"));
        assert!(read(&a) == read(&b), "{name}");
    }
    assert!(text_of(&scratch.path("a/pack.pdf")).contains("2026-01-01"));
}

#[test]
fn an_earlier_pack_gives_way_and_a_maker_s_own_file_stays() {
    let scratch = Scratch::new();
    let out = scratch.path("pack");
    answer(&["pack", FEW, &example("salvage-party"), "--out", &out]);
    assert!(names(Path::new(&format!("{out}/curves"))).contains(&"vent-speed.csv".to_owned()));
    fs::write(format!("{out}/note.txt"), "mine").unwrap();
    answer(&["pack", FEW, &example("bathing-beach"), "--out", &out]);
    assert!(!names(Path::new(&format!("{out}/curves"))).contains(&"vent-speed.csv".to_owned()));
    assert_eq!(
        fs::read_to_string(format!("{out}/note.txt")).unwrap(),
        "mine"
    );
    assert_eq!(scratch.names(), ["pack"]);
}

/// A design without a control panel.
const BARE: &str = r#"
format = 1
name = "Bare"
[brief]
distance = "2 m"
[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"
[amplifier]
part = "amplifier 2 x 15 W, 12 V"
[battery]
part = "iron phosphate 12.8 V 6 Ah"
[box]
outside = "400 x 220 x 200 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
"#;

/// What a design no longer has is not left from an earlier pack.
#[test]
fn cut_files_of_an_earlier_design_go() {
    let scratch = Scratch::new();
    let out = scratch.path("pack");
    let has_plate = || Path::new(&format!("{out}/cut/control-panel.dxf")).exists();
    answer(&["pack", FEW, &example("bathing-beach"), "--out", &out]);
    assert!(has_plate());
    let bare = scratch.path("bare.toml");
    fs::write(&bare, BARE).unwrap();
    boxwright(&["pack", FEW, &bare, "--out", &out]);
    assert!(!has_plate());
}

#[test]
fn every_file_is_told() {
    let scratch = Scratch::new();
    let out = scratch.path("pack");
    let told = answer(&[
        "pack",
        "--json",
        FEW,
        &example("bathing-beach"),
        "--out",
        &out,
    ]);
    let told: serde_json::Value = serde_json::from_str(&told).unwrap();
    let mut told: Vec<&str> = told["written"]
        .as_array()
        .unwrap()
        .iter()
        .map(|path| path.as_str().unwrap())
        .collect();
    assert_eq!(told.remove(0), out, "first the folder");
    let mut found = Vec::new();
    for name in names(Path::new(&out)) {
        let path = format!("{out}/{name}");
        if Path::new(&path).is_dir() {
            let inside = names(Path::new(&path));
            found.extend(inside.iter().map(|inner| format!("{path}/{inner}")));
        } else {
            found.push(path);
        }
    }
    told.sort_unstable();
    found.sort_unstable();
    assert_eq!(told, found);
}

#[test]
fn a_folder_that_is_no_pack_is_left_alone() {
    let scratch = Scratch::new();
    fs::create_dir_all(scratch.path("out/sheets")).unwrap();
    fs::write(scratch.path("out/sheets/mine.svg"), "mine").unwrap();
    let ran = boxwright(&[
        "pack",
        FEW,
        &example("bathing-beach"),
        "--out",
        &scratch.path("out"),
    ]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("no pack"), "{}", ran.err);
    assert_eq!(names(Path::new(&scratch.path("out"))), ["sheets"]);
}

/// `/proc` takes no folders, not even from the administrator.
#[test]
fn where_nothing_can_be_written_nothing_is_left() {
    let ran = boxwright(&[
        "pack",
        FEW,
        &example("bathing-beach"),
        "--out",
        "/proc/pack",
    ]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("cannot write /proc/pack"), "{}", ran.err);
    let scratch = Scratch::new();
    let taken = scratch.file("taken", "mine");
    for out in [taken.clone(), format!("{taken}/pack")] {
        let ran = boxwright(&["pack", FEW, &example("bathing-beach"), "--out", &out]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{out}");
    }
    assert_eq!(scratch.names(), ["taken"]);
    assert_eq!(fs::read_to_string(taken).unwrap(), "mine");
}

#[test]
fn a_stop_is_packed_but_told() {
    let scratch = Scratch::new();
    let ran = boxwright(&["pack", FEW, &scratch.with_a_stop()]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    assert!(ran.out.contains("stop"), "{}", ran.out);
}

#[test]
fn a_pack_is_named_after_its_design() {
    let scratch = Scratch::new();
    fs::create_dir(scratch.path("beach")).unwrap();
    let text = fs::read(root().join(example("bathing-beach"))).unwrap();
    let design = scratch.file("beach/design.toml", &text);
    answer(&["pack", FEW, &design]);
    let other = scratch.file("beach/other.toml", &text);
    answer(&["pack", FEW, &other]);
    let inside = ran(command(&["pack", FEW]).current_dir(scratch.path("beach")));
    assert!(
        inside.out.starts_with("wrote beach-pack with "),
        "{}",
        inside.out
    );
    let made = names(Path::new(&scratch.path("beach")));
    assert_eq!(
        made,
        ["beach-pack", "design.toml", "other-pack", "other.toml"]
    );
}

#[test]
fn both_papers_have_their_size() {
    for (paper, size) in [
        ("a4", "841.89 x 595.276 pts (A4)"),
        ("letter", "792 x 612 pts (letter)"),
    ] {
        let scratch = Scratch::new();
        let out = scratch.path("pack");
        answer(&[
            "pack",
            FEW,
            &example("bathing-beach"),
            "--out",
            &out,
            "--paper",
            paper,
        ]);
        let output = Command::new("pdfinfo")
            .arg(format!("{out}/pack.pdf"))
            .output()
            .unwrap();
        let told = String::from_utf8(output.stdout).unwrap();
        assert!(told.contains(size), "{told}");
    }
}

#[test]
fn a_name_that_looks_like_a_formula_stays_text() {
    let scratch = Scratch::new();
    let text = fs::read_to_string(scratch.copied("bathing-beach")).unwrap();
    let evil = text.replace("\"wiring, bolts and connectors\"", "\"=HYPERLINK(A1)\"");
    assert_ne!(evil, text);
    let design = scratch.file("design.toml", evil);
    boxwright(&["pack", FEW, &design, "--out", &scratch.path("pack")]);
    let csv = fs::read_to_string(scratch.path("pack/accounts.csv")).unwrap();
    assert!(csv.contains(",'=HYPERLINK(A1),"), "{csv}");
    for line in csv.lines() {
        assert!(
            line.split(',')
                .all(|field| !field.starts_with(['=', '+', '@'])),
            "{line}"
        );
    }
}

/// Names that a spreadsheet could misread, as they stand in a design file.
const ODD: [&str; 7] = [
    "=1+1",
    "a;=cmd|' /C calc'!A0",
    "he said \\\"no\\\", twice",
    "two\\nlines, =2",
    "'quoted'",
    "\\t@SUM(A1)",
    "plain",
];

/// Reads a table with a general reader and gives the names in it, guards taken away.
const READ: &str = r#"
import csv, json, sys
def bare(guarded):
    out, begins, literal = "", True, False
    for c in guarded:
        if begins and not literal and c == "'":
            literal = True
            continue
        out, literal = out + c, False
        begins = c in ",;\t\n\r" or begins and (c.isspace() or c == '"')
    return out
with open(sys.argv[1], newline="", encoding="utf-8") as file:
    rows = list(csv.reader(file))
assert len({len(row) for row in rows}) == 1, "every row has all fields"
for row in rows:
    for cell in row:
        signs = cell.lstrip()[:1] in tuple("=+-@") and cell.lstrip()[:1] != ""
        assert not signs or cell.replace("-", "", 1).replace(".", "", 1).isdigit(), cell
print(json.dumps([bare(row[1]) for row in rows]))
"#;

#[test]
fn the_shopping_list_reads_back_whatever_things_are_called() {
    let scratch = Scratch::new();
    let text = fs::read_to_string(scratch.copied("bathing-beach")).unwrap();
    let things = ODD.map(|name| {
        format!("\n[[inside]]\nname = \"{name}\"\nvolume = \"1 mL\"\nprice = \"1 €\"\n")
    });
    let design = scratch.file("design.toml", text + &things.concat());
    boxwright(&["pack", FEW, &design, "--out", &scratch.path("pack")]);
    let output = Command::new(python())
        .args(["-c", READ, &scratch.path("pack/shopping.csv")])
        .output()
        .expect("run ./check once: it puts the Python packages in place");
    let wrong = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{wrong}");
    let names: Vec<String> = serde_json::from_slice(&output.stdout).unwrap();
    for name in ODD {
        let name: String = serde_json::from_str(&format!("\"{name}\"")).unwrap();
        assert!(names.contains(&name), "{name:?} {names:?}");
    }
}
