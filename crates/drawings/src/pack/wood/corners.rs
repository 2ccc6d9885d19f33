//! Every kind of corner at full size.

use super::words::{degrees, form};
use crate::boxview::{self, Corner, mm};
use crate::geometry::{Point, Rect};
use crate::layout::{Block, Heading, Paragraph, content_area, stacked};
use crate::math;
use crate::pack::Page;
use crate::paper::Paper;
use crate::sheet::Drawing;
use crate::text::number;
use studies::carpentry::Carpentry;
use wood::{Edge, Joint, Wall};

/// Between corners, mm.
const GUTTER: f64 = 7.0;

/// `loose` is a wall that is screwed on and comes off again.
pub(super) fn pages(carpentry: &Carpentry, loose: Option<Wall>, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let kinds = boxview::corners(&carpentry.body, loose);
    let figures: Vec<Figure> = kinds.iter().map(|k| Figure::new(carpentry, k)).collect();
    rows(&figures, area)
        .into_iter()
        .map(|drawing| {
            Page {
                scale: "1 : 1".to_owned(),
                ..Page::new("Corners", drawing)
            }
            .noted(
                "Full size, cut square to the edge; the first edge named is drawn, the others are \
                 the same or its mirror image. Measure the square at the right first: it must be \
                 20 mm on paper; print at 100 %, not “to fit”. Thick line: where glue goes. Shade \
                 and hatching tell the panels apart.",
            )
        })
        .collect()
}

/// A corner under its words.
struct Figure {
    words: Drawing,
    /// Where the words end.
    below: f64,
    corner: Drawing,
    size: (f64, f64),
}

impl Figure {
    fn new(carpentry: &Carpentry, kind: &Corner) -> Self {
        let size = kind.size();
        let (words, below) = stacked(&words(carpentry, kind), Point::default(), size.0);
        let mut corner = Drawing::default();
        kind.draw(Point::default(), wood::Wall::name, &mut corner);
        Self {
            words,
            below,
            corner,
            size,
        }
    }
}

/// Figures in rows from left to right, the corners of a row at one height; as many pages
/// as they need.
fn rows(figures: &[Figure], area: Rect) -> Vec<Drawing> {
    let mut out: Vec<Drawing> = Vec::new();
    let mut top = f64::INFINITY;
    let mut rest = figures;
    while !rest.is_empty() {
        let row = &rest[..fitting(rest, area.w)];
        rest = &rest[row.len()..];
        let below = row.iter().map(|f| f.below).fold(0.0, f64::max);
        let tall = below + row.iter().map(|f| f.size.1).fold(0.0, f64::max);
        if top + tall > area.bottom() {
            out.push(Drawing::default());
            top = area.y;
        }
        let mut drawn = Drawing::default();
        let mut x = area.x;
        for figure in row {
            drawn.append(figure.words.moved(x, top));
            drawn.append(figure.corner.moved(x, top + below));
            x += figure.size.0 + GUTTER;
        }
        if let Some(page) = out.last_mut() {
            page.append(drawn);
        }
        top += tall + GUTTER;
    }
    out
}

/// How many of the first find room beside one another, at least one.
fn fitting(figures: &[Figure], width: f64) -> usize {
    let ends = figures.iter().scan(0.0, |x, f| {
        *x += f.size.0 + GUTTER;
        Some(*x - GUTTER)
    });
    ends.take_while(|end| *end <= width).count().max(1)
}

fn words(carpentry: &Carpentry, corner: &Corner) -> Vec<Box<dyn Block>> {
    let edges: Vec<String> = corner.edges.iter().map(name).collect();
    let mut out: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(&kind(corner), "")),
        Box::new(Paragraph::remark(&edges.join(", "))),
        Box::new(Paragraph::new(&said(corner))),
    ];
    if let (Joint::Mitre, Some(ring), None) = (corner.joint, &carpentry.ring, corner.loose) {
        // Both cuts of a mitre are off by as much.
        let gap = 2.0 * corner.glue_line * math::tan(ring.angle_error);
        let text = format!(
            "±{} at the saw, on both cuts, opens heel or toe by {} mm",
            degrees(ring.angle_error),
            number(1000.0 * gap, 2)
        );
        out.push(Box::new(Paragraph::remark(&text)));
    }
    out
}

/// How it is joined, and the angle where it is not square.
fn kind(corner: &Corner) -> String {
    let joint = match corner.joint {
        Joint::Mitre => "Mitre".to_owned(),
        Joint::Butt { .. } => "Butt".to_owned(),
        Joint::Rebate { depth, .. } => format!("Rebate {} mm deep", mm(depth)),
    };
    let angle = degrees(corner.angle);
    if angle == degrees(core::f64::consts::FRAC_PI_2) {
        joint
    } else {
        format!("{joint}, {angle}")
    }
}

/// Which panel runs through, what lies back, what is done to the edge, what holds it.
fn said(corner: &Corner) -> String {
    let edge = corner.edges[0];
    let through = match corner.joint {
        Joint::Mitre => None,
        Joint::Butt { through } => Some(format!("{} runs through", through.name())),
        Joint::Rebate { within, .. } => Some(format!("step in {}", within.name())),
    };
    let walls = [edge.first, edge.second].into_iter().zip(corner.setback);
    let back = walls
        .filter(|(_, setback)| *setback > 0.0)
        .map(|(w, setback)| format!("{} set back {} mm", w.name(), mm(setback)));
    let held = match (corner.loose, corner.form) {
        (Some(w), _) => format!("no glue: {} is screwed on and comes off", w.name()),
        (None, Some(_)) => format!("leaves a glue line {} mm", length(corner)),
        (None, None) => format!("glue line {} mm", length(corner)),
    };
    let parts = through.into_iter().chain(back).chain(corner.form.map(form));
    parts
        .chain(std::iter::once(held))
        .collect::<Vec<_>>()
        .join("; ")
}

fn length(corner: &Corner) -> String {
    number(1000.0 * corner.glue_line, 1)
}

/// "front–left".
fn name(edge: &Edge) -> String {
    format!("{}–{}", edge.first.name(), edge.second.name())
}
