//! What it weighs against the brief.

use super::resize::{self, Axis};
use super::wish::{self, Wish};
use super::{Check, Evidence, Severity, Verdict, swap};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "brief-light",
    title: "Weight, against the brief",
    what: "Whether the box with its battery stays within the weight the brief allows, and in how many \
builds of a hundred.",
    why: "It is carried more often than it is played at full level.",
    limits: "Walls without cut-outs, parts by their stated weight or a guess from their size, a \
quarter of a kilogram for wire, screws, glue and finish.",
    bad: "weight = \"4 kg\" with a lead-acid battery and 18 mm walls",
    good: "the same with an iron phosphate battery and 9 mm walls",
    sources: &["common practice, no source"],
    run,
};

const WISH: Wish = Wish {
    promise: "light",
    kept: "Light enough",
    missed: "Too heavy",
    does: "weighs",
    much: 1.3,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(mut verdict) = wish::verdict(evidence, &WISH) else {
        return Vec::new();
    };
    let lines = evidence.subject.weight.lines(&evidence.build.enclosure);
    let heaviest = lines
        .iter()
        .max_by(|a, b| a.kilograms.total_cmp(&b.kilograms));
    if let Some(line) = heaviest {
        verdict.cause += &format!(
            " Heaviest: {} with {}.",
            line.label,
            number(line.kilograms, "kg")
        );
    }
    if verdict.severity == Severity::Good {
        return vec![verdict];
    }
    let wall = &evidence.design().enclosure.wall;
    let weight = |sheet: &design::SheetPart| sheet.density.si * sheet.thickness.si;
    let battery = evidence.design().battery.part.common.weight;
    let lighter = swap::batteries(evidence, |part| {
        let other = part.common.weight;
        other
            .zip(battery)
            .is_some_and(|(other, now)| other.si < now.si)
    });
    let walls = swap::walls(evidence, |sheet| weight(sheet) < weight(wall));
    vec![
        verdict
            .advice("take thinner or lighter walls, a lighter battery, or a smaller box")
            .mends(walls.clone())
            .mends(lighter.clone())
            .ladder(resize::smaller(evidence, Axis::Depth))
            .ladder(resize::smaller(evidence, Axis::Height))
            .ladder(resize::smaller(evidence, Axis::Width))
            .mends(swap::pairs(&walls, &lighter)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn heavy_walls_are_swapped() {
        check(CHECK.id, &[], &[Good]);
        let heavy = [("box.wall", "MDF 19 mm"), ("brief.weight", "7 kg")];
        let found = check(CHECK.id, &heavy, &[Caution]);
        assert!(found[0].cause.contains("Heaviest: walls"), "{found:#?}");
        assert!(
            found[0].mend.as_ref().unwrap().edits[0].key == "box.wall",
            "{found:#?}"
        );
        check(CHECK.id, &[("brief.weight", "3 kg")], &[Stop]);
    }

    #[test]
    fn a_measured_thickness_goes_with_its_wall() {
        let heavy = [
            ("box.wall", "MDF 19 mm"),
            ("box.thickness", "19.2 mm"),
            ("brief.weight", "7 kg"),
        ];
        let found = check(CHECK.id, &heavy, &[Caution]);
        let edits = &found[0].mend.as_ref().unwrap().edits;
        assert!(
            edits
                .iter()
                .any(|edit| edit.key == "box.thickness" && edit.value.is_none())
        );
    }
}
