//! The rush into capacitors against the battery's protection board.

use super::{Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "protection-latch",
    title: "Protection board when switched on",
    what: "Whether the rush into the empty capacitors of the boards stays above the current of the \
battery's protection board long enough to trip it.",
    why: "The board takes the rush for a short circuit and switches off; many stay off until the \
charger is plugged in, and the box seems dead.",
    limits: "Taken to trip after half a millisecond above its rated current (from memory; makers state \
0.2 to 1 ms for a short circuit). What a board does to soften its start is not known. Peaks of music \
are the business of the check of peak current.",
    bad: "10,000 µF on a pack whose protection passes 4 A",
    good: "1000 µF on a pack whose protection passes 15 A",
    sources: &["common practice, no source"],
    run,
};

/// Time above its current after which a protection board trips, in s.
const TRIP: f64 = 0.5e-3;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let used = &evidence.design().battery;
    let Some(limit) = used.part.protection_current else {
        return Vec::new();
    };
    let limit = limit.si * f64::from(used.count);
    let (rush, time) = electrics.supply.inrush;
    let above = if rush > limit {
        time * physics::math::ln(rush / limit)
    } else {
        0.0
    };
    let cause = format!(
        "Switching on, {} rush into the capacitors and stay above the {} of the protection board \
for {}.",
        number(rush, "A"),
        number(limit, "A"),
        number(1e3 * above, "ms")
    );
    let latches = if used.part.protection_latches.value {
        "; it stays off until the charger is joined or the load taken off"
    } else {
        ""
    };
    let verdict = if above > TRIP {
        Verdict::caution("Protection board may trip when switched on", cause).advice(format!(
            "put a thermistor for inrush into the supply wire{latches}"
        ))
    } else {
        Verdict::good("Protection board passes switching on", cause)
    };
    vec![verdict.measured(1e3 * above, 1e3 * TRIP, "ms")]
}

#[cfg(test)]
mod tests {
    use super::super::probe::with;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn large_capacitors_trip_small_boards() {
        for (capacitance, severity) in [("470 µF", Good), ("22000 µF", Caution)] {
            let shelf = format!(
                "[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nprotection_current = \"10 A\"\n\
[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\nsupply_capacitance = \"{capacitance}\"\n"
            );
            with(&[]).shelf(&shelf).check(CHECK.id, &[severity]);
        }
    }
}
