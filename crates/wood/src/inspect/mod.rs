//! Finds what is wrong with a plan.

mod boards;
mod fatal;
mod forms;
mod holes;

use crate::body::Body;
use crate::corner;
use crate::fault::Fault;
use crate::polytope::Polytope;
use crate::sides::Side;

pub(crate) use fatal::{fatal, no_inside};

/// What is wrong with a body that could be made.
pub(crate) fn all(body: &Body, sides: &[Side; 6], block: &Polytope) -> Vec<Fault> {
    let open = corner::open_corners(&body.plan, sides, block);
    let mut faults: Vec<Fault> = open
        .into_iter()
        .map(|(walls, volume)| Fault::OpenCorner { walls, volume })
        .collect();
    faults.extend(forms::faults(&body.plan));
    faults.extend(holes::faults(body, sides));
    faults.extend(boards::faults(body, sides));
    faults
}
