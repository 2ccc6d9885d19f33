//! Letters as the outlines of their glyphs, for tools that clear an area or cut
//! letters out.

use super::{Lettering, em, glyph_run, outline_of};
use crate::geometry::Point;
use crate::path::{Path, Segment};
use crate::sheet::Text;
use ttf_parser::OutlineBuilder;

/// The outlines of a line of text where it stands; glyph by glyph they may
/// touch, and a hole in a letter runs against its outer edge.
#[must_use]
pub fn outlined(text: &Text) -> Path {
    let Lettering { size_mm, weight } = text.letters;
    let turn = text.turn_deg.to_radians();
    let mut pen = Pen {
        path: Path::default(),
        at: (0.0, 0.0),
        start: text.start(),
        scale: size_mm / em(weight),
        about: (text.at, turn),
    };
    for run in glyph_run(&text.content, weight) {
        outline_of(run.glyph, weight, &mut pen);
        pen.start = pen.start.moved(run.advance * size_mm, 0.0);
    }
    pen.path
}

/// Sets outlines given in units of a font, y upwards, onto a sheet.
struct Pen {
    path: Path,
    /// Where the outline has come to, in units of the font.
    at: (f64, f64),
    /// Start of the glyph on the base line.
    start: Point,
    scale: f64,
    about: (Point, f64),
}

impl Pen {
    fn set(&self, (x, y): (f64, f64)) -> Point {
        let flat = self.start.moved(x * self.scale, -y * self.scale);
        let (centre, turn) = self.about;
        if turn == 0.0 {
            flat
        } else {
            flat.turned(centre, turn)
        }
    }

    fn push(&mut self, segment: Segment, at: (f64, f64)) {
        self.path.segments.push(segment);
        self.at = at;
    }
}

fn pair(x: f32, y: f32) -> (f64, f64) {
    (f64::from(x), f64::from(y))
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let p = pair(x, y);
        self.push(Segment::Move(self.set(p)), p);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let p = pair(x, y);
        self.push(Segment::Line(self.set(p)), p);
    }

    /// A curve with one control point is one with two, each two thirds of
    /// the way from an end to it.
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (from, control, p) = (self.at, pair(x1, y1), pair(x, y));
        let towards = |end: (f64, f64)| {
            let third = |a: f64, b: f64| a + 2.0 / 3.0 * (b - a);
            self.set((third(end.0, control.0), third(end.1, control.1)))
        };
        let segment = Segment::Cubic(towards(from), towards(p), self.set(p));
        self.push(segment, p);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let p = pair(x, y);
        let (a, b) = (self.set(pair(x1, y1)), self.set(pair(x2, y2)));
        self.push(Segment::Cubic(a, b, self.set(p)), p);
    }

    fn close(&mut self) {
        self.path.segments.push(Segment::Close);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect;
    use crate::sheet::Anchor;

    fn bounds(text: &Text) -> Rect {
        let lines = outlined(text).flatten();
        assert!(lines.iter().all(|l| l.closed), "outlines are closed");
        let points: Vec<Point> = lines.into_iter().flat_map(|l| l.points).collect();
        Rect::around(&points).unwrap()
    }

    #[test]
    fn outlines_stand_where_the_text_does() {
        let text = Text::new(Point::new(30.0, 20.0), "HHH", Lettering::bold(10.0));
        let found = bounds(&text.clone().anchored(Anchor::Middle));
        assert!((found.centre().x - 30.0).abs() < 0.1, "{found:?}");
        assert!((found.bottom() - 20.0).abs() < 1e-6);
        assert!((found.h - text.letters.cap_height()).abs() < 0.01);
        let up = bounds(&text.turned(-90.0));
        assert!(
            (up.right() - 30.0).abs() < 1e-6 && up.bottom() <= 20.0,
            "{up:?}"
        );
    }

    #[test]
    fn holes_run_against_the_edge() {
        let text = Text::new(Point::default(), "O", Lettering::regular(10.0));
        let areas: Vec<f64> = outlined(&text)
            .flatten()
            .iter()
            .map(|l| l.stretches().map(|(a, b)| a.x * b.y - b.x * a.y).sum())
            .collect();
        assert_eq!(areas.len(), 2);
        assert!(areas[0] * areas[1] < 0.0, "{areas:?}");
    }

    #[test]
    fn a_space_has_no_outline() {
        let text = Text::new(Point::default(), " ", Lettering::regular(10.0));
        assert_eq!(outlined(&text), Path::default());
    }
}
