//! Free places on a wall for what nobody placed beside what was.

use super::super::Candidate;
use super::super::resize::lengths;
use super::walls::{name, table};
use crate::carpentry::{Carpentry, Opening};
use design::Tolerance;
use physics::math::hypot;

/// Grid of places looked at, in m.
const STEP: f64 = 0.002;

/// Places offered at most.
const MOST: usize = 8;

/// An opening that is the only one of its kind, put where its wall is free: what has most room
/// around it first. `face` is the wall's lowest and highest corner, `joint` how wide the walls
/// that meet it are, in m.
pub(super) fn placed(
    carpentry: &Carpentry,
    openings: &[Opening],
    index: usize,
    face: [[f64; 2]; 2],
    joint: f64,
) -> Vec<Candidate> {
    let opening = &openings[index];
    let alike = |other: &&Opening| other.kind == opening.kind;
    if opening.stated || openings.iter().filter(alike).count() != 1 {
        return Vec::new();
    }
    let key = format!("{}.at", table(opening));
    let what = name(carpentry, opening);
    let candidate = |at: [f64; 2]| {
        let text = lengths(&at, Tolerance::Unstated);
        Candidate::set(format!("{what} at {text}"), &key, text)
    };
    let places = places(openings, index, face, joint);
    places.into_iter().map(candidate).collect()
}

/// Middles at which an opening clears the others on its wall and the joints around it, far from
/// one another.
fn places(openings: &[Opening], index: usize, face: [[f64; 2]; 2], joint: f64) -> Vec<[f64; 2]> {
    let opening = &openings[index];
    let radius = opening.diameter / 2.0;
    let margin = radius.max(opening.cutout / 2.0 + joint);
    let others: Vec<&Opening> = openings
        .iter()
        .enumerate()
        .filter(|(other, one)| *other != index && one.wall == opening.wall)
        .map(|(_, one)| one)
        .collect();
    let room = |at: [f64; 2]| {
        let edges = (0..2).map(|axis| {
            let [low, high] = face.map(|corner| corner[axis]);
            (at[axis] - low).min(high - at[axis]) - margin
        });
        let apart = others.iter().map(|other| {
            let way = [at[0] - other.at[0], at[1] - other.at[1]];
            hypot(way[0], way[1]) - radius - other.diameter / 2.0
        });
        edges.chain(apart).fold(f64::INFINITY, f64::min)
    };
    let mut free: Vec<(f64, [f64; 2])> = grid(face)
        .map(|at| (room(at), at))
        .filter(|(room, _)| *room > 0.0)
        .collect();
    free.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut found: Vec<[f64; 2]> = Vec::new();
    for (_, at) in free {
        let apart = |known: &[f64; 2]| hypot(at[0] - known[0], at[1] - known[1]) > radius;
        if found.len() < MOST && found.iter().all(apart) {
            found.push(at);
        }
    }
    found
}

/// Points of a wall in even steps from its left and bottom edge.
fn grid(face: [[f64; 2]; 2]) -> impl Iterator<Item = [f64; 2]> {
    let along = move |axis: usize| {
        let [low, high] = face.map(|corner| corner[axis]);
        let [from, to] = [(low / STEP).ceil() as i64, (high / STEP).floor() as i64];
        (from..=to).map(|step| step as f64 * STEP)
    };
    along(0).flat_map(move |across| along(1).map(move |up| [across, up]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::subject::SpotKind;
    use wood::Wall;

    fn opening(kind: SpotKind, at: [f64; 2], diameter: f64) -> Opening {
        Opening {
            kind,
            index: 0,
            wall: Wall::Front,
            at,
            diameter,
            cutout: diameter,
            stated: kind != SpotKind::Vent,
        }
    }

    #[test]
    fn places_clear_frames_and_joints() {
        let driver = opening(SpotKind::Driver(0), [0.15, 0.1], 0.1);
        let vent = opening(SpotKind::Vent, [0.15, 0.1], 0.05);
        let all = [driver, vent];
        let found = places(&all, 1, [[0.0; 2], [0.3, 0.2]], 0.012);
        assert!(found.len() > 1, "{found:?}");
        for at in found {
            assert!(hypot(at[0] - 0.15, at[1] - 0.1) >= 0.075, "{at:?}");
            let low = at[0].min(0.3 - at[0]).min(at[1]).min(0.2 - at[1]);
            assert!(low >= 0.037 - 1e-9, "{at:?}");
        }
        let full = places(&all, 1, [[0.08, 0.03], [0.22, 0.17]], 0.012);
        assert!(full.is_empty(), "{full:?}");
    }
}
