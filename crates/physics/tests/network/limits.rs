//! What the network becomes in simple limits.

use boxwright_physics::air::Air;
use boxwright_physics::driver::{free_air_mass, sensitivity};
use boxwright_physics::loudspeaker::{
    AirLoad, Filling, Network, Outlet, System, Vent, VentEnd, effective_length, pipe_resonance,
    vent_tuning,
};
use boxwright_physics::math::{db_amplitude, pow};

use crate::support::{AIR, chamber, reference_driver, single, with_outlet};
use crate::table;

fn tube(length: f64, radius: f64, end: VentEnd) -> Vent {
    Vent {
        count: 1,
        area: core::f64::consts::PI * radius * radius,
        length,
        hydraulic_radius: radius,
        inner: end,
        outer: end,
        roughness: 1.0,
    }
}

fn vented(vent: Vent) -> System {
    single(
        reference_driver(),
        with_outlet(chamber(9e-3), Outlet::Vent(vent)),
    )
}

/// End corrections against `levine-1948` and `norris-1989`.
#[test]
fn end_corrections() {
    let text = include_str!("../../../../reference/vent_end_correction.csv");
    let expected = |case: &str| {
        let items = table::items(text);
        let item = items.iter().find(|(name, _)| name == case);
        item.unwrap_or_else(|| panic!("no row {case}")).1
    };
    let mut vent = tube(0.1, 0.025, VentEnd::Free);
    let correction = |vent: &Vent| (effective_length(vent) - 0.1) / 0.025;
    assert!((correction(&vent) - 2.0 * expected("free end")).abs() < 1e-9);
    vent.outer = VentEnd::Flush;
    assert!((correction(&vent) - expected("one flush and one free end")).abs() < 1e-6);
    vent.inner = VentEnd::Flush;
    assert!((correction(&vent) - 2.0 * expected("flush end")).abs() < 1e-6);
}

/// Without losses and end effects a tube acts as its mass alone, below where
/// its length in wavelengths counts. Its own air, 1.4 % of the box's, acts as
/// if a third of it were in the box and shifts the tuning by 0.2 %.
#[test]
fn an_ideal_tube_is_the_classical_vent_at_low_frequency() {
    let mut real = tube(0.1, 0.02, VentEnd::None);
    real.hydraulic_radius = f64::INFINITY;
    let tuning = vent_tuning(9e-3, &real, &AIR);
    let classical = Vent::mass_alone(tuning, 9e-3, &AIR);
    let frequencies: Vec<f64> = (0..30)
        .map(|step| 10.0 * pow(15.0, f64::from(step) / 29.0))
        .collect();
    let [real, classical] =
        [real, classical].map(|vent| Network::new(&vented(vent)).sweep(&frequencies));
    for (index, frequency) in frequencies.iter().enumerate() {
        let ratio = real.volume_velocity[index].norm() / classical.volume_velocity[index].norm();
        assert!(
            db_amplitude(ratio).abs() < 0.15,
            "{} dB at {frequency} Hz",
            db_amplitude(ratio)
        );
    }
}

/// The half-wave resonance of the tube appears by itself in the flow at its mouth.
#[test]
fn pipe_resonance_comes_out() {
    for end in [VentEnd::Free, VentEnd::Flush] {
        let vent = tube(0.15, 0.025, end);
        let expected = pipe_resonance(&vent, &AIR);
        let frequencies: Vec<f64> = (0..400)
            .map(|step| expected * (0.8 + 0.001 * f64::from(step)))
            .collect();
        let sweep = Network::new(&vented(vent)).sweep(&frequencies);
        let relative = |index: usize| {
            let inside = &sweep.chambers[0].pressure[index];
            sweep.chambers[0].outlets[0].volume_velocity[index].norm() / inside.norm()
        };
        let best = (0..400)
            .max_by(|a, b| relative(*a).total_cmp(&relative(*b)))
            .expect("there are frequencies");
        let found = frequencies[best];
        assert!((found / expected - 1.0).abs() < 0.03, "{found} {expected}");
        // Losses keep it finite: well above, yet no pole.
        assert!(relative(best) > 5.0 * relative(0));
    }
}

/// A narrower or rougher tube loses more, and the tuned output falls.
#[test]
fn losses_lower_the_tuned_output() {
    let smooth = tube(0.12, 0.015, VentEnd::Flush);
    let rough = Vent {
        roughness: 3.0,
        ..smooth
    };
    let flat = Vent {
        hydraulic_radius: 0.005,
        ..smooth
    };
    let tuning = vent_tuning(9e-3, &smooth, &AIR);
    let [smooth, rough, flat] = [smooth, rough, flat].map(|vent| {
        let sweep = Network::new(&vented(vent)).sweep(&[tuning]);
        sweep.volume_velocity[0].norm()
    });
    assert!(rough < smooth && flat < smooth, "{smooth} {rough} {flat}");
}

/// Far below the box's size in wavelengths the piston's air is a mass: what
/// hangs on the driver in free air, once more on either side.
#[test]
fn piston_load_is_a_mass_at_low_frequency() {
    let mut loaded = single(reference_driver(), chamber(6e-3));
    let mut heavy = loaded.clone();
    loaded.air_load = AirLoad::Piston;
    let area = reference_driver().area;
    heavy.channels[0].groups[0].driver.mass += 2.0 * free_air_mass(area, &AIR);
    let frequencies = [20.0, 50.0, 90.0, 150.0];
    let [loaded, heavy] = [loaded, heavy].map(|system| Network::new(&system).sweep(&frequencies));
    assert_eq!(loaded.reference_acceleration, heavy.reference_acceleration);
    for (a, b) in loaded.volume_velocity.iter().zip(&heavy.volume_velocity) {
        assert!((a / b - 1.0).norm() < 5e-3, "{a} {b}");
    }
}

/// The reference acceleration is the driver's sensitivity by another route.
#[test]
fn reference_is_the_sensitivity() {
    let driver = reference_driver();
    let sweep = Network::new(&single(driver, chamber(6e-3))).sweep(&[100.0]);
    let pressure =
        AIR.density * 2.83 * sweep.reference_acceleration / (2.0 * core::f64::consts::PI);
    let level = db_amplitude(pressure / 20e-6);
    let expected = sensitivity(driver.bl, driver.area, driver.re, driver.mass, &AIR);
    assert!((level - expected).abs() < 1e-10, "{level} {expected}");
}

/// The response tends to the reference far above resonance, by way of free
/// space: ρa/4πr.
#[test]
fn response_tends_to_the_reference() {
    let air: Air = AIR;
    let sweep = Network::new(&single(reference_driver(), chamber(6e-3))).sweep(&[20_000.0]);
    assert!((sweep.relative_response(0).norm() - 1.0).abs() < 1e-4);
    let pressure = sweep.pressure(0, 2.0, &air).norm();
    let expected = air.density * sweep.reference_acceleration / (8.0 * core::f64::consts::PI);
    assert!((pressure / expected - 1.0).abs() < 1e-4);
}

/// Below the tuning, flow in at the cone goes out at the vent: the whole box
/// moves less air than either, and at the tuning the cone nearly stands still.
#[test]
fn signs_of_a_vented_box() {
    let vent = tube(0.12, 0.025, VentEnd::Flush);
    let tuning = vent_tuning(9e-3, &vent, &AIR);
    let sweep = Network::new(&vented(vent)).sweep(&[0.3 * tuning, tuning]);
    let cone =
        |index: usize| sweep.channels[0].groups[0].cone_velocity[index] * reference_driver().area;
    let mouth = |index: usize| sweep.chambers[0].outlets[0].volume_velocity[index];
    assert!((cone(0) * mouth(0).conj()).re < 0.0);
    assert!(sweep.volume_velocity[0].norm() < 0.2 * cone(0).norm());
    assert!(mouth(1).norm() > 5.0 * cone(1).norm());
}

/// All the air among fibres, and in step with them: the box is γ times as large.
#[test]
fn full_quick_filling_is_isothermal() {
    let mut filled = single(reference_driver(), chamber(6e-3));
    filled.chambers[0].filling = Filling {
        share: 1.0,
        relaxation: 0.0,
    };
    let larger = single(reference_driver(), chamber(6e-3 * AIR.gamma));
    let [filled, larger] =
        [filled, larger].map(|system| Network::new(&system).sweep(&[30.0, 100.0, 300.0]));
    for (a, b) in filled.volume_velocity.iter().zip(&larger.volume_velocity) {
        assert!((a / b - 1.0).norm() < 1e-12);
    }
}
