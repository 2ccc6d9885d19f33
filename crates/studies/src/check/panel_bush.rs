//! Bushes of panel parts against the plate they go through.

use super::timber::{capital, mm};
use super::{Candidate, Check, Evidence, Verdict};
use design::{Control, ControlUse, SheetPart};

pub(super) const CHECK: Check = Check {
    id: "panel-bush",
    title: "Bushes against the panel",
    what: "Whether the threaded bush of every part of the control panel reaches through the plate far \
enough for its nut.",
    why: "Potentiometers and switches are made for sheet metal of 1 to 3 mm. Through plywood their \
nut finds no thread.",
    limits: "A stop where the thread does not come through, a caution where the nut does not find its \
full height. Where a nut's height is not on the shelf, 2.5 mm with its washer. Parts without a \
bush are not looked at.",
    bad: "a bush of 6 mm in plywood of 6 mm",
    good: "the same part in a plate of 2 mm, or the plywood thinned from behind to 3 mm",
    sources: &["common practice, no source"],
    run,
};

/// Nut and washer where the shelf does not say, in m: common practice, no source.
const NUT: f64 = 0.0025;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(control) = &evidence.design().control else {
        return Vec::new();
    };
    let plate = control.plate.thickness.si;
    let wants = |used: &ControlUse| {
        let bush = used.part.bush?.si;
        let nut = used.part.nut_height.map_or(NUT, |height| height.si);
        Some((bush, nut))
    };
    let short: Vec<Short<'_>> = control
        .parts
        .iter()
        .enumerate()
        .filter_map(|(index, used)| {
            let (bush, nut) = wants(used)?;
            short(used, index, bush, nut, plate)
        })
        .collect();
    let any = control.parts.iter().any(|used| wants(used).is_some());
    if short.is_empty() && any {
        let cause = format!(
            "Every bush comes through the plate of {} with its nut.",
            mm(plate)
        );
        return vec![Verdict::good("Bushes are long enough", cause)];
    }
    let (stops, cautions): (Vec<&Short<'_>>, Vec<&Short<'_>>) =
        short.iter().partition(|one| one.bush <= plate);
    [stops, cautions]
        .iter()
        .filter_map(|short| verdict(evidence, control, short))
        .collect()
}

/// A bush that is too short.
struct Short<'a> {
    used: &'a ControlUse,
    index: usize,
    bush: f64,
    nut: f64,
}

fn short(used: &ControlUse, index: usize, bush: f64, nut: f64, plate: f64) -> Option<Short<'_>> {
    (bush < plate + nut - 1e-6).then_some(Short {
        used,
        index,
        bush,
        nut,
    })
}

/// Bushes that do not come through, or those whose nuts find too little thread.
fn verdict(evidence: &Evidence<'_>, control: &Control, short: &[&Short<'_>]) -> Option<Verdict> {
    let plate = control.plate.thickness.si;
    let worst = short
        .iter()
        .min_by(|a, b| (a.bush - a.nut).total_cmp(&(b.bush - b.nut)))?;
    let clauses = short.iter().map(|one| {
        let name = &one.used.part.common.name.text;
        format!(
            "{name} has a bush of {} and wants {} for nut and washer",
            mm(one.bush),
            mm(one.nut)
        )
    });
    let clauses: Vec<String> = clauses.collect();
    let cause = format!(
        "The plate is {} thick. {}.",
        mm(plate),
        capital(&clauses.join("; "))
    );
    let said = match (worst.bush <= plate, short.len()) {
        (true, 1) => Verdict::stop("A bush does not come through the panel", cause),
        (true, _) => Verdict::stop("Bushes do not come through the panel", cause),
        (false, 1) => Verdict::caution("A nut finds too little thread", cause),
        (false, _) => Verdict::caution("Nuts find too little thread", cause),
    };
    let said = short.iter().fold(said, |said, one| {
        let lacks = plate + one.nut - one.bush;
        said.about([format!("control.part.{}", one.index + 1)], 1e3 * lacks)
    });
    Some(
        said.measured(1e3 * worst.bush, 1e3 * (plate + worst.nut), "mm")
            .advice("thin the panel around the hole from behind, or take a thinner plate")
            .at(worst.used.place)
            .mends(thinner(evidence, control, worst.bush - worst.nut)),
    )
}

/// Other plates thin enough, the thickest first: it is the stiffest.
fn thinner(evidence: &Evidence<'_>, control: &Control, most: f64) -> Vec<Candidate> {
    plates(evidence, control, |sheet| sheet.thickness.si <= most + 1e-6)
}

/// Plates tried at most.
const TRIES: usize = 3;

/// Other sheets for the plate, the thickest first.
pub(super) fn plates(
    evidence: &Evidence<'_>,
    control: &Control,
    passes: impl Fn(&SheetPart) -> bool,
) -> Vec<Candidate> {
    let now = &control.plate.common.name.text;
    let sheets = evidence.subject.project.shelf.sheets.iter();
    let mut other: Vec<&SheetPart> = sheets
        .filter(|sheet| sheet.common.name.text != *now && passes(sheet))
        .collect();
    other.sort_by(|a, b| b.thickness.si.total_cmp(&a.thickness.si));
    other
        .into_iter()
        .take(TRIES)
        .map(|sheet| {
            let then = &sheet.common.name.text;
            Candidate::set(format!("panel {now} → {then}"), "control.plate", then)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Severity::Stop;

    use super::super::probe::{PANEL, check, with};
    use crate::check::Severity::Good;

    #[test]
    fn a_thick_plate_is_exchanged_for_a_thinner_one() {
        check(CHECK.id, PANEL, &[Good]);
        let thick = [("control.plate", "birch plywood 9 mm")];
        let found = with(PANEL).with(&thick).check(CHECK.id, &[Stop]);
        assert!(found[0].place.is_some(), "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "control.plate");
    }

    #[test]
    fn the_nut_wants_its_height_beyond_the_plate() {
        use crate::check::Severity::Caution;
        let bush = |length: &str| {
            let shelf = format!(
                "[[control]]\nname = \"toggle switch, M6\"\nbush = \"{length}\"\nnut_height = \"2 mm\"\n"
            );
            with(PANEL).shelf(&shelf)
        };
        bush("4 mm").check(CHECK.id, &[Good]);
        bush("3 mm").check(CHECK.id, &[Caution]);
        bush("2 mm").check(CHECK.id, &[Stop]);
    }
}
