//! A lead-acid battery charged in an airtight box.

use super::{Candidate, Check, Evidence, Verdict, battery_bay};
use design::Chemistry;

pub(super) const CHECK: Check = Check {
    id: "lead-acid-airtight",
    title: "Lead-acid battery in an airtight box",
    what: "Whether a lead-acid battery would be charged inside a closed chamber.",
    why: "Near the end of its charge a lead-acid battery gives off hydrogen and oxygen, a sealed \
one through its safety valves. In a closed wooden box the mixture collects, and a switch or a relay can \
ignite it.",
    limits: "Looks at what the design says about charging and about a bay of its own; it does not \
compute the ventilation. Follow the battery maker's sheet and local codes.",
    bad: "lead-acid battery, charged_inside = true, vented_bay = false",
    good: "vented_bay = true (a bay open to the outside and closed towards the drivers), or charged_inside = false",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let battery = &evidence.design().battery;
    if battery.part.chemistry.value != Chemistry::LeadAcid {
        return Vec::new();
    }
    if battery.vented_bay.value {
        return vec![Verdict::good(
            "Lead-acid battery has a vented bay",
            "Gas given off while charging can leave; keep the bay closed towards the drivers.",
        )];
    }
    if !battery.charged_inside.value {
        return vec![Verdict::good(
            "Lead-acid battery comes out for charging",
            "It is not charged inside the closed box.",
        )];
    }
    let out = Candidate::set(
        "take the battery out to charge",
        "battery.charged_inside",
        "false",
    );
    vec![
        Verdict::stop(
            "Lead-acid battery would be charged in a closed box",
            "Charging gives off hydrogen, which collects in a closed box and can be ignited by a switch.",
        )
        .advice("give it a bay of its own that is open to the outside, or take it out to charge")
        .mends(battery_bay::bays(evidence))
        .mends([out]),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_bay_or_taking_it_out_makes_it_safe() {
        let lead = [("battery.part", "lead-acid 12 V 7 Ah")];
        let inside = ("battery.charged_inside", "true");
        let bay = ("battery.vented_bay", "true");
        let found = check(CHECK.id, &[lead[0], inside], &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
        check(CHECK.id, &lead, &[Good]);
        check(CHECK.id, &[lead[0], inside, bay], &[Good]);
        check(CHECK.id, &[inside], &[]);
    }
}
