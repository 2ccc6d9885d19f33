//! Knobs and fingers.

use super::timber::{Middle, mm};
use super::{Candidate, Check, Evidence, Verdict};
use design::{Control, ControlUse};
use physics::math::hypot;

pub(super) const CHECK: Check = Check {
    id: "knobs-apart",
    title: "Room for fingers between knobs",
    what: "Whether knobs leave room for fingers between one another and what stands beside them, and \
whether nuts and flanges overlap.",
    why: "Drilled by eye, two knobs fit the panel and no fingers fit the knobs.",
    limits: "A caution where less than 15 mm are free between a knob and its neighbour, a stop where two \
overlap. Knobs, nuts and flanges as circles as large as the shelf says.",
    bad: "two knobs of 20 mm with their middles 28 mm apart",
    good: "the same knobs 36 mm apart",
    sources: &["common practice, no source"],
    run,
};

/// Free width beside a knob, in m: common practice, no source.
const FINGERS: f64 = 0.015;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(control) = &evidence.design().control else {
        return Vec::new();
    };
    let parts = &control.parts;
    let mut verdicts = Vec::new();
    for second in 1..parts.len() {
        for first in 0..second {
            verdicts.extend(verdict(control, first, second));
        }
    }
    if verdicts.is_empty() && parts.len() > 1 {
        let cause = "Every knob has 15 mm free beside it, and nothing overlaps.";
        verdicts.push(Verdict::good("Knobs leave room for fingers", cause));
    }
    verdicts
}

fn middle(used: &ControlUse) -> [f64; 2] {
    used.at.map(|value| value.si)
}

fn radius(used: &ControlUse) -> f64 {
    crate::carpentry::front(&used.part) / 2.0
}

fn verdict(control: &Control, first: usize, second: usize) -> Option<Verdict> {
    let (one, other) = (&control.parts[first], &control.parts[second]);
    let knobs = one.part.knob.is_some() || other.part.knob.is_some();
    let wanted = if knobs { FINGERS } else { 0.0 };
    let (a, b) = (middle(one), middle(other));
    let apart = hypot(b[0] - a[0], b[1] - a[1]);
    let free = apart - radius(one) - radius(other);
    if free >= wanted - 1e-6 {
        return None;
    }
    let names = [one, other].map(|used| used.part.common.name.text.as_str());
    let title = if free < 0.0 {
        "Two parts of the panel overlap"
    } else {
        "No room for fingers between two parts"
    };
    let cause = if free < 0.0 {
        format!(
            "In front of the panel the {} and the {} overlap by {}.",
            names[0],
            names[1],
            mm(-free)
        )
    } else {
        format!(
            "Between the {} and the {} there are {} free; fingers want {}.",
            names[0],
            names[1],
            mm(free),
            mm(wanted)
        )
    };
    let said = if free < 0.0 {
        Verdict::stop(title, cause)
    } else {
        Verdict::caution(title, cause)
    };
    let moves = apart_by(control, first, second, wanted - free);
    Some(
        said.measured(1e3 * free, 1e3 * wanted, "mm")
            .about(pair(first, second), 1e3 * (wanted - free))
            .advice("move one of the two, or take a smaller knob")
            .at(other.at[0].place)
            .mends(moves),
    )
}

/// The keys of two parts of the panel.
pub(super) fn pair(first: usize, second: usize) -> [String; 2] {
    [first, second].map(|index| format!("control.part.{}", index + 1))
}

/// Either of two parts moved off from the other by so much, straight across or up where they
/// stand side by side.
pub(super) fn apart_by(control: &Control, first: usize, second: usize, by: f64) -> Vec<Candidate> {
    let (a, b) = (
        middle(&control.parts[first]),
        middle(&control.parts[second]),
    );
    let way = [b[0] - a[0], b[1] - a[1]];
    let along = usize::from(way[1].abs() > way[0].abs());
    let mut shift = [0.0; 2];
    // A little too far where they stand askew: one straight move is easier to mark.
    shift[along] = by.copysign(way[along]);
    let ends = [(second, shift), (first, shift.map(|part| -part))];
    ends.into_iter()
        .flat_map(|(index, by)| part(control, index).moved(by))
        .collect()
}

/// A part of the panel by its middle.
pub(super) fn part(control: &Control, index: usize) -> Middle {
    let used = &control.parts[index];
    Middle {
        name: used.part.common.name.text.clone(),
        keys: vec![format!("control.part.{}.at", index + 1)],
        at: middle(used),
        tolerance: used.at[0].tolerance,
        place: used.at[0].place,
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn fingers_want_room_beside_a_knob() {
        check(CHECK.id, PANEL, &[Good]);
        let close = [("control.part.2.at", "62 x 35 mm")];
        let found = with(PANEL).with(&close).check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "control.part.2.at");
        let over = [("control.part.2.at", "45 x 35 mm")];
        // Their bodies collide as well, and that is told first.
        let found = with(PANEL).with(&over).findings("panel-bodies");
        let brought = &found[0].brings[0];
        assert_eq!((brought.id, brought.severity), (CHECK.id, Stop));
    }
}
