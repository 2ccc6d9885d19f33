//! Two changes of one text, made into one where they do not meet.

use super::lines::{Hunk, hunks, lines};

/// Both changes touch the same lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Clash;

/// The text with both changes made to `base`: line by line, each change whole
/// (`khanna-2007` tells what can be asked of such a merge).
///
/// Changes that replace neighbouring lines do not meet: in a design each line
/// says one thing. Side by side, lines put in and lines taken out do meet, and so do
/// lines put in by both: which table such a line belongs to hangs on those around it.
///
/// # Errors
/// Both change the same lines to different ones, or both put different lines
/// in the same place.
pub(crate) fn merge(base: &str, mine: &str, theirs: &str) -> Result<String, Clash> {
    if mine == theirs || base == theirs {
        return Ok(mine.to_owned());
    }
    if base == mine {
        return Ok(theirs.to_owned());
    }
    let [old, ours, others] = [lines(base), lines(mine), lines(theirs)];
    let mut left = hunks(&old, &ours).into_iter().peekable();
    let mut right = hunks(&old, &others).into_iter().peekable();
    let mut out = String::with_capacity(mine.len() + theirs.len());
    let mut at = 0;
    loop {
        let (hunk, new) = match (left.peek(), right.peek()) {
            (None, None) => break,
            (Some(_), None) => (left.next(), &ours),
            (None, Some(_)) => (right.next(), &others),
            (Some(a), Some(b)) if meet(a, b) => {
                if a.old != b.old || ours[a.new.clone()] != others[b.new.clone()] {
                    return Err(Clash);
                }
                right.next();
                (left.next(), &ours)
            }
            (Some(a), Some(b)) if first(a, b) => (left.next(), &ours),
            (Some(_), Some(_)) => (right.next(), &others),
        };
        let hunk = hunk.expect("it was there when looked at");
        append(&mut out, &old[at..hunk.old.start]);
        append(&mut out, &new[hunk.new]);
        at = hunk.old.end;
    }
    append(&mut out, &old[at..]);
    Ok(out)
}

/// Whether two changes touch the same lines, or both put in or take out lines at
/// the same place.
fn meet(a: &Hunk, b: &Hunk) -> bool {
    let moves = |hunk: &Hunk| hunk.new.len() != hunk.old.len();
    let beside = a.old.end == b.old.start || b.old.end == a.old.start;
    if beside && moves(a) && moves(b) {
        return true;
    }
    let [a, b] = [&a.old, &b.old];
    (a.start < b.end && b.start < a.end) || (a.start == b.start && (a.is_empty() && b.is_empty()))
}

/// Whether the first of two changes that do not meet stands above the other.
fn first(a: &Hunk, b: &Hunk) -> bool {
    (a.old.start, a.old.end) <= (b.old.start, b.old.end)
}

/// Adds lines; a last line that had no end gets one where another follows it.
fn append(out: &mut String, lines: &[&str]) {
    for line in lines {
        if !out.is_empty() && !out.ends_with('\n') {
            out.push('\n');
        }
        out.push_str(line);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn changes_of_different_lines_are_both_kept() {
        let base = "a = 1\nb = 2\nc = 3\n";
        for (mine, theirs, both) in [
            (
                "a = 9\nb = 2\nc = 3\n",
                "a = 1\nb = 2\nc = 8\n",
                "a = 9\nb = 2\nc = 8\n",
            ),
            (
                "a = 9\nb = 2\nc = 3\n",
                "a = 1\nb = 8\nc = 3\n",
                "a = 9\nb = 8\nc = 3\n",
            ),
            (
                "b = 2\nc = 3\n",
                "a = 1\nb = 2\nc = 3\nd = 4\n",
                "b = 2\nc = 3\nd = 4\n",
            ),
            (
                "a = 1\nb = 2\nc = 3",
                "x\na = 1\nb = 2\nc = 3\n",
                "x\na = 1\nb = 2\nc = 3\n",
            ),
            ("a = 1\nc = 3\n", "a = 1\nc = 3\n", "a = 1\nc = 3\n"),
            (
                "new\na = 1\nb = 2\nc = 3\n",
                "a = 7\nb = 2\nc = 3\n",
                "new\na = 7\nb = 2\nc = 3\n",
            ),
        ] {
            assert_eq!(merge(base, mine, theirs).as_deref(), Ok(both));
            assert_eq!(merge(base, theirs, mine).as_deref(), Ok(both));
        }
    }

    #[test]
    fn changes_of_the_same_line_meet() {
        let base = "a = 1\nb = 2\n";
        for (mine, theirs) in [
            ("a = 9\nb = 2\n", "a = 8\nb = 2\n"),
            ("b = 2\n", "a = 8\nb = 2\n"),
            ("a = 1\nx\nb = 2\n", "a = 1\ny\nb = 2\n"),
            ("", "a = 1\nb = 3\n"),
            ("a = 1\n", "a = 1\nb = 2\nx\n"),
            ("b = 2\n", "x\na = 1\nb = 2\n"),
        ] {
            assert_eq!(merge(base, mine, theirs), Err(Clash), "{mine:?} {theirs:?}");
            assert_eq!(merge(base, theirs, mine), Err(Clash), "{mine:?} {theirs:?}");
        }
    }

    /// What was put into a table is never found in another one.
    #[test]
    fn what_was_put_beside_what_was_taken_out_is_asked_about() {
        let base = "[[inside]]\nname = \"a\"\n\n[[inside]]\nname = \"b\"\n\n[brief]\n";
        let mine = "[[inside]]\nname = \"a\"\n\n[brief]\n";
        for line in ["name = \"b\"\n", "name = \"b\"\n\n"] {
            let theirs = base.replace(line, &format!("{line}volume = \"1 L\"\n"));
            assert_eq!(merge(base, mine, &theirs), Err(Clash), "{theirs}");
        }
    }

    proptest! {
        /// A merge keeps every new line of both and says nothing that neither said.
        #[test]
        fn nothing_is_lost_or_made_up(
            base in "([ab]\n){0,8}[ab]?", mine in "([abc]\n){0,8}[abc]?", theirs in "([abd]\n){0,8}[abd]?"
        ) {
            let Ok(merged) = merge(&base, &mine, &theirs) else { return Ok(()) };
            let count = |text: &str, line: &str| text.lines().filter(|l| *l == line).count();
            prop_assert_eq!(count(&merged, "c"), count(&mine, "c"));
            prop_assert_eq!(count(&merged, "d"), count(&theirs, "d"));
        }

        /// The order of the two makes no difference, and one change alone is taken as it is.
        #[test]
        fn the_hands_are_equal(
            base in "([abc]\n){0,8}", mine in "([abc]\n){0,8}", theirs in "([abc]\n){0,8}"
        ) {
            prop_assert_eq!(merge(&base, &mine, &theirs), merge(&base, &theirs, &mine));
            prop_assert_eq!(merge(&base, &mine, &base), Ok(mine.clone()));
            prop_assert_eq!(merge(&base, &base, &theirs), Ok(theirs.clone()));
        }
    }
}
