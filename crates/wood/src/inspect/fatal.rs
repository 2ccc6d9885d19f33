//! What leaves no solid to make.

use crate::fault::{Fault, Measure};
use crate::plan::{Edge, EdgeForm, Joint, Outline, Plan, Wall};
use crate::polytope::TOUCH;

/// All of it; where measures are no numbers, only that.
pub(crate) fn fatal(plan: &Plan) -> Vec<Fault> {
    let mut faults = measures(plan);
    if !faults.is_empty() {
        return faults;
    }
    let top = plan.block.depth_at(plan.block.height);
    if top <= TOUCH {
        faults.push(Fault::LeansMeet { by: -top });
    }
    faults.extend(steps(plan));
    faults.extend(no_inside(plan));
    faults
}

/// Measures that are no numbers, or too small to be made.
fn measures(plan: &Plan) -> Vec<Fault> {
    let block = &plan.block;
    let lean = |what, value: f64| (what, value, value.abs() < core::f64::consts::FRAC_PI_2);
    let above = |what, value: f64| (what, value, value > TOUCH);
    let not_below = |what, value: f64| (what, value, value >= 0.0);
    let mut all = vec![
        above(Measure::Width, block.width),
        above(Measure::Height, block.height),
        above(Measure::Depth, block.depth),
        lean(Measure::FrontLean, block.front_lean),
        lean(Measure::BackLean, block.back_lean),
    ];
    for wall in Wall::ALL {
        let what = plan.walls[wall.index()];
        all.push(above(Measure::Thickness(wall), what.thickness));
        all.push(not_below(Measure::Setback(wall), what.setback));
    }
    for (index, (_, form)) in plan.edges.iter().enumerate() {
        let (EdgeForm::Round(size) | EdgeForm::Chamfer(size)) = *form;
        all.push(not_below(Measure::Form(index), size));
    }
    for (index, hole) in plan.holes.iter().enumerate() {
        let what = Measure::Hole(index);
        match hole.outline {
            Outline::Circle { diameter } => all.push(above(what, diameter)),
            Outline::Rectangle {
                width,
                height,
                corner,
            } => all.extend([
                above(what, width),
                above(what, height),
                not_below(what, corner),
            ]),
        }
        all.extend(hole.pocket.map(|depth| above(what, depth)));
        all.extend(hole.at.map(|at| (what, at, at.is_finite())));
    }
    for (index, board) in plan.boards.iter().enumerate() {
        let sides = (0..3).map(|axis| board.high[axis] - board.low[axis]);
        all.extend(sides.map(|side| above(Measure::Board(index), side)));
    }
    all.into_iter()
        .filter(|(_, value, fine)| !(*fine && value.is_finite()))
        .map(|(what, value, _)| Fault::Measure { what, value })
        .collect()
}

/// Steps as deep as their wall, or deeper.
fn steps(plan: &Plan) -> impl Iterator<Item = Fault> + '_ {
    Edge::ALL.into_iter().filter_map(|edge| {
        let Joint::Rebate { within, depth } = plan.joints[edge.index()] else {
            return None;
        };
        let by = depth - plan.walls[within.index()].thickness;
        (by >= -TOUCH).then_some(Fault::Step { edge, within, by })
    })
}

/// Pairs of opposite walls with nothing between their inner faces.
pub(crate) fn no_inside(plan: &Plan) -> Vec<Fault> {
    use Wall::{Back, Bottom, Front, Left, Right, Top};
    [[Front, Back], [Left, Right], [Top, Bottom]]
        .into_iter()
        .filter_map(|between| {
            let by = -free(plan, between, 1.0);
            (by > -TOUCH).then(|| blame(plan, between, by))
        })
        .collect()
}

/// A setback without which there would be room, or else both walls.
fn blame(plan: &Plan, between: [Wall; 2], by: f64) -> Fault {
    let deepest = if plan.walls[between[1].index()].setback > plan.walls[between[0].index()].setback
    {
        between[1]
    } else {
        between[0]
    };
    if free(plan, between, 0.0) > TOUCH {
        Fault::Setback { wall: deepest, by }
    } else {
        Fault::NoInside { between, by }
    }
}

/// Smallest distance between the inner faces of two opposite walls, in m; setbacks count
/// as often as said.
fn free(plan: &Plan, [a, b]: [Wall; 2], setbacks: f64) -> f64 {
    let taken = |wall: Wall| {
        let what = plan.walls[wall.index()];
        what.thickness + setbacks * what.setback
    };
    match a {
        Wall::Front => {
            let block = &plan.block;
            let along = taken(a) / crate::math::cos(block.front_lean)
                + taken(b) / crate::math::cos(block.back_lean);
            let heights = [taken(Wall::Bottom), block.height - taken(Wall::Top)];
            let depths = heights.map(|height| block.depth_at(height) - along);
            depths[0].min(depths[1])
        }
        Wall::Left => plan.block.width - taken(a) - taken(b),
        _ => plan.block.height - taken(a) - taken(b),
    }
}
