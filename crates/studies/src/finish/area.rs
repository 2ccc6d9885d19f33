//! How much of the box is seen, side by side.

use super::model::FaceArea;
use wood::vector::{Vector, add, cross, dot, scale, sub};
use wood::{Body, DRAWN_CHORD, Panel, PlanarFace, Plane, Surface, Wall};

/// Distance in m within which a point lies on a plane, as everywhere in the solid model.
const TOUCH: f64 = 1e-6;

/// Area of every side, from the solid: what of the panels' faces lies on the outside of the box,
/// round holes to the chord in which they are drawn.
pub(super) fn faces(body: &Body) -> Vec<FaceArea> {
    let corners: Vec<Vector> = body
        .panels
        .iter()
        .flat_map(|panel| &panel.pieces)
        .flat_map(|piece| piece.vertices.iter().copied())
        .collect();
    let mut areas = [0.0; 6];
    for wall in Wall::ALL {
        let panel = body.wall(wall);
        let surface = panel.surface(DRAWN_CHORD);
        for (face, planar) in surface.faces.iter().zip(surface.planar_faces()) {
            if face.side_of.is_none() && is_seen(panel, &face.plane, &surface, &corners) {
                areas[side(body, &face.plane).index()] += area(&planar);
            }
        }
        areas[wall.index()] += lip(body, wall);
    }
    Wall::ALL
        .map(|wall| FaceArea {
            wall,
            area: areas[wall.index()],
        })
        .into()
}

/// Whether a face of a wall lies on the outside: it is its outer face, or nothing of the box
/// lies beyond its plane.
fn is_seen(panel: &Panel, plane: &Plane, surface: &Surface, corners: &[Vector]) -> bool {
    let out = panel.frame.out;
    if dot(plane.normal, out) > 1.0 - TOUCH {
        let outermost = surface.vertices.iter().map(|at| dot(*at, out));
        return plane.offset >= outermost.fold(f64::NEG_INFINITY, f64::max) - TOUCH;
    }
    corners.iter().all(|at| plane.distance(*at) < TOUCH)
}

/// The side from which a face is seen best.
fn side(body: &Body, plane: &Plane) -> Wall {
    let towards = |wall: Wall| dot(plane.normal, body.wall(wall).frame.out);
    Wall::ALL
        .into_iter()
        .max_by(|a, b| towards(*a).total_cmp(&towards(*b)))
        .unwrap_or(Wall::Front)
}

/// What stands out around a wall that is set back: its rim seen from inside, in m².
fn lip(body: &Body, wall: Wall) -> f64 {
    let panel = body.wall(wall);
    let around = panel.edges.iter().map(|edge| {
        let [from, to] = edge.outer;
        let [x, y] = [0, 1].map(|axis| to[axis] - from[axis]);
        (x * x + y * y).sqrt()
    });
    body.plan.walls[wall.index()].setback * around.sum::<f64>()
}

/// Area of a plane face with what is cut out of it, in m².
fn area(face: &PlanarFace) -> f64 {
    let moments = face.loops.iter().map(|ring| {
        let Some((apex, rest)) = ring.split_first() else {
            return [0.0; 3];
        };
        rest.windows(2).fold([0.0; 3], |sum, pair| {
            add(sum, cross(sub(pair[0], *apex), sub(pair[1], *apex)))
        })
    });
    let sum = moments.fold([0.0; 3], add);
    dot(scale(sum, 0.5), face.plane.normal)
}
