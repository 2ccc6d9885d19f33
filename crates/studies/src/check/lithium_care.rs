//! What anyone with a lithium battery in a wooden box should know.

use super::{Candidate, Check, Evidence, Verdict};
use crate::words::number;
use design::Chemistry;

pub(super) const CHECK: Check = Check {
    id: "lithium-care",
    title: "Care with lithium batteries",
    what: "Whether a lithium battery is charged inside the box, and what to keep to in any case.",
    why: "A lithium battery that is overcharged, drained, crushed or charged in the cold can catch \
fire, and a closed wooden box holds the heat in.",
    limits: "A reminder, not a judgement of the pack or the charger. The makers' sheets and local \
codes come first.",
    bad: "a pack of salvaged cells without protection, charged by a plain adaptor inside the box",
    good: "a protected pack of a known maker, taken out to be charged by the charger made for it",
    sources: &["common practice, no source"],
    run,
};

/// Energy in Wh that airlines take without asking, and with approval: common practice, no source.
const AIRLINE: (f64, f64) = (100.0, 160.0);

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let used = &evidence.design().battery;
    let chemistry = used.part.chemistry.value;
    if !matches!(chemistry, Chemistry::LithiumIon | Chemistry::IronPhosphate) {
        return Vec::new();
    }
    let battery = &evidence.build.battery;
    let charge = used
        .part
        .charge_voltage
        .map_or(battery.charge_voltage(), |value| value.si);
    let cells = match battery.cells {
        1 => "a single cell of this chemistry".to_owned(),
        cells => format!("{cells} cells of this chemistry in series"),
    };
    let mut care = format!(
        "Only a protected pack of a known maker, with a charger made for {cells} ({}). No salvaged cells; no charging below 0 °C; stop using it when it swells.",
        number(charge, "V")
    );
    let energy = used.part.capacity.si / 3600.0 * battery.mid_voltage();
    if energy > AIRLINE.0 {
        let rule = if energy > AIRLINE.1 {
            "airlines do not take it"
        } else {
            "airlines take it only with approval"
        };
        care += &format!(" With {} {rule}.", number(energy, "Wh"));
    }
    if !used.charged_inside.value {
        return vec![Verdict::good(
            "Lithium battery comes out for charging",
            care,
        )];
    }
    vec![
        Verdict::caution("Lithium battery is charged inside the box", care)
            .advice("take it out to charge, or charge it where someone is near, with the box open and nothing that burns around it")
            .mends([Candidate::set(
                "take the battery out to charge",
                "battery.charged_inside",
                "false",
            )]),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn charging_inside_is_a_caution() {
        check(CHECK.id, &[], &[Good]);
        let inside = ("battery.charged_inside", "true");
        let found = check(CHECK.id, &[inside], &[Caution]);
        assert!(found[0].mend.is_some());
        check(
            CHECK.id,
            &[inside, ("battery.part", "lead-acid 12 V 7 Ah")],
            &[],
        );
    }

    #[test]
    fn airlines_are_named_above_a_hundred_watt_hours() {
        let cause = |part| {
            check(CHECK.id, &[("battery.part", part)], &[Good])[0]
                .cause
                .clone()
        };
        assert!(!cause("iron phosphate 12.8 V 6 Ah").contains("airlines"));
        assert!(cause("lithium-ion 14.4 V 6.8 Ah").contains("only with approval"));
        assert!(cause("iron phosphate 12.8 V 12 Ah").contains("only with approval"));
    }
}
