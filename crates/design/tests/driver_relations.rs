//! The invented drivers of the built-in shelf agree with themselves.
//!
//! Small-signal relations after small-1972: ω = 1/√(M C), Vas = ρ c² Sd² C,
//! Qes = ω M Re / Bl², 1/Qts = 1/Qms + 1/Qes, and the reference efficiency
//! ρ Bl² Sd² / (2π c Re M²). Two per cent is the rounding of three figures, taken
//! through squares; half a decibel that of the sensitivity.

use boxwright_design::{DriverPart, Value, built_in_shelf};
use core::f64::consts::PI;

/// Air of 20 °C.
const DENSITY: f64 = 1.2041;
const SOUND_SPEED: f64 = 343.2;

fn si(value: Option<Value>) -> f64 {
    value.expect("known drivers state it").si
}

#[track_caller]
fn check(name: &str, what: &str, stated: f64, derived: f64, within: f64) {
    let error = (stated / derived - 1.0).abs();
    assert!(error < within, "{name}: {what} {stated} against {derived}");
}

fn agrees(driver: &DriverPart) {
    let name = &driver.common.name.text;
    let (re, bl, sd) = (si(driver.re), si(driver.bl), si(driver.sd));
    let (mass, compliance) = (si(driver.mms), si(driver.cms));
    let (qms, qes) = (si(driver.qms), si(driver.qes));
    let omega = 1.0 / (mass * compliance).sqrt();
    let stiffness = DENSITY * SOUND_SPEED * SOUND_SPEED;
    check(name, "fs", si(driver.fs), omega / (2.0 * PI), 0.02);
    check(
        name,
        "Vas",
        si(driver.vas),
        stiffness * sd * sd * compliance,
        0.02,
    );
    check(name, "Qes", qes, omega * mass * re / (bl * bl), 0.02);
    check(name, "Qts", si(driver.qts), qms * qes / (qms + qes), 0.02);

    // 2.83 V into Re is 8 W·Ω / Re; half space at 1 m: p² = ρ c P / 2π.
    let efficiency = DENSITY * bl * bl * sd * sd / (2.0 * PI * SOUND_SPEED * re * mass * mass);
    let power = efficiency * 2.83 * 2.83 / re;
    let pressure_squared = DENSITY * SOUND_SPEED * power / (2.0 * PI);
    let level = 10.0 * libm::log10(pressure_squared / 4e-10);
    let stated = si(driver.sensitivity);
    assert!(
        (stated - level).abs() < 0.5,
        "{name}: {stated} dB against {level}"
    );
}

#[test]
fn the_built_in_drivers_agree_with_themselves() {
    let known = built_in_shelf().drivers.iter().filter(|d| d.fs.is_some());
    let mut count = 0;
    for driver in known {
        agrees(driver);
        count += 1;
    }
    assert!(count >= 12);
}

#[test]
fn the_built_in_drivers_fit_their_holes() {
    for driver in &built_in_shelf().drivers {
        let name = &driver.common.name.text;
        let (frame, cutout) = (si(driver.frame), si(driver.cutout));
        assert!(cutout < frame, "{name}");
        assert!(si(driver.magnet) < cutout, "{name} goes in from the front");
        let (circle, screw) = (si(driver.screw_circle), si(driver.screw));
        assert!(
            cutout < circle - screw / 2.0,
            "{name}: a screw splits the edge of its hole"
        );
        assert!(
            circle + screw / 2.0 < frame,
            "{name}: a screw misses the frame"
        );
        assert!(driver.common.generic);
        let about = driver.common.about.as_deref().unwrap_or_default();
        assert!(about.ends_with("generic, invented values"), "{name}");
        // The nominal size is about the frame; the radiating area is less.
        check(name, "size", si(driver.size), frame, 0.1);
        if let Some(sd) = driver.sd {
            assert!(sd.si < PI / 4.0 * cutout * cutout, "{name}");
        }
    }
}

#[test]
fn every_built_in_part_has_weight_price_and_a_word_about_it() {
    let shelf = built_in_shelf();
    let all = shelf
        .drivers
        .iter()
        .map(|p| &p.common)
        .chain(shelf.radiators.iter().map(|p| &p.common))
        .chain(shelf.amplifiers.iter().map(|p| &p.common))
        .chain(shelf.batteries.iter().map(|p| &p.common))
        .chain(shelf.sheets.iter().map(|p| &p.common))
        .chain(shelf.controls.iter().map(|p| &p.common));
    for part in all {
        let name = &part.name.text;
        assert!(part.weight.is_some(), "{name} has no weight");
        let price = part
            .price
            .as_ref()
            .unwrap_or_else(|| panic!("{name} has no price"));
        assert_eq!(price.currency, "EUR");
        assert_eq!(part.on_hand, 0, "{name}: nobody has it yet");
        let about = part.about.as_deref().unwrap_or_default();
        assert!(about.ends_with("generic, invented values"), "{name}");
    }
}
