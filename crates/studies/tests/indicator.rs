//! The low-battery indicator of whole designs.

mod common;

use boxwright_studies::indicator::{Indicator, Kind};
use common::{edited, surveyed};
use std::sync::Arc;

/// A plain design with an indicator; every part from the built-in shelf.
const PLAIN: &str = r#"
format = 1
name = "Plain"

[brief]
distance = "2 m"
loudness = "84 dB"
lowest = "90 Hz"
runtime = "6 h"

[place]
stands = "wall"

[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"

[amplifier]
part = "amplifier 2 x 15 W, 12 V"

[source]
level = "0.9 V"
loss = "3 dB"

[battery]
part = "lithium-ion 10.8 V 6.8 Ah"
charged_inside = false

[box]
outside = "400 x 240 x 200 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
filling = "40 %"
last_with = "screws"

[indicator]
warning = "30 min"
delay = "3 s"
"#;

fn studied(keys: &[(&str, &str)]) -> Arc<Indicator> {
    let report = surveyed(&edited(PLAIN, keys), None);
    report.indicator.expect("it is wanted")
}

/// What every circuit found must keep, whatever the battery.
#[test]
fn the_circuit_does_what_is_wanted() {
    for battery in ["lithium-ion 10.8 V 6.8 Ah", "lead-acid 12 V 7 Ah"] {
        let found = studied(&[("battery.part", battery)]);
        let built = found.built.as_ref().expect("the built-in shelf has it");
        let wanted = &found.wanted;
        let hysteresis = built.rising.volts - built.falling.volts;
        assert!(
            (built.falling.volts / wanted.trip - 1.0).abs() < 0.01,
            "{battery}"
        );
        assert!(
            hysteresis >= wanted.hysteresis - 1e-9,
            "{battery}: {hysteresis}"
        );
        assert!(
            built.delay >= 0.95 * wanted.delay,
            "{battery}: {}",
            built.delay
        );
        assert!(built.falling.least < built.falling.band.p10, "{battery}");
        assert!(built.falling.band.p90 < built.falling.most, "{battery}");
        assert!(built.left_band.p10 <= built.left && built.left <= built.left_band.p90);
        assert!(built.too_late < 0.2, "{battery}: {}", built.too_late);
        assert!(built.limits.reference_current >= built.limits.reference_wants);
        assert!(built.dark < built.lit && built.lamp > 1e-3, "{battery}");
        // Every terminal stands on a net, and every net joins something.
        assert!(
            built.nets.iter().all(|net| net.pins.len() > 1),
            "{:#?}",
            built.nets
        );
        for part in &built.parts {
            let pins = built.nets.iter().flat_map(|net| &net.pins);
            assert!(
                pins.filter(|(mark, _)| *mark == part.mark).count() >= 2,
                "{part:?}"
            );
        }
    }
}

/// A longer warning lights at a higher voltage.
#[test]
fn more_warning_lights_earlier() {
    let trip = |warning: &str| studied(&[("indicator.warning", warning)]).wanted.trip;
    assert!(trip("3 h") > trip("20 min"));
}

/// A trimmer leaves the hand and the temperature: the threshold spreads less.
#[test]
fn a_trimmer_narrows_the_threshold() {
    let fixed = studied(&[]);
    let trimmed = studied(&[("indicator.trim", "true")]);
    let width = |of: &Indicator| {
        let falling = of.built.as_ref().expect("a circuit").falling;
        falling.most - falling.least
    };
    assert!(width(&trimmed) < width(&fixed));
    let built = trimmed.built.as_ref().expect("a circuit");
    let trimmer = built.trimmer.expect("a trimmer");
    let [least, most] = trimmer.reach;
    assert!(
        least < built.falling.volts && built.falling.volts < most,
        "{trimmer:?}"
    );
    assert!((0.0..=1.0).contains(&trimmer.turned), "{trimmer:?}");
}

/// A cut-off stays off whatever the battery recovers to, its charger included.
#[test]
fn a_cut_off_stays_off() {
    let found = studied(&[
        ("battery.part", "lead-acid 12 V 7 Ah"),
        ("indicator.cut_off", "mosfet"),
    ]);
    let built = found.built.as_ref().expect("a circuit");
    if let Some(cut_off) = &built.cut_off {
        assert!(cut_off.rising > found.wanted.supply[1], "{cut_off:?}");
        assert!(cut_off.falling.volts < built.falling.volts, "{cut_off:?}");
        // It lies in the plus lead, so only a P-channel can be opened there from ground.
        let on = |net: &str| {
            let own = cut_off.nets.iter().find(|own| own.name == net);
            &own.expect("it is a terminal").pins
        };
        let marked = |kind: Kind| {
            let mut parts = cut_off.parts.iter();
            &parts
                .find(|part| part.kind == kind)
                .expect("it is there")
                .mark
        };
        let (switch, driver) = (marked(Kind::MosfetP), marked(Kind::Mosfet));
        assert!(on("cut-off in").contains(&(switch.clone(), "source")));
        assert!(on("cut-off out").contains(&(switch.clone(), "drain")));
        assert!(on("gate").contains(&(switch.clone(), "gate")));
        assert!(on("gate").contains(&(driver.clone(), "drain")));
        assert!(on("ground").contains(&(driver.clone(), "source")));
    } else {
        panic!("the built-in shelf has a switch: {:?}", found.remarks);
    }
}
