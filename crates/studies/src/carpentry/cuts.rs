//! The cut list: every panel with its letter, sizes and edges.

use super::model::CutLine;
use super::plan::{PlanSubject, Sheets, extent};
use crate::vary::Draw;
use design::{Carpentry, Design, Grain, Grille, SheetPart};
use physics::math;
use wood::{BoardKind, Body, Crossing, Panel, PanelEdge, PanelHole, PanelId, Wall};

/// Sizes that differ by less are one size, in m.
const ALIKE: f64 = 0.000_05;

/// What cleats and sticks are cut from that no sheet is as thick as.
pub(crate) const STRIP: &str = "strip of wood";

/// A board this much off the thickness of its sheet is not cut from it, in m.
const OWN_THICKNESS: f64 = 0.001;

/// Tilt below which an edge is square, in rad.
const SQUARE: f64 = 1e-4;

/// One panel of the list before equal ones are put together.
struct Entry<'a> {
    panel: &'a Panel,
    kind: usize,
    grain: Option<usize>,
    edges: Vec<String>,
}

/// The cut list, walls first, equal panels on one line; the control panel's plate last.
pub(crate) fn cut_list(body: &Body, plan: &PlanSubject, design: &Design) -> Vec<CutLine> {
    let sheets = &plan.sheets;
    let said = &design.enclosure.carpentry;
    let crossings = body.crossings();
    let mut lines: Vec<(Entry<'_>, CutLine)> = Vec::new();
    for panel in &body.panels {
        let mut entry = entry(panel, body, sheets, said);
        entry.edges.extend(notches(panel, body, &crossings));
        if let Some((_, line)) = lines.iter_mut().find(|(other, _)| alike(&entry, other)) {
            line.panels.push(panel.id);
            line.name = joined(&line.name, &panel.name);
            continue;
        }
        let line = CutLine {
            letter: String::new(),
            panels: vec![panel.id],
            name: panel.name.clone(),
            sheet: stuff(panel, body, sheets.part(entry.kind)),
            thickness: panel.thickness,
            long: panel.long(),
            short: panel.short(),
            grain: entry.grain,
            edges: entry.edges.join("; "),
        };
        lines.push((entry, line));
    }
    let mut lines: Vec<CutLine> = lines.into_iter().map(|(_, line)| line).collect();
    let control = design.control.as_ref();
    let plate = control.map(|said| said.size.map(|side| side.si));
    if let (Some(size), Some(kind)) = (plate, sheets.of_plate()) {
        lines.push(CutLine {
            letter: String::new(),
            panels: Vec::new(),
            name: "control panel".into(),
            sheet: sheets.part(kind).common.name.text.clone(),
            thickness: sheets.part(kind).thickness.si,
            long: size,
            short: size,
            grain: None,
            edges: "square".into(),
        });
    }
    lines.extend(strips(plan, design));
    for (index, line) in lines.iter_mut().enumerate() {
        line.letter = letter(index);
    }
    lines
}

/// The strips of the grille frame: those above and below run through.
fn strips(plan: &PlanSubject, design: &Design) -> Vec<CutLine> {
    let Some(said) = &design.grille else {
        return Vec::new();
    };
    let [across, up] = grille_size(plan, said);
    let (strip, thickness) = (said.strip.si, said.thickness.si);
    let sheet = plan.sheets.part(0);
    let alike = (thickness - sheet.thickness.si).abs() <= OWN_THICKNESS;
    let line = |name: &str, length: f64| CutLine {
        letter: String::new(),
        panels: Vec::new(),
        name: format!("grille, {name}"),
        sheet: if alike {
            sheet.common.name.text.clone()
        } else {
            STRIP.into()
        },
        thickness,
        long: [length, strip],
        short: [length, strip],
        grain: Some(0),
        edges: "square".into(),
    };
    let between = (up - 2.0 * strip).max(0.0);
    vec![
        line("top", across),
        line("bottom", across),
        line("left", between),
        line("right", between),
    ]
}

/// Width and height of the grille over its frame, in m.
fn grille_size(plan: &PlanSubject, said: &Grille) -> [f64; 2] {
    let hull = plan.hull(&Draw::Nominal);
    extent(&hull.block, Wall::Front).map(|side| (side - 2.0 * said.gap.si).max(0.0))
}

/// Cloth of a grille in kg per m²: from memory.
const CLOTH: f64 = 0.2;

/// Weight in kg of a grille: its strips of the stuff of the walls, and cloth over all of it.
pub(crate) fn grille_weight(plan: &PlanSubject, said: &Grille) -> f64 {
    let [across, up] = grille_size(plan, said);
    let strip = said.strip.si;
    let inside = (across - 2.0 * strip).max(0.0) * (up - 2.0 * strip).max(0.0);
    let wood = (across * up - inside) * said.thickness.si;
    wood * plan.sheets.density(0, &Draw::Nominal) + CLOTH * across * up
}

/// The sheet a panel is cut from. Cleats and sticks of another thickness are no piece of
/// the sheet: they are sawn off a strip.
fn stuff(panel: &Panel, body: &Body, sheet: &SheetPart) -> String {
    let strip = match panel.id {
        PanelId::Wall(_) => false,
        PanelId::Board(board) => matches!(
            body.plan.boards[board].kind,
            BoardKind::Cleat | BoardKind::Brace
        ),
    };
    if strip && (panel.thickness - sheet.thickness.si).abs() > OWN_THICKNESS {
        STRIP.into()
    } else {
        sheet.common.name.text.clone()
    }
}

/// A, B, … Z, AA, AB, …
fn letter(index: usize) -> String {
    let last = char::from(b'A' + u8::try_from(index % 26).unwrap_or(0));
    if index < 26 {
        last.into()
    } else {
        format!("{}{last}", letter(index / 26 - 1))
    }
}

/// "left" and "right" are "left and right"; what is called alike stays as it is.
fn joined(names: &str, name: &str) -> String {
    if names.split(" and ").any(|known| known == name) {
        names.into()
    } else {
        format!("{names} and {name}")
    }
}

fn entry<'a>(panel: &'a Panel, body: &Body, sheets: &Sheets, said: &Carpentry) -> Entry<'a> {
    let (kind, grain) = match panel.id {
        PanelId::Wall(wall) => (sheets.of_wall(wall), grain_of_wall(wall, said)),
        PanelId::Board(board) => (sheets.of_board(&body.plan.boards, board), None),
    };
    Entry {
        panel,
        kind,
        grain,
        edges: vec![edges(panel)],
    }
}

/// Which side of a wall's blank runs along the face grain.
fn grain_of_wall(wall: Wall, said: &Carpentry) -> Option<usize> {
    let own = said
        .walls
        .iter()
        .find(|own| super::plan::wall(own.side) == wall);
    let grain = own
        .and_then(|own| own.grain)
        .map_or(Grain::Around, |grain| grain.value);
    match grain {
        Grain::Free => None,
        Grain::Across => Some(0),
        Grain::Upright => Some(1),
        Grain::Around if matches!(wall, Wall::Left | Wall::Right) => Some(1),
        Grain::Around => Some(0),
    }
}

/// What a board that crosses earlier ones loses to them, in words.
fn notches(panel: &Panel, body: &Body, crossings: &[Crossing]) -> Option<String> {
    let PanelId::Board(own) = panel.id else {
        return None;
    };
    let around: Vec<&str> = crossings
        .iter()
        .filter(|crossing| crossing.through && crossing.boards[1] == own)
        .map(|crossing| body.plan.boards[crossing.boards[0]].name.as_str())
        .collect();
    if around.is_empty() {
        return None;
    }
    let sizes = separate(panel);
    let words = format!("cut around {}", around.join(" and "));
    if sizes.len() < 2 {
        return Some(words);
    }
    let said: Vec<String> = sizes
        .iter()
        .map(|[long, short]| format!("{} x {}", tenths(1e3 * long), tenths(1e3 * short)))
        .collect();
    Some(format!(
        "{words}, in {} pieces: {} mm",
        sizes.len(),
        said.join(", ")
    ))
}

/// Sizes of the pieces that a board falls into, across and up, in m.
fn separate(panel: &Panel) -> Vec<[f64; 2]> {
    type Span = [[f64; 3]; 2];
    let touch = |a: &Span, b: &Span| {
        let over = |axis: usize| a[1][axis].min(b[1][axis]) - a[0][axis].max(b[0][axis]);
        let apart = (0..3).any(|axis| over(axis) < -ALIKE);
        // Pieces that only share an edge come apart.
        !apart && (0..3).filter(|axis| over(*axis) > ALIKE).count() > 1
    };
    let mut groups: Vec<Vec<Span>> = Vec::new();
    for piece in &panel.pieces {
        let span = piece.bounds();
        let (near, mut rest): (Vec<_>, Vec<_>) = groups
            .into_iter()
            .partition(|group| group.iter().any(|other| touch(other, &span)));
        rest.push(near.into_iter().flatten().chain([span]).collect());
        groups = rest;
    }
    let size = |group: &Vec<Span>| {
        let ends = group.iter().flatten().map(|end| panel.frame.flat(*end));
        let none = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
        let [low, high] = ends.fold(none, |[low, high], end| {
            [
                [low[0].min(end[0]), low[1].min(end[1])],
                [high[0].max(end[0]), high[1].max(end[1])],
            ]
        });
        [high[0] - low[0], high[1] - low[1]]
    };
    groups.iter().map(size).collect()
}

fn alike(a: &Entry<'_>, b: &Entry<'_>) -> bool {
    let same = |x: [f64; 2], y: [f64; 2]| (0..2).all(|i| (x[i] - y[i]).abs() < ALIKE);
    a.kind == b.kind
        && a.grain == b.grain
        && a.edges == b.edges
        && (a.panel.thickness - b.panel.thickness).abs() < ALIKE
        && same(a.panel.long(), b.panel.long())
        && same(a.panel.short(), b.panel.short())
        && same_outline(a.panel, b.panel)
        && same_holes(&a.panel.holes, &b.panel.holes)
}

/// Whether both faces of two panels are cut to the same outline: mirrored ones are not.
fn same_outline(a: &Panel, b: &Panel) -> bool {
    let ends = |panel: &Panel| -> Vec<f64> {
        let edges = panel.edges.iter();
        edges
            .flat_map(|edge| [edge.outer, edge.inner])
            .flatten()
            .flatten()
            .collect()
    };
    let (a, b) = (ends(a), ends(b));
    a.len() == b.len() && a.iter().zip(&b).all(|(a, b)| (a - b).abs() < ALIKE)
}

fn same_holes(a: &[PanelHole], b: &[PanelHole]) -> bool {
    let near = |x: [f64; 2], y: [f64; 2]| (0..2).all(|i| (x[i] - y[i]).abs() < ALIKE);
    a.len() == b.len()
        && a.iter()
            .zip(b)
            .all(|(a, b)| near(a.at, b.at) && a.outline == b.outline && a.pocket == b.pocket)
}

/// Names of the edges of a panel, in their order.
const EDGES: [&str; 4] = ["bottom", "right", "top", "left"];

/// What is done to the edges of a panel, in words.
fn edges(panel: &Panel) -> String {
    let done: Vec<String> = panel.edges.iter().map(edge).collect();
    let Some(first) = done.first() else {
        return "square".into();
    };
    if done.iter().all(|other| other == first) {
        return if first == "square" {
            first.clone()
        } else {
            format!("all {first}")
        };
    }
    let mut said: Vec<(String, Vec<&str>)> = Vec::new();
    for (name, what) in EDGES.iter().zip(&done) {
        if what == "square" {
            continue;
        }
        match said.iter_mut().find(|(known, _)| known == what) {
            Some((_, edges)) => edges.push(name),
            None => said.push((what.clone(), vec![name])),
        }
    }
    let mut words: Vec<String> = said
        .into_iter()
        .map(|(what, edges)| format!("{} {what}", edges.join(" and ")))
        .collect();
    if done.iter().any(|what| what == "square") {
        words.push("rest square".into());
    }
    words.extend(lengths(panel));
    words.join("; ")
}

/// How long the edges of a panel are that is no rectangle, on its outer face.
fn lengths(panel: &Panel) -> Option<String> {
    if panel.edges.iter().all(|edge| edge.slant() < SQUARE) {
        return None;
    }
    let said = EDGES.iter().zip(&panel.edges).map(|(name, edge)| {
        let [x, y] = run(edge);
        format!("{name} {}", tenths(1e3 * math::hypot(x, y)))
    });
    let said: Vec<String> = said.collect();
    Some(format!("outer face: {} mm", said.join(", ")))
}

fn edge(edge: &PanelEdge) -> String {
    let mut said = Vec::new();
    if edge.slant() >= SQUARE {
        said.push(format!(
            "slanted {}° in the board",
            tenths(edge.slant().to_degrees())
        ));
    }
    if let Some([width, depth]) = edge.step {
        said.push(format!(
            "stepped {:.1} x {:.1} mm",
            1e3 * width,
            1e3 * depth
        ));
    } else if edge.tilt.abs() >= SQUARE {
        let angle = tenths(edge.tilt.abs().to_degrees());
        let face = if edge.tilt > 0.0 { "outer" } else { "inner" };
        said.push(format!("at {angle}°, {face} face reaches farther"));
    }
    if said.is_empty() {
        "square".into()
    } else {
        said.join(", ")
    }
}

/// From one end of an edge to the other, on the outer face, in m.
fn run(edge: &PanelEdge) -> [f64; 2] {
    let [from, to] = edge.outer;
    [to[0] - from[0], to[1] - from[1]]
}

/// With a tenth, where there is one.
fn tenths(number: f64) -> String {
    let said = format!("{number:.1}");
    said.trim_end_matches(".0").into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use wood::Polytope;

    const LEAN: f64 = 8.0 * core::f64::consts::PI / 180.0;

    /// A side of a box 155 mm deep at the foot whose front leans.
    fn side(mirrored: bool) -> Panel {
        let back = 0.21 * math::tan(LEAN);
        let corners = if mirrored {
            [[0.0, 0.0], [0.155, 0.0], [0.155, 0.21], [back, 0.21]]
        } else {
            [[0.0, 0.0], [0.155, 0.0], [0.155 - back, 0.21], [0.0, 0.21]]
        };
        let edges = (0..4).map(|i| {
            let ends = [corners[i], corners[(i + 1) % 4]];
            PanelEdge {
                outer: ends,
                inner: ends,
                meets: None,
                tilt: 0.0,
                step: None,
                form: None,
            }
        });
        Panel {
            id: PanelId::Wall(if mirrored { Wall::Right } else { Wall::Left }),
            name: "side".into(),
            frame: wood::Frame {
                origin: [0.0; 3],
                across: [1.0, 0.0, 0.0],
                up: [0.0, 0.0, 1.0],
                out: [0.0, -1.0, 0.0],
            },
            thickness: 0.009,
            pieces: Vec::<Polytope>::new(),
            edges: edges.collect(),
            holes: Vec::new(),
            blank: [0.155, 0.21],
        }
    }

    #[test]
    fn a_slanted_edge_is_said_with_its_lengths() {
        // 210 tan 8° = 29.5; 210 / cos 8° = 212.1.
        assert_eq!(
            edges(&side(false)),
            "right slanted 8° in the board; rest square; \
             outer face: bottom 155, right 212.1, top 125.5, left 210 mm"
        );
    }

    #[test]
    fn a_board_cut_in_two_falls_into_pieces() {
        let mut panel = side(false);
        let block = |low: f64, high: f64| Polytope::block([low, 0.0, 0.0], [high, 0.009, 0.21]);
        panel.pieces = vec![block(0.0, 0.06), block(0.072, 0.1), block(0.1, 0.155)];
        let sizes = separate(&panel);
        assert_eq!(sizes.len(), 2, "{sizes:?}");
        assert!((sizes[0][0] - 0.06).abs() < 1e-12 && (sizes[1][0] - 0.083).abs() < 1e-12);
    }

    #[test]
    fn mirrored_outlines_are_not_alike() {
        assert!(same_outline(&side(false), &side(false)));
        assert!(!same_outline(&side(false), &side(true)));
    }

    #[test]
    fn each_edge_says_which_face_reaches_farther() {
        let mut front = side(false);
        let square = front.edges[0].clone();
        front.edges = [LEAN, 0.0, -LEAN, 0.0]
            .map(|tilt| PanelEdge {
                tilt,
                ..square.clone()
            })
            .to_vec();
        assert_eq!(
            edges(&front),
            "bottom at 8°, outer face reaches farther; \
             top at 8°, inner face reaches farther; rest square"
        );
    }
}
