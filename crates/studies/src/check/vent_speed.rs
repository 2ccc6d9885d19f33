//! Air speed in the vent.

use super::{Candidate, Check, Evidence, Verdict, tune};
use crate::sound::VENT_SPEED;
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "vent-speed",
    title: "Air speed in the vent",
    what: "Whether the air in the vent stays slow enough at the brief's loudness.",
    why: "Fast air chuffs, and above that the vent stops working as one: the bass it should give \
turns into noise and heat.",
    limits: "Peak speed, averaged over the opening, with the brief's programme: 10 m/s in a plain \
tube and 17 m/s in one with flared ends. A sustained bass tone reaches more; the curve of vent speed \
shows it at full output.",
    bad: "a 25 mm tube on a 6.5 in woofer",
    good: "two 70 mm tubes, ends flared",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(vent), Some(build)) = (evidence.vent(), evidence.build.enclosure.vent) else {
        return Vec::new();
    };
    let flared = vent.flared.value;
    let limit = if flared { VENT_SPEED.1 } else { VENT_SPEED.0 };
    let wanted = evidence.wanted_volts();
    let speed = evidence.programme_peak(&evidence.gains.vent_speed, wanted);
    let cause = format!(
        "Playing {} the air in the vent reaches {}; a {} tube stays quiet to {}.",
        evidence.at_level(),
        number(speed, "m/s"),
        if flared { "flared" } else { "plain" },
        number(limit, "m/s")
    );
    if speed <= limit * SLACK {
        return vec![Verdict::good("Vent air is slow enough", cause).measured(speed, limit, "m/s")];
    }
    let flare =
        (!flared).then(|| Candidate::set("flare the ends of the vent", "box.vent.flared", "true"));
    vec![
        Verdict::caution("Vent air is too fast", cause)
            .measured(speed, limit, "m/s")
            .advice(
                "flare the ends, or take a wider and longer tube, two tubes, or a passive radiator",
            )
            .mends(flare)
            .mends(tune::other_tubes(evidence, |diameter| {
                diameter > build.diameter
            }))
            .mends(tune::radiators(evidence)),
    ]
}

/// Room for the last digits where the speed itself sets how loud it plays.
const SLACK: f64 = 1.000_1;

#[cfg(test)]
mod tests {
    use super::super::probe::{VENT, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_thin_tube_chuffs() {
        with(VENT).check(CHECK.id, &[Good]);
        check(CHECK.id, &[], &[]);
        let thin = with(VENT).with(&[
            ("box.vent.diameter", "25 mm"),
            ("box.vent.length", "30 mm"),
            ("brief.loudness", "88 dB"),
        ]);
        let found = thin.check(CHECK.id, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn flared_ends_bear_more() {
        let between = |flared| {
            with(VENT).with(&[
                ("box.vent.diameter", "36 mm"),
                ("box.vent.length", "60 mm"),
                ("box.vent.flared", flared),
                ("brief.loudness", "90 dB"),
            ])
        };
        between("true").check(CHECK.id, &[Good]);
        between("false").check(CHECK.id, &[Caution]);
    }
}
