//! Where two texts differ, line by line.

use std::ops::Range;

/// Lines of one text that stand where other lines of another stood; none on
/// either side where lines were only added or taken out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Hunk {
    pub(super) old: Range<usize>,
    pub(super) new: Range<usize>,
}

/// More lines taken out and put in than this are not told apart: they are one hunk.
const MOST_EDITS: usize = 1000;

/// The lines of a text, each with its end.
pub(super) fn lines(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}

/// Whether two lines say the same; the last line of a text may lack its end.
fn same(a: &str, b: &str) -> bool {
    let bare = |line: &str| line.strip_suffix('\n').unwrap_or(line).len();
    a[..bare(a)] == b[..bare(b)]
}

/// A text with the line ends of the one it was made from, whose ends got lost on
/// the way: a field of a page knows one kind only.
pub(crate) fn with_ends_of(text: &str, base: &str) -> String {
    let bare = |line: &str| -> usize {
        let line = line.strip_suffix('\n').unwrap_or(line);
        line.strip_suffix('\r').unwrap_or(line).len()
    };
    let old = lines(base);
    let is_long = |line: &&str| line.ends_with("\r\n");
    if text.contains('\r') || !old.iter().any(is_long) {
        return text.to_owned();
    }
    let usual = if old.first().is_some_and(is_long) {
        "\r\n"
    } else {
        "\n"
    };
    let shown: Vec<String> = old.iter().map(|line| line.replace("\r\n", "\n")).collect();
    let shown: Vec<&str> = shown.iter().map(String::as_str).collect();
    let new = lines(text);
    let mut out = String::with_capacity(base.len());
    let (mut at, mut from) = (0, 0);
    let whole = Hunk {
        old: old.len()..old.len(),
        new: new.len()..new.len(),
    };
    for hunk in hunks(&shown, &new).into_iter().chain([whole]) {
        for (old, new) in old[from..hunk.old.start]
            .iter()
            .zip(&new[at..hunk.new.start])
        {
            let end = &old[bare(old)..];
            out.push_str(&old[..bare(old)]);
            // The last line of a text may lack its end, or have got one.
            out.push_str(match (new.ends_with('\n'), end) {
                (true, "") => usual,
                (true, end) => end,
                (false, _) => "",
            });
        }
        for line in &new[hunk.new.clone()] {
            out.push_str(&line[..bare(line)]);
            out.push_str(if line.ends_with('\n') { usual } else { "" });
        }
        (from, at) = (hunk.old.end, hunk.new.end);
    }
    out
}

/// Where two texts differ, with as few lines taken out and put in as possible.
pub(super) fn hunks(old: &[&str], new: &[&str]) -> Vec<Hunk> {
    let pairs = || old.iter().zip(new);
    let head = pairs().take_while(|(a, b)| same(a, b)).count();
    let [old_rest, new_rest] = [&old[head..], &new[head..]];
    let tail = old_rest
        .iter()
        .rev()
        .zip(new_rest.iter().rev())
        .take_while(|(a, b)| same(a, b))
        .count();
    let a = &old_rest[..old_rest.len() - tail];
    let b = &new_rest[..new_rest.len() - tail];
    let mut out = joined(&kept(a, b), a.len(), b.len());
    for hunk in &mut out {
        hunk.old = hunk.old.start + head..hunk.old.end + head;
        hunk.new = hunk.new.start + head..hunk.new.end + head;
    }
    out
}

/// What lies between the lines that were kept.
fn joined(kept: &[(usize, usize)], old: usize, new: usize) -> Vec<Hunk> {
    let mut out = Vec::new();
    let mut at = (0, 0);
    for &(i, j) in kept.iter().chain([&(old, new)]) {
        if at != (i, j) {
            out.push(Hunk {
                old: at.0..i,
                new: at.1..j,
            });
        }
        at = (i + 1, j + 1);
    }
    out
}

/// Pairs of lines that were kept: a longest common subsequence, by the greedy
/// search for the shortest edit script.
fn kept(a: &[&str], b: &[&str]) -> Vec<(usize, usize)> {
    let Some(steps) = furthest(a, b) else {
        return Vec::new();
    };
    let (mut i, mut j) = (a.len(), b.len());
    let mut out = Vec::new();
    for (edits, before) in steps.iter().enumerate().rev() {
        let from = match edits {
            0 => (0, 0),
            _ => came_from(before, edits, i, j),
        };
        while i > from.0 && j > from.1 && i > 0 && j > 0 && same(a[i - 1], b[j - 1]) {
            (i, j) = (i - 1, j - 1);
            out.push((i, j));
        }
        (i, j) = from;
    }
    out.reverse();
    out
}

/// Where the last edit before a point began: the point the walk had come to
/// after one edit fewer.
fn came_from(before: &[usize], edits: usize, i: usize, j: usize) -> (usize, usize) {
    let middle = before.len() / 2;
    let k = middle + i - j;
    let spread = middle - edits..=middle + edits;
    let down = k == *spread.start() || (k != *spread.end() && before[k - 1] < before[k + 1]);
    let from = if down { k + 1 } else { k - 1 };
    (before[from], before[from] + middle - from)
}

/// For each count of edits, how far into `a` each diagonal could be followed
/// with one edit fewer; none where the texts differ too much.
fn furthest(a: &[&str], b: &[&str]) -> Option<Vec<Vec<usize>>> {
    let most = (a.len() + b.len()).min(MOST_EDITS);
    let middle = most + 1;
    let mut reach = vec![0; 2 * middle + 1];
    let mut steps = Vec::new();
    for edits in 0..=most {
        steps.push(reach.clone());
        for k in (middle - edits..=middle + edits).step_by(2) {
            let down = k == middle - edits || (k != middle + edits && reach[k - 1] < reach[k + 1]);
            let mut i = if down { reach[k + 1] } else { reach[k - 1] + 1 };
            let mut j = i + middle - k;
            while i < a.len() && j < b.len() && same(a[i], b[j]) {
                (i, j) = (i + 1, j + 1);
            }
            reach[k] = i;
            if i >= a.len() && j >= b.len() {
                return Some(steps);
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_changed_text_keeps_the_ends_of_its_lines() {
        let base = "a = 1\r\nb = 2\n\r\nc = 3\r\n";
        for (text, wanted) in [
            ("a = 1\nb = 2\n\nc = 3\n", base),
            ("a = 1\nb = 9\n\nc = 3\n", "a = 1\r\nb = 9\r\n\r\nc = 3\r\n"),
            ("b = 2\n\nc = 3", "b = 2\n\r\nc = 3"),
            ("", ""),
        ] {
            assert_eq!(with_ends_of(text, base), wanted, "{text:?}");
        }
        assert_eq!(with_ends_of("a\nb\n", "a\nc\n"), "a\nb\n");
    }

    proptest! {
        /// Nothing but the ends differs, and an untouched text comes back as it was.
        #[test]
        fn only_ends_change(base in "([abc]{0,2}\r?\n){0,6}[abc]?", text in "([abc]{0,2}\n){0,6}[abc]?") {
            let bare = |text: &str| text.replace("\r\n", "\n");
            prop_assert_eq!(bare(&with_ends_of(&text, &base)), text);
            prop_assert_eq!(with_ends_of(&bare(&base), &base), base);
        }
    }
}
