//! The battery's protection board against the peaks of music.

use super::{Check, Evidence, Verdict, swap};
use crate::power::peak_current;
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
fn at_brief(evidence: &Evidence<'_>) -> f64 {
    let channels = evidence.subject.channels_used();
    peak_current(
        evidence.build,
        evidence.gains,
        evidence.scene,
        evidence.wanted_volts(),
        channels,
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// The clean design's battery with a protection board that passes so much.
    fn passing(amperes: &str) -> Probe {
        let part = "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\n";
        with(&[]).shelf(&format!("{part}protection_current = \"{amperes}\""))
    }

    #[test]
    fn peaks_decide() {
        let full = passing("10 A").check(CHECK.id, &[Good])[0]
            .measured
            .unwrap();
        assert!(full > 6.0 && full < 9.0, "two channels of some 4 A: {full}");
        passing("6 A").check(CHECK.id, &[Caution]);
        let found = passing("0.3 A").check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some());
    }

    #[test]
    fn batteries_in_parallel_share() {
        passing("4 A")
            .with(&[("battery.count", "2")])
            .check(CHECK.id, &[Good]);
    }

    #[test]
    fn lithium_without_a_word_about_protection_is_doubtful() {
        let part = "[[battery]]\nname = \"bare\"\nchemistry = \"lithium-ion\"\ncells = 3\ncapacity = \"6 Ah\"\nresistance = \"60 mΩ\"\nsize = \"70 x 56 x 40 mm\"\nweight = \"0.3 kg\"\nprice = \"10 €\"";
        let bare = with(&[]).shelf(part).with(&[("battery.part", "bare")]);
        bare.check(CHECK.id, &[Caution]);
        check(CHECK.id, &[("battery.part", "lead-acid 12 V 7 Ah")], &[]);
    }
}
