//! Where text meets text, a line, or the edge of the sheet.

use super::{Drawing, Group, Item, Shape, Sheet, Style, Text};
use crate::geometry::{Point, Rect};
use crate::path::Polyline;

/// Two things that must not meet and do.
#[derive(Clone, Debug, PartialEq)]
pub enum Collision {
    /// Two lines of text overlap.
    TextOnText(String, String),
    /// A drawn line runs through a text; from and to are its ends.
    LineThroughText(String, Point, Point),
    /// A text reaches over the edge of the sheet.
    OffSheet(String),
    /// An opaque surface drawn later lies on a text.
    Covered(String),
    /// Two rings with text in them overlap.
    RingOnRing(String, String),
}

/// Ink that touches by less than this, in mm, is taken as clear: the rounded
/// ends of letters leave more than that inside their box.
const TOUCH_MM: f64 = 0.05;

/// Circles smaller than this, in mm, with a text in them are rings for numbers.
const RING_MM: f64 = 4.0;

struct Lettered {
    content: String,
    corners: [Point; 4],
    rank: usize,
    clip: Option<Rect>,
}

/// A small circle around a text.
struct Ring {
    centre: Point,
    radius: f64,
    rank: usize,
}

struct Stretch {
    from: Point,
    to: Point,
    rank: usize,
}

/// An opaque convex surface: it hides lines drawn before it.
struct Patch {
    outline: Polyline,
    rank: usize,
}

#[derive(Default)]
struct Found {
    texts: Vec<Lettered>,
    stretches: Vec<Stretch>,
    patches: Vec<Patch>,
    rings: Vec<Ring>,
    rank: usize,
}

pub(crate) fn collisions(sheet: &Sheet) -> Vec<Collision> {
    let mut found = Found::default();
    found.walk(&sheet.drawing.items, None);
    let mut out = found.off_sheet(sheet.rect());
    out.extend(found.text_on_text());
    out.extend(found.lines_through_text());
    out.extend(found.covered());
    out.extend(found.ring_on_ring());
    out
}

/// Whether a text may be added to a drawing: it meets nothing.
pub(crate) fn is_clear(drawing: &Drawing, text: &Text) -> bool {
    let mut found = Found::default();
    found.walk(&drawing.items, None);
    found.texts.retain(|other| {
        let mine = shrunk(text.corners());
        convex_meet(&mine, &other.corners)
    });
    if !found.texts.is_empty() {
        return false;
    }
    found.rank += 1;
    found.add_text(text, None);
    found.lines_through_text().is_empty()
}

impl Found {
    fn walk(&mut self, items: &[Item], clip: Option<Rect>) {
        for item in items {
            self.rank += 1;
            match item {
                Item::Text(text) => self.add_text(text, clip),
                Item::Shape(shape, style) => self.add_shape(shape, style, clip),
                Item::Group(Group::Clip(rect), inner) => self.walk(inner, Some(*rect)),
                Item::Group(_, inner) => self.walk(inner, clip),
            }
        }
    }

    fn add_text(&mut self, text: &Text, clip: Option<Rect>) {
        if text.content.trim().is_empty() {
            return;
        }
        self.texts.push(Lettered {
            content: text.content.clone(),
            corners: shrunk(text.corners()),
            rank: self.rank,
            clip,
        });
    }

    fn add_shape(&mut self, shape: &Shape, style: &Style, clip: Option<Rect>) {
        if let Shape::Circle { centre, radius } = shape
            && *radius < RING_MM
            && style.stroke.is_some()
        {
            self.rings.push(Ring {
                centre: *centre,
                radius: *radius,
                rank: self.rank,
            });
        }
        if style.fill.is_some_and(|f| f.opacity >= 1.0)
            && let Some(outline) = convex_outline(shape)
        {
            let rank = self.rank;
            self.patches.push(Patch { outline, rank });
        }
        if style.stroke.is_none() {
            return;
        }
        for line in shape.to_path().flatten() {
            for (from, to) in line.stretches() {
                let seen = match clip {
                    Some(rect) => rect.clip(from, to),
                    None => Some((from, to)),
                };
                if let Some((from, to)) = seen {
                    let rank = self.rank;
                    self.stretches.push(Stretch { from, to, rank });
                }
            }
        }
    }

    fn off_sheet(&self, sheet: Rect) -> Vec<Collision> {
        self.texts
            .iter()
            .filter(|t| {
                let within = |r: Rect| t.corners.iter().all(|p| r.holds(*p));
                !within(sheet) || t.clip.is_some_and(|c| !within(c))
            })
            .map(|t| Collision::OffSheet(t.content.clone()))
            .collect()
    }

    fn text_on_text(&self) -> Vec<Collision> {
        let mut out = Vec::new();
        for (i, a) in self.texts.iter().enumerate() {
            for b in &self.texts[i + 1..] {
                if convex_meet(&a.corners, &b.corners) {
                    out.push(Collision::TextOnText(a.content.clone(), b.content.clone()));
                }
            }
        }
        out
    }

    fn covered(&self) -> Vec<Collision> {
        let lies_on = |text: &Lettered, patch: &Patch| {
            patch.rank > text.rank && convex_meet(&text.corners, &patch.outline.points)
        };
        self.texts
            .iter()
            .filter(|t| self.patches.iter().any(|p| lies_on(t, p)))
            .map(|t| Collision::Covered(t.content.clone()))
            .collect()
    }

    fn ring_on_ring(&self) -> Vec<Collision> {
        let mut out = Vec::new();
        let text_in = |ring: &Ring| {
            let inside = |t: &&Lettered| {
                t.rank > ring.rank
                    && (t.corners.iter()).all(|c| c.distance(ring.centre) < ring.radius)
            };
            self.texts.iter().find(inside).map(|t| t.content.clone())
        };
        let numbered: Vec<(&Ring, String)> = (self.rings.iter())
            .filter_map(|ring| Some((ring, text_in(ring)?)))
            .collect();
        for (i, (a, said)) in numbered.iter().enumerate() {
            for (b, other) in &numbered[i + 1..] {
                if a.centre.distance(b.centre) < a.radius + b.radius {
                    out.push(Collision::RingOnRing(said.clone(), other.clone()));
                }
            }
        }
        out
    }

    fn lines_through_text(&self) -> Vec<Collision> {
        let mut out = Vec::new();
        for text in &self.texts {
            let Some(bounds) = Rect::around(&text.corners) else {
                continue;
            };
            // A patch between line and text hides the line.
            let hidden_below = self
                .patches
                .iter()
                .filter(|p| p.rank < text.rank)
                .filter(|p| text.corners.iter().all(|c| p.outline.holds(*c)))
                .map(|p| p.rank)
                .max()
                .unwrap_or(0);
            for s in &self.stretches {
                if s.rank >= hidden_below
                    && bounds.clip(s.from, s.to).is_some()
                    && convex_meet(&text.corners, &[s.from, s.to])
                {
                    let content = text.content.clone();
                    out.push(Collision::LineThroughText(content, s.from, s.to));
                }
            }
        }
        out
    }
}

fn shrunk(corners: [Point; 4]) -> [Point; 4] {
    let middle = corners[0].towards(corners[2], 0.5);
    corners.map(|c| {
        let d = c.distance(middle);
        if d > TOUCH_MM {
            c.towards(middle, TOUCH_MM / d)
        } else {
            middle
        }
    })
}

/// The outline of a shape, if it is a single convex one.
fn convex_outline(shape: &Shape) -> Option<Polyline> {
    let mut lines = shape.to_path().flatten();
    let line = lines.pop().filter(|_| lines.is_empty())?;
    let n = line.points.len();
    let turns = (0..n).map(|i| {
        let (a, b, c) = (
            line.points[i],
            line.points[(i + 1) % n],
            line.points[(i + 2) % n],
        );
        (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x)
    });
    let (left, right) = turns.fold((false, false), |(l, r), turn| {
        (l || turn < -1e-9, r || turn > 1e-9)
    });
    (left != right).then_some(line)
}

/// Whether two convex outlines meet: no line parallel to an edge of either
/// separates them.
fn convex_meet(a: &[Point], b: &[Point]) -> bool {
    let edges = |s: &[Point]| {
        (0..s.len())
            .map(|i| {
                let (p, q) = (s[i], s[(i + 1) % s.len()]);
                (-(q.y - p.y), q.x - p.x)
            })
            .collect::<Vec<_>>()
    };
    let span = |s: &[Point], n: (f64, f64)| {
        s.iter().fold((f64::MAX, f64::MIN), |(lo, hi), p| {
            let d = p.x * n.0 + p.y * n.1;
            (lo.min(d), hi.max(d))
        })
    };
    edges(a).into_iter().chain(edges(b)).all(|n| {
        let ((a0, a1), (b0, b1)) = (span(a, n), span(b, n));
        n == (0.0, 0.0) || (a0 < b1 && b0 < a1)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::role::Role;
    use crate::sheet::{Stroke, pen};
    use crate::text::Lettering;

    const LETTERS: Lettering = Lettering::regular(4.0);

    fn sheet() -> Sheet {
        Sheet::sized(100.0, 50.0, "test")
    }

    fn word(x: f64, y: f64) -> Text {
        Text::new(Point::new(x, y), "Hello", LETTERS)
    }

    fn ink() -> Stroke {
        Stroke::new(Role::Ink, pen::FINE)
    }

    #[test]
    fn apart_is_clear_and_over_is_found() {
        let mut s = sheet();
        s.drawing.text(word(10.0, 20.0));
        s.drawing.text(word(10.0, 26.0));
        assert_eq!(s.collisions(), []);
        s.drawing.text(word(12.0, 21.0));
        assert_eq!(s.collisions().len(), 1);
    }

    #[test]
    fn a_line_through_a_word_is_found_unless_a_patch_hides_it() {
        let through = |patch: bool| {
            let mut s = sheet();
            s.drawing
                .line(Point::new(0.0, 19.0), Point::new(90.0, 18.0), ink());
            if patch {
                let rect = word(10.0, 20.0).upright_box().inset(-0.5);
                s.drawing.rect(rect, Style::filled(Role::Paper));
            }
            s.drawing.text(word(10.0, 20.0));
            s.collisions().len()
        };
        assert_eq!(through(false), 1);
        assert_eq!(through(true), 0);
    }

    #[test]
    fn level_and_plumb_lines_are_found_too() {
        for (a, b) in [((0.0, 18.5), (90.0, 18.5)), ((15.0, 0.0), (15.0, 40.0))] {
            let mut s = sheet();
            s.drawing.text(word(10.0, 20.0));
            s.drawing
                .line(Point::new(a.0, a.1), Point::new(b.0, b.1), ink());
            assert_eq!(s.collisions().len(), 1);
        }
    }

    #[test]
    fn a_turned_word_is_judged_as_turned() {
        let mut s = sheet();
        s.drawing.text(word(30.0, 40.0).turned(-90.0));
        s.drawing
            .line(Point::new(32.0, 0.0), Point::new(32.0, 50.0), ink());
        assert_eq!(s.collisions(), []);
        s.drawing
            .line(Point::new(0.0, 35.0), Point::new(90.0, 35.0), ink());
        assert_eq!(s.collisions().len(), 1);
    }

    #[test]
    fn a_clipped_line_counts_only_where_it_is_seen() {
        let mut s = sheet();
        let mut inner = crate::sheet::Drawing::default();
        inner.line(Point::new(0.0, 18.5), Point::new(90.0, 18.5), ink());
        s.drawing
            .group(Group::Clip(Rect::new(50.0, 0.0, 50.0, 50.0)), inner);
        s.drawing.text(word(10.0, 20.0));
        assert_eq!(s.collisions(), []);
    }

    #[test]
    fn a_text_under_a_later_patch_is_found() {
        let mut s = sheet();
        s.drawing.text(word(10.0, 20.0));
        let patch = Rect::new(12.0, 10.0, 3.0, 20.0);
        s.drawing.rect(patch, Style::filled(Role::Paper));
        assert!(matches!(s.collisions()[..], [Collision::Covered(_)]));
    }

    #[test]
    fn rings_that_overlap_are_found() {
        let ring = |s: &mut Sheet, x: f64| {
            let at = Point::new(x, 20.0);
            let style = Style::filled(Role::Paper).edged(ink());
            s.drawing.circle(at, 2.5, style);
            let text = Text::new(at, "3", Lettering::regular(2.4));
            s.drawing
                .text(text.anchored(super::super::Anchor::Middle).centred());
        };
        let mut s = sheet();
        ring(&mut s, 10.0);
        ring(&mut s, 15.1);
        assert_eq!(s.collisions(), []);
        ring(&mut s, 19.0);
        assert!(matches!(s.collisions()[..], [Collision::RingOnRing(..)]));
    }

    #[test]
    fn text_over_the_edge_is_found() {
        let mut s = sheet();
        s.drawing.text(word(95.0, 20.0));
        assert!(matches!(s.collisions()[..], [Collision::OffSheet(_)]));
    }
}
