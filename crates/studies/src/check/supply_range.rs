//! What is fed gets a voltage it stands.

use super::{Check, Evidence, Verdict};
use crate::words::number;
use wiring::{Kind, State};

pub(super) const CHECK: Check = Check {
    id: "supply-range",
    title: "Voltage of radio, converter and lights",
    what: "Whether everything beside the amplifier that is fed gets a voltage within what it stands, \
from the empty battery to the charger's highest voltage where both meet.",
    why: "A radio module for 5 V dies on 12 V in the moment it is connected.",
    limits: "Parts whose range the shelf does not state are not judged.",
    bad: "a radio module for 3.3 V to 5.5 V behind a converter that gives 12 V",
    good: "a converter that gives 5 V before it",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let [full, _, empty] = electrics.supply.volts;
    let charged = electrics
        .modes
        .iter()
        .find(|state| state.mode.state == State::Both);
    let meets = charged.is_some_and(|state| state.charges);
    let used = &evidence.design().battery;
    let charging = used
        .part
        .charge_voltage
        .map_or_else(|| evidence.build.battery.charge_voltage(), |value| value.si);
    let most = if meets { full.max(charging) } else { full };
    let Some(on) = electrics.playing() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut judged = 0;
    for &part in &on.live {
        let own = &electrics.system.parts[part];
        let Some([low, high]) = own.stands.filter(|_| own.kind != Kind::Amplifier) else {
            continue;
        };
        judged += 1;
        let gives = own.fed_by.and_then(|by| electrics.system.parts[by].gives);
        let [least, most] = gives.unwrap_or([empty, most]);
        let behind = &electrics.parts[part];
        let verdict = if most > high {
            let cause = format!(
                "{} ({}) stands {} and gets up to {}.",
                behind.label,
                own.name,
                number(high, "V"),
                number(most, "V")
            );
            Verdict::stop("Voltage too high for it", cause).measured(most, high, "V")
        } else if least < low {
            let cause = format!(
                "{} ({}) needs {} and gets down to {}.",
                behind.label,
                own.name,
                number(low, "V"),
                number(least, "V")
            );
            Verdict::caution("Voltage too low for it", cause).measured(least, low, "V")
        } else {
            continue;
        };
        found.push(
            verdict
                .about([behind.table.as_str()], 1.0)
                .advice("take a converter or a part that fits")
                .at(behind.place),
        );
    }
    if found.is_empty() && judged > 0 {
        let cause =
            "Everything that is fed gets a voltage it stands, from the empty to the full battery.";
        return vec![Verdict::good("Voltages fit", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_converter_of_too_high_a_voltage_is_found() {
        check(CHECK.id, &[], &[]);
        for (volts, severity) in [("5 V", Good), ("12 V", Stop)] {
            let shelf = format!(
                "[[module]]\nname = \"own converter\"\nkind = \"converter\"\nsupply_min = \"9 V\"\nsupply_max = \"18 V\"\noutput_current = \"1 A\"\nefficiency = \"80 %\"\nisolated = true\noutput_voltage = \"{volts}\"\n\
[[module]]\nname = \"own radio\"\nkind = \"radio\"\ncurrent = \"60 mA\"\noutput_level = \"0.9 V\"\nsupply_min = \"4.5 V\"\nsupply_max = \"5.5 V\"\n"
            );
            let keys = [
                ("module.1.part", "own converter"),
                ("module.1.place", "auto"),
                ("module.2.part", "own radio"),
                ("module.2.place", "auto"),
            ];
            with(&[])
                .shelf(&shelf)
                .with(&keys)
                .check(CHECK.id, &[severity]);
        }
    }
}
