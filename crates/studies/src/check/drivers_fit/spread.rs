//! Frames that push one another apart.

use super::clash::{Clash, clashes};
use super::walls::Faces;
use crate::carpentry::Opening;
use physics::math::hypot;
use wood::Wall;

/// Rounds of pushing frames apart.
const PUSHES: usize = 60;

/// How far each frame goes when all that overlap on one wall push one another apart within it.
pub(super) fn spread(openings: &[Opening], faces: &Faces, side: Wall) -> Vec<(usize, [f64; 2])> {
    let mut now = openings.to_vec();
    for _ in 0..PUSHES {
        let wrong = clashes(&now, faces);
        let own: Vec<&Clash> = wrong
            .iter()
            .filter(|clash| now[clash.first].wall == side)
            .collect();
        if own.is_empty() {
            break;
        }
        for clash in own {
            push(&mut now, clash);
        }
    }
    let by = |index: usize| {
        let (from, to) = (openings[index].at, now[index].at);
        [to[0] - from[0], to[1] - from[1]]
    };
    (0..now.len())
        .map(|index| (index, by(index)))
        .filter(|(_, by)| hypot(by[0], by[1]) > 1e-4)
        .collect()
}

/// Pushes two frames off one another, a little further than they must, or one back into its
/// wall.
fn push(now: &mut [Opening], clash: &Clash) {
    let ends = match clash.second {
        None => vec![(clash.first, 1.0)],
        Some(second) => vec![(second, 0.55), (clash.first, -0.55)],
    };
    for (index, share) in ends {
        for axis in 0..2 {
            now[index].at[axis] += share * clash.shift[axis];
        }
    }
}
