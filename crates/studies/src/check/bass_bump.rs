//! The shape of the bass of a vented box or one with a radiator.

use super::{Check, Evidence, Verdict, resize, tune};
use crate::versus::GREATEST_HUMP as MOST;
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "bass-bump",
    title: "Hump in the bass of a vented box",
    what: "Whether vent or passive radiator raise the bass above the middle range.",
    why: "A box too small or tuned too high for its driver booms around the tuning, and the boom \
rings on after the note.",
    limits: "The box's own response, without face and place; a hump of 3 dB is taken as the most \
that still pleases.",
    bad: "a driver with a Qts of 0.8 in a vented box",
    good: "a driver with a Qts of 0.4 in a box tuned near its resonance",
    sources: &["thiele-1971", "common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    if evidence.vent().is_none() && evidence.radiator().is_none() {
        return Vec::new();
    }
    let hump = evidence.outcome.hump.max(0.0);
    let booming = evidence.odds(|outcome| outcome.hump > MOST);
    let db = |value: f64| number(value, "dB");
    let verdict = if hump > MOST {
        let cause = format!(
            "Around {} it stands {} above the middle range; {} is as much as pleases.",
            number(evidence.outcome.hump_at, "Hz"),
            db(hump),
            db(MOST)
        );
        Verdict::caution("Bass booms", cause)
    } else if booming > 1.0 - evidence.good_odds() {
        let cause = format!(
            "The bass stands {} above the middle range, but more than {} in {} of 100 builds.",
            db(hump),
            db(MOST),
            crate::words::of_hundred(booming)
        );
        Verdict::caution("Bass may boom", cause)
    } else {
        let cause = format!(
            "The bass stands at most {} above the middle range.",
            db(hump)
        );
        return vec![Verdict::good("Bass is even", cause).measured(hump, MOST, "dB")];
    };
    vec![
        verdict
            .measured(hump, MOST, "dB")
            .advice("tune it lower, close the box, make it larger, or take a driver with a stronger magnet")
            .ladder(tune::lower(evidence))
            .ladder(super::box_q::fuller(evidence))
            .ladders(resize::growth(evidence))
            .mends([tune::sealed(evidence)]),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, VENT, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_high_q_driver_booms_in_a_vented_box() {
        with(VENT).check(CHECK.id, &[Good]);
        with(RADIATOR).check(CHECK.id, &[Good]);
        check(CHECK.id, &[], &[]);
        let high = with(VENT).with(&[("drivers.1.part", "coaxial 4 in, 4 ohm")]);
        let found = high.check(CHECK.id, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn odds_count_where_the_nominal_bass_is_even() {
        let unknown = ("drivers.1.part", "salvaged full-range 4 in, unknown");
        let guessed = with(VENT).with(&[unknown]).builds(200);
        let found = guessed.check(CHECK.id, &[Caution]);
        assert_eq!(found[0].title, "Bass may boom");
    }
}
