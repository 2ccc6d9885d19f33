//! Amplifier laws against circuit theory worked elsewhere.

mod table;

use boxwright_physics::amplifier::{Amplifier, LowPass};
use boxwright_physics::math::db_amplitude;

const IDEAL: Amplifier = Amplifier {
    bridged: true,
    linear: false,
    on_resistance: 0.0,
    rail_loss: 0.0,
    current_limit: f64::INFINITY,
    idle_current: 0.0,
    switching_loss: 0.0,
};

/// The tables carry ten digits.
fn check(what: &str, got: f64, expected: f64) {
    let tolerance = 2e-9 * expected.abs().max(1.0);
    assert!(
        (got - expected).abs() < tolerance,
        "{what}: {got} is not {expected}"
    );
}

#[test]
fn power_of_a_switching_bridge() {
    for row in table::numbers(include_str!("../../../reference/bridge_power.csv")) {
        let [supply, load, on, wiring] = row[..4] else {
            panic!("{row:?}")
        };
        let bridge = Amplifier {
            on_resistance: 2.0 * (on + wiring),
            ..IDEAL
        };
        let full = bridge.sine(supply, load, f64::INFINITY);
        check("peak", bridge.clip_peak(supply, load), row[4]);
        check("power", full.output, row[5]);
        check("conduction efficiency", full.efficiency(), row[6]);
    }
}

/// Ideal class B, as a bridge and as one output against half the supply.
#[test]
fn efficiency_of_class_b() {
    let (supply, load) = (12.0, 8.0);
    for row in table::numbers(include_str!("../../../reference/class_b.csv")) {
        for bridged in [true, false] {
            let linear = Amplifier {
                linear: true,
                bridged,
                ..IDEAL
            };
            let swing = linear.open_circuit_peak(supply);
            let point = linear.sine(supply, load, row[0] * swing);
            check("efficiency", point.efficiency(), row[1]);
            check(
                "loss",
                (point.drawn - point.output) * load / (swing * swing),
                row[2],
            );
        }
    }
}

#[test]
fn output_filter_of_a_bridge() {
    for row in table::numbers(include_str!("../../../reference/output_filter.csv")) {
        let (leg, ground) = (1e-6 * row[0], 1e-6 * row[1]);
        let filter = LowPass::of(2.0 * leg, ground / 2.0, row[2]);
        check("f0", filter.resonance, row[3]);
        check("Q", filter.q, row[4]);
        check("20 kHz", db_amplitude(filter.gain(20e3)), row[5]);
        check("400 kHz", db_amplitude(filter.gain(400e3)), row[6]);
    }
}

#[test]
fn second_order_low_pass() {
    for row in table::numbers(include_str!("../../../reference/low_pass.csv")) {
        let filter = LowPass {
            resonance: 1.0,
            q: row[0],
        };
        let (peak, place) = filter.peak();
        check("f0", db_amplitude(filter.gain(1.0)), row[1]);
        check("half power", filter.half_power(), row[2]);
        check("peak", db_amplitude(peak), row[3]);
        // Near Q = 1/√2 the place hangs on the square root of the difference.
        assert!((place - row[4]).abs() < 1e-4, "{place} is not {}", row[4]);
    }
}
