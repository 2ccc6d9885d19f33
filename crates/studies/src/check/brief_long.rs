//! How long it plays against the brief.

use super::wish::{self, Wish};
use super::{Candidate, Check, Evidence, Severity, Verdict, swap};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "brief-long",
    title: "How long, against the brief",
    what: "Whether the battery lasts as long as the brief asks at its loudness, and in how many \
builds of a hundred.",
    why: "Hours follow from what the programme really draws, not from rated watts: at low level \
the idle current decides, near clipping the programme's crest factor.",
    limits: "Room temperature, a battery some two hundred cycles old, from full to its end voltage. \
Hours at full volume hold for music; a sine empties it several times faster.",
    bad: "runtime = \"20 h\" at full volume from 12 V 4.5 Ah",
    good: "runtime = \"10 h\" at 85 dB from 12.8 V 6 Ah",
    sources: &["peukert-1897", "pybamm", "common practice, no source"],
    run,
};

const WISH: Wish = Wish {
    promise: "long",
    kept: "Plays long enough",
    missed: "Does not play long enough",
    does: "plays for",
    much: 2.0,
};

/// Most batteries in parallel tried.
const MOST: u32 = 4;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(mut verdict) = wish::verdict(evidence, &WISH) else {
        return Vec::new();
    };
    verdict.cause += &format!(
        " It draws {} then, {} of them idle.",
        number(evidence.outcome.draw_brief, "W"),
        number(evidence.outcome.draw_idle, "W")
    );
    if verdict.severity == Severity::Good {
        return vec![verdict];
    }
    let energy = |part: &design::BatteryPart| part.capacity.si * f64::from(part.cells);
    let now = &evidence.design().battery.part;
    let idle = evidence.build.amplifier.stage.idle_current;
    vec![
        verdict
            .advice("take a larger battery, drivers with more sensitivity, or a board that draws less idle; or play more quietly: 3 dB less nearly halve what the music draws")
            .mends(swap::batteries(evidence, |part| energy(part) > energy(now)))
            .ladder(more_batteries(evidence))
            .mends(swap::amplifiers(evidence, |board| board.idle_current.si < idle))
            .mends(swap::supplies(evidence, |part| energy(part) > energy(now))),
    ]
}

/// More equal batteries in parallel.
fn more_batteries(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let now = evidence.design().battery.count;
    (now + 1..=MOST)
        .map(|count| {
            let words = format!("{count} equal batteries in parallel instead of {now}");
            Candidate::set(words, "battery.count", count.to_string())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_small_battery_is_swapped() {
        check(CHECK.id, &[], &[Good]);
        let small = [
            ("battery.part", "lead-acid 12 V 4.5 Ah"),
            ("brief.runtime", "200 h"),
        ];
        let found = check(CHECK.id, &small, &[Stop]);
        assert!(found[0].unit == "h" && found[0].limit == Some(200.0));
        let some = [
            ("brief.runtime", "85 h"),
            ("battery.part", "lead-acid 12 V 4.5 Ah"),
        ];
        let found = check(CHECK.id, &some, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }
}
