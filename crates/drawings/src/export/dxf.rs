//! A sheet as a drawing interchange file for machines: R12 in ASCII, lengths
//! in millimetres, y upwards from the lower edge of the sheet.
//!
//! Every [`Group::Layer`] is a layer; what is on none lies on `DRAWING`.
//! Closed outlines are closed polylines, arcs bulges, circles true circles,
//! text single strokes. Bézier curves are cut into straight pieces.

use crate::geometry::{Point, Rect};
use crate::math;
use crate::path::{Path, Polyline, Segment};
use crate::role::Role;
use crate::sheet::{Group, Item, Shape, Sheet, Style};
use crate::text::stroke::StrokeLettering;
use core::f64::consts::PI;
use core::fmt::{Display, Write};

/// Layer of whatever is on no other.
const NO_LAYER: &str = "DRAWING";
/// Straight pieces of a Bézier curve: letters stay true within a hundredth of
/// a millimetre.
const PIECES: u32 = 16;

/// The sheet as a drawing interchange file. The same sheet gives the same
/// bytes on every machine.
#[must_use]
pub fn dxf(sheet: &Sheet) -> String {
    let mut writer = Writer {
        entities: String::new(),
        layers: Vec::new(),
        height: sheet.height_mm,
    };
    writer.items(&sheet.drawing.items, NO_LAYER, None);
    let mut out = head(sheet, &writer.layers);
    out.push_str(&writer.entities);
    tag(&mut out, 0, "ENDSEC");
    tag(&mut out, 0, "EOF");
    out
}

/// Everything before the entities.
fn head(sheet: &Sheet, layers: &[String]) -> String {
    let mut out = String::new();
    // R12 has no variable for the unit.
    tag(&mut out, 999, "all lengths are millimetres");
    section(&mut out, "HEADER");
    for (name, code, value) in [("$ACADVER", 1, "AC1009"), ("$LUNITS", 70, "2")] {
        tag(&mut out, 9, name);
        tag(&mut out, code, value);
    }
    let far = Point::new(sheet.width_mm, sheet.height_mm);
    for (name, corner) in [
        ("$EXTMIN", Point::default()),
        ("$EXTMAX", far),
        ("$LIMMIN", Point::default()),
        ("$LIMMAX", far),
    ] {
        tag(&mut out, 9, name);
        tag(&mut out, 10, num(corner.x));
        tag(&mut out, 20, num(corner.y));
        if name.starts_with("$EXT") {
            tag(&mut out, 30, num(0.0));
        }
    }
    tag(&mut out, 0, "ENDSEC");
    tables(&mut out, layers);
    section(&mut out, "ENTITIES");
    out
}

/// Line types and layers.
fn tables(out: &mut String, layers: &[String]) {
    section(out, "TABLES");
    table(out, "LTYPE", 1);
    for (code, value) in [
        (0, "LTYPE"),
        (2, "CONTINUOUS"),
        (70, "64"),
        (3, "Solid line"),
        (72, "65"),
        (73, "0"),
        (40, "0.0"),
    ] {
        tag(out, code, value);
    }
    tag(out, 0, "ENDTAB");
    table(out, "LAYER", layers.len() + 1);
    for (name, colour) in
        core::iter::once(("0", 7)).chain(layers.iter().map(|name| (name.as_str(), colour(name))))
    {
        tag(out, 0, "LAYER");
        tag(out, 2, name);
        tag(out, 70, 0);
        tag(out, 62, colour);
        tag(out, 6, "CONTINUOUS");
    }
    tag(out, 0, "ENDTAB");
    tag(out, 0, "ENDSEC");
}

fn section(out: &mut String, name: &str) {
    tag(out, 0, "SECTION");
    tag(out, 2, name);
}

fn table(out: &mut String, name: &str, entries: usize) {
    tag(out, 0, "TABLE");
    tag(out, 2, name);
    tag(out, 70, entries);
}

/// Colours by number, so that layers are told apart on a screen.
fn colour(layer: &str) -> u8 {
    match layer {
        "CUT" => 1,
        "DRILL" => 5,
        "POCKET" => 3,
        "ETCH" => 6,
        "MARK" => 4,
        _ => 8,
    }
}

/// One group code with its value.
fn tag(out: &mut String, code: u16, value: impl Display) {
    let _ = write!(out, "{code}\n{value}\n");
}

/// A length to a nanometre; never a negative zero.
fn num(value: f64) -> String {
    let fixed = format!("{value:.6}");
    if fixed == "-0.000000" {
        "0.000000".to_owned()
    } else {
        fixed
    }
}

/// A name as R12 allows it: capitals, digits, dashes, at most 31 of them.
fn layer_name(name: &str) -> String {
    let allowed = |c: char| {
        if c.is_ascii_alphanumeric() || c == '-' {
            c
        } else {
            '_'
        }
    };
    let name: String = name
        .to_ascii_uppercase()
        .chars()
        .map(allowed)
        .take(31)
        .collect();
    if name.is_empty() {
        NO_LAYER.to_owned()
    } else {
        name
    }
}

struct Writer {
    entities: String,
    /// Names in the order of their first use.
    layers: Vec<String>,
    height: f64,
}

/// A corner of a polyline and the bulge of the stretch after it: the tangent
/// of a quarter of its angle, positive against the clock.
struct Vertex {
    at: Point,
    bulge: f64,
}

impl Writer {
    fn items(&mut self, items: &[Item], layer: &str, clip: Option<Rect>) {
        for item in items {
            match item {
                Item::Shape(shape, style) if is_seen(style) => self.shape(shape, layer, clip),
                Item::Shape(..) => {}
                Item::Text(text) => self.outline(&StrokeLettering::of(text), layer, clip),
                Item::Group(Group::Layer(name), inner) => {
                    self.items(inner, &layer_name(name), clip);
                }
                Item::Group(Group::Clip(rect), inner) => self.items(inner, layer, Some(*rect)),
                Item::Group(Group::Named(_), inner) => self.items(inner, layer, clip),
            }
        }
    }

    fn shape(&mut self, shape: &Shape, layer: &str, clip: Option<Rect>) {
        match shape {
            Shape::Circle { centre, radius } if clip.is_none() => {
                self.entity("CIRCLE", layer);
                self.point(*centre);
                tag(&mut self.entities, 40, num(*radius));
            }
            other => self.outline(&other.to_path(), layer, clip),
        }
    }

    fn outline(&mut self, path: &Path, layer: &str, clip: Option<Rect>) {
        if let Some(clip) = clip {
            self.clipped(&path.flatten(), layer, clip);
            return;
        }
        for (vertices, closed) in stretches(path) {
            self.polyline(&vertices, closed, layer);
        }
    }

    /// Only what is seen within a rectangle, piece by piece.
    fn clipped(&mut self, lines: &[Polyline], layer: &str, clip: Rect) {
        for (from, to) in lines.iter().flat_map(Polyline::stretches) {
            if let Some((from, to)) = clip.clip(from, to).filter(|(a, b)| a != b) {
                let corner = |at| Vertex { at, bulge: 0.0 };
                self.polyline(&[corner(from), corner(to)], false, layer);
            }
        }
    }

    fn polyline(&mut self, vertices: &[Vertex], closed: bool, layer: &str) {
        if vertices.len() < 2 {
            return;
        }
        self.entity("POLYLINE", layer);
        tag(&mut self.entities, 66, 1);
        tag(&mut self.entities, 70, u8::from(closed));
        for code in [10, 20, 30] {
            tag(&mut self.entities, code, num(0.0));
        }
        for vertex in vertices {
            self.entity("VERTEX", layer);
            self.point(vertex.at);
            if vertex.bulge != 0.0 {
                tag(&mut self.entities, 42, format!("{:.9}", vertex.bulge));
            }
        }
        self.entity("SEQEND", layer);
    }

    fn entity(&mut self, kind: &str, layer: &str) {
        if !self.layers.iter().any(|known| known == layer) {
            self.layers.push(layer.to_owned());
        }
        tag(&mut self.entities, 0, kind);
        tag(&mut self.entities, 8, layer);
    }

    fn point(&mut self, p: Point) {
        tag(&mut self.entities, 10, num(p.x));
        tag(&mut self.entities, 20, num(self.height - p.y));
        tag(&mut self.entities, 30, num(0.0));
    }
}

/// A patch of bare paper only hides what lies under it.
fn is_seen(style: &Style) -> bool {
    style.stroke.is_some() || style.fill.is_some_and(|fill| fill.role != Role::Paper)
}

/// The stretches of an outline as corners with bulges, and which are closed.
fn stretches(path: &Path) -> Vec<(Vec<Vertex>, bool)> {
    let mut out: Vec<(Vec<Vertex>, bool)> = Vec::new();
    for segment in &path.segments {
        if let Segment::Move(at) = segment {
            out.push((
                vec![Vertex {
                    at: *at,
                    bulge: 0.0,
                }],
                false,
            ));
            continue;
        }
        let Some((vertices, closed)) = out.last_mut() else {
            continue;
        };
        match *segment {
            Segment::Move(_) => {}
            Segment::Line(at) => vertices.push(Vertex { at, bulge: 0.0 }),
            Segment::Cubic(a, b, c) => curve(vertices, a, b, c),
            Segment::Arc { centre, sweep } => arc(vertices, centre, sweep),
            Segment::Close => *closed = true,
        }
    }
    for (vertices, closed) in &mut out {
        // Closed or come back to its start: the same in both cases.
        let (first, last) = (vertices[0].at, vertices[vertices.len() - 1].at);
        if vertices.len() > 2 && first.distance(last) < 1e-9 {
            vertices.pop();
            *closed = true;
        }
    }
    out
}

fn curve(vertices: &mut Vec<Vertex>, a: Point, b: Point, c: Point) {
    let from = vertices[vertices.len() - 1].at;
    vertices.extend((1..=PIECES).map(|i| Vertex {
        at: crate::path::cubic_at(from, a, b, c, f64::from(i) / f64::from(PIECES)),
        bulge: 0.0,
    }));
}

/// An arc in pieces of at most half a turn, for which bulges are exact.
fn arc(vertices: &mut Vec<Vertex>, centre: Point, sweep: f64) {
    let pieces = math::ceil(math::abs(sweep) / PI - 1e-9).max(1.0);
    let step = sweep / pieces;
    for _ in 0..pieces as u32 {
        let last = vertices.len() - 1;
        // A sweep counts with the clock as seen, a bulge against it.
        vertices[last].bulge = -math::tan(step / 4.0);
        let at = vertices[last].at.turned(centre, step);
        vertices.push(Vertex { at, bulge: 0.0 });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::{Drawing, Stroke, Text, pen};
    use crate::text::Lettering;
    use core::f64::consts::FRAC_PI_2;

    fn ink() -> Style {
        Style::stroked(Stroke::new(Role::Ink, pen::FINE))
    }

    #[test]
    fn a_few_items_as_tags() {
        let mut sheet = Sheet::sized(100.0, 50.0, "plate");
        let mut cut = Drawing::default();
        cut.rect(Rect::new(10.0, 10.0, 30.0, 20.0), ink());
        sheet.drawing.group(Group::Layer("cut".to_owned()), cut);
        let mut drill = Drawing::default();
        drill.circle(Point::new(20.0, 15.0), 3.5, ink());
        sheet.drawing.group(Group::Layer("drill".to_owned()), drill);
        let quarter = Path::default()
            .move_to(Point::new(60.0, 20.0))
            .arc(Point::new(50.0, 20.0), FRAC_PI_2);
        sheet.drawing.path(quarter, ink());
        crate::golden::check("items.dxf", &dxf(&sheet));
    }

    #[test]
    fn a_full_turn_is_one_closed_polyline_of_two_halves() {
        let round = Shape::Circle {
            centre: Point::default(),
            radius: 2.0,
        };
        let found = stretches(&round.to_path());
        let [(vertices, closed)] = &found[..] else {
            panic!("one stretch")
        };
        assert!(*closed && vertices.len() == 2);
        assert!(vertices.iter().all(|v| (v.bulge + 1.0).abs() < 1e-12));
    }

    #[test]
    fn bare_paper_is_not_cut_and_clips_hold() {
        let mut sheet = Sheet::sized(50.0, 50.0, "t");
        let patch = Rect::new(0.0, 0.0, 9.0, 9.0);
        sheet.drawing.rect(patch, Style::filled(Role::Paper));
        assert!(!dxf(&sheet).contains("POLYLINE"));
        let mut inner = Drawing::default();
        inner.circle(Point::new(5.0, 5.0), 4.0, ink());
        sheet
            .drawing
            .group(Group::Clip(Rect::new(20.0, 20.0, 9.0, 9.0)), inner);
        assert!(!dxf(&sheet).contains("POLYLINE") && !dxf(&sheet).contains("CIRCLE"));
    }

    #[test]
    fn names_of_layers_are_what_r12_allows() {
        assert_eq!(layer_name("cut"), "CUT");
        assert_eq!(layer_name("a b/ç"), "A_B__");
        assert_eq!(layer_name(&"x".repeat(99)).len(), 31);
        assert_eq!(layer_name(""), "DRAWING");
    }

    #[test]
    fn text_becomes_strokes() {
        let mut sheet = Sheet::sized(50.0, 50.0, "t");
        let at = Point::new(5.0, 20.0);
        sheet
            .drawing
            .text(Text::new(at, "T", Lettering::regular(4.0)));
        let file = dxf(&sheet);
        assert_eq!(file.matches("\nPOLYLINE\n").count(), 2);
        assert!(!file.contains("\nTEXT\n"));
    }
}
