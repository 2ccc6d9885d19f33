//! The filter of a switching output into the computed impedance.

use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::signal::{self, AUDIBLE, Damped, Filtered};
use crate::words::{number, stated};

pub(super) const CHECK: Check = Check {
    id: "output-filter",
    title: "Output filter into the drivers",
    what: "Whether the filter at a switching output peaks into the impedance the drivers really have, up \
to 20 kHz and beyond.",
    why: "Such filters are sized for a resistor. A voice coil is a coil too: at the filter's own frequency \
it is hardly a load, and the filter rings. What is heard of it is a lift of the highest treble; what is \
not heard costs the board current and may trip its protection.",
    limits: "A rise of 1 dB up to 20 kHz is a caution. The peak above is told, not judged: there the law of the \
coil is a guess, and one without losses overstates it. Boards that do not state their filter are \
not judged.",
    bad: "47 µH and 2.2 µF a leg: it rings at 20 kHz into a coil of 0.1 mH",
    good: "10 µH and 0.68 µF a leg: its peak stands at 80 kHz, and 0.3 dB are left at 20 kHz",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(filter) = signal::filter(evidence.subject, evidence.build) else {
        return Vec::new();
    };
    let numbers = format!(
        "Into the computed impedance it rises by {} up to 20 kHz and peaks by {} at {}",
        number(filter.audible.max(0.0), "dB"),
        number(filter.peak.0, "dB"),
        number(filter.peak.1 / 1000.0, "kHz")
    );
    let (measured, limit) = (filter.audible, AUDIBLE);
    if measured <= limit {
        let cause = format!("{numbers}{}.", offered(&filter));
        let good = Verdict::good("Output filter suits the drivers", cause);
        return vec![good.measured(filter.audible.max(0.0), AUDIBLE, "dB")];
    }
    let advice = match &filter.damped {
        Some(damped) => format!("put {} across each output", values(damped)),
        None => "take drivers or a board with another filter".to_owned(),
    };
    let mend = filter.damped.as_ref().map(candidate);
    vec![
        Verdict::caution(
            "Output filter peaks into the drivers",
            format!("{numbers}."),
        )
        .measured(measured, limit, "dB")
        .advice(advice)
        .mends(mend),
    ]
}

fn values(damped: &Damped) -> String {
    format!(
        "{} and {} in series",
        stated(damped.resistance, "Ω"),
        stated(1e6 * damped.capacitance, "µF")
    )
}

/// What would damp it, where it peaks above hearing only.
fn offered(filter: &Filtered) -> String {
    if filter.damped_now {
        return ", damped as the design says".to_owned();
    }
    filter.damped.as_ref().map_or(String::new(), |damped| {
        format!(
            ", which nobody hears; {} across each output would hold it to {}",
            values(damped),
            number(damped.peak, "dB")
        )
    })
}

fn candidate(damped: &Damped) -> Candidate {
    Candidate::new(
        format!("{} across each output", values(damped)),
        [
            Edit::set("amplifier.damping_resistor", stated(damped.resistance, "Ω")),
            Edit::set(
                "amplifier.damping_capacitor",
                stated(1e6 * damped.capacitance, "µF"),
            ),
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_slow_filter_lifts_the_treble() {
        check(CHECK.id, &[], &[Good]);
        let slow = "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nfilter_inductance = \"47 µH\"\n\
                    filter_capacitance = \"2.2 µF\"\n";
        let found = with(&[]).shelf(slow).check(CHECK.id, &[Caution]);
        assert!(found[0].measured.unwrap() > 1.0);
    }

    /// What is offered can be bought, and clears the finding when it is put in.
    #[test]
    fn a_filter_that_rings_is_mended_with_real_values() {
        let rings = "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nfilter_inductance = \"47 µH\"\n\
                     filter_capacitance = \"2.2 µF\"\n";
        let found = with(&[]).shelf(rings).check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        let edits: Vec<(&str, &str)> = mend
            .edits
            .iter()
            .map(|edit| (edit.key.as_str(), edit.value.as_deref().unwrap()))
            .collect();
        assert_eq!(edits[0].0, "amplifier.damping_resistor", "{mend:?}");
        assert_eq!(edits[1].0, "amplifier.damping_capacitor", "{mend:?}");
        let mended = with(&edits).shelf(rings).check(CHECK.id, &[Good]);
        assert!(mended[0].cause.contains("damped as the design says"));
    }
}
