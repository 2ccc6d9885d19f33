//! The circuits found for the shipped examples, taken from their lists of parts
//! and nets alone, through ngspice, a general circuit simulator: a lamp that
//! follows its exponential (`shockley-1949`), outputs, transistor and relay that
//! switch.

mod common;

use boxwright_studies::indicator::{Built, Indicator, Kind, Net, Part};
use common::{edited, surveyed};
use design::{MosfetChannel, Shelf, SwitchingKind};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

const BATHING: &str = include_str!("../../../examples/bathing-beach/design.toml");
const SALVAGE: &str = include_str!("../../../examples/salvage-party/design.toml");
const DRAWER: &str = include_str!("../../../examples/salvage-party/shelf.toml");
const WORKSHOP: &str = include_str!("../../../examples/workshop-mono/design.toml");

/// A design with its indicator and shelf.
struct Case {
    name: &'static str,
    indicator: Arc<Indicator>,
    shelf: Shelf,
}

impl Case {
    fn new(name: &'static str, text: &str, drawer: Option<&str>, keys: &[(&str, &str)]) -> Self {
        let design = edited(text, keys);
        let report = surveyed(&design, drawer);
        let project = design::read(&design, drawer).expect("it was read before");
        Self {
            name,
            indicator: report.indicator.expect("the examples have one"),
            shelf: project.shelf,
        }
    }

    fn examples() -> [Self; 3] {
        [
            Self::new("bathing", BATHING, None, &[]),
            Self::new("salvage", SALVAGE, Some(DRAWER), &[]),
            Self::new("workshop", WORKSHOP, None, &[]),
        ]
    }

    fn built(&self) -> &Built {
        self.indicator.built.as_ref().expect("a circuit is found")
    }

    /// A circuit between `bat` and ground: its cards.
    fn deck(&self, parts: &[Part], nets: &[Net]) -> String {
        let mut text = String::from(
            ".model silicon D(IS=1e-14 N=1)\n.model open SW(VT=0 VH=0 RON=1e-3 ROFF=1e12)\n",
        );
        for part in parts {
            let card = self.card(part, &|pin| node(nets, &part.mark, pin));
            writeln!(text, "{card}").expect("strings take all that is written");
        }
        text
    }

    fn card(&self, part: &Part, at: &dyn Fn(&str) -> String) -> String {
        let mark = &part.mark;
        let value = part.value.unwrap_or(0.0);
        match part.kind {
            Kind::Resistor => format!("R{mark} {} {} {value}", at("1"), at("2")),
            Kind::Trimmer => {
                let turned = self.built().trimmer.expect("it is set").turned;
                format!("R{mark} {} {} {}", at("1"), at("2"), turned * value)
            }
            Kind::Capacitor | Kind::Electrolytic => {
                let delay = part.does == "delay";
                let [a, b] = if delay { ["+", "−"] } else { ["1", "2"] };
                format!("C{mark} {} {} {value:e}", at(a), at(b))
            }
            Kind::Reference if part.name.is_none() => {
                format!("D{mark} {} {} silicon", at("anode"), at("cathode"))
            }
            Kind::Reference => self.reference(part, at),
            Kind::Comparator => self.comparator(part, at),
            Kind::Lamp => {
                let saturation = 4e-3 / physics::math::exp(value / (2.0 * 0.025_852));
                format!(
                    "D{mark} {} {} lamp\n.model lamp D(IS={saturation:e} N=2)",
                    at("anode"),
                    at("cathode")
                )
            }
            Kind::MosfetP => {
                let [threshold, on] = self.mosfet(MosfetChannel::P);
                format!(
                    "S{mark} {drain} {source} {source} {} sw{mark}\n\
                     D{mark} {drain} {source} silicon\n\
                     .model sw{mark} SW(VT={threshold} VH=0.2 RON={on} ROFF=1e9)",
                    at("gate"),
                    drain = at("drain"),
                    source = at("source")
                )
            }
            Kind::Mosfet => {
                let [threshold, on] = self.mosfet(MosfetChannel::N);
                format!(
                    "S{mark} {drain} {source} {} {source} sw{mark}\n\
                     .model sw{mark} SW(VT={threshold} VH=0.2 RON={on} ROFF=1e9)",
                    at("gate"),
                    drain = at("drain"),
                    source = at("source")
                )
            }
            Kind::Relay => self.relay(part, at),
            Kind::Button => format!("S{mark} {} {} press 0 open", at("1"), at("2")),
        }
    }

    fn reference(&self, part: &Part, at: &dyn Fn(&str) -> String) -> String {
        let name = part.name.as_deref().expect("from the shelf");
        let zener = self
            .shelf
            .zeners
            .iter()
            .find(|one| one.common.name.text == name);
        let shunt = self
            .shelf
            .references
            .iter()
            .find(|one| one.common.name.text == name);
        let (volts, slope, current) = match (zener, shunt) {
            (Some(one), _) => (one.voltage.si, one.impedance.si, one.test_current.si),
            (_, Some(one)) => {
                let slope = one.impedance.map_or(0.0, |value| value.si);
                (one.voltage.si, slope, one.least_current.si)
            }
            (None, None) => panic!("{name} is not on the shelf"),
        };
        let mark = &part.mark;
        format!(
            "R{mark} {} foot{mark} {}\nV{mark} foot{mark} {} {}",
            at("cathode"),
            slope.max(1e-6),
            at("anode"),
            volts - slope * current
        )
    }

    fn comparator(&self, part: &Part, at: &dyn Fn(&str) -> String) -> String {
        let name = part.name.as_deref().expect("from the shelf");
        let all = &self.shelf.comparators;
        let found = all
            .iter()
            .find(|one| one.common.name.text == name)
            .expect("on the shelf");
        let mark = &part.mark;
        let sink = found.output_low.si / found.output_current.si;
        let mut card = format!(
            "Slow{mark} {out} {} {} {} low{mark}\n.model low{mark} SW(VT=0 VH=0 RON={sink} ROFF=1e12)",
            at("ground"),
            at("−"),
            at("+"),
            out = at("output")
        );
        if let Some(loss) = found.output_high {
            write!(
                card,
                "\nV{mark} {} top{mark} {}\nShigh{mark} top{mark} {} {} {} open",
                at("supply"),
                loss.si,
                at("output"),
                at("+"),
                at("−")
            )
            .expect("strings take all that is written");
        }
        card
    }

    /// Threshold and resistance of the transistor that switches or drives.
    fn mosfet(&self, wanted: MosfetChannel) -> [f64; 2] {
        let found = self
            .shelf
            .switching
            .iter()
            .find_map(|part| match &part.kind {
                SwitchingKind::Mosfet {
                    channel,
                    gate_voltage,
                    on_resistance,
                    ..
                } if channel.value == wanted => Some([gate_voltage.si, on_resistance.si]),
                _ => None,
            });
        found.expect("the built-in shelf has one")
    }

    fn relay(&self, part: &Part, at: &dyn Fn(&str) -> String) -> String {
        let found = self
            .shelf
            .switching
            .iter()
            .find_map(|part| match &part.kind {
                SwitchingKind::Relay {
                    coil_resistance,
                    pull_in,
                    drop_out,
                    ..
                } => Some([
                    coil_resistance.si,
                    pull_in.expect("stated").si,
                    drop_out.expect("stated").si,
                ]),
                SwitchingKind::Mosfet { .. } => None,
            });
        let [coil, pull_in, drop_out] = found.expect("the built-in shelf has one");
        let mark = &part.mark;
        format!(
            "R{mark} {a} {b} {coil}\nS{mark} {} {} {a} {b} sw{mark}\n\
             .model sw{mark} SW(VT={} VH={} RON=0.02 ROFF=1e9)",
            at("contact 1"),
            at("contact 2"),
            f64::midpoint(pull_in, drop_out),
            (pull_in - drop_out) / 2.0,
            a = at("coil 1"),
            b = at("coil 2")
        )
    }

    /// The indicator alone.
    fn light(&self) -> String {
        let built = self.built();
        self.deck(&built.parts, &built.nets)
    }
}

/// The node that a terminal is on.
fn node(nets: &[Net], mark: &str, pin: &str) -> String {
    let on = |net: &Net| {
        net.pins
            .iter()
            .any(|(part, name)| part == mark && *name == pin)
    };
    let at = nets.iter().position(on);
    let at = at.unwrap_or_else(|| panic!("{mark} {pin} is joined to nothing"));
    named(&nets[at].name)
}

fn named(net: &str) -> String {
    match net {
        "ground" => "0".into(),
        "battery +" | "cut-off in" => "bat".into(),
        other => {
            let plain: String = other.chars().filter(char::is_ascii_alphanumeric).collect();
            let minus = if other.contains('−') { "minus" } else { "" };
            format!("n{plain}{minus}")
        }
    }
}

/// Runs a deck and gives the columns that it prints, the first of them time or sweep.
fn run(name: &str, body: &str, analysis: &str, columns: &str) -> Vec<Vec<f64>> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let file = folder.join(format!("found-{name}.cir"));
    let data = folder.join(format!("found-{name}.txt"));
    let control = format!(
        ".control\nset wr_singlescale\nset numdgt=9\n{analysis}\nwrdata {} {columns}\nquit\n.endc\n.end\n",
        data.display()
    );
    fs::write(&file, format!("* {name}\n{body}{control}")).expect("the test folder can be written");
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
        let words = line.split_whitespace();
        words.map(|word| word.parse().expect("a number")).collect()
    };
    text.lines().map(row).collect()
}

/// Step of the sweeps in V.
const STEP: f64 = 1e-3;

/// Battery voltage at which the output changes in a slow sweep.
fn trips(case: &Case, way: &str, from: f64, to: f64) -> f64 {
    let step = STEP * (to - from).signum();
    let body = format!("Vbat bat 0 {from}\nVpress press 0 0\n{}", case.light());
    let rows = run(
        &format!("{}-{way}", case.name),
        &body,
        &format!("dc Vbat {from} {to} {step}"),
        "v(noutput) v(bat)",
    );
    let high = |row: &Vec<f64>| row[1] > row[2] / 2.0;
    let first = high(&rows[0]);
    let change = rows.iter().find(|row| high(row) != first);
    change.unwrap_or_else(|| panic!("{} {way}: never changes", case.name))[2]
}

/// The lamp's forward voltage is taken as constant, which moves the rising
/// threshold by what that changes at the sink: some millivolts.
#[test]
fn each_lights_and_goes_out_where_it_says() {
    for case in Case::examples() {
        let built = case.built();
        let (low, high) = (built.falling.volts - 0.8, built.rising.volts + 0.8);
        let down = trips(&case, "down", high, low);
        let up = trips(&case, "up", low, high);
        let name = case.name;
        assert!(
            (down - built.falling.volts).abs() < 3.0 * STEP,
            "{name}: {down}"
        );
        assert!((up - built.rising.volts).abs() < 6.0 * STEP, "{name}: {up}");
    }
}

/// Times in s at which the lamp changes, of which the first is when it lights.
fn changes(rows: &[Vec<f64>]) -> Vec<f64> {
    let lit = |row: &Vec<f64>| row[1] < row[2] / 2.0;
    let pairs = rows.windows(2).skip(5);
    pairs
        .filter(|pair| lit(&pair[0]) != lit(&pair[1]))
        .map(|pair| pair[1][0])
        .collect()
}

/// A sudden fall that ends as far below the threshold as it began above.
#[test]
fn each_waits_as_long_as_it_says() {
    for case in Case::examples() {
        let built = case.built();
        let (from, to) = (built.falling.volts + 0.4, built.falling.volts - 0.4);
        let body = format!(
            "Vbat bat 0 PWL(0 {from} 1 {from} 1.0001 {to} 60 {to})\nVpress press 0 0\n{}",
            case.light()
        );
        let name = format!("{}-delay", case.name);
        let rows = run(&name, &body, "tran 2m 40 0 2m", "v(noutput) v(bat)");
        let all = changes(&rows);
        assert_eq!(all.len(), 1, "{name}: {all:?}");
        // A pull-up lets the first of the small capacitor's part through slowly.
        let waited = all[0] - 1.0;
        assert!(
            (waited / built.delay - 1.0).abs() < 0.03,
            "{name}: {waited} {}",
            built.delay
        );
    }
}

/// The battery goes slowly through the threshold while music draws on its
/// resistance: beats up to the current of the programme's peaks, five seconds
/// loud and five nearly silent, the mean that of the brief.
#[test]
fn music_makes_none_flicker() {
    for case in Case::examples() {
        let (built, sag) = (case.built(), &case.indicator.sag);
        let ohms = sag.mean / sag.mean_current;
        // Half of the mean flows between the beats, half in them.
        let mean = sag.mean_current / 0.55;
        let beat = 0.5 * mean / sag.peak_current;
        let (rest, peak) = (0.5 * mean / (1.0 - beat), sag.peak_current);
        let (span, away) = (120.0, 0.25);
        let from = built.falling.volts + sag.mean + away;
        let to = built.falling.volts + sag.mean - away;
        let body = format!(
            "Vcell cell 0 PWL(0 {from} {span} {to})\nRcell cell bat {ohms}\n\
             Vbeat beat 0 PULSE({rest} {peak} 0.1 1m 1m {} 0.5)\nVverse verse 0 PULSE(1 0.1 5 0.1 0.1 4.9 10)\n\
             Bload bat 0 I=v(beat)*v(verse)\nVpress press 0 0\n{}",
            (0.5 * beat - 1e-3).max(1e-4),
            case.light()
        );
        let name = format!("{}-music", case.name);
        let rows = run(
            &name,
            &body,
            &format!("tran 2m {span} 0 2m"),
            "v(noutput) v(bat)",
        );
        let all = changes(&rows);
        assert_eq!(all.len(), 1, "{name} flickers: {all:?}");
        let cell = from + (to - from) * all[0] / span;
        let off = cell - sag.mean - built.falling.volts;
        // What the delay lags behind the fall, and what the beats and the five loud
        // seconds leave at the comparator.
        let lag = 2.0 * away / span * 2.0 * built.delay;
        assert!(
            (-lag - sag.mean - 0.01..sag.ripple + sag.mean + 0.01).contains(&off),
            "{name}: lights {off} V off"
        );
    }
}

/// Off when it is switched on, on after the button, off below the threshold, off
/// whatever the battery recovers to and while it is charged, on by the button.
#[test]
fn a_cut_off_stays_off_until_it_is_started() {
    let load = named("cut-off out");
    for kind in ["relay", "mosfet"] {
        let name = kind;
        let case = Case::new(name, SALVAGE, Some(DRAWER), &[("indicator.cut_off", kind)]);
        let cut = case
            .built()
            .cut_off
            .as_ref()
            .expect("the shelf has what it takes");
        let charger = case.indicator.wanted.supply[1];
        let (well, low) = (12.4, cut.falling.volts - 0.3);
        // 8 Ω between the switched side and ground.
        let body = format!(
            "Vbat bat 0 PWL(0 {well} 60 {well} 70 {low} 110 {low} 111 {well} 130 {well} 131 {charger} 190 {charger} 191 {well} 300 {well})\n\
             Vpress press 0 PWL(0 -1 5 -1 5.01 1 7 1 7.01 -1 200 -1 200.01 1 202 1 202.01 -1)\n\
             Rload {load} 0 8\n{}",
            case.deck(&cut.parts, &cut.nets)
        );
        let analysis = "tran 10m 300 0 10m uic";
        let rows = run(
            &format!("cut-{name}"),
            &body,
            analysis,
            &format!("v({load}) v(bat)"),
        );
        let on = |time: f64| {
            let row = rows
                .iter()
                .find(|row| row[0] >= time)
                .expect("within the run");
            row[1] > 0.9 * row[2]
        };
        for (time, expected) in [
            (4.0, false),
            (6.0, true),
            (20.0, true),
            (59.0, true),
            (105.0, false),
            (125.0, false),
            (185.0, false),
            (199.0, false),
            (201.0, true),
            (215.0, true),
            (299.0, true),
        ] {
            assert_eq!(on(time), expected, "{name} at {time} s");
        }
        let fell = rows
            .iter()
            .find(|row| row[0] > 60.0 && row[1] < 0.5 * row[2]);
        let fell = fell.expect("it cuts off")[0];
        assert!(
            (60.0..70.0 + 3.0 * case.built().delay).contains(&fell),
            "{name}: {fell} s"
        );
    }
}

/// It comes back by itself at the voltage that is said: no lamp holds its output up.
#[test]
fn a_cut_off_comes_back_where_it_is_said() {
    let keys = [("indicator.cut_off", "mosfet")];
    let case = Case::new("back", SALVAGE, Some(DRAWER), &keys);
    let cut = case
        .built()
        .cut_off
        .as_ref()
        .expect("the shelf has what it takes");
    let (from, to, span) = (cut.rising - 3.0, cut.rising + 1.0, 4000.0);
    let load = named("cut-off out");
    let body = format!(
        "Vbat bat 0 PWL(0 {from} {span} {to})\nVpress press 0 -1\nRload {load} 0 8\n{}",
        case.deck(&cut.parts, &cut.nets)
    );
    let analysis = format!("tran 500m {span} 0 500m");
    let columns = format!("v({load}) v(bat)");
    let rows = run("back", &body, &analysis, &columns);
    let back = rows.iter().find(|row| row[1] > 0.5 * row[2]);
    let back = back.expect("it comes back")[2];
    // What the delay lags behind 1 mV in a second, and 4 mV for the finite steps.
    let lag = 0.001 * (5.0 * case.built().delay) + 0.004;
    assert!(
        (-0.004..lag).contains(&(back - cut.rising)),
        "{back} {}",
        cut.rising
    );
}
