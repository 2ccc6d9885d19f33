//! The volume control under its load.

use super::{Candidate, Check, Evidence, Verdict};
use crate::signal::{self, Bend};
use crate::words::number;
use core::f64::consts::SQRT_2;
use design::ControlKind;

pub(super) const CHECK: Check = Check {
    id: "volume-law",
    title: "Volume control under its load",
    what: "How the input of the board bends the law of the volume control, and over how much of its turn \
it can be used.",
    why: "A board that takes much current from the wiper pulls the middle of the track down: nothing \
happens for most of the turn, then everything in the last bit. With far too much gain behind it, it is \
the other way round, and all of the range lies in the first touch.",
    limits: "Level at half the track's resistance against an unloaded track, loss up to 3 dB; the loudest \
passages should not clip before a third of the turn. A logarithmic track is taken as sold, two straight \
stretches with 15 % in the middle.",
    bad: "a 50 kΩ control into a board of 9 kΩ: 7.6 dB low at half the track",
    good: "a 10 kΩ control into a board of 20 kΩ: 1 dB low",
    sources: &["common practice, no source"],
    run,
};

/// Bend in dB that is still taken as the track's own law.
const BEND: f64 = 3.0;

/// Turn below which clipping makes the control touchy.
const TOUCHY: f64 = 1.0 / 3.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let design = evidence.design();
    let Some((index, used)) = signal::volume(design) else {
        return Vec::new();
    };
    let brief = evidence.outcome.brief_volts * evidence.scene.crest / SQRT_2;
    let levels = signal::levels(evidence.subject, evidence.build, brief);
    let source = signal::sources(design, evidence.build.amplifier.source_level);
    let Some(source) = source.first() else {
        return Vec::new();
    };
    let Some(bend) = signal::bend(design, source.impedance) else {
        return Vec::new();
    };
    let loss = -bend.at_half;
    let numbers = format!(
        "{} of {} works into {}: with half its track below the wiper it gives {} less than its law",
        bend.name,
        ohms(bend.resistance),
        ohms(bend.load),
        number(loss, "dB")
    );
    let clip = levels
        .iter()
        .filter_map(|path| path.clip_turn)
        .reduce(f64::min);
    if loss > BEND {
        let smaller = others(evidence, index, bend.resistance, used);
        let verdict = Verdict::caution("Board bends the law of the volume control", format!("{numbers}."))
            .advice("take a control of a tenth to a half of the board's input impedance, or a buffer behind it")
            .measured(loss, BEND, "dB")
            .at(used.place)
            .mends(smaller);
        return vec![verdict];
    }
    if let Some(turn) = clip.filter(|turn| *turn < TOUCHY) {
        let cause = format!(
            "{numbers}. The loudest passages clip from {:.0} % of the turn: the rest of it is of no use.",
            100.0 * turn
        );
        return vec![
            Verdict::caution("Volume control is touchy", cause)
                .advice(
                    "set the board to a lower gain, or put a resistor in series with the control",
                )
                .measured(100.0 * turn, 100.0 * TOUCHY, "%")
                .at(used.place)
                .mends(super::swap::amplifiers(evidence, |board| {
                    board.gain.si < evidence.build.amplifier.gain
                })),
        ];
    }
    let cause = format!("{numbers}{}.", used_turn(&levels, &bend));
    vec![Verdict::good("Volume control keeps its law", cause).measured(loss, BEND, "dB")]
}

/// Where on the turn the brief plays.
fn used_turn(levels: &[signal::SourcePath], bend: &Bend) -> String {
    let linear = if bend.linear {
        "; its track is linear, so most of the range lies in the first quarter"
    } else {
        ""
    };
    let turn = levels.iter().find_map(|path| path.brief_turn);
    let turn = turn.map_or(String::new(), |turn| {
        format!("; the brief plays at {:.0} % of the turn", 100.0 * turn)
    });
    format!("{turn}{linear}")
}

fn ohms(value: f64) -> String {
    if value >= 1000.0 {
        crate::words::stated(value / 1000.0, "kΩ")
    } else {
        crate::words::stated(value, "Ω")
    }
}

/// Controls of the shelf with as many tracks and less resistance.
fn others(
    evidence: &Evidence<'_>,
    index: usize,
    resistance: f64,
    used: &design::ControlUse,
) -> Vec<Candidate> {
    let parts = &evidence.subject.project.shelf.controls;
    let gangs = |part: &design::ControlPart| part.electric.gangs.unwrap_or(1);
    let fitting = parts.iter().filter(|part| {
        part.kind.value == ControlKind::Potentiometer
            && gangs(part) == gangs(&used.part)
            && part
                .electric
                .resistance
                .is_some_and(|own| own.si < resistance)
    });
    fitting
        .map(|part| {
            let name = &part.common.name.text;
            Candidate::set(
                format!("take {name}"),
                &format!("control.part.{}.part", index + 1),
                name.clone(),
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    const PART: &str = "[[control]]\nname = \"rotary potentiometer, M7\"\n";

    #[test]
    fn a_light_load_leaves_the_law_and_a_heavy_one_bends_it() {
        check(CHECK.id, &[], &[]);
        with(PANEL).check(CHECK.id, &[Good]);
        let large = format!("{PART}resistance = \"500 kΩ\"\n");
        let found = with(PANEL).shelf(&large).check(CHECK.id, &[Caution]);
        // 250 kΩ with 20 kΩ across it, under 250 kΩ.
        let shunt = 1.0 / (1.0 / 250.0 + 1.0 / 20.0);
        let expected = -20.0 * physics::math::log10(shunt / (250.0 + shunt) / 0.5);
        assert!((found[0].measured.unwrap() - expected).abs() < 0.05);
    }

    #[test]
    fn far_too_much_level_leaves_a_touch_of_turn() {
        with(PANEL)
            .with(&[("source.level", "9 V")])
            .check(CHECK.id, &[Caution]);
    }
}
