//! Panels with their holes cut out, as convex pieces.

use super::convex::Convex;
use super::grove::Grove;
use crate::math::{acos, ceil, cos, sin};
use crate::polytope::TOUCH;
use crate::vector::{Vector, add, scale};
use crate::{Body, Frame, Panel, PanelHole, PanelId};
use crate::{Outline, Purpose};
use crate::{Plane, Polytope};

/// How far the straight sides that stand for the edge of a round hole reach into it at most,
/// in m: a tenth of what a saw or router is true to.
const SAGITTA: f64 = 0.0001;
/// Bounds of their number.
const SIDES: (f64, f64) = (16.0, 64.0);

/// The wood of one panel.
#[derive(Clone, Debug)]
pub(crate) struct Wood {
    /// Which panel.
    pub(crate) id: PanelId,
    /// Convex pieces as they were before holes were cut.
    pub(crate) wholes: Vec<Convex>,
    /// The convex solids that the holes leave.
    pub(crate) rest: Grove,
}

/// The wood of a box, panel by panel, in the order of the box.
pub(crate) fn timber(body: &Body) -> Vec<Wood> {
    body.panels.iter().map(wood).collect()
}

/// The wood of one panel.
pub(crate) fn wood(panel: &Panel) -> Wood {
    let mut rest: Vec<Chip> = panel
        .pieces
        .iter()
        .map(|piece| Chip::new(piece.clone(), &panel.frame))
        .collect();
    // Nothing but its own screw passes a hole for one that holds the wall.
    let open = |hole: &&PanelHole| hole.purpose != Some(Purpose::Closing);
    for hole in panel.holes.iter().filter(open) {
        let cut = cut(panel, hole);
        let (near, far): (Vec<Chip>, Vec<Chip>) =
            rest.into_iter().partition(|chip| chip.is_near(hole));
        rest = far;
        for chip in near {
            let left = without(&chip.solid, &cut).into_iter();
            rest.extend(left.map(|solid| Chip::new(solid, &panel.frame)));
        }
    }
    Wood {
        id: panel.id,
        wholes: panel.pieces.iter().map(Convex::of).collect(),
        rest: Grove::new(rest.iter().map(|chip| Convex::of(&chip.solid)).collect()),
    }
}

/// A piece of a panel, and the rectangle around it as seen from outside.
struct Chip {
    solid: Polytope,
    low: [f64; 2],
    high: [f64; 2],
}

impl Chip {
    fn new(solid: Polytope, frame: &Frame) -> Self {
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        for vertex in &solid.vertices {
            for (i, at) in frame.flat(*vertex).into_iter().enumerate() {
                low[i] = low[i].min(at);
                high[i] = high[i].max(at);
            }
        }
        Self { solid, low, high }
    }

    /// Whether the rectangles around it and a hole overlap.
    fn is_near(&self, hole: &PanelHole) -> bool {
        let half = hole.outline.half();
        (0..2).all(|i| {
            self.low[i] < hole.at[i] + half[i] - TOUCH
                && hole.at[i] - half[i] + TOUCH < self.high[i]
        })
    }
}

/// What is left of a piece outside a hole: what lies beyond the block around the hole, the
/// bottom of a pocket, and within the block a wedge behind each side of the hole. Small pieces
/// are soon known to be far.
fn without(piece: &Polytope, cut: &Cut) -> Vec<Polytope> {
    let mut left = Vec::new();
    let mut inside = piece.clone();
    for plane in &cut.around {
        left.extend(inside.clip(&plane.flipped()));
        match inside.clip(plane) {
            Some(rest) => inside = rest,
            // A hole that does not reach this piece leaves it in one.
            None => return vec![piece.clone()],
        }
    }
    for wedge in &cut.wedges {
        left.extend(inside.clip_all(wedge));
    }
    left
}

/// A hole as planes.
struct Cut {
    /// Around its block, towards it; a pocket has a bottom.
    around: Vec<Plane>,
    /// Behind each side of it: the side, and the two planes from the middle through its ends.
    wedges: Vec<[Plane; 3]>,
}

fn cut(panel: &Panel, hole: &PanelHole) -> Cut {
    let frame = &panel.frame;
    let point = |at: [f64; 2]| {
        let along = add(scale(frame.across, at[0]), scale(frame.up, at[1]));
        add(frame.origin, along)
    };
    let half = hole.outline.half();
    let [x, y] = hole.at;
    let beyond = |at: [f64; 2], out: Vector| Plane::through(point(at), out);
    let mut around = vec![
        beyond([x + half[0], y], frame.across),
        beyond([x - half[0], y], scale(frame.across, -1.0)),
        beyond([x, y + half[1]], frame.up),
        beyond([x, y - half[1]], scale(frame.up, -1.0)),
    ];
    if let Some(depth) = hole.pocket {
        let bottom = add(point(hole.at), scale(frame.out, -depth));
        around.push(Plane::through(bottom, scale(frame.out, -1.0)));
    }
    let corners = outline(hole);
    // To the right of the way from one point to another.
    let right = |p: [f64; 2], q: [f64; 2]| {
        let out = add(
            scale(frame.across, q[1] - p[1]),
            scale(frame.up, p[0] - q[0]),
        );
        Plane::through(point(p), out)
    };
    let wedge = |i: usize| {
        let (p, q) = (corners[i], corners[(i + 1) % corners.len()]);
        [
            right(p, q).flipped(),
            right(hole.at, p),
            right(hole.at, q).flipped(),
        ]
    };
    Cut {
        around,
        wedges: (0..corners.len()).map(wedge).collect(),
    }
}

/// Corners of a hole, counter-clockwise as seen from outside; those on an arc lie on it, so
/// that what passes between them passes the hole.
fn outline(hole: &PanelHole) -> Vec<[f64; 2]> {
    let [x, y] = hole.at;
    match hole.outline {
        Outline::Circle { diameter } => {
            let radius = 0.5 * diameter;
            arc([x, y], radius, 0.0, pieces_of_circle(radius), false)
        }
        Outline::Rectangle {
            width,
            height,
            corner,
        } => {
            let corner = corner.min(0.5 * width).min(0.5 * height).max(0.0);
            let half = [0.5 * width - corner, 0.5 * height - corner];
            let count = if corner > 0.0 {
                pieces_of_circle(corner) / 4
            } else {
                0
            };
            let quarters = [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]];
            let mut corners: Vec<[f64; 2]> = Vec::new();
            for (i, side) in quarters.iter().enumerate() {
                let middle = [x + side[0] * half[0], y + side[1] * half[1]];
                corners.extend(arc(middle, corner, i as f64, count, true));
            }
            corners.dedup();
            if corners.first() == corners.last() {
                corners.pop();
            }
            corners
        }
    }
}

/// Points on a circle: all around, or the quarter from a given one on, its end included.
fn arc(middle: [f64; 2], radius: f64, from: f64, count: usize, quarter: bool) -> Vec<[f64; 2]> {
    let turn = core::f64::consts::FRAC_PI_2;
    let whole = if quarter { turn } else { 4.0 * turn };
    let last = if quarter { count + 1 } else { count };
    let point = |i: usize| {
        let angle = from * turn + whole * i as f64 / count.max(1) as f64;
        [
            middle[0] + radius * cos(angle),
            middle[1] + radius * sin(angle),
        ]
    };
    (0..last).map(point).collect()
}

/// Sides, a multiple of four, of a polygon whose sides reach no further into a circle than
/// the sagitta.
fn pieces_of_circle(radius: f64) -> usize {
    let half = acos((1.0 - SAGITTA / radius).max(0.0));
    let count = (core::f64::consts::PI / half).clamp(SIDES.0, SIDES.1);
    4 * ceil(count / 4.0) as usize
}
