//! The solid model of the nominal build.

use super::balance::{Scales, balance};
use super::parts::{self, Room};
use super::plan::PlanSubject;
use super::workshop::Workshop;
use crate::memo::Memo;
use crate::vary::Draw;
use design::Design;
use std::sync::Arc;
use wood::{Body, Fault, Plan};

/// Solid models made so far, or why there is none.
pub(crate) type Bodies = Memo<Plan, Result<Arc<Body>, Vec<Fault>>>;

/// Makes it, and puts a handle nobody placed over the centre of mass.
pub(crate) fn solid(
    design: &Design,
    plan: &mut PlanSubject,
    workshop: &Workshop,
) -> Result<Arc<Body>, Vec<Fault>> {
    let made = |plan: &PlanSubject| {
        let plan = plan.at(&Draw::Nominal);
        let body = workshop
            .bodies
            .of(plan, |plan| Body::new(plan).map(Arc::new));
        Result::clone(&body)
    };
    let body = made(plan)?;
    if design
        .handle
        .as_ref()
        .is_none_or(|handle| handle.at.is_some())
    {
        return Ok(body);
    }
    let thick = plan.sheets.at(&Draw::Nominal);
    let hull = plan.hull_of(&Draw::Nominal, &thick);
    let seat = plan.seat(&hull, &thick);
    let room = Room {
        design,
        plan,
        hull,
        thick,
        body: &body,
        places: &workshop.places,
    };
    let parts = parts::all(&room);
    let level = balance(&Scales {
        design,
        plan,
        hull: &hull,
        body: &body,
        seat,
        parts: &parts,
        // What has no place of its own lies in the middle and moves nothing to speak of.
        weight: 0.0,
    })
    .level_handle;
    if let Some(at) = level {
        plan.place_handle(at);
    }
    made(plan)
}
