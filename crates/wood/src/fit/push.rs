//! Straight pushes through an opening.

use super::carry::{FAR, MARGIN, WIDE};
use super::motion::{Mover, shifted};
use super::opening::Aperture;
use super::pose::{after, transposed};
use super::shadow::Shadow;
use crate::vector::{Vector, add, dot, scale, sub};
use crate::{Frame, Outline, Pose};

/// How far inside the wall a push starts and how far outside it ends, in m.
const BEYOND: f64 = 0.002;
/// Angles by which a part is tipped, in degrees.
const TIPS: [f64; 8] = [-15.0, 15.0, -30.0, 30.0, -45.0, 45.0, -60.0, 60.0];
/// Pushes kept of one attitude.
const ALIKE: usize = 3;
/// Two attitudes with the same shadows and lengths are one.
const SAME: f64 = 1e-6;

/// A push through an opening that touches nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Push {
    /// Where it starts, inside.
    pub(crate) inside: Pose,
    /// The way out.
    pub(crate) by: Vector,
    /// Smallest gap on it, up to the wide one.
    gap: f64,
    /// How far the part is turned from its place.
    turned: f64,
}

/// The right-angled attitudes in the frame of an opening.
pub(crate) fn attitudes(aperture: &Aperture) -> Vec<[Vector; 3]> {
    let frame = &aperture.frame;
    let columns = [frame.across, scale(frame.out, -1.0), frame.up];
    let panel = transposed(&columns);
    let turns = Pose::right_angles().into_iter();
    turns.map(|turn| after(&panel, &turn)).collect()
}

/// Pushes square to the wall, the widest first, those that turn the part least first among
/// equals; and the best of what does not pass: by how much it is too large, or how deep it
/// runs into something.
pub(crate) fn pushes(
    mover: &Mover,
    place: &Pose,
    starts: &[Pose],
    aperture: &Aperture,
) -> (Vec<Push>, f64) {
    let mut found = Vec::new();
    let mut short = f64::NEG_INFINITY;
    for turn in distinct(mover, place, aperture) {
        let here = Pose { turn, ..*place };
        let spare = spare(mover, &here, aperture);
        if spare <= 0.0 {
            short = short.max(spare);
            continue;
        }
        let mut insides = entries(mover, &here, aperture);
        insides.extend(starts.iter().filter(|start| start.turn == turn));
        let turned = place.angle_to(&here);
        let push = |inside: &Pose| push(mover, inside, aperture.frame.out, turned, aperture);
        let before = found.len();
        found.extend(insides.iter().filter_map(push));
        if found.is_empty() {
            let depth = |inside: &Pose| -depth(mover, inside, aperture);
            short = insides.iter().take(2).map(depth).fold(short, f64::max);
        }
        // Places in the same attitude differ little: the widest few will do.
        sort(&mut found[before..]);
        found.truncate(before + ALIKE);
    }
    sort(&mut found);
    (found, short)
}

/// The pushes of a part out of the hole it sits in, straight from where it was lifted to.
pub(crate) fn own_pushes(mover: &Mover, starts: &[Pose], aperture: &Aperture) -> (Vec<Push>, f64) {
    let mut found = Vec::new();
    let mut short = f64::NEG_INFINITY;
    for inside in starts {
        match push(mover, inside, aperture.frame.out, 0.0, aperture) {
            Some(push) => found.push(push),
            None => short = short.max(-depth(mover, inside, aperture)),
        }
    }
    sort(&mut found);
    (found, short)
}

/// Pushes of a tipped part along the way it is tipped to.
pub(crate) fn tipped_pushes(mover: &Mover, place: &Pose, aperture: &Aperture) -> Vec<Push> {
    let mut found = Vec::new();
    let frame = &aperture.frame;
    for turn in distinct(mover, place, aperture) {
        let here = Pose { turn, ..*place };
        // Seen along the way it is tipped to, it must still be narrower than the opening.
        if spare(mover, &here, aperture) <= 0.0 {
            continue;
        }
        for axis in [frame.across, frame.up] {
            for degrees in TIPS {
                let tip = Pose::about(axis, degrees.to_radians());
                let tipped = Pose {
                    turn: after(&tip, &turn),
                    ..*place
                };
                let out = tip.map(|row| dot(row, frame.out));
                let inside = entry_along(mover, &tipped, out, aperture);
                let turned = place.angle_to(&inside);
                found.extend(push(mover, &inside, out, turned, aperture));
            }
        }
    }
    sort(&mut found);
    found
}

/// A push along a way out; `None` where it runs into something.
fn push(
    mover: &Mover,
    inside: &Pose,
    out: Vector,
    turned: f64,
    aperture: &Aperture,
) -> Option<Push> {
    let by = way_out(mover, inside, out, aperture);
    let gap = mover.straight(inside, by, WIDE);
    (gap > MARGIN).then_some(Push {
        inside: *inside,
        by,
        gap,
        turned,
    })
}

/// How deep a push square to the wall runs into something.
fn depth(mover: &Mover, inside: &Pose, aperture: &Aperture) -> f64 {
    let by = way_out(mover, inside, aperture.frame.out, aperture);
    mover.depth(inside, by)
}

fn sort(found: &mut [Push]) {
    found.sort_by(|a, b| b.gap.total_cmp(&a.gap).then(a.turned.total_cmp(&b.turned)));
}

/// Attitudes to try: as it stands, then the right-angled ones that look different from all
/// before, those nearest to how it stands first.
fn distinct(mover: &Mover, place: &Pose, aperture: &Aperture) -> Vec<[Vector; 3]> {
    let mut turns = attitudes(aperture);
    let far = |turn: &[Vector; 3]| {
        place.angle_to(&Pose {
            turn: *turn,
            ..*place
        })
    };
    turns.sort_by(|a, b| far(a).total_cmp(&far(b)));
    turns.insert(0, place.turn);
    let mut kept: Vec<([Vector; 3], Vec<f64>)> = Vec::new();
    for turn in turns {
        let looks = mover.looks(&turn, &aperture.frame);
        let same = |other: &Vec<f64>| {
            let pairs = looks.iter().zip(other);
            pairs.fold(0.0, |most: f64, (a, b)| most.max((a - b).abs())) < SAME
        };
        if !kept.iter().any(|(_, other)| same(other)) {
            kept.push((turn, looks));
        }
    }
    kept.into_iter().map(|(turn, _)| turn).collect()
}

/// How much narrower a part is than an opening as it is pushed through.
fn spare(mover: &Mover, pose: &Pose, aperture: &Aperture) -> f64 {
    let solids = mover.placed(pose);
    Shadow::of(&solids, &aperture.frame).spare(&solids, aperture)
}

/// Places just inside the opening: where it slides straight from where it stands, in the
/// middle, and in between.
fn entries(mover: &Mover, pose: &Pose, aperture: &Aperture) -> Vec<Pose> {
    let frame = &aperture.frame;
    let shadow = Shadow::of(&mover.placed(pose), frame);
    let axes = [frame.across, frame.up];
    let centred = [0, 1].map(|i| dot(aperture.middle, axes[i]) - shadow.middle[i]);
    let free = match aperture.outline {
        Outline::Circle { .. } => [0.0; 2],
        Outline::Rectangle { width, height, .. } => [
            0.5 * (width - shadow.size[0]) - WIDE,
            0.5 * (height - shadow.size[1]) - WIDE,
        ],
    };
    let free = free.map(|side: f64| side.max(0.0));
    // From where it stands, only as far as it must.
    let nearest = [0, 1].map(|i| centred[i].signum() * (centred[i].abs() - free[i]).max(0.0));
    let mut slides = vec![nearest, centred];
    for u in [-1.0, 0.0, 1.0] {
        for v in [-1.0, 0.0, 1.0] {
            let slide = [centred[0] + u * free[0], centred[1] + v * free[1]];
            if !slides.contains(&slide) {
                slides.push(slide);
            }
        }
    }
    let place = |slide: [f64; 2]| {
        let by = add(scale(axes[0], slide[0]), scale(axes[1], slide[1]));
        inwards(mover, &shifted(pose, by), frame.out, aperture)
    };
    slides.into_iter().map(place).collect()
}

/// On the line through the middle of the opening, just inside.
fn entry_along(mover: &Mover, pose: &Pose, out: Vector, aperture: &Aperture) -> Pose {
    let solids = mover.placed(pose);
    let mut low = [f64::INFINITY; 3];
    let mut high = [f64::NEG_INFINITY; 3];
    for solid in &solids {
        for i in 0..3 {
            low[i] = low[i].min(solid.low[i]);
            high[i] = high[i].max(solid.high[i]);
        }
    }
    let half_way = scale(aperture.frame.out, -0.5 * aperture.thickness);
    let middle = add(aperture.middle, half_way);
    let by = sub(middle, scale(add(low, high), 0.5));
    inwards(mover, &shifted(pose, by), out, aperture)
}

/// Moved along a way out so that it ends just inside the wall.
fn inwards(mover: &Mover, pose: &Pose, out: Vector, aperture: &Aperture) -> Pose {
    let frame = &aperture.frame;
    let inner = dot(aperture.middle, frame.out) - aperture.thickness - BEYOND;
    let by = (inner - reach(mover, pose, frame.out)) / dot(out, frame.out);
    shifted(pose, scale(out, by))
}

/// The way from a place until nothing is left inside or in the wall.
pub(crate) fn way_out(mover: &Mover, pose: &Pose, out: Vector, aperture: &Aperture) -> Vector {
    let frame: &Frame = &aperture.frame;
    let tail = -reach(mover, pose, scale(frame.out, -1.0));
    let outer = dot(aperture.middle, frame.out) + BEYOND + FAR;
    scale(out, ((outer - tail) / dot(out, frame.out)).max(0.0))
}

fn reach(mover: &Mover, pose: &Pose, along: Vector) -> f64 {
    let solids = mover.placed(pose);
    let each = solids.iter().map(|solid| solid.reach(along));
    each.fold(f64::NEG_INFINITY, f64::max)
}
