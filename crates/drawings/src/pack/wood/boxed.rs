//! The box taken apart.

use crate::boxview;
use crate::layout::content_area;
use crate::pack::Page;
use crate::paper::Paper;
use crate::sheet::Drawing;
use studies::carpentry::Carpentry;

pub(super) fn page(carpentry: &Carpentry, paper: Paper) -> Page {
    let mut drawing = Drawing::default();
    drawing.append(boxview::exploded(carpentry, content_area(paper)));
    let found: Vec<&str> = carpentry
        .parts
        .iter()
        .filter(|p| p.found)
        .map(|p| p.label.as_str())
        .collect();
    let mut page = Page::new("Box", drawing).noted(
        "Taken apart: lid, front, back and right wall moved straight out along the dashed lines, \
         what sits in them farther along the dash-dotted ones; the walls of a bay, and a front \
         that hides a part, drawn as of glass. Numbers: the same on every sheet. Every \
         line comes from the solid that is cut, but for those of cones.",
    );
    if !found.is_empty() {
        page = page.noted(&format!(
            "Placed by the program, not by the design: {}.",
            listed(&found)
        ));
    }
    page
}

/// Names in a row, each once.
fn listed(names: &[&str]) -> String {
    let mut once: Vec<&str> = Vec::new();
    for name in names {
        if !once.contains(name) {
            once.push(name);
        }
    }
    once.join(", ")
}
