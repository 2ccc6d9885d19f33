//! How wires lie in the box: from one part to the nearest walls, along them, and off again.

use super::model::Electrics;
use wood::vector::Vector;

/// The space between the walls, and what stands in it.
#[derive(Clone, Debug)]
pub(super) struct Space {
    /// Its lowest and highest corner in m.
    pub(super) low: Vector,
    /// The other.
    pub(super) high: Vector,
    /// Lowest and highest corner of each part in it.
    pub(super) blocks: Vec<(Vector, Vector)>,
}

/// How far from a wall the middle of a wire lies, in m: common practice, no source.
const OFF_WALL: f64 = 0.006;

/// What a metre through a part counts as, in m: wires go round.
const THROUGH: f64 = 6.0;

/// What a metre off the walls counts as, in m.
const IN_AIR: f64 = 1.5;

/// A run from one point to another: corners, both ends included.
///
/// Of the ways along one wall, or along two that meet, with the corner either
/// way round, the one that is shortest where being off the walls and passing
/// through parts count more.
pub(super) fn run(space: &Space, from: Vector, to: Vector) -> Vec<Vector> {
    let [from, to] = [from, to].map(|point| space.held(point));
    let mut best: Option<(f64, Vec<Vector>)> = None;
    for first in 0..6 {
        for second in 0..6 {
            let (start, end) = (space.onto(from, first), space.onto(to, second));
            for order in ORDERS {
                let mut way = vec![from, start];
                let mut at = start;
                for axis in order {
                    at[axis] = end[axis];
                    way.push(at);
                }
                way.push(to);
                let way = tidy(way);
                let cost = space.cost(&way);
                if best.as_ref().is_none_or(|(least, _)| cost < least - 1e-9) {
                    best = Some((cost, way));
                }
            }
        }
    }
    best.map_or_else(|| vec![from, to], |(_, way)| way)
}

const ORDERS: [[usize; 3]; 6] = [
    [0, 1, 2],
    [0, 2, 1],
    [1, 0, 2],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
];

/// Length of a run in m.
pub(super) fn length(run: &[Vector]) -> f64 {
    let stretches = run.windows(2).map(|pair| apart(pair[0], pair[1]));
    // A plain sum of none is −0.
    stretches.fold(0.0, |sum, own| sum + own)
}

/// Distance of two points one axis after the other, in m.
fn apart(a: Vector, b: Vector) -> f64 {
    (0..3).map(|axis| (a[axis] - b[axis]).abs()).sum()
}

/// Corners that are none taken out.
fn tidy(way: Vec<Vector>) -> Vec<Vector> {
    let mut kept: Vec<Vector> = Vec::with_capacity(way.len());
    for point in way {
        if kept.last().is_some_and(|last| apart(*last, point) < 1e-9) {
            continue;
        }
        while let [.., before, last] = kept.as_slice() {
            if straight(*before, *last, point) {
                kept.pop();
            } else {
                break;
            }
        }
        kept.push(point);
    }
    kept
}

/// Whether the second of three points lies on the way from the first to the third.
fn straight(a: Vector, b: Vector, c: Vector) -> bool {
    let moved = (0..3)
        .filter(|axis| (a[*axis] - c[*axis]).abs() > 1e-9)
        .count();
    moved <= 1 && (apart(a, b) + apart(b, c) - apart(a, c)).abs() < 1e-9
}

impl Space {
    /// A point moved between the walls, where a wire can lie.
    fn held(&self, point: Vector) -> Vector {
        core::array::from_fn(|axis| {
            let (low, high) = (self.low[axis] + OFF_WALL, self.high[axis] - OFF_WALL);
            point[axis].clamp(low.min(high), high.max(low))
        })
    }

    /// A point moved to a wall: 0 and 1 left and right, 2 and 3 front and back, 4 and 5 bottom and top.
    fn onto(&self, point: Vector, wall: usize) -> Vector {
        let axis = wall / 2;
        let mut moved = point;
        moved[axis] = if wall.is_multiple_of(2) {
            self.low[axis] + OFF_WALL
        } else {
            self.high[axis] - OFF_WALL
        };
        self.held(moved)
    }

    /// Length of a way, where what is hard counts more.
    fn cost(&self, way: &[Vector]) -> f64 {
        let last = way.len() - 1;
        let mut cost = 0.0;
        for (index, pair) in way.windows(2).enumerate() {
            let long = apart(pair[0], pair[1]);
            let walled = self.along_wall(pair[0], pair[1]);
            cost += if walled { long } else { IN_AIR * long };
            // The pieces at the ends leave the parts they belong to.
            if index > 0 && index + 1 < last {
                let through = self
                    .blocks
                    .iter()
                    .map(|block| shared(*block, pair[0], pair[1]));
                cost += THROUGH * through.sum::<f64>();
            }
        }
        cost
    }

    fn along_wall(&self, a: Vector, b: Vector) -> bool {
        (0..3).any(|axis| {
            [self.low[axis] + OFF_WALL, self.high[axis] - OFF_WALL]
                .iter()
                .any(|plane| (a[axis] - plane).abs() < 1e-9 && (b[axis] - plane).abs() < 1e-9)
        })
    }
}

/// Length of a piece along one axis that lies in a block, in m.
fn shared((low, high): (Vector, Vector), a: Vector, b: Vector) -> f64 {
    let mut long = 1.0;
    let mut moves = 0.0;
    for axis in 0..3 {
        let (from, to) = (a[axis].min(b[axis]), a[axis].max(b[axis]));
        if to - from > 1e-9 {
            moves = (to.min(high[axis]) - from.max(low[axis])).max(0.0);
        } else if from < low[axis] || from > high[axis] {
            long = 0.0;
        }
    }
    long * moves
}

/// Lays every wire of the harness.
pub(super) fn lay(electrics: &mut Electrics, space: &Space) {
    for (index, wire) in electrics.system.wires.iter().enumerate() {
        let [from, to] = [wire.from, wire.to].map(|end| electrics.parts[end.part].at);
        let own = &mut electrics.harness[index];
        own.run = run(space, from, to);
        own.lies = length(&own.run);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn space(blocks: Vec<(Vector, Vector)>) -> Space {
        Space {
            low: [0.0; 3],
            high: [0.4, 0.2, 0.25],
            blocks,
        }
    }

    #[test]
    fn a_wire_goes_round_what_stands_on_its_wall() {
        let ends = ([0.05, 0.1, 0.01], [0.35, 0.1, 0.01]);
        let free = run(&space(Vec::new()), ends.0, ends.1);
        let block = ([0.15, 0.0, 0.0], [0.25, 0.2, 0.1]);
        let round = run(&space(vec![block]), ends.0, ends.1);
        assert!(length(&round) > length(&free) + 0.05, "{round:?}");
        let inner = &round[1..round.len() - 1];
        let within: f64 = inner
            .windows(2)
            .map(|pair| shared(block, pair[0], pair[1]))
            .sum();
        assert!(within < 1e-9, "{round:?}");
    }

    proptest! {
        /// No run is shorter than the way along the axes, and all of it lies between the walls.
        #[test]
        fn runs_hold_between_the_walls(
            a in prop::array::uniform3(0.01f64..0.19),
            b in prop::array::uniform3(0.01f64..0.19),
        ) {
            let space = space(vec![([0.1, 0.05, 0.0], [0.15, 0.1, 0.1])]);
            let way = run(&space, a, b);
            prop_assert!(length(&way) >= apart(space.held(a), space.held(b)) - 1e-9);
            prop_assert_eq!(way[0], space.held(a));
            prop_assert_eq!(way[way.len() - 1], space.held(b));
            for pair in way.windows(2) {
                let moved = (0..3).filter(|i| (pair[0][*i] - pair[1][*i]).abs() > 1e-9).count();
                prop_assert_eq!(moved, 1);
            }
            for point in &way {
                for (at, high) in point.iter().zip(space.high) {
                    prop_assert!((0.0..=high).contains(at));
                }
            }
        }
    }
}
