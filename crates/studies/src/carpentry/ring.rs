//! Odds that the mitred ring closes.

use super::glue::length_error;
use super::model::RingBudget;
use crate::vary::{Draw, draw};
use design::{Design, Glue};
use wood::ring::{DRAWS, Held, Ring, Spread, test_gap};
use wood::{Edge, Joint, Plan, Wall};

/// Rings drawn.
const RINGS: u32 = 500;

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
    let draws: Vec<[f64; DRAWS]> = (0..RINGS).map(row).collect();
    let held = Held::Strapped;
    let budget = ring.budget(&spread, held, glue_gap, &draws);
    let wanted = ring.wanted_angle(&spread, held, glue_gap, WANTED, &draws);
    let wanted_angle = wanted.unwrap_or(0.0);
    Some(RingBudget {
        angle_error: spread.angle,
        length_error: spread.length,
        worst_gap: budget.worst,
        median_gap: budget.median,
        p90_gap: budget.p90,
        glue_gap,
        odds: budget.odds,
        wanted_angle,
        test_length: TEST,
        test_gap: test_gap(TEST, ring.thickness, wanted_angle),
    })
}

fn row(index: u32) -> [f64; DRAWS] {
    let Draw::Point(point) = draw(index, DRAWS) else {
        return [0.5; DRAWS];
    };
    core::array::from_fn(|i| point[i])
}
