//! What comes out again, through which opening, and what does not.

use super::model::{AccessLine, PartKind, PlacedPart, Stage};
use super::parts::openings;
use super::plan::wall;
use crate::memo::Memo;
use core::cell::OnceCell;
use design::Design;
use wood::{Body, Carry, Opening, Part, Plan, Scene};

/// Size of the search for a way through one opening: of a design that is shown, and of a
/// mend that is tried, which at worst is not offered.
const NODES: usize = 200;
const NODES_OF_TRIAL: usize = 40;

/// Angle below which a part is not said to be tipped, in rad.
const STRAIGHT: f64 = 0.03;

/// What is asked: whether a part comes out of a box through some openings.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Question {
    plan: Plan,
    parts: Vec<Part>,
    moving: usize,
    openings: Vec<Opening>,
}

/// The way out of a part, and whether tools reach it through the same opening.
#[derive(Clone, Debug)]
pub(crate) struct Way {
    carry: Carry,
    driver_reaches: bool,
    hand_reaches: bool,
}

/// Ways found so far.
pub(crate) type Ways = Memo<Question, Way>;

/// One line for every part that stands in the box.
pub(super) fn lines(
    design: &Design,
    body: &Body,
    parts: &[PlacedPart],
    ways: &Ways,
    trial: bool,
) -> Vec<AccessLine> {
    let nodes = if trial { NODES_OF_TRIAL } else { NODES };
    let solids: Vec<Part> = parts.iter().map(|part| part.part.clone()).collect();
    // Made ready only where a way has to be looked for.
    let scene = OnceCell::new();
    let closed = openings::closed(design, body, parts);
    let last = openings::whole(wall(design.enclosure.carpentry.last.value), parts);
    let ask = |moving: usize, openings: &[Opening]| {
        let question = Question {
            plan: body.plan.clone(),
            parts: solids.clone(),
            moving,
            openings: openings.to_vec(),
        };
        ways.of(question, |asked| {
            // Most parts come out by pushes and turns, and most of those where a whole wall is
            // off, which stands first; the search is for the others.
            let scene = scene.get_or_init(|| Scene::new(body, &solids));
            let simple = first_way(scene, asked, 0);
            let carry = if simple.through.is_some() {
                simple
            } else {
                first_way(scene, asked, nodes)
            };
            let opening = carry.through.map(|index| &asked.openings[index]);
            let part = asked.moving;
            Way {
                driver_reaches: opening.is_some_and(|way| scene.screwdriver_reaches(part, way)),
                hand_reaches: opening.is_some_and(|way| scene.hand_reaches(part, way)),
                carry,
            }
        })
    };
    let stands = |part: &PlacedPart| {
        matches!(
            part.kind,
            PartKind::Battery | PartKind::Board | PartKind::Other
        )
    };
    (0..parts.len())
        .filter(|index| stands(&parts[*index]))
        .map(|index| {
            let way = ask(index, &closed);
            let out = &way.carry;
            let by_last = || ask(index, core::slice::from_ref(&last));
            let goes_in = if out.through.is_some() {
                Stage::Closed
            } else if by_last().carry.through.is_some() {
                Stage::BeforeLast
            } else {
                Stage::Open
            };
            let through = out.through.map(|opening| &closed[opening]);
            AccessLine {
                part: index,
                through: through.map(|opening| openings::words(opening, body)),
                // A search that found no way measures nothing.
                slack: if out.slack.is_finite() {
                    out.slack
                } else {
                    0.0
                },
                goes_in,
                how: how(out),
                driver_reaches: way.driver_reaches || parts[index].part.shape.screws.is_empty(),
                hand_reaches: way.hand_reaches,
            }
        })
        .collect()
}

/// The way through the first opening that lets a part pass; the best failure otherwise.
fn first_way(scene: &Scene<'_>, asked: &Question, nodes: usize) -> Carry {
    let mut best = scene.carry_out(asked.moving, &[], nodes);
    for (index, opening) in asked.openings.iter().enumerate() {
        let found = scene.carry_out(asked.moving, core::slice::from_ref(opening), nodes);
        if found.through.is_some() {
            return Carry {
                through: Some(index),
                ..found
            };
        }
        if index == 0 || found.slack > best.slack {
            best = found;
        }
    }
    best
}

fn how(out: &Carry) -> String {
    if out.through.is_none() {
        return "not at all".into();
    }
    let degrees = |angle: f64| format!("{:.0}°", angle.to_degrees());
    match (out.turned >= STRAIGHT, out.tipped >= STRAIGHT) {
        (false, false) => "straight".into(),
        (_, true) => format!("tipped {}", degrees(out.tipped)),
        (true, false) => format!("turned {}", degrees(out.turned)),
    }
}
