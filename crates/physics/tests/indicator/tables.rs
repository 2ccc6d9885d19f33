//! Thresholds and tolerance stacks against tables.

use crate::parts::{comparator, ideal_reference, percent};
use crate::table;
use boxwright_physics::indicator::{Arm, Indicator, Light, Resistor, node_voltage};

/// Nodal analysis (`nilsson-riedel`): ten digits in the table.
#[test]
fn inverting_comparator_with_divided_reference() {
    for row in table::numbers(include_str!(
        "../../../../reference/comparator_hysteresis.csv"
    )) {
        let [supply, above, below, back, high, low, hysteresis] = row[..] else {
            panic!("{row:?}")
        };
        let at = |output: f64| node_voltage(&[(supply, above), (0.0, below), (output, back)], 0.0);
        assert!((at(supply) / high - 1.0).abs() < 1e-9, "{row:?}");
        assert!((at(0.0) / low - 1.0).abs() < 1e-9, "{row:?}");
        assert!((at(supply) - at(0.0) - hysteresis).abs() < 1e-9, "{row:?}");
    }
}

fn detector(
    reference: (f64, f64),
    arms: [f64; 2],
    tolerance: f64,
    back: Option<f64>,
    loss: f64,
) -> Indicator {
    let resistor = |ohms| Resistor { ohms, tolerance };
    Indicator {
        top: Arm::One(resistor(arms[0])),
        bottom: Arm::One(resistor(arms[1])),
        feedback: back.map(percent),
        feed: percent(10e3),
        reference: ideal_reference(reference.0, reference.1),
        // Pulls all the way down.
        comparator: comparator(Some(loss), 1e-9),
        light: Light {
            forward: 2.0,
            series: 2e3,
        },
        pull_up: None,
        slow: None,
        delay: None,
        speed_up: None,
    }
}

/// Ten digits in the table. Its high output is a fixed voltage, ours follows the
/// battery: so much below it that both are the same where it trips.
#[test]
fn low_battery_detector() {
    for row in table::numbers(include_str!(
        "../../../../reference/low_battery_thresholds.csv"
    )) {
        let [reference, above, below, back, output, up, down, hysteresis] = row[..] else {
            panic!("{row:?}")
        };
        let circuit = detector(
            (reference, 0.0),
            [above, below],
            0.0,
            Some(back),
            down - output,
        );
        let thresholds = circuit.thresholds();
        assert!(
            (thresholds.rising / up - 1.0).abs() < 1e-9,
            "{row:?} {thresholds:?}"
        );
        assert!(
            (thresholds.falling / down - 1.0).abs() < 1e-9,
            "{row:?} {thresholds:?}"
        );
        assert!(
            (thresholds.hysteresis() - hysteresis).abs() < 1e-8,
            "{row:?}"
        );
    }
}

/// Corners to ten digits. The root of squares of the table is to first order,
/// ours is half the difference of both ends: within a share of the square of
/// the tolerance, at most one in 200. Drawn values of the table: 2e6 of them,
/// so one part in a thousand; theirs keep the curvature that theory leaves out.
#[test]
fn tolerance_stack() {
    for row in table::numbers(include_str!("../../../../reference/tolerance_stack.csv")) {
        let [
            reference,
            off,
            above,
            below,
            tolerance,
            nominal,
            least,
            most,
            percent,
            drawn,
            theory,
        ] = row[..]
        else {
            panic!("{row:?}")
        };
        let stack =
            detector((reference, off), [above, below], tolerance, None, 0.0).falling_stack();
        for (got, expected) in [
            (stack.nominal, nominal),
            (stack.least, least),
            (stack.most, most),
        ] {
            assert!((got / expected - 1.0).abs() < 1e-9, "{row:?} {stack:?}");
        }
        let share = 100.0 * stack.root_square / stack.nominal;
        assert!((share / percent - 1.0).abs() < 5e-3, "{share} {row:?}");
        let deviation = 100.0 * stack.deviation() / stack.nominal;
        assert!(
            (deviation / theory - 1.0).abs() < 5e-3,
            "{deviation} {row:?}"
        );
        assert!(
            (deviation / drawn - 1.0).abs() < 5e-3,
            "{deviation} {row:?}"
        );
    }
}
