//! The carpentry of one design, nominal.

use super::access::{self, Site};
use super::balance::{Scales, balance};
use super::model::Carpentry;
use super::parts::{self, Room};
use super::{control_plan, drilling, gaps, glue, modes, ring};
use crate::subject::Subject;
use crate::vary::Draw;
use std::sync::OnceLock;
use wood::{Part, Scene};

/// Everything the box is as wood.
pub(crate) fn study(subject: &Subject) -> Carpentry {
    let plan = &subject.enclosure.plan;
    let design = &subject.project.design;
    let body = &*subject.body;
    let thick = plan.sheets.at(&Draw::Nominal);
    let hull = plan.hull_of(&Draw::Nominal, &thick);
    let seat = plan.seat(&hull, &thick);
    let parts = parts::all(&Room {
        design,
        plan,
        hull,
        thick,
        body,
        places: &subject.workshop.places,
    });
    let solids: Vec<Part> = parts.iter().map(|part| part.part.clone()).collect();
    // Made ready only where something was not met before.
    let scene = OnceLock::new();
    let ready = || scene.get_or_init(|| Scene::new(body, &solids));
    let mut gaps = gaps::lines(body, &parts, &subject.workshop.gaps, &ready);
    gaps::add_odds(&mut gaps, &parts, plan, subject.causes.list().len());
    let [holes, boards] = plan.sources(&body.plan);
    let origins = |sources: Vec<super::plan::Source>| {
        sources
            .into_iter()
            .map(|source| source.origin(design))
            .collect()
    };
    Carpentry {
        cut_list: subject.cut_list.clone(),
        sheets: subject.sheets.clone(),
        drilling: drilling::schedule(body),
        ring: ring::budget(design, &body.plan),
        glue_up: glue::glue_up(design, body, &hull),
        access: access::lines(&Site {
            design,
            body,
            parts: &parts,
            solids: &solids,
            seat: seat.as_ref(),
            scene: &ready,
            ways: if subject.trial {
                &subject.workshop.tried
            } else {
                &subject.workshop.ways
            },
            trial: subject.trial,
        }),
        gaps,
        modes: modes::modes(design, body, &hull, &plan.sheets),
        balance: balance(&Scales {
            design,
            plan,
            hull: &hull,
            body,
            seat,
            parts: &parts,
            weight: subject.build(&Draw::Nominal).weight,
        }),
        control: design
            .control
            .as_ref()
            .zip(seat.as_ref())
            .map(|(said, seat)| control_plan::plan(said, seat)),
        holes: origins(holes),
        boards: origins(boards),
        body: body.clone(),
        parts,
    }
}
