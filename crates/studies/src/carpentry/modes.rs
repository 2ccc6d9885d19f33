//! Bending modes of the walls, between bounds.

use super::model::WallMode;
use super::plan::{Hull, Sheets};
use design::{Design, Grain, SheetPart};
use physics::plate::{Edges, Plate, Rigidity};
use wood::{Board, BoardKind, Body, Wall};

/// Part of a wall's width that a board must run along to hold it as an edge does.
const RUNS_ALONG: f64 = 0.6;

/// Gap within which a board touches a wall, in m.
const TOUCHES: f64 = 0.000_5;

/// The lowest mode of every wall whose stiffness is known, lowest first.
pub(super) fn modes(design: &Design, body: &Body, hull: &Hull, sheets: &Sheets) -> Vec<WallMode> {
    let mut modes: Vec<WallMode> = Wall::ALL
        .into_iter()
        .filter_map(|wall| {
            let part = sheets.part(sheets.of_wall(wall));
            let stiff = Stiff::of(
                part,
                hull.walls[wall.index()].thickness,
                grain(design, wall),
            )?;
            Some(mode(wall, &stiff, spans(wall, hull, &body.plan.boards)))
        })
        .collect();
    modes.sort_by(|a, b| a.supported.total_cmp(&b.supported));
    modes
}

/// A wall as a plate.
struct Stiff {
    rigidity: Rigidity,
    /// In kg/m².
    mass: f64,
}

impl Stiff {
    fn of(part: &SheetPart, thickness: f64, along_first: bool) -> Option<Self> {
        let along = part.modulus?.si;
        let across = part.modulus_across.map_or(along, |modulus| modulus.si);
        let moduli = if along_first {
            [along, across]
        } else {
            [across, along]
        };
        Some(Self {
            rigidity: Rigidity::plywood(moduli, thickness),
            mass: part.density.si * thickness,
        })
    }

    /// Lowest frequency with edges free to turn, and held fast, in Hz.
    fn bounds(&self, span: [f64; 2]) -> [f64; 2] {
        let plate = Plate {
            span,
            mass: self.mass,
            rigidity: self.rigidity,
        };
        [Edges::SUPPORTED, Edges::CLAMPED].map(|edges| plate.lowest(edges))
    }
}

fn mode(wall: Wall, stiff: &Stiff, Spans { span, pinned }: Spans) -> WallMode {
    let [supported, _] = stiff.bounds(span);
    let [_, clamped] = stiff.bounds(pinned);
    let longer = usize::from(span[1] > span[0]);
    let mut halves = span;
    halves[longer] = span[longer] / 2.0;
    WallMode {
        wall,
        supported,
        clamped,
        span,
        braced: stiff.bounds(halves),
    }
}

/// Whether the face grain of a wall runs along its first span, from left to right.
fn grain(design: &Design, wall: Wall) -> bool {
    let walls = &design.enclosure.carpentry.walls;
    let own = walls.iter().find(|own| super::plan::wall(own.side) == wall);
    match own
        .and_then(|own| own.grain)
        .map_or(Grain::Around, |grain| grain.value)
    {
        Grain::Across => true,
        Grain::Upright => false,
        Grain::Around | Grain::Free => !matches!(wall, Wall::Left | Wall::Right),
    }
}

/// The axes along a wall, to the right and up as seen from outside.
const fn axes(wall: Wall) -> [usize; 2] {
    match wall {
        Wall::Front | Wall::Back => [0, 2],
        Wall::Left | Wall::Right => [1, 2],
        Wall::Top | Wall::Bottom => [0, 1],
    }
}

/// The largest free spans of a wall between the others and what stiffens it, in m.
struct Spans {
    /// Between what holds it along a line: it bends no lower.
    span: [f64; 2],
    /// Points of support taken as the lines through them: it bends no higher.
    pinned: [f64; 2],
}

fn spans(wall: Wall, hull: &Hull, boards: &[Board]) -> Spans {
    let (mut low, mut high) = hull.inside();
    match wall {
        Wall::Top => {
            let at = high[2];
            (low[1], high[1]) = (hull.front_at(at), hull.back_at(at));
        }
        Wall::Left | Wall::Right => {
            let half_up = (low[2] + high[2]) / 2.0;
            (low[1], high[1]) = (hull.front_at(half_up), hull.back_at(half_up));
        }
        Wall::Front | Wall::Back | Wall::Bottom => {}
    }
    let axes = axes(wall);
    let whole = axes.map(|axis| [low[axis], high[axis]]);
    let length = |of: [f64; 2]| of[1] - of[0];
    let mut lines: [Vec<[f64; 2]>; 2] = [Vec::new(), Vec::new()];
    let mut points: [Vec<[f64; 2]>; 2] = [Vec::new(), Vec::new()];
    for board in boards.iter().filter(|board| holds(board, wall, hull)) {
        let on = [0, 1].map(|i| {
            let axis = axes[i];
            [
                board.low[axis].max(whole[i][0]),
                board.high[axis].min(whole[i][1]),
            ]
        });
        let share = [0, 1].map(|i| length(on[i]) / length(whole[i]));
        match share.map(|share| share >= RUNS_ALONG) {
            [true, true] => {}
            [true, false] => lines[1].push(on[1]),
            [false, true] => lines[0].push(on[0]),
            [false, false] => {
                let longer = usize::from(length(whole[1]) > length(whole[0]));
                points[longer].push(on[longer]);
            }
        }
    }
    // Up a leaning wall, lengths are longer than upright.
    let slant = physics::math::cos(match wall {
        Wall::Front => hull.block.front_lean,
        Wall::Back => hull.block.back_lean,
        Wall::Left | Wall::Right | Wall::Top | Wall::Bottom => 0.0,
    });
    let between = |cuts: &mut [Vec<[f64; 2]>; 2]| {
        let [right, up] = [0, 1].map(|i| widest(whole[i], &mut cuts[i]));
        [right, up / slant]
    };
    let span = between(&mut lines);
    let mut all = [0, 1].map(|i| [lines[i].as_slice(), points[i].as_slice()].concat());
    let pinned = between(&mut all);
    Spans { span, pinned }
}

/// Whether a board stiffens a wall it touches.
fn holds(board: &Board, wall: Wall, hull: &Hull) -> bool {
    if board.kind == BoardKind::Cleat {
        return false;
    }
    let (low, high) = hull.inside();
    match wall {
        Wall::Left => board.low[0] <= low[0] + TOUCHES,
        Wall::Right => board.high[0] >= high[0] - TOUCHES,
        Wall::Front => board.low[1] <= low[1] + TOUCHES,
        Wall::Back => board.high[1] >= high[1] - TOUCHES,
        Wall::Bottom => board.low[2] <= low[2] + TOUCHES,
        Wall::Top => board.high[2] >= high[2] - TOUCHES,
    }
}

/// The widest stretch left free.
fn widest(whole: [f64; 2], cuts: &mut [[f64; 2]]) -> f64 {
    cuts.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut free: f64 = 0.0;
    let mut from = whole[0];
    for cut in cuts.iter() {
        free = free.max(cut[0] - from);
        from = from.max(cut[1]);
    }
    free.max(whole[1] - from)
}
