//! Words and candidates that checks of the carpentry share.

use super::{Candidate, Edit, Evidence, resize};
use crate::carpentry::{self, PartKind, PlacedPart};
use design::{Design, EnclosureKind, Mounting, OnWall, Place, Placement};
use wood::Wall;
use wood::vector::Vector;

/// A length as a maker reads it off a rule: "12 mm", below a centimetre "3.4 mm".
pub(super) fn mm(length: f64) -> String {
    // Halves go up, as everywhere where a length is written.
    let tenths = (1e4 * length + resize::HALF).round();
    let fine = tenths.abs() < 100.0 && tenths.rem_euclid(10.0) != 0.0;
    if fine {
        format!("{:.1} mm", tenths / 10.0).replace('-', "−")
    } else {
        let whole = (1e3 * length).round() + 0.0;
        format!("{whole:.0} mm").replace('-', "−")
    }
}

/// An angle in whole degrees, below ten in tenths.
pub(super) fn degrees(angle: f64) -> String {
    let degrees = angle.to_degrees();
    if degrees.abs() < 9.95 {
        format!("{degrees:.1}°")
    } else {
        format!("{degrees:.0}°")
    }
}

/// A part as a sentence speaks of it.
pub(super) fn the(part: &PlacedPart) -> String {
    match part.kind {
        PartKind::Battery => "the battery".into(),
        PartKind::Board => "the board".into(),
        PartKind::Handle => "the handle".into(),
        PartKind::Grille => "the grille frame".into(),
        _ => part.label.clone(),
    }
}

/// The first letter as a capital.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// What a design says of where the parts of a table stand.
pub(super) fn placement<'a>(design: &'a Design, table: &str) -> Option<&'a Placement> {
    match table.split_once('.') {
        None if table == "battery" => Some(&design.battery.placement),
        None if table == "amplifier" => Some(&design.amplifier.placement),
        Some(("inside", number)) => {
            let index: usize = number.parse().ok()?;
            design
                .inside
                .get(index.checked_sub(1)?)
                .map(|thing| &thing.placement)
        }
        _ => None,
    }
}

/// Where a design says where a part stands; what it is, where its place is not stated.
pub(super) fn place(design: &Design, part: &PlacedPart) -> Place {
    let stated = placement(design, &part.table).and_then(|said| said.at);
    stated.map_or(part.place, |at| Place {
        end: at[2].place.end,
        ..at[0].place
    })
}

/// The axis along which a direction is longest.
pub(super) fn longest(way: Vector) -> usize {
    let longer = |a: &usize, b: &usize| way[*a].abs().total_cmp(&way[*b].abs());
    [0, 1, 2].into_iter().max_by(longer).unwrap_or(0)
}

/// Steps in whole millimetres, so far that something is cleared: never less than asked.
pub(super) fn whole(step: f64) -> f64 {
    // A hair less than a whole millimetre more is that millimetre.
    let millimetres = (1e3 * step.abs() - 1e-3).ceil().max(0.0);
    millimetres.copysign(step) / 1e3
}

/// Words for a move along one axis of the box.
const WAYS: [[&str; 2]; 3] = [
    ["to the right", "to the left"],
    ["backwards", "forwards"],
    ["up", "down"],
];

/// A part whose place is stated, moved by so much in m along x, y and z; nothing where its
/// place is not stated or the move would lead out of the box.
pub(super) fn moved(design: &Design, part: &PlacedPart, by: [f64; 3]) -> Option<Candidate> {
    let at = placement(design, &part.table)?.at?;
    let by = by.map(|step| if step.abs() < 2e-4 { 0.0 } else { whole(step) });
    // The file says width, height, depth; the box has x, y, z.
    let to = [at[0].si + by[0], at[1].si + by[2], at[2].si + by[1]];
    if by == [0.0; 3] || to.iter().any(|length| *length < 0.0) {
        return None;
    }
    let ways: Vec<String> = by
        .iter()
        .zip(WAYS)
        .filter(|(step, _)| **step != 0.0)
        .map(|(step, [up, down])| {
            format!("{} {}", mm(step.abs()), if *step > 0.0 { up } else { down })
        })
        .collect();
    let words = format!("{} {}", the(part), ways.join(", "));
    let text = resize::lengths(&to, at[0].tolerance);
    Some(Candidate::set(words, &format!("{}.at", part.table), text))
}

/// A part whose place is stated, its place left to be found.
pub(super) fn anywhere(design: &Design, part: &PlacedPart) -> Option<Candidate> {
    let placement = placement(design, &part.table)?;
    placement.at?;
    let mut edits = vec![Edit::remove(format!("{}.at", part.table))];
    if placement.turn.is_some() {
        edits.push(Edit::remove(format!("{}.turn", part.table)));
    }
    let words = format!("{}: let its place be found", the(part));
    Some(Candidate::new(words, edits))
}

/// Something whose middle on a wall or a panel is stated.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Middle {
    /// What it is, in words.
    pub(super) name: String,
    /// Keys under which its middle may stand: one of them does.
    pub(super) keys: Vec<String>,
    /// Where it is, in m.
    pub(super) at: [f64; 2],
    /// The tolerance stated with it.
    pub(super) tolerance: design::Tolerance,
    /// Where that is written.
    pub(super) place: Place,
}

impl Middle {
    /// The middle of something on a wall; several of its kind stand in a list, where a single
    /// one may.
    pub(super) fn of(name: &str, table: &str, index: usize, at: &OnWall) -> Self {
        let listed = format!("{table}.at.{}", index + 1);
        let keys = if index == 0 {
            vec![listed, format!("{table}.at")]
        } else {
            vec![listed]
        };
        Self {
            name: name.into(),
            keys,
            at: [at.across.si, at.up.si],
            tolerance: at.across.tolerance,
            place: at.place,
        }
    }

    /// Moved by so much across and up, in m.
    pub(super) fn moved(&self, by: [f64; 2]) -> Vec<Candidate> {
        let by = by.map(|step| if step.abs() < 2e-4 { 0.0 } else { whole(step) });
        let to = [self.at[0] + by[0], self.at[1] + by[1]];
        if by == [0.0; 2] || to.iter().any(|length| *length < 0.0) {
            return Vec::new();
        }
        let said = |at: [f64; 2]| resize::lengths(&at, design::Tolerance::Unstated);
        let words = format!("{} {} → {}", self.name, said(self.at), said(to));
        let text = resize::lengths(&to, self.tolerance);
        let set = |key: &String| Candidate::set(words.clone(), key, text.clone());
        self.keys.iter().map(set).collect()
    }
}

/// Everything whose middle on a wall is stated.
pub(super) fn middles(design: &Design) -> Vec<(Wall, Middle)> {
    let mut found = Vec::new();
    let mut mounted = |name: &str, table: &str, mounting: &Mounting| {
        let wall = carpentry::wall(mounting.on.value);
        for (index, at) in mounting.at.iter().enumerate() {
            found.push((wall, Middle::of(name, table, index, at)));
        }
    };
    for (index, group) in design.drivers.iter().enumerate() {
        let table = format!("drivers.{}", index + 1);
        mounted(&group.part.common.name.text, &table, &group.mounting);
    }
    match &design.enclosure.kind {
        EnclosureKind::Sealed => {}
        EnclosureKind::Vented(vent) => mounted("vent", "box.vent", &vent.mounting),
        EnclosureKind::PassiveRadiator(used) => {
            mounted("passive radiator", "box.radiator", &used.mounting);
        }
    }
    let mut one = |on: design::Wall, name: &str, table: &str, at: &OnWall| {
        let middle = Middle {
            keys: vec![format!("{table}.at")],
            ..Middle::of(name, table, 0, at)
        };
        found.push((carpentry::wall(on), middle));
    };
    if let Some(control) = &design.control {
        one(control.on.value, "control panel", "control", &control.at);
    }
    if let Some((handle, at)) = design
        .handle
        .as_ref()
        .and_then(|h| Some((h, h.at.as_ref()?)))
    {
        one(handle.on.value, "handle", "handle", at);
    }
    found
}

/// Where the size of the box is written.
pub(super) const fn size_place(design: &Design) -> Place {
    match &design.enclosure.size {
        design::EnclosureSize::Outside(size) | design::EnclosureSize::Inside(size) => size.place,
    }
}

/// A list in words: "a, b and c".
pub(super) fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [front @ .., last] => format!("{} and {last}", front.join(", ")),
    }
}

/// Mends that make the box larger along one axis of the box, x, y or z: first by just so much
/// in m, then by more and more.
pub(super) fn larger_along(evidence: &Evidence<'_>, axis: usize, by: f64) -> Vec<Candidate> {
    use resize::Axis;
    let axis = [Axis::Width, Axis::Depth, Axis::Height][axis];
    let rungs = resize::larger(evidence, axis);
    if rungs.is_empty() {
        return rungs;
    }
    let mut lengths = evidence.build.enclosure.outside;
    lengths[axis.index()] += whole(by.max(1e-3));
    let just = resize::outside_to(evidence, &[axis], lengths);
    just.into_iter().chain(rungs).collect()
}

/// How much larger than is missing the box is made, as shares and in m.
const MORE: [(f64, f64); 6] = [
    (1.0, 0.0),
    (1.0, 0.004),
    (1.0, 0.010),
    (1.1, 0.010),
    (1.25, 0.010),
    (1.5, 0.015),
];

/// Mends that make the box larger by what is missing along x, y and z, in m, then by more,
/// within the brief's largest size.
pub(super) fn grown(evidence: &Evidence<'_>, missing: [f64; 3]) -> Vec<Candidate> {
    use resize::Axis;
    let axes = [Axis::Width, Axis::Depth, Axis::Height];
    let wanting: Vec<(Axis, f64)> = axes
        .into_iter()
        .zip(missing)
        .filter(|(_, by)| *by > 1e-4)
        .collect();
    let now = evidence.build.enclosure.outside;
    let largest = evidence.design().brief.largest;
    // A box that is larger than wished already breaks no wish by growing.
    let most = |axis: &Axis| {
        let wished = largest.map(|largest| axis.of(&largest).si);
        let kept = wished.filter(|wished| now[axis.index()] <= *wished);
        kept.unwrap_or(f64::INFINITY)
    };
    let rung = |(share, more): (f64, f64)| {
        let mut lengths = now;
        for (axis, by) in &wanting {
            let grown = now[axis.index()] + whole(by * share + more);
            lengths[axis.index()] = grown.min(most(axis));
        }
        let axes: Vec<Axis> = wanting.iter().map(|(axis, _)| *axis).collect();
        resize::outside_to(evidence, &axes, lengths)
    };
    let out_of_reach = |(axis, by): &(Axis, f64)| now[axis.index()] + by > most(axis) + 1e-6;
    if wanting.is_empty() || wanting.iter().any(out_of_reach) {
        return Vec::new();
    }
    let mut rungs: Vec<Candidate> = MORE.into_iter().filter_map(rung).collect();
    rungs.dedup();
    rungs
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_said_as_read_off_a_rule() {
        for (length, said) in [
            (0.0123, "12 mm"),
            (0.0034, "3.4 mm"),
            (0.004, "4 mm"),
            (-0.0021, "−2.1 mm"),
            (-0.00001, "0 mm"),
            (0.00895, "9 mm"),
        ] {
            assert_eq!(mm(length), said);
        }
        assert_eq!(degrees(0.1), "5.7°");
        assert_eq!(degrees(0.5), "29°");
    }

    #[test]
    fn steps_are_whole_and_never_short() {
        assert_eq!(whole(0.0031), 0.004);
        assert_eq!(whole(-0.0031), -0.004);
        assert_eq!(whole(0.003), 0.003);
    }

    #[test]
    fn lists_read_as_sentences() {
        let words = |list: &[&str]| list.iter().map(|&word| word.into()).collect::<Vec<_>>();
        assert_eq!(listed(&words(&["a"])), "a");
        assert_eq!(listed(&words(&["a", "b", "c"])), "a, b and c");
    }
}
