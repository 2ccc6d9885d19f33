//! Words into lines and columns.

use super::plain::plain;
use crate::terminal::{Ink, Tone, WIDTH};

/// How many columns a text takes.
pub(crate) fn columns(text: &str) -> usize {
    text.chars().count()
}

/// A text with blanks up to a width.
pub(crate) fn left(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(columns(text))))
}

/// A text with blanks before it up to a width.
pub(crate) fn right(text: &str, width: usize) -> String {
    format!("{}{text}", " ".repeat(width.saturating_sub(columns(text))))
}

/// A text in lines of the terminal's width. The first begins with `first`, the
/// others with as many blanks.
pub(crate) fn wrapped(first: &str, text: &str) -> String {
    let indent = columns(first);
    let room = WIDTH.saturating_sub(indent).max(1);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in unbroken(text) {
        if !line.is_empty() && columns(&line) + 1 + columns(&word) > room {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(&plain(&word));
    }
    lines.push(line);
    let blanks = " ".repeat(indent);
    let mut out = String::new();
    for (index, line) in lines.iter().enumerate() {
        out.push_str(if index == 0 { first } else { &blanks });
        out.push_str(line);
        out.push('\n');
    }
    out
}

/// The longest word kept on a line with the number before it.
const UNIT: usize = 5;

/// The words of a text, a number together with its unit.
fn unbroken(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(last) if last.ends_with(|c: char| c.is_ascii_digit()) && columns(word) <= UNIT => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// A heading with an empty line before it.
pub(super) fn heading(text: &str, ink: Ink) -> String {
    format!("\n{}\n", ink.paint(Tone::Strong, text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_stay_within_the_width_and_hang() {
        let text = "wood ".repeat(40);
        let said = wrapped("mend: ", &text);
        assert!(said.lines().all(|line| columns(line) <= WIDTH));
        assert!(said.starts_with("mend: wood"));
        assert!(
            said.lines()
                .skip(1)
                .all(|line| line.starts_with("      wood"))
        );
        assert_eq!(said.split_whitespace().count(), 41);
    }

    #[test]
    fn a_word_too_long_for_a_line_stays_whole() {
        let word = "x".repeat(100);
        assert_eq!(wrapped("", &word), format!("{word}\n"));
    }

    #[test]
    fn a_number_keeps_its_unit() {
        let said = wrapped("", &format!("{} 46 Hz", "x".repeat(76)));
        assert!(said.ends_with("x\n46 Hz\n"));
    }

    #[test]
    fn signs_beyond_ascii_take_one_column() {
        assert_eq!(left("4 Ω", 5), "4 Ω  ");
        assert_eq!(right("−3 dB", 6), " −3 dB");
    }
}
