//! The comparator of the low-battery light within its limits.

use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::indicator::Indicator;
use crate::words::number;
use design::ComparatorPart;

pub(super) const CHECK: Check = Check {
    id: "indicator-inputs",
    title: "Comparator within its limits",
    what: "Whether the comparator of the low-battery light bears the battery's voltage, takes the \
reference at its inputs on an empty battery, and pulls high enough for the lamp to be dark.",
    why: "Outside its input range a comparator may turn round and report a full battery; an output that \
stays volts below the supply leaves the lamp glowing all the time.",
    limits: "Goes by what the shelf says of the part.",
    bad: "an operational amplifier whose output stays 1.6 V below the supply, with a red lamp",
    good: "a comparator with an open collector, or one that reaches the rail",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(indicator), Some(used)) = (evidence.indicator(), &evidence.design().indicator) else {
        return Vec::new();
    };
    if let Some((part, _)) = &used.comparator
        && let Some(fault) = supply_fault(part, indicator.wanted.supply)
    {
        return vec![
            Verdict::stop("The comparator does not bear this battery", fault.0)
                .measured(fault.1, fault.2, "V")
                .advice("take another comparator, or leave the choice to the program")
                .at(used.place)
                .mends(free()),
        ];
    }
    match &indicator.built {
        Some(built) => vec![within(indicator, built, used.place)],
        None => none(indicator, used.place),
    }
}

fn within(indicator: &Indicator, built: &crate::indicator::Built, place: design::Place) -> Verdict {
    let limits = &built.limits;
    if limits.dark_volts >= limits.glows {
        let cause = format!(
            "When high, the output of {} leaves {:.2} V across lamp and resistor; from {:.2} V on it glows.",
            built.comparator, limits.dark_volts, limits.glows
        );
        return Verdict::caution("Low-battery light never goes quite dark", cause)
            .measured(limits.dark_volts, limits.glows, "V")
            .advice("take a comparator that reaches the rail or has an open collector, or a lamp with a higher forward voltage")
            .at(place)
            .mends(free());
    }
    let cause = format!(
        "Its inputs stand at {:.2} V and take {:.2} to {:.2} V on {}; the output takes {} of {}.",
        built.input,
        limits.input_least,
        limits.input_most,
        number(indicator.wanted.supply[0], "V"),
        number(1000.0 * limits.sunk, "mA"),
        number(1000.0 * limits.sinks, "mA")
    );
    Verdict::good("Comparator works within its limits", cause).measured(
        built.input,
        limits.input_most,
        "V",
    )
}

/// Nothing on the shelf does it: told here once, unless the reference is at fault.
fn none(indicator: &Indicator, place: design::Place) -> Vec<Verdict> {
    let cause = indicator.remarks.join(" ");
    vec![
        Verdict::caution("No circuit for the low-battery light", cause)
            .advice("put more values on the shelf, ask for less delay, or leave comparator and reference to the program")
            .at(place)
            .mends(free()),
    ]
}

fn supply_fault(part: &ComparatorPart, [lowest, highest]: [f64; 2]) -> Option<(String, f64, f64)> {
    let name = &part.common.name.text;
    let volts = |value: f64| number(value, "V");
    if part.supply_max.si < highest {
        let cause = format!(
            "{name} bears {}, the battery on its charger has {}.",
            volts(part.supply_max.si),
            volts(highest)
        );
        return Some((cause, highest, part.supply_max.si));
    }
    (part.supply_min.si > lowest).then(|| {
        let cause = format!(
            "{name} wants {}, the battery falls to {}.",
            volts(part.supply_min.si),
            volts(lowest)
        );
        (cause, lowest, part.supply_min.si)
    })
}

/// Comparator and reference left to the program.
fn free() -> Vec<Candidate> {
    vec![
        Candidate::new(
            "leave the comparator to the program",
            [Edit::remove("indicator.comparator")],
        ),
        Candidate::new(
            "leave the reference to the program",
            [Edit::remove("indicator.reference")],
        ),
    ]
}
