//! The signal's whole way through ngspice, a general circuit simulator, and
//! the parts of it that tables hold.

mod table;

use std::fs;
use std::path::Path;
use std::process::Command;

use boxwright_physics::air::Air;
use boxwright_physics::loudspeaker::{
    AirLoad, Chamber, Channel, CoilInductance, Driver, DriverGroup, Feed, Filling, Network,
    OutputFilter, System,
};
use boxwright_physics::math::{Complex, J, db_amplitude, omega};
use boxwright_physics::signal::{Coupling, Damping, LevelControl, Output, Sum, Track};

const DAMPING: Damping = Damping {
    resistance: 8.2,
    capacitance: 1e-6,
};

const FILTER: Output = Output {
    resistance: 0.25,
    inductance: 20e-6,
    capacitance: 0.34e-6,
    damping: Some(DAMPING),
};

/// Two sources of 100 Ω through 1 kΩ each, a control of 10 kΩ, 1 µF, a board of 20 kΩ and 26 dB.
const SUM: Sum = Sum {
    resistor: 1000.0,
    source: 100.0,
    load: f64::INFINITY,
};
const SHARE: f64 = 0.3;
const CAPACITANCE: f64 = 1e-6;
const INPUT: f64 = 20e3;
const GAIN: f64 = 20.0;

fn system() -> System {
    System {
        air: Air::at(20.0, 101_325.0, 0.5),
        air_load: AirLoad::InMass,
        channels: vec![Channel {
            drive: 1.0,
            feed: Feed {
                output_resistance: FILTER.resistance,
                output_filter: Some(OutputFilter {
                    inductance: FILTER.inductance,
                    capacitance: FILTER.capacitance,
                }),
                coupling_capacitance: None,
                cable_resistance: 0.05,
            },
            groups: vec![DriverGroup {
                driver: Driver {
                    re: 3.5,
                    inductance: CoilInductance::Lossy { k: 0.02, n: 0.7 },
                    bl: 4.2,
                    mass: 6e-3,
                    compliance: 8e-4,
                    resistance: 0.8,
                    area: 5.5e-3,
                },
                series: 1,
                parallel: 1,
                chamber: 0,
            }],
        }],
        chambers: vec![Chamber {
            volume: 6e-3,
            filling: Filling::default(),
            absorption_resistance: 0.0,
            leak_resistance: None,
            outlets: vec![],
        }],
    }
}

/// Source to speaker terminals by our laws, for one volt from each source.
fn ours(frequency: f64) -> Complex {
    let control = LevelControl {
        resistance: 10e3,
        track: Track::Linear,
        source: SUM.output(),
        load: f64::INFINITY,
    };
    let open = SHARE * control.resistance / (control.source + control.resistance);
    let coupling = Coupling {
        capacitance: CAPACITANCE,
        resistance: control.output(SHARE) + INPUT,
    };
    // The corner's phase, where its gain is the magnitude.
    let w = omega(frequency) / omega(coupling.corner());
    let passed = J * w / (Complex::from(1.0) + J * w);
    assert!((passed.norm() / coupling.gain(frequency) - 1.0).abs() < 1e-12);
    let input = open * INPUT / coupling.resistance * passed;
    let sweep = Network::new(&system()).sweep(&[frequency]);
    let channel = &sweep.channels[0];
    let load = channel.load_impedance[0];
    let at_load = FILTER.gain(frequency, load);
    let cable = (load - 0.05) / load;
    input * GAIN * at_load * cable
}

/// The same as one netlist: input by hand, loudspeaker as our network writes
/// itself, with its source replaced by the amplifier and the damping added.
fn theirs(frequency: f64) -> Complex {
    let netlist = Network::new(&system()).netlist_at("chain", frequency);
    let mut deck = String::new();
    for line in netlist.lines() {
        if line.starts_with("Ech1_amplifier") {
            deck += &line.replace("drive 0 1e0", &format!("input 0 {GAIN:e}"));
            deck.push('\n');
        } else if line != ".end" {
            deck += &format!("{line}\n");
        }
    }
    assert!(deck.contains("input 0"), "{deck}");
    deck += &format!(
        "Vleft left 0 dc 0 ac 1\nVright right 0 dc 0 ac 1\n\
         Rleft left a 100\nRsuml a top 1000\nRright right b 100\nRsumr b top 1000\n\
         Rupper top wiper {}\nRlower wiper 0 {}\nCin wiper input {CAPACITANCE}\nRin input 0 {INPUT}\n\
         Rdamp ch1_output damped {}\nCdamp damped 0 {}\n",
        (1.0 - SHARE) * 10e3,
        SHARE * 10e3,
        DAMPING.resistance,
        DAMPING.capacitance
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let path = folder.join(format!("signal-{frequency}.cir"));
    deck += ".control\nset numdgt=12\nrun\nprint v(ch1_terminals)\nquit\n.endc\n.end\n";
    fs::write(&path, &deck).expect("the test folder can be written");
    let output = Command::new("ngspice")
        .arg("-b")
        .arg(&path)
        .output()
        .expect("ngspice must be installed; ./check installs it");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    read(&text).unwrap_or_else(|| {
        panic!(
            "{text}\n{}\n{deck}",
            String::from_utf8_lossy(&output.stderr)
        )
    })
}

/// The one complex number that was printed.
fn read(text: &str) -> Option<Complex> {
    let line = text
        .lines()
        .find(|line| line.starts_with("v(ch1_terminals)"))?;
    let (_, value) = line.split_once('=')?;
    let (re, im) = value.trim().split_once(',')?;
    Some(Complex::new(
        re.trim().parse().ok()?,
        im.trim().parse().ok()?,
    ))
}

/// Both solve one linear network in double precision; ngspice keeps 10⁻¹² S
/// at nodes and prints twelve digits.
#[test]
fn the_whole_way_through_ngspice() {
    for frequency in [12.0, 80.0, 400.0, 3000.0, 18e3, 55e3] {
        let (ours, theirs) = (ours(frequency), theirs(frequency));
        assert!(
            (ours - theirs).norm() < 1e-6 * theirs.norm(),
            "{frequency} Hz: {ours}, ngspice {theirs}"
        );
    }
}

/// Each leg L and C into half the load, as the table's circuit has it; the
/// table carries ten digits.
#[test]
fn filter_of_a_bridge() {
    for row in table::numbers(include_str!("../../../reference/output_filter.csv")) {
        let output = Output {
            resistance: 0.0,
            inductance: 2e-6 * row[0],
            capacitance: 0.5e-6 * row[1],
            damping: None,
        };
        for (frequency, expected) in [(20e3, row[5]), (400e3, row[6])] {
            let got = db_amplitude(output.gain(frequency, row[2].into()).norm());
            assert!((got - expected).abs() < 1e-8, "{got} is not {expected}");
        }
    }
}

/// The conjugate of a coil across the output (its Zobel pair) makes it a
/// resistor at every frequency: the filter then is the plain low-pass.
#[test]
fn conjugate_of_a_coil_makes_it_a_resistor() {
    for row in table::numbers(include_str!("../../../reference/coil_conjugate.csv")) {
        let [resistance, millihenries, conjugate, microfarads] = row[..] else {
            panic!("{row:?}")
        };
        let damped = Output {
            damping: Some(Damping {
                resistance: conjugate,
                capacitance: 1e-6 * microfarads,
            }),
            ..FILTER
        };
        let bare = Output {
            damping: None,
            ..FILTER
        };
        for frequency in [50.0, 900.0, 7e3, 60e3] {
            let coil = Complex::new(resistance, omega(frequency) * 1e-3 * millihenries);
            let got = damped.gain(frequency, coil);
            let expected = bare.gain(frequency, resistance.into());
            // The table's capacitor carries ten digits.
            assert!(
                (got - expected).norm() < 1e-8,
                "{frequency}: {got} is not {expected}"
            );
        }
    }
}

/// An L-pad is a level control set once: the table's series and shunt
/// resistors as a track, into the load they were made for.
#[test]
fn pad_of_two_resistors() {
    for row in table::numbers(include_str!("../../../reference/l_pad.csv")) {
        let [load, attenuation, series, shunt] = row[..] else {
            panic!("{row:?}")
        };
        let pad = LevelControl {
            resistance: series + shunt,
            track: Track::Linear,
            source: 0.0,
            load,
        };
        let got = db_amplitude(pad.gain(shunt / (series + shunt)));
        assert!(
            (got + attenuation).abs() < 1e-8,
            "{got} is not -{attenuation}"
        );
    }
}
