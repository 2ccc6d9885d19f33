//! Holes of a panel: how they nest and what wood they take.

use core::f64::consts::PI;

use crate::panel::{Panel, PanelHole};
use crate::plan::Outline;
use crate::vector::{Vector, add, scale};

impl Outline {
    /// Area in m²; corners are no rounder than the shorter side allows.
    #[must_use]
    pub fn area(&self) -> f64 {
        match *self {
            Self::Circle { diameter } => 0.25 * PI * diameter * diameter,
            Self::Rectangle { width, height, .. } => {
                let corner = self.corner();
                width * height - (4.0 - PI) * corner * corner
            }
        }
    }

    /// Radius of its corners in m; of a circle, its own.
    #[must_use]
    pub fn corner(&self) -> f64 {
        match *self {
            Self::Circle { diameter } => 0.5 * diameter,
            Self::Rectangle {
                width,
                height,
                corner,
            } => corner.clamp(0.0, 0.5 * width.min(height)),
        }
    }

    /// Half its width and half its height, in m.
    #[must_use]
    pub fn half(&self) -> [f64; 2] {
        match *self {
            Self::Circle { diameter } => [0.5 * diameter; 2],
            Self::Rectangle { width, height, .. } => [0.5 * width, 0.5 * height],
        }
    }

    /// From its rim to a point so far from its middle, in m; negative inside.
    #[must_use]
    pub fn gap(&self, off: [f64; 2]) -> f64 {
        let core = self.core();
        beyond([0, 1].map(|k| off[k].abs() - core[k])) - self.corner()
    }

    /// Half sides of the rectangle which, grown all round by [`Self::corner`], gives it.
    pub(crate) fn core(&self) -> [f64; 2] {
        let corner = self.corner();
        self.half().map(|half| half - corner)
    }
}

/// What a hole takes of a panel.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cut {
    pub(crate) at: [f64; 2],
    pub(crate) outline: Outline,
    /// From the outer face, no more than the thickness.
    pub(crate) depth: f64,
}

impl Cut {
    pub(crate) fn new(at: [f64; 2], outline: Outline, pocket: Option<f64>, thickness: f64) -> Self {
        Self {
            at,
            outline,
            depth: pocket.map_or(thickness, |depth| depth.min(thickness)),
        }
    }

    /// How far it keeps within another, in m; negative where it reaches over its rim.
    pub(crate) fn within(&self, other: &Self) -> f64 {
        let (own, around) = (self.outline.core(), other.outline.core());
        let over = [0, 1].map(|k| (self.at[k] - other.at[k]).abs() + own[k] - around[k]);
        other.outline.corner() - self.outline.corner() - beyond(over)
    }

    /// How far it runs into another, in m; negative where they keep apart.
    pub(crate) fn overlap(&self, other: &Self) -> f64 {
        let (own, across) = (self.outline.core(), other.outline.core());
        let over = [0, 1].map(|k| (self.at[k] - other.at[k]).abs() - own[k] - across[k]);
        self.outline.corner() + other.outline.corner() - beyond(over)
    }

    /// The direction of length 1 in which another gets clear of it soonest.
    pub(crate) fn way_off(&self, other: &Self) -> [f64; 2] {
        let (own, across) = (self.outline.core(), other.outline.core());
        let arm = [0, 1].map(|k| other.at[k] - self.at[k]);
        let over = [0, 1].map(|k| arm[k].abs() - own[k] - across[k]);
        let sign = arm.map(|c| if c < 0.0 { -1.0 } else { 1.0 });
        if over[0] > 0.0 && over[1] > 0.0 {
            let long = (over[0] * over[0] + over[1] * over[1]).sqrt();
            [0, 1].map(|k| sign[k] * over[k] / long)
        } else if over[0] >= over[1] {
            [sign[0], 0.0]
        } else {
            [0.0, sign[1]]
        }
    }

    /// Whether it starts in the floor of another.
    pub(crate) fn sunk_in(&self, other: &Self) -> bool {
        other.depth < self.depth && self.within(other) >= 0.0
    }
}

/// Distance of a point from a corner rectangle whose sides it exceeds by so much; negative
/// inside.
fn beyond([x, y]: [f64; 2]) -> f64 {
    let (right, up) = (x.max(0.0), y.max(0.0));
    (right * right + up * up).sqrt() + x.max(y).min(0.0)
}

/// Depth from the outer face at which each cut begins: at the floor of the deepest pocket in
/// which it lies, else at the face.
pub(crate) fn starts(cuts: &[Cut]) -> Vec<f64> {
    let start = |cut: &Cut| {
        let around = cuts.iter().filter(|other| cut.sunk_in(other));
        around.map(|other| other.depth).fold(0.0, f64::max)
    };
    cuts.iter().map(start).collect()
}

impl Panel {
    /// Its holes as cuts.
    pub(crate) fn cuts(&self) -> Vec<Cut> {
        let cut = |hole: &PanelHole| Cut::new(hole.at, hole.outline, hole.pocket, self.thickness);
        self.holes.iter().map(cut).collect()
    }

    /// Depth from the outer face at which each hole begins, and at which it ends, in m: a
    /// hole that lies in a deeper one's way begins at the floor of that pocket.
    #[must_use]
    pub fn hole_depths(&self) -> Vec<[f64; 2]> {
        let cuts = self.cuts();
        let ends = cuts.iter().map(|cut| cut.depth);
        starts(&cuts)
            .into_iter()
            .zip(ends)
            .map(|(start, end)| [start, end])
            .collect()
    }

    /// Wood that the holes of a wall take off, in m³; holes that overlap count twice.
    pub(crate) fn hole_volume(&self) -> f64 {
        self.hole_moments().iter().map(|(_, volume)| volume).sum()
    }

    /// Middle and volume of what each hole takes.
    pub(crate) fn hole_moments(&self) -> Vec<(Vector, f64)> {
        let moment = |(hole, [start, end]): (&PanelHole, [f64; 2])| {
            let down = scale(self.frame.out, -0.5 * (start + end));
            let middle = add(self.frame.point(hole.at, 0.0), down);
            (middle, hole.outline.area() * (end - start))
        };
        self.holes
            .iter()
            .zip(self.hole_depths())
            .map(moment)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circle(at: [f64; 2], diameter: f64, depth: f64) -> Cut {
        Cut {
            at,
            outline: Outline::Circle { diameter },
            depth,
        }
    }

    #[test]
    fn a_hole_in_a_pocket_starts_at_its_floor() {
        let cuts = [
            circle([0.1, 0.1], 0.06, 0.018),
            circle([0.1, 0.1], 0.08, 0.004),
            circle([0.3, 0.1], 0.06, 0.018),
        ];
        assert_eq!(starts(&cuts), [0.004, 0.0, 0.0]);
    }

    #[test]
    fn a_point_is_as_far_from_a_rim_as_its_nearest_place() {
        let round = Outline::Circle { diameter: 0.06 };
        assert!((round.gap([0.03, 0.04]) - 0.02).abs() < 1e-15);
        let square = Outline::Rectangle {
            width: 0.1,
            height: 0.02,
            corner: 0.0,
        };
        assert!((square.gap([0.053, 0.014]) - 0.005).abs() < 1e-15);
        assert!((square.gap([0.0, 0.004]) + 0.006).abs() < 1e-15);
    }

    #[test]
    fn circles_overlap_by_what_their_radii_exceed_the_distance() {
        let (a, b) = (
            circle([0.0, 0.0], 0.06, 0.01),
            circle([0.03, 0.04], 0.06, 0.01),
        );
        assert!((a.overlap(&b) - 0.01).abs() < 1e-15);
        let square = Cut {
            at: [0.0, 0.0],
            outline: Outline::Rectangle {
                width: 0.1,
                height: 0.02,
                corner: 0.0,
            },
            depth: 0.01,
        };
        assert!((square.overlap(&circle([0.0, 0.05], 0.06, 0.01)) + 0.01).abs() < 1e-15);
        assert!((circle([0.02, 0.0], 0.01, 0.01).within(&square) - 0.005).abs() < 1e-15);
    }
}
