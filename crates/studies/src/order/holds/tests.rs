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
