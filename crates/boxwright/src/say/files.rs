//! What was written, and what would be.

use super::findings::edited;
use super::layout::{left, wrapped};
use super::plain::plain;
use crate::terminal::{Ink, Tone};
use std::path::{Path, PathBuf};
use studies::check::{Finding, Mend};

/// A design was begun.
pub(crate) fn begun(written: &[PathBuf]) -> String {
    let mut out = String::new();
    for path in written {
        out += &format!("wrote {}\n", plain(&path.to_string_lossy()));
    }
    if let Some(design) = written.first() {
        out += &format!(
            "next: boxwright check {}\n",
            plain(&design.to_string_lossy())
        );
    }
    out
}

/// A pack was written: sheets and pages of templates, and files by name.
pub(crate) fn packed(
    folder: &Path,
    [sheets, templates]: [usize; 2],
    names: &[&str],
    stops: usize,
    ink: Ink,
) -> String {
    let name = plain(&folder.to_string_lossy());
    let within = |folder: &str| {
        let count = names.iter().filter(|name| name.starts_with(folder)).count();
        (count, if count == 1 { "file" } else { "files" })
    };
    let mut out = format!("wrote {name} with {sheets} sheets\n");
    let mut line = |file: &str, about: String| {
        out += &wrapped(&format!("  {}", left(file, FILE)), &about);
    };
    line("pack.pdf", format!("the {sheets} sheets, to print"));
    if templates > 0 {
        let about = format!("{templates} pages at full size: print at 100 %, never fit to page");
        line("templates.pdf", about);
    }
    for (folder, about) in [
        (
            "cut/",
            "for saw, drill, router and engraver, DXF and SVG in mm",
        ),
        ("solid/", "of the box and its panels, STL in mm"),
        ("sheets/", "for the screen, SVG"),
        ("curves/", "of curves, CSV"),
    ] {
        let (count, files) = within(folder);
        line(folder, format!("{count} {files} {about}"));
    }
    line("accounts.csv", "volume, weight and cost".to_owned());
    line(
        "shopping.csv",
        "what to buy, and what lies in the drawer".to_owned(),
    );
    line("check.json", "the whole report".to_owned());
    if stops > 0 {
        let said = "■ stop: do not build it like this; see boxwright check\n";
        out += &ink.paint(Tone::Stop, said);
    }
    out
}

/// Width of the column of files.
const FILE: usize = 15;

/// The mends on offer.
pub(crate) fn mends(findings: &[Finding], ink: Ink) -> String {
    let mut out = String::new();
    for finding in findings {
        if let Some(mend) = &finding.mend {
            out += &format!("{}\n", ink.paint(Tone::Strong, &finding.name));
            out += &wrapped("  ", &format!("{}: {}", finding.title, mend.words));
            for edit in &mend.edits {
                out += &format!("  {}\n", edited(edit));
            }
        }
    }
    if out.is_empty() {
        return "No finding of this design has a mend.\n".into();
    }
    out + "\nboxwright mend DESIGN NAME makes one.\n"
}

/// A check that a mend was asked for is in order.
pub(crate) fn nothing_to_mend(id: &str) -> String {
    format!("{id} is in order: nothing to mend\n")
}

/// A mend was made: the lines that changed, old and new.
pub(crate) fn mended(mend: &Mend, before: &str, after: &str, ink: Ink) -> String {
    let mut out = wrapped("", &mend.words);
    for (is_new, line) in changes(before, after) {
        let (sign, tone) = if is_new {
            ("+", Tone::Good)
        } else {
            ("-", Tone::Stop)
        };
        out += &format!("{}\n", ink.paint(tone, &format!("{sign} {}", plain(line))));
    }
    out
}

/// Longest stretches compared line by line; a text of a maker is far shorter.
const MOST_LINES: usize = 2000;

/// Lines that went and lines that came, in the order of the texts.
fn changes<'a>(before: &'a str, after: &'a str) -> Vec<(bool, &'a str)> {
    let (old, new): (Vec<&str>, Vec<&str>) = (before.lines().collect(), after.lines().collect());
    let head = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let (old, new) = (&old[head..], &new[head..]);
    let ends = old.iter().rev().zip(new.iter().rev());
    let tail = ends.take_while(|(a, b)| a == b).count();
    let (old, new) = (&old[..old.len() - tail], &new[..new.len() - tail]);
    let kept = if old.len().max(new.len()) <= MOST_LINES {
        common(old, new)
    } else {
        Vec::new()
    };
    let (mut i, mut j) = (0, 0);
    let mut out = Vec::new();
    for (a, b) in kept.into_iter().chain([(old.len(), new.len())]) {
        out.extend(old[i..a].iter().map(|line| (false, *line)));
        out.extend(new[j..b].iter().map(|line| (true, *line)));
        (i, j) = (a + 1, b + 1);
    }
    out
}

/// Places of a longest run of lines, not all beside one another, that both have.
fn common(old: &[&str], new: &[&str]) -> Vec<(usize, usize)> {
    let width = new.len() + 1;
    let mut longest = vec![0_u16; (old.len() + 1) * width];
    for i in (0..old.len()).rev() {
        for j in (0..new.len()).rev() {
            longest[i * width + j] = if old[i] == new[j] {
                longest[(i + 1) * width + j + 1] + 1
            } else {
                longest[(i + 1) * width + j].max(longest[i * width + j + 1])
            };
        }
    }
    let (mut i, mut j) = (0, 0);
    let mut out = Vec::new();
    while i < old.len() && j < new.len() {
        if old[i] == new[j] {
            out.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if longest[(i + 1) * width + j] >= longest[i * width + j + 1] {
            i += 1;
        } else {
            j += 1;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_changed_is_shown() {
        assert_eq!(
            changes("a\nb\nc", "a\nx\ny\nc"),
            [(false, "b"), (true, "x"), (true, "y")]
        );
        assert_eq!(changes("a\na", "a\na\na"), [(true, "a")]);
        assert_eq!(changes("a\na\na", "a\na"), [(false, "a")]);
        assert_eq!(
            changes("a\nb\nc\nd", "a\nB\nc\nd\ne"),
            [(false, "b"), (true, "B"), (true, "e")]
        );
        assert_eq!(changes("a\nb", "a\nb"), []);
    }
}
