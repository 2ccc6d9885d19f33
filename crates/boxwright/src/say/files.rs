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
            out += &format!("{}\n", ink.paint(Tone::Strong, finding.id));
            out += &wrapped("  ", &mend.words);
            for edit in &mend.edits {
                out += &format!("  {}\n", edited(edit));
            }
        }
    }
    if out.is_empty() {
        return "No finding of this design has a mend.\n".into();
    }
    out + "\nboxwright mend DESIGN ID makes one.\n"
}

/// A check that a mend was asked for is in order.
pub(crate) fn nothing_to_mend(id: &str) -> String {
    format!("{id} is in order: nothing to mend\n")
}

/// A mend was made: the lines that changed, old and new.
pub(crate) fn mended(mend: &Mend, before: &str, after: &str, ink: Ink) -> String {
    let mut out = wrapped("", &mend.words);
    for (sign, tone, lines) in [
        ("-", Tone::Stop, without(before, after)),
        ("+", Tone::Good, without(after, before)),
    ] {
        for line in lines {
            out += &format!("{}\n", ink.paint(tone, &format!("{sign} {}", plain(line))));
        }
    }
    out
}

/// Lines of one text between what both begin and end with.
fn without<'a>(text: &'a str, other: &str) -> Vec<&'a str> {
    let (lines, others): (Vec<&str>, Vec<&str>) = (text.lines().collect(), other.lines().collect());
    let same =
        |pairs: &mut dyn Iterator<Item = (&&str, &&str)>| pairs.take_while(|(a, b)| a == b).count();
    let head = same(&mut lines.iter().zip(&others));
    let tail = same(&mut lines[head..].iter().rev().zip(others[head..].iter().rev()));
    lines[head..lines.len() - tail].to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_changed_is_shown() {
        assert_eq!(without("a\nb\nc", "a\nx\ny\nc"), ["b"]);
        assert_eq!(without("a\nx\ny\nc", "a\nb\nc"), ["x", "y"]);
        assert_eq!(without("a\na", "a\na\na"), Vec::<&str>::new());
        assert_eq!(without("a\na\na", "a\na"), ["a"]);
    }
}
