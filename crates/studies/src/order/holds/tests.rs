//! Readings against sums by hand, and tests against every set of tools.

use super::*;
use crate::odds::Drawn;
use crate::order::steps::Site;
use crate::outcome::Bench;
use crate::sound::Grid;
use crate::subject::Subject;
use crate::vary::Draw;
use design::Workshop;
use std::sync::OnceLock;

const BEACH: &str = include_str!("../../../../../examples/bathing-beach/design.toml");

const TOOLS: [Instrument; 9] = [
    Instrument::Multimeter,
    Instrument::Phone,
    Instrument::SineSource,
    Instrument::BenchSupply,
    Instrument::SoundMeter,
    Instrument::Oscilloscope,
    Instrument::Thermometer,
    Instrument::ClampMeter,
    Instrument::Scale,
];

/// All tests of a design with each of these sets of tools and so many drawn builds.
fn tested(
    design: &str,
    builds: usize,
    sets: &[Vec<Instrument>],
    see: impl Fn(&Testing<'_>, Vec<Hold>),
) {
    let project = design::read(design, None).expect("a sound design");
    let subject = Subject::new(project, 1.0).expect("a sound design");
    let fine = Grid::fine();
    let coarse = Grid::coarse();
    let mut bench = Bench::new(&subject, fine.clone());
    let studied = bench.study(subject.build(&Draw::Nominal));
    let drawn = Drawn::run(
        &subject,
        &Bench::new(&subject, coarse.clone()),
        builds,
        &|_| {},
    );
    let carpentry = crate::carpentry::study(&subject);
    let finish = crate::finish::study(&subject, &carpentry);
    for tools in sets {
        // Instruments change what is measured and with what, not the box.
        let mut equipped = subject.clone();
        equipped.project.design.workshop = Workshop {
            tools: tools.clone(),
            place: None,
        };
        let testing = Testing {
            subject: &equipped,
            carpentry: &carpentry,
            finish: &finish,
            build: &studied.build,
            outcome: &studied.outcome,
            gains: &studied.gains,
            hertz: &fine.hertz,
            drawn: &drawn,
            coarse: &coarse.hertz,
            electrics: None,
            warmth: None,
            indicator: None,
            builds: OnceLock::new(),
        };
        let site = Site::new(&equipped.project.design, &carpentry, &finish, None);
        see(&testing, all(&testing, &site));
    }
}

/// Units that no hand, eye or ear reads.
const READ: [&str; 8] = ["V", "mV", "A", "Ω", "Hz", "dB", "K", "W"];

#[test]
fn nothing_is_asked_that_the_tools_cannot_read() {
    let sets: Vec<Vec<Instrument>> = (0..1_usize << TOOLS.len())
        .map(|mask| {
            let picked = TOOLS
                .iter()
                .enumerate()
                .filter(|(bit, _)| mask >> bit & 1 == 1);
            picked.map(|(_, tool)| *tool).collect()
        })
        .collect();
    tested(BEACH, 0, &sets, |testing, holds| {
        for hold in holds {
            let owned = hold.with.iter().all(|tool| testing.has(*tool));
            assert!(owned, "{:?} {hold:#?}", testing.design().workshop);
            let numbers = hold.readings.iter().any(|reading| match &reading.expect {
                Expect::Band { unit, .. }
                | Expect::AtLeast { unit, .. }
                | Expect::AtMost { unit, .. } => READ.contains(unit),
                Expect::Seen(_) => false,
            });
            assert!(!numbers || !hold.with.is_empty(), "{hold:#?}");
            if matches!(hold.taken, Taken::Not(_)) {
                assert!(
                    hold.readings.is_empty() && hold.with.is_empty(),
                    "{hold:#?}"
                );
            } else {
                assert!(!hold.readings.is_empty(), "{hold:#?}");
            }
        }
    });
}

fn band(holds: &[Hold], id: &str, label: &str) -> [f64; 3] {
    let hold = holds.iter().find(|hold| hold.id == id).expect(id);
    let reading = hold
        .readings
        .iter()
        .find(|reading| reading.label.contains(label));
    match &reading
        .unwrap_or_else(|| panic!("{label}: {hold:#?}"))
        .expect
    {
        Expect::Band {
            low, nominal, high, ..
        } => [*low, *nominal, *high],
        other => panic!("{other:?}"),
    }
}

/// One driver on each side: its coil and 2 · 0.4 m of 0.75 mm², 20.8 mΩ by the limit of
/// IEC 60228 for class 5, 26.0 Ω/km. Eight of ten coils lie within 1.28 · 2.5 %, and the meter adds 1 %
/// and 0.1 Ω.
#[test]
fn coils_read_their_resistance_and_the_cable() {
    let tools = vec![Instrument::Multimeter, Instrument::Phone];
    tested(BEACH, 256, &[tools], |testing, holds| {
        let re = testing.build.drivers[0].driver.re;
        let [low, nominal, high] = band(&holds, "test-coils", "left");
        assert!((nominal - re - 0.0208).abs() < 0.001, "{nominal} {re}");
        let half = 1.28 * 0.025 * re + 0.01 * re + 0.1;
        for (end, wanted) in [(nominal - low, half), (high - nominal, half)] {
            assert!((end / wanted - 1.0).abs() < 0.15, "{end} {wanted}");
        }
    });
}

/// The small fuse passes twice the idle current and no more than the next step above allows.
#[test]
fn the_first_fuse_is_sized_from_the_idle_current() {
    let tools = vec![Instrument::Multimeter, Instrument::Phone];
    tested(BEACH, 64, &[tools], |testing, holds| {
        let [_, idle, high] = band(&holds, "test-idle", "on, nothing");
        assert!((idle - testing.build.amplifier.stage.idle_current).abs() < 1e-12);
        let fuse = power::small_fuse(testing);
        assert!(
            fuse >= 2.0 * high && fuse < 2.0 * 1.3 * high,
            "{fuse} {high}"
        );
    });
}

/// The sine of the sag test by hand: P = V²/R·cos φ out of each side, with the loss in the stage
/// and its idle power; the battery drops by its resistance times the current.
#[test]
fn the_battery_sags_by_current_times_resistance() {
    let tools = vec![Instrument::Multimeter, Instrument::Phone];
    tested(BEACH, 64, &[tools], |testing, holds| {
        let [low, nominal, high] = band(&holds, "test-sag", "drops by");
        let battery = &testing.build.battery;
        let current = nominal / battery.resistance;
        let power = current * (battery.open_circuit(0.5) - nominal);
        assert!(power > testing.outcome.draw_idle, "{power}");
        // No more than two channels give at the clip point.
        assert!(power < 2.0 * testing.outcome.clean_mid / 0.6, "{power}");
        assert!(low < nominal && nominal < high);
    });
}

/// Stepped through in time: the air that leaks in is the vacuum over the leak, and cones follow
/// the vacuum at once.
#[test]
fn the_cone_creeps_back_as_a_stepped_circuit_does() {
    let tools = vec![Instrument::Phone];
    tested(BEACH, 0, &[tools], |testing, _| {
        let build = testing.build;
        let stiffness = build.air.density * build.air.sound_speed * build.air.sound_speed;
        let of_box = build.air.gamma * build.enclosure.net / stiffness;
        let driver = &build.drivers[0].driver;
        let of_cones = 2.0 * driver.area * driver.area * driver.compliance;
        let resonance = testing.outcome.closed;
        let leak = build.enclosure.leak_q * stiffness
            / (core::f64::consts::TAU * resonance * build.enclosure.net);
        let (mut vacuum, mut time, step) = (100.0, 0.0, 1e-5);
        while vacuum > 100.0 / core::f64::consts::E {
            vacuum -= step * vacuum / leak / (of_box + of_cones);
            time += step;
        }
        let found = shut::creep(testing, build);
        assert!((found / time - 1.0).abs() < 0.01, "{found} {time}");
    });
}

/// A peak of the impedance of a sealed box stands at its resonance (`small-1972`).
#[test]
fn the_peak_of_a_sealed_box_is_its_resonance() {
    let tools = vec![Instrument::Multimeter, Instrument::Phone];
    tested(BEACH, 64, &[tools], |testing, holds| {
        let [low, nominal, high] = band(&holds, "test-impedance", "peak at");
        let resonance = testing.outcome.closed;
        assert!(
            (nominal / resonance - 1.0).abs() < 0.03,
            "{nominal} {resonance}"
        );
        assert!(low < nominal && nominal < high);
    });
}

/// Two bridged outputs have four legs: each of them against the battery's minus, the sleeve of the
/// input and the metal panel, and each of one output against each of the other, once.
#[test]
fn every_leg_of_an_output_is_held_against_everything_else() {
    let texts = crate::Texts {
        design: BEACH,
        shelf: None,
    };
    let options = crate::Options {
        builds: 0,
        spread: 1.0,
        progress: &|_| {},
    };
    let report = crate::survey(texts, options).expect("a sound design");
    let holds = &report.order.holds;
    let hold = holds.iter().find(|hold| hold.id == "test-isolation");
    let labels: Vec<&str> = hold
        .expect("outputs are tested")
        .readings
        .iter()
        .map(|reading| reading.label.as_str())
        .collect();
    for leg in ["left +", "left −", "right +", "right −"] {
        for other in [
            "battery −",
            "input sleeve",
            "the metal of the control panel",
        ] {
            let pair = format!("{leg} to {other}");
            assert!(labels.contains(&pair.as_str()), "{pair}: {labels:?}");
        }
    }
    for left in ["left +", "left −"] {
        for right in ["right +", "right −"] {
            assert!(
                labels.contains(&format!("{left} to {right}").as_str()),
                "{labels:?}"
            );
        }
    }
    assert_eq!(labels.len(), 4 * 3 + 4);
}

/// The report of the example with some keys set.
fn report(keys: &[(&str, &str)]) -> crate::Report {
    let edits: Vec<_> = keys
        .iter()
        .map(|(key, value)| crate::check::Edit::set(*key, *value))
        .collect();
    let design = crate::apply(BEACH, &edits).expect("keys that are there");
    let texts = crate::Texts {
        design: &design,
        shelf: None,
    };
    let options = crate::Options {
        builds: 0,
        spread: 1.0,
        progress: &|_| {},
    };
    crate::survey(texts, options).expect("a sound design")
}

const BENCH: (&str, &str) = ("workshop.tools.2", "bench supply");

fn hold<'a>(report: &'a crate::Report, id: &str) -> &'a Hold {
    let mut holds = report.order.holds.iter();
    holds.find(|hold| hold.id == id).expect(id)
}

/// By hand: the board's own, 22 mA of the converter and 5 V · 60 mA / 0.78 at the voltage of the
/// test, and what the study of the indicator finds with its lamp dark.
#[test]
fn the_idle_current_is_that_of_the_test() {
    let [charged, bench] = [report(&[]), report(&[BENCH])];
    let subject = Subject::new(design::read(BEACH, None).expect("a sound design"), 1.0);
    let build = subject.expect("a sound design").build(&Draw::Nominal);
    let built = charged
        .indicator
        .as_ref()
        .and_then(|known| known.built.as_ref());
    let dark = built.expect("a circuit").dark;
    let at =
        |volts: f64| build.amplifier.stage.idle_current + 0.022 + 5.0 * 0.06 / 0.78 / volts + dark;
    let (full, half) = (build.battery.full_voltage(), build.battery.mid_voltage());
    let meter = 2.0 * context::DIRECT;
    for (report, usual) in [(&charged, full), (&bench, half)] {
        let [low, nominal, high] = band(&report.order.holds, "test-idle", "on, nothing");
        assert!(
            (nominal - at(usual)).abs() < 1e-9,
            "{nominal} {}",
            at(usual)
        );
        assert!((low - (1.0 - meter) * at(usual)).abs() < 1e-9, "{low}");
        assert!((high - (1.0 + meter) * at(half)).abs() < 1e-9, "{high}");
    }
}

/// Outside of the band a part is wrong: every build within its tolerances lies inside.
#[test]
fn trip_points_hold_every_right_build() {
    let report = report(&[("indicator.trim", "false")]);
    let built = report
        .indicator
        .as_ref()
        .and_then(|known| known.built.as_ref());
    let built = built.expect("a circuit");
    for (label, threshold) in [("lights", &built.falling), ("goes out", &built.rising)] {
        let [low, _, high] = band(&report.order.holds, "test-indicator", label);
        assert!(
            low < threshold.least && high > threshold.most,
            "{low} {high} {threshold:?}"
        );
    }
}

/// The sheet of the indicator and the order of work tell the same way to its trip point.
#[test]
fn both_sheets_make_the_same_supply_for_the_indicator() {
    let charged = report(&[]);
    let hold = hold(&charged, "test-indicator");
    let built = charged
        .indicator
        .as_ref()
        .and_then(|known| known.built.as_ref());
    let sheet: Vec<&str> = built
        .expect("a circuit")
        .steps
        .iter()
        .map(|step| step.act.as_str())
        .collect();
    let sheet = sheet.join(" ");
    let way = hold.how.first().expect("a way");
    let way = way.split(';').next().expect("a way");
    assert!(
        way.contains("fuse of 0.5 A") && sheet.contains(way),
        "{way}: {sheet}"
    );
    let care = hold.caution.as_deref().expect("a charged pack wants care");
    assert!(sheet.contains(care), "{care}: {sheet}");
}

/// The example has no power light, and its low-battery light stays dark; a bench supply has no
/// fuse that goes.
#[test]
fn words_fit_what_is_there() {
    let said = |report: &crate::Report| {
        let holds = ["test-power-up", "test-idle"].map(|id| hold(report, id));
        format!("{holds:?}")
    };
    let charged = said(&report(&[]));
    assert!(!charged.contains("light comes on"), "{charged}");
    assert!(
        charged.contains("low-battery light stays dark"),
        "{charged}"
    );
    assert!(charged.contains("fuse goes at once"), "{charged}");
    let bench = said(&report(&[BENCH]));
    for wrong in ["fuse goes", "meter's own fuse", "light comes on"] {
        assert!(!bench.contains(wrong), "{wrong}: {bench}");
    }
    let lit = said(&report(&[("control.part.3.does", "power light")]));
    assert!(lit.contains("the power light comes on"), "{lit}");
}

#[test]
fn nobody_without_a_phone_is_asked_to_film() {
    tested(
        BEACH,
        0,
        &[vec![], vec![Instrument::Phone]],
        |testing, holds| {
            let leak = holds.iter().find(|hold| hold.id == "test-leak");
            let words = format!("{:?}", leak.expect("it is tested"));
            assert_eq!(
                words.contains("phone"),
                testing.has(Instrument::Phone),
                "{words}"
            );
        },
    );
}

/// The cut-off is built and tested before it is wired in, and every test that switches on says
/// that its button must be pressed.
#[test]
fn a_cut_off_is_built_tested_and_started() {
    let latched = report(&[("indicator.cut_off", "relay"), BENCH]);
    let at = |id: &str| {
        let mut steps = latched.order.steps.iter();
        steps.position(|step| step.id == id).expect(id)
    };
    assert!(at("cut-off") < at("test-cut-off") && at("test-cut-off") < at("wire"));
    let built = latched
        .indicator
        .as_ref()
        .and_then(|known| known.built.as_ref());
    let cut_off = built
        .and_then(|built| built.cut_off.as_ref())
        .expect("a cut-off");
    let [low, nominal, high] = band(&latched.order.holds, "test-cut-off", "disconnects below");
    let falling = &cut_off.falling;
    assert!(low < falling.least && high > falling.most && low > 0.9 * falling.least);
    assert!((nominal - falling.volts).abs() < 1e-12);
    for id in ["test-power-up", "test-idle"] {
        let said = hold(&latched, id).how.join(" ");
        assert!(said.contains("start button"), "{id}: {said}");
    }
    let beach = report(&[]);
    assert!(!format!("{:?}", beach.order).contains("cut-off"));
}
