//! What lies behind the control panel, and before it in the opening of the wall.

use super::knobs_apart::{apart_by, pair, part};
use super::timber::mm;
use super::{Check, Evidence, Verdict};
use crate::carpentry::front;
use crate::vary::Draw;
use design::{Control, ControlUse};

pub(super) const CHECK: Check = Check {
    id: "panel-bodies",
    title: "Bodies behind the control panel",
    what: "Whether the bodies of panel parts clear one another behind the plate, and the ledge the plate \
is screwed on. Where the plate is screwed on from inside: whether nuts and knobs clear the wood \
around the opening.",
    why: "A potentiometer of 16 mm looks small from the front and is as wide as its can behind. A body \
that sits on the ledge, or a nut that sits on the wall, keeps the plate from lying flat.",
    limits: "Bodies as upright blocks about the middle of their hole, nuts, flanges and knobs as \
circles, as large as the shelf says. Behind a plate that is screwed on from inside, bodies over its \
screws are not looked at. Collisions further inside, with drivers or the battery, are told under \
parts-collide.",
    bad: "two switches with bodies of 20 mm and their middles 18 mm apart",
    good: "the same switches 24 mm apart",
    sources: &["common practice, no source"],
    run,
};

/// Room a part that is moved off the wood is given, in m: so much is wanted around what is drawn
/// out by hand (common practice, no source).
const DRAWN_OUT: f64 = 0.002;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(control) = &evidence.design().control else {
        return Vec::new();
    };
    let plan = &evidence.subject.enclosure.plan;
    let thick = plan.sheets.at(&Draw::Nominal);
    let seat = plan.seat(&plan.hull(&Draw::Nominal), &thick);
    let mut verdicts = Vec::new();
    for second in 0..control.parts.len() {
        verdicts.extend(seat.as_ref().and_then(|seat| {
            if seat.in_pocket {
                on_ledge(control, second, seat.ledge)
            } else {
                on_wall(control, second, seat.ledge)
            }
        }));
        for first in 0..second {
            verdicts.extend(verdict(control, first, second));
        }
    }
    let any = control.parts.iter().any(|used| used.part.body.is_some());
    if verdicts.is_empty() && any {
        let cause = if seat.is_some_and(|seat| seat.in_pocket) {
            "Behind the plate every part clears its neighbours and the ledge."
        } else {
            "Behind the plate every part clears its neighbours, and before it the wood around the \
opening."
        };
        verdicts.push(Verdict::good("Bodies behind the panel fit", cause));
    }
    verdicts
}

/// Half the width and height of a body, where it is known.
fn half(used: &ControlUse) -> Option<[f64; 2]> {
    let body = used.part.body.as_ref()?;
    Some([body.width.si / 2.0, body.height.si / 2.0])
}

fn verdict(control: &Control, first: usize, second: usize) -> Option<Verdict> {
    let (one, other) = (&control.parts[first], &control.parts[second]);
    let (a, b) = (half(one)?, half(other)?);
    let free = |axis: usize| {
        let apart = (one.at[axis].si - other.at[axis].si).abs();
        apart - a[axis] - b[axis]
    };
    // Clear in one direction is clear.
    let free = free(0).max(free(1));
    if free > -1e-6 {
        return None;
    }
    let cause = format!(
        "Behind the plate the {} and the {} overlap by {}.",
        one.part.common.name.text,
        other.part.common.name.text,
        mm(-free)
    );
    Some(
        Verdict::stop("Two bodies behind the panel collide", cause)
            .measured(1e3 * free, 0.0, "mm")
            .about(pair(first, second), -1e3 * free)
            .advice("move one of the two, or turn it by a right angle")
            .at(other.at[0].place)
            .mends(apart_by(control, first, second, -free)),
    )
}

/// How far something must move across and up to lie within the ledge, in m.
fn inwards(control: &Control, index: usize, half: [f64; 2], ledge: f64) -> [f64; 2] {
    [0, 1].map(|axis| {
        let (low, high) = (ledge, control.size[axis].si - ledge);
        let at = control.parts[index].at[axis].si;
        let under = (low - (at - half[axis])).max(0.0);
        let over = (at + half[axis] - high).max(0.0);
        under - over
    })
}

/// A nut or knob that lies on the wood around the opening, which the plate lies behind.
fn on_wall(control: &Control, index: usize, ledge: f64) -> Option<Verdict> {
    let used = &control.parts[index];
    let shift = inwards(control, index, [front(&used.part) / 2.0; 2], ledge);
    let by = shift[0].abs().max(shift[1].abs());
    if by < 1e-6 {
        return None;
    }
    let what = match (used.part.knob, used.part.nut) {
        (Some(_), _) => "knob",
        (None, Some(_)) => "nut",
        (None, None) => "front",
    };
    let cause = format!(
        "The {what} of the {} reaches {} over the edge of the opening onto the wood. The plate is \
screwed on from inside and cannot lie against the wall.",
        used.part.common.name.text,
        mm(by)
    );
    let clear = shift.map(|part| match part {
        0.0 => 0.0,
        _ => part + DRAWN_OUT.copysign(part),
    });
    let title = format!("A {what} of the panel sits on the wall");
    Some(
        sits(control, index, Verdict::stop(title, cause), by)
            .mends(part(control, index).moved(clear)),
    )
}

/// What is said alike of parts that sit by so much, in m, on what is around the opening.
fn sits(control: &Control, index: usize, verdict: Verdict, by: f64) -> Verdict {
    let things = ["control".into(), format!("control.part.{}", index + 1)];
    verdict
        .measured(-1e3 * by, 0.0, "mm")
        .about(things, 1e3 * by)
        .advice("move it towards the middle, make the panel larger, or the ledge narrower")
        .at(control.parts[index].at[0].place)
}

/// A body that lies on the ledge, or beyond the plate.
fn on_ledge(control: &Control, index: usize, ledge: f64) -> Option<Verdict> {
    let used = &control.parts[index];
    let shift = inwards(control, index, half(used)?, ledge);
    let by = shift[0].abs().max(shift[1].abs());
    if by < 1e-6 {
        return None;
    }
    let cause = format!(
        "The body of the {} reaches {} onto the ledge of {} around the opening.",
        used.part.common.name.text,
        mm(by),
        mm(ledge)
    );
    let verdict = Verdict::stop("A body behind the panel sits on the ledge", cause);
    Some(sits(control, index, verdict, by).mends(part(control, index).moved(shift)))
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn bodies_keep_off_one_another_and_the_ledge() {
        check(CHECK.id, PANEL, &[Good]);
        let close = [("control.part.2.at", "45 x 35 mm")];
        let found = with(PANEL).with(&close).check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
        let edge = [("control.part.3.at", "131 x 35 mm")];
        let found = with(PANEL).with(&edge).check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("ledge"), "{found:#?}");
        assert!(found[0].mend.is_some(), "{found:#?}");
    }
    #[test]
    fn nuts_keep_off_the_wood_before_a_plate_screwed_on_from_inside() {
        let behind = [("control.recess", "12 mm"), ("control.ledge", "8 mm")];
        // The opening ends at 132 mm, the nut has 8 mm.
        let at = |at| [("control.part.3.at", at)];
        let panel = with(PANEL).with(&behind);
        panel
            .clone()
            .with(&at("127 x 35 mm"))
            .check(CHECK.id, &[Good]);
        let found = panel.with(&at("129 x 35 mm")).check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("The nut"), "{found:#?}");
        assert!(found[0].cause.contains("reaches 1 mm over"), "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "control.part.3.at");
        assert_eq!(mend.edits[0].value.as_deref(), Some("126 x 35 mm"));
    }
}
