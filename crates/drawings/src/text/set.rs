//! Breaking lines and writing numbers.

use super::{Lettering, drawable};

/// Lines no wider than `max` mm.
pub(crate) fn wrap(letters: &Lettering, text: &str, max: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words(letters, text, max) {
        let word = word.as_str();
        let joined = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if letters.width(&drawable(&joined)) <= max {
            line = joined;
            continue;
        }
        if !line.is_empty() {
            lines.push(core::mem::take(&mut line));
        }
        line = break_word(letters, word, max, &mut lines);
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines.iter().map(|l| drawable(l)).collect()
}

/// Words that a line may end after. A number stays with a short word behind
/// it, most likely its unit.
fn words(letters: &Lettering, text: &str, max: f64) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in text.split([' ', '\n', '\t']).filter(|w| !w.is_empty()) {
        let bare = word.trim_end_matches(['.', ',', ';', ':', ')']);
        let short = bare.chars().count() <= 3 || bare == "dB(A" || bare == "m/s";
        if let Some(last) = out.last_mut()
            && short
            && last.ends_with(|c: char| c.is_ascii_digit())
        {
            let held = format!("{last}\u{a0}{word}");
            if letters.width(&drawable(&held)) <= max {
                *last = held;
                continue;
            }
        }
        out.push(word.to_owned());
    }
    out
}

/// Pushes full lines of a word too wide for one; gives back what is left.
fn break_word(letters: &Lettering, word: &str, max: f64, lines: &mut Vec<String>) -> String {
    let mut part = String::new();
    for c in word.chars() {
        let longer = format!("{part}{c}");
        if !part.is_empty() && letters.width(&drawable(&longer)) > max {
            lines.push(core::mem::take(&mut part));
            part.push(c);
        } else {
            part = longer;
        }
    }
    part
}

/// A number with so many decimals, a true minus sign, and thin grouping left
/// out: as a drawing shows it.
#[must_use]
pub fn number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let plain = format!("{:.decimals$}", value.abs());
    let is_zero = plain.bytes().all(|b| b == b'0' || b == b'.');
    if value < 0.0 && !is_zero {
        format!("−{plain}")
    } else {
        plain
    }
}

/// A number with its sign always shown (none on zero).
#[must_use]
pub fn signed(value: f64, decimals: usize) -> String {
    let plain = number(value, decimals);
    let is_zero = plain.bytes().all(|b| b == b'0' || b == b'.');
    if value > 0.0 && !is_zero && value.is_finite() {
        format!("+{plain}")
    } else {
        plain
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_carry_a_true_minus_and_no_minus_zero() {
        assert_eq!(number(-3.456, 1), "−3.5");
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(f64::NAN, 1), "–");
        assert_eq!(signed(2.0, 1), "+2.0");
        assert_eq!(signed(0.001, 1), "0.0");
        assert_eq!(signed(-2.0, 0), "−2");
    }

    #[test]
    fn a_no_break_space_holds_number_and_unit_together() {
        let letters = Lettering::regular(3.0);
        let max = letters.width("box depth 180");
        let lines = letters.wrap("box depth 180\u{a0}mm", max);
        assert_eq!(lines, ["box depth", "180 mm"]);
    }

    #[test]
    fn a_number_stays_with_its_unit() {
        let letters = Lettering::regular(3.0);
        let max = letters.width("borne for 3.0");
        let lines = letters.wrap("borne for 3.0 h, by children", max);
        assert_eq!(lines, ["borne for", "3.0 h, by", "children"]);
    }

    proptest! {
        #[test]
        fn wrapped_text_fits_and_loses_nothing(
            text in "[ a-zA-Z0-9Ωµ€×.,-]{0,120}",
            max in 8.0_f64..80.0,
            size in 1.5_f64..6.0,
        ) {
            let letters = Lettering::regular(size);
            let lines = letters.wrap(&text, max);
            for line in &lines {
                prop_assert!(letters.width(line) <= max || line.chars().count() == 1);
            }
            let bare = |s: &str| s.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            prop_assert_eq!(bare(&lines.concat()), bare(&text));
        }

        #[test]
        fn ellipsis_fits(text in "\\PC{0,40}", max in 0.0_f64..60.0) {
            let letters = Lettering::regular(3.0);
            prop_assert!(letters.width(&letters.ellipsis(&text, max)) <= max);
        }
    }
}
