//! The whole circuit through ngspice, a general circuit simulator, with a lamp
//! that follows its exponential (`shockley-1949`) and outputs that switch.

use crate::parts::{amplifier, micropower, open_collector};
use boxwright_physics::indicator::{Indicator, State};
use boxwright_physics::math::exp;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

/// The circuit between `bat` and ground, its output `out`, its input `in`.
fn deck(circuit: &Indicator) -> String {
    let mut text = String::new();
    let mut line = |card: String| {
        writeln!(text, "{card}").expect("strings take all that is written");
    };
    line(format!("Rtop bat in {}", circuit.top.ohms()));
    line(format!("Rbottom in 0 {}", circuit.bottom.ohms()));
    // What lies between divider and input, where it is one node, is next to nothing.
    let slow = circuit.slow.map_or(1e-3, |one| one.ohms);
    line(format!("Rslow in plus {slow}"));
    if let Some(capacitor) = circuit.delay {
        line(format!("Cdelay plus 0 {:e}", capacitor.farads));
    }
    if let Some(back) = circuit.feedback {
        line(format!("Rback out in {}", back.ohms));
        if let Some(speed_up) = circuit.speed_up {
            line(format!("Cback out plus {speed_up:e}"));
        }
    }
    let reference = &circuit.reference;
    let foot = reference.volts - reference.slope * reference.rated_current;
    line(format!("Rfeed bat ref {}", circuit.feed.ohms));
    line(format!("Rslope ref foot {}", reference.slope.max(1e-6)));
    line(format!("Vfoot foot 0 {foot}"));
    line(format!("Rlamp bat anode {}", circuit.light.series));
    line("Dlamp anode out lamp".into());
    let saturation = 4e-3 / exp(circuit.light.forward / (2.0 * 0.025_852));
    line(format!(".model lamp D(IS={saturation:e} N=2)"));
    line("Slow out 0 ref plus low".into());
    line(format!(
        ".model low SW(VT=0 VH=0 RON={} ROFF=1e12)",
        circuit.comparator.sink
    ));
    if let Some(pull_up) = circuit.pull_up {
        line(format!("Rpull bat out {}", pull_up.ohms));
    }
    if let Some(loss) = circuit.comparator.output_high {
        line(format!("Vloss bat top {loss}"));
        line("Shigh top out plus ref high".into());
        line(".model high SW(VT=0 VH=0 RON=1e-3 ROFF=1e12)".into());
    }
    text
}

/// Runs a deck and gives the columns that it prints.
fn run(name: &str, body: &str, analysis: &str, columns: &str) -> Vec<Vec<f64>> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let (file, data) = (
        folder.join(format!("indicator-{name}.cir")),
        folder.join(format!("indicator-{name}.txt")),
    );
    let control = format!(
        ".control\nset wr_singlescale\nset numdgt=12\n{analysis}\nwrdata {} {columns}\nquit\n.endc\n.end\n",
        data.display()
    );
    fs::write(&file, format!("* indicator {name}\n{body}{control}"))
        .expect("the test folder can be written");
    let _ = fs::remove_file(&data);
    let output = Command::new("ngspice")
        .arg("-b")
        .arg(&file)
        .output()
        .expect("ngspice must be installed; ./check installs it");
    let text = fs::read_to_string(&data).unwrap_or_else(|_| {
        panic!(
            "{name}: ngspice wrote nothing:\n{}{}",
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        )
    });
    let row = |line: &str| {
        line.split_whitespace()
            .map(|word| word.parse().expect("a number"))
            .collect()
    };
    text.lines().map(row).collect()
}

/// Battery voltage at which the output changes in a sweep.
fn trip(name: &str, circuit: &Indicator, from: f64, to: f64) -> f64 {
    let step = STEP * (to - from).signum();
    let body = format!("Vbat bat 0 {from}\n{}", deck(circuit));
    let rows = run(
        name,
        &body,
        &format!("dc Vbat {from} {to} {step}"),
        "v(out) v(bat)",
    );
    let high = |row: &Vec<f64>| row[1] > row[2] / 2.0;
    let first = high(&rows[0]);
    let change = rows.iter().find(|row| high(row) != first);
    change.unwrap_or_else(|| panic!("{name}: never trips"))[2]
}

/// Step of the sweeps in V, and with it their error; the lamp's exponential and
/// the output's leak add less than a tenth of that.
const STEP: f64 = 0.5e-3;

#[test]
fn thresholds_by_a_sweep_down_and_up() {
    for (name, circuit) in [
        ("open", open_collector()),
        ("push", amplifier()),
        ("slow", micropower()),
    ] {
        let thresholds = circuit.thresholds();
        let down = trip(&format!("{name}-down"), &circuit, 14.0, 9.0);
        let up = trip(&format!("{name}-up"), &circuit, 9.0, 14.0);
        assert!(
            (down - thresholds.falling).abs() < 2.2 * STEP,
            "{name}: {down} {thresholds:?}"
        );
        assert!(
            (up - thresholds.rising).abs() < 2.2 * STEP,
            "{name}: {up} {thresholds:?}"
        );
        assert!(thresholds.hysteresis() > 0.2, "{thresholds:?}");
    }
}

/// Voltages and currents with the lamp dark and lit: the lamp's forward voltage
/// is taken as constant, which is off by 0.1 V at a third of its current.
#[test]
fn what_flows_where() {
    for (name, circuit) in [
        ("open", open_collector()),
        ("push", amplifier()),
        ("slow", micropower()),
    ] {
        for (state, supply) in [(State::Dark, 13.0), (State::Lit, 9.5)] {
            let body = format!("Vbat bat 0 {supply}\n{}", deck(&circuit));
            let rows = run(
                &format!("{name}-{state:?}"),
                &body,
                "op",
                "v(in) v(out) v(ref) i(Vbat) v(anode)",
            );
            let [input, output, reference, drawn, anode] = rows[0][1..6] else {
                panic!("{rows:?}")
            };
            let near = |ours: f64, theirs: f64, tolerance: f64| {
                assert!(
                    (ours - theirs).abs() < tolerance,
                    "{name} {state:?} at {supply} V: {ours} {theirs}"
                );
            };
            near(circuit.input_at(supply, state), input, 1e-3);
            near(circuit.output_at(supply, state), output, 5e-3);
            near(
                circuit.reference.at(supply, circuit.feed.ohms),
                reference,
                1e-6,
            );
            let currents = circuit.currents(supply, state);
            let lamp = (supply - anode) / circuit.light.series;
            near(currents.light, lamp, 0.02 * lamp + 1e-6);
            near(
                currents.drawn - circuit.comparator.supply_current,
                -drawn,
                0.03 * lamp + 2e-6,
            );
        }
    }
}

/// A sudden fall: the simulator's steps are 1 ms.
#[test]
fn delay_after_a_sudden_fall() {
    for (name, circuit) in [
        ("open", open_collector()),
        ("push", amplifier()),
        ("slow", micropower()),
    ] {
        let trip = circuit.thresholds().falling;
        let (from, to) = (trip + 0.4, trip - 0.7);
        let body = format!(
            "Vbat bat 0 PWL(0 {from} 1 {from} 1.0001 {to} 60 {to})\n{}",
            deck(&circuit)
        );
        let rows = run(&format!("{name}-delay"), &body, "tran 1m 30 0 1m", "v(out)");
        let lights = rows
            .iter()
            .find(|row| row[1] < to / 2.0)
            .expect("it lights")[0]
            - 1.0;
        let ours = circuit.delay_between(from, to).unwrap();
        // The pull-up and the capacitor behind it let the first of it through
        // in a hundredth of a second rather than at once.
        let pulled = circuit
            .pull_up
            .map_or(0.0, |one| one.ohms * circuit.speed_up.unwrap());
        assert!(
            (lights - ours).abs() < 3e-3 + pulled,
            "{name}: {lights} {ours}"
        );
        let same = circuit.delay_between(trip + 0.3, trip - 0.3).unwrap();
        assert!((same - circuit.delay_seconds()).abs() < 1e-9);
    }
}

/// How often the lamp changes while the battery goes slowly through the
/// threshold and bass draws on its resistance.
fn changes(name: &str, circuit: &Indicator) -> usize {
    let trip = circuit.thresholds().falling;
    // Bass of 55 Hz in bursts twice a second, a quieter passage every ten
    // seconds: 2 A on the mean, 5 A at the peaks, into 0.1 Ω.
    let load = "Bload bat 0 I=(0.8+4.2*(sin(345.6*time)>0.2)*(sin(12.6*time)>-0.3))*(0.6+0.4*(sin(0.63*time)>-0.6))";
    let (from, to) = (trip + 0.45, trip + 0.05);
    let body = format!(
        "Vcell cell 0 PWL(0 {from} 60 {to})\nRcell cell bat 0.1\n{load}\n.ic v(in)={} v(plus)={} v(out)={}\n{}",
        circuit.input_at(from - 0.1, State::Dark),
        circuit.input_at(from - 0.1, State::Dark),
        circuit.output_at(from - 0.1, State::Dark),
        deck(circuit)
    );
    let rows = run(name, &body, "tran 1m 60 0 1m uic", "v(out) v(bat)");
    let low: Vec<bool> = rows
        .iter()
        .skip(5)
        .map(|row| row[1] < row[2] / 2.0)
        .collect();
    assert!(
        low[low.len() - 1] || !low[0],
        "{name}: it must go from dark to lit"
    );
    low.windows(2).filter(|pair| pair[0] != pair[1]).count()
}

#[test]
fn bass_does_not_make_it_flicker() {
    for (name, circuit) in [
        ("open", open_collector()),
        ("push", amplifier()),
        ("slow", micropower()),
    ] {
        let quiet = changes(&format!("{name}-music"), &circuit);
        assert_eq!(quiet, 1, "{name} flickers with hysteresis and delay");
        let bare = Indicator {
            feedback: None,
            slow: None,
            delay: None,
            speed_up: None,
            ..circuit
        };
        let flicker = changes(&format!("{name}-bare"), &bare);
        assert!(
            flicker > 100,
            "{name} without either changes {flicker} times"
        );
    }
}
