//! How long the search for an indicator takes: `cargo bench -p boxwright-physics
//! --bench indicator`.
//!
//! A drawer of 120 resistors, E24 (`iec-60063`) over five decades, with the usual
//! capacitors, references and comparators; all data invented. Each row is the
//! median of several rounds; the aim is 1 s at most.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

use boxwright_physics::indicator::search::{Drawer, Lamp, Offer, Wish, search};
use boxwright_physics::indicator::{Capacitor, Comparator, Reference, Resistor};
use boxwright_physics::math::pow;
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 9;

/// E24 of one decade.
const STEPS: [f64; 24] = [
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6,
    6.2, 6.8, 7.5, 8.2, 9.1,
];

const LAMP: Lamp = Lamp {
    forward: 1.9,
    current: 4e-3,
    most_current: 20e-3,
};

fn have<T>(part: T) -> Offer<T> {
    Offer {
        part,
        to_buy: false,
    }
}

fn resistors(tolerance: f64) -> Vec<Offer<Resistor>> {
    let decades = (2..7).map(|decade| pow(10.0, f64::from(decade)));
    decades
        .flat_map(|decade| STEPS.map(|step| step * decade))
        .map(|ohms| have(Resistor { ohms, tolerance }))
        .collect()
}

fn capacitors() -> Vec<Offer<Capacitor>> {
    let of = |values: &[f64], tolerance: f64, leakage: f64| -> Vec<Offer<Capacitor>> {
        let each = values.iter().map(|farads| Capacitor {
            farads: *farads,
            tolerance,
            leakage: leakage * farads,
        });
        each.map(have).collect()
    };
    let mut all = of(&[0.47e-6, 1e-6, 2.2e-6, 4.7e-6], 0.1, 0.0);
    all.extend(of(
        &[10e-6, 22e-6, 47e-6, 100e-6, 220e-6, 470e-6],
        0.2,
        0.01,
    ));
    all
}

fn references() -> Vec<Offer<Reference>> {
    let of = |volts: f64, slope: f64, least_current: f64, tolerance: f64| {
        have(Reference {
            volts,
            tolerance,
            drift: 0.006,
            rated_current: 4.0 * least_current,
            slope,
            slope_tolerance: 0.5,
            least_current,
            most_current: 0.08,
        })
    };
    let zeners = [
        (3.3, 85.0),
        (4.7, 60.0),
        (5.1, 35.0),
        (5.6, 25.0),
        (6.2, 10.0),
        (6.8, 8.0),
    ];
    let mut all: Vec<_> = zeners
        .map(|(volts, slope)| of(volts, slope, 1.25e-3, 0.05))
        .into();
    all.extend([
        of(2.5, 0.3, 1e-3, 0.01),
        of(2.5, 1.0, 0.1e-3, 0.01),
        of(1.24, 0.5, 0.1e-3, 0.01),
    ]);
    all
}

fn comparators() -> Vec<Offer<Comparator>> {
    let of = |output_high: Option<f64>, bias: f64, supply_current: f64| {
        have(Comparator {
            output_high,
            sink: 100.0,
            sink_current: 10e-3,
            offset: 5e-3,
            bias,
            supply_current,
            supply: [2.5, 32.0],
            input_low: 0.0,
            input_high: 1.5,
        })
    };
    vec![
        of(None, 250e-9, 1e-3),
        of(Some(1.4), 250e-9, 0.8e-3),
        of(Some(0.1), 1e-9, 10e-6),
    ]
}

fn median(name: &str, drawer: &Drawer, wish: &Wish) {
    let mut times: Vec<f64> = (0..=ROUNDS)
        .map(|_| {
            let start = Instant::now();
            black_box(search(black_box(drawer), wish, 4));
            1e3 * start.elapsed().as_secs_f64()
        })
        .skip(1)
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{name:52} {:9.1} ms", times[ROUNDS / 2]);
}

fn main() {
    let all = Drawer {
        resistors: resistors(0.01),
        capacitors: capacitors(),
        references: references(),
        comparators: comparators(),
    };
    let zeners = Drawer {
        references: references().drain(..6).collect(),
        comparators: comparators().drain(..1).collect(),
        resistors: resistors(0.05),
        ..all.clone()
    };
    let wish = Wish {
        trip: 11.4,
        within: 0.03,
        hysteresis: [0.2, 0.5],
        recovered: 12.4,
        delay: [3.45, 7.5],
        supply: [10.0, 14.6],
        lamp: LAMP,
    };
    let at_once = Wish {
        delay: [0.0, 0.0],
        ..wish
    };
    median("120 values, 9 references, 3 comparators", &all, &wish);
    median("the same without delay", &all, &at_once);
    median("120 values of 5 %, zeners only", &zeners, &wish);
}
