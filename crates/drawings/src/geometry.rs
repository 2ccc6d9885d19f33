//! Points and rectangles on a sheet, in millimetres, y downwards.

use crate::math;

/// A point on a sheet: mm from the left edge and mm from the top edge.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// Millimetres from the left edge.
    pub x: f64,
    /// Millimetres from the top edge, downwards.
    pub y: f64,
}

impl Point {
    /// A point at `x` mm from the left and `y` mm from the top.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The same point moved by `dx` and `dy` mm.
    #[must_use]
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self::new(self.x + dx, self.y + dy)
    }

    /// Distance to another point in mm.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        math::hypot(other.x - self.x, other.y - self.y)
    }

    /// The point at fraction `t` of the way to `other`.
    #[must_use]
    pub fn towards(self, other: Self, t: f64) -> Self {
        self.moved((other.x - self.x) * t, (other.y - self.y) * t)
    }

    /// The point turned about `centre` by `angle` radians, clockwise as seen.
    #[must_use]
    pub fn turned(self, centre: Self, angle: f64) -> Self {
        let (s, c) = (math::sin(angle), math::cos(angle));
        let (dx, dy) = (self.x - centre.x, self.y - centre.y);
        Self::new(centre.x + c * dx - s * dy, centre.y + s * dx + c * dy)
    }
}

/// An upright rectangle on a sheet, in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

impl Rect {
    /// A rectangle from its top left corner, width and height in mm.
    #[must_use]
    pub const fn new(x: f64, y: f64, w: f64, h: f64) -> Self {
        Self { x, y, w, h }
    }

    /// The smallest rectangle around some points; `None` without points.
    #[must_use]
    pub fn around(points: &[Point]) -> Option<Self> {
        let first = points.first()?;
        let (mut lo, mut hi) = (*first, *first);
        for p in points {
            lo = Point::new(lo.x.min(p.x), lo.y.min(p.y));
            hi = Point::new(hi.x.max(p.x), hi.y.max(p.y));
        }
        Some(Self::new(lo.x, lo.y, hi.x - lo.x, hi.y - lo.y))
    }

    /// A rectangle of that size which a line arriving at `tip` along
    /// `(dx, dy)` (of length 1) touches in the middle of a side.
    pub(crate) fn met_by(tip: Point, (dx, dy): (f64, f64), w: f64, h: f64) -> Self {
        let aside = dx.abs() > 0.3;
        let x = match dx {
            dx if aside && dx > 0.0 => tip.x,
            _ if aside => tip.x - w,
            _ => tip.x - w / 2.0,
        };
        let y = match dy {
            _ if aside => tip.y - h / 2.0,
            dy if dy > 0.0 => tip.y,
            _ => tip.y - h,
        };
        Self::new(x, y, w, h)
    }

    /// Right edge.
    #[must_use]
    pub fn right(&self) -> f64 {
        self.x + self.w
    }

    /// Bottom edge.
    #[must_use]
    pub fn bottom(&self) -> f64 {
        self.y + self.h
    }

    /// The middle.
    #[must_use]
    pub fn centre(&self) -> Point {
        Point::new(self.x + self.w / 2.0, self.y + self.h / 2.0)
    }

    /// Corners, clockwise from the top left.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        [
            Point::new(self.x, self.y),
            Point::new(self.right(), self.y),
            Point::new(self.right(), self.bottom()),
            Point::new(self.x, self.bottom()),
        ]
    }

    /// The rectangle with `margin` mm taken off every side (added if negative).
    #[must_use]
    pub fn inset(&self, margin: f64) -> Self {
        Self::new(
            self.x + margin,
            self.y + margin,
            self.w - 2.0 * margin,
            self.h - 2.0 * margin,
        )
    }

    /// The rectangle moved by `dx` and `dy` mm.
    #[must_use]
    pub fn moved(&self, dx: f64, dy: f64) -> Self {
        Self::new(self.x + dx, self.y + dy, self.w, self.h)
    }

    /// Whether the insides of two rectangles share any area.
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        self.x < other.right()
            && other.x < self.right()
            && self.y < other.bottom()
            && other.y < self.bottom()
    }

    /// Whether `other` lies wholly within this rectangle.
    #[must_use]
    pub fn contains(&self, other: &Self) -> bool {
        other.x >= self.x
            && other.y >= self.y
            && other.right() <= self.right()
            && other.bottom() <= self.bottom()
    }

    /// Whether the point lies within or on the edge.
    #[must_use]
    pub fn holds(&self, p: Point) -> bool {
        p.x >= self.x && p.x <= self.right() && p.y >= self.y && p.y <= self.bottom()
    }

    /// The part of the stretch from `a` to `b` inside the rectangle
    /// (Liang–Barsky); `None` when it misses.
    #[must_use]
    pub fn clip(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (p, q) in [
            (-dx, a.x - self.x),
            (dx, self.right() - a.x),
            (-dy, a.y - self.y),
            (dy, self.bottom() - a.y),
        ] {
            if p == 0.0 {
                if q < 0.0 {
                    return None;
                }
            } else if p < 0.0 {
                from = from.max(q / p);
            } else {
                to = to.min(q / p);
            }
        }
        (from <= to).then(|| (a.towards(b, from), a.towards(b, to)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_is_clipped_to_the_rectangle() {
        let r = Rect::new(0.0, 0.0, 10.0, 10.0);
        let cut = r.clip(Point::new(-5.0, 5.0), Point::new(15.0, 5.0));
        assert_eq!(cut, Some((Point::new(0.0, 5.0), Point::new(10.0, 5.0))));
        assert_eq!(r.clip(Point::new(-5.0, 12.0), Point::new(15.0, 12.0)), None);
        assert_eq!(r.clip(Point::new(-5.0, 5.0), Point::new(5.0, -6.0)), None);
    }

    #[test]
    fn turning_is_clockwise_as_seen() {
        let p = Point::new(1.0, 0.0).turned(Point::default(), core::f64::consts::FRAC_PI_2);
        assert!(p.distance(Point::new(0.0, 1.0)) < 1e-12);
    }
}
