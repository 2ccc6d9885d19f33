//! The carpentry of one design, nominal.

use super::model::{Balance, Carpentry, GlueUp};
use super::parts::{self, Room};
use crate::subject::Subject;
use crate::vary::Draw;
use wood::Wall;

/// Everything the box is as wood.
pub(crate) fn study(subject: &Subject) -> Carpentry {
    let plan = &subject.enclosure.plan;
    let thick = plan.sheets.at(&Draw::Nominal);
    let hull = plan.hull_of(&Draw::Nominal, &thick);
    let room = Room {
        design: &subject.project.design,
        plan,
        hull,
        thick,
        body: &subject.body,
    };
    let parts = parts::all(&room);
    Carpentry {
        parts,
        body: (*subject.body).clone(),
        cut_list: Vec::new(),
        sheets: Vec::new(),
        drilling: Vec::new(),
        ring: None,
        glue_up: GlueUp {
            steps: Vec::new(),
            area: 0.0,
            glue: 0.0,
            diagonal: 0.0,
            diagonal_within: 0.0,
            open_time: 0.0,
        },
        access: Vec::new(),
        gaps: Vec::new(),
        modes: Vec::new(),
        balance: Balance {
            weight: 0.0,
            centre: [0.0; 3],
            level_handle: None,
            hang: None,
            tipping: (0.0, Wall::Front),
        },
        control: None,
    }
}
