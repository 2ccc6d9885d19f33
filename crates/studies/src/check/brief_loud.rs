//! How loud it plays against the brief.

use super::wish::{self, Wish};
use super::{Candidate, Check, Evidence, Severity, Verdict, swap, tune};
use crate::sound::Limit;
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "brief-loud",
    title: "How loud, against the brief",
    what: "Whether the box reaches the loudness the brief asks for at its distance, what gives out \
first, and in how many builds of a hundred.",
    why: "Out of doors every doubling of the distance takes 6 dB and no room gives anything back; \
every 3 dB more takes twice the power.",
    limits: "Long-term level of the brief's programme when its peaks just reach the first limit, on a \
half-empty battery; ground and wall are taken as hard. Kept means in eight builds of ten.",
    bad: "95 dB at 10 m from two 3 in drivers",
    good: "85 dB at 3 m from two 4 in drivers",
    sources: &["iec-60268-1", "iso-9613-1", "common practice, no source"],
    run,
};

pub(super) const WISH: Wish = Wish {
    promise: "loud",
    kept: "Plays loud enough",
    missed: "Does not play loud enough",
    does: "reaches",
    much: 6.0,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(mut verdict) = wish::verdict(evidence, &WISH) else {
        return Vec::new();
    };
    let limit = evidence.first_limit();
    verdict.cause += &format!(" First to give out: {}.", limit.words());
    if verdict.severity == Severity::Good {
        return vec![verdict];
    }
    vec![
        verdict
            .advice(advice(limit))
            .mends(against(evidence, limit))
            .mends(other_drivers(evidence))
            .mends(swap::supplies(evidence, |part| {
                part.cells > evidence.build.battery.cells
            })),
    ]
}

const fn advice(limit: Limit) -> &'static str {
    match limit {
        Limit::ConeTravel => "take larger drivers or ones with more travel, or vent the box",
        Limit::RadiatorTravel => "take larger radiators or more of them",
        Limit::AmplifierVoltage => {
            "take more volts, drivers with more sensitivity, or drivers of lower impedance"
        }
        Limit::AmplifierCurrent => "take a board that gives more current",
        Limit::CoilHeat => "take drivers rated for more power",
        Limit::VentSpeed => "flare the vent, or take a wider and longer one",
        Limit::Source => "lose less level before the board, or take one with more gain",
    }
}

/// What helps against the limit that is reached first.
fn against(evidence: &Evidence<'_>, limit: Limit) -> Vec<Candidate> {
    let stage = &evidence.build.amplifier.stage;
    match limit {
        Limit::ConeTravel => [
            tune::lower(evidence),
            tune::vented(evidence).into_iter().collect(),
        ]
        .concat(),
        Limit::RadiatorTravel => {
            [tune::lower(evidence), swap::radiators(evidence, |_| true)].concat()
        }
        Limit::AmplifierVoltage => {
            let cells = evidence.build.battery.cells;
            let boards = swap::amplifiers(evidence, |board| {
                board.on_resistance.si < stage.on_resistance || board.bridged != stage.bridged
            });
            [swap::batteries(evidence, |part| part.cells > cells), boards].concat()
        }
        Limit::AmplifierCurrent => swap::amplifiers(evidence, |board| {
            board.current_limit.si > stage.current_limit
        }),
        Limit::CoilHeat => Vec::new(),
        Limit::VentSpeed => {
            let now = evidence
                .build
                .enclosure
                .vent
                .map_or(0.0, |vent| vent.diameter);
            let flare = Candidate::set("flare the ends of the vent", "box.vent.flared", "true");
            [
                vec![flare],
                tune::other_tubes(evidence, |diameter| diameter > now),
            ]
            .concat()
        }
        Limit::Source => {
            let gain = evidence.build.amplifier.gain;
            let louder = swap::amplifiers(evidence, |board| board.gain.si > gain);
            [less_lost(evidence), louder].concat()
        }
    }
}

/// Less level lost before the board.
fn less_lost(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let lost = evidence.build.amplifier.source_loss_db;
    [3.0, 0.0]
        .into_iter()
        .filter(|less| *less < lost)
        .map(|less| {
            let words = format!(
                "loss before the board {} → {}",
                number(lost, "dB"),
                number(less, "dB")
            );
            Candidate::set(words, "source.loss", format!("{less} dB"))
        })
        .collect()
}

fn other_drivers(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let groups = 0..evidence.design().drivers.len();
    groups
        .flat_map(|group| swap::drivers(evidence, group, |_| true))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn how_far_from_the_mark_decides() {
        let found = check(CHECK.id, &[], &[Good]);
        let value = found[0].measured.unwrap();
        let asked = |more: f64| format!("{:.2} dB", value + more);
        with(&[("brief.loudness", &asked(2.0))]).check(CHECK.id, &[Caution]);
        with(&[("brief.loudness", &asked(9.0))]).check(CHECK.id, &[Stop]);
        with(&[]).without("brief.loudness").check(CHECK.id, &[]);
    }

    #[test]
    fn a_source_that_limits_is_mended_first() {
        let weak = with(&[("source.loss", "20 dB"), ("brief.loudness", "82 dB")]);
        let found = weak.check(CHECK.id, &[Caution]);
        assert!(found[0].cause.contains("source runs out"), "{found:#?}");
        assert!(
            found[0].mend.as_ref().unwrap().edits[0].key == "source.loss",
            "{found:#?}"
        );
    }
}
