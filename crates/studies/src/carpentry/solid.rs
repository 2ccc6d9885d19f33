//! The solid model of the nominal build.

use super::balance::{Scales, balance};
use super::parts::{self, Places, Room};
use super::plan::PlanSubject;
use crate::vary::Draw;
use design::Design;
use wood::{Body, Fault};

/// Makes it, and puts a handle nobody placed over the centre of mass.
pub(crate) fn solid(
    design: &Design,
    plan: &mut PlanSubject,
    places: &Places,
) -> Result<Body, Vec<Fault>> {
    let body = Body::new(&plan.at(&Draw::Nominal))?;
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
        places,
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
    Body::new(&plan.at(&Draw::Nominal))
}
