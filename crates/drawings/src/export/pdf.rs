//! Sheets as one PDF, true to scale, text as text in embedded fonts.

use crate::date::Date;
use crate::geometry;
use crate::path::Segment;
use crate::role::{Role, Theme};
use crate::sheet::{self, Group, Item, Sheet, Style, Text};
use crate::text::{Weight, font_data, glyph_run};
use core::fmt;
use krilla::Document;
use krilla::color::rgb;
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

/// Points of a PDF in one millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// A PDF could not be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PdfError(String);

impl fmt::Display for PdfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the PDF could not be written: {}", self.0)
    }
}

impl core::error::Error for PdfError {}

/// The sheets as one PDF, a page each, in the colours of a theme. The same
/// sheets and date give the same bytes.
///
/// # Errors
/// When a sheet has no size, or the writer refuses its content.
pub fn pdf(
    sheets: &[Sheet],
    title: &str,
    date: Option<Date>,
    theme: Theme,
) -> Result<Vec<u8>, PdfError> {
    let mut document = Document::new();
    document.set_metadata(metadata(title, date));
    let pen = Pen {
        theme,
        regular: embedded(Weight::Regular)?,
        bold: embedded(Weight::Bold)?,
    };
    let mut outline = Outline::new();
    for (index, sheet) in sheets.iter().enumerate() {
        pen.page(&mut document, sheet)?;
        let top = XyzDestination::new(index, Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(sheet.title.clone(), top));
    }
    document.set_outline(outline);
    document
        .finish()
        .map_err(|error| PdfError(format!("{error:?}")))
}

fn metadata(title: &str, date: Option<Date>) -> Metadata {
    let metadata = Metadata::new()
        .title(title.to_owned())
        .creator("Boxwright".to_owned())
        .language("en".to_owned());
    match date {
        Some(d) => metadata.creation_date(DateTime::new(d.year).month(d.month).day(d.day)),
        None => metadata,
    }
}

fn embedded(weight: Weight) -> Result<Font, PdfError> {
    Font::new(font_data(weight).to_vec().into(), 0)
        .ok_or_else(|| PdfError("an embedded font was refused".to_owned()))
}

/// Lengths on a sheet fit a single-precision number to far below a micrometre.
#[allow(clippy::cast_possible_truncation)]
fn single(value: f64) -> f32 {
    value as f32
}

fn unit(value: f64) -> NormalizedF32 {
    NormalizedF32::new(single(value.clamp(0.0, 1.0))).unwrap_or(NormalizedF32::ONE)
}

struct Pen {
    theme: Theme,
    regular: Font,
    bold: Font,
}

impl Pen {
    fn page(&self, document: &mut Document, sheet: &Sheet) -> Result<(), PdfError> {
        let size = PageSettings::from_wh(
            single(sheet.width_mm * POINTS_PER_MM),
            single(sheet.height_mm * POINTS_PER_MM),
        )
        .ok_or_else(|| PdfError(format!("sheet “{}” has no size", sheet.title)))?;
        let mut page = document.start_page_with(size);
        let mut surface = page.surface();
        let scale = single(POINTS_PER_MM);
        surface.push_transform(&Transform::from_scale(scale, scale));
        if self.theme != Theme::Paper {
            let ground = sheet::Shape::Rect(sheet.rect());
            self.shape(&mut surface, &ground, &Style::filled(Role::Paper));
        }
        self.items(&mut surface, &sheet.drawing.items);
        surface.pop();
        surface.finish();
        page.finish();
        Ok(())
    }

    fn items(&self, surface: &mut Surface<'_>, items: &[Item]) {
        for item in items {
            match item {
                Item::Shape(shape, style) => self.shape(surface, shape, style),
                Item::Text(text) => self.text(surface, text),
                Item::Group(Group::Clip(rect), inner) => {
                    let outline = sheet::Shape::Rect(*rect).to_path();
                    if let Some(path) = outline_path(&outline) {
                        surface.push_clip_path(&path, &FillRule::NonZero);
                        self.items(surface, inner);
                        surface.pop();
                    }
                }
                Item::Group(_, inner) => self.items(surface, inner),
            }
        }
    }

    fn shape(&self, surface: &mut Surface<'_>, shape: &sheet::Shape, style: &Style) {
        let Some(path) = outline_path(&shape.to_path()) else {
            return;
        };
        if style.fill.is_none() && style.stroke.is_none() {
            return;
        }
        surface.set_fill(style.fill.map(|f| self.fill(f.role, f.opacity)));
        surface.set_stroke(style.stroke.map(|s| self.stroke(s)));
        surface.draw_path(&path);
    }

    fn text(&self, surface: &mut Surface<'_>, text: &Text) {
        if text.content.trim().is_empty() {
            return;
        }
        surface.set_stroke(None);
        surface.set_fill(Some(self.fill(text.role, 1.0)));
        let start = Point::from_xy(single(text.start().x), single(text.start().y));
        let glyphs = glyphs(text);
        let font = match text.letters.weight {
            Weight::Regular => self.regular.clone(),
            Weight::Bold => self.bold.clone(),
        };
        let (x, y) = (single(text.at.x), single(text.at.y));
        let turn = Transform::from_rotate_at(single(text.turn_deg), x, y);
        surface.push_transform(&turn);
        let size = single(text.letters.size_mm);
        surface.draw_glyphs(start, &glyphs, font, &text.content, size, false);
        surface.pop();
    }

    fn fill(&self, role: Role, opacity: f64) -> Fill {
        Fill {
            paint: self.colour(role).into(),
            opacity: unit(opacity),
            rule: FillRule::NonZero,
        }
    }

    fn stroke(&self, stroke: sheet::Stroke) -> Stroke {
        let pattern = stroke.dash.pattern_mm();
        Stroke {
            paint: self.colour(stroke.role).into(),
            width: single(stroke.width_mm),
            line_join: LineJoin::Round,
            opacity: unit(stroke.opacity),
            dash: (!pattern.is_empty()).then(|| StrokeDash {
                array: pattern.iter().map(|l| single(*l)).collect(),
                offset: 0.0,
            }),
            ..Stroke::default()
        }
    }

    fn colour(&self, role: Role) -> rgb::Color {
        let c = self.theme.colour(role);
        rgb::Color::new(c.0, c.1, c.2)
    }
}

fn glyphs(text: &Text) -> Vec<KrillaGlyph> {
    glyph_run(&text.content, text.letters.weight)
        .into_iter()
        .map(|g| KrillaGlyph {
            glyph_id: GlyphId::new(u32::from(g.glyph)),
            text_range: g.range,
            x_advance: single(g.advance),
            x_offset: 0.0,
            y_offset: 0.0,
            y_advance: 0.0,
            location: None,
        })
        .collect()
}

fn outline_path(path: &crate::path::Path) -> Option<Path> {
    let xy = |p: geometry::Point| (single(p.x), single(p.y));
    let mut builder = PathBuilder::new();
    for segment in path.without_arcs().segments {
        match segment {
            Segment::Move(p) => builder.move_to(xy(p).0, xy(p).1),
            Segment::Line(p) => builder.line_to(xy(p).0, xy(p).1),
            Segment::Cubic(a, b, c) => {
                builder.cubic_to(xy(a).0, xy(a).1, xy(b).0, xy(b).1, xy(c).0, xy(c).1);
            }
            Segment::Close => builder.close(),
            Segment::Arc { .. } => {}
        }
    }
    builder.finish()
}
