//! With what every hole is made, and what must be made before the box is glued.

use super::model::DrillLine;
use super::plan::fastenings::PILOT;
use super::plan::screws::{CLEARANCE, THREAD};
use wood::{Body, Outline, Panel, PanelHole, PanelId, Purpose, Wall};

/// Largest twist drill, flat-bottomed bit and hole saw of a home workshop, in m:
/// common practice, no source.
const DRILL: f64 = 0.0105;
const BIT: f64 = 0.0355;
const HOLE_SAW: f64 = 0.105;

/// From the middle of a router's base to its rim, in m: common practice, no source.
const ROUTER_BASE: f64 = 0.075;

/// Free depth behind a panel that a hole saw or a jigsaw's blade wants, in m: common practice, no source.
const BEHIND: f64 = 0.025;

/// The schedule, panel by panel.
pub(super) fn schedule(body: &Body) -> Vec<DrillLine> {
    let mut lines = Vec::new();
    for panel in &body.panels {
        for (index, hole) in panel.holes.iter().enumerate() {
            lines.push(DrillLine {
                panel: panel.id,
                hole: index,
                tool: tool(hole),
                before: before(body, panel, hole),
            });
        }
    }
    lines
}

/// Whether a hole is cut out along its rim rather than drilled.
fn is_cut(hole: &PanelHole) -> bool {
    match hole.outline {
        Outline::Circle { diameter } => diameter > DRILL,
        Outline::Rectangle { .. } => true,
    }
}

fn tool(hole: &PanelHole) -> String {
    let mm = |length: f64| {
        let text = format!("{:.1}", 1e3 * length);
        text.trim_end_matches(".0").to_owned()
    };
    if let Some(depth) = hole.pocket {
        if let Outline::Circle { diameter } = hole.outline
            && diameter <= DRILL
        {
            return format!("drill {} mm, {} mm deep", mm(diameter), mm(depth));
        }
        return format!("router, {} mm deep", mm(depth));
    }
    if hole.purpose == Some(Purpose::Closing) {
        return format!(
            "drill {} mm; pilots of {} mm through it with the wall clamped on dry",
            mm(CLEARANCE),
            mm(PILOT * THREAD)
        );
    }
    match hole.outline {
        Outline::Circle { diameter } if diameter <= DRILL => format!("drill {} mm", mm(diameter)),
        Outline::Circle { diameter } if diameter <= BIT => {
            format!("flat-bottomed bit {} mm", mm(diameter))
        }
        Outline::Circle { diameter } if diameter <= HOLE_SAW => {
            format!("hole saw {} mm or router", mm(diameter))
        }
        Outline::Circle { .. } => "router on a trammel, or jigsaw".into(),
        Outline::Rectangle { corner, .. } if corner > 0.0 => {
            format!("jigsaw or router, corners of {} mm", mm(corner))
        }
        Outline::Rectangle { .. } => "jigsaw, corners filed square".into(),
    }
}

/// Why a hole must be made before the box is glued.
fn before(body: &Body, panel: &Panel, hole: &PanelHole) -> Option<String> {
    let PanelId::Wall(wall) = panel.id else {
        return Some("no tool reaches inside the closed box".into());
    };
    if is_cut(hole) && body.plan.walls[wall.index()].setback > 0.0 && near_rim(panel, hole) {
        return Some("the ring around the inset panel stops the router's base".into());
    }
    if is_cut(hole) && hole.pocket.is_none() {
        let blocking = behind(body, panel, hole, wall)?;
        return Some(format!("{blocking} behind it stops saw or bit"));
    }
    None
}

/// Whether the base of a router over the rim of a hole reaches over the edge of its panel.
fn near_rim(panel: &Panel, hole: &PanelHole) -> bool {
    let half = hole.outline.half();
    (0..2).any(|axis| {
        let low = hole.at[axis] - half[axis] - ROUTER_BASE;
        let high = hole.at[axis] + half[axis] + ROUTER_BASE;
        low < 0.0 || high > panel.blank[axis]
    })
}

/// The board that stands in the way of a tool's tip behind a hole.
fn behind(body: &Body, panel: &Panel, hole: &PanelHole, wall: Wall) -> Option<String> {
    let half = hole.outline.half();
    let thickness = body.plan.walls[wall.index()].thickness;
    let depth = [-thickness - BEHIND, -thickness];
    let mut low = [f64::INFINITY; 3];
    let mut high = [f64::NEG_INFINITY; 3];
    for corner in 0..8_usize {
        let sign = |bit: usize| if (corner >> bit) & 1 == 1 { 1.0 } else { -1.0 };
        let at = [
            hole.at[0] + sign(0) * half[0],
            hole.at[1] + sign(1) * half[1],
        ];
        let point = panel.frame.point(at, depth[(corner >> 2) & 1]);
        for axis in 0..3 {
            low[axis] = low[axis].min(point[axis]);
            high[axis] = high[axis].max(point[axis]);
        }
    }
    let meets = |board: &&wood::Board| {
        (0..3)
            .all(|axis| board.low[axis] < high[axis] - 1e-6 && low[axis] + 1e-6 < board.high[axis])
    };
    body.plan
        .boards
        .iter()
        // A board with windows may leave the hole free; the solid model tells of those that do not.
        .filter(|board| board.windows.is_empty())
        .find(meets)
        .map(|board| board.name.clone())
}
