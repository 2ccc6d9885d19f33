//! Classical alignments through the whole network: cut-off frequencies,
//! ripple and tuning (`small-1972`, `small-1973`, `thiele-1971`).

use core::f64::consts::PI;

use boxwright_physics::circuit::{Band, Circuit, GROUND, Grid, SemiInductance, Solver};
use boxwright_physics::loudspeaker::{
    Driver, Network, Outlet, System, Vent, VentEnd, leak_resistance, vent_tuning,
};
use boxwright_physics::math::{db_power, omega, pow};

use crate::support::{AIR, chamber, driver, single, with_outlet};
use crate::table;

const FS: f64 = 50.0;
const VAS: f64 = 0.03;

/// A driver of this total Q, all of it electrical but for a trace.
fn aligned_driver(qts: f64) -> Driver {
    driver(FS, qts, 1e15, VAS, 0.02, 6.0)
}

fn gain(network: &mut Network, frequency: f64) -> f64 {
    let sweep = network.sweep(&[frequency]);
    db_power(sweep.relative_response(0).norm_sqr())
}

/// Where the response rises through half power, by halving the interval.
fn half_power(system: &System, mut low: f64, mut high: f64) -> f64 {
    let mut network = Network::new(system);
    while high / low - 1.0 > 1e-12 {
        let middle = (low * high).sqrt();
        if gain(&mut network, middle) < db_power(0.5) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Tables carry ten significant digits; so do these.
fn near(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!(
        (got - expected).abs() <= tolerance,
        "{what}: {got} is not {expected}"
    );
}

#[test]
fn closed_box_shapes() {
    for row in table::numbers(include_str!(
        "../../../../reference/closed_box_response.csv"
    )) {
        let (qtc, ratio): (f64, f64) = (row[0], 3.0);
        let stiffening = (1.0 + ratio).sqrt();
        let fc = FS * stiffening;
        let system = single(aligned_driver(qtc / stiffening), chamber(VAS / ratio));
        let f3 = half_power(&system, 0.3 * fc, 30.0 * fc);
        near("F3/Fc", f3 / fc, row[1], 3e-9);
        let mut network = Network::new(&system);
        near("at Fc", gain(&mut network, fc), row[2], 1e-8);
        if row[4].is_finite() {
            near("peak", gain(&mut network, row[4] * fc), row[3], 1e-8);
        }
        near(
            "greatest travel",
            travel_peak(&mut network, fc),
            row[5],
            1e-7,
        );
    }
}

/// Largest squared travel relative to that at low frequency, on a fine grid
/// about where a second-order box can have it.
fn travel_peak(network: &mut Network, fc: f64) -> f64 {
    let frequencies: Vec<f64> = (0..=20_000)
        .map(|step| fc * (1e-4 + f64::from(step) / 20_000.0))
        .collect();
    let sweep = network.sweep(&frequencies);
    let travel: Vec<f64> = sweep.channels[0].groups[0]
        .cone_velocity
        .iter()
        .zip(&frequencies)
        .map(|(velocity, f)| velocity.norm_sqr() / (omega(*f) * omega(*f)))
        .collect();
    travel.iter().copied().fold(0.0, f64::max) / travel[0]
}

#[test]
fn closed_box_examples() {
    for row in table::numbers(include_str!(
        "../../../../reference/closed_box_examples.csv"
    )) {
        let driver = driver(row[0], row[1], 1e15, row[2], 0.02, 6.0);
        let f3 = half_power(&single(driver, chamber(row[3])), 10.0, 1_000.0);
        near("F3", f3, row[7], 3e-9 * row[7]);
    }
}

#[test]
fn vented_alignments_without_losses() {
    vented(
        include_str!("../../../../reference/vented_lossless.csv"),
        None,
        14,
    );
}

#[test]
fn vented_alignments_with_leaks() {
    vented(
        include_str!("../../../../reference/vented_ql7.csv"),
        Some(7.0),
        10,
    );
}

fn vented(text: &str, leakage: Option<f64>, count: usize) {
    let rows = table::rows(text);
    assert_eq!(rows.len(), count);
    for row in rows {
        let number = |column: usize| table::number(row[column]);
        let (qts, tuning, ratio) = (number(1), FS * number(2), number(3));
        let volume = VAS / ratio;
        let mut chamber = with_outlet(
            chamber(volume),
            Outlet::Vent(Vent::mass_alone(tuning, volume, &AIR)),
        );
        chamber.leak_resistance = leakage.map(|q| leak_resistance(q, tuning, volume, &AIR));
        let system = single(aligned_driver(qts), chamber);
        let f3 = half_power(&system, 0.1 * FS, 10.0 * FS);
        // The alignments themselves are known to ten digits.
        near(&format!("f3/fs of {row:?}"), f3 / FS, number(4), 2e-8);
        near(
            &format!("ripple of {row:?}"),
            ripple(&system, f3),
            number(5),
            1e-6,
        );
    }
}

/// Highest response above the cut-off, on a grid fine enough for 1e-6 dB, and
/// not below that of the far pass band.
fn ripple(system: &System, f3: f64) -> f64 {
    let frequencies: Vec<f64> = (0..40_000)
        .map(|step| f3 * pow(400.0, f64::from(step) / 40_000.0))
        .collect();
    let sweep = Network::new(system).sweep(&frequencies);
    (0..frequencies.len())
        .map(|index| db_power(sweep.relative_response(index).norm_sqr()))
        .fold(0.0, f64::max)
}

#[test]
fn helmholtz_tuning() {
    for row in table::numbers(include_str!("../../../../reference/vent_tuning.csv")) {
        let radius = row[2] / 2.0;
        let mut vent = Vent {
            count: 1,
            area: PI * radius * radius,
            length: row[3],
            hydraulic_radius: radius,
            inner: VentEnd::Free,
            outer: VentEnd::Flush,
            roughness: 1.0,
        };
        let air = boxwright_physics::air::Air::with(1.2, row[0]);
        // Six digits of the flush end correction are known.
        near(
            "one end flush",
            vent_tuning(row[1], &vent, &air),
            row[5],
            1e-5,
        );
        vent.inner = VentEnd::None;
        vent.outer = VentEnd::None;
        near("no ends", vent_tuning(row[1], &vent, &air), row[7], 1e-7);
    }
}

/// `leach-2002`: K(jω)ⁿ as the voltage of one ampere through it.
#[test]
fn lossy_inductance() {
    let rows = table::numbers(include_str!("../../../../reference/semi_inductance.csv"));
    assert_eq!(rows.len(), 3);
    let mut circuit = Circuit::new();
    let top = circuit.node("top");
    let semi = SemiInductance { k: 0.02, n: 0.7 };
    circuit.semi_inductor("coil", [top, GROUND], semi);
    circuit.add(
        "source",
        [GROUND, top],
        boxwright_physics::circuit::Value::CurrentSource(1.0),
    );
    let frequencies: Vec<f64> = rows.iter().map(|row| row[0]).collect();
    let solution = Solver::new(&circuit)
        .solve(&circuit, &Grid::new(&frequencies))
        .expect("one solution");
    for (index, row) in rows.iter().enumerate() {
        let z = solution.potential(index, top);
        near("resistance", z.re, row[1], 2e-9 * row[1]);
        near("reactance", z.im, row[2], 2e-9 * row[2]);
        let direct = semi.impedance(&Band::splat(row[0])).lane(0);
        near("impedance", (direct - z).norm(), 0.0, 1e-12 * z.norm());
    }
}
