//! Whether a screwdriver and a hand reach a part through an opening.

use super::carry::FAR;
use super::closest::{TOUCHING, distance_up_to};
use super::connect::{room, spots};
use super::convex::Convex;
use super::obstacles::Obstacles;
use super::opening::{Aperture, Opening};
use super::overlap::across;
use super::scene::Scene;
use crate::math::{cos, sin};
use crate::polytope::Polytope;
use crate::vector::{Vector, add, cross, dot, length, scale, sub, unit};
use crate::{Body, Outline, Panel, Part, Pose, Screw};

/// Lengths of screwdriver shafts in m (common practice, no source).
const SHAFTS: [f64; 2] = [0.15, 0.25];
/// Radius of a shaft in m (common practice, no source).
const SHAFT_RADIUS: f64 = 0.003;
/// Length and radius of a handle in m (common practice, no source).
const HANDLE: [f64; 2] = [0.10, 0.015];
/// How far the tip is drawn back from the head to be seen as free, in m.
const TIP: f64 = 0.001;
/// Angles at which a screwdriver still turns a screw, in degrees (common practice, no source).
const SLANTS: [f64; 3] = [5.0, 10.0, 15.0];
/// Directions around the axis of a screw.
const AROUND: usize = 12;

/// Cosine of an angle between a screw and a panel's axis that counts as none.
const STRAIGHT: f64 = 0.999;
/// How far off a face a part may stand and still stand on it, in m.
const ON: f64 = 0.0005;

/// Breadth and thickness of a hand and a forearm in m (from memory).
const HAND: [f64; 2] = [0.085, 0.045];
/// Length and radius of stretched fingers in m (from memory).
const FINGERS: [f64; 2] = [0.07, 0.011];
/// How far a hand reaches behind an opening in m, about as far as an elbow (from memory).
const REACH: f64 = 0.6;
/// How far the arm must be free before the wall, in m.
const BEFORE: f64 = 0.10;
/// Ways a hand is rolled about its reach, over half a turn.
const ROLLS: usize = 8;

impl Scene<'_> {
    /// Whether a straight screwdriver stands on every screw of a part, at most 15° off its
    /// axis, touching nothing, with the middle of its handle out of the room; so it does where
    /// the panel that the part is screwed to is off, and the part with it.
    #[must_use]
    pub fn screwdriver_reaches(&self, part: usize, opening: &Opening) -> bool {
        let this = &self.parts[part];
        if self.comes_along(this, opening) {
            return true;
        }
        let obstacles = self.obstacles(None, opening, None);
        this.shape.screws.iter().all(|screw| {
            let screw = Screw {
                head: this.pose.point(screw.head),
                along: this.pose.direction(screw.along),
            };
            self.stands_on(&screw, &obstacles)
        })
    }

    /// Whether a part is screwed to a panel that is off.
    fn comes_along(&self, part: &Part, opening: &Opening) -> bool {
        let off = self.body.panel(opening.panel);
        opening.hole.is_none() && off.is_some_and(|panel| part.is_screwed_to(panel))
    }

    fn stands_on(&self, screw: &Screw, obstacles: &Obstacles<'_>) -> bool {
        let back = scale(screw.along, -1.0);
        slanted(back).into_iter().any(|along| {
            SHAFTS.iter().any(|shaft| {
                let at = |far: f64| add(screw.head, scale(along, far));
                let ends = [at(TIP), at(*shaft), at(shaft + HANDLE[0])];
                let middle = at(shaft + 0.5 * HANDLE[0]);
                let tool = [
                    Convex::round([ends[0], ends[1]], [SHAFT_RADIUS; 2]),
                    Convex::round([ends[1], ends[2]], [HANDLE[1]; 2]),
                ];
                outside(&self.body.room, middle) && free(&tool, obstacles)
            })
        })
    }

    /// Whether a hand reaches a part through an opening: straight, or bent once by no more
    /// than a right angle.
    #[must_use]
    pub fn hand_reaches(&self, part: usize, opening: &Opening) -> bool {
        let Some(aperture) = opening.aperture(self.body) else {
            return false;
        };
        if self.comes_along(&self.parts[part], opening) {
            return true;
        }
        let obstacles = self.obstacles(Some(part), opening, None);
        let bounds = self.parts[part].shape.bounds(&self.parts[part].pose);
        let entries = entries(&aperture);
        let straight = |entry: &Vector| {
            let target = nearest(&bounds, *entry);
            let before = before(&aperture, *entry, target);
            length(sub(target, *entry)) <= REACH && grasps(before, target, &obstacles)
        };
        let bent = |wrist: Vector| {
            let target = nearest(&bounds, wrist);
            let hand = sub(target, wrist);
            let arm = |entry: &Vector| {
                let arm = sub(wrist, *entry);
                length(arm) + length(hand) <= REACH
                    && dot(arm, hand) >= 0.0
                    && limb(before(&aperture, *entry, wrist), wrist, &obstacles)
            };
            grasps(wrist, target, &obstacles) && entries.iter().any(arm)
        };
        entries.iter().any(straight) || wrists(self.body).into_iter().any(bent)
    }
}

impl Part {
    /// Whether its screws go into the inner face of a panel, on which it stands.
    #[must_use]
    pub fn is_screwed_to(&self, panel: &Panel) -> bool {
        let out = panel.frame.out;
        let inner = dot(panel.frame.origin, out) - panel.thickness;
        let into = |screw: &Screw| dot(self.pose.direction(screw.along), out) > STRAIGHT;
        let solids = self.shape.solids.iter();
        let reach = solids.map(|solid| Convex::placed(solid, &self.pose).reach(out));
        let reach = reach.fold(f64::NEG_INFINITY, f64::max);
        !self.shape.screws.is_empty()
            && self.shape.screws.iter().all(into)
            && (reach - inner).abs() < ON
    }
}

/// The axis, and slanted against it all around.
fn slanted(axis: Vector) -> Vec<Vector> {
    let (first, second) = across(axis);
    let full = 2.0 * core::f64::consts::PI;
    let mut directions = vec![axis];
    for slant in SLANTS.map(f64::to_radians) {
        for i in 0..AROUND {
            let angle = full * i as f64 / AROUND as f64;
            let off = add(scale(first, cos(angle)), scale(second, sin(angle)));
            directions.push(add(scale(axis, cos(slant)), scale(off, sin(slant))));
        }
    }
    directions
}

/// Places all over the room where a wrist may bend.
fn wrists(body: &Body) -> Vec<Vector> {
    spots(&room(body), &[0.5, 0.3, 0.7, 0.12, 0.88])
}

/// Points of an opening at which the middle of a hand may pass.
fn entries(aperture: &Aperture) -> Vec<Vector> {
    let half = match aperture.outline {
        Outline::Circle { diameter } => [0.5 * diameter * 0.5_f64.sqrt(); 2],
        Outline::Rectangle { width, height, .. } => [0.5 * width, 0.5 * height],
    };
    let slack = half.map(|side: f64| (side - 0.5 * HAND[1]).max(0.0));
    let frame = &aperture.frame;
    let mut entries = vec![aperture.middle];
    for u in [0.0, -1.0, 1.0] {
        for v in [0.0, -1.0, 1.0] {
            let off = add(
                scale(frame.across, u * slack[0]),
                scale(frame.up, v * slack[1]),
            );
            entries.push(add(aperture.middle, off));
        }
    }
    entries.dedup();
    entries
}

/// Where an arm that enters towards a point comes from, outside.
fn before(aperture: &Aperture, entry: Vector, toward: Vector) -> Vector {
    let along = unit(sub(toward, entry));
    let steep = -dot(along, aperture.frame.out);
    sub(entry, scale(along, BEFORE / steep.max(0.5)))
}

/// Whether a hand whose wrist is at one point touches another with its fingers.
fn grasps(wrist: Vector, target: Vector, obstacles: &Obstacles<'_>) -> bool {
    let way = sub(target, wrist);
    let along = unit(way);
    let knuckles = sub(target, scale(along, FINGERS[0].min(length(way))));
    let tip = sub(target, scale(along, TIP));
    let fingers = Convex::round([knuckles, tip], [FINGERS[1]; 2]);
    limb(wrist, knuckles, obstacles) && free(&[fingers], obstacles)
}

/// Whether a hand or an arm has room between two points, rolled in one way or another.
fn limb(from: Vector, to: Vector, obstacles: &Obstacles<'_>) -> bool {
    let way = sub(to, from);
    if length(way) <= FAR {
        return true;
    }
    let along = unit(way);
    let (side, _) = across(along);
    (0..ROLLS).any(|i| {
        let angle = core::f64::consts::PI * i as f64 / ROLLS as f64;
        let side = Pose::about(along, angle).map(|row| dot(row, side));
        let sides = [
            scale(side, 0.5 * HAND[0]),
            scale(cross(along, side), 0.5 * HAND[1]),
        ];
        let corner =
            |end: Vector, u: f64, v: f64| add(end, add(scale(sides[0], u), scale(sides[1], v)));
        let corners = [from, to].into_iter().flat_map(|end| {
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(u, v)| corner(end, u, v))
        });
        free(&[Convex::hull(corners.collect())], obstacles)
    })
}

fn free(solids: &[Convex], obstacles: &Obstacles<'_>) -> bool {
    let hits = |solid: &Convex| {
        obstacles.any(solid, TOUCHING, |obstacle| {
            distance_up_to(solid, obstacle, TOUCHING) <= 0.0
        })
    };
    !solids.iter().any(hits)
}

fn outside(room: &Polytope, point: Vector) -> bool {
    room.faces
        .iter()
        .any(|face| face.plane.distance(point) > 0.0)
}

fn nearest(bounds: &(Vector, Vector), point: Vector) -> Vector {
    [0, 1, 2].map(|i| point[i].clamp(bounds.0[i], bounds.1[i]))
}
