//! Outlines: straight stretches, true circular arcs and Bézier curves.

use crate::geometry::Point;
use crate::math;
use core::f64::consts::{FRAC_PI_2, PI};

/// One step of an outline, from wherever the step before it ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Starts a new stretch.
    Move(Point),
    /// A straight line.
    Line(Point),
    /// A cubic Bézier curve: two control points and the end.
    Cubic(Point, Point, Point),
    /// A circular arc about a centre; the radius is the distance from the
    /// current point to it.
    Arc {
        /// Centre of the circle.
        centre: Point,
        /// Angle swept in radians, clockwise as seen when positive.
        sweep: f64,
    },
    /// Back to the start of the stretch.
    Close,
}

/// An outline of one or several stretches.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// The steps in order.
    pub segments: Vec<Segment>,
}

/// A stretch of an outline as points.
#[derive(Clone, Debug, PartialEq)]
pub struct Polyline {
    /// The points in order.
    pub points: Vec<Point>,
    /// Whether the last point joins the first.
    pub closed: bool,
}

impl Path {
    /// An open line through some points.
    #[must_use]
    pub fn polyline(points: &[Point]) -> Self {
        let mut path = Self::default();
        for (i, p) in points.iter().enumerate() {
            path.segments.push(if i == 0 {
                Segment::Move(*p)
            } else {
                Segment::Line(*p)
            });
        }
        path
    }

    /// A closed outline through some points.
    #[must_use]
    pub fn polygon(points: &[Point]) -> Self {
        let mut path = Self::polyline(points);
        path.segments.push(Segment::Close);
        path
    }

    /// Starts a new stretch.
    #[must_use]
    pub fn move_to(mut self, p: Point) -> Self {
        self.segments.push(Segment::Move(p));
        self
    }

    /// Adds a straight line.
    #[must_use]
    pub fn line_to(mut self, p: Point) -> Self {
        self.segments.push(Segment::Line(p));
        self
    }

    /// Adds a circular arc about `centre`, `sweep` radians clockwise as seen.
    #[must_use]
    pub fn arc(mut self, centre: Point, sweep: f64) -> Self {
        self.segments.push(Segment::Arc { centre, sweep });
        self
    }

    /// Closes the stretch.
    #[must_use]
    pub fn close(mut self) -> Self {
        self.segments.push(Segment::Close);
        self
    }

    /// A closed ellipse from its centre and two conjugate half-diameters
    /// (the pictures of two radii of a circle at right angles), as four
    /// Bézier curves; true within 0.03 % of the half-diameter.
    #[must_use]
    pub fn ellipse(centre: Point, u: (f64, f64), v: (f64, f64)) -> Self {
        const K: f64 = 0.552_284_749_830_793_4;
        let at = |a: f64, b: f64| centre.moved(a * u.0 + b * v.0, a * u.1 + b * v.1);
        let quarter = |(a0, b0): (f64, f64), (a1, b1): (f64, f64)| {
            Segment::Cubic(
                at(a0 + K * a1, b0 + K * b1),
                at(a1 + K * a0, b1 + K * b0),
                at(a1, b1),
            )
        };
        let corners = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)];
        let mut path = Self::default().move_to(at(1.0, 0.0));
        for pair in corners.windows(2) {
            path.segments.push(quarter(pair[0], pair[1]));
        }
        path.close()
    }

    /// The outline moved by `dx` and `dy` mm.
    #[must_use]
    pub fn moved(&self, dx: f64, dy: f64) -> Self {
        let by = |p: &Point| p.moved(dx, dy);
        let segments = self
            .segments
            .iter()
            .map(|s| match s {
                Segment::Move(p) => Segment::Move(by(p)),
                Segment::Line(p) => Segment::Line(by(p)),
                Segment::Cubic(a, b, c) => Segment::Cubic(by(a), by(b), by(c)),
                Segment::Arc { centre, sweep } => Segment::Arc {
                    centre: by(centre),
                    sweep: *sweep,
                },
                Segment::Close => Segment::Close,
            })
            .collect();
        Self { segments }
    }

    /// The same outline with every arc written as Bézier curves.
    #[must_use]
    pub fn without_arcs(&self) -> Self {
        let mut out = Self::default();
        let mut at = Point::default();
        let mut start = at;
        for segment in &self.segments {
            match *segment {
                Segment::Arc { centre, sweep } => {
                    out.segments.extend(arc_as_cubics(at, centre, sweep));
                    at = at.turned(centre, sweep);
                }
                other => {
                    match other {
                        Segment::Move(p) => (at, start) = (p, p),
                        Segment::Line(p) | Segment::Cubic(_, _, p) => at = p,
                        Segment::Close => at = start,
                        Segment::Arc { .. } => {}
                    }
                    out.segments.push(other);
                }
            }
        }
        out
    }

    /// The outline as points; curves are cut into pieces of at most a
    /// sixteenth of a quarter turn.
    #[must_use]
    pub fn flatten(&self) -> Vec<Polyline> {
        const PIECES: u32 = 16;
        let mut lines: Vec<Polyline> = Vec::new();
        let start_new = |points: Vec<Point>| Polyline {
            points,
            closed: false,
        };
        for segment in self.without_arcs().segments {
            match segment {
                Segment::Move(p) => lines.push(start_new(vec![p])),
                Segment::Line(p) => {
                    if let Some(l) = lines.last_mut() {
                        l.points.push(p);
                    }
                }
                Segment::Cubic(a, b, c) => {
                    if let Some(l) = lines.last_mut() {
                        let from = l.points.last().copied().unwrap_or(a);
                        l.points
                            .extend((1..=PIECES).map(|i| {
                                cubic_at(from, a, b, c, f64::from(i) / f64::from(PIECES))
                            }));
                    }
                }
                Segment::Close => {
                    if let Some(l) = lines.last_mut() {
                        l.closed = true;
                    }
                }
                Segment::Arc { .. } => {}
            }
        }
        lines
    }
}

impl Polyline {
    /// Whether the area inside the stretch, taken as closed, holds the point
    /// (even-odd rule).
    #[must_use]
    pub fn holds(&self, p: Point) -> bool {
        let mut odd = false;
        for (i, a) in self.points.iter().enumerate() {
            let b = self.points[(i + 1) % self.points.len()];
            if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
                odd = !odd;
            }
        }
        odd
    }

    /// Every straight stretch, the closing one included.
    pub fn stretches(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let closing = (self.closed && self.points.len() > 1)
            .then(|| (self.points[self.points.len() - 1], self.points[0]));
        self.points.windows(2).map(|w| (w[0], w[1])).chain(closing)
    }
}

pub(crate) fn cubic_at(p: Point, a: Point, b: Point, c: Point, t: f64) -> Point {
    let s = 1.0 - t;
    let (k0, k1, k2, k3) = (s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t);
    Point::new(
        k0 * p.x + k1 * a.x + k2 * b.x + k3 * c.x,
        k0 * p.y + k1 * a.y + k2 * b.y + k3 * c.y,
    )
}

fn arc_as_cubics(from: Point, centre: Point, sweep: f64) -> Vec<Segment> {
    let sweep = sweep.clamp(-2.0 * PI, 2.0 * PI);
    let pieces = math::ceil(math::abs(sweep) / FRAC_PI_2).max(1.0);
    let step = sweep / pieces;
    let k = 4.0 / 3.0 * math::tan(step / 4.0);
    let along = |p: Point| (-(p.y - centre.y) * k, (p.x - centre.x) * k);
    let mut at = from;
    let mut out = Vec::new();
    for _ in 0..pieces as u32 {
        let to = at.turned(centre, step);
        let (a, b) = (along(at), along(to));
        out.push(Segment::Cubic(at.moved(a.0, a.1), to.moved(-b.0, -b.1), to));
        at = to;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arcs_keep_their_radius_when_flattened() {
        let centre = Point::new(3.0, -2.0);
        let path = Path::default()
            .move_to(centre.moved(10.0, 0.0))
            .arc(centre, 5.0);
        let line = &path.flatten()[0];
        for p in &line.points {
            assert!((p.distance(centre) - 10.0).abs() < 0.003, "{p:?}");
        }
        let end = centre.moved(10.0, 0.0).turned(centre, 5.0);
        assert!(line.points.last().is_some_and(|p| p.distance(end) < 1e-9));
    }

    #[test]
    fn a_polyline_holds_what_is_inside_it() {
        let c = Path::polygon(
            &[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 1.0), (0.0, 4.0)]
                .map(|(x, y)| Point::new(x, y)),
        );
        let line = &c.flatten()[0];
        assert!(line.holds(Point::new(0.5, 2.0)) && line.holds(Point::new(2.0, 0.5)));
        assert!(!line.holds(Point::new(2.0, 2.0)) && !line.holds(Point::new(5.0, 1.0)));
    }

    #[test]
    fn an_ellipse_of_equal_axes_is_a_circle() {
        let centre = Point::new(1.0, 2.0);
        let circle = Path::ellipse(centre, (5.0, 0.0), (0.0, 5.0));
        for p in &circle.flatten()[0].points {
            assert!((p.distance(centre) - 5.0).abs() < 0.0015, "{p:?}");
        }
    }
}
