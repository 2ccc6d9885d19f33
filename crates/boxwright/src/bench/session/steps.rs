//! Build steps that are checked off, kept beside the design.

use std::collections::BTreeSet;

/// What the file begins with.
const MARK: &str = "boxwright bench steps, format 1";

/// As it is kept in a file: one step on a line.
pub(super) fn written(done: &BTreeSet<String>) -> String {
    let lines = done.iter().map(|id| format!("{id}\n"));
    format!("{MARK}\n{}", lines.collect::<String>())
}

/// From what a file has; nothing where no bench wrote it.
pub(super) fn read(text: &str) -> BTreeSet<String> {
    let mut lines = text.lines();
    if lines.next() != Some(MARK) {
        return BTreeSet::new();
    }
    lines.map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_remembered_and_strangers_are_not() {
        let done: BTreeSet<String> = ["saw", "glue-2"].map(str::to_owned).into();
        assert_eq!(read(&written(&done)), done);
        assert!(read("saw\nglue-2\n").is_empty());
        assert!(read("").is_empty());
    }
}
