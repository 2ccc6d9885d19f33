//! Boards inside the box: braces, cleats, the divider, the walls of a bay.

use super::hull::Hull;
use super::sheets::Thicknesses;
use super::{thin_axis, wall};
use design::{Bay, Brace, BraceForm, Chambers, Cleat, Design, Value};
use wood::vector::Vector;
use wood::{Board, BoardKind, Wall, Window};

/// Gap below which a wall of the bay is the box's own, in m.
const TOUCHES: f64 = 0.001;

/// The axis across a wall.
pub(super) const fn axis(wall: Wall) -> usize {
    match wall {
        Wall::Left | Wall::Right => 0,
        Wall::Front | Wall::Back => 1,
        Wall::Top | Wall::Bottom => 2,
    }
}

/// Whether a wall lies at the low end of its axis.
pub(super) const fn is_low(wall: Wall) -> bool {
    matches!(wall, Wall::Left | Wall::Front | Wall::Bottom)
}

/// The inner face of a wall along its axis, at some height where it leans.
pub(super) fn face(hull: &Hull, of: Wall, height: f64) -> f64 {
    let (low, high) = hull.inside();
    match of {
        Wall::Front => hull.front_at(height),
        Wall::Back => hull.back_at(height),
        _ if is_low(of) => low[axis(of)],
        _ => high[axis(of)],
    }
}

/// A stretch of so much inwards from the inner face of a wall, on the floor where it leans.
fn from_face(hull: &Hull, of: Wall, from: f64, thickness: f64) -> [f64; 2] {
    let floor = hull.behind(Wall::Bottom);
    inwards(of, face(hull, of, floor), from, thickness)
}

/// A stretch of so much inwards from a face.
const fn inwards(of: Wall, face: f64, from: f64, thickness: f64) -> [f64; 2] {
    if is_low(of) {
        [face + from, face + from + thickness]
    } else {
        [face - from - thickness, face - from]
    }
}

/// The whole block: what of a board reaches into the walls is cut off.
fn whole(hull: &Hull) -> (Vector, Vector) {
    let block = &hull.block;
    ([0.0; 3], [block.width, block.depth, block.height])
}

/// All boards, in the order of the parts of the plan: braces, cleats, divider, bay.
pub(super) fn boards(design: &Design, hull: &Hull, thick: &Thicknesses) -> Vec<Board> {
    let mut boards: Vec<Board> = design
        .braces
        .iter()
        .zip(&thick.braces)
        .map(|(said, thickness)| brace(said, hull, *thickness))
        .collect();
    boards.extend(design.cleats.iter().map(|said| cleat(said, hull)));
    if design.enclosure.chambers.value == Chambers::OnePerSide {
        boards.push(divider(hull, thick.main));
    }
    if let Some(said) = &design.bay {
        boards.extend(bay(said, hull, thick.bay));
    }
    boards
}

fn brace(said: &Brace, hull: &Hull, thickness: f64) -> Board {
    let (mut low, mut high) = whole(hull);
    let name = said.name.text.clone();
    match &said.form {
        BraceForm::Frame {
            parallel,
            at,
            window,
        } => {
            let along = wall(*parallel);
            let across = axis(along);
            [low[across], high[across]] = from_face(hull, along, at.si, thickness);
            Board {
                name,
                kind: BoardKind::Brace,
                windows: window
                    .iter()
                    .map(|size| middle_window(hull, across, *size, low[across]))
                    .collect(),
                low,
                high,
                across,
            }
        }
        BraceForm::Stick { from, section, at } => {
            let start = wall(*from);
            let side = hull.block.frame(start);
            let middle = side.point([at.across.si, at.up.si], 0.0);
            for (direction, size) in [(side.across, section[0]), (side.up, section[1])] {
                let across = long_axis(direction);
                low[across] = middle[across] - size.si / 2.0;
                high[across] = middle[across] + size.si / 2.0;
            }
            Board {
                name,
                kind: BoardKind::Brace,
                low,
                high,
                across: thin_axis(low, high),
                windows: Vec::new(),
            }
        }
    }
}

/// The axis a direction runs along most.
fn long_axis(direction: Vector) -> usize {
    let longer = |a: &usize, b: &usize| direction[*a].abs().total_cmp(&direction[*b].abs());
    [0, 1, 2].into_iter().max_by(longer).unwrap_or(0)
}

/// A window in the middle of a frame whose near face lies at a place along its axis.
fn middle_window(hull: &Hull, across: usize, [width, height]: [Value; 2], at: f64) -> Window {
    let (mut low, mut high) = hull.inside();
    if across == 2 {
        (low[1], high[1]) = (hull.front_at(at), hull.back_at(at));
    } else if across == 0 {
        let half_up = (low[2] + high[2]) / 2.0;
        (low[1], high[1]) = (hull.front_at(half_up), hull.back_at(half_up));
    }
    // The two axes along the board, and what is width and height as seen along its normal.
    let (axes, size) = match across {
        0 => ([1, 2], [width.si, height.si]),
        1 => ([0, 2], [width.si, height.si]),
        _ => ([0, 1], [width.si, height.si]),
    };
    let middle = axes.map(|axis| (low[axis] + high[axis]) / 2.0);
    Window {
        low: [0, 1].map(|i| middle[i] - size[i] / 2.0),
        high: [0, 1].map(|i| middle[i] + size[i] / 2.0),
        corner: 0.0,
    }
}

fn cleat(said: &Cleat, hull: &Hull) -> Board {
    let (mut low, mut high) = whole(hull);
    let (first, second) = (wall(said.along.0), wall(said.along.1));
    let set = |of: Wall| match of {
        Wall::Front | Wall::Back => said.offset.map_or(0.0, |offset| offset.si),
        Wall::Left | Wall::Right | Wall::Top | Wall::Bottom => 0.0,
    };
    // Its width on the first wall is how far it reaches from the second, and the reverse.
    let reaches = [(second, said.section[0].si), (first, said.section[1].si)];
    // Where a wall leans, the cleat's lower edge lies on it and the rest is planed to it.
    let foot = reaches
        .iter()
        .find(|(of, _)| *of == Wall::Top)
        .map_or(hull.behind(Wall::Bottom), |(_, reach)| {
            face(hull, Wall::Top, 0.0) - reach
        });
    for (of, reach) in reaches {
        let across = axis(of);
        [low[across], high[across]] = inwards(of, face(hull, of, foot), set(of), reach);
    }
    let along = 3 - axis(first) - axis(second);
    if let Some(length) = said.length {
        let (inner_low, inner_high) = hull.inside();
        let middle = (inner_low[along] + inner_high[along]) / 2.0;
        low[along] = middle - length.si / 2.0;
        high[along] = middle + length.si / 2.0;
    }
    Board {
        name: said.name.text.clone(),
        kind: BoardKind::Cleat,
        low,
        high,
        across: thin_axis(low, high),
        windows: Vec::new(),
    }
}

fn divider(hull: &Hull, thickness: f64) -> Board {
    let (mut low, mut high) = whole(hull);
    let (inner_low, inner_high) = hull.inside();
    let middle = (inner_low[0] + inner_high[0]) / 2.0;
    low[0] = middle - thickness / 2.0;
    high[0] = middle + thickness / 2.0;
    Board {
        name: "dividing panel".into(),
        kind: BoardKind::Divider,
        low,
        high,
        across: 0,
        windows: Vec::new(),
    }
}

/// Lowest and highest corner of the room of a bay.
pub(crate) fn bay_room(said: &Bay, hull: &Hull) -> (Vector, Vector) {
    let (inner, _) = hull.inside();
    let [right, up, back] = said.at.map(|value| value.si);
    let low = [inner[0] + right, inner[1] + back, inner[2] + up];
    let size = [said.size.width.si, said.size.depth.si, said.size.height.si];
    (low, [0, 1, 2].map(|axis| low[axis] + size[axis]))
}

/// Lowest and highest corner of a bay over its own walls; where the box's wall closes it,
/// at that wall's inner face.
fn bay_block(said: &Bay, hull: &Hull, thickness: f64) -> (Vector, Vector) {
    let (low, high) = bay_room(said, hull);
    let (inner_low, inner_high) = hull.inside();
    (
        [0, 1, 2].map(|axis| {
            if low[axis] - inner_low[axis] < TOUCHES {
                inner_low[axis]
            } else {
                low[axis] - thickness
            }
        }),
        [0, 1, 2].map(|axis| {
            if inner_high[axis] - high[axis] < TOUCHES {
                inner_high[axis]
            } else {
                high[axis] + thickness
            }
        }),
    )
}

fn bay(said: &Bay, hull: &Hull, thickness: f64) -> Vec<Board> {
    let (low, high) = bay_room(said, hull);
    let (outer_low, outer_high) = bay_block(said, hull, thickness);
    let names = [
        ["bay, left", "bay, right"],
        ["bay, front", "bay, back"],
        ["bay, bottom", "bay, top"],
    ];
    let mut boards = Vec::new();
    // Those across x run over the ends of those across z, and these over those across y.
    let mut block = (outer_low, outer_high);
    for across in [0, 2, 1] {
        let ends = [
            (outer_low[across], low[across]),
            (high[across], outer_high[across]),
        ];
        for (name, (from, to)) in names[across].into_iter().zip(ends) {
            if to - from < thickness - TOUCHES {
                continue;
            }
            let (mut board_low, mut board_high) = block;
            (board_low[across], board_high[across]) = (from, to);
            boards.push(Board {
                name: name.into(),
                kind: BoardKind::BayWall,
                low: board_low,
                high: board_high,
                across,
                windows: Vec::new(),
            });
        }
        (block.0[across], block.1[across]) = (low[across], high[across]);
    }
    boards
}

#[cfg(test)]
mod tests {
    use crate::carpentry::PlanSubject;
    use crate::vary::{Causes, Draw};

    const DESIGN: &str = include_str!("../../../../../examples/workshop-mono/design.toml");

    /// The front leans by 8 degrees over 210 mm: 30 mm, more than the cleat is wide.
    #[test]
    fn a_cleat_lies_on_the_wall_that_leans() {
        let cleat =
            "\n[[cleat]]\nname = \"top\"\nalong = \"top-front\"\nsection = \"15 x 15 mm\"\n";
        let text = format!("{DESIGN}{cleat}");
        let design = design::read(&text, None).expect("a sound design").design;
        let mut causes = Causes::scaled(1.0);
        let mut subject = PlanSubject::new(&mut causes, &design);
        subject.complete(&mut causes, &design);
        let body = wood::Body::new(&subject.at(&Draw::Nominal)).expect("it closes");
        let volume: f64 = body.boards().iter().map(wood::Panel::volume).sum();
        // Planed to the front: half of 15 mm x 15 mm tan 8 degrees is gone.
        let section = 0.015 * 0.015 * (1.0 - 0.5 * physics::math::tan(8.0_f64.to_radians()));
        assert!((volume - section * 0.150).abs() < 1e-9, "{volume}");
        let told = body.faults.iter();
        let told: Vec<_> = told
            .filter(|fault| matches!(fault, wood::Fault::BoardInWall { .. }))
            .collect();
        assert!(told.is_empty(), "{told:?}");
    }
}
