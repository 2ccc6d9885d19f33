//! Drivers and passive radiators as bodies of revolution.

use crate::math::{cos, sin};
use crate::{Screw, Shape, Solid};

/// How much smaller than its cut-out a basket is, all around, in m (common practice, no
/// source).
const BASKET_CLEARANCE: f64 = 0.0005;
/// Air to keep free behind the vent in a magnet where nothing else is stated, in m (common
/// practice, no source).
pub const VENT_AIR: f64 = 0.010;
/// Thickness of a frame where none is stated, in m (common practice, no source).
pub const FRAME_THICKNESS: f64 = 0.004;
/// Height of a magnet where none is stated, as a share of the depth (common practice, no
/// source).
pub const MAGNET_SHARE: f64 = 0.4;
/// Diameter of a magnet where none is stated, as a share of the cut-out (common practice, no
/// source).
pub const MAGNET_WIDTH: f64 = 0.75;

/// Outline of a driver or a passive radiator, in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriverOutline {
    /// Diameter of the frame.
    pub frame: f64,
    /// Diameter of the cut-out.
    pub cutout: f64,
    /// Thickness of the frame at the panel.
    pub frame_thickness: f64,
    /// Depth behind the face of the panel that the frame lies on.
    pub depth: f64,
    /// Diameter and height of the magnet; `None` for a radiator.
    pub magnet: Option<[f64; 2]>,
    /// Depth of the air to keep free behind the vent in the magnet; `None` without a vent.
    pub vent_air: Option<f64>,
    /// How many screws hold it and the diameter of the circle they are on.
    pub screws: Option<(u32, f64)>,
    /// How deep the frame is let into the panel: 0 where it lies on it, its thickness where it
    /// is flush.
    pub let_in: f64,
}

impl DriverOutline {
    /// From the dimensions most data sheets give; the rest by the constants of this module.
    #[must_use]
    pub fn new(frame: f64, cutout: f64, depth: f64) -> Self {
        Self {
            frame,
            cutout,
            frame_thickness: FRAME_THICKNESS,
            depth,
            magnet: Some([MAGNET_WIDTH * cutout, MAGNET_SHARE * depth]),
            vent_air: None,
            screws: None,
            let_in: 0.0,
        }
    }
}

impl Shape {
    /// A driver about the y axis: the origin in the middle of its hole on the outer face of
    /// the panel, its frame before it or let in, its basket and magnet behind, along +y.
    #[must_use]
    pub fn driver(outline: &DriverOutline) -> Self {
        let on_axis = |y: f64| [0.0, y, 0.0];
        let seat = outline.let_in;
        let end = seat + outline.depth;
        let basket = 0.5 * outline.cutout - BASKET_CLEARANCE;
        let mut solids = vec![Solid::cylinder(
            on_axis(seat - outline.frame_thickness),
            on_axis(seat),
            0.5 * outline.frame,
        )];
        let (back, back_radius) = match outline.magnet {
            Some([diameter, height]) => {
                let front = (end - height).max(seat);
                solids.push(Solid::cylinder(
                    on_axis(front),
                    on_axis(end),
                    0.5 * diameter,
                ));
                (front, (0.5 * diameter).min(basket))
            }
            None => (end, basket),
        };
        if back > seat {
            solids.push(Solid::Frustum {
                from: on_axis(seat),
                to: on_axis(back),
                from_radius: basket,
                to_radius: back_radius,
            });
        }
        let air = |depth: f64| {
            let radius = 0.5
                * outline
                    .magnet
                    .map_or(outline.cutout, |[diameter, _]| diameter);
            Solid::cylinder(on_axis(end), on_axis(end + depth), radius)
        };
        Self {
            solids,
            keep_free: outline.vent_air.map(air).into_iter().collect(),
            screws: screws(outline),
        }
    }
}

fn screws(outline: &DriverOutline) -> Vec<Screw> {
    let Some((count, circle)) = outline.screws else {
        return Vec::new();
    };
    let full = 2.0 * core::f64::consts::PI;
    let front = outline.let_in - outline.frame_thickness;
    let screw = |i: u32| {
        let angle = full * (f64::from(i) + 0.5) / f64::from(count);
        Screw {
            head: [0.5 * circle * cos(angle), front, 0.5 * circle * sin(angle)],
            along: [0.0, 1.0, 0.0],
        }
    };
    (0..count).map(screw).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Pose;

    #[test]
    fn a_flush_frame_ends_at_the_face_and_the_magnet_goes_deeper() {
        let lying = DriverOutline::new(0.13, 0.115, 0.06);
        let flush = DriverOutline {
            let_in: lying.frame_thickness,
            ..lying
        };
        let here = Pose::at([0.0; 3]);
        let (low, high) = Shape::driver(&lying).bounds(&here);
        assert!((low[1] + 0.004).abs() < 1e-12 && (high[1] - 0.06).abs() < 1e-12);
        let (low, high) = Shape::driver(&flush).bounds(&here);
        assert!(low[1].abs() < 1e-12 && (high[1] - 0.064).abs() < 1e-12);
        assert!((high[0] - 0.065).abs() < 1e-12);
    }

    #[test]
    fn screws_sit_on_their_circle() {
        let outline = DriverOutline {
            screws: Some((4, 0.122)),
            ..DriverOutline::new(0.13, 0.115, 0.06)
        };
        let shape = Shape::driver(&outline);
        assert_eq!(shape.screws.len(), 4);
        for screw in shape.screws {
            let [x, _, z] = screw.head;
            assert!((x * x + z * z - 0.061 * 0.061).abs() < 1e-12);
        }
    }
}
