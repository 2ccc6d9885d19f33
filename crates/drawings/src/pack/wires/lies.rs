//! The wires as they lie in the box.

use super::legend;
use super::list::cut;
use crate::boxview::{Run, wired};
use crate::geometry::Rect;
use crate::layout::content_area;
use crate::pack::Page;
use crate::paper::Paper;
use crate::schematic::stroke_of;
use studies::carpentry::Carpentry;
use studies::electrics::Electrics;

const NOTE: &str = "Wires that run together are drawn side by side; their distance is not to \
     scale. Tie them every 10 cm, keep outputs away from inputs, and nothing across a cone.";

pub(super) fn pages(electrics: &Electrics, carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let legend = legend::legend(electrics, area.w);
    let high = legend.bounds().map_or(0.0, |b| b.h);
    let room = Rect {
        h: area.h - high - super::GAP,
        ..area
    };
    let runs: Vec<Run> = cut(electrics)
        .map(|wire| Run {
            label: wire.label.clone(),
            corners: wire.run.clone(),
            stroke: stroke_of(wire.colour),
        })
        .collect();
    let views = wired(carpentry, &runs, room).into_iter();
    let pages = views.map(|view| {
        let mut drawing = view.drawing;
        drawing.append(legend.moved(area.x, room.bottom() + super::GAP));
        let page = Page {
            scale: view.scale,
            ..Page::new(format!("Wires in the box, {}", view.name), drawing)
        };
        page.noted(NOTE)
    });
    pages.collect()
}
