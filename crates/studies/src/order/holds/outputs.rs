//! Resistance of the coils, and which way the cones go.

use super::context::{DIRECT, LEADS};
use super::{Testing, test};
use crate::order::model::{Expect, Hold};
use crate::subject::on_one_channel;
use design::{Instrument, Wiring};

/// Voltage of the cell that moves the cones, in V.
const CELL: f64 = 1.5;
/// Travel below which a finger tells more than an eye, in m: common practice, no source.
const EYE: f64 = 0.2e-3;

pub(super) fn coils(testing: &Testing<'_>) -> Hold {
    let base = test(
        "test-coils",
        "Resistance of the coils",
        &[Instrument::Multimeter],
    )
    .how("at the amplifier's end of each pair, amplifier unplugged");
    let base = if testing.design().amplifier.coupling.is_some() {
        base.how("on the driver's side of the capacitor, which lets no direct current through")
    } else {
        base
    };
    if !testing.has(Instrument::Multimeter) {
        let mut hold = base
            .how(
                "touch a 1.5 V cell to the pair for a moment: a click tells that the coils are \
whole, and no more than that",
            )
            .instead(&[]);
        for (name, _) in testing.outputs() {
            hold = hold.seen(name, "a click from every driver on it");
        }
        return hold.if_not("no click", "a coil or a wire is open");
    }
    let mut hold =
        base.how("touch the tips together first and take that reading off; hold the cones still");
    for (name, side) in testing.outputs() {
        let expect = testing.band("Ω", [DIRECT, LEADS], |build| testing.ohms(build, side));
        hold = hold.read(name, expect);
    }
    hold.if_not("no reading", "an open coil, wire or crimp")
        .if_not(
            "near zero",
            "a short, or the wires of one pair joined: no power before it is found",
        )
        .if_not(
            "half or double",
            "drivers joined in parallel instead of in series, or the other way round",
        )
        .if_not(
            "left and right differ by more than a tenth",
            "another driver than the one thought, or a poor joint",
        )
}

pub(super) fn polarity(testing: &Testing<'_>) -> Hold {
    let mut hold = test("test-polarity", "Cones move the same way", &[])
        .how("touch a 1.5 V cell to each pair for less than a second, its plus to the plus wire")
        .how("look along the cone, or lay a fingertip on its rim");
    let design = testing.design();
    if design.amplifier.coupling.is_some() {
        hold = hold.how("on the driver's side of the capacitor");
    }
    for (index, group) in design.drivers.iter().enumerate() {
        let series = match group.wiring.value {
            Wiring::Parallel => 1.0,
            Wiring::Series => f64::from(on_one_channel(group)),
            Wiring::SeriesParallel => 2.0,
        };
        let name = &group.part.common.name.text;
        let travel = testing.band("mm", [0.0, 0.0], |build| {
            let driver = &build.drivers[index].driver;
            let current = CELL / series / (driver.re + build.amplifier.feed.cable_resistance);
            1e3 * driver.bl * current * driver.compliance
        });
        let Expect::Band {
            low, nominal, high, ..
        } = travel
        else {
            continue;
        };
        let [low, high] = [low, high].map(|mm| (10.0 * mm).round() / 10.0);
        let seen = if nominal < 1e3 * EYE {
            "every cone jumps outwards, by so little that a fingertip feels it rather than an eye \
sees it"
                .to_owned()
        } else {
            let by = if low < high {
                format!("{low} to {high} mm")
            } else {
                format!("about {low} mm")
            };
            format!("every cone jumps outwards, by {by}")
        };
        hold = hold.seen(name.as_str(), seen);
    }
    hold.if_not(
        "one cone goes inwards",
        "its two wires are swapped: the bass of the two would cancel",
    )
    .if_not(
        "all go inwards",
        "both ends or the marks are swapped: put them right, so that a second box adds to this one",
    )
    .if_not("one does not move", "an open joint")
    .care(
        "One dry cell only, amplifier unplugged: never the box's own battery, whose short burns \
coils and fingers.",
    )
}
