//! Vent length against the depth of the box.

use super::resize::{self, Axis};
use super::{Check, Evidence, Verdict, tune};

pub(super) const CHECK: Check = Check {
    id: "vent-fits",
    title: "Vent length against the box",
    what: "Whether the vent tube goes straight back into the box with room behind it.",
    why: "Small boxes tuned low want long tubes. A tube that ends close to the back wall is tuned \
lower than computed and chokes.",
    limits: "A straight tube from the front, with one diameter free behind its inner end. A bend \
adds some noise; its length counts along the middle. What else stands in the way is not looked at.",
    bad: "a 60 mm tube 200 mm long in a box 180 mm deep",
    good: "the same box with a passive radiator, or with a 36 mm tube 75 mm long",
    sources: &["common practice, no source"],
    run,
};

/// Room behind the inner end, in diameters.
const CLEARANCE: f64 = 1.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let enclosure = &evidence.build.enclosure;
    let Some(vent) = enclosure.vent else {
        return Vec::new();
    };
    let [width, height, depth] = enclosure.inside;
    // The tube starts at the outer face of the front.
    let needed = vent.length + CLEARANCE * vent.diameter;
    let room = depth + enclosure.thickness;
    let bent = room - CLEARANCE * vent.diameter + width.max(height) - vent.diameter;
    let mm = |length: f64| format!("{:.0} mm", 1e3 * length);
    let cause = format!(
        "The tube is {} long and wants a diameter of {} free behind it, {} in all; the box offers {}.",
        mm(vent.length),
        mm(vent.diameter),
        mm(needed),
        mm(room)
    );
    let numbers = (1e3 * needed, 1e3 * room);
    let verdict = if needed <= room {
        return vec![Verdict::good("Vent fits", cause).measured(numbers.0, numbers.1, "mm")];
    } else if vent.length > bent {
        Verdict::stop("Vent does not fit, not even bent", cause)
            .advice("take a narrower tube, which is shorter for the same tuning, tune higher, or take a passive radiator")
    } else {
        Verdict::caution(
            "Vent is too long to go straight back",
            format!("{cause} It fits with one bend."),
        )
        .advice("bend it, its length counting along the middle; or take a narrower tube or a passive radiator")
    };
    vec![
        verdict
            .measured(numbers.0, numbers.1, "mm")
            .mends(tune::other_tubes(evidence, |diameter| {
                diameter < vent.diameter
            }))
            .ladder(resize::larger(evidence, Axis::Depth))
            .mends(tune::radiators(evidence)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{VENT, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_long_tube_wants_a_bend_and_a_longer_one_another_box() {
        // The box is 176 mm deep inside.
        let tube = |length| with(VENT).with(&[("box.vent.length", length)]);
        tube("140 mm").check(CHECK.id, &[Good]);
        let found = tube("180 mm").check(CHECK.id, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
        tube("600 mm").check(CHECK.id, &[Stop]);
        check(CHECK.id, &[], &[]);
    }
}
