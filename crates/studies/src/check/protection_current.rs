//! The battery's protection board against the peaks of music.

use super::{Check, Evidence, Verdict, swap};
use crate::words::number;
use design::Chemistry;

pub(super) const CHECK: Check = Check {
    id: "protection-current",
    title: "Protection board against peak current",
    what: "Whether the protection board of the battery passes the peaks drawn at the brief's \
loudness and at full output.",
    why: "A protection board switches off within milliseconds of too much current and often stays \
off until it is unplugged: the music dies on a loud bass note.",
    limits: "Counts every channel at its peak at once, without what capacitors on the board give \
for a moment, and without the rush of current when it is switched on.",
    bad: "a pack whose protection passes 4 A on a stereo board that draws 7.7 A at full output",
    good: "a pack whose protection passes 10 A",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let used = &evidence.design().battery;
    let full = evidence.outcome.peak_current;
    let brief = at_brief(evidence);
    let amperes = |value: f64| number(value, "A");
    let Some(limit) = used.part.protection_current else {
        let lithium = matches!(
            used.part.chemistry.value,
            Chemistry::LithiumIon | Chemistry::IronPhosphate
        );
        if !lithium {
            return Vec::new();
        }
        let cause = format!(
            "The shelf says nothing about its protection board; full output draws peaks of {}.",
            amperes(full)
        );
        return vec![
            Verdict::caution("Protection current of the battery not known", cause)
                .advice("never run lithium cells without a protection board; look up what it passes and write it on the shelf as protection_current"),
        ];
    };
    let limit = limit.si * f64::from(used.count);
    let others = || {
        swap::batteries(evidence, |part| {
            let passes = part.protection_current.map(|value| value.si);
            passes.is_none_or(|passes| passes * f64::from(used.count) >= full)
        })
    };
    let verdict = if brief > limit {
        let cause = format!(
            "Peaks {} draw {}, the protection board passes {}.",
            evidence.at_level(),
            amperes(brief),
            amperes(limit)
        );
        Verdict::stop("Protection board would switch the music off", cause)
            .measured(brief, limit, "A")
            .advice("take a battery whose protection passes more, or play more quietly")
            .mends(others())
    } else if full > limit {
        let cause = format!(
            "Full output draws peaks of {}, the protection board passes {}; {} it is {}.",
            amperes(full),
            amperes(limit),
            evidence.at_level(),
            amperes(brief)
        );
        Verdict::caution("Protection board may switch off at full output", cause)
            .measured(full, limit, "A")
            .advice("take a battery whose protection passes more, or do not turn fully up")
            .mends(others())
    } else {
        let cause = format!(
            "It passes {}; full output draws peaks of {}.",
            amperes(limit),
            amperes(full)
        );
        Verdict::good("Protection board passes the peaks", cause).measured(full, limit, "A")
    };
    vec![verdict]
}

/// Peak current drawn at the brief's loudness in A.
///
/// A switching stage changes its supply down to what the peak needs; a linear
/// one passes its output current.
fn at_brief(evidence: &Evidence<'_>) -> f64 {
    let stage = &evidence.build.amplifier.stage;
    let supply = evidence.build.battery.full_voltage();
    let most = stage.open_circuit_peak(supply);
    let peak = (evidence.scene.crest * evidence.wanted_volts()).min(most);
    let per_volt = evidence.gains.current.iter().copied().fold(0.0, f64::max);
    let output = (peak * per_volt).min(stage.current_limit);
    let share = if stage.linear { 1.0 } else { peak / most };
    let channels = f64::from(evidence.subject.channels_used());
    channels * output * share + stage.idle_current
}
