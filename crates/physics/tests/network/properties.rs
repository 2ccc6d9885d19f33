//! What holds of every passive network and of every box, at random.

use boxwright_physics::circuit::{Grid, Solver};
use boxwright_physics::loudspeaker::{
    Chamber, Channel, CoilInductance, DriverGroup, Feed, Filling, Network, Outlet, OutputFilter,
    Radiator, Sweep, System, Vent,
};
use boxwright_physics::math::{Complex, pow};
use proptest::prelude::*;

use crate::strategies::{air_load, chamber, driver, feed, outlet, system};
use crate::support::{self, AIR, single};

/// Eleven a decade from 5 Hz to 20 kHz: not a multiple of the lanes.
fn frequencies() -> Vec<f64> {
    (0..41)
        .map(|step| 5.0 * pow(4_000.0, f64::from(step) / 40.0))
        .collect()
}

fn close(a: &[Complex], b: &[Complex], tolerance: f64) -> bool {
    a.len() == b.len()
        && a.iter()
            .zip(b)
            .all(|(a, b)| (a - b).norm() <= tolerance * a.norm())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// What the sources give is what is turned into heat and sound, and no
    /// element gives any: conservation and passivity of each part.
    ///
    /// Rounding is relative to what flows to and fro, hence 1e-9.
    #[test]
    fn power_in_is_dissipated_and_radiated(system in system()) {
        let frequencies = frequencies();
        let balance = Network::new(&system).powers(&frequencies);
        for index in 0..frequencies.len() {
            let given = balance.delivered[index];
            let taken = balance.dissipated[index] + balance.radiated[index];
            prop_assert!((given - taken).abs() <= 1e-9 * given, "{given} W, {taken} W");
            prop_assert!(balance.radiated[index] >= 0.0);
            for (name, watts) in &balance.elements {
                let source = name.ends_with("amplifier");
                prop_assert!(source || watts[index] >= -1e-9 * given, "{name}: {}", watts[index]);
            }
        }
    }

    /// A passive load never gives power back to a single source.
    #[test]
    fn load_is_passive(
        driver in driver(),
        feed in feed(),
        chamber in chamber(prop::collection::vec(outlet(), 0..3)),
        air_load in air_load(),
    ) {
        let mut system = single(driver, chamber);
        system.channels[0].feed = feed;
        system.air_load = air_load;
        let sweep = Network::new(&system).sweep(&frequencies());
        for impedance in &sweep.channels[0].load_impedance {
            prop_assert!(impedance.re > 0.0);
        }
    }

    /// The planned sparse solution is that of dense elimination with pivoting.
    #[test]
    fn planned_is_dense(system in system()) {
        let network = Network::new(&system);
        let mut solver = Solver::new(network.circuit());
        for (_, _, band) in Grid::new(&frequencies()).bands() {
            solver.solve_band(band).expect("one solution");
            let planned = solver.unknowns().to_vec();
            solver.solve_band_densely(band).expect("one solution");
            for (a, b) in planned.iter().zip(solver.unknowns()) {
                for lane in 0..boxwright_physics::circuit::LANES {
                    let (a, b) = (a.lane(lane), b.lane(lane));
                    prop_assert!((a - b).norm() <= 1e-9 * b.norm(), "{a} {b}");
                }
            }
        }
    }

    /// New numbers in an old plan give what a new plan gives.
    ///
    /// Rounding differs with the order of pivots. Where cone and outlet cancel, it is
    /// relative to what flows elsewhere in the sweep, not to the little that is left.
    #[test]
    fn plans_are_reused((first, second) in same_structure()) {
        let mut network = Network::new(&first);
        network.set(&second).expect("the structure is the same");
        let reused = network.sweep(&frequencies());
        let fresh = Network::new(&second).sweep(&frequencies());
        let most = fresh.volume_velocity.iter().map(|v| v.norm()).fold(0.0, f64::max);
        for (one, other) in reused.volume_velocity.iter().zip(&fresh.volume_velocity) {
            let within = 1e-8 * other.norm() + 1e-10 * most;
            prop_assert!((*one - *other).norm() <= within, "{one} {other} of {most}");
        }
        prop_assert_eq!(reused.reference_acceleration, fresh.reference_acceleration);
    }

    /// Two equal channels in one chamber are one channel in half of it.
    #[test]
    fn folded_is_unfolded(
        driver in driver(),
        feed in feed(),
        half in chamber(prop::collection::vec(outlet(), 0..2)),
        air_load in air_load(),
    ) {
        let mut folded = single(driver, half);
        folded.channels[0].feed = feed;
        folded.air_load = air_load;
        let unfolded = System {
            channels: vec![folded.channels[0].clone(); 2],
            chambers: vec![doubled(&folded.chambers[0])],
            ..folded.clone()
        };
        let one = Network::new(&folded).sweep(&frequencies());
        let two = Network::new(&unfolded).sweep(&frequencies());
        for channel in &two.channels {
            prop_assert!(close(&one.channels[0].load_impedance, &channel.load_impedance, 1e-10));
            prop_assert!(close(
                &one.channels[0].groups[0].cone_velocity,
                &channel.groups[0].cone_velocity,
                1e-10,
            ));
        }
        let twice: Vec<Complex> = one.volume_velocity.iter().map(|u| u * 2.0).collect();
        // Volume velocities of cone and vent cancel below the tuning.
        let cone = two.channels[0].groups[0].cone_velocity.iter();
        for ((a, b), cone) in twice.iter().zip(&two.volume_velocity).zip(cone) {
            let scale = a.norm() + cone.norm() * driver.area;
            prop_assert!((a - b).norm() <= 1e-10 * scale);
        }
    }

    /// Every electrical impedance times k, at Bl·√k, gives Z·k, and U/√k for
    /// the same voltage.
    #[test]
    fn impedance_scales(system in system(), factor in 0.1..10.0_f64) {
        let mut scaled = system.clone();
        for channel in &mut scaled.channels {
            scale_electrical(channel, factor);
        }
        let a = Network::new(&system).sweep(&frequencies());
        let b = Network::new(&scaled).sweep(&frequencies());
        for (a, b) in a.channels.iter().zip(&b.channels) {
            let expected: Vec<Complex> = a.load_impedance.iter().map(|z| z * factor).collect();
            prop_assert!(close(&expected, &b.load_impedance, 1e-8));
        }
        for (a, b) in cone_velocities(&a).zip(cone_velocities(&b)) {
            let expected: Vec<Complex> = a.iter().map(|v| v / factor.sqrt()).collect();
            prop_assert!(close(&expected, b, 1e-8));
        }
    }

    /// A larger closed box never has a higher resonance.
    #[test]
    fn larger_boxes_resonate_lower(
        mut driver in driver(),
        mut chamber in chamber(Just(Vec::new())),
        growth in 1.0..5.0_f64,
    ) {
        driver.inductance = CoilInductance::None;
        chamber.leak_resistance = None;
        let small = resonance(&single(driver, chamber.clone()));
        chamber.volume *= growth;
        let large = resonance(&single(driver, chamber));
        prop_assert!(large <= small * (1.0 + 1e-9), "{large} {small}");
    }

    /// Filling makes a box act larger, by no more than γ.
    #[test]
    fn filling_is_bounded_by_the_isothermal_limit(
        mut driver in driver(),
        mut chamber in chamber(Just(Vec::new())),
    ) {
        driver.inductance = CoilInductance::None;
        chamber.leak_resistance = None;
        chamber.absorption_resistance = 0.0;
        let filled = resonance(&single(driver, chamber.clone()));
        chamber.filling = Filling::default();
        let empty = resonance(&single(driver, chamber.clone()));
        chamber.volume *= AIR.gamma;
        let isothermal = resonance(&single(driver, chamber));
        prop_assert!(filled <= empty * (1.0 + 1e-9));
        prop_assert!(filled >= isothermal * (1.0 - 1e-9));
    }

    /// Current at one pair of terminals for voltage at the other is the same
    /// both ways, through two coils and the air between them.
    #[test]
    fn unequal_drivers_in_one_chamber_are_reciprocal(
        first in driver(),
        second in driver(),
        chamber in chamber(prop::collection::vec(outlet(), 0..2)),
        air_load in air_load(),
    ) {
        let channel = |driver, drive| Channel {
            feed: Feed::default(),
            drive,
            groups: vec![DriverGroup { driver, series: 1, parallel: 1, chamber: 0 }],
        };
        let mut system = System {
            air: AIR,
            air_load,
            channels: vec![channel(first, 1.0), channel(second, 0.0)],
            chambers: vec![chamber],
        };
        let mut network = Network::new(&system);
        let forward = network.sweep(&frequencies());
        system.channels[0].drive = 0.0;
        system.channels[1].drive = 1.0;
        network.set(&system).expect("the structure is the same");
        let backward = network.sweep(&frequencies());
        prop_assert!(close(
            &forward.channels[1].load_current,
            &backward.channels[0].load_current,
            1e-8,
        ));
    }

    /// A group wired in parallel is so many groups of one driver; a string in
    /// series shares the voltage.
    #[test]
    fn groups_are_their_drivers(
        driver in driver(),
        chamber in chamber(prop::collection::vec(outlet(), 0..2)),
        air_load in air_load(),
    ) {
        let mut apart = single(driver, chamber);
        apart.air_load = air_load;
        let mut parallel = apart.clone();
        let mut series = apart.clone();
        apart.channels[0].groups = vec![apart.channels[0].groups[0]; 2];
        parallel.channels[0].groups[0].parallel = 2;
        series.channels[0].groups[0].series = 2;
        series.channels[0].drive = 2.0;
        let [apart, parallel, series] =
            [apart, parallel, series].map(|system| Network::new(&system).sweep(&frequencies()));
        let expected = &apart.channels[0].groups[0];
        for sweep in [&parallel, &series] {
            let group = &sweep.channels[0].groups[0];
            prop_assert!(close(&expected.cone_velocity, &group.cone_velocity, 1e-9));
            prop_assert!(close(&expected.coil_current, &group.coil_current, 1e-9));
            prop_assert!(close(&expected.terminal_voltage, &group.terminal_voltage, 1e-9));
        }
    }

    /// Equal outlets counted are equal outlets listed.
    #[test]
    fn outlets_count(driver in driver(), outlet in outlet(), air_load in air_load()) {
        let with = |outlets: Vec<Outlet>| {
            let chamber = Chamber { outlets, ..support::chamber(8e-3) };
            let mut system = single(driver, chamber);
            system.air_load = air_load;
            Network::new(&system).sweep(&frequencies())
        };
        let number = |count: u32| match outlet {
            Outlet::Vent(vent) => Outlet::Vent(Vent { count, ..vent }),
            Outlet::Radiator(radiator) => Outlet::Radiator(Radiator { count, ..radiator }),
        };
        let counted = with(vec![number(3)]);
        let listed = with(vec![number(1); 3]);
        let (counted, listed) = (&counted.chambers[0], &listed.chambers[0]);
        prop_assert!(close(&counted.pressure, &listed.pressure, 1e-9));
        let (counted, listed) = (&counted.outlets[0], &listed.outlets[2]);
        prop_assert!(close(&counted.velocity, &listed.velocity, 1e-9));
        let thrice: Vec<Complex> = listed.volume_velocity.iter().map(|u| u * 3.0).collect();
        prop_assert!(close(&counted.volume_velocity, &thrice, 1e-9));
        let thrice: Vec<Complex> = listed.inner_volume_velocity.iter().map(|u| u * 3.0).collect();
        prop_assert!(close(&counted.inner_volume_velocity, &thrice, 1e-9));
    }

    /// How many frequencies are asked for at once does not matter.
    #[test]
    fn sweeps_are_independent_of_their_length(system in system(), count in 1..20_usize) {
        let frequencies = &frequencies()[..count];
        let mut network = Network::new(&system);
        let mut whole = Sweep::default();
        network.sweep_into(&self::frequencies(), &mut whole);
        network.sweep_into(frequencies, &mut whole);
        prop_assert_eq!(whole.volume_velocity.len(), count);
        let last = network.sweep(&frequencies[count - 1..]);
        let cone = whole.channels[0].groups[0].cone_velocity[count - 1];
        let alone = last.channels[0].groups[0].cone_velocity[0];
        prop_assert!((cone - alone).norm() <= 1e-9 * alone.norm());
    }
}

/// Two systems alike but for every number.
fn same_structure() -> impl Strategy<Value = (System, System)> {
    (system(), prop::collection::vec(0.5..2.0_f64, 8)).prop_map(|(first, factors)| {
        let mut second = first.clone();
        for group in second
            .channels
            .iter_mut()
            .flat_map(|channel| &mut channel.groups)
        {
            group.driver.re *= factors[0];
            group.driver.mass *= factors[1];
            group.driver.compliance *= factors[2];
            group.driver.inductance = CoilInductance::Plain(1e-3 * factors[3]);
        }
        for channel in &mut second.channels {
            channel.feed = Feed {
                output_resistance: 0.0,
                output_filter: Some(OutputFilter {
                    inductance: 1e-5 * factors[4],
                    capacitance: 1e-6 * factors[5],
                }),
                coupling_capacitance: None,
                cable_resistance: 0.0,
            };
        }
        for chamber in &mut second.chambers {
            chamber.volume *= factors[6];
            chamber.absorption_resistance = 0.0;
            chamber.filling.share *= 0.4 * factors[7];
        }
        (first, second)
    })
}

fn doubled(half: &Chamber) -> Chamber {
    let mut whole = half.clone();
    whole.volume *= 2.0;
    whole.leak_resistance = half.leak_resistance.map(|r| r / 2.0);
    whole.absorption_resistance = half.absorption_resistance / 2.0;
    whole.outlets.extend_from_slice(&half.outlets);
    whole
}

fn scale_electrical(channel: &mut Channel, factor: f64) {
    let feed = &mut channel.feed;
    feed.output_resistance *= factor;
    feed.cable_resistance *= factor;
    feed.coupling_capacitance = feed.coupling_capacitance.map(|c| c / factor);
    feed.output_filter = feed.output_filter.map(|filter| OutputFilter {
        inductance: filter.inductance * factor,
        capacitance: filter.capacitance / factor,
    });
    for group in &mut channel.groups {
        let driver = &mut group.driver;
        driver.re *= factor;
        driver.bl *= factor.sqrt();
        driver.inductance = match driver.inductance {
            CoilInductance::None => CoilInductance::None,
            CoilInductance::Plain(l) => CoilInductance::Plain(l * factor),
            CoilInductance::Lossy { k, n } => CoilInductance::Lossy { k: k * factor, n },
        };
    }
}

fn cone_velocities(sweep: &Sweep) -> impl Iterator<Item = &Vec<Complex>> {
    sweep
        .channels
        .iter()
        .flat_map(|channel| &channel.groups)
        .map(|group| &group.cone_velocity)
}

/// Where the impedance of a closed box turns from inductive to capacitive.
fn resonance(system: &System) -> f64 {
    let mut network = Network::new(system);
    let (mut low, mut high) = (0.1_f64, 1e5_f64);
    while high / low - 1.0 > 1e-12 {
        let middle = (low * high).sqrt();
        if network.sweep(&[middle]).channels[0].load_impedance[0].im > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Another structure is refused and changes nothing.
#[test]
fn other_structures_are_refused() {
    let closed = single(support::reference_driver(), support::chamber(0.01));
    let mut other = closed.clone();
    other.chambers.push(support::chamber(0.02));
    let mut network = Network::new(&closed);
    assert!(network.set(&other).is_err());
    assert_eq!(network.system(), &closed);
}
