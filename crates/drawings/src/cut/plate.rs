//! The plate of the control panel as a cut file.

use super::canvas::{Canvas, Layer};
use crate::control::face::{Face, Word};
use crate::path::Path;
use crate::sheet::{Anchor, Sheet};
use crate::text::outlined;
use crate::text::stroke::StrokeLettering;
use studies::carpentry::ControlPlan;
use wood::Outline;

/// How labels are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Letters {
    /// In single strokes, for engraving along a line.
    Strokes,
    /// As outlines, for clearing an area.
    Outlines,
}

/// Arms of a cross on a centre, in mm.
const ARM: f64 = 2.0;

/// The plate at full size as seen from outside: outline and holes to cut,
/// labels and scales to etch, knobs and bodies to see.
#[must_use]
pub fn plate(plan: &ControlPlan, letters: Letters) -> Sheet {
    let mut canvas = Canvas::new(plan.size);
    let [w, h] = plan.size;
    canvas.polygon(Layer::Cut, &[[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]]);
    for hole in &plan.holes {
        canvas.hole(Layer::Cut, hole.at, hole.outline);
        canvas.cross(Layer::Mark, hole.at, ARM);
        let round = |diameter| Outline::Circle { diameter };
        canvas.hole(Layer::Drawing, hole.at, round(hole.front));
        let [width, height] = hole.body;
        let corner = 0.0;
        let body = Outline::Rectangle {
            width,
            height,
            corner,
        };
        canvas.hole(Layer::Drawing, hole.at, body);
    }
    for (at, diameter) in &plan.screws {
        let diameter = *diameter;
        canvas.hole(Layer::Cut, *at, Outline::Circle { diameter });
        canvas.cross(Layer::Mark, *at, ARM);
    }
    let face = Face::of(plan);
    for tick in face.ticks.iter().chain(&face.leaders) {
        canvas.path(Layer::Etch, Path::polyline(tick));
    }
    for word in &face.words {
        canvas.path(Layer::Etch, lettered(word, letters));
    }
    canvas.sheet("control panel")
}

fn lettered(word: &Word, letters: Letters) -> Path {
    match letters {
        Letters::Strokes => {
            StrokeLettering::new(word.cap).path(&word.text, word.base, Anchor::Middle, 0.0)
        }
        Letters::Outlines => outlined(&word.on_sheet()),
    }
}
