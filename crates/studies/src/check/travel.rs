//! Travel of cones and radiators at the brief's loudness.

use super::{Check, Evidence, Verdict, swap, tune};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "travel",
    title: "Travel at the brief's loudness",
    what: "Whether cones and passive radiators stay within their travel when the brief's programme \
plays as loud as the brief asks.",
    why: "Beyond its linear travel a cone distorts, and at its stops it knocks.",
    limits: "Peaks of the programme by its spectrum and crest factor; a recording with more bass \
than most, or a bass control turned up, travels further.",
    bad: "88 dB at 5 m out of a 3 in driver",
    good: "the same out of two 6.5 in drivers",
    sources: &["iec-60268-1", "common practice, no source"],
    run,
};

/// Room for the last digits where travel itself sets how loud it plays.
const SLACK: f64 = 1.000_1;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let wanted = evidence.wanted_volts();
    let peak = |quantity: &[f64]| evidence.programme_peak(quantity, wanted);
    let cone = peak(&evidence.gains.travel_share);
    let mut verdicts = vec![cones(evidence, cone)];
    if let Some(radiator) = evidence.build.radiator {
        let share = peak(&evidence.gains.radiator_travel) / radiator.xmax;
        verdicts.push(radiators(evidence, share));
    }
    verdicts
}

fn cause(evidence: &Evidence<'_>, what: &str, share: f64) -> String {
    let level = evidence.at_level();
    format!(
        "Playing {level} {what} {} of the linear travel.",
        number(100.0 * share, "%")
    )
}

fn cones(evidence: &Evidence<'_>, share: f64) -> Verdict {
    let cause = cause(evidence, "the cones use", share);
    let verdict = if share <= SLACK {
        return Verdict::good("Cones stay within their travel", cause).measured(
            100.0 * share,
            100.0,
            "%",
        );
    } else {
        Verdict::caution("Cones travel too far", cause)
    };
    let groups = 0..evidence.design().drivers.len();
    let longer = groups.flat_map(|group| {
        let now = &evidence.build.drivers[group];
        let volume = now.driver.area * now.xmax;
        swap::drivers(evidence, group, |part| {
            let area = part.sd.map(|value| value.si);
            let travel = part.xmax.map(|value| value.si);
            area.zip(travel).is_some_and(|(a, x)| a * x > volume)
        })
    });
    verdict
        .measured(100.0 * share, 100.0, "%")
        .advice("take larger drivers or ones with more travel, ask for less loudness, or keep the deepest bass out with a high-pass")
        .mends(longer)
}

fn radiators(evidence: &Evidence<'_>, share: f64) -> Verdict {
    let cause = cause(evidence, "the radiators use", share);
    if share <= SLACK {
        return Verdict::good("Radiators stay within their travel", cause).measured(
            100.0 * share,
            100.0,
            "%",
        );
    }
    let larger = swap::radiators(evidence, |part| {
        evidence
            .build
            .radiator
            .is_some_and(|now| part.area.si * part.xmax.si > now.area * now.xmax)
    });
    Verdict::caution("Radiators travel too far", cause)
        .measured(100.0 * share, 100.0, "%")
        .advice("take larger radiators or more of them, or ask for less loudness")
        .ladder(tune::lower(evidence))
        .mends(larger)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn asking_for_more_than_cones_can_do() {
        check(CHECK.id, &[], &[Good]);
        check(CHECK.id, &[("brief.loudness", "105 dB")], &[Caution]);
        with(RADIATOR).check(CHECK.id, &[Good, Good]);
    }

    #[test]
    fn a_light_radiator_runs_out_of_travel() {
        let loud = with(RADIATOR).with(&[
            ("box.radiator.part", "radiator 3 in"),
            ("brief.loudness", "99 dB"),
        ]);
        let found = loud.findings(CHECK.id);
        assert!(
            found.iter().any(|f| f.title == "Radiators travel too far"),
            "{found:#?}"
        );
    }

    #[test]
    fn six_decibels_double_the_travel() {
        let at = |level| {
            check(CHECK.id, &[("brief.loudness", level)], &[Good])[0]
                .measured
                .unwrap()
        };
        assert!((at("80 dB") / at("73.9794 dB") - 2.0).abs() < 1e-4);
    }
}
