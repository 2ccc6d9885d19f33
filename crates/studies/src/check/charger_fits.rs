//! The charger against the battery.

use super::{Candidate, Check, Evidence, Verdict};
use crate::words::number;
use design::{Chemistry, Word};

pub(super) const CHECK: Check = Check {
    id: "charger-fits",
    title: "Charger against chemistry and cells",
    what: "Whether chemistry, end voltage and current of the charger are those of the battery.",
    why: "A wrong charger is how lithium cells burn and lead-acid batteries gas. It must be made for \
the chemistry and the number of cells, and end by itself.",
    limits: "End voltage within 1 % above and 3 % below that of the battery; current at most the \
capacity in one hour for lithium and NiMH, in two for iron phosphate, in four for lead-acid, unless \
the maker of the pack states less.",
    bad: "a charger of 16.8 V on four cells of iron phosphate",
    good: "a charger of 14.6 V and 2 A on four cells of iron phosphate with 6 Ah",
    sources: &["common practice, no source"],
    run,
};

/// Hours in which the highest charging current gives the capacity.
const fn least_hours(of: Chemistry) -> f64 {
    match of {
        Chemistry::LeadAcid => 4.0,
        Chemistry::IronPhosphate => 2.0,
        Chemistry::LithiumIon | Chemistry::NickelMetalHydride => 1.0,
    }
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let used = &evidence.design().battery;
    let part = &used.part;
    let said = used.charger_current.is_some() || used.charger_voltage.is_some();
    if !said && used.charger_chemistry.is_none() {
        return Vec::new();
    }
    let mut found = Vec::new();
    if let Some(chemistry) = &used.charger_chemistry
        && chemistry.value != part.chemistry.value
    {
        found.push(
            Verdict::stop(
                "Charger for another chemistry",
                "The charger is made for another chemistry than the battery's.",
            )
            .advice("take the charger that belongs to the battery")
            .at(chemistry.place)
            .mends([Candidate::set(
                "a charger for this chemistry",
                "battery.charger_chemistry",
                part.chemistry.value.word(),
            )]),
        );
    }
    let usual = evidence.build.battery.charge_voltage();
    let full = part.charge_voltage.map_or(usual, |value| value.si);
    if let Some(volts) = used.charger_voltage.map(|value| value.si) {
        let cause = format!(
            "The charger ends at {}, the battery at {}.",
            number(volts, "V"),
            number(full, "V")
        );
        let mend = Candidate::set(
            "a charger of the right voltage",
            "battery.charger_voltage",
            design::format_rounded(full, design::Dimension::Voltage, 3),
        );
        let verdict = if volts > 1.01 * full {
            Some(Verdict::stop("Charger's voltage too high", cause))
        } else if volts < 0.97 * full {
            Some(Verdict::caution("Charger's voltage too low", cause))
        } else {
            None
        };
        let with = |verdict: Verdict| {
            verdict
                .measured(volts, full, "V")
                .advice("take the charger that belongs to the battery")
                .mends([mend])
        };
        found.extend(verdict.map(with));
    }
    let hours = least_hours(part.chemistry.value);
    let most = f64::from(used.count) * part.capacity.si / 3600.0 / hours;
    if let Some(amperes) = used.charger_current.map(|value| value.si)
        && amperes > most * (1.0 + 1e-9)
    {
        let cause = format!(
            "The charger gives {}; this battery takes at most {}, its capacity in {}.",
            number(amperes, "A"),
            number(most, "A"),
            number(hours, "h")
        );
        found.push(
            Verdict::stop("Charger's current too high", cause)
                .measured(amperes, most, "A")
                .advice("take a smaller charger, or one the maker of the pack allows")
                .mends([Candidate::set(
                    "a smaller charger",
                    "battery.charger_current",
                    design::format_rounded(0.99 * most, design::Dimension::Current, 2),
                )]),
        );
    }
    if found.is_empty() {
        let cause = format!(
            "It must be made for this chemistry and end at {} by itself.",
            number(full, "V")
        );
        found.push(Verdict::good("Charger fits the battery", cause));
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// The mend names a charger that fits; it does not leave the wrong one unsaid.
    #[test]
    fn a_charger_for_another_chemistry_is_replaced() {
        let wrong = [("battery.charger_chemistry", "lead-acid")];
        let found = check(CHECK.id, &wrong, &[Stop]);
        let edits = &found[0].mend.as_ref().unwrap().edits;
        assert_eq!(edits[0].key, "battery.charger_chemistry");
        assert_eq!(edits[0].value.as_deref(), Some("iron phosphate"));
    }

    #[test]
    fn current_voltage_and_chemistry_count() {
        check(CHECK.id, &[], &[]);
        for (key, value, severity) in [
            ("battery.charger_current", "2 A", Good),
            ("battery.charger_current", "8 A", Stop),
            ("battery.charger_voltage", "14.6 V", Good),
            ("battery.charger_voltage", "16.8 V", Stop),
            ("battery.charger_voltage", "13 V", Caution),
            ("battery.charger_chemistry", "lead-acid", Stop),
        ] {
            let found = check(CHECK.id, &[(key, value)], &[severity]);
            assert_eq!(found[0].mend.is_some(), severity != Good, "{found:#?}");
        }
    }
}
