//! What a template shows.

use super::tile::Cross;
use crate::cut::{LARGEST_DRILL, Room, hole_shape, long_points, mm};
use crate::geometry::{Point, Rect};
use crate::layout::BODY;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Shape, Stroke, Style, Text, pen};
use crate::text::number;
use studies::carpentry::{ControlPlan, CutLine};
use wood::{Body, Outline, Panel};

/// A thing at full size, in mm from its upper left corner.
pub(super) struct Subject {
    pub(super) title: String,
    pub(super) size: (f64, f64),
    pub(super) lines: Drawing,
    holes: Vec<Hole>,
}

struct Hole {
    bounds: Rect,
    words: String,
}

/// Arms of the cross on a centre, in mm.
const ARM: f64 = 4.0;
/// Between a label and what it must not touch.
const CLEAR: f64 = 0.8;
/// A label lies at most so far from the edge of its hole.
const REACH: f64 = 20.0;

/// What is marked from a template, and the names of what is better measured:
/// plain rectangles without holes.
pub(super) fn subjects(
    body: &Body,
    cut_list: &[CutLine],
    control: Option<&ControlPlan>,
) -> (Vec<Subject>, Vec<String>) {
    let (mut out, mut plain) = (Vec::new(), Vec::new());
    for line in cut_list {
        let Some(panel) = line.panels.first().and_then(|id| body.panel(*id)) else {
            continue;
        };
        if panel.holes.is_empty() && is_rectangle(panel) {
            plain.push(named(line));
        } else {
            out.push(of_panel(panel, named(line)));
        }
    }
    out.extend(control.map(of_plate));
    (out, plain)
}

fn named(line: &CutLine) -> String {
    match line.panels.len() {
        0 | 1 => format!("panel {}, {}", line.letter, line.name),
        count => format!("panel {}, {}, {count} of them", line.letter, line.name),
    }
}

fn is_rectangle(panel: &Panel) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
    long_points(panel).iter().all(|at| {
        let on = |axis: usize| near(at[axis], 0.0) || near(at[axis], panel.blank[axis]);
        on(0) && on(1)
    })
}

fn of_panel(panel: &Panel, title: String) -> Subject {
    let [w, h] = panel.blank.map(mm);
    let place = |[x, y]: [f64; 2]| Point::new(mm(x), h - mm(y));
    let mut lines = Drawing::default();
    let corners: Vec<Point> = long_points(panel).into_iter().map(place).collect();
    lines.polygon(&corners, edge());
    let mut holes = Vec::new();
    for hole in &panel.holes {
        let dash = if hole.pocket.is_some() {
            Dash::Dashed
        } else {
            Dash::Solid
        };
        let depth = hole.pocket.map_or(String::new(), |depth| {
            format!(", {} deep", number(mm(depth), 1))
        });
        let words = format!("{} {}{depth}", hole.label, sized(hole.outline));
        holes.push(add_hole(
            &mut lines,
            hole.outline,
            place(hole.at),
            dash,
            &words,
        ));
    }
    let size = (w, h);
    Subject {
        title,
        size,
        lines,
        holes,
    }
}

fn of_plate(plan: &ControlPlan) -> Subject {
    let [w, h] = plan.size.map(mm);
    let place = |[x, y]: [f64; 2]| Point::new(mm(x), h - mm(y));
    let mut lines = Drawing::default();
    lines.rect(Rect::new(0.0, 0.0, w, h), edge());
    let mut holes = Vec::new();
    for hole in &plan.holes {
        let words = format!("{} {}", hole.name, sized(hole.outline));
        holes.push(add_hole(
            &mut lines,
            hole.outline,
            place(hole.at),
            Dash::Solid,
            &words,
        ));
    }
    for (at, diameter) in &plan.screws {
        let outline = Outline::Circle {
            diameter: *diameter,
        };
        let words = format!("screw {}", sized(outline));
        holes.push(add_hole(
            &mut lines,
            outline,
            place(*at),
            Dash::Solid,
            &words,
        ));
    }
    Subject {
        title: "control panel".to_owned(),
        size: (w, h),
        lines,
        holes,
    }
}

const fn edge() -> Style {
    Style::stroked(Stroke::new(Role::Ink, pen::BOLD))
}

fn sized(outline: Outline) -> String {
    match outline {
        Outline::Circle { diameter } => format!("⌀ {}", number(mm(diameter), 1)),
        Outline::Rectangle { width, height, .. } => {
            format!("{} × {}", number(mm(width), 1), number(mm(height), 1))
        }
    }
}

/// Draws a hole with a cross on its centre.
fn add_hole(lines: &mut Drawing, outline: Outline, centre: Point, dash: Dash, words: &str) -> Hole {
    let shape = hole_shape(outline, centre);
    let bounds = match &shape {
        Shape::Circle { radius, .. } => Rect::new(
            centre.x - radius,
            centre.y - radius,
            2.0 * radius,
            2.0 * radius,
        ),
        other => bounds_of(other),
    };
    let stroke = Stroke::new(Role::Ink, pen::MEDIUM).dashed(dash);
    lines.shape(shape, Style::stroked(stroke));
    let hair = Stroke::new(Role::Ink, pen::HAIR);
    for (dx, dy) in [(ARM, 0.0), (0.0, ARM)] {
        lines.line(centre.moved(-dx, -dy), centre.moved(dx, dy), hair);
    }
    let words = words.trim().to_owned();
    Hole { bounds, words }
}

fn bounds_of(shape: &Shape) -> Rect {
    let lines = shape.to_path().flatten();
    let points: Vec<Point> = lines.into_iter().flat_map(|l| l.points).collect();
    Rect::around(&points).unwrap_or_default()
}

impl Subject {
    /// Labels of the holes, where neither holes nor crosses of seams are;
    /// those of drilled holes that are alike only once.
    pub(super) fn labels(&self, crosses: &[Cross]) -> Vec<Text> {
        let mut room = Room::new(Rect::new(0.0, 0.0, self.size.0, self.size.1).inset(CLEAR));
        for hole in &self.holes {
            let arms = Rect::new(hole.bounds.centre().x, hole.bounds.centre().y, 0.0, 0.0);
            for taken in rims(&hole.bounds).into_iter().chain([arms.inset(-ARM)]) {
                room.take(taken.inset(-CLEAR));
            }
        }
        for cross in crosses {
            room.take(cross.rect());
        }
        let mut out = Vec::new();
        for (index, hole) in self.holes.iter().enumerate() {
            let drilled = hole.bounds.w <= mm(LARGEST_DRILL);
            let said = self.holes[..index]
                .iter()
                .any(|other| other.words == hole.words);
            if drilled && said {
                continue;
            }
            let (above, below) = (BODY.ascent(), BODY.descent());
            let size = (BODY.width(&hole.words), above + below);
            let wish = hole.bounds.centre().moved(0.0, ARM + size.1);
            let reach = hole.bounds.h / 2.0 + REACH;
            if let Some(rect) = room.nearest(size, wish, reach) {
                room.take(rect);
                let base = Point::new(rect.centre().x, rect.bottom() - below);
                out.push(Text::new(base, &hole.words, BODY).anchored(Anchor::Middle));
            }
        }
        out
    }
}

/// Strips along the rim of a hole: within a large hole there is room.
fn rims(bounds: &Rect) -> Vec<Rect> {
    // The corners of a square around a circle are empty, but its rim comes
    // in by this share of its size at 45°.
    let band = 0.15 * bounds.w.min(bounds.h);
    if bounds.w.min(bounds.h) < 40.0 {
        return vec![*bounds];
    }
    vec![
        Rect::new(bounds.x, bounds.y, bounds.w, band),
        Rect::new(bounds.x, bounds.bottom() - band, bounds.w, band),
        Rect::new(bounds.x, bounds.y, band, bounds.h),
        Rect::new(bounds.right() - band, bounds.y, band, bounds.h),
    ]
}
