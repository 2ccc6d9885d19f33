//! A sheet as SVG, in millimetres, text as text.

use crate::geometry::{Point, Rect};
use crate::path::{Path, Segment};
use crate::role::{Role, Theme};
use crate::sheet::{Anchor, Drawing, Group, Item, Shape, Sheet, Stroke, Style, Text, pen};
use crate::text::stroke::StrokeLettering;
use crate::text::{Weight, held};
use core::fmt::Write;

/// The sheet as an SVG document in the colours of a theme. The same sheet
/// gives the same bytes on every machine.
#[must_use]
pub fn svg(sheet: &Sheet, theme: Theme) -> String {
    written(sheet, theme, For::Eyes)
}

/// The sheet as an SVG document for a machine: every layer a group named by
/// its id, letters as single strokes, and no ground, since a machine works
/// along whatever is drawn.
#[must_use]
pub fn cut_svg(sheet: &Sheet) -> String {
    written(sheet, Theme::Paper, For::Machines)
}

/// The elements of a drawing for a page that holds many: colours are the page's own
/// variables, `--ink` for [`Role::Ink`] and so on, and `key` stands before every id.
#[must_use]
pub fn elements(drawing: &Drawing, key: &str) -> String {
    let mut writer = Writer {
        out: String::new(),
        theme: Theme::Paper,
        reader: For::Page,
        key: key.to_owned(),
        clips: 0,
    };
    writer.items(&drawing.items);
    writer.out
}

fn written(sheet: &Sheet, theme: Theme, reader: For) -> String {
    let mut writer = Writer {
        out: String::new(),
        theme,
        reader,
        key: String::new(),
        clips: 0,
    };
    writer.document(sheet);
    writer.out
}

/// Who is to read a document.
#[derive(Clone, Copy, PartialEq)]
enum For {
    Eyes,
    Machines,
    Page,
}

struct Writer {
    out: String,
    theme: Theme,
    reader: For,
    /// What stands before ids.
    key: String,
    /// Outlines written so far.
    clips: usize,
}

impl Writer {
    fn push(&mut self, text: &str) {
        self.out.push_str(text);
    }

    fn document(&mut self, sheet: &Sheet) {
        let (w, h) = (num(sheet.width_mm), num(sheet.height_mm));
        self.push(&format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" \
             viewBox=\"0 0 {w} {h}\" font-family=\"'DejaVu Sans', Verdana, sans-serif\" \
             font-kerning=\"none\" font-variant-ligatures=\"none\" fill=\"none\">\n"
        ));
        self.push(&format!("<title>{}</title>\n", escaped(&sheet.title)));
        if self.reader == For::Eyes {
            self.rect(&sheet.rect(), &Style::filled(Role::Paper));
        }
        self.items(&sheet.drawing.items);
        self.push("</svg>\n");
    }

    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Shape(shape, style) => self.shape(shape, style),
                Item::Text(text) => self.text(text),
                Item::Group(group, inner) => self.group(group, inner),
            }
        }
    }

    fn group(&mut self, group: &Group, inner: &[Item]) {
        match group {
            Group::Clip(rect) => {
                // Named by its place: several sheets in one page may then
                // share a name only where they share the outline.
                let corners = [rect.x, rect.y, rect.w, rect.h].map(num);
                let id = match self.reader {
                    For::Page => format!("{}-clip-{}", self.key, self.clips),
                    For::Eyes | For::Machines => format!("clip_{}", corners.join("_")),
                };
                self.clips += 1;
                self.push(&format!(
                    "<clipPath id=\"{id}\"><rect{}/></clipPath>\n<g clip-path=\"url(#{id})\">\n",
                    place(rect)
                ));
            }
            Group::Layer(name) => {
                // A page may hold several sheets, and an id only once.
                let key = match self.reader {
                    For::Eyes | For::Page => "data-layer",
                    For::Machines => "id",
                };
                self.push(&format!("<g {key}=\"{}\">\n", escaped(name)));
            }
            Group::Named(name) => self.push(&format!("<g data-name=\"{}\">\n", escaped(name))),
        }
        self.items(inner);
        self.push("</g>\n");
    }

    fn shape(&mut self, shape: &Shape, style: &Style) {
        match shape {
            Shape::Rect(rect) => self.rect(rect, style),
            Shape::Circle { centre, radius } => {
                let style = self.style(style);
                self.push(&format!(
                    "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{style}/>\n",
                    num(centre.x),
                    num(centre.y),
                    num(*radius)
                ));
            }
            Shape::Path(path) => {
                let style = self.style(style);
                self.push(&format!("<path d=\"{}\"{style}/>\n", path_data(path)));
            }
        }
    }

    fn rect(&mut self, rect: &Rect, style: &Style) {
        let style = self.style(style);
        self.push(&format!("<rect{}{style}/>\n", place(rect)));
    }

    fn style(&self, style: &Style) -> String {
        let mut out = String::new();
        if let Some(fill) = style.fill {
            let _ = write!(out, " fill=\"{}\"", self.colour(fill.role));
            if fill.opacity < 1.0 {
                let _ = write!(out, " fill-opacity=\"{}\"", num(fill.opacity));
            }
        }
        if let Some(stroke) = style.stroke {
            let _ = write!(
                out,
                " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
                self.colour(stroke.role),
                num(stroke.width_mm)
            );
            if stroke.opacity < 1.0 {
                let _ = write!(out, " stroke-opacity=\"{}\"", num(stroke.opacity));
            }
            let pattern = stroke.dash.pattern_mm();
            if !pattern.is_empty() {
                let lengths: Vec<String> = pattern.iter().map(|l| num(*l)).collect();
                let _ = write!(out, " stroke-dasharray=\"{}\"", lengths.join(" "));
            }
        }
        out
    }

    /// `textLength` keeps the line as wide as it was laid out, should the
    /// reader's machine lack the font.
    fn text(&mut self, text: &Text) {
        if text.content.trim().is_empty() {
            return;
        }
        if self.reader == For::Machines {
            let stroke = Stroke::new(text.role, pen::HAIR);
            let strokes = Shape::Path(StrokeLettering::of(text));
            self.shape(&strokes, &Style::stroked(stroke));
            return;
        }
        let anchor = match text.anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let weight = match text.letters.weight {
            Weight::Regular => "",
            Weight::Bold => " font-weight=\"bold\"",
        };
        let (x, y) = (num(text.at.x), num(text.at.y));
        let turn = if text.turn_deg == 0.0 {
            String::new()
        } else {
            format!(" transform=\"rotate({} {x} {y})\"", num(text.turn_deg))
        };
        self.push(&format!(
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"{weight}{anchor} fill=\"{}\" \
             textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\"{turn}>{}</text>\n",
            num(text.letters.size_mm),
            self.colour(text.role),
            num(text.width()),
            escaped(&held(&text.content, text.letters.weight))
        ));
    }

    fn colour(&self, role: Role) -> String {
        if self.reader == For::Page {
            return format!("var(--{})", role.name());
        }
        let c = self.theme.colour(role);
        format!("#{:02x}{:02x}{:02x}", c.0, c.1, c.2)
    }
}

fn place(rect: &Rect) -> String {
    format!(
        " x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"",
        num(rect.x),
        num(rect.y),
        num(rect.w),
        num(rect.h)
    )
}

fn path_data(path: &Path) -> String {
    let mut out = String::new();
    let (mut at, mut start) = (Point::default(), Point::default());
    for segment in &path.segments {
        match *segment {
            Segment::Move(p) => {
                let _ = write!(out, "M{}", pair(p));
                (at, start) = (p, p);
            }
            Segment::Line(p) => {
                let _ = write!(out, "L{}", pair(p));
                at = p;
            }
            Segment::Cubic(a, b, c) => {
                let _ = write!(out, "C{} {} {}", pair(a), pair(b), pair(c));
                at = c;
            }
            Segment::Arc { centre, sweep } => at = arc_data(&mut out, at, centre, sweep),
            Segment::Close => {
                out.push('Z');
                at = start;
            }
        }
    }
    out
}

/// A true arc, in halves because one arc command cannot turn a full circle.
fn arc_data(out: &mut String, from: Point, centre: Point, sweep: f64) -> Point {
    let radius = num(from.distance(centre));
    let way = u8::from(sweep > 0.0);
    let mut at = from;
    for _ in 0..2 {
        at = at.turned(centre, sweep / 2.0);
        let _ = write!(out, "A{radius} {radius} 0 0 {way} {}", pair(at));
    }
    at
}

fn pair(p: Point) -> String {
    format!("{} {}", num(p.x), num(p.y))
}

/// A length rounded to the micrometre, without idle zeros.
fn num(value: f64) -> String {
    let fixed = format!("{value:.3}");
    let short = fixed.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_control() || ('\u{fffe}'..='\u{ffff}').contains(&c) => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Dash;
    use crate::text::Lettering;
    use proptest::prelude::*;

    #[test]
    fn a_few_items_as_text() {
        let mut sheet = Sheet::sized(100.0, 50.0, "Lid & <base>");
        let d = &mut sheet.drawing;
        d.line(
            Point::new(0.0, 1.0 / 3.0),
            Point::new(10.0, -0.0001),
            Stroke::new(Role::Ink, pen::MEDIUM).dashed(Dash::Centre),
        );
        d.circle(
            Point::new(20.0, 20.0),
            5.0,
            Style::washed(Role::Accent, 0.25),
        );
        let mut inner = Drawing::default();
        inner.path(
            Path::default()
                .move_to(Point::new(10.0, 0.0))
                .arc(Point::default(), core::f64::consts::FRAC_PI_2),
            Style::stroked(Stroke::new(Role::Stop, 0.1).faded(0.5)),
        );
        d.group(Group::Clip(Rect::new(0.0, 0.0, 9.0, 9.0)), inner);
        d.text(
            Text::new(Point::new(5.0, 40.0), "R < 5 Ω", Lettering::bold(3.0))
                .anchored(Anchor::Middle)
                .turned(-90.0),
        );
        crate::golden::check("items.svg", &svg(&sheet, Theme::Paper));
    }

    #[test]
    fn themes_differ_in_colours_alone() {
        let mut sheet = Sheet::sized(10.0, 10.0, "t");
        sheet
            .drawing
            .rect(Rect::new(1.0, 1.0, 2.0, 2.0), Style::filled(Role::Wood));
        let strip = |s: String| {
            s.lines()
                .map(|l| l.split("fill=\"#").next().unwrap_or("").to_owned())
                .collect::<Vec<_>>()
        };
        let (a, b) = (svg(&sheet, Theme::Paper), svg(&sheet, Theme::Blueprint));
        assert_ne!(a, b);
        assert_eq!(strip(a), strip(b));
    }

    #[test]
    fn a_page_may_hold_the_same_drawing_twice() {
        let mut drawing = Drawing::default();
        let clip = Group::Clip(Rect::new(0.0, 0.0, 9.0, 9.0));
        drawing.group(clip.clone(), Drawing::default());
        drawing.group(clip, Drawing::default());
        drawing.line(
            Point::new(0.0, 0.0),
            Point::new(1.0, 0.0),
            Stroke::new(Role::WoodShade, pen::FINE),
        );
        let both = elements(&drawing, "a") + &elements(&drawing, "b");
        for id in ["a-clip-0", "a-clip-1", "b-clip-0", "b-clip-1"] {
            assert_eq!(both.matches(&format!("id=\"{id}\"")).count(), 1, "{both}");
        }
        assert!(both.contains("stroke=\"var(--wood-shade)\"") && !both.contains("\"#"));
    }

    #[test]
    fn a_machine_gets_named_layers_and_strokes_and_no_ground() {
        let mut sheet = Sheet::sized(40.0, 30.0, "plate");
        let mut cut = Drawing::default();
        let line = Style::stroked(Stroke::new(Role::Ink, pen::HAIR));
        cut.rect(Rect::new(0.0, 0.0, 40.0, 30.0), line);
        sheet.drawing.group(Group::Layer("cut".to_owned()), cut);
        let at = Point::new(5.0, 9.0);
        sheet
            .drawing
            .text(Text::new(at, "T", Lettering::regular(4.0)));
        let out = cut_svg(&sheet);
        assert!(out.contains("width=\"40mm\" height=\"30mm\" viewBox=\"0 0 40 30\""));
        assert!(out.contains("<g id=\"cut\">") && out.contains("<path d="));
        for unwanted in ["<text", "#ffffff", "data-layer"] {
            assert!(!out.contains(unwanted), "{out}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_escaped(content in "\\PC{0,30}|[<>&\"'\\x00-\\x1f]{0,20}") {
            let mut sheet = Sheet::sized(100.0, 50.0, &content);
            sheet.drawing.text(Text::new(
                Point::new(1.0, 1.0),
                &content,
                Lettering::regular(3.0),
            ));
            sheet.drawing.group(Group::Named(content.clone()), Drawing::default());
            let out = svg(&sheet, Theme::Paper);
            // Outside the tags we wrote ourselves no mark-up character is left.
            let tags = out.matches('<').count();
            let expected = 4 + 2 + 2 + 2 * usize::from(!crate::text::drawable(&content).trim().is_empty()) - 1;
            prop_assert_eq!(tags, expected);
            prop_assert_eq!(out.matches('>').count(), expected);
            prop_assert!(out.chars().all(|c| c == '\n' || !c.is_control()));
            prop_assert_eq!(out.matches('&').count(), out.matches("&amp;").count()
                + out.matches("&lt;").count() + out.matches("&gt;").count()
                + out.matches("&quot;").count() + out.matches("&#39;").count());
        }

        #[test]
        fn numbers_are_short_and_near(value in -1e4_f64..1e4) {
            let text = num(value);
            let back: f64 = text.parse().unwrap();
            prop_assert!((back - value).abs() <= 0.000_500_1);
            prop_assert!(!text.ends_with('.') && text != "-0");
        }
    }
}
