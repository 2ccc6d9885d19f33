//! Gaps between parts and to the wood, and the odds that they close under the tolerances.

use super::model::{GapLine, Near, PartKind, PlacedPart};
use super::plan::{Hull, PlanSubject};
use crate::memo::Memo;
use crate::vary::{Draw, draw, spreads};
use crate::words;
use wood::vector::{Vector, dot, scale, sub};
use wood::{Body, Gap, Other, PanelId, Part, Plan, Scene, Wall};

/// Gaps wider than this are of no interest, in m.
const NEAR: f64 = 0.03;

/// What is nearer, or overlaps by less, touches, in m.
const TOUCHING: f64 = 1e-6;

/// Builds drawn for the odds of one gap.
const BUILDS: u32 = 200;

/// Gap wanted between things that are put in by hand, in m: common practice, no source.
pub(super) const WANTED: f64 = 0.003;

/// Gap wanted between the amplifier board and the battery, in m: common practice, no source;
/// warmth ages cells.
const APART: f64 = 0.020;

/// Gaps of boxes met so far, by plan and parts.
pub(crate) type Gaps = Memo<(Plan, Vec<Part>), Vec<Gap>>;

/// Every gap that is small: what lacks most of the gap it wants first.
pub(super) fn lines<'a>(
    body: &Body,
    parts: &[PlacedPart],
    known: &Gaps,
    scene: &dyn Fn() -> &'a Scene<'a>,
) -> Vec<GapLine> {
    let solids = parts.iter().map(|part| part.part.clone()).collect();
    let found = known.of((body.plan.clone(), solids), |_| scene().gaps());
    let mut lines: Vec<GapLine> = found
        .iter()
        .filter(|gap| gap.gap < NEAR && of_interest(gap, parts))
        .map(|gap| line(gap, body, parts))
        .collect();
    lines.sort_by(|a, b| (a.gap - a.wanted).total_cmp(&(b.gap - b.wanted)));
    lines
}

/// What is outside the box by its nature does not meet what is inside.
const fn is_outside(kind: PartKind) -> bool {
    matches!(kind, PartKind::Foot | PartKind::Grille)
}

/// Parts that sit in the wood reach through it.
fn of_interest(gap: &Gap, parts: &[PlacedPart]) -> bool {
    let part = &parts[gap.a];
    if is_outside(part.kind) {
        return false;
    }
    match gap.b {
        Other::Part(other) => !is_outside(parts[other].kind),
        Other::Panel(PanelId::Wall(wall)) => part.part.sits_in != Some(wall),
        Other::Panel(PanelId::Board(_)) => true,
        Other::Outside(wall) => part.part.sits_in != Some(wall),
    }
}

fn line(gap: &Gap, body: &Body, parts: &[PlacedPart]) -> GapLine {
    let own = &parts[gap.a];
    let (near, other) = match gap.b {
        Other::Part(index) => (Near::Part(index), parts[index].label.clone()),
        Other::Panel(id) => {
            let name = body
                .panel(id)
                .map_or_else(String::new, |panel| panel.name.clone());
            (Near::Panel(id), name)
        }
        Other::Outside(wall) => (
            Near::Outside(wall),
            format!("the outside {}", words::at_wall(wall)),
        ),
    };
    let other_part = match gap.b {
        Other::Part(index) => Some(&parts[index]),
        Other::Panel(_) | Other::Outside(_) => None,
    };
    GapLine {
        part: gap.a,
        near,
        other,
        gap: if gap.gap.abs() < TOUCHING {
            0.0
        } else {
            gap.gap
        },
        wanted: wanted(own, other_part, gap.air),
        away: gap.away,
        air: gap.air,
        odds: if gap.gap < -TOUCHING { 1.0 } else { 0.0 },
    }
}

/// The gap wanted between a part and another, or the wood.
fn wanted(part: &PlacedPart, other: Option<&PlacedPart>, air: bool) -> f64 {
    let sits_in = part.part.sits_in;
    let one_wall = sits_in.is_some() && other.is_some_and(|other| other.part.sits_in == sits_in);
    let other = other.map(|other| other.kind);
    let pair = |a: PartKind, b: PartKind| {
        (part.kind == a && other == Some(b)) || (part.kind == b && other == Some(a))
    };
    let framed = |kind: PartKind| matches!(kind, PartKind::Driver | PartKind::Radiator);
    let bolted = |other: PartKind| {
        framed(part.kind) && framed(other)
            || part.kind == PartKind::Control && other == PartKind::Control
    };
    if air || one_wall && other.is_some_and(bolted) {
        // The air that is kept free is itself the clearance; and what is bolted down side by
        // side neither moves nor is gripped where it is near the other.
        0.0
    } else if pair(PartKind::Battery, PartKind::Board) {
        APART
    } else if pair(PartKind::Battery, PartKind::Battery) {
        0.0
    } else if other.is_none() && part.part.sits_in.is_none() {
        // What stands in the box stands on wood.
        0.0
    } else {
        WANTED
    }
}

/// Numbers drawn for each part: its place along three axes, and its three sides.
const DRAWN: usize = 6;

/// How far a gap may close for odds to be worth working out: lengths, thickness and places
/// of both, all against it.
const MOST_MOVED: f64 = 0.008;

/// Works out the share of drawn builds in which each small gap is gone.
///
/// A gap is taken to change by what both sides move along it, which is exact for flat
/// faces and small moves.
pub(super) fn add_odds(
    lines: &mut [GapLine],
    parts: &[PlacedPart],
    plan: &PlanSubject,
    causes: usize,
) {
    let close: Vec<usize> = (0..lines.len())
        .filter(|index| {
            let line = &lines[*index];
            line.gap > -MOST_MOVED && line.gap < line.wanted + MOST_MOVED && !rests(line, parts)
        })
        .collect();
    if close.is_empty() {
        return;
    }
    let nominal = plan.hull(&Draw::Nominal);
    let mut hits = vec![0_u32; lines.len()];
    for build in 0..BUILDS {
        // The same builds as those behind every other odds, and more numbers for each part.
        let drawn = draw(build, causes + DRAWN * parts.len());
        let hull = plan.hull(&drawn);
        let either_way = |part: usize, which: usize| match &drawn {
            Draw::Point(point) => 2.0 * point[causes + DRAWN * part + which] - 1.0,
            Draw::Nominal => 0.0,
        };
        let moved =
            |part: usize| moved(&parts[part], &nominal, &hull, |axis| either_way(part, axis));
        let grown = |part: usize, away: Vector| {
            grown(&parts[part], away, |side| either_way(part, 3 + side))
        };
        for &index in &close {
            let line = &lines[index];
            let own = moved(line.part);
            let (other, mut grown_by) = match line.near {
                Near::Part(other) => (moved(other), grown(other, line.away)),
                Near::Panel(PanelId::Wall(wall)) | Near::Outside(wall) => {
                    (face_moved(wall, &nominal, &hull), 0.0)
                }
                Near::Panel(PanelId::Board(_)) => ([0.0; 3], 0.0),
            };
            grown_by += grown(line.part, scale(line.away, -1.0));
            if line.gap + dot(line.away, sub(own, other)) - grown_by < 0.0 {
                hits[index] += 1;
            }
        }
    }
    for index in close {
        lines[index].odds = f64::from(hits[index]) / f64::from(BUILDS);
    }
}

/// Whether a part stands on wood by intent: pushing it against that is no collision.
fn rests(line: &GapLine, parts: &[PlacedPart]) -> bool {
    let loose = parts[line.part].part.sits_in.is_none();
    loose && matches!(line.near, Near::Panel(_) | Near::Outside(_)) && line.gap.abs() < TOUCHING
}

/// By how much the inner face of a wall lies elsewhere in a drawn build.
fn face_moved(wall: Wall, nominal: &Hull, drawn: &Hull) -> Vector {
    let at = |hull: &Hull| {
        let frame = hull.block.frame(wall);
        frame.point([0.0; 2], -hull.behind(wall))
    };
    let out = nominal.block.frame(wall).out;
    let far = dot(sub(at(drawn), at(nominal)), out);
    scale(out, far)
}

/// By how much further a part reaches along a direction in a drawn build: its sides differ
/// within what is stated, and grow to the right, backwards and upwards.
fn grown(part: &PlacedPart, along: Vector, either_way: impl Fn(usize) -> f64) -> f64 {
    let longer = [0, 1, 2].map(|side| part.size_within[side] * either_way(side));
    let axes = (0..3).map(|axis| {
        let turn = part.part.pose.turn[axis].map(f64::abs);
        along[axis].max(0.0) * dot(turn, longer)
    });
    axes.sum()
}

/// By how much a part stands elsewhere in a drawn build.
fn moved(part: &PlacedPart, nominal: &Hull, drawn: &Hull, place: impl Fn(usize) -> f64) -> Vector {
    let pose = &part.part.pose;
    let Some(wall) = part.part.sits_in else {
        let (from, to) = (nominal.inside().0, drawn.inside().0);
        let placed = spreads::PLACED.spread;
        return [0, 1, 2].map(|axis| to[axis] - from[axis] + placed * place(axis));
    };
    let frame = nominal.face(wall);
    let at = frame.flat(pose.at);
    let out = frame.height(pose.at);
    let cut = spreads::CUT_POSITION.spread;
    let there = [at[0] + cut * place(0), at[1] + cut * place(1)];
    sub(drawn.face(wall).point(there, out), pose.at)
}
