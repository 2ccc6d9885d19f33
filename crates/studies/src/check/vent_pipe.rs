//! The vent as an organ pipe.

use super::{Check, Evidence, Verdict, tune};
use crate::words::number;
use core::f64::consts::{PI, SQRT_2};
use physics::loudspeaker::pipe_resonance;
use physics::math::{db_amplitude, omega};

pub(super) const CHECK: Check = Check {
    id: "vent-pipe",
    title: "Resonance of the vent tube",
    what: "Whether the vent tube, which also is an open pipe, sounds along in the middle range.",
    why: "A tube resonates where it is half a wave long and lets out what the back of the cone \
gives there: a nasal colour on voices.",
    limits: "The air in the box is taken as one spring, so the box's own standing waves, which \
make it worse, are left out; lining the wall opposite the tube makes it better.",
    bad: "a tube 300 mm long on the front of an undamped box",
    good: "a tube 60 mm long, or one on the back of the box",
    sources: &["levine-1948", "common practice, no source"],
    run,
};

/// The middle range, in Hz: a resonance above it is masked.
const MIDDLE: f64 = 2000.0;

/// Level of the tube against the whole box at which it colours the sound, in dB.
const HEARD: f64 = -12.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(vent) = evidence.build.enclosure.vent else {
        return Vec::new();
    };
    let tube = vent.duct();
    let first = pipe_resonance(&tube, &evidence.build.air);
    let hertz = |value: f64| number(value, "Hz");
    let (at, level) = loudest(evidence, first);
    let cause = format!(
        "As a pipe it resonates at {}; there it stays {} {} the sound of the whole box.",
        hertz(at),
        number(level.abs(), "dB"),
        if level < 0.0 { "below" } else { "above" }
    );
    if first > MIDDLE {
        let cause = format!(
            "As a pipe it resonates at {}, above the middle range.",
            hertz(first)
        );
        return vec![
            Verdict::good("Vent tube is short enough not to sing", cause)
                .measured(first, MIDDLE, "Hz"),
        ];
    }
    if level < HEARD {
        return vec![Verdict::good("Vent tube does not sing", cause).measured(level, HEARD, "dB")];
    }
    vec![
        Verdict::caution("Vent tube sings in the middle range", cause)
            .measured(level, HEARD, "dB")
            .advice("lead it out of the back, line the wall opposite with wool, or take a narrower and shorter tube or a passive radiator")
            .mends(tune::other_tubes(evidence, |diameter| diameter < vent.diameter))
            .mends(tune::radiators(evidence)),
    ]
}

/// Where about its first resonance the tube is loudest against the whole box,
/// and by how many dB.
fn loudest(evidence: &Evidence<'_>, first: f64) -> (f64, f64) {
    let vent = evidence.build.enclosure.vent;
    let area = vent.map_or(0.0, |vent| {
        f64::from(vent.count) * PI * vent.diameter * vent.diameter / 4.0
    });
    let sides = f64::from(evidence.subject.channels_used());
    let scene = evidence.scene;
    let share = |i: usize| {
        let flow = area * evidence.gains.vent_speed[i] / SQRT_2;
        let own = evidence.build.air.density * omega(scene.grid.hertz[i]) * flow / (4.0 * PI);
        own / sides * scene.baffle[i] / evidence.gains.pressure[i]
    };
    let about = (0..scene.grid.hertz.len()).filter(|&i| {
        let ratio = scene.grid.hertz[i] / first;
        ratio > 0.7 && ratio < 1.3
    });
    let (at, most) = about.fold((first, 0.0), |most, i| {
        let here = share(i);
        if here > most.1 {
            (scene.grid.hertz[i], here)
        } else {
            most
        }
    });
    (at, db_amplitude(most))
}

#[cfg(test)]
mod tests {
    use super::super::probe::{VENT, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_long_wide_tube_sings() {
        check(CHECK.id, &[], &[]);
        with(VENT).check(CHECK.id, &[Good]);
        with(VENT)
            .with(&[("box.vent.length", "30 mm")])
            .check(CHECK.id, &[Good]);
        let long = with(VENT).with(&[
            ("box.vent.diameter", "70 mm"),
            ("box.vent.length", "300 mm"),
            ("box.filling", "0 %"),
        ]);
        let found = long.check(CHECK.id, &[Caution]);
        // Half a wave in 300 mm and its ends: about 500 Hz.
        assert!(
            found[0].cause.contains(" 4") || found[0].cause.contains(" 5"),
            "{found:#?}"
        );
    }
}
