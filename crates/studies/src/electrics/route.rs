//! How wires lie in the box: from one part to the nearest walls, along them, and off again,
//! through the windows of the braces between.

use super::model::Electrics;
use rayon::prelude::*;
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
    /// Boards that stand in it: braces, cleats, dividers.
    pub(super) boards: Vec<Obstacle>,
}

/// How far from a wall the middle of a wire lies, in m: common practice, no source.
const OFF_WALL: f64 = 0.006;

/// What a metre through a part counts as, in m: wires go round.
const THROUGH: f64 = 6.0;

/// What a metre through wood counts as, in m: wires go through windows.
const THROUGH_WOOD: f64 = 1000.0;

/// What a metre off the walls counts as, in m.
const IN_AIR: f64 = 1.5;

/// A run from one point to another: corners, both ends included. It goes through a window of
/// each board that has one and stands between.
pub(super) fn run(space: &Space, from: Vector, to: Vector) -> Vec<Vector> {
    let [mut at, to] = [from, to].map(|point| space.held(point));
    let mut way = Vec::new();
    for board in space.between(at, to) {
        let passes = board.passes(at, to);
        let way_of = |pass: &[Vector; 2]| {
            let own = along_walls(space, at, pass[0]);
            let cost =
                space.cost(&own, f64::INFINITY) + apart(pass[0], pass[1]) + apart(pass[1], to);
            (cost, own, *pass)
        };
        let best = passes.iter().map(way_of).min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((_, own, pass)) = best {
            way.extend(own);
            at = pass[1];
        }
    }
    way.extend(along_walls(space, at, to));
    tidy(way)
}

/// A run that passes through no window.
///
/// Of the ways along one wall, or along two that meet, with the corner either
/// way round, the one that is shortest where being off the walls and passing
/// through parts count more.
fn along_walls(space: &Space, from: Vector, to: Vector) -> Vec<Vector> {
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
                let least = best.as_ref().map_or(f64::INFINITY, |(least, _)| *least);
                let cost = space.cost(&way, least);
                if cost < least - 1e-9 {
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

    /// Boards with windows between two points, in the order in which they are met.
    fn between(&self, from: Vector, to: Vector) -> Vec<&Obstacle> {
        let mut met: Vec<(f64, &Obstacle)> = self
            .boards
            .iter()
            .filter(|board| !board.windows.is_empty() && board.parts(from, to))
            .map(|board| ((board.low[board.across] - from[board.across]).abs(), board))
            .collect();
        met.sort_by(|a, b| a.0.total_cmp(&b.0));
        met.into_iter().map(|(_, board)| board).collect()
    }

    /// Length of a way, where what is hard counts more; of one that is longer than `most`,
    /// that of its beginning.
    fn cost(&self, way: &[Vector], most: f64) -> f64 {
        let last = way.len() - 1;
        let mut cost = 0.0;
        for (index, pair) in way.windows(2).enumerate() {
            if cost > most {
                break;
            }
            let long = apart(pair[0], pair[1]);
            let walled = self.along_wall(pair[0], pair[1]);
            let pieces = self.boards.iter().flat_map(|board| &board.solid);
            let wood = pieces.map(|piece| shared(*piece, pair[0], pair[1]));
            cost += THROUGH_WOOD * wood.sum::<f64>();
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

/// A board in the space, with the windows through it.
#[derive(Clone, Debug)]
pub(super) struct Obstacle {
    low: Vector,
    high: Vector,
    /// The axis across it.
    across: usize,
    /// Lowest and highest corner of each window, through the board.
    windows: Vec<(Vector, Vector)>,
    /// What is left of the board beside its windows.
    solid: Vec<(Vector, Vector)>,
}

impl Obstacle {
    /// A board by its corners and what goes through it, in the two axes along it.
    pub(super) fn new(
        (low, high): (Vector, Vector),
        across: usize,
        windows: impl IntoIterator<Item = [[f64; 2]; 2]>,
    ) -> Self {
        let axes = along(across);
        let through = |[from, to]: [[f64; 2]; 2]| {
            let (mut first, mut last) = (low, high);
            for (index, axis) in axes.into_iter().enumerate() {
                first[axis] = from[index].max(low[axis]);
                last[axis] = to[index].min(high[axis]);
            }
            (first, last)
        };
        let windows: Vec<(Vector, Vector)> = windows.into_iter().map(through).collect();
        let mut solid = vec![(low, high)];
        for window in &windows {
            let rest = solid
                .into_iter()
                .flat_map(|own| without(own, *window, axes));
            solid = rest.collect();
        }
        Self {
            low,
            high,
            across,
            windows,
            solid,
        }
    }

    /// Whether it stands between two points.
    fn parts(&self, a: Vector, b: Vector) -> bool {
        let axis = self.across;
        let (first, last) = (a[axis].min(b[axis]), a[axis].max(b[axis]));
        first < self.low[axis] && last > self.high[axis]
    }

    /// Ways through its windows: where one goes in and where it comes out. In each window the
    /// point nearest to the start, and those at its edges.
    fn passes(&self, from: Vector, to: Vector) -> Vec<[Vector; 2]> {
        let axis = self.across;
        let forth = from[axis] < to[axis];
        let mut faces = [self.low[axis] - OFF_WALL, self.high[axis] + OFF_WALL];
        let reached = if forth {
            [
                from[axis].max(faces[0]).min(self.low[axis]),
                faces[1].min(to[axis]),
            ]
        } else {
            faces.reverse();
            [
                from[axis].min(faces[0]).max(self.high[axis]),
                faces[1].max(to[axis]),
            ]
        };
        let through = |point: Vector| {
            reached.map(|face| {
                let mut own = point;
                own[axis] = face;
                own
            })
        };
        let mut passes = Vec::new();
        for (low, high) in &self.windows {
            let inner = |axis: usize| {
                let middle = (low[axis] + high[axis]) / 2.0;
                let (first, last) = (low[axis] + OFF_WALL, high[axis] - OFF_WALL);
                (first.min(middle), last.max(middle))
            };
            let mut near = from;
            for axis in along(self.across) {
                let (first, last) = inner(axis);
                near[axis] = from[axis].clamp(first, last);
            }
            passes.push(through(near));
            for axis in along(self.across) {
                let (first, last) = inner(axis);
                for edge in [first, last] {
                    let mut moved = near;
                    moved[axis] = edge;
                    passes.push(through(moved));
                }
            }
        }
        passes
    }
}

/// The two axes along a board.
const fn along(across: usize) -> [usize; 2] {
    match across {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    }
}

/// What is left of a block beside a window through it.
fn without(
    (low, high): (Vector, Vector),
    (first, last): (Vector, Vector),
    axes: [usize; 2],
) -> Vec<(Vector, Vector)> {
    let (mut low, mut high) = (low, high);
    if axes
        .iter()
        .any(|axis| first[*axis] >= high[*axis] || last[*axis] <= low[*axis])
    {
        return vec![(low, high)];
    }
    let mut left = Vec::new();
    for axis in axes {
        if first[axis] > low[axis] {
            let mut top = high;
            top[axis] = first[axis];
            left.push((low, top));
            low[axis] = first[axis];
        }
        if last[axis] < high[axis] {
            let mut bottom = low;
            bottom[axis] = last[axis];
            left.push((bottom, high));
            high[axis] = last[axis];
        }
    }
    left
}

/// Lays every wire of the harness.
pub(super) fn lay(electrics: &mut Electrics, space: &Space) {
    let Electrics {
        system,
        parts,
        harness,
        ..
    } = electrics;
    let wires = harness.par_iter_mut().zip(&system.wires);
    wires.for_each(|(own, wire)| {
        let [from, to] = [wire.from, wire.to].map(|end| parts[end.part].at);
        own.run = run(space, from, to);
        own.lies = length(&own.run);
    });
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
            boards: Vec::new(),
        }
    }

    /// A frame across the middle with a window in its middle, or beside it.
    fn frame(moved: f64) -> Obstacle {
        let window = [[0.06 + moved, 0.08], [0.12 + moved, 0.18]];
        Obstacle::new(([0.19, 0.0, 0.0], [0.202, 0.2, 0.25]), 0, [window])
    }

    fn in_wood(board: &Obstacle, way: &[Vector]) -> f64 {
        let pieces = way.windows(2).flat_map(|pair| {
            let solid = board.solid.iter();
            solid.map(|piece| shared(*piece, pair[0], pair[1]))
        });
        pieces.sum()
    }

    #[test]
    fn a_wire_goes_through_the_window_of_a_brace() {
        let ends = ([0.05, 0.1, 0.01], [0.35, 0.1, 0.01]);
        let free = run(&space(Vec::new()), ends.0, ends.1);
        let mut braced = space(Vec::new());
        braced.boards.push(frame(0.0));
        let through = run(&braced, ends.0, ends.1);
        // Up to the lower edge of the window and down again.
        assert!(length(&through) > length(&free) + 2.0 * 0.07, "{through:?}");
        assert!(
            length(&through) < length(&free) + 2.0 * 0.07 + 0.06,
            "{through:?}"
        );
        assert!(in_wood(&braced.boards[0], &through) < 1e-9, "{through:?}");
    }

    #[test]
    fn a_window_leaves_the_rest_of_its_board() {
        let board = frame(0.0);
        let volume = |(low, high): &(Vector, Vector)| {
            (0..3).map(|axis| high[axis] - low[axis]).product::<f64>()
        };
        let left: f64 = board.solid.iter().map(volume).sum();
        let taken: f64 = board.windows.iter().map(volume).sum();
        assert!((left + taken - volume(&(board.low, board.high))).abs() < 1e-12);
        assert_eq!(board.solid.len(), 4);
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
        /// Wherever both ends stand: through the windows, never through the wood.
        #[test]
        fn no_wire_goes_through_a_brace(
            a in prop::array::uniform3(0.01f64..0.17),
            b in prop::array::uniform3(0.01f64..0.17),
            moved in -0.05f64..0.05,
            back in any::<bool>(),
        ) {
            let mut space = space(Vec::new());
            space.boards.push(frame(moved));
            space.boards.push(Obstacle::new(
                ([0.27, 0.0, 0.0], [0.282, 0.2, 0.25]),
                0,
                [[[0.03, 0.03], [0.09, 0.09]], [[0.1, 0.1], [0.19, 0.2]]],
            ));
            let far = [b[0] + 0.22, b[1], b[2]];
            let far = if far[0] < 0.282 { [far[0] + 0.075, far[1], far[2]] } else { far };
            let (from, to) = if back { (far, a) } else { (a, far) };
            let way = run(&space, from, to);
            for board in &space.boards {
                prop_assert!(in_wood(board, &way) < 1e-9, "{way:?}");
            }
            prop_assert_eq!(way[0], space.held(from));
            prop_assert_eq!(way[way.len() - 1], space.held(to));
            for pair in way.windows(2) {
                let moved = (0..3).filter(|i| (pair[0][*i] - pair[1][*i]).abs() > 1e-9).count();
                prop_assert_eq!(moved, 1);
            }
        }

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
