//! Blocks, tubes and bodies of revolution as seen.

use super::project::View;
use super::{PictureShape, Stuff};
use crate::geometry::Point;
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Drawing, Stroke, Style, pen};

/// A round section: distance behind the front, radius.
type Section = (f64, f64);

/// What is seen of a part behind the front.
pub(crate) fn inside(shape: &PictureShape, wall: f64, view: &View, out: &mut Drawing) {
    match *shape {
        PictureShape::Block {
            size,
            centre,
            stuff,
        } => block(size, centre, stuff, view, out),
        PictureShape::Driver {
            centre,
            cutout,
            magnet,
            depth,
            ..
        } => {
            let (r, m) = (0.48 * cutout, magnet / 2.0);
            let neck = wall.max(0.55 * depth).min(depth);
            turned(
                centre,
                &[(wall, r), (neck, m * 0.8)],
                Role::Metal,
                view,
                out,
            );
            turned(centre, &[(neck, m), (depth, m)], Role::MetalDark, view, out);
        }
        PictureShape::Radiator {
            centre,
            cutout,
            depth,
            ..
        } => {
            let r = 0.48 * cutout;
            turned(
                centre,
                &[(wall, r), (depth, 0.5 * r)],
                Role::Metal,
                view,
                out,
            );
        }
        PictureShape::Vent {
            centre,
            cutout,
            length,
            ..
        } => {
            let r = cutout / 2.0;
            turned(
                centre,
                &[(wall, r), (length, r)],
                Role::MetalDark,
                view,
                out,
            );
        }
    }
}

/// What is seen of a part on the face of the front.
pub(crate) fn face(shape: &PictureShape, view: &View, out: &mut Drawing) {
    let edge = Stroke::new(Role::Ink, pen::MEDIUM);
    let thin = Stroke::new(Role::Ink, pen::FINE);
    let mut rings = |centre: [f64; 2], rings: &[(f64, Role, f64, Stroke)]| {
        for (diameter, role, opacity, stroke) in rings {
            let outline = ellipse(centre, 0.0, diameter / 2.0, view);
            out.path(outline, Style::washed(*role, *opacity).edged(*stroke));
        }
    };
    match *shape {
        PictureShape::Block { .. } => {}
        PictureShape::Driver {
            centre,
            frame,
            cutout,
            ..
        } => rings(
            centre,
            &[
                (frame, Role::Metal, 0.35, edge),
                (0.94 * cutout, Role::MetalDark, 0.25, thin),
                (0.80 * cutout, Role::Metal, 0.45, thin),
                (0.28 * cutout, Role::MetalDark, 0.55, thin),
            ],
        ),
        PictureShape::Radiator {
            centre,
            frame,
            cutout,
            ..
        } => rings(
            centre,
            &[
                (frame, Role::Metal, 0.35, edge),
                (0.94 * cutout, Role::MetalDark, 0.25, thin),
                (0.74 * cutout, Role::Metal, 0.6, thin),
            ],
        ),
        PictureShape::Vent {
            centre,
            diameter,
            cutout,
            ..
        } => rings(
            centre,
            &[
                (cutout, Role::Metal, 0.5, thin),
                (diameter, Role::MetalDark, 0.8, edge),
            ],
        ),
    }
}

/// Points of the part that a leader may end on.
pub(crate) fn anchors(shape: &PictureShape, view: &View) -> Vec<Point> {
    match *shape {
        PictureShape::Block { size, centre, .. } => {
            let [x, y, z] = centre;
            let [w, h, d] = size.map(|length| length / 2.0);
            [
                [x, y + h, z],
                [x + 0.5 * w, y + h, z],
                [x + w, y, z],
                [x + 0.6 * w, y, z - d],
                [x, y, z - d],
                [x, y - 0.5 * h, z - d],
                [x - 0.6 * w, y, z - d],
            ]
            .map(|p| view.at(p))
            .to_vec()
        }
        PictureShape::Driver { centre, cutout, .. }
        | PictureShape::Radiator { centre, cutout, .. } => {
            let [x, y] = centre;
            vec![view.at([x + 0.24 * cutout, y + 0.12 * cutout, 0.0])]
        }
        PictureShape::Vent { centre, .. } => vec![view.at([centre[0], centre[1], 0.0])],
    }
}

/// Distance of a part from the eye, for painter's order.
pub(crate) fn distance(shape: &PictureShape, view: &View) -> f64 {
    match *shape {
        PictureShape::Block { size, centre, .. } => {
            // The nearest corner decides: it is what may hide others.
            let [x, y, z] = centre;
            view.depth([x + size[0] / 2.0, y + size[1] / 2.0, z - size[2] / 2.0])
        }
        PictureShape::Driver { centre, depth, .. }
        | PictureShape::Radiator { centre, depth, .. } => {
            view.depth([centre[0], centre[1], depth / 2.0])
        }
        PictureShape::Vent { centre, length, .. } => {
            view.depth([centre[0], centre[1], length / 2.0])
        }
    }
}

fn block(size: [f64; 3], centre: [f64; 3], stuff: Stuff, view: &View, out: &mut Drawing) {
    let role = match stuff {
        Stuff::Cell => Role::Cell,
        Stuff::Board => Role::Board,
        Stuff::Other => Role::Metal,
    };
    let at = |sx: f64, sy: f64, sz: f64| {
        view.at([
            centre[0] + sx * size[0] / 2.0,
            centre[1] + sy * size[1] / 2.0,
            centre[2] + sz * size[2] / 2.0,
        ])
    };
    let edge = Stroke::new(Role::Ink, pen::THIN);
    for (corners, opacity) in [
        (
            [
                at(-1.0, -1.0, -1.0),
                at(1.0, -1.0, -1.0),
                at(1.0, 1.0, -1.0),
                at(-1.0, 1.0, -1.0),
            ],
            0.72,
        ),
        (
            [
                at(1.0, -1.0, -1.0),
                at(1.0, -1.0, 1.0),
                at(1.0, 1.0, 1.0),
                at(1.0, 1.0, -1.0),
            ],
            0.88,
        ),
        (
            [
                at(-1.0, 1.0, -1.0),
                at(1.0, 1.0, -1.0),
                at(1.0, 1.0, 1.0),
                at(-1.0, 1.0, 1.0),
            ],
            0.58,
        ),
    ] {
        out.polygon(&corners, Style::washed(role, opacity).edged(edge));
    }
}

/// A body of revolution about an axis square to the front, from far to near.
fn turned(centre: [f64; 2], profile: &[Section], role: Role, view: &View, out: &mut Drawing) {
    let edge = Stroke::new(Role::Ink, pen::FINE).faded(0.8);
    if let Some((z, r)) = profile.last() {
        let back = ellipse(centre, *z, *r, view);
        out.path(back, Style::washed(role, 0.5).edged(edge));
    }
    for pair in profile.windows(2).rev() {
        let mut points = ring(centre, pair[0], view);
        points.extend(ring(centre, pair[1], view));
        let hull = hull(points);
        out.polygon(&hull, Style::washed(role, 0.55).edged(edge));
        let front = ellipse(centre, pair[0].0, pair[0].1, view);
        out.path(front, Style::washed(role, 0.35).edged(edge));
    }
}

fn ellipse(centre: [f64; 2], z: f64, radius: f64, view: &View) -> Path {
    let (u, v) = view.circle(radius);
    Path::ellipse(view.at([centre[0], centre[1], z]), u, v)
}

fn ring(centre: [f64; 2], (z, radius): Section, view: &View) -> Vec<Point> {
    ellipse(centre, z, radius, view)
        .flatten()
        .into_iter()
        .flat_map(|l| l.points)
        .collect()
}

/// Convex hull, counter-clockwise in sheet axes (Andrew's monotone chain).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..] {
                let turn = (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
                if turn > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut lower = half(&mut points.iter().copied());
    lower.extend(half(&mut points.iter().rev().copied()));
    lower
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hull_of_a_square_with_points_inside_is_the_square() {
        let points = [
            (0.0, 0.0),
            (2.0, 0.0),
            (1.0, 1.0),
            (2.0, 2.0),
            (0.5, 1.5),
            (0.0, 2.0),
        ];
        let hull = hull(points.map(|(x, y)| Point::new(x, y)).to_vec());
        assert_eq!(hull.len(), 4);
        assert!(!hull.contains(&Point::new(1.0, 1.0)));
    }
}
