//! Holes of a panel: how they nest, what wood they take, whether they meet.

use core::f64::consts::PI;

use crate::panel::{Panel, PanelHole};
use crate::plan::Outline;
use crate::vector::{Vector, add, scale};

impl Outline {
    /// Area in m²; corners no rounder than the shorter side allows.
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

    /// Radius of its corners, in m: half its size for a circle.
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

    /// Half sides of the rectangle which, grown all round by [`Self::corner`], gives it.
    pub(crate) fn core(&self) -> [f64; 2] {
        let corner = self.corner();
        self.half().map(|half| half - corner)
    }
}

impl Panel {
    /// Depth of a hole from the outer face, in m.
    #[must_use]
    pub fn depth(&self, hole: &PanelHole) -> f64 {
        hole.pocket
            .map_or(self.thickness, |depth| depth.min(self.thickness))
    }

    /// Depth from the outer face at which each hole begins, in m: at the floor of the
    /// deepest pocket in which it lies, else at the face.
    #[must_use]
    pub fn starts(&self) -> Vec<f64> {
        let start = |inner: &PanelHole| {
            self.holes
                .iter()
                .filter(|outer| {
                    self.depth(outer) < self.depth(inner) && within(inner, outer) >= 0.0
                })
                .map(|outer| self.depth(outer))
                .fold(0.0, f64::max)
        };
        self.holes.iter().map(start).collect()
    }

    /// Wood that the holes of a wall take off, in m³; holes that overlap count twice.
    pub(crate) fn hole_volume(&self) -> f64 {
        self.hole_moments().map(|(_, volume)| volume).sum()
    }

    /// Middle and volume of what each hole takes.
    pub(crate) fn hole_moments(&self) -> impl Iterator<Item = (Vector, f64)> + '_ {
        self.holes.iter().zip(self.starts()).map(|(hole, start)| {
            let end = self.depth(hole);
            let middle = add(
                self.frame.point(hole.at, 0.0),
                scale(self.frame.out, -0.5 * (start + end)),
            );
            (middle, hole.outline.area() * (end - start))
        })
    }
}

/// How far one hole keeps within another, in m; negative where it reaches over its rim.
pub(crate) fn within(inner: &PanelHole, outer: &PanelHole) -> f64 {
    let (a, b) = (&inner.outline, &outer.outline);
    let (core_a, core_b) = (a.core(), b.core());
    let far = [0, 1].map(|k| (inner.at[k] - outer.at[k]).abs() + core_a[k] - core_b[k]);
    let outside = far.map(|over| over.max(0.0));
    let over = if far[0] > 0.0 && far[1] > 0.0 {
        (outside[0] * outside[0] + outside[1] * outside[1]).sqrt()
    } else {
        far[0].max(far[1])
    };
    b.corner() - a.corner() - over
}
