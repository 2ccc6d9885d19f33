//! Openings through which parts come out.

use crate::vector::{Vector, add, dot, scale, sub};
use crate::{Body, Frame, Outline, PanelId};

/// An opening, and what is taken away first.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// The panel it is in.
    pub panel: PanelId,
    /// Its hole, by index in the panel; `None` where the whole panel is off.
    pub hole: Option<usize>,
    /// Parts that are out of the way, by index: the driver that sits in the hole, the parts
    /// of the control panel.
    pub taken_out: Vec<usize>,
}

/// The free section of an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Aperture {
    /// Its middle on the outer face.
    pub(crate) middle: Vector,
    /// The frame of its panel.
    pub(crate) frame: Frame,
    /// Its form.
    pub(crate) outline: Outline,
    /// How deep the wood around it is.
    pub(crate) thickness: f64,
}

impl Opening {
    /// Its free section; `None` where the panel or its hole does not exist. That of a whole
    /// panel is the end of the room there.
    pub(crate) fn aperture(&self, body: &Body) -> Option<Aperture> {
        let panel = body.panels.iter().find(|panel| panel.id == self.panel)?;
        let frame = panel.frame;
        let point = |at: [f64; 2]| {
            let along = add(scale(frame.across, at[0]), scale(frame.up, at[1]));
            add(frame.origin, along)
        };
        let (middle, outline) = match self.hole {
            Some(index) => {
                let hole = panel
                    .holes
                    .get(index)
                    .filter(|hole| hole.pocket.is_none())?;
                (hole.at, hole.outline)
            }
            None => whole(body, &frame)?,
        };
        Some(Aperture {
            middle: point(middle),
            frame,
            outline,
            thickness: panel.thickness,
        })
    }
}

/// The rectangle around the corners of the room that lie closest to a panel.
fn whole(body: &Body, frame: &Frame) -> Option<([f64; 2], Outline)> {
    let height = |p: &Vector| dot(sub(*p, frame.origin), frame.out);
    let corners = &body.room.vertices;
    let top = corners.iter().map(height).max_by(f64::total_cmp)?;
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    for corner in corners.iter().filter(|c| height(c) > top - 1e-6) {
        let off = sub(*corner, frame.origin);
        for (i, axis) in [frame.across, frame.up].iter().enumerate() {
            low[i] = low[i].min(dot(off, *axis));
            high[i] = high[i].max(dot(off, *axis));
        }
    }
    let outline = Outline::Rectangle {
        width: high[0] - low[0],
        height: high[1] - low[1],
        corner: 0.0,
    };
    Some((
        [0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1])],
        outline,
    ))
}
