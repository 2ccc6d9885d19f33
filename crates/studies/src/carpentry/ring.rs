//! Odds that the mitred ring closes.

use super::glue::length_error;
use super::model::RingBudget;
use crate::vary::{Draw, draw};
use core::f64::consts::SQRT_2;
use design::{Design, Glue};
use std::sync::LazyLock;
use wood::ring::{DRAWS, Held, Ring, Spread, test_gap};
use wood::{Edge, Joint, Plan, Wall};

/// Rings drawn: a power of two, as Sobol numbers want it, and enough for odds to be right
/// within one of a hundred.
const RINGS: u32 = 4096;

/// The same draws for every ring, so that designs are told apart by nothing else.
static DRAWN: LazyLock<Vec<[f64; DRAWS]>> = LazyLock::new(|| (0..RINGS).map(row).collect());

/// Share of rings that must close.
const WANTED: f64 = 0.9;

/// Length of the offcuts of a test ring in m.
const TEST: f64 = 0.15;

/// The budget of the ring of left, top, right and bottom; `None` where not all its
/// corners are mitred.
pub(super) fn budget(design: &Design, plan: &Plan) -> Option<RingBudget> {
    let closing = |wall: Wall| matches!(wall, Wall::Front | Wall::Back);
    let corners = Edge::ALL
        .into_iter()
        .filter(|edge| !closing(edge.first) && !closing(edge.second));
    let mut joints = corners.map(|edge| plan.joints[edge.index()]);
    if !joints.all(|joint| joint == Joint::Mitre) {
        return None;
    }
    let ring = Ring {
        width: plan.block.width,
        height: plan.block.height,
        thickness: plan.walls[Wall::Top.index()].thickness,
    };
    let usual = design.saw.kind.value.usual();
    let spread = Spread {
        angle: design
            .saw
            .angle_error
            .map_or(usual.angle_error, |value| value.si),
        common: Spread::ONE_SETTING,
        length: length_error(design),
    };
    let glue_gap = design.glue.gap.map_or(Glue::USUAL.gap, |value| value.si);
    let draws = &*DRAWN;
    let held = Held::Strapped;
    let budget = ring.budget(&spread, held, glue_gap, draws);
    let wanted = ring.wanted_angle(&spread, held, glue_gap, WANTED, draws);
    Some(RingBudget {
        angle_error: spread.angle,
        length_error: spread.length,
        worst_gap: budget.worst,
        median_gap: budget.median,
        p90_gap: budget.p90,
        glue_gap,
        odds: budget.odds,
        wanted_angle: wanted.unwrap_or(0.0),
        test_length: TEST,
        test_gap: test_gap(
            TEST,
            ring.thickness,
            blade_angle(&ring, spread.length, glue_gap),
        ),
    })
}

/// Angle in rad by which one blade may be off at every cut so that its rings close, zero
/// where the lengths alone may spoil them.
///
/// A strapped ring of boards of the right length gapes at each corner by twice the angle
/// over the depth of the mitre. Opposite boards that differ by twice the error of lengths
/// skew it, which adds at most that difference over half the shorter side: taken off in
/// full, so that a blade within this angle closes whatever the lengths within their error.
fn blade_angle(ring: &Ring, length_error: f64, glue_gap: f64) -> f64 {
    let face = SQRT_2 * ring.thickness;
    let skew = length_error / ring.width.min(ring.height);
    (0.5 * (glue_gap / face - skew)).max(0.0)
}

fn row(index: u32) -> [f64; DRAWS] {
    let Draw::Point(point) = draw(index, DRAWS) else {
        return [0.5; DRAWS];
    };
    core::array::from_fn(|i| point[i])
}

#[cfg(test)]
mod tests {
    use super::*;
    use wood::ring::Errors;

    const RING: Ring = Ring {
        width: 0.360,
        height: 0.200,
        thickness: 0.0118,
    };

    /// By hand: 0.2 mm over twice 11.8 mm · √2 is 0.343°, which shows as 4 · 0.00599 ·
    /// 300 mm / √2 = 5.08 mm. A blade that shows 6.74 mm is off by 0.455° and gapes by
    /// 0.265 mm.
    #[test]
    fn one_blade_is_held_to_less_than_a_spread_of_cuts() {
        let angle = blade_angle(&RING, 0.0, 0.0002);
        assert!((angle.to_degrees() - 0.343).abs() < 0.001, "{angle}");
        let shows = test_gap(TEST, RING.thickness, angle);
        assert!((shows - 5.08e-3).abs() < 0.01e-3, "{shows}");
        let passed_once = Errors::tilt(0.455_f64.to_radians());
        let gap = RING.gap(&passed_once, Held::Strapped);
        assert!((gap - 0.265e-3).abs() < 0.001e-3, "{gap}");
    }

    #[test]
    fn a_blade_that_passes_closes_whatever_the_lengths() {
        let (length, glue_gap) = (0.0003, 0.0002);
        let angle = blade_angle(&RING, length, glue_gap);
        let widest = |angle: f64| {
            let gaps = (0..32_u32).map(|signs| {
                let sign = |bit: u32| 2.0 * f64::from(signs >> bit & 1) - 1.0;
                let errors = Errors {
                    angles: [sign(4) * angle; 8],
                    lengths: [0, 1, 2, 3].map(|board| sign(board) * length),
                };
                RING.gap(&errors, Held::Strapped)
            });
            gaps.fold(0.0, f64::max)
        };
        assert!(widest(angle) <= glue_gap + 1e-12);
        assert!(widest(1.001 * angle) > glue_gap);
    }

    /// Against sixteen times as many rings drawn plainly at random (`steele-2014`), whose
    /// own error is a fifth of one in a hundred.
    #[test]
    fn odds_are_right_within_one_of_a_hundred() {
        let mut state = 1_u64;
        let mut number = || {
            state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
            let mut bits = state;
            bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
            bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
            ((bits ^ (bits >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
        };
        let plain: Vec<[f64; DRAWS]> = (0..16 * RINGS)
            .map(|_| core::array::from_fn(|_| number()))
            .collect();
        for degrees in [0.1_f64, 0.2, 0.3, 0.5, 1.0] {
            let spread = Spread {
                angle: degrees.to_radians(),
                common: Spread::ONE_SETTING,
                length: 0.0003,
            };
            let odds = |draws: &[_]| RING.budget(&spread, Held::Strapped, 0.0002, draws).odds;
            let (few, many) = (odds(&DRAWN), odds(&plain));
            assert!((few - many).abs() < 0.01, "{degrees}: {few} {many}");
        }
    }

    #[test]
    fn lengths_alone_may_leave_the_blade_nothing() {
        assert_eq!(blade_angle(&RING, 0.003, 0.0002), 0.0);
    }
}
