//! Bushes of panel parts against the plate they go through.

use super::timber::mm;
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
    let wrong: Vec<Verdict> = control
        .parts
        .iter()
        .filter_map(|used| {
            let (bush, nut) = wants(used)?;
            let said = verdict(&used.part.common.name.text, bush, nut, plate)?;
            let thin = thinner(evidence, control, bush - nut);
            Some(said.at(used.place).mends(thin))
        })
        .collect();
    let any = control.parts.iter().any(|used| wants(used).is_some());
    if wrong.is_empty() && any {
        let cause = format!(
            "Every bush comes through the plate of {} with its nut.",
            mm(plate)
        );
        return vec![Verdict::good("Bushes are long enough", cause)];
    }
    wrong
}

fn verdict(name: &str, bush: f64, nut: f64, plate: f64) -> Option<Verdict> {
    if bush >= plate + nut - 1e-6 {
        return None;
    }
    let cause = format!(
        "{name} has a bush of {}; the plate takes {} of it and nut and washer {}.",
        mm(bush),
        mm(plate),
        mm(nut)
    );
    let said = if bush <= plate {
        Verdict::stop("A bush does not come through the panel", cause)
    } else {
        Verdict::caution("A nut finds too little thread", cause)
    };
    Some(
        said.measured(1e3 * bush, 1e3 * (plate + nut), "mm")
            .advice("thin the panel around the hole from behind, or take a thinner plate"),
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
    use crate::check::Severity::{Caution, Stop};

    #[test]
    fn the_nut_wants_its_height_beyond_the_plate() {
        let severity =
            |bush: f64, plate: f64| verdict("switch", bush, 0.002, plate).map(|said| said.severity);
        assert_eq!(severity(0.006, 0.006), Some(Stop));
        assert_eq!(severity(0.006, 0.005), Some(Caution));
        assert_eq!(severity(0.006, 0.004), None);
    }

    use super::super::probe::{PANEL, check, with};
    use crate::check::Severity::Good;

    #[test]
    fn a_thick_plate_is_exchanged_for_a_thinner_one() {
        check(CHECK.id, PANEL, &[Good]);
        let thick = [("control.plate", "birch plywood 9 mm")];
        let found = with(PANEL).with(&thick).findings(CHECK.id);
        assert!(found.iter().all(|one| one.severity == Stop), "{found:#?}");
        assert!(found.iter().all(|one| one.place.is_some()), "{found:#?}");
        let key = |one: &crate::check::Finding| one.mend.as_ref().map(|m| m.edits[0].key.clone());
        assert!(found.iter().any(|one| key(one).is_some()), "{found:#?}");
    }
}
