//! The signal study of a design, nominal.

use super::model::{Bend, Coupled, Signal, SourcePath, Stage};
use super::path::{Path, volume};
use super::sources::{Source, sources};
use super::{coupling, filter};
use crate::build::Build;
use crate::outcome::Studied;
use crate::sound::Scene;
use crate::subject::Subject;
use core::f64::consts::SQRT_2;
use design::Design;
use physics::math::{amplitude_from_db, db_amplitude};
use physics::signal::{LevelControl, Track};

/// The way of every signal.
pub(crate) fn study(subject: &Subject, studied: &Studied, scene: &Scene) -> Signal {
    let build = &studied.build;
    // The brief's loudest passages as a sine of the same peak.
    let brief = studied.outcome.brief_volts * scene.crest / SQRT_2;
    let levels = levels(subject, build, brief);
    let first = sources(&subject.project.design, build.amplifier.source_level);
    let impedance = first.first().map_or(0.0, |source| source.impedance);
    let turn = levels.first().and_then(|path| path.brief_turn);
    let coupled: [Option<Coupled>; 2] = [
        coupling::input(subject, impedance, turn.unwrap_or(1.0)),
        coupling::output(subject, build, &studied.gains, &scene.grid.hertz),
    ];
    Signal {
        sources: levels,
        volume: bend(&subject.project.design, impedance),
        coupled: coupled.into_iter().flatten().collect(),
        filter: filter::filter(subject, build),
    }
}

/// Every source with the levels on its way; `brief` is the sine in V rms at
/// the amplifier's output whose peaks the brief's loudest passages reach.
pub(crate) fn levels(subject: &Subject, build: &Build, brief: f64) -> Vec<SourcePath> {
    let design = &subject.project.design;
    let path = Path::of(design);
    let all = sources(design, build.amplifier.source_level);
    all.iter()
        .map(|source| way(design, build, &path, source, brief))
        .collect()
}

fn way(design: &Design, build: &Build, path: &Path, source: &Source, brief: f64) -> SourcePath {
    let amplifier = &build.amplifier;
    let supply = build.battery.mid_voltage();
    let clip = amplifier.stage.open_circuit_peak(supply) / SQRT_2;
    let computed = path.fully_up(source.impedance);
    let stated = design.source.loss.map(|loss| amplitude_from_db(-loss.si));
    let passed = stated.unwrap_or(computed);
    let input = source.level * passed;
    let brief_input = brief / amplifier.gain;
    let mut stages = vec![Stage {
        name: "source",
        full: source.level,
        brief: Some(source.level),
        limit: None,
    }];
    let sum = path.sum_of(source.impedance);
    if let Some(sum) = sum {
        let level = source.level * sum.gain();
        stages.push(Stage {
            name: "sum of left and right",
            full: level,
            brief: Some(level),
            limit: None,
        });
    }
    let reached = brief_input <= input;
    stages.push(Stage {
        name: if path.control(source.impedance).is_some() {
            "volume control, board's input"
        } else {
            "board's input"
        },
        full: input,
        brief: reached.then_some(brief_input),
        limit: Some(clip / amplifier.gain),
    });
    stages.push(Stage {
        name: "amplifier's output",
        full: (input * amplifier.gain).min(clip),
        brief: reached.then_some(brief),
        limit: Some(clip),
    });
    // A stated loss scales the computed way as a whole.
    let scale = passed / computed;
    let turn = |output: f64| {
        let wanted = output / (amplifier.gain * source.level * scale);
        path.control(source.impedance)?.turn_for(wanted)
    };
    SourcePath {
        name: source.name.clone(),
        level_known: source.level_known,
        loss: -db_amplitude(passed),
        loss_stated: stated.is_some(),
        stages,
        brief_turn: turn(brief),
        clip_turn: turn(clip),
        crosstalk: sum.map(|sum| db_amplitude(sum.crosstalk())),
    }
}

/// The law of the volume control with and without the board.
pub(crate) fn bend(design: &Design, source: f64) -> Option<Bend> {
    let (_, used) = volume(design)?;
    let loaded = Path::of(design).control(source)?;
    let bare = LevelControl {
        load: f64::INFINITY,
        ..loaded
    };
    let turns: Vec<f64> = (1..=60).map(|i| f64::from(i) / 60.0).collect();
    let end = bare.gain(1.0);
    let curve = |control: &LevelControl| {
        let at = |turn: &f64| db_amplitude(control.gain_at_turn(*turn) / end);
        turns.iter().map(at).collect::<Vec<f64>>()
    };
    Some(Bend {
        name: used.part.common.name.text.clone(),
        resistance: loaded.resistance,
        linear: loaded.track == Track::Linear,
        load: loaded.load,
        at_half: db_amplitude(loaded.bend()),
        bare: curve(&bare),
        loaded: curve(&loaded),
        turns,
    })
}
