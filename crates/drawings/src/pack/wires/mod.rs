//! How the box is wired: the diagram, the switches, the wires to cut, and how they lie.

mod circuit;
mod labels;
mod legend;
mod lies;
mod list;
mod modes;
mod walls;

use super::{Page, flowed};
use crate::geometry::Rect;
use crate::layout::{Block, content_area};
use crate::paper::Paper;
use crate::schematic::sheets;
use studies::Report;
use studies::electrics::Electrics;

/// Between diagram and legend, mm.
const GAP: f64 = 5.0;
const DIAGRAM: &str = "A dot joins lines, lines without a dot only cross. W numbers are those of \
     the sheet Wires to cut.";
const CAUTION: &str = "Wire it without the battery's fuse. The fuse goes in last, after the tests \
     of the build order; local codes come first.";

/// Diagram, modes, wire list, labels, wires in the box and on its walls.
pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let electrics = &*report.electrics;
    if electrics.system.wires.is_empty() {
        return Vec::new();
    }
    let mut out = diagram(electrics, paper);
    let modes: Vec<Box<dyn Block>> = modes::blocks(electrics);
    out.extend(flowed("Switches and what is live", &modes, paper, 1));
    let list = list::blocks(electrics);
    let list = flowed("Wires to cut", &list, paper, 1).into_iter();
    out.extend(list.map(|page| page.noted(list::NOTE)));
    out.extend(labels::pages(electrics, paper));
    out.extend(lies::pages(electrics, &report.carpentry, paper));
    out.extend(walls::pages(electrics, &report.carpentry, paper));
    out
}

fn diagram(electrics: &Electrics, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let legend = legend::legend(electrics, area.w);
    let high = legend.bounds().map_or(0.0, |b| b.h);
    let room = Rect {
        h: area.h - high - GAP,
        ..area
    };
    let found = sheets(&circuit::schematic(electrics), room);
    let count = found.len();
    let pages = found.into_iter().enumerate().map(|(i, sheet)| {
        let title = match count {
            1 => "Wiring diagram".to_owned(),
            _ => format!("Wiring diagram, part {} of {count}", i + 1),
        };
        let mut drawing = sheet.drawing;
        drawing.append(legend.moved(area.x, room.bottom() + GAP));
        let said = format!("{} {DIAGRAM}", flow(&sheet.back));
        Page::new(title, drawing).noted(&said).noted(CAUTION)
    });
    pages.collect()
}

/// Which way power flows on a drawing, with the wires that run the other way.
fn flow(back: &[String]) -> String {
    match back {
        [] => "Power flows from left to right.".to_owned(),
        [one] => format!("Power flows from left to right, but {one} leads back to the left."),
        [first @ .., last] => format!(
            "Power flows from left to right, but {} and {last} lead back to the left.",
            first.join(", ")
        ),
    }
}
