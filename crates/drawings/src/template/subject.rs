//! What a template shows.

use super::tile::{Cross, Tiling};
use crate::cut::{LARGEST_DRILL, Room, hole_shape, long_points, mm};
use crate::geometry::{Point, Rect};
use crate::layout::BODY;
use crate::paper::Paper;
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
    paper: Paper,
) -> (Vec<Subject>, Vec<String>) {
    let (mut out, mut plain) = (Vec::new(), Vec::new());
    for line in cut_list {
        let Some(panel) = line.panels.first().and_then(|id| body.panel(*id)) else {
            continue;
        };
        if panel.holes.is_empty() && is_rectangle(panel) {
            plain.push(named(line));
        } else {
            out.push(of_panel(panel, named(line), paper));
        }
    }
    out.extend(control.map(|plan| of_plate(plan, paper)));
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

/// How a thing lies on its pages: as seen from outside, or turned clockwise by
/// a right angle where that takes fewer of them.
struct Lie {
    size: (f64, f64),
    turned: bool,
}

impl Lie {
    fn new(size: [f64; 2], paper: Paper) -> Self {
        let (w, h) = (mm(size[0]), mm(size[1]));
        let count = |size| Tiling::new(size, paper).count();
        let turned = count((h, w)) < count((w, h));
        let size = if turned { (h, w) } else { (w, h) };
        Self { size, turned }
    }

    /// A place in m from the lower left corner.
    fn point(&self, [x, y]: [f64; 2]) -> Point {
        if self.turned {
            Point::new(mm(y), mm(x))
        } else {
            Point::new(mm(x), self.size.1 - mm(y))
        }
    }

    fn outline(&self, outline: Outline) -> Outline {
        match outline {
            Outline::Rectangle {
                width,
                height,
                corner,
            } if self.turned => Outline::Rectangle {
                width: height,
                height: width,
                corner,
            },
            other => other,
        }
    }

    fn title(&self, title: &str) -> String {
        if self.turned {
            format!("{title} (left edge up)")
        } else {
            title.to_owned()
        }
    }
}

fn of_panel(panel: &Panel, title: String, paper: Paper) -> Subject {
    let lie = Lie::new(panel.blank, paper);
    let corners: Vec<Point> = long_points(panel)
        .into_iter()
        .map(|at| lie.point(at))
        .collect();
    let mut subject = Subject::empty(&lie, &title);
    subject.lines.polygon(&corners, edge());
    for hole in &panel.holes {
        let depth = hole.pocket.map_or(String::new(), |depth| {
            format!(", {} deep", number(mm(depth), 1))
        });
        let words = format!("{} {}{depth}", hole.label, sized(hole.outline));
        let dash = if hole.pocket.is_some() {
            Dash::Dashed
        } else {
            Dash::Solid
        };
        subject.add_hole(lie.outline(hole.outline), lie.point(hole.at), dash, &words);
    }
    subject
}

fn of_plate(plan: &ControlPlan, paper: Paper) -> Subject {
    let lie = Lie::new(plan.size, paper);
    let mut subject = Subject::empty(&lie, "control panel");
    let (w, h) = lie.size;
    subject.lines.rect(Rect::new(0.0, 0.0, w, h), edge());
    for hole in &plan.holes {
        let words = format!("{} {}", hole.name, sized(hole.outline));
        subject.add_hole(
            lie.outline(hole.outline),
            lie.point(hole.at),
            Dash::Solid,
            &words,
        );
    }
    for (at, diameter) in &plan.screws {
        let diameter = *diameter;
        let outline = Outline::Circle { diameter };
        let words = format!("screw {}", sized(outline));
        subject.add_hole(outline, lie.point(*at), Dash::Solid, &words);
    }
    subject
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

fn bounds_of(shape: &Shape) -> Rect {
    let lines = shape.to_path().flatten();
    let points: Vec<Point> = lines.into_iter().flat_map(|l| l.points).collect();
    Rect::around(&points).unwrap_or_default()
}

impl Subject {
    fn empty(lie: &Lie, title: &str) -> Self {
        Self {
            title: lie.title(title),
            size: lie.size,
            lines: Drawing::default(),
            holes: Vec::new(),
        }
    }

    /// Draws a hole with a cross on its centre.
    fn add_hole(&mut self, outline: Outline, centre: Point, dash: Dash, words: &str) {
        let shape = hole_shape(outline, centre);
        let bounds = match &shape {
            Shape::Circle { radius, .. } => Rect::new(centre.x, centre.y, 0.0, 0.0).inset(-radius),
            other => bounds_of(other),
        };
        let stroke = Stroke::new(Role::Ink, pen::MEDIUM).dashed(dash);
        self.lines.shape(shape, Style::stroked(stroke));
        let hair = Stroke::new(Role::Ink, pen::HAIR);
        for (dx, dy) in [(ARM, 0.0), (0.0, ARM)] {
            self.lines
                .line(centre.moved(-dx, -dy), centre.moved(dx, dy), hair);
        }
        let words = words.trim().to_owned();
        self.holes.push(Hole { bounds, words });
    }

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
