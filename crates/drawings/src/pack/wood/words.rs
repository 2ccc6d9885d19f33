//! How wood is said on the sheets.

use crate::boxview::mm;
use crate::math;
use crate::text::number;
use wood::{EdgeForm, Outline, Panel, PanelEdge, PanelHole};

/// An angle in rad as degrees with a tenth.
pub(super) fn degrees(angle: f64) -> String {
    format!("{}°", number(angle.to_degrees(), 1))
}

/// Two lengths: "360 × 200".
pub(super) fn size([a, b]: [f64; 2]) -> String {
    format!("{} × {}", mm(a), mm(b))
}

/// The form of a hole: "⌀ 104", "62 × 40, corners 3".
pub(super) fn outline(outline: &Outline) -> String {
    match *outline {
        Outline::Circle { diameter } => format!("⌀ {}", mm(diameter)),
        Outline::Rectangle {
            width,
            height,
            corner,
        } => {
            let corners = if corner > 0.0 {
                format!(", corners {}", mm(corner))
            } else {
                String::new()
            };
            format!("{} × {}{corners}", mm(width), mm(height))
        }
    }
}

/// What is done to an outer edge.
pub(super) fn form(form: EdgeForm) -> String {
    match form {
        EdgeForm::Round(r) => format!("rounded over {} mm", mm(r)),
        EdgeForm::Chamfer(c) => format!("chamfered {} mm", mm(c)),
    }
}

/// What an edge is, in words: how the saw is tilted, its step, its outer form.
pub(super) fn edge(edge: &PanelEdge) -> String {
    let mut said = Vec::new();
    let slant = edge.slant();
    if slant > SLANTED {
        let [[x0, y0], [x1, y1]] = edge.outer;
        let long = math::hypot(x1 - x0, y1 - y0);
        said.push(format!(
            "slanted {} in the board, {} long",
            degrees(slant),
            mm(long)
        ));
    }
    if edge.tilt.abs() > 1e-6 {
        let farther = if edge.tilt > 0.0 { "outer" } else { "inner" };
        said.push(format!(
            "saw tilted {}, the {farther} face reaches farther",
            degrees(edge.tilt.abs())
        ));
    } else {
        said.push("square".to_owned());
    }
    if let Some([width, depth]) = edge.step {
        said.push(format!(
            "step inside {} wide, {} deep",
            mm(width),
            mm(depth)
        ));
    }
    said.extend(edge.form.map(form));
    said.join("; ")
}

/// Whether an edge is more than a square saw cut.
pub(super) fn of_note(edge: &PanelEdge) -> bool {
    edge.tilt.abs() > 1e-6 || edge.step.is_some() || edge.form.is_some() || edge.slant() > SLANTED
}

/// An edge turned from the nearer side of its blank by less, in rad, runs along it.
const SLANTED: f64 = 1e-4;

/// Whether a panel is no rectangle.
pub(super) fn slanted(panel: &Panel) -> bool {
    panel.edges.iter().any(|edge| edge.slant() > SLANTED)
}

/// Names in the order they come, each once, with how often it comes: "H cleat (3 ×)".
pub(super) fn counted(names: &[String]) -> String {
    let mut said: Vec<(&String, usize)> = Vec::new();
    for name in names {
        match said.iter_mut().find(|(known, _)| *known == name) {
            Some((_, times)) => *times += 1,
            None => said.push((name, 1)),
        }
    }
    let said = said.into_iter().map(|(name, times)| match times {
        1 => name.clone(),
        n => format!("{name} ({n} ×)"),
    });
    said.collect::<Vec<_>>().join(", ")
}

/// Holes that are made alike, with their indices; in order of first appearance.
pub(super) fn alike(panel: &Panel) -> Vec<(&PanelHole, Vec<usize>)> {
    let mut out: Vec<(&PanelHole, Vec<usize>)> = Vec::new();
    for (i, hole) in panel.holes.iter().enumerate() {
        let same = |h: &PanelHole| {
            outline(&h.outline) == outline(&hole.outline)
                && h.pocket.map(mm) == hole.pocket.map(mm)
                && h.label == hole.label
        };
        match out.iter_mut().find(|(h, _)| same(h)) {
            Some((_, held)) => held.push(i),
            None => out.push((hole, vec![i])),
        }
    }
    out
}

/// All holes of a panel in a few words: "2 × ⌀ 104, 62 × 40".
pub(in crate::pack) fn holes(panel: &Panel) -> String {
    let said: Vec<String> = alike(panel)
        .into_iter()
        .map(|(hole, held)| {
            let times = match held.len() {
                1 => String::new(),
                n => format!("{n} × "),
            };
            let deep = hole
                .pocket
                .map_or(String::new(), |d| format!(", {} deep", mm(d)));
            format!("{times}{}{deep}", outline(&hole.outline))
        })
        .collect();
    said.join("; ")
}

/// A share as per cent.
pub(super) fn percent(share: f64) -> String {
    format!("{} %", number(100.0 * share, 0))
}

/// How many of a hundred.
pub(super) fn of_hundred(share: f64) -> String {
    format!("{} of 100", number(100.0 * share, 0))
}
