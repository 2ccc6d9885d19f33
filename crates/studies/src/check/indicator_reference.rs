//! The reference of the low-battery light on an empty battery.

use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::words::number;
use design::VoltageReference;

pub(super) const CHECK: Check = Check {
    id: "indicator-reference",
    title: "Reference on an empty battery",
    what: "Whether the reference of the low-battery light still gets the current it wants when the \
battery is empty and sags.",
    why: "A starved zener or shunt reference follows the battery down, and with it the threshold: the \
light never comes on.",
    limits: "A zener is taken to want a quarter of its test current; the supply is taken at the end \
voltage less the sag at the peaks.",
    bad: "a 10 V zener on a battery that goes down to 9 V",
    good: "a reference of 2.5 V",
    sources: &["common practice, no source"],
    run,
};

/// Volts a feeding resistor must have left to work as one, as a share of the supply.
const LEFT: f64 = 0.05;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(indicator), Some(used)) = (evidence.indicator(), &evidence.design().indicator) else {
        return Vec::new();
    };
    let lowest = indicator.wanted.supply[0];
    if let Some((reference, place)) = &used.reference {
        let (name, volts) = match reference {
            VoltageReference::Zener(part) => (
                &part.common.name.text,
                part.voltage.si * (1.0 + part.tolerance.si),
            ),
            VoltageReference::Shunt(part) => (
                &part.common.name.text,
                part.voltage.si * (1.0 + part.tolerance.si),
            ),
        };
        let most = lowest * (1.0 - LEFT);
        if volts > most {
            let cause = format!(
                "{name} stands at up to {volts:.2} V; the battery sags to {}, which leaves its resistor nothing.",
                number(lowest, "V")
            );
            return vec![
                Verdict::stop("Reference is starved before the battery is low", cause)
                    .measured(volts, most, "V")
                    .advice(
                        "take a reference of a lower voltage, or leave the choice to the program",
                    )
                    .at(*place)
                    .mends([Candidate::new(
                        "leave the reference to the program",
                        [Edit::remove("indicator.reference")],
                    )]),
            ];
        }
    }
    let Some(built) = &indicator.built else {
        return Vec::new();
    };
    let limits = &built.limits;
    let milli = |amperes: f64| number(1000.0 * amperes, "mA");
    let cause = format!(
        "It gets {} at {} and wants {}.",
        milli(limits.reference_current),
        number(lowest, "V"),
        milli(limits.reference_wants)
    );
    vec![
        Verdict::good("Reference is fed to the last", cause).measured(
            1000.0 * limits.reference_current,
            1000.0 * limits.reference_wants,
            "mA",
        ),
    ]
}
