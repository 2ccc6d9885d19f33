//! Frames and openings on the walls they are mounted in.

mod clash;
mod depth;
mod frames;
mod free;
mod row;
mod spread;
mod walls;

use super::outgrown::{Kind, Outgrown};
use super::timber::listed;
use super::{Check, Evidence, Verdict, things};
use crate::carpentry::Carpentry;
use clash::{Clash, clashes};
use frames::Frames;
use walls::{along_box, faces, name, openings, thing};
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "drivers-fit",
    title: "Drivers on their walls",
    what: "Whether all frames and openings find room side by side on the walls they are mounted in.",
    why: "Found out after cutting, it costs the front; after gluing, the box.",
    limits: "Frames as circles. What is not placed is laid out in one row along the longer side of its \
wall, with the same gap everywhere; two rows must be placed by hand. Magnets and baskets inside are \
told under parts-collide, holes over joints under holes-clear.",
    bad: "two 6.5 in drivers on a front 300 mm wide",
    good: "two 6.5 in drivers on a front 400 mm wide and 200 mm high",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some((carpentry, walls)) = evidence.carpentry.zip(faces(evidence)) else {
        return Vec::new();
    };
    let openings = openings(evidence);
    let mut verdicts = Vec::new();
    for side in Wall::ALL {
        let wrong: Vec<Clash> = clashes(openings, &walls)
            .into_iter()
            .filter(|clash| openings[clash.first].wall == side)
            .collect();
        if !wrong.is_empty() && row::is_full(evidence, side) {
            verdicts.push(row::verdict(evidence, carpentry, side));
            continue;
        }
        let (over, overlap): (Vec<Clash>, Vec<Clash>) =
            wrong.into_iter().partition(|clash| clash.second.is_none());
        let frames = Frames {
            evidence,
            carpentry,
            openings,
            side,
            faces: &walls,
        };
        verdicts.extend((!over.is_empty()).then(|| frames.over(&over)));
        verdicts.extend((!overlap.is_empty()).then(|| frames.overlap(&overlap)));
    }
    if verdicts.is_empty() && !openings.is_empty() {
        let used = openings.iter().map(|opening| opening.wall);
        let used: Vec<String> = Wall::ALL
            .into_iter()
            .filter(|side| used.clone().any(|other| other == *side))
            .map(|side| things::wall_name(side).into())
            .collect();
        let cause = format!("Frames and openings lie side by side on {}.", listed(&used));
        verdicts.push(Verdict::good("Walls have room for every frame", cause));
    }
    verdicts.extend(depth::unknown(evidence));
    verdicts
}

/// Frames placed by hand for which the box is too small.
pub(super) fn outgrown(evidence: &Evidence<'_>, carpentry: &Carpentry) -> Vec<Outgrown> {
    let Some(faces) = faces(evidence) else {
        return Vec::new();
    };
    let openings = openings(evidence);
    let over = clashes(openings, &faces)
        .into_iter()
        .filter(|clash| clash.second.is_none() && openings[clash.first].stated);
    over.map(|clash| {
        let opening = &openings[clash.first];
        let beyond = clash.shift.map(|part| (-part).max(0.0));
        Outgrown {
            kind: Kind::Frame,
            thing: thing(carpentry, opening),
            name: name(carpentry, opening),
            missing: along_box(opening.wall, beyond),
        }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, VENT, check, with};
    use super::CHECK;
    use crate::check::Severity;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn frames_stay_on_the_front() {
        check(CHECK.id, &[], &[Good]);
        let narrow = [("box.outside", "210 x 240 x 230 mm")];
        let found = with(&narrow).findings(CHECK.id);
        assert_eq!(
            found[0].severity,
            Severity::Good,
            "stands upright: {found:#?}"
        );
        let small = [("box.outside", "150 x 200 x 230 mm")];
        let found = check(CHECK.id, &small, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn openings_may_go_elsewhere() {
        let row = with(RADIATOR).with(&[
            ("box.radiator.part", "radiator 6.5 in"),
            ("box.outside", "360 x 240 x 200 mm"),
        ]);
        row.check(CHECK.id, &[Caution]);
    }

    /// A row that is laid out between drivers placed by hand is no row that is too long.
    #[test]
    fn a_vent_finds_a_place_beside_drivers_placed_by_hand() {
        let mixed = with(VENT).with(&[
            ("drivers.1.at.1", "140 x 120 mm"),
            ("drivers.1.at.2", "260 x 120 mm"),
        ]);
        let found = mixed.check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("overlap by"), "{found:#?}");
        assert!(!found[0].cause.contains("row"), "{found:#?}");
        let mend = found[0].mend.as_ref().expect("the front is free elsewhere");
        assert_eq!(mend.edits[0].key, "box.vent.at");
        for folded in ["vent-fits", "holes-clear"] {
            let own = mixed.findings(folded);
            assert!(own.iter().all(|one| one.severity == Good), "{own:#?}");
        }
    }
}
