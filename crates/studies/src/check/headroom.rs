//! Headroom of every source at every stage.

use super::source_level::TOO_MUCH;
use super::{Candidate, Check, Evidence, Verdict, swap};
use crate::signal::{self, SourcePath};
use crate::words::number;
use core::f64::consts::SQRT_2;
use physics::math::db_amplitude;

pub(super) const CHECK: Check = Check {
    id: "headroom",
    title: "Headroom of every source at every stage",
    what: "Whether each source, the radio module as well as what is plugged in, can play what the brief asks \
with the volume fully up, what is then left to the clip point of the board, and whether a source overdrives \
the board far beyond it.",
    why: "A box with two sources has one volume control and one gain. Where one source is much weaker it \
never gets loud; where one is much stronger, changing over to it at the same setting is a blow to the ears.",
    limits: "Highest sine levels of the sources, those of the programme's peaks at the brief's loudness, on a \
half-empty battery; without a loudness in the brief nothing is said. The first source's gain is the matter of the check source-level, the board's clip point \
that of brief-loud; here they are told.",
    bad: "a radio module of 30 mV before a board of 26 dB that gets 0.9 V from a telephone",
    good: "0.7 V from the radio and 0.9 V from the cable: 2 dB between them, 8 dB in hand",
    sources: &["common practice, no source"],
    run,
};

/// One source: dB in hand at the source, and over the clip point fully up.
struct Room {
    name: String,
    known: bool,
    source: f64,
    over: f64,
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let brief = evidence.wanted_volts() * evidence.scene.crest / SQRT_2;
    let amplifier = &evidence.build.amplifier;
    let supply = evidence.build.battery.mid_voltage();
    let clip = amplifier.stage.open_circuit_peak(supply) / SQRT_2;
    if clip <= 0.0 || brief <= 0.0 || evidence.design().brief.loudness.is_none() {
        return Vec::new();
    }
    let full = |path: &SourcePath| amplifier.gain * path.input();
    let paths = signal::levels(evidence.subject, evidence.build, brief);
    let rooms: Vec<Room> = paths
        .iter()
        .map(|path| Room {
            name: path.name.clone(),
            known: path.level_known,
            source: db_amplitude(full(path) / brief),
            over: db_amplitude(full(path) / clip),
        })
        .collect();
    let told: Vec<String> = rooms.iter().map(in_hand).collect();
    let board = db_amplitude(clip / brief);
    let numbers = format!(
        "At the loudness asked the loudest passages stay {} {} the clip point of the board; fully up {}",
        number(board.abs(), "dB"),
        if board < 0.0 { "above" } else { "below" },
        told.join(", ")
    );
    let Some(weakest) = rooms.iter().min_by(|a, b| a.source.total_cmp(&b.source)) else {
        return Vec::new();
    };
    let hottest = rooms
        .iter()
        .skip(1)
        .max_by(|a, b| a.over.total_cmp(&b.over));
    if weakest.source < 0.0 {
        let less = Verdict::caution(
            format!("Too weak for the loudness asked: {}", weakest.name),
            format!("{numbers}."),
        );
        return vec![
            less.measured(weakest.source, 0.0, "dB")
                .advice("lose less in the volume control, take a board with more gain, or a module that gives more")
                .mends(louder(evidence, -weakest.source))
                .mends(swap::amplifiers(evidence, |board| {
                    board.gain.si > amplifier.gain
                })),
        ];
    }
    if let Some(hottest) = hottest.filter(|room| room.over > db_amplitude(TOO_MUCH)) {
        let more = Verdict::caution(
            format!("Overdrives the board: {}", hottest.name),
            format!(
                "{numbers}. {} goes {} beyond the clip point.",
                hottest.name,
                number(hottest.over, "dB")
            ),
        );
        return vec![
            more.measured(hottest.over, db_amplitude(TOO_MUCH), "dB")
                .advice("put a divider of two resistors behind this source, or set the board to a lower gain")
                .mends(swap::amplifiers(evidence, |board| {
                    board.gain.si < amplifier.gain
                })),
        ];
    }
    vec![
        Verdict::good("Every source plays the brief", format!("{numbers}.")).measured(
            weakest.source,
            0.0,
            "dB",
        ),
    ]
}

/// "the radio has 4.0 dB in hand".
fn in_hand(room: &Room) -> String {
    let (size, words) = if room.source < 0.0 {
        (-room.source, "too little")
    } else {
        (room.source, "in hand")
    };
    let guess = if room.known {
        ""
    } else {
        " (its level is a guess)"
    };
    format!("{} has {} {words}{guess}", room.name, number(size, "dB"))
}

/// Less lost before the board, where the stated loss has as much to give.
fn louder(evidence: &Evidence<'_>, wanted: f64) -> Option<Candidate> {
    let lost = evidence.design().source.loss?.si;
    let left = (lost - wanted).floor();
    (left >= 0.0).then(|| {
        Candidate::set(
            format!("lose {left:.0} dB before the board at most"),
            "source.loss",
            format!("{left:.0} dB"),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    const RADIO: &[(&str, &str)] = &[
        ("module.1.part", "radio module 12 V"),
        ("module.1.name", "radio"),
    ];

    fn radio(level: &str) -> String {
        format!("[[module]]\nname = \"radio module 12 V\"\noutput_level = \"{level}\"\n")
    }

    #[test]
    fn each_source_is_held_against_the_brief() {
        check(CHECK.id, &[], &[Good]);
        with(RADIO).shelf(&radio("0.7 V")).check(CHECK.id, &[Good]);
        let weak = with(RADIO)
            .shelf(&radio("20 mV"))
            .check(CHECK.id, &[Caution]);
        assert!(weak[0].measured.unwrap() < 0.0, "{weak:#?}");
        assert!(weak[0].title.contains("radio"), "{weak:#?}");
    }

    /// 6 dB less from the radio are 6 dB less in hand.
    #[test]
    fn half_the_level_is_six_decibels() {
        let room = |level: &str| {
            let found = with(RADIO).shelf(&radio(level)).check(CHECK.id, &[Good]);
            found[0].measured.unwrap()
        };
        assert!((room("0.6 V") - room("0.3 V") - 6.0206).abs() < 1e-3);
    }

    /// A brief that the source only just misses is met by a smaller loss.
    #[test]
    fn a_little_too_little_is_not_lost_on_the_way() {
        let in_hand = check(CHECK.id, &[], &[Good])[0].measured.unwrap();
        // 3 dB are lost already; two more than there are in hand are too many.
        let loss = format!("{:.1} dB", 3.0 + in_hand + 2.0);
        let found = check(CHECK.id, &[("source.loss", loss.as_str())], &[Caution]);
        assert!((found[0].measured.unwrap() + 2.0).abs() < 0.1, "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert!(!mend.edits.is_empty(), "{found:#?}");
    }
}
