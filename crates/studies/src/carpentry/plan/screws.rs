//! Screws of a wall that comes off again: where they pass it, and what they bite into.

use super::boards::{axis, face, is_low};
use super::hull::Hull;
use physics::math::cos;
use wood::{Board, BoardKind, Edge, Hole, Joint, Outline, Plan, Purpose, Wall};

/// Thread of the screws of a wall, and the clearance hole they pass, in m: common practice,
/// no source.
pub(crate) const THREAD: f64 = 0.0035;
pub(crate) const CLEARANCE: f64 = 0.004;

/// Furthest between two screws, from a corner to the first, and from the end of a cleat, in m:
/// common practice, no source.
pub(crate) const APART: f64 = 0.12;
pub(crate) const CORNER: f64 = 0.025;
const END: f64 = 0.01;

/// How deep a screw bites, and wood that stays before its tip, in m: common practice, no
/// source.
const BITE: f64 = 0.02;
const TIP: f64 = 0.003;

/// Least that a screw bites, and least width of what it bites into, in m: common practice, no
/// source.
pub(crate) const LEAST: f64 = 0.008;

/// From the middle of a screw to what its head and the washer under it must keep off, in m:
/// common practice, no source.
const HEAD: f64 = 0.004;

/// Steps in which a screw gives way along its row, in m.
const STEP: f64 = 0.001;

/// Gap in m below which a cleat lies against a wall.
const TOUCHES: f64 = 1e-6;

/// What screws along one side of a wall bite into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Row {
    /// The wall at that side.
    pub(crate) beside: Wall,
    /// Whether they go into a cleat; else into the edge of the wall beside.
    pub(crate) cleat: bool,
    /// How deep the pilot hole is, in m.
    pub(crate) depth: f64,
    /// How many.
    pub(crate) count: usize,
    /// First and last along the row, in m.
    ends: [f64; 2],
    /// The face of the cleat that looks away from the wall beside, along the axis across that
    /// wall, in m.
    far: Option<f64>,
}

/// What a screw must not stand on, from the left and bottom edge of that side of the block.
#[derive(Clone, Copy, Debug)]
pub(super) struct Taken {
    pub(super) at: [f64; 2],
    pub(super) outline: Outline,
}

/// Rows of screws of a wall, along each side that has something to bite into.
pub(crate) fn rows(hull: &Hull, boards: &[Board], joints: &[Joint; 12], last: Wall) -> Vec<Row> {
    last.neighbours()
        .into_iter()
        .flat_map(|beside| at_side(hull, boards, joints, last, beside))
        .collect()
}

/// Sides of a wall along which nothing lies that a screw would bite into, and how long they are
/// in m.
pub(crate) fn bare(
    hull: &Hull,
    boards: &[Board],
    joints: &[Joint; 12],
    last: Wall,
) -> Vec<(Wall, f64)> {
    last.neighbours()
        .into_iter()
        .filter(|beside| at_side(hull, boards, joints, last, *beside).is_empty())
        .map(|beside| {
            let [low, high] = side(hull, last, 3 - axis(last) - axis(beside));
            (beside, high - low)
        })
        .collect()
}

fn at_side(
    hull: &Hull,
    boards: &[Board],
    joints: &[Joint; 12],
    last: Wall,
    beside: Wall,
) -> Vec<Row> {
    let cleats: Vec<Row> = boards
        .iter()
        .filter(|board| board.kind == BoardKind::Cleat)
        .filter(|board| touches(hull, board, last) && touches(hull, board, beside))
        .filter_map(|board| into_cleat(hull, board, last, beside))
        .collect();
    if !cleats.is_empty() {
        return cleats;
    }
    into_edge(hull, joints, last, beside).into_iter().collect()
}

/// Whether a board reaches a wall, on its lower edge where that leans.
fn touches(hull: &Hull, board: &Board, of: Wall) -> bool {
    let foot = board.low[2].max(hull.behind(Wall::Bottom));
    let (at, across) = (face(hull, of, foot), axis(of));
    if is_low(of) {
        board.low[across] <= at + TOUCHES && board.high[across] > at + TOUCHES
    } else {
        board.high[across] >= at - TOUCHES && board.low[across] < at - TOUCHES
    }
}

fn into_cleat(hull: &Hull, cleat: &Board, last: Wall, beside: Wall) -> Option<Row> {
    let (across, thick) = (axis(last), axis(beside));
    let long = 3 - across - thick;
    let [low, high] = side(hull, last, long);
    let ends = [
        (low + CORNER).max(cleat.low[long] + END),
        (high - CORNER).min(cleat.high[long] - END),
    ];
    let depth = BITE.min(cleat.high[across] - cleat.low[across] - TIP);
    let wide = cleat.high[thick] - cleat.low[thick];
    let bites = depth.min(wide) >= LEAST - TOUCHES;
    (bites && ends[1] > ends[0]).then(|| Row {
        beside,
        cleat: true,
        depth,
        count: count(ends),
        ends,
        far: Some(if is_low(beside) {
            cleat.high[thick]
        } else {
            cleat.low[thick]
        }),
    })
}

fn into_edge(hull: &Hull, joints: &[Joint; 12], last: Wall, beside: Wall) -> Option<Row> {
    let edge = Edge::between(last, beside)?;
    let covers = joints[edge.index()] == Joint::Butt { through: last };
    let [low, high] = side(hull, last, 3 - axis(last) - axis(beside));
    let ends = [low + CORNER, high - CORNER];
    (covers && ends[1] > ends[0]).then(|| Row {
        beside,
        cleat: false,
        depth: BITE,
        count: count(ends),
        ends,
        far: None,
    })
}

/// From where to where the room reaches along an axis beside a wall, in m.
fn side(hull: &Hull, last: Wall, long: usize) -> [f64; 2] {
    let (low, high) = hull.inside();
    if long != 1 {
        return [low[long], high[long]];
    }
    // Where front or back lean, between what both ends of the wall leave.
    let heights = match last {
        Wall::Top => [high[2]; 2],
        Wall::Bottom => [low[2]; 2],
        Wall::Front | Wall::Back | Wall::Left | Wall::Right => [low[2], high[2]],
    };
    [
        hull.front_at(heights[0]).max(hull.front_at(heights[1])),
        hull.back_at(heights[0]).min(hull.back_at(heights[1])),
    ]
}

/// How many screws a row between a first and a last one wants.
fn count([first, last]: [f64; 2]) -> usize {
    // A hair more than so many steps is so many.
    let between = ((last - first) / APART - 1e-6).ceil().max(1.0);
    between as usize + 1
}

impl Row {
    /// Where a screw of the row passes its wall, on that side of the block.
    fn on_wall(&self, hull: &Hull, last: Wall, along: f64) -> [f64; 2] {
        let (across, thick) = (axis(last), axis(self.beside));
        let long = 3 - across - thick;
        let mut point = [0.0; 3];
        point[long] = along;
        // Heights first: they say where a wall that leans is.
        for of in [last, self.beside] {
            if axis(of) == 2 {
                point[2] = self.place(hull, of, 0.0);
            }
        }
        for of in [last, self.beside] {
            if axis(of) != 2 {
                point[axis(of)] = self.place(hull, of, point[2]);
            }
        }
        hull.block.frame(last).flat(point)
    }

    /// On the inner face of the screwed wall; beside it, in the middle of what it bites into.
    fn place(&self, hull: &Hull, of: Wall, height: f64) -> f64 {
        let at = face(hull, of, height);
        if of != self.beside {
            return at;
        }
        if let Some(far) = self.far {
            return 0.5 * (at + far);
        }
        let lean = match of {
            Wall::Front => hull.block.front_lean,
            Wall::Back => hull.block.back_lean,
            Wall::Left | Wall::Right | Wall::Top | Wall::Bottom => 0.0,
        };
        let half = 0.5 * hull.walls[of.index()].thickness / cos(lean);
        if is_low(of) { at - half } else { at + half }
    }

    /// Places of its screws along it, as evenly as nothing stands in the way.
    fn screws(&self, hull: &Hull, last: Wall, taken: &mut Vec<Taken>) -> Vec<[f64; 2]> {
        let [first, end] = self.ends;
        let step = (end - first) / (self.count - 1) as f64;
        let mut placed = Vec::with_capacity(self.count);
        for index in 0..self.count {
            let even = first + step * index as f64;
            let free = |along: &f64| {
                let at = self.on_wall(hull, last, *along);
                taken.iter().all(|other| {
                    let off = [0, 1].map(|axis| at[axis] - other.at[axis]);
                    other.outline.gap(off) >= HEAD
                })
            };
            let along = aside(even, self.ends).find(free).unwrap_or(even);
            let at = self.on_wall(hull, last, along);
            let outline = Outline::Circle {
                diameter: 2.0 * HEAD,
            };
            taken.push(Taken { at, outline });
            placed.push(at);
        }
        placed
    }
}

/// Places in a row about one of them, the nearest first.
fn aside(even: f64, [first, last]: [f64; 2]) -> impl Iterator<Item = f64> {
    let steps = (0.5 * APART / STEP) as u32;
    (0..=steps)
        .flat_map(move |k| [f64::from(k), -f64::from(k)])
        .map(move |k| even + STEP * k)
        .filter(move |along| (first - 1e-9..=last + 1e-9).contains(along))
}

/// The clearance holes of a wall's screws.
pub(super) fn holes(hull: &Hull, plan: &Plan, last: Wall, mut taken: Vec<Taken>) -> Vec<Hole> {
    let rows = rows(hull, &plan.boards, &plan.joints, last);
    let middles = rows
        .iter()
        .flat_map(|row| row.screws(hull, last, &mut taken))
        .collect::<Vec<_>>();
    middles
        .into_iter()
        .map(|at| Hole {
            wall: last,
            at,
            outline: Outline::Circle {
                diameter: CLEARANCE,
            },
            pocket: None,
            purpose: Purpose::Closing,
            label: "screw of the wall".into(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn screws_stand_no_further_apart_than_is_usual() {
        for (side, wanted) in [(0.05, 2), (0.12, 2), (0.13, 3), (0.286, 4)] {
            assert_eq!(count([0.025, 0.025 + side]), wanted, "{side}");
        }
    }

    #[test]
    fn a_screw_gives_way_by_as_little_as_it_can() {
        let places: Vec<f64> = aside(0.1, [0.099, 0.2]).take(4).collect();
        for (got, want) in places.iter().zip([0.1, 0.1, 0.101, 0.099]) {
            assert!((got - want).abs() < 1e-12, "{places:?}");
        }
        assert!(aside(0.1, [0.0, 0.2]).all(|along| (along - 0.1).abs() < 0.0601));
    }
}
