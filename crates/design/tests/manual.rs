//! The page about the design file: what it shows can be read.

use boxwright_design::{BUILT_IN_SHELF, read};

const PAGE: &str = include_str!("../../../docs/design-file.md");

/// What stands between fences of this name, one after the other.
fn fenced(name: &str) -> String {
    let fence = format!("```{name}\n");
    PAGE.split(&fence)
        .skip(1)
        .filter_map(|block| block.split("```").next())
        .map(|block| format!("{block}\n"))
        .collect()
}

#[test]
fn the_design_and_the_shelf_of_the_page_read_clean() {
    let design = fenced("toml");
    let read = read(&design, Some(&fenced("toml shelf")));
    let project = read.unwrap_or_else(|found| panic!("{found:#?}"));
    assert_eq!(project.design.braces.len(), 2);
    assert_eq!(project.shelf.offcuts.len(), 1);
    for part in ["full-range 4 in, 4 ohm", "rotary potentiometer, M7"] {
        assert!(design.contains(part) && BUILT_IN_SHELF.contains(part));
    }
}
