//! Build steps that are checked off, kept beside the design.

use std::collections::BTreeSet;

/// What the file begins with.
const MARK: &str = "boxwright bench steps, format 1";

/// As it is kept in a file: one step on a line.
pub(super) fn written(done: &BTreeSet<String>) -> String {
    let lines = done.iter().map(|id| format!("{id}\n"));
    format!("{MARK}\n{}", lines.collect::<String>())
}

/// From what a file has; none where no bench wrote it, or a newer one. What the
/// disk has lost leaves nothing.
pub(super) fn read(text: &str) -> Option<BTreeSet<String>> {
    let mut lines = text.trim_matches('\0').lines();
    match lines.next() {
        None => Some(BTreeSet::new()),
        Some(MARK) => Some(lines.map(str::to_owned).collect()),
        Some(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_remembered_and_strangers_are_not() {
        let done: BTreeSet<String> = ["saw", "glue-2"].map(str::to_owned).into();
        assert_eq!(read(&written(&done)), Some(done));
        for torn in ["", "\0\0\0"] {
            assert_eq!(read(torn), Some(BTreeSet::new()));
        }
        for foreign in ["saw\nglue-2\n", "boxwright bench steps, format 2\nsaw\n"] {
            assert_eq!(read(foreign), None);
        }
    }
}
