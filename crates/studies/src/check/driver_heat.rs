//! Heat in the voice coils against their rating.

use super::{Check, Evidence, Verdict, swap};
use crate::sound::Limit;
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "driver-heat",
    title: "Heat in the voice coils",
    what: "Whether this programme, played with its peaks just clipping, heats any voice coil \
beyond its rated power.",
    why: "The long-term power of music is a small part of the sine power of an amplifier; speech \
and music as recorded rarely burn a coil, squeezed music at the clip point can.",
    limits: "Long-term heat in the coil's DC resistance on a half-empty battery against the rated \
power. An amplifier driven far into clipping gives up to twice its sine power, which no rating covers.",
    bad: "squashed music from a 50 W board into drivers rated at 8 W",
    good: "music from a 15 W board into drivers rated at 25 W",
    sources: &["iec-60268-1", "common practice, no source"],
    run,
};

/// Times its rating at which a coil will hardly live.
const BURNS: f64 = 2.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let clip = evidence
        .ceiling(Limit::AmplifierVoltage)
        .min(evidence.ceiling(Limit::Source));
    let heat = evidence.ceiling(Limit::CoilHeat);
    let share = (clip / heat) * (clip / heat);
    let groups = evidence
        .design()
        .drivers
        .iter()
        .zip(&evidence.build.drivers);
    let Some((group, rated)) = groups
        .map(|(group, driver)| (group, driver.power))
        .min_by(|a, b| a.1.total_cmp(&b.1))
    else {
        return Vec::new();
    };
    let watts = share * rated;
    let programme = crate::words::programme(evidence.design().brief.programme.value);
    let numbers = format!(
        "Fully up, {programme} heats the hottest coil with {}; {} is rated at {}",
        number(watts, "W"),
        group.part.common.name.text,
        number(rated, "W")
    );
    let verdict = if share > BURNS {
        Verdict::stop("Voice coils would burn", format!("{numbers}."))
    } else if share > 1.0 {
        Verdict::caution("Voice coils get too hot fully up", format!("{numbers}."))
    } else {
        return vec![
            Verdict::good("Voice coils stay cool enough", format!("{numbers}."))
                .measured(watts, rated, "W"),
        ];
    };
    let boards = swap::amplifiers(evidence, |board| {
        board.current_limit.si < evidence.build.amplifier.stage.current_limit
    });
    vec![
        verdict
            .measured(watts, rated, "W")
            .advice("take drivers rated for more, a smaller amplifier or a lower supply, or limit the level")
            .mends(boards)
            .mends(swap::batteries(evidence, |part| part.cells < evidence.build.battery.cells))
            .mends(stronger(evidence)),
    ]
}

fn stronger(evidence: &Evidence<'_>) -> Vec<super::Candidate> {
    let groups = evidence.design().drivers.iter().enumerate();
    groups
        .flat_map(|(index, group)| {
            let size = group.part.size.map(|size| size.si);
            let power = evidence.build.drivers[index].power;
            swap::drivers(evidence, index, |part| {
                part.size.map(|size| size.si) == size
                    && part.power.is_some_and(|other| other.si > power)
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// The clean design's drivers, rated at so much, with music squeezed flat.
    fn rated(watts: &str) -> Probe {
        let part = "[[driver]]\nname = \"full-range 4 in, 4 ohm\"\n";
        let shelf = format!("{part}power = \"{watts}\"");
        with(&[("brief.programme", "squashed music")]).shelf(&shelf)
    }

    #[test]
    fn music_squeezed_flat_heats() {
        let watts = rated("25 W").check(CHECK.id, &[Good])[0].measured.unwrap();
        // A quarter of 15 W of sine goes into 3.5 Ω; less where the impedance is higher.
        assert!(watts > 1.0 && watts < 4.0, "{watts}");
        rated("2 W").check(CHECK.id, &[Caution]);
        rated("1 W").check(CHECK.id, &[Stop]);
    }
}
