//! Closed, vented and passive-radiator boxes against the classical networks
//! solved elsewhere (`small-1972`, `small-1973`, `small-1974`).

use boxwright_physics::loudspeaker::{Chamber, Network, Outlet, Radiator, Vent, leak_resistance};
use boxwright_physics::math::{Complex, db_amplitude, omega};

use crate::support::{AIR, chamber, reference_driver, single, with_outlet};
use crate::table;

const VOLUME: f64 = 6e-3;
const CONE_AREA: f64 = 133e-4;

#[test]
fn closed_box() {
    check(
        chamber(VOLUME),
        include_str!("../../../../reference/network_closed.csv"),
    );
}

#[test]
fn vented_box() {
    let tuning = 60.0;
    let mut chamber = with_outlet(
        chamber(VOLUME),
        Outlet::Vent(Vent::mass_alone(tuning, VOLUME, &AIR)),
    );
    chamber.leak_resistance = Some(leak_resistance(7.0, tuning, VOLUME, &AIR));
    check(
        chamber,
        include_str!("../../../../reference/network_vented.csv"),
    );
}

#[test]
fn passive_radiator_box() {
    let (resonance, equivalent, quality): (f64, f64, f64) = (27.0, 20e-3, 8.0);
    let stiffness = AIR.density * AIR.sound_speed * AIR.sound_speed;
    let compliance = equivalent / (stiffness * CONE_AREA * CONE_AREA);
    let mass = 1.0 / (omega(resonance) * omega(resonance) * compliance);
    let radiator = Radiator {
        count: 1,
        mass,
        compliance,
        resistance: omega(resonance) * mass / quality,
        area: CONE_AREA,
    };
    let tuning = resonance * (1.0 + equivalent / VOLUME).sqrt();
    let mut chamber = with_outlet(chamber(VOLUME), Outlet::Radiator(radiator));
    chamber.leak_resistance = Some(leak_resistance(7.0, tuning, VOLUME, &AIR));
    check(
        chamber,
        include_str!("../../../../reference/network_radiator.csv"),
    );
}

/// The tables carry ten significant digits; their response leaves out what
/// leaks radiate only where that is lost in the box losses, so the leak's flow
/// is counted here as it is there: as part of the box's volume velocity.
fn check(chamber: Chamber, text: &str) {
    let rows = table::numbers(text);
    assert_eq!(rows.len(), 16);
    let frequencies: Vec<f64> = rows.iter().map(|row| row[0]).collect();
    let sweep = Network::new(&single(reference_driver(), chamber)).sweep(&frequencies);
    for (index, row) in rows.iter().enumerate() {
        let peak_travel = |velocity: Complex| {
            velocity.norm() * 2.83 * core::f64::consts::SQRT_2 / omega(row[0]) * 1e3
        };
        let response = sweep.relative_response(index);
        let impedance = sweep.channels[0].load_impedance[index];
        let cone = sweep.channels[0].groups[0].cone_velocity[index];
        near(
            "response",
            row[0],
            db_amplitude(response.norm()),
            row[1],
            2e-8,
        );
        near("phase", row[0], degrees(response), row[2], 2e-6);
        near("travel", row[0], peak_travel(cone), row[3], 2e-9 * row[3]);
        if let Some(outlet) = sweep.chambers[0].outlets.first() {
            let velocity = outlet.volume_velocity[index] / CONE_AREA;
            near(
                "outlet",
                row[0],
                peak_travel(velocity),
                row[4],
                2e-9 * row[4],
            );
        }
        near("|Z|", row[0], impedance.norm(), row[5], 2e-9 * row[5]);
        near("arg Z", row[0], degrees(impedance), row[6], 2e-6);
    }
}

fn degrees(value: Complex) -> f64 {
    value.arg().to_degrees()
}

fn near(what: &str, frequency: f64, got: f64, expected: f64, tolerance: f64) {
    assert!(
        (got - expected).abs() <= tolerance,
        "{what} at {frequency} Hz: {got} is not {expected}"
    );
}
