//! The same networks through ngspice, a general circuit simulator: every
//! potential and every branch current.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

use boxwright_physics::circuit::{Analysis, Circuit, Grid, Solver, Value};
use boxwright_physics::loudspeaker::{
    AirLoad, Channel, CoilInductance, Driver, Feed, Filling, Network, Outlet, OutputFilter,
    Radiator, System, Vent, VentEnd,
};
use boxwright_physics::math::Complex;

use crate::support::{chamber, reference_driver, single, with_outlet};

/// Both compute the same network in double precision; what is left is
/// ngspice's path to ground at every node, 10⁻¹⁵ S, and rounding where
/// currents cancel. A hundredth of a decibel would be 1.2e-3.
const TOLERANCE: f64 = 1e-6;

fn vent() -> Outlet {
    Outlet::Vent(Vent {
        count: 2,
        area: 1.2e-3,
        length: 0.14,
        hydraulic_radius: 0.0195,
        inner: VentEnd::Free,
        outer: VentEnd::Flush,
        roughness: 1.5,
    })
}

fn lossy_driver() -> Driver {
    Driver {
        inductance: CoilInductance::Lossy { k: 0.02, n: 0.7 },
        ..reference_driver()
    }
}

fn sealed() -> System {
    let mut system = single(reference_driver(), chamber(6e-3));
    system.channels[0].groups[0].driver.inductance = CoilInductance::Plain(4e-4);
    system
}

fn filled() -> System {
    let mut system = single(lossy_driver(), chamber(6e-3));
    system.air_load = AirLoad::Piston;
    system.chambers[0].filling = Filling {
        share: 0.7,
        relaxation: 1.5e-3,
    };
    system.chambers[0].absorption_resistance = 400.0;
    system.chambers[0].leak_resistance = Some(3e5);
    system
}

fn vented() -> System {
    let mut system = single(lossy_driver(), with_outlet(chamber(9e-3), vent()));
    system.air_load = AirLoad::Piston;
    system
}

fn filtered() -> System {
    let mut system = vented();
    system.channels[0].feed = Feed {
        output_resistance: 0.2,
        output_filter: Some(OutputFilter {
            inductance: 2e-5,
            capacitance: 6.8e-7,
        }),
        coupling_capacitance: Some(2.2e-3),
        cable_resistance: 0.08,
    };
    system
}

fn radiator() -> System {
    let outlet = Outlet::Radiator(Radiator {
        count: 2,
        mass: 0.045,
        compliance: 8e-4,
        resistance: 0.9,
        area: 0.0133,
    });
    let mut system = single(lossy_driver(), with_outlet(chamber(7e-3), outlet));
    system.air_load = AirLoad::Piston;
    system
}

/// Two channels, one in reverse, unequal drivers, one chamber.
fn shared() -> System {
    let mut system = vented();
    let mut other: Channel = system.channels[0].clone();
    other.drive = -1.0;
    other.feed.output_resistance = 0.3;
    other.groups[0].driver.mass *= 1.3;
    other.groups[0].driver.bl *= 0.9;
    other.groups[0].series = 2;
    system.channels.push(other);
    system
}

const SWEEP: Analysis = Analysis::Decades {
    steps: 6,
    from: 10.0,
    to: 10_000.0,
};

#[test]
fn sealed_box() {
    compare("sealed", &sealed());
}

#[test]
fn filled_box() {
    compare("filled", &filled());
}

#[test]
fn vented_box() {
    compare("vented", &vented());
}

#[test]
fn output_filter() {
    compare("filtered", &filtered());
}

#[test]
fn radiator_box() {
    compare("radiator", &radiator());
}

#[test]
fn two_channels_in_one_chamber() {
    compare("shared", &shared());
}

fn compare(name: &str, system: &System) {
    let network = Network::new(system);
    let circuit = network.circuit();
    check(
        name,
        circuit,
        &circuit.netlist(name, &[], &SWEEP),
        &SWEEP.frequencies(),
    );
    for frequency in [23.0, 71.0, 240.0, 1_900.0] {
        let netlist = network.netlist_at(name, frequency);
        assert!(!netlist.contains("hertz)") && !netlist.contains("pwl"));
        check(
            &format!("{name}-{frequency}"),
            circuit,
            &netlist,
            &[frequency],
        );
    }
}

/// The whole-range netlist meets its own frequencies exactly.
#[test]
fn whole_range() {
    let network = Network::new(&filtered());
    let frequencies = Analysis::Decades {
        steps: 40,
        from: 2.0,
        to: 20_000.0,
    }
    .frequencies();
    let netlist = network.netlist("The whole range");
    assert!(netlist.starts_with("* The whole range\n"));
    check("whole", network.circuit(), &netlist, &frequencies);
}

/// Between the table's points straight lines stay within a hundredth of a
/// decibel, as long as no pipe resonance of the vent is near.
#[test]
fn tables_serve_other_frequencies_too() {
    let network = Network::new(&vented());
    let line = ".ac dec 40 2e0 2e4";
    let netlist = network.netlist("Between");
    assert!(netlist.contains(line));
    let netlist = netlist.replace(line, ".ac dec 7 4 400");
    let frequencies = Analysis::Decades {
        steps: 7,
        from: 4.0,
        to: 400.0,
    };
    check_within(
        "between",
        network.circuit(),
        &netlist,
        &frequencies.frequencies(),
        1.15e-3,
    );
}

fn check(name: &str, circuit: &Circuit, netlist: &str, frequencies: &[f64]) {
    check_within(name, circuit, netlist, frequencies, TOLERANCE);
}

fn check_within(name: &str, circuit: &Circuit, netlist: &str, frequencies: &[f64], tolerance: f64) {
    let vectors = simulate(name, netlist);
    let solution = Solver::new(circuit)
        .solve(circuit, &Grid::new(frequencies))
        .expect("one solution");
    let simulated = &vectors["frequency"];
    assert_eq!(simulated.len(), frequencies.len(), "{name}");
    let mut compared = 0;
    for (index, frequency) in frequencies.iter().enumerate() {
        assert!(
            (simulated[index].re / frequency - 1.0).abs() < 1e-9,
            "{name}"
        );
        let mut same = |what: &str, ours: Complex| {
            let theirs = vectors
                .get(what)
                .unwrap_or_else(|| panic!("{name}: ngspice gives no {what}"))[index];
            let off = (ours - theirs).norm();
            // Nothing smaller than this flows in any of the networks.
            assert!(
                off <= tolerance * theirs.norm() + 1e-14,
                "{name}: {what} at {frequency} Hz: {ours}, ngspice {theirs}"
            );
            compared += 1;
        };
        for node in circuit.nodes() {
            let what = format!("v({})", circuit.node_name(node));
            same(&what, solution.potential(index, node));
        }
        for id in circuit.ids() {
            let element = circuit.element(id);
            if matches!(element.value, Value::Impedance(_) | Value::OnePort(_)) {
                let what = format!("i(v{})", element.name);
                same(&what, solution.currents(index, id)[0]);
            }
        }
    }
    assert!(compared >= 10 * frequencies.len(), "{name}: {compared}");
}

/// Runs ngspice in batch and reads all vectors it gives.
fn simulate(name: &str, netlist: &str) -> BTreeMap<String, Vec<Complex>> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let deck = folder.join(format!("netlist-{name}.cir"));
    let raw = folder.join(format!("netlist-{name}.raw"));
    let control = format!(
        ".control\nset filetype=ascii\nrun\nwrite {} all\nquit\n.endc\n.end\n",
        raw.display()
    );
    let body = netlist.strip_suffix(".end\n").expect("a netlist ends so");
    fs::write(&deck, format!("{body}{control}")).expect("the test folder can be written");
    let _ = fs::remove_file(&raw);
    let output = Command::new("ngspice")
        .arg("-b")
        .arg(&deck)
        .output()
        .expect("ngspice must be installed; ./check installs it");
    let text = fs::read_to_string(&raw).unwrap_or_else(|_| {
        panic!(
            "{name}: ngspice wrote nothing:\n{}{}",
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        )
    });
    parse_raw(&text)
}

fn parse_raw(text: &str) -> BTreeMap<String, Vec<Complex>> {
    let (head, values) = text.split_once("Values:\n").expect("a raw file has values");
    let (_, list) = head
        .split_once("Variables:\n")
        .expect("a raw file has variables");
    let names: Vec<String> = list
        .lines()
        .map(|line| line.split_whitespace().nth(1).expect("a name").to_owned())
        .collect();
    let numbers: Vec<Complex> = values
        .split_whitespace()
        .filter_map(|word| {
            let (re, im) = word.split_once(',')?;
            let number = |text: &str| text.parse().expect("a raw file holds numbers");
            Some(Complex::new(number(re), number(im)))
        })
        .collect();
    assert_eq!(numbers.len() % names.len(), 0);
    names
        .iter()
        .enumerate()
        .map(|(index, name)| {
            let column = numbers.iter().skip(index).step_by(names.len());
            (name.clone(), column.copied().collect())
        })
        .collect()
}
