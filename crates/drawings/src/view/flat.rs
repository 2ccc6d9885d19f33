//! Outlines in the plane of sight.

use crate::math;

/// A point in the plane of sight: right and up, in m.
pub(crate) type Flat = [f64; 2];

/// Points nearer than this to an outline, in m, lie on it.
pub(crate) const ON: f64 = 1e-8;

/// Twice the area spanned by two arms, positive counter-clockwise.
pub(crate) fn wedge(a: Flat, b: Flat) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

pub(crate) fn minus(a: Flat, b: Flat) -> Flat {
    [a[0] - b[0], a[1] - b[1]]
}

pub(crate) fn along(a: Flat, b: Flat, t: f64) -> Flat {
    [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
}

/// Distance of two points.
pub(crate) fn apart(a: Flat, b: Flat) -> f64 {
    math::hypot(b[0] - a[0], b[1] - a[1])
}

/// Every side of closed loops.
pub(crate) fn sides(loops: &[Vec<Flat>]) -> impl Iterator<Item = (Flat, Flat)> + '_ {
    loops
        .iter()
        .flat_map(|l| (0..l.len()).map(move |i| (l[i], l[(i + 1) % l.len()])))
}

/// An upright rectangle around points: lowest and highest corner.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bounds {
    pub(crate) low: Flat,
    pub(crate) high: Flat,
}

impl Bounds {
    pub(crate) fn of(points: impl IntoIterator<Item = Flat>) -> Self {
        let start = Self {
            low: [f64::INFINITY; 2],
            high: [f64::NEG_INFINITY; 2],
        };
        points.into_iter().fold(start, |b, p| Self {
            low: [b.low[0].min(p[0]), b.low[1].min(p[1])],
            high: [b.high[0].max(p[0]), b.high[1].max(p[1])],
        })
    }

    pub(crate) fn holds(&self, p: Flat) -> bool {
        (0..2).all(|i| self.low[i] <= p[i] && p[i] <= self.high[i])
    }

    pub(crate) fn meets(&self, other: &Self) -> bool {
        (0..2).all(|i| self.low[i] <= other.high[i] && other.low[i] <= self.high[i])
    }
}

/// Where a point lies as to closed loops (even-odd rule).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    Inside,
    On,
    Outside,
}

pub(crate) fn side_of(loops: &[Vec<Flat>], p: Flat) -> Side {
    let mut odd = false;
    for (a, b) in sides(loops) {
        let about = |i: usize| a[i].min(b[i]) - ON < p[i] && p[i] < a[i].max(b[i]) + ON;
        if about(0) && about(1) && distance_to(a, b, p) < ON {
            return Side::On;
        }
        if (a[1] > p[1]) != (b[1] > p[1])
            && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
        {
            odd = !odd;
        }
    }
    if odd { Side::Inside } else { Side::Outside }
}

/// Distance of a point from a stretch.
fn distance_to(a: Flat, b: Flat, p: Flat) -> f64 {
    let (d, q) = (minus(b, a), minus(p, a));
    let square = d[0] * d[0] + d[1] * d[1];
    let t = if square > 0.0 {
        ((q[0] * d[0] + q[1] * d[1]) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    apart(along(a, b, t), p)
}

/// How far along from `a` to `b` the stretch from `c` to `d` is crossed;
/// `None` where they are parallel or pass one another.
pub(crate) fn crossing(a: Flat, b: Flat, c: Flat, d: Flat) -> Option<f64> {
    let (ab, cd, ac) = (minus(b, a), minus(d, c), minus(c, a));
    let turn = wedge(ab, cd);
    let sizes = (ab[0].abs() + ab[1].abs()) * (cd[0].abs() + cd[1].abs());
    if turn.abs() <= 1e-12 * sizes {
        return None;
    }
    let (t, s) = (wedge(ac, cd) / turn, wedge(ac, ab) / turn);
    let within = |v: f64| (-1e-9..=1.0 + 1e-9).contains(&v);
    (within(t) && within(s)).then_some(t)
}

/// Loops cut off by a straight line: what lies where `height` is not negative
/// (Sutherland–Hodgman; stretches along the cut may run to and fro, which
/// fills alike).
pub(crate) fn clipped(loops: &[Vec<Flat>], height: impl Fn(Flat) -> f64) -> Vec<Vec<Flat>> {
    loops
        .iter()
        .map(|l| {
            let mut out = Vec::new();
            for i in 0..l.len() {
                let (a, b) = (l[i], l[(i + 1) % l.len()]);
                let (ha, hb) = (height(a), height(b));
                if ha >= 0.0 {
                    out.push(a);
                }
                if (ha > 0.0 && hb < 0.0) || (ha < 0.0 && hb > 0.0) {
                    out.push(along(a, b, ha / (ha - hb)));
                }
            }
            out
        })
        .filter(|l| l.len() > 2)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame() -> Vec<Vec<Flat>> {
        let square = |r: f64| vec![[-r, -r], [r, -r], [r, r], [-r, r]];
        let mut hole = square(1.0);
        hole.reverse();
        vec![square(2.0), hole]
    }

    #[test]
    fn a_hole_is_outside() {
        assert_eq!(side_of(&frame(), [1.5, 0.3]), Side::Inside);
        assert_eq!(side_of(&frame(), [0.5, 0.3]), Side::Outside);
        assert_eq!(side_of(&frame(), [1.0, 0.3]), Side::On);
        assert_eq!(side_of(&frame(), [3.0, 0.3]), Side::Outside);
    }

    #[test]
    fn a_cut_frame_keeps_its_area() {
        let area = |loops: &[Vec<Flat>]| sides(loops).map(|(a, b)| wedge(a, b)).sum::<f64>() / 2.0;
        let right = clipped(&frame(), |p| p[0] - 0.5);
        let left = clipped(&frame(), |p| 0.5 - p[0]);
        assert!((area(&frame()) - 12.0).abs() < 1e-12);
        assert!((area(&right) - 5.0).abs() < 1e-12 && (area(&left) - 7.0).abs() < 1e-12);
    }
}
