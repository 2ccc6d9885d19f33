//! Drivers and openings on the front, and magnets behind it.

use super::resize::{self, Axis};
use super::{Check, Evidence, Verdict};
use crate::subject::SpotKind;

pub(super) const CHECK: Check = Check {
    id: "drivers-fit",
    title: "Drivers on the front",
    what: "Whether all frames and openings find room side by side on the front, and the magnets \
behind it.",
    why: "Found out after cutting, it costs the front; after gluing, the box.",
    limits: "A first layout in one row along the longer side, with the same gap everywhere. Drivers in \
two rows, openings on other sides, and braces in the way are not looked at.",
    bad: "two 6.5 in drivers on a front 300 mm wide",
    good: "two 6.5 in drivers on a front 400 mm wide and 200 mm high",
    sources: &["common practice, no source"],
    run,
};

/// Air behind a magnet with a hole in its middle, in m: common practice, no source.
const BEHIND: f64 = 0.010;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    vec![on_front(evidence), behind_front(evidence)]
}

fn mm(length: f64) -> String {
    format!("{:.0} mm", 1e3 * length)
}

fn on_front(evidence: &Evidence<'_>) -> Verdict {
    let front = &evidence.subject.front;
    let (along, across) = (front.width.max(front.height), front.width.min(front.height));
    let taken: f64 = front.spots.iter().map(|spot| spot.diameter).sum();
    let widest = front
        .spots
        .iter()
        .map(|spot| spot.diameter)
        .fold(0.0, f64::max);
    let cause = format!(
        "Frames and openings in a row take {} of {}, the widest {} of {}.",
        mm(taken),
        mm(along),
        mm(widest),
        mm(across)
    );
    let (measured, limit) = if widest >= across {
        (widest, across)
    } else {
        (taken, along)
    };
    if front.fits {
        return Verdict::good("Front has room for everything", cause).measured(
            1e3 * measured,
            1e3 * limit,
            "mm",
        );
    }
    let drivers: f64 = front
        .spots
        .iter()
        .filter(|spot| matches!(spot.kind, SpotKind::Driver(_)))
        .map(|spot| spot.diameter)
        .sum();
    let only_openings = drivers < along && widest < across;
    let verdict = if only_openings {
        Verdict::caution("Front has no room beside the drivers", cause)
            .advice("put vent or radiator on another side of the box, or make the front larger")
    } else {
        Verdict::stop("Front has no room for the drivers", cause)
            .advice("make the front larger, or take smaller drivers")
    };
    verdict
        .measured(1e3 * measured, 1e3 * limit, "mm")
        .ladder(resize::larger(evidence, Axis::Width))
        .ladder(resize::larger(evidence, Axis::Height))
}

fn behind_front(evidence: &Evidence<'_>) -> Verdict {
    let groups = evidence.design().drivers.iter();
    let deepest = groups
        .filter_map(|group| {
            let depth = group.part.depth?.si;
            Some((depth, &group.part.common.name.text))
        })
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let room = evidence.build.enclosure.inside[2];
    let Some((depth, name)) = deepest else {
        return Verdict::caution(
            "Depth of the drivers not known",
            format!("The box is {} deep inside; no driver's depth is on the shelf.", mm(room)),
        )
        .advice("measure from the back of the frame to the back of the magnet and write it on the shelf as depth");
    };
    let cause = format!(
        "{name} reaches {} behind the front and wants {} of air behind its magnet; the box is {} deep inside.",
        mm(depth),
        mm(BEHIND),
        mm(room)
    );
    let verdict = if depth > room {
        Verdict::stop("Drivers are deeper than the box", cause)
    } else if depth + BEHIND > room {
        Verdict::caution("Magnets come close to the back wall", cause)
    } else {
        return Verdict::good("Box is deep enough for the drivers", cause).measured(
            1e3 * (depth + BEHIND),
            1e3 * room,
            "mm",
        );
    };
    verdict
        .measured(1e3 * (depth + BEHIND), 1e3 * room, "mm")
        .advice("make the box deeper, or take shallower drivers")
        .ladder(resize::larger(evidence, Axis::Depth))
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, check, with};
    use super::CHECK;
    use crate::check::Severity;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn frames_stay_on_the_front() {
        check(CHECK.id, &[], &[Good, Good]);
        let narrow = [("box.outside", "210 x 240 x 230 mm")];
        let found = with(&narrow).findings(CHECK.id);
        assert_eq!(
            found[0].severity,
            Severity::Good,
            "stands upright: {found:#?}"
        );
        let small = [("box.outside", "150 x 200 x 230 mm")];
        let found = check(CHECK.id, &small, &[Stop, Good]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn openings_may_go_elsewhere() {
        let row = with(RADIATOR).with(&[
            ("box.radiator.part", "radiator 6.5 in"),
            ("box.outside", "360 x 240 x 200 mm"),
        ]);
        row.check(CHECK.id, &[Caution, Good]);
    }

    #[test]
    fn magnets_stay_off_the_back_wall() {
        // 54 mm of driver; inside is 24 mm less than outside.
        let deep = |depth: &str| [("box.outside", format!("400 x 240 x {depth} mm"))];
        let probe = |depth| {
            let keys = deep(depth);
            with(&[(keys[0].0, keys[0].1.as_str())])
        };
        probe("90").check(CHECK.id, &[Good, Good]);
        probe("84").check(CHECK.id, &[Caution, Good]);
        probe("76").check(CHECK.id, &[Stop, Good]);
    }
}
