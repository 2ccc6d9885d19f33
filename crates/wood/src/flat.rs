//! Outlines against straight lines and polygons in the plane of a panel.

use crate::plan::Outline;

/// A point or direction in the plane of a panel.
pub(crate) type Flat = [f64; 2];

pub(crate) fn dot(a: Flat, b: Flat) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

pub(crate) fn sub(a: Flat, b: Flat) -> Flat {
    [a[0] - b[0], a[1] - b[1]]
}

pub(crate) fn along(a: Flat, way: Flat, by: f64) -> Flat {
    [a[0] + way[0] * by, a[1] + way[1] * by]
}

/// Direction of a vector; `None` where it has none.
pub(crate) fn unit(a: Flat) -> Option<Flat> {
    let long = dot(a, a).sqrt();
    (long > 0.0).then(|| a.map(|c| c / long))
}

/// How far an outline reaches from its middle in a direction of length 1, in m.
pub(crate) fn reach(outline: &Outline, way: Flat) -> f64 {
    let core = outline.core();
    core[0] * way[0].abs() + core[1] * way[1].abs() + outline.corner()
}

/// A half plane: the points p with normal · p ≤ offset.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    /// Of length 1.
    pub(crate) normal: Flat,
    pub(crate) offset: f64,
}

impl Line {
    /// Left of the way from one point to another; `None` where they are one.
    pub(crate) fn left_of([from, to]: [Flat; 2]) -> Option<Self> {
        let way = unit(sub(to, from))?;
        let normal = [way[1], -way[0]];
        Some(Self {
            normal,
            offset: dot(normal, from),
        })
    }

    /// How far an outline reaches beyond, in m; negative where it keeps clear.
    pub(crate) fn over(&self, at: Flat, outline: &Outline) -> f64 {
        dot(self.normal, at) + reach(outline, self.normal) - self.offset
    }
}

/// The shortest move that brings an outline within all lines; `None` where none does.
pub(crate) fn shift(at: Flat, outline: &Outline, lines: &[Line]) -> Option<Flat> {
    const ROUNDS: usize = 60;
    let mut place = at;
    for _ in 0..ROUNDS {
        for line in lines {
            let over = line.over(place, outline);
            if over > 0.0 {
                place = along(place, line.normal, -over);
            }
        }
    }
    let free = lines.iter().all(|line| line.over(place, outline) < 1e-6);
    free.then(|| sub(place, at))
}

/// How far an outline runs into a convex polygon (counter-clockwise), and the direction in
/// which it leaves it soonest; `None` where they at most touch.
pub(crate) fn run_into(at: Flat, outline: &Outline, polygon: &[Flat]) -> Option<(f64, Flat)> {
    let core = outline.core();
    let corners = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]
        .map(|sign: Flat| [at[0] + sign[0] * core[0], at[1] + sign[1] * core[1]]);
    let sides = polygon.iter().zip(polygon.iter().cycle().skip(1));
    let normals = sides.filter_map(|(a, b)| Line::left_of([*a, *b]).map(|line| line.normal));
    let upright = [[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]];
    let pairs = polygon
        .iter()
        .flat_map(|vertex| corners.map(|corner| unit(sub(corner, *vertex))))
        .flatten();
    let mut least: Option<(f64, Flat)> = None;
    for way in normals.chain(upright).chain(pairs) {
        let end = polygon
            .iter()
            .map(|vertex| dot(*vertex, way))
            .fold(f64::NEG_INFINITY, f64::max);
        let depth = end - (dot(at, way) - reach(outline, way));
        if depth <= 1e-9 {
            return None;
        }
        if least.is_none_or(|(known, _)| depth < known) {
            least = Some((depth, way));
        }
    }
    least
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Flat; 4] = [[0.0, 0.0], [0.1, 0.0], [0.1, 0.1], [0.0, 0.1]];
    const DISC: Outline = Outline::Circle { diameter: 0.04 };

    #[test]
    fn a_disc_leaves_a_square_by_its_nearest_side() {
        let (depth, way) = run_into([0.11, 0.05], &DISC, &SQUARE).unwrap();
        assert!((depth - 0.01).abs() < 1e-12 && way == [1.0, 0.0]);
        assert!(run_into([0.121, 0.05], &DISC, &SQUARE).is_none());
    }

    #[test]
    fn a_disc_off_a_corner_keeps_clear_though_its_box_does_not() {
        assert!(run_into([0.115, 0.115], &DISC, &SQUARE).is_none());
        let (depth, _) = run_into([0.11, 0.11], &DISC, &SQUARE).unwrap();
        assert!((depth - (0.02 - 0.01 * core::f64::consts::SQRT_2)).abs() < 1e-12);
    }

    #[test]
    fn an_outline_is_moved_no_farther_than_it_must() {
        let sides = SQUARE.iter().zip(SQUARE.iter().cycle().skip(1));
        let lines: Vec<Line> = sides.filter_map(|(a, b)| Line::left_of([*a, *b])).collect();
        let moved = shift([0.09, 0.0], &DISC, &lines).unwrap();
        assert!((moved[0] + 0.01).abs() < 1e-12 && (moved[1] - 0.02).abs() < 1e-12);
        let plate = Outline::Circle { diameter: 0.12 };
        assert!(shift([0.05, 0.05], &plate, &lines).is_none());
    }
}
