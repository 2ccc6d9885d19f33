//! Source, gain and clip point.

use super::{Candidate, Check, Evidence, Severity, Verdict, swap, wish};
use crate::words::number;
use core::f64::consts::SQRT_2;
use physics::math::db_amplitude;

pub(super) const CHECK: Check = Check {
    id: "source-level",
    title: "Source level against gain",
    what: "Whether the source can drive the amplifier to its limit, and whether there is far more \
gain than that takes.",
    why: "Too little, and the amplifier never gives what it could. Far too much, and the hiss of \
source and board is amplified for nothing, and all of the volume range lies in the first touch of the \
control. The best gain is the lowest with which the source still reaches the limit.",
    limits: "Highest sine level of the source, volume fully up, half-empty battery. Recordings that \
are not levelled to full scale need some gain in hand; up to ten times is taken as in order.",
    bad: "36 dB of gain, 12 V and a 2 V source: it clips at a fifteenth of the source's level",
    good: "26 dB of gain with a telephone of 0.9 V: it clips at half its level",
    sources: &["common practice, no source"],
    run,
};

/// How many times more than it takes to clip is far too much: common practice, no source.
pub(super) const TOO_MUCH: f64 = 10.0;

/// What a source may stay below the clip point: a decibel.
const NEARLY: f64 = 0.89;

/// What it may stay below it where the brief is kept all the same.
const MEAGRE: f64 = 0.5;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let amplifier = &evidence.build.amplifier;
    let clip = amplifier
        .stage
        .open_circuit_peak(evidence.build.battery.mid_voltage())
        / SQRT_2;
    if clip <= 0.0 {
        return Vec::new();
    }
    let source = amplifier.source_level;
    let ratio = amplifier.source_output() / clip;
    let to_clip = source / ratio;
    let volts = |value: f64| number(value, "V");
    let numbers = format!(
        "It takes {} rms from the source to clip with the volume fully up; the source gives {}",
        volts(to_clip),
        volts(source)
    );
    let short = db_amplitude(1.0 / ratio);
    let verdict = if ratio > TOO_MUCH {
        let cause = format!("{numbers}, {ratio:.0} times as much: hiss, and a touchy control.");
        Verdict::caution("Far more gain than the source needs", cause)
            .advice("set the board to a lower gain, or put a divider before it")
            .mends([divider(evidence, ratio)])
            .mends(swap::amplifiers(evidence, |board| {
                board.gain.si < amplifier.gain
            }))
    } else if ratio < MEAGRE || (ratio < NEARLY && !loud_enough(evidence)) {
        let cause = format!(
            "{numbers}: {} too little to reach full output.",
            number(short, "dB")
        );
        Verdict::caution("Source cannot drive the amplifier to its limit", cause)
            .advice("lose less in the volume control, raise the gain, or put a small preamplifier before it")
            .mends(swap::amplifiers(evidence, |board| board.gain.si > amplifier.gain))
    } else if ratio < NEARLY {
        let cause = format!(
            "{numbers}: {} below full output, but enough for the loudness asked.",
            number(short, "dB")
        );
        Verdict::good("Source drives the amplifier as far as needed", cause)
    } else {
        Verdict::good("Gain suits the source", format!("{numbers}."))
    };
    vec![verdict.measured(source, to_clip, "V")]
}

fn loud_enough(evidence: &Evidence<'_>) -> bool {
    wish::verdict(evidence, &super::brief_loud::WISH)
        .is_some_and(|verdict| verdict.severity == Severity::Good)
}

/// A divider that leaves twice the level it takes to clip.
fn divider(evidence: &Evidence<'_>, ratio: f64) -> Candidate {
    let lost = evidence.build.amplifier.source_loss_db;
    let more = db_amplitude(ratio / 2.0).round();
    Candidate::set(
        format!("a divider of {more:.0} dB before the board"),
        "source.loss",
        format!("{:.0} dB", (lost + more).round()),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn gain_far_beyond_need_is_touchy() {
        check(CHECK.id, &[("source.level", "2 V")], &[Good]);
        let found = check(CHECK.id, &[("source.level", "10 V")], &[Caution]);
        assert!(found[0].mend.as_ref().unwrap().words.contains("divider"));
    }

    #[test]
    fn a_weak_source_matters_where_loudness_is_missed() {
        let weak = ("source.level", "0.5 V");
        check(CHECK.id, &[weak], &[Good]);
        check(CHECK.id, &[weak, ("brief.loudness", "97 dB")], &[Caution]);
        check(CHECK.id, &[("source.level", "0.1 V")], &[Caution]);
    }
}
