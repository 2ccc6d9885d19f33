//! The control panel.

use super::Form;
use serde::Serialize;
use studies::carpentry::{ControlHole, ControlPlan};

/// Lengths in m.
#[derive(Serialize)]
pub(super) struct Control<'a> {
    wall: &'static str,
    size: [f64; 2],
    thickness: f64,
    plate: &'a str,
    recess: f64,
    holes: Vec<Hole<'a>>,
    screws: Vec<Screw>,
}

#[derive(Serialize)]
struct Hole<'a> {
    name: &'a str,
    at: [f64; 2],
    #[serde(flatten)]
    form: Form,
    because: &'a str,
    front: f64,
    label: Option<&'a str>,
    scale: Option<Scale>,
    body: [f64; 2],
}

#[derive(Serialize)]
struct Scale {
    from: i32,
    to: i32,
    between: u32,
}

#[derive(Serialize)]
struct Screw {
    at: [f64; 2],
    diameter: f64,
}

impl<'a> Control<'a> {
    pub(super) fn new(plan: &'a ControlPlan) -> Self {
        let screw = |(at, diameter): &([f64; 2], f64)| Screw {
            at: *at,
            diameter: *diameter,
        };
        Self {
            wall: plan.wall.name(),
            size: plan.size,
            thickness: plan.thickness,
            plate: &plan.plate,
            recess: plan.recess,
            holes: plan.holes.iter().map(Hole::new).collect(),
            screws: plan.screws.iter().map(screw).collect(),
        }
    }
}

impl<'a> Hole<'a> {
    fn new(hole: &'a ControlHole) -> Self {
        Self {
            name: &hole.name,
            at: hole.at,
            form: hole.outline.into(),
            because: &hole.because,
            front: hole.front,
            label: hole.label.as_deref(),
            scale: hole
                .scale
                .map(|(from, to, between)| Scale { from, to, between }),
            body: hole.body,
        }
    }
}
