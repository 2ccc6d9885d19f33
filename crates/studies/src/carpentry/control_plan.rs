//! The control panel as it is drawn and cut.

use super::control::{body, clearance, front, hole};
use super::model::{ControlHole, ControlPlan};
use super::plan::Seat;
use design::{Control, ControlUse};

pub(super) fn plan(said: &Control, seat: &Seat) -> ControlPlan {
    let screw_hole = clearance(seat.screw).unwrap_or(seat.screw * 1.1);
    let corner = [0, 1].map(|axis| seat.at[axis] - seat.size[axis] / 2.0);
    let screws = seat
        .screws()
        .map(|at| ([at[0] - corner[0], at[1] - corner[1]], screw_hole));
    ControlPlan {
        wall: seat.wall,
        size: seat.size,
        thickness: seat.plate,
        plate: said.plate.common.name.text.clone(),
        holes: said.parts.iter().map(part).collect(),
        screws: screws.into(),
        recess: seat.below,
    }
}

fn part(used: &ControlUse) -> ControlHole {
    let (outline, because) = hole(&used.part);
    let [width, height, _] = body(&used.part);
    ControlHole {
        name: used.part.common.name.text.clone(),
        at: used.at.map(|value| value.si),
        outline,
        because,
        front: front(&used.part),
        label: used.label.as_ref().map(|label| label.text.clone()),
        scale: used
            .scale
            .as_ref()
            .map(|scale| (scale.from, scale.to, scale.between)),
        body: [width, height],
    }
}
