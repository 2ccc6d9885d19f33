//! A light is not a cut-off.

use super::{Candidate, Check, Evidence, Verdict};
use crate::words::number;
use design::CutOff;

pub(super) const CHECK: Check = Check {
    id: "indicator-cut-off",
    title: "A light is not a cut-off",
    what: "Whether something ends the discharge where nobody looks at the low-battery light.",
    why: "A box left playing empties its battery past what the cells bear: lead-acid sulphates, \
lithium cells without a protection board are ruined and may burn when charged again.",
    limits: "A protection board ends the discharge of lithium cells, but far down; it is the last \
resort, not the switch. Follow the cell maker's sheet.",
    bad: "a light alone on a lead-acid battery",
    good: "cut_off = \"mosfet\", or a pack with a protection board",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(indicator), Some(used)) = (evidence.indicator(), &evidence.design().indicator) else {
        return Vec::new();
    };
    let battery = &evidence.design().battery.part;
    let end = evidence.subject.battery.own_end_voltage();
    let least = evidence.design().amplifier.part.supply_min.si;
    let built = indicator.built.as_ref();
    if let Some(cut_off) = built.and_then(|built| built.cut_off.as_ref()) {
        let cause = format!(
            "{} disconnects the load at {:.2} V ({:.2} to {:.2} V at worst) and stays off until it is started anew; it draws {} meanwhile.",
            cut_off.switch,
            cut_off.falling.volts,
            cut_off.falling.least,
            cut_off.falling.most,
            number(1000.0 * cut_off.dark, "mA")
        );
        return vec![
            Verdict::good("The load is cut off in time", cause).measured(
                cut_off.falling.volts,
                end,
                "V",
            ),
        ];
    }
    if used.cut_off.value != CutOff::None {
        let wanted = match used.cut_off.value {
            CutOff::Mosfet => {
                "No P-channel field-effect transistor of the shelf, with an N-channel one to drive it,"
            }
            CutOff::Relay | CutOff::None => {
                "No relay of the shelf, with an N-channel field-effect transistor to drive it,"
            }
        };
        let cause = format!(
            "{wanted} carries the peaks and is driven by this battery, or no comparator holds it off: nothing is cut off."
        );
        return vec![
            Verdict::stop("No cut-off can be made from the shelf", cause)
                .advice("put a relay or a P-channel field-effect transistor for this current on the shelf, and do not join the cut-off of the wire list")
                .at(used.cut_off.place.unwrap_or(used.place)),
        ];
    }
    if built.is_none() {
        return Vec::new();
    }
    if least >= end {
        let cause = format!(
            "The board itself gives up at {}, above the {} where the battery is empty; it still draws its rest current.",
            number(least, "V"),
            number(end, "V")
        );
        return vec![
            Verdict::good("The board gives up before the battery", cause).measured(least, end, "V"),
        ];
    }
    if battery.protection_current.is_some() {
        let cause = "The pack's protection board is the last resort; the light is there to be looked at first.";
        return vec![Verdict::good(
            "A protection board ends the discharge",
            cause,
        )];
    }
    let cause = format!(
        "It only warns: nothing ends the discharge at {}.",
        number(end, "V")
    );
    let set = |kind: &str| {
        Candidate::set(
            format!("cut the load off with a {kind}"),
            "indicator.cut_off",
            kind,
        )
    };
    vec![
        Verdict::caution("A light does not save the battery", cause)
            .advice("add a cut-off, or take a pack with a protection board")
            .at(used.place)
            .mends([set("mosfet"), set("relay")]),
    ]
}
