//! What a reader of the PDF gets, judged by an independent reader (poppler).

#![allow(clippy::unwrap_used, reason = "a test")]

mod demo;

use boxwright_drawings::export::pdf::pdf;
use boxwright_drawings::export::svg::svg;
use boxwright_drawings::{Date, Paper, Theme};
use std::path::PathBuf;
use std::process::Command;

fn place(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name)
}

fn written(name: &str, paper: Paper, theme: Theme) -> PathBuf {
    let bytes = pdf(&demo::sheets(paper), "Invented box", None, theme).unwrap();
    let path = place(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

/// Runs a tool of poppler-utils and gives what it says.
fn tool(name: &str, args: &[&str]) -> Vec<u8> {
    let out = Command::new(name)
        .args(args)
        .output()
        .unwrap_or_else(|e| panic!("{name} of poppler-utils is needed: {e}"));
    assert!(
        out.status.success(),
        "{name}: {}",
        String::from_utf8_lossy(&out.stderr)
    );
    out.stdout
}

fn said(name: &str, args: &[&str]) -> String {
    String::from_utf8(tool(name, args)).unwrap()
}

#[test]
fn no_demo_sheet_has_a_collision() {
    for paper in [Paper::A4, Paper::Letter] {
        for sheet in demo::sheets(paper) {
            assert_eq!(
                sheet.collisions(),
                [],
                "{} on {}",
                sheet.title,
                paper.name()
            );
        }
    }
}

#[test]
fn text_is_text_and_page_sizes_are_those_of_the_paper() {
    for (paper, size) in [
        (Paper::A4, "841.89 x 595.276"),
        (Paper::Letter, "792 x 612"),
    ] {
        let path = written(&format!("{}.pdf", paper.name()), paper, Theme::Paper);
        let path = path.to_str().unwrap();
        let text = said("pdftotext", &["-layout", path, "-"]);
        for wanted in [
            "100 mm: Ω ± × → − ≥ µ ² ³ ° € “ ” fi fl AV",
            "Measure before you cut",
            "brief: 70 Hz",
            "amplifier voltage",
        ] {
            assert!(text.contains(wanted), "{wanted} is not in the text");
        }
        let info = said("pdfinfo", &[path]);
        assert!(info.contains(size), "{info}");
        assert!(info.contains("Invented box"), "{info}");
        assert!(!info.contains("CreationDate"), "{info}");
    }
}

#[test]
fn fonts_are_embedded_subsets() {
    let path = written("fonts.pdf", Paper::A4, Theme::Paper);
    let fonts = said("pdffonts", &[path.to_str().unwrap()]);
    let rows: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(rows.len() >= 2, "{fonts}");
    for row in rows {
        assert!(row.contains("DejaVuSans") && row.contains("+"), "{row}");
        // Columns: emb sub uni.
        assert!(row.contains("yes yes yes"), "{row}");
    }
    assert!(std::fs::metadata(&path).unwrap().len() < 200_000);
}

#[test]
fn a_bar_of_100_mm_is_100_mm_long() {
    let path = written("rule.pdf", Paper::A4, Theme::Paper);
    let dpi = 254.0;
    let args = [
        "-r",
        "254",
        "-f",
        "1",
        "-l",
        "1",
        "-gray",
        path.to_str().unwrap(),
    ];
    let picture = tool("pdftoppm", &args);
    let (width, height, pixels) = grey_picture(&picture);
    // 297 mm × 210 mm at ten dots to the millimetre.
    assert!(
        width.abs_diff(2970) <= 1 && height.abs_diff(2100) <= 1,
        "{width} × {height}"
    );
    let row = (105.0 / 25.4 * dpi) as usize;
    let dark: Vec<usize> = (0..width)
        .filter(|x| pixels[row * width + x] < 128)
        .collect();
    assert!(dark.len().abs_diff(1000) <= 1, "{} dots", dark.len());
    assert!(dark[0].abs_diff(500) <= 1, "starts at {}", dark[0]);
}

/// A binary PGM as width, height and grey values.
fn grey_picture(pgm: &[u8]) -> (usize, usize, &[u8]) {
    let mut numbers = Vec::new();
    let mut at = 2;
    while numbers.len() < 3 {
        while pgm[at].is_ascii_whitespace() {
            at += 1;
        }
        let start = at;
        while !pgm[at].is_ascii_whitespace() {
            at += 1;
        }
        let word = std::str::from_utf8(&pgm[start..at]).unwrap();
        numbers.push(word.parse::<usize>().unwrap());
    }
    assert_eq!(&pgm[..2], b"P5");
    (numbers[0], numbers[1], &pgm[at + 1..])
}

#[test]
fn same_sheets_same_bytes_and_the_date_is_only_what_was_given() {
    let sheets = demo::sheets(Paper::A4);
    let plain = pdf(&sheets, "t", None, Theme::Paper).unwrap();
    assert_eq!(plain, pdf(&sheets, "t", None, Theme::Paper).unwrap());
    let date = Some(Date {
        year: 2001,
        month: 2,
        day: 3,
    });
    let dated = pdf(&sheets, "t", date, Theme::Paper).unwrap();
    let path = place("dated.pdf");
    std::fs::write(&path, dated).unwrap();
    let info = said("pdfinfo", &["-isodates", path.to_str().unwrap()]);
    assert!(info.contains("2001-02-03"), "{info}");
}

#[test]
fn sheets_are_written_out_for_the_eye() {
    for theme in [Theme::Paper, Theme::Blueprint] {
        written(&format!("{theme:?}.pdf"), Paper::A4, theme);
        for sheet in demo::sheets(Paper::A4) {
            let text = svg(&sheet, theme);
            assert!(text.starts_with("<svg") && text.ends_with("</svg>\n"));
            let name = sheet.title.replace([' ', '<', '>', '&'], "-");
            std::fs::write(place(&format!("{name}-{theme:?}.svg")), text).unwrap();
        }
    }
}
