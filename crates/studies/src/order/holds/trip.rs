//! Where the low-battery indicator trips.

use super::context::DIRECT;
use super::{Testing, test};
use crate::indicator::{PACK_CARE, Threshold, from_the_pack};
use crate::order::model::{Expect, Hold};
use design::Instrument;

pub(super) fn hold(testing: &Testing<'_>) -> Option<Hold> {
    let said = testing.design().indicator.as_ref()?;
    // One that no circuit was found for is bought or left out: nothing is known of it to test.
    let known = testing.indicator?;
    let built = known.built.as_ref()?;
    let hold = test(
        "test-indicator",
        "Trip points of the indicator",
        &[Instrument::BenchSupply, Instrument::Multimeter],
    )
    .if_not(
        "it lights at no voltage",
        "the light or its resistor the wrong way round",
    )
    .if_not(
        "it lights always",
        "the comparator's inputs are swapped, or the divider is open",
    )
    .if_not(
        "it flickers at one voltage",
        "the resistor of the hysteresis is missing",
    )
    .if_not(
        "off by more than the band",
        "a resistor in the wrong place: read each again",
    );
    let trimmed = if said.trim.value {
        "set the trimmer so that it lights where its sheet says, then lock it with a drop of varnish"
    } else {
        "it cannot be trimmed: exchange the resistor its sheet names"
    };
    let hold = if testing.has(Instrument::BenchSupply) && testing.has(Instrument::Multimeter) {
        hold.how("bench supply on its two supply wires, meter across them, current limit 50 mA")
            .how("from the full battery's voltage slowly down until it lights, and up until it is dark")
            .how(trimmed)
    } else {
        hold.how(format!(
            "{}; meter across these wires",
            from_the_pack(known.wanted.supply[1])
        ))
        .how("slowly down until it lights, and up until it is dark; wait out its delay each time")
        .how(trimmed)
        .instead(&[Instrument::Multimeter])
        .care(PACK_CARE)
    };
    Some(
        hold.read("it lights below", within(&built.falling))
            .read("it goes out above", within(&built.rising)),
    )
}

/// Where a meter may find a threshold. Outside of it some part is wrong, so every right build lies
/// within: not eight of ten.
pub(super) fn within(threshold: &Threshold) -> Expect {
    let off = DIRECT * threshold.volts;
    Expect::Band {
        low: threshold.least - off,
        nominal: threshold.volts,
        high: threshold.most + off,
        unit: "V",
    }
}
