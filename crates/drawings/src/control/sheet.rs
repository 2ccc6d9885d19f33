//! The control panel at full size: as seen from outside, mirrored for marking
//! from behind, and its holes in a table with the reason for each size.

use super::face::Face;
use crate::cut::{hole_shape, mm};
use crate::geometry::{Point, Rect};
use crate::layout::{
    Align, Block, Cell, Column, Heading, Paragraph, Table, content_area, flow, stacked,
};
use crate::layout::{SMALL, STRONG};
use crate::paper::Paper;
use crate::role::Role;
use crate::sheet::{Dash, Drawing, Shape, Stroke, Style, Text, pen};
use crate::text::number;
use studies::carpentry::{ControlHole, ControlPlan};
use wood::Outline;

/// One page's drawing before it has a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// What it shows.
    pub title: &'static str,
    /// Its scale, in words.
    pub scale: String,
    /// The drawing, in its place on the paper.
    pub drawing: Drawing,
    /// How to read it.
    pub notes: Vec<String>,
}

const TITLE: &str = "control panel";
/// Between two views, in mm.
const GUTTER: f64 = 16.0;
/// A table so wide, in mm, is read with ease.
const BESIDE: f64 = 105.0;
/// Above a view, for its name.
const CAPTION: f64 = 6.0;
/// Arms of a cross on a centre.
const ARM: f64 = 2.0;
/// Scales to fall back on where the plate is larger than the paper.
const SCALES: [(f64, &str); 4] = [
    (1.0, "1 : 1"),
    (0.5, "1 : 2"),
    (0.2, "1 : 5"),
    (0.1, "1 : 10"),
];

/// The pages of the control panel: both views side by side with the table
/// below where there is room, else one after the other.
#[must_use]
pub fn pages(plan: &ControlPlan, paper: Paper) -> Vec<View> {
    let area = content_area(paper);
    let plate = [mm(plan.size[0]), mm(plan.size[1])];
    let fits = |k: f64| k * plate[0] <= area.w && k * plate[1] + CAPTION <= area.h;
    let (scale, named) = SCALES
        .into_iter()
        .find(|(k, _)| fits(*k))
        .unwrap_or(SCALES[SCALES.len() - 1]);
    let drawn = Drawn::new(plan, scale);
    let [w, h] = plate.map(|side| scale * side);
    let view = |drawing| View {
        title: TITLE,
        scale: named.to_owned(),
        drawing,
        notes: notes(&drawn.face, scale),
    };
    let mut out: Vec<View> = if 2.0 * w + GUTTER <= area.w {
        let mut both = drawn.outside(area.corners()[0]);
        both.append(drawn.behind(Point::new(area.x + w + GUTTER, area.y)));
        vec![view(both)]
    } else {
        vec![
            view(drawn.outside(area.corners()[0])),
            view(drawn.behind(area.corners()[0])),
        ]
    };
    let blocks = table(plan);
    let below = Point::new(area.x, area.y + CAPTION + h + 8.0);
    let right = Point::new(area.x + 2.0 * (w + GUTTER), area.y);
    let beside = area.right() - right.x >= BESIDE;
    let (listed, end) = match beside {
        true => stacked(&blocks, right, area.right() - right.x),
        false => stacked(&blocks, below, area.w),
    };
    if end <= area.bottom() {
        if let Some(last) = out.last_mut() {
            last.drawing.append(listed);
        }
    } else {
        out.extend(flow(&blocks, area, 1, 0.0).into_iter().map(|drawing| View {
            scale: "no drawing to scale".to_owned(),
            notes: Vec::new(),
            ..view(drawing)
        }));
    }
    out
}

fn notes(face: &Face, scale: f64) -> Vec<String> {
    let mut notes = vec![if scale == 1.0 {
        "Full size. Print at 100 %, never “fit to page”; measure before you drill.".to_owned()
    } else {
        "Larger than this paper: the templates show it at full size.".to_owned()
    }];
    if !face.left_out.is_empty() {
        notes.push(format!("No room for: {}.", face.left_out.join("; ")));
    }
    notes
}

/// A plate to be drawn at a scale.
struct Drawn<'a> {
    plan: &'a ControlPlan,
    face: Face,
    scale: f64,
}

fn style(width: f64, role: Role, dash: Dash) -> Style {
    Style::stroked(Stroke::new(role, width).dashed(dash))
}

impl<'a> Drawn<'a> {
    fn new(plan: &'a ControlPlan, scale: f64) -> Self {
        let face = Face::of(plan);
        Self { plan, face, scale }
    }

    /// The plate's outline below a caption whose top left corner is at `at`;
    /// gives the plate.
    fn plate(&self, caption: &str, at: Point, out: &mut Drawing) -> Rect {
        let [w, h] = self.plan.size.map(|side| self.scale * mm(side));
        let base = at.moved(0.0, SMALL.cap_height());
        let caption = SMALL.ellipsis(caption, w.max(60.0));
        out.text(Text::new(base, &caption, SMALL).coloured(Role::Muted));
        let plate = Rect::new(at.x, at.y + CAPTION, w, h);
        out.rect(plate, style(pen::BOLD, Role::Ink, Dash::Solid));
        plate
    }

    /// A hole and its centre.
    fn hole(&self, outline: Outline, centre: Point, out: &mut Drawing) {
        let shape = self.scaled(outline, centre);
        out.shape(shape, style(pen::MEDIUM, Role::Ink, Dash::Solid));
        let hair = Stroke::new(Role::Ink, pen::HAIR);
        for (dx, dy) in [(ARM, 0.0), (0.0, ARM)] {
            out.line(centre.moved(-dx, -dy), centre.moved(dx, dy), hair);
        }
    }

    fn scaled(&self, outline: Outline, centre: Point) -> Shape {
        let k = self.scale;
        let outline = match outline {
            Outline::Circle { diameter } => Outline::Circle {
                diameter: k * diameter,
            },
            Outline::Rectangle {
                width,
                height,
                corner,
            } => Outline::Rectangle {
                width: k * width,
                height: k * height,
                corner: k * corner,
            },
        };
        hole_shape(outline, centre)
    }

    /// As seen from outside, with labels and scales, knobs dotted.
    fn outside(&self, at: Point) -> Drawing {
        let mut out = Drawing::default();
        let plate = self.plate("from outside; knobs and nuts dotted", at, &mut out);
        let k = self.scale;
        let place = |[x, y]: [f64; 2]| Point::new(plate.x + k * mm(x), plate.bottom() - k * mm(y));
        for hole in &self.plan.holes {
            self.hole(hole.outline, place(hole.at), &mut out);
            let knob = Outline::Circle {
                diameter: hole.front,
            };
            let knob = self.scaled(knob, place(hole.at));
            out.shape(knob, style(pen::THIN, Role::Muted, Dash::Dotted));
        }
        for (at, diameter) in &self.plan.screws {
            let diameter = *diameter;
            self.hole(Outline::Circle { diameter }, place(*at), &mut out);
        }
        let on_plate = |p: Point| Point::new(plate.x + k * p.x, plate.y + k * p.y);
        for tick in &self.face.ticks {
            let line = Stroke::new(Role::Ink, pen::THIN);
            out.line(on_plate(tick[0]), on_plate(tick[1]), line);
        }
        for [from, to] in &self.face.leaders {
            let line = Stroke::new(Role::Ink, pen::FINE);
            out.line(on_plate(*from), on_plate(*to), line);
        }
        for word in &self.face.words {
            let mut text = word.on_sheet();
            text.at = on_plate(text.at);
            text.letters.size_mm *= k;
            out.text(text);
        }
        out
    }

    /// Mirrored, as seen from behind, with the bodies and a letter for each hole.
    fn behind(&self, at: Point) -> Drawing {
        let mut out = Drawing::default();
        let plate = self.plate("from behind, mirrored; bodies dashed", at, &mut out);
        let k = self.scale;
        let place =
            |[x, y]: [f64; 2]| Point::new(plate.right() - k * mm(x), plate.bottom() - k * mm(y));
        for hole in &self.plan.holes {
            let [width, height] = hole.body;
            let body = Outline::Rectangle {
                width,
                height,
                corner: 0.0,
            };
            let body = self.scaled(body, place(hole.at));
            out.shape(body, style(pen::THIN, Role::Muted, Dash::Dashed));
        }
        for (at, diameter) in &self.plan.screws {
            let diameter = *diameter;
            self.hole(Outline::Circle { diameter }, place(*at), &mut out);
        }
        for (index, hole) in self.plan.holes.iter().enumerate() {
            self.hole(hole.outline, place(hole.at), &mut out);
            // On a patch of its own, beside the centre: bodies may lie close.
            let base = place(hole.at).moved(ARM + 0.6, -ARM + 0.3);
            let text = Text::new(base, &letter(index), STRONG);
            out.rect(text.upright_box().inset(-0.3), Style::filled(Role::Paper));
            out.text(text);
        }
        out
    }
}

/// a, b, … z, aa, ab, …
fn letter(index: usize) -> String {
    let last = char::from(b'a' + (index % 26) as u8);
    if index < 26 {
        last.to_string()
    } else {
        format!("{}{last}", letter(index / 26 - 1))
    }
}

fn table(plan: &ControlPlan) -> Vec<Box<dyn Block>> {
    let columns = [
        ("", Align::Left, 6.0),
        ("hole for", Align::Left, 50.0),
        ("from left, mm", Align::Decimal, 20.0),
        ("from below, mm", Align::Decimal, 20.0),
        ("size, mm", Align::Left, 28.0),
        ("why so large", Align::Left, 60.0),
    ];
    let rows = plan
        .holes
        .iter()
        .enumerate()
        .map(|(index, hole)| row(index, hole));
    let screws = plan.screws.iter().map(|(at, diameter)| {
        let diameter = *diameter;
        cells(
            "",
            "screw",
            *at,
            Outline::Circle { diameter },
            "holds the plate",
        )
    });
    let recess = if plan.recess > 0.0 {
        format!(
            "; lies {} mm below the outer face",
            number(mm(plan.recess), 1)
        )
    } else {
        String::new()
    };
    let [w, h] = plan.size.map(|side| number(mm(side), 1));
    let thick = number(mm(plan.thickness), 1);
    let plate = format!("{}, {w} × {h} mm, {thick} mm thick{recess}", plan.plate);
    vec![
        Box::new(Heading::new("Holes", "")),
        Box::new(Paragraph::remark(&plate)),
        Box::new(Table {
            columns: columns
                .into_iter()
                .map(|(heading, align, share)| Column::new(heading, align, share))
                .collect(),
            rows: rows.chain(screws).collect(),
        }),
    ]
}

fn row(index: usize, hole: &ControlHole) -> Vec<Cell> {
    cells(
        &letter(index),
        &hole.name,
        hole.at,
        hole.outline,
        &hole.because,
    )
}

fn cells(letter: &str, name: &str, at: [f64; 2], outline: Outline, why: &str) -> Vec<Cell> {
    let size = match outline {
        Outline::Circle { diameter } => format!("⌀ {}", number(mm(diameter), 1)),
        Outline::Rectangle { width, height, .. } => {
            format!("{} × {}", number(mm(width), 1), number(mm(height), 1))
        }
    };
    let [x, y] = at.map(|place| number(mm(place), 1));
    vec![
        Cell::from(letter).strong(),
        Cell::from(name),
        Cell::from(x),
        Cell::from(y),
        Cell::from(size),
        Cell::from(why).muted(),
    ]
}
