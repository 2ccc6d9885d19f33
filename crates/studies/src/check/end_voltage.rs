//! Where the discharge ends: battery, chemistry and board.

use super::{Check, Evidence, Verdict};
use crate::words::number;
use design::Chemistry;

pub(super) const CHECK: Check = Check {
    id: "end-voltage",
    title: "Where the discharge ends",
    what: "Whether the stated end of discharge is safe for the chemistry, and whether the \
battery is empty before the amplifier board gives up.",
    why: "A lead-acid battery drained below 10.5 V per 12 V block sulphates, a lithium cell \
drained below its end voltage is damaged and dangerous to charge again. Where the board gives up \
first, part of the capacity that was paid for and carried is never used.",
    limits: "The end voltage of the chemistry is the usual one; the maker's sheet comes first. \
Whether something really switches off there is not known to the design.",
    bad: "a three-cell lithium-ion pack with end_voltage = \"7.5 V\"",
    good: "the same pack with end_voltage = \"9 V\", on a board that works down to 7 V",
    sources: &["common practice, no source"],
    run,
};

/// How far below the usual end voltage a stated one may lie: sheets differ so much.
const LEEWAY: f64 = 0.97;

/// Share of the charge left in the battery by the board from which on it is worth a word.
const WASTED: f64 = 0.05;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    vec![against_chemistry(evidence), against_board(evidence)]
}

fn against_chemistry(evidence: &Evidence<'_>) -> Verdict {
    let battery = &evidence.build.battery;
    let chemistry = evidence.design().battery.part.chemistry.value;
    let usual = battery.chemistry.end_voltage_per_cell() * f64::from(battery.cells);
    let end = evidence.subject.battery.own_end_voltage();
    let volts = |value: f64| number(value, "V");
    if end >= LEEWAY * usual {
        let cause = format!(
            "It is counted empty at {}; its chemistry bears {}.",
            volts(end),
            volts(usual)
        );
        return Verdict::good("Discharge ends where the battery bears it", cause)
            .measured(end, usual, "V");
    }
    let cause = format!(
        "It would be drained to {}, {} a cell; {} is as low as its chemistry bears.",
        volts(end),
        volts(end / f64::from(battery.cells)),
        volts(usual)
    );
    let lithium = matches!(chemistry, Chemistry::LithiumIon | Chemistry::IronPhosphate);
    let verdict = if lithium {
        Verdict::stop("Lithium cells would be drained too far", cause)
    } else {
        Verdict::caution("Battery would be drained too far", cause)
    };
    verdict.measured(end, usual, "V").advice(format!(
        "end the discharge at {} or above: correct end_voltage on the shelf, and see to it that something switches off there",
        volts(usual)
    ))
}

fn against_board(evidence: &Evidence<'_>) -> Verdict {
    let least = evidence.design().amplifier.part.supply_min.si;
    let end = evidence.subject.battery.own_end_voltage();
    let volts = |value: f64| number(value, "V");
    let left = charge_left(evidence, least);
    if end >= least || left < WASTED {
        let (title, then) = if end >= least {
            (
                "Battery is empty before the board gives up",
                "Something must end the discharge there: the pack's protection, or a low-voltage cut-off.",
            )
        } else {
            (
                "Board gives up when the battery is all but empty",
                "Little is lost by that.",
            )
        };
        let cause = format!(
            "The board works down to {}; the battery is empty at {}. {then}",
            volts(least),
            volts(end)
        );
        return Verdict::good(title, cause).measured(end, least, "V");
    }
    let cause = format!(
        "The board needs {}, the battery is empty only at {}: about {} of its charge cannot be used.",
        volts(least),
        volts(end),
        number(100.0 * left, "%")
    );
    Verdict::caution("Board gives up before the battery is empty", cause)
        .measured(end, least, "V")
        .advice("take a board that works at a lower supply, or a battery with more cells")
        .mends(super::swap::amplifiers(evidence, |board| {
            board.supply_min.si <= end
        }))
        .mends(super::swap::batteries(evidence, |_| true))
}

/// Share of the charge left where the battery's voltage, while playing as the
/// brief asks, falls to `least`.
fn charge_left(evidence: &Evidence<'_>, least: f64) -> f64 {
    let power = evidence.outcome.draw_brief;
    let battery = &evidence.build.battery;
    let too_low = |charge: f64| {
        battery
            .loaded_voltage(charge, power)
            .is_none_or(|volts| volts < least)
    };
    if too_low(1.0) {
        return 1.0;
    }
    super::variant::least_that(0.0, 1.0, |charge| !too_low(charge)).unwrap_or(1.0)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// The clean design's battery with another end.
    fn ending_at(volts: &str) -> Probe {
        let part = "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\n";
        with(&[]).shelf(&format!("{part}end_voltage = \"{volts}\""))
    }

    #[test]
    fn lithium_is_not_drained_further_than_it_bears() {
        // Four cells of 2.5 V; three per cent of leeway.
        ending_at("10 V").check(CHECK.id, &[Good, Good]);
        ending_at("9.8 V").check(CHECK.id, &[Good, Good]);
        ending_at("9.5 V").check(CHECK.id, &[Stop, Good]);
    }

    #[test]
    fn lead_is_harmed_rather_than_dangerous() {
        let part = "[[battery]]\nname = \"lead-acid 12 V 7 Ah\"\nend_voltage = \"9 V\"";
        let lead = with(&[("battery.part", "lead-acid 12 V 7 Ah")]).shelf(part);
        lead.check(CHECK.id, &[Caution, Good]);
    }

    #[test]
    fn a_board_that_gives_up_early_wastes_charge() {
        let part = "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\n";
        let board = |least: &str| with(&[]).shelf(&format!("{part}supply_min = \"{least}\""));
        board("10.4 V").check(CHECK.id, &[Good, Good]);
        let found = board("13 V").check(CHECK.id, &[Caution, Good]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }
}
