//! Boards inside the box: cut off by the walls, and by the boards before them.

use crate::form;
use crate::math;
use crate::panel::{Frame, Panel, PanelEdge, PanelHole, PanelId};
use crate::plan::{Board, EdgeForm, Outline, Plan, Wall, Window};
use crate::polytope::{Face, Plane, Polytope, TOUCH};
use crate::sides::Side;
use crate::vector::{Vector, add, cross, dot, scale};
use crate::wall::extent;

/// Adds the panels of all boards. Where two meet, the earlier one runs through and the
/// later is notched around it; through a window of the earlier it passes.
pub(crate) fn add_all(panels: &mut Vec<Panel>, plan: &Plan, sides: &[Side; 6], room: &Polytope) {
    let mut wood: Vec<Polytope> = Vec::new();
    for (index, board) in plan.boards.iter().enumerate() {
        let whole = Polytope::block(board.low, board.high).intersection(room);
        let pieces = whole
            .iter()
            .flat_map(|whole| cut_back(core::slice::from_ref(whole), &wood))
            .collect();
        panels.push(panel(index, board, sides, whole.as_ref(), pieces));
        wood.extend(whole.iter().flat_map(|whole| without_windows(whole, board)));
    }
}

/// What other solids leave of some pieces.
pub(crate) fn cut_back(whole: &[Polytope], others: &[Polytope]) -> Vec<Polytope> {
    others.iter().fold(whole.to_vec(), |pieces, other| {
        pieces.iter().flat_map(|piece| piece.minus(other)).collect()
    })
}

/// Convex pieces of a board around its windows.
pub(crate) fn without_windows(whole: &Polytope, board: &Board) -> Vec<Polytope> {
    let windows = board.windows.iter();
    let windows: Vec<Polytope> = windows.filter_map(|window| space(board, window)).collect();
    cut_back(core::slice::from_ref(whole), &windows)
}

/// What a later board may take of a window: all of it but the sagittas of its corners.
fn space(board: &Board, window: &Window) -> Option<Polytope> {
    let [u, v] = along(board.across);
    let (mut low, mut high) = (board.low, board.high);
    (low[u], low[v]) = (window.low[0], window.low[1]);
    (high[u], high[v]) = (window.high[0], window.high[1]);
    let whole = Polytope::block(low, high);
    let sides: Vec<&Face> = whole
        .faces
        .iter()
        .filter(|face| face.plane.normal[board.across] == 0.0)
        .collect();
    let corners = sides.iter().enumerate().flat_map(|(k, a)| {
        let others = sides[k + 1..].iter();
        let square = others.filter(|b| dot(a.plane.normal, b.plane.normal) == 0.0);
        square.flat_map(|b| form::planes(EdgeForm::Chamfer(window.corner), &a.plane, &b.plane))
    });
    whole.clip_all(&corners.collect::<Vec<Plane>>())
}

/// The two axes along a board, in the order x, y, z.
pub(crate) const fn along(across: usize) -> [usize; 2] {
    match across {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    }
}

/// The directions of a board's frame: as those of the wall in front of, left of or above it.
const fn directions(across: usize) -> [Vector; 3] {
    match across {
        0 => [[0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0]],
        1 => [[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]],
        _ => [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    }
}

fn panel(
    index: usize,
    board: &Board,
    sides: &[Side; 6],
    whole: Option<&Polytope>,
    pieces: Vec<Polytope>,
) -> Panel {
    let [low, high] = whole.map_or([board.low, board.high], Polytope::bounds);
    let [across, up, out] = directions(board.across);
    let face = if out[board.across] > 0.0 { high } else { low };
    let free = Frame {
        origin: scale(out, dot(out, face)),
        across,
        up,
        out,
    };
    let [from, to] = extent(&free, [low, high]);
    let frame = Frame {
        origin: free.point(from, 0.0),
        ..free
    };
    Panel {
        id: PanelId::Board(index),
        name: board.name.clone(),
        frame,
        thickness: high[board.across] - low[board.across],
        pieces,
        edges: whole.map_or_else(Vec::new, |whole| edges(whole, sides, &frame)),
        holes: board
            .windows
            .iter()
            .map(|window| hole(board, window, &frame))
            .collect(),
        blank: [to[0] - from[0], to[1] - from[1]],
    }
}

/// A window as a hole.
fn hole(board: &Board, window: &Window, frame: &Frame) -> PanelHole {
    let [u, v] = along(board.across);
    let mut middle = [0.0; 3];
    middle[u] = 0.5 * (window.low[0] + window.high[0]);
    middle[v] = 0.5 * (window.low[1] + window.high[1]);
    PanelHole {
        at: frame.flat(middle),
        outline: Outline::Rectangle {
            width: window.high[0] - window.low[0],
            height: window.high[1] - window.low[1],
            corner: window.corner,
        },
        pocket: None,
        purpose: None,
        label: String::new(),
    }
}

/// The edges of a board before others notch it.
fn edges(whole: &Polytope, sides: &[Side; 6], frame: &Frame) -> Vec<PanelEdge> {
    let rim = |face: &&Face| dot(face.plane.normal, frame.out).abs() < 1.0 - TOUCH;
    let mut faces: Vec<(f64, &Face)> = whole
        .faces
        .iter()
        .filter(rim)
        .map(|face| (turn(frame, face.plane.normal), face))
        .collect();
    faces.sort_by(|a, b| a.0.total_cmp(&b.0));
    faces
        .into_iter()
        .map(|(_, face)| edge(whole, sides, frame, face))
        .collect()
}

/// Angle of an edge's normal on from the lower left, so that the lower edge comes first.
fn turn(frame: &Frame, normal: Vector) -> f64 {
    let angle = math::atan2(dot(normal, frame.up), dot(normal, frame.across));
    let on = angle + 0.75 * core::f64::consts::PI;
    if on < 0.0 {
        on + core::f64::consts::TAU
    } else {
        on
    }
}

fn edge(whole: &Polytope, sides: &[Side; 6], frame: &Frame, face: &Face) -> PanelEdge {
    let corners = || face.corners.iter().map(|corner| whole.vertices[*corner]);
    let way = cross(frame.out, face.plane.normal);
    let ends = |sign: f64| {
        let top = corners()
            .map(|point| sign * frame.height(point))
            .fold(f64::NEG_INFINITY, f64::max);
        let mut on: Vec<Vector> = corners()
            .filter(|point| sign * frame.height(*point) > top - TOUCH)
            .collect();
        on.sort_by(|a, b| dot(*a, way).total_cmp(&dot(*b, way)));
        [on[0], on[on.len() - 1]].map(|point| frame.flat(point))
    };
    let met = Wall::ALL.into_iter().find(|wall| {
        let inner = &sides[wall.index()].inner;
        dot(inner.normal, face.plane.normal) > 1.0 - TOUCH
            && (inner.offset - face.plane.offset).abs() < TOUCH
    });
    PanelEdge {
        outer: ends(1.0),
        inner: ends(-1.0),
        meets: met,
        tilt: -math::asin(dot(face.plane.normal, frame.out).clamp(-1.0, 1.0)),
        step: None,
        form: None,
    }
}

impl Panel {
    /// Middle and volume of what each window takes of the pieces.
    pub(crate) fn window_moments(&self) -> Vec<(Vector, f64)> {
        let mut moments = Vec::new();
        for window in self.holes.iter().filter_map(|hole| self.prism(hole)) {
            let parts = self
                .pieces
                .iter()
                .filter_map(|piece| piece.intersection(&window));
            moments.extend(parts.map(|part| (part.centroid(), part.volume())));
        }
        moments
    }

    /// The space of a rectangular window, its corners of the area of the round ones.
    pub(crate) fn prism(&self, window: &PanelHole) -> Option<Polytope> {
        let [half_width, half_height] = window.outline.half();
        let frame = &self.frame;
        let middle = frame.point(window.at, 0.0);
        let facing = |way: Vector, by: f64| Plane::through(add(middle, scale(way, by)), way);
        let back = |way: Vector| scale(way, -1.0);
        let sides = [
            facing(frame.across, half_width),
            facing(frame.up, half_height),
            facing(back(frame.across), half_width),
            facing(back(frame.up), half_height),
        ];
        let round = EdgeForm::Round(window.outline.corner());
        let corners = (0..4).flat_map(|k| form::planes(round, &sides[k], &sides[(k + 1) % 4]));
        let faces = [
            facing(frame.out, 0.0),
            facing(back(frame.out), self.thickness),
        ];
        Polytope::from_planes(
            &faces
                .into_iter()
                .chain(sides)
                .chain(corners)
                .collect::<Vec<_>>(),
        )
    }
}
