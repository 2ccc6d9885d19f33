//! How the control panel sits in its wall.

use super::fastenings::{BLIND, PILOT};
use super::hull::Hull;
use super::wall;
use design::{Control, ControlUse};
use wood::vector::Vector;
use wood::{Board, BoardKind, Hole, Outline, Purpose, Wall};

/// Diameter of the panel's screws where none is stated, in m: common practice, no source.
const SCREW: f64 = 0.003;

/// Width of the ledge a control panel is screwed on, unless stated: common practice, no source.
const LEDGE: f64 = 0.012;

/// Wood that must stay under a pocket, as a share of the wall and in m: common practice, no source.
const UNDER_POCKET: (f64, f64) = (0.3, 0.003);

/// Free room behind the deepest part of a boxed panel, in m: common practice, no source.
const BEHIND_PARTS: f64 = 0.005;

/// Where and how the control panel sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Seat {
    /// The wall.
    pub(crate) wall: Wall,
    /// Its middle on that side of the block.
    pub(crate) at: [f64; 2],
    /// Its width and height in m.
    pub(crate) size: [f64; 2],
    /// Its thickness in m.
    pub(crate) plate: f64,
    /// From the outer face of the block to its own outer face, in m.
    pub(crate) below: f64,
    /// Width of its ledge in m.
    pub(crate) ledge: f64,
    /// Thread of its screws in m.
    pub(crate) screw: f64,
    /// Whether it lies in a pocket of the wall; else behind the wall.
    pub(crate) in_pocket: bool,
    /// From the outer face of the block to the inside of the box around it, in m.
    pub(crate) boxed: Option<f64>,
}

/// How far a part of the panel reaches behind the plate's outer face, in m.
fn reach(used: &ControlUse) -> f64 {
    let part = &used.part;
    let body = part.body.as_ref().map_or(0.0, |size| size.depth.si);
    body + part.behind.map_or(0.0, |behind| behind.si)
}

impl Seat {
    pub(crate) fn new(control: &Control, hull: &Hull, plate: f64) -> Self {
        let wall = wall(control.on.value);
        let planned = hull.walls[wall.index()];
        let recess = control.recess.map_or(0.0, |recess| recess.si);
        let least = (UNDER_POCKET.0 * planned.thickness).max(UNDER_POCKET.1);
        let in_pocket = recess + plate <= planned.thickness - least;
        let below = planned.setback
            + if in_pocket {
                recess
            } else {
                recess.max(planned.thickness)
            };
        let deepest = control.parts.iter().map(reach).fold(0.0, f64::max);
        let boxed = control
            .boxed
            .value
            .then_some(below + plate + deepest + BEHIND_PARTS);
        Self {
            wall,
            at: [control.at.across.si, control.at.up.si],
            size: [control.size[0].si, control.size[1].si],
            plate,
            below,
            ledge: control.ledge.map_or(LEDGE, |ledge| ledge.si),
            screw: control.screw.map_or(SCREW, |screw| screw.si),
            in_pocket,
            boxed,
        }
    }

    /// Volume of the plate before its holes are made, in m³.
    pub(crate) const fn plate_volume(&self) -> f64 {
        self.size[0] * self.size[1] * self.plate
    }

    /// A point of the panel, from its left and bottom edge, on that side of the block.
    pub(crate) fn point(&self, at: [f64; 2]) -> [f64; 2] {
        [0, 1].map(|axis| self.at[axis] - self.size[axis] / 2.0 + at[axis])
    }

    /// Middles of its screws on that side of the block: at the corners, on the ledge.
    pub(crate) fn screws(&self) -> [[f64; 2]; 4] {
        let off = [0, 1].map(|axis| self.size[axis] / 2.0 - self.ledge / 2.0);
        [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]
            .map(|[x, y]| [self.at[0] + x * off[0], self.at[1] + y * off[1]])
    }

    /// The holes it wants in its wall.
    pub(super) fn holes(&self, hull: &Hull) -> Vec<Hole> {
        let hole = |size: [f64; 2], pocket: Option<f64>, label: &str| Hole {
            wall: self.wall,
            at: self.at,
            outline: Outline::Rectangle {
                width: size[0],
                height: size[1],
                corner: 0.0,
            },
            pocket,
            purpose: Purpose::Control,
            label: label.into(),
        };
        let setback = hull.walls[self.wall.index()].setback;
        let opening = self.size.map(|side| (side - 2.0 * self.ledge).max(0.0));
        let mut holes = Vec::new();
        if self.in_pocket {
            let deep = self.below - setback + self.plate;
            holes.push(hole(self.size, Some(deep), "seat of the control panel"));
        }
        if opening[0] > 0.0 && opening[1] > 0.0 {
            holes.push(hole(opening, None, "opening behind the control panel"));
        }
        if self.in_pocket {
            holes.extend(self.pilots(hull));
        }
        holes
    }

    /// Pilot holes for the screws of a panel that lies in a pocket; where it lies behind the
    /// wall, they are drilled from inside.
    fn pilots(&self, hull: &Hull) -> Vec<Hole> {
        let planned = hull.walls[self.wall.index()];
        let floor = self.below - planned.setback + self.plate;
        let diameter = PILOT * self.screw;
        if self.ledge < 2.0 * diameter {
            return Vec::new();
        }
        let pilot = |at| Hole {
            wall: self.wall,
            at,
            outline: Outline::Circle { diameter },
            pocket: Some(floor + BLIND * (planned.thickness - floor)),
            purpose: Purpose::Fastening,
            label: "panel screw".into(),
        };
        self.screws().map(pilot).into()
    }

    /// The boards around it: a frame that carries it below its wall, and a box behind it.
    pub(super) fn boards(&self, hull: &Hull, thickness: f64) -> Vec<Board> {
        let inner = hull.behind(self.wall);
        let mut boards = Vec::new();
        if !self.in_pocket && self.below > inner + 1e-6 && self.boxed.is_none() {
            // Strips of the ledge's width between the wall and the plate.
            boards.extend(self.around(hull, -self.ledge, self.ledge, [-inner, -self.below]));
        }
        if let Some(end) = self.boxed {
            let end = end.max(inner);
            // No deeper than its wall, it is closed by the back alone.
            if end > inner + 1e-6 {
                boards.extend(self.around(hull, 0.0, thickness, [-inner, -end]));
            }
            let half = self.size.map(|side| side / 2.0 + thickness);
            let low = [self.at[0] - half[0], self.at[1] - half[1]];
            let high = [self.at[0] + half[0], self.at[1] + half[1]];
            boards.push(self.board(hull, low, high, [-end, -end - thickness], "recess, back"));
        }
        boards
    }

    /// Four boards around the plate's outline, moved outwards by `gap`, between two depths.
    fn around(&self, hull: &Hull, gap: f64, thickness: f64, out: [f64; 2]) -> Vec<Board> {
        let half = self.size.map(|side| side / 2.0 + gap);
        let [u, v] = self.at;
        let (inner, outer) = (half, half.map(|side| side + thickness));
        [
            (
                "recess, left",
                [u - outer[0], v - inner[1]],
                [u - inner[0], v + inner[1]],
            ),
            (
                "recess, right",
                [u + inner[0], v - inner[1]],
                [u + outer[0], v + inner[1]],
            ),
            (
                "recess, top",
                [u - outer[0], v + inner[1]],
                [u + outer[0], v + outer[1]],
            ),
            (
                "recess, bottom",
                [u - outer[0], v - outer[1]],
                [u + outer[0], v - inner[1]],
            ),
        ]
        .into_iter()
        .map(|(name, low, high)| self.board(hull, low, high, out, name))
        .collect()
    }

    fn board(
        &self,
        hull: &Hull,
        low: [f64; 2],
        high: [f64; 2],
        out: [f64; 2],
        name: &str,
    ) -> Board {
        let (low, high) = hull.region(self.wall, low, high, out);
        Board {
            name: name.into(),
            kind: BoardKind::RecessWall,
            low,
            high,
            across: super::thin_axis(low, high),
            windows: Vec::new(),
        }
    }

    /// Lowest and highest corner of the air in a box behind the panel.
    pub(super) fn boxed_air(&self, hull: &Hull) -> Option<(Vector, Vector)> {
        let inner = hull.behind(self.wall);
        let end = self.boxed?.max(inner);
        let half = self.size.map(|side| side / 2.0);
        let low = [self.at[0] - half[0], self.at[1] - half[1]];
        let high = [self.at[0] + half[0], self.at[1] + half[1]];
        Some(hull.region(self.wall, low, high, [-inner, -end]))
    }
}
