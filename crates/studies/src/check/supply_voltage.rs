//! Battery voltage against the limits of the amplifier board.

use super::{Check, Evidence, Verdict, swap};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "supply-voltage",
    title: "Battery voltage against the board's limits",
    what: "Whether the battery, full and on its charger, stays below what the amplifier board \
bears, and whether it is enough to run the board.",
    why: "A board dies within milliseconds above its absolute limit, and a battery is highest \
when fresh from the charger: 4.20 V a cell for lithium-ion, 3.65 V for iron phosphate, 14.4 to 14.7 V \
for a 12 V lead-acid battery. Advertised watts are often those at a voltage the battery never has.",
    limits: "Steady voltages only: spikes from long leads and from plugging in under load come on \
top, which is why little room below the absolute limit is a caution. On-charger voltage counts only \
where the battery is charged inside the box; a switch that parts the board from the battery while \
charging is not known to the design.",
    bad: "an eight-cell iron phosphate battery (29.2 V on the charger) on a board made for 26 V",
    good: "a four-cell iron phosphate battery (14.6 V) on a board that bears 18 V and is recommended to 16 V",
    sources: &["common practice, no source"],
    run,
};

/// Share of the absolute limit above which little is left for spikes: common practice, no source.
const CLOSE: f64 = 0.95;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let board = &evidence.design().amplifier.part;
    let battery = &evidence.build.battery;
    let (highest, when) = highest(evidence);
    let volts = |value: f64| number(value, "V");
    let least = board.supply_min.si;
    if battery.mid_voltage() < least {
        let cause = format!(
            "Half empty it gives {}, and the board needs at least {}.",
            volts(battery.mid_voltage()),
            volts(least)
        );
        return vec![
            Verdict::stop("Battery voltage too low for the board", cause)
                .measured(battery.mid_voltage(), least, "V")
                .advice("take a battery with more cells, or a board for a lower supply")
                .mends(others(evidence)),
        ];
    }
    let absolute = board.supply_max.si;
    let recommended = board.supply_recommended.map(|value| value.si);
    let verdict = if highest > absolute {
        let cause = format!(
            "{when} it has {}; the board bears {} at the very most.",
            volts(highest),
            volts(absolute)
        );
        Verdict::stop("Battery voltage too high for the board", cause)
            .measured(highest, absolute, "V")
            .advice("take a battery with fewer cells, or a board for a higher supply")
    } else if let Some(limit) = recommended.filter(|limit| highest > *limit) {
        let cause = format!(
            "{when} it has {}; up to {} is recommended, {} is the absolute limit.",
            volts(highest),
            volts(limit),
            volts(absolute)
        );
        Verdict::caution("Battery above the recommended supply", cause)
            .measured(highest, limit, "V")
            .advice("take a board with more room, or a battery with fewer cells")
    } else if highest > CLOSE * absolute {
        let cause = format!(
            "{when} it has {}, which leaves {} below the absolute limit of {}: too little for spikes.",
            volts(highest),
            volts(absolute - highest),
            volts(absolute)
        );
        Verdict::caution("Battery close to the board's absolute limit", cause)
            .measured(highest, CLOSE * absolute, "V")
            .advice("take a board with more room, or a battery with fewer cells")
    } else {
        let cause = format!(
            "{when} it has {}, the board bears {}.",
            volts(highest),
            volts(absolute)
        );
        return vec![
            Verdict::good("Battery voltage suits the board", cause)
                .measured(highest, absolute, "V"),
        ];
    };
    vec![verdict.mends(others(evidence))]
}

/// The highest voltage the board meets, and when.
fn highest(evidence: &Evidence<'_>) -> (f64, &'static str) {
    let used = &evidence.design().battery;
    let battery = &evidence.build.battery;
    let charging = used
        .part
        .charge_voltage
        .map_or(battery.charge_voltage(), |value| value.si);
    let full = battery.full_voltage();
    if used.charged_inside.value && charging > full {
        (charging, "On the charger")
    } else {
        (full, "Fully charged")
    }
}

fn others(evidence: &Evidence<'_>) -> impl Iterator<Item = super::Candidate> {
    swap::amplifiers(evidence, |_| true)
        .into_iter()
        .chain(swap::batteries(evidence, |_| true))
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// A board that bears so much; recommended where given.
    const BOARD: &str = "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\n";

    fn on_board(limits: &str) -> Probe {
        with(&[]).shelf(&format!("{BOARD}{limits}"))
    }

    #[test]
    fn full_charge_decides() {
        // Four iron phosphate cells: 14.4 V full, 14.6 V on the charger.
        let clear = "supply_max = \"16 V\"\nsupply_recommended = \"15 V\"";
        on_board(clear).check(CHECK.id, &[Good]);
        let close = "supply_max = \"15 V\"\nsupply_recommended = \"15 V\"";
        on_board(close).check(CHECK.id, &[Caution]);
        let above = "supply_max = \"16 V\"\nsupply_recommended = \"14 V\"";
        on_board(above).check(CHECK.id, &[Caution]);
        let broken = "supply_max = \"14.3 V\"\nsupply_recommended = \"14 V\"";
        let found = on_board(broken).check(CHECK.id, &[Stop]);
        assert!((found[0].measured.unwrap() - 14.4).abs() < 1e-9);
    }

    #[test]
    fn the_charger_counts_only_inside() {
        let between = "supply_max = \"14.5 V\"\nsupply_recommended = \"14.5 V\"";
        on_board(between).check(CHECK.id, &[Caution]);
        let inside = on_board(between).with(&[("battery.charged_inside", "true")]);
        inside.check(CHECK.id, &[Stop]);
    }

    #[test]
    fn too_few_cells_run_nothing() {
        let found = check(
            CHECK.id,
            &[("battery.part", "lithium-ion 3.6 V 5 Ah")],
            &[Stop],
        );
        assert!(found[0].mend.is_some());
    }
}
