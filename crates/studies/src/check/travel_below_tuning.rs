//! Travel below the tuning of a vented box.

use super::{Check, Evidence, Verdict, tune};
use crate::sound::Limit;
use crate::words::number;
use core::f64::consts::SQRT_2;

pub(super) const CHECK: Check = Check {
    id: "travel-below-tuning",
    title: "Travel below the tuning",
    what: "Whether, fully up, the part of the programme below the tuning alone drives a cone past \
its travel.",
    why: "Below the tuning the air no longer holds the cone: it flaps with the deepest notes, gives \
next to no sound for it, and distorts everything else.",
    limits: "Peaks of that part of the programme by its spectrum and crest factor, on a half-empty \
battery, at the clip point or as far as the source drives it. A sustained tone goes further: the \
cause names it.",
    bad: "a small driver in a box tuned to 80 Hz, with squashed music",
    good: "the same box tuned to 45 Hz, or with a high-pass below the tuning",
    sources: &["thiele-1971", "common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let tuning = evidence.outcome.tuning;
    if tuning.is_nan() {
        return Vec::new();
    }
    let clip = evidence
        .ceiling(Limit::AmplifierVoltage)
        .min(evidence.ceiling(Limit::Source));
    let hertz = &evidence.scene.grid.hertz;
    let below: Vec<f64> = hertz
        .iter()
        .zip(&evidence.gains.travel_share)
        .map(|(hertz, share)| if *hertz < tuning { *share } else { 0.0 })
        .collect();
    let share = evidence.programme_peak(&below, clip);
    // A sine at the clip point has the programme's peak.
    let tone = clip * evidence.scene.crest / SQRT_2 * below.iter().copied().fold(0.0, f64::max);
    let cause = format!(
        "Fully up, what lies below the tuning of {} takes {} of the cones' travel, a sustained tone there up to {}.",
        number(tuning, "Hz"),
        number(100.0 * share, "%"),
        number(100.0 * tone, "%")
    );
    if share <= 1.0 {
        return vec![
            Verdict::good("Cones are held below the tuning", cause).measured(
                100.0 * share,
                100.0,
                "%",
            ),
        ];
    }
    vec![
        Verdict::caution("Cones flap below the tuning", cause)
            .measured(100.0 * share, 100.0, "%")
            .advice("put a high-pass before the amplifier a little below the tuning, tune lower, or close the box")
            .ladder(tune::lower(evidence))
            .mends([tune::sealed(evidence)]),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{VENT, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_high_tuning_leaves_the_cone_alone() {
        check(CHECK.id, &[], &[]);
        with(VENT).check(CHECK.id, &[Good]);
        let high = with(VENT).with(&[
            ("box.vent.diameter", "70 mm"),
            ("box.vent.length", "20 mm"),
            ("brief.programme", "squashed music"),
        ]);
        let found = high.check(CHECK.id, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }
}
