//! Capacitors in series with the signal against the brief's lowest tone.

use super::{Candidate, Check, Evidence, Verdict};
use crate::signal::{self, Coupled};
use crate::words::{number, stated};
use design::Series;

pub(super) const CHECK: Check = Check {
    id: "coupling-corner",
    title: "Coupling capacitors against the lowest tone",
    what: "How much of the brief's lowest tone the capacitors at the input of the board and in series with \
the drivers take away.",
    why: "A capacitor too small is a high-pass before or behind the amplifier: the bass the box was built \
for never reaches the cones.",
    limits: "Up to 1 dB from the brief's lowest tone to two octaves above: at the input into the board's impedance and what feeds \
it, at the output into the computed impedance. A board whose input capacitor is not on its shelf part is \
not judged.",
    bad: "100 µF in series with 4 Ω drivers: 400 Hz",
    good: "1 µF into 20 kΩ: 8 Hz",
    sources: &["common practice, no source"],
    run,
};

/// Loss in dB at the lowest tone that is not heard as missing bass.
const LOSS: f64 = 1.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let hertz = &evidence.scene.grid.hertz;
    let design = evidence.design();
    let sources = signal::sources(design, evidence.build.amplifier.source_level);
    let impedance = sources.first().map_or(0.0, |source| source.impedance);
    let both = [
        signal::input(evidence.subject, impedance, 1.0),
        signal::output(evidence.subject, evidence.build, evidence.gains, hertz),
    ];
    let each = both.into_iter().flatten();
    each.map(|coupled| verdict(evidence, &coupled)).collect()
}

fn verdict(evidence: &Evidence<'_>, coupled: &Coupled) -> Verdict {
    let numbers = format!(
        "{} {} has its corner at {} and takes {} at {}",
        stated(1e6 * coupled.capacitance, "µF"),
        coupled.name,
        number(coupled.corner, "Hz"),
        number(coupled.loss, "dB"),
        number(coupled.lowest, "Hz")
    );
    if coupled.loss <= LOSS {
        let good = Verdict::good(
            "Coupling capacitor lets the bass pass",
            format!("{numbers}."),
        );
        return good
            .measured(coupled.loss, LOSS, "dB")
            .about([format!("amplifier.{}", coupled.id)], 0.0);
    }
    let larger = if coupled.id == "output" {
        rungs(coupled)
    } else {
        Vec::new()
    };
    Verdict::caution(
        "Coupling capacitor takes the bass away",
        format!("{numbers}."),
    )
    .measured(coupled.loss, LOSS, "dB")
    .advice("take a larger capacitor, or a board that needs none")
    .about([format!("amplifier.{}", coupled.id)], coupled.loss - LOSS)
    .ladder(larger)
    .mends(if coupled.id == "input" {
        super::swap::amplifiers(evidence, |board| board.input_capacitance.is_none())
    } else {
        Vec::new()
    })
}

/// Larger and larger capacitors that can be bought.
fn rungs(coupled: &Coupled) -> Vec<Candidate> {
    let from = 1.01 * coupled.capacitance;
    Series::E3
        .between(from, 100.0 * coupled.capacitance)
        .into_iter()
        .filter(|value| *value <= 10e-3)
        .map(|value| {
            let said = format!("{:.0} µF", 1e6 * value);
            Candidate::set(
                format!("{said} in series with each load"),
                "amplifier.coupling",
                said,
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_small_capacitor_eats_the_bass() {
        check(CHECK.id, &[], &[]);
        check(CHECK.id, &[("amplifier.coupling", "4700 µF")], &[Good]);
        let found = check(CHECK.id, &[("amplifier.coupling", "100 µF")], &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "amplifier.coupling");
    }

    #[test]
    fn the_input_of_the_board_is_judged_where_it_is_known() {
        let board = "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\n";
        let with_input = |value: &str| format!("{board}input_capacitance = \"{value}\"\n");
        with(&[])
            .shelf(&with_input("1 µF"))
            .check(CHECK.id, &[Good]);
        with(&[])
            .shelf(&with_input("0.1 µF"))
            .check(CHECK.id, &[Caution]);
    }
}
