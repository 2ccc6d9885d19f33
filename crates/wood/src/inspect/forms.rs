//! Outer edges that take off too much.

use crate::fault::Fault;
use crate::plan::{Edge, EdgeForm, Plan};
use crate::polytope::TOUCH;

pub(super) fn faults(plan: &Plan) -> Vec<Fault> {
    let forms = plan.edges.iter().enumerate();
    forms
        .flat_map(|(form, (edge, what))| {
            let (EdgeForm::Round(size) | EdgeForm::Chamfer(size)) = *what;
            [
                too_large(plan, form, *edge, size),
                through(plan, form, *edge, *what),
            ]
        })
        .flatten()
        .collect()
}

/// More than the thinner wall.
fn too_large(plan: &Plan, form: usize, edge: Edge, size: f64) -> Option<Fault> {
    let [a, b] = [edge.first, edge.second].map(|wall| plan.walls[wall.index()].thickness);
    let most = a.min(b);
    let by = size - most;
    (by > TOUCH).then_some(Fault::Form { form, most, by })
}

/// Through the whole glue line.
fn through(plan: &Plan, form: usize, edge: Edge, what: EdgeForm) -> Option<Fault> {
    let left = |what: EdgeForm| plan.joint_line_with(edge, Some(what)).left;
    if left(what) > TOUCH {
        return None;
    }
    let sized = |size: f64| match what {
        EdgeForm::Round(_) => EdgeForm::Round(size),
        EdgeForm::Chamfer(_) => EdgeForm::Chamfer(size),
    };
    let (EdgeForm::Round(size) | EdgeForm::Chamfer(size)) = what;
    let (mut most, mut over) = (0.0, size);
    for _ in 0..50 {
        let middle = 0.5 * (most + over);
        if left(sized(middle)) > TOUCH {
            most = middle;
        } else {
            over = middle;
        }
    }
    Some(Fault::GlueLine { form, most })
}
