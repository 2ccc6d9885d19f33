//! What is taken where a design says nothing of saw and glue.
//!
//! Common practice, no source: what a saw in fair order and a white wood glue do.

use super::{Glue, SawKind};
use core::f64::consts::PI;

/// What a kind of saw usually does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualSaw {
    /// Width of its cut in m.
    pub kerf: f64,
    /// Taken off every factory edge first, in m.
    pub trim: f64,
    /// Longest cut in m.
    pub longest: f64,
    /// Narrowest strip it can cut off in m.
    pub narrowest: f64,
    /// Error of its angle, either way, in rad.
    pub angle_error: f64,
    /// Error of its lengths, either way, in m.
    pub length_error: f64,
}

impl SawKind {
    /// What saws of this kind usually do.
    ///
    /// The longest cut decides which sheets a saw can begin on. A panel saw's carriage
    /// runs the length of the common sheets; a table saw takes what its outfeed carries;
    /// two rails of a track saw joined are 2.8 m; a hand saw along a clamped straightedge
    /// has no bound of its own but the straightedge, so it reaches the length of a sheet.
    #[must_use]
    pub const fn usual(self) -> UsualSaw {
        match self {
            Self::Panel => saw([3.2, 10.0, 3100.0, 20.0], 0.2, 0.5),
            Self::Table => saw([3.0, 5.0, 1500.0, 10.0], 0.25, 0.3),
            Self::Track => saw([2.2, 5.0, 2800.0, 50.0], 0.5, 0.5),
            Self::Hand => saw([1.5, 5.0, 2500.0, 15.0], 1.0, 1.0),
        }
    }
}

/// Kerf, trim, longest and narrowest in mm, angle in degrees, length in mm.
const fn saw(cuts: [f64; 4], degrees: f64, length_error: f64) -> UsualSaw {
    UsualSaw {
        kerf: 1e-3 * cuts[0],
        trim: 1e-3 * cuts[1],
        longest: 1e-3 * cuts[2],
        narrowest: 1e-3 * cuts[3],
        angle_error: degrees * PI / 180.0,
        length_error: 1e-3 * length_error,
    }
}

/// What a glue usually does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualGlue {
    /// Widest gap it fills with full strength, in m.
    pub gap: f64,
    /// Time within which joints must be closed, in s.
    pub open_time: f64,
    /// Time spread and closing take for one joint, in s.
    pub per_joint: f64,
    /// Spread in kg/m².
    pub spread: f64,
    /// Time in the clamps, in s.
    pub clamp_time: f64,
}

impl Glue {
    /// A white wood glue.
    pub const USUAL: UsualGlue = UsualGlue {
        gap: 0.2e-3,
        open_time: 480.0,
        per_joint: 45.0,
        spread: 0.18,
        clamp_time: 3600.0,
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    const FORMATS: &str = include_str!("../../../../reference/sheet_sizes.csv");

    /// Every saw can make a first cut across the plywood that is sold, the shorter way.
    #[test]
    fn every_saw_can_begin_on_a_sheet_of_plywood() {
        let rows = FORMATS
            .lines()
            .filter_map(|line| line.strip_prefix("plywood,format,"));
        let sides = rows.map(|row| {
            let side = |cell: usize| -> f64 { row.split(',').nth(cell).unwrap().parse().unwrap() };
            side(0).min(side(1)) * 1e-3
        });
        let widest = sides.fold(0.0, f64::max);
        assert!(widest > 1.2, "{widest}");
        for kind in [
            SawKind::Panel,
            SawKind::Table,
            SawKind::Track,
            SawKind::Hand,
        ] {
            assert!(kind.usual().longest >= widest, "{kind:?}");
        }
    }
}
