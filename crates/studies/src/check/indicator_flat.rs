//! What the voltage of a battery with a flat curve tells.

use super::{Check, Evidence, Verdict};
use crate::words::number;
use design::Chemistry;

pub(super) const CHECK: Check = Check {
    id: "indicator-flat",
    title: "What the voltage tells of the charge left",
    what: "How far the music left when the light comes on spreads over the builds, for cells whose \
voltage hardly changes while they empty.",
    why: "Iron phosphate keeps within a tenth of a volt a cell for most of its charge. A threshold with \
the tolerances of real parts then lights anywhere between soon and hours too early; no choice of \
resistors helps.",
    limits: "Temperature and rest move the voltage of such a cell as much as its charge does, which is \
not counted: take the minutes as those of a pack at room temperature. Lithium-ion and \
lead-acid, whose voltage falls steadily, are not judged.",
    bad: "a voltage threshold for half an hour of warning on iron phosphate",
    good: "the last twenty minutes of a day's music, where even its voltage falls",
    sources: &["prada-2013"],
    run,
};

/// Band of the music left over the warning wanted, beyond which the voltage tells little.
const WIDE: f64 = 3.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(indicator) = evidence.indicator() else {
        return Vec::new();
    };
    let (Some(built), Some(plateau)) = (&indicator.built, indicator.plateau) else {
        return Vec::new();
    };
    let name = match evidence.design().battery.part.chemistry.value {
        Chemistry::IronPhosphate => "iron phosphate",
        Chemistry::NickelMetalHydride => "nickel-metal hydride",
        Chemistry::LithiumIon | Chemistry::LeadAcid => return Vec::new(),
    };
    let place = evidence.design().indicator.as_ref().map(|used| used.place);
    let band = built.left_band;
    let wide = (band.p90 - band.p10) / indicator.wanted.warning;
    let minutes = |seconds: f64| number(seconds / 60.0, "min");
    let cause = format!(
        "Around the threshold of {:.2} V the voltage falls by {:.0} mV in an hour of music, and the threshold itself lies between {:.2} V and {:.2} V in eight builds of ten: they have {} to {} left when it lights, {} was wanted. Before, the voltage tells hardly anything: from 90 % to 20 % of the charge it moves by {:.2} V in all.",
        built.falling.volts,
        1000.0 * indicator.steepness,
        built.falling.band.p10,
        built.falling.band.p90,
        minutes(band.p10),
        minutes(band.p90),
        minutes(indicator.wanted.warning),
        plateau
    );
    if wide <= WIDE {
        let title = format!("The voltage of {name} tells the last stretch only");
        return vec![Verdict::good(title, cause).measured(wide, WIDE, "")];
    }
    vec![
        Verdict::caution(format!("The voltage of {name} tells little"), cause)
            .measured(wide, WIDE, "")
            .advice("take the light as \"the last stretch has begun\"; for minutes, use a meter that counts charge, or read the clock")
            .at(place),
    ]
}
