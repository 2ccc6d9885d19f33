//! Heat in the closed box: the amplifier.

use super::panel_bush::plates;
use super::{Candidate, Check, Edit, Evidence, Verdict, swap};
use crate::warmth::{Modules, Rest, hottest_day, limits};
use crate::words::number;
use design::Cooling;

pub(super) const CHECK: Check = Check {
    id: "board-heat",
    title: "Heat of the amplifier in the closed box",
    what: "How warm the hottest point of the amplifier board gets in the closed box on the hottest day, \
and so whether the box needs a vent or the board a heat sink.",
    why: "A chip that gets too hot switches off in the middle of a song. A vent nobody needs lets the bass \
out and the rain in: music is a small part of full sine power, and most boxes get rid of its heat through \
their walls.",
    limits: "Steady, after hours of playing, in still air; all heat of the voice coils stays in the box. \
Held to the limit: what the brief asks for (else a stop), its programme and squashed music fully up (else a \
caution). A full sine for hours is told as the bound. Laws of natural convection scatter by 15 %, and a \
filling around the board is not counted. Without data, a board gives its heat off by its own faces and may \
reach 110 °C.",
    bad: "a linear board with a small sink in a closed 4 L box in the sun",
    good: "a switching board of 2 x 15 W: 4 W of heat with music, 12 K above the air outside",
    sources: &[
        "churchill-chu-1975",
        "mcadams-1954",
        "wood-handbook",
        "iec-60904-3",
        "common practice, no source",
    ],
    run,
};

/// K by which a limit must be undershot to be called safe without a word: what
/// the laws of natural convection scatter by.
const HAND: f64 = 0.15;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let [brief, music, squashed, sine] = evidence.warmth() else {
        return Vec::new();
    };
    let design = evidence.design();
    let supply = evidence.build.battery.mid_voltage();
    let limit = limits(design, &Modules::of(evidence.subject, supply)).board;
    let outdoors = hottest_day(evidence.subject);
    let said = |celsius: f64| number(celsius, "°C");
    let what = |rest: &Rest, name: &str| format!("{} with {name}", said(rest.celsius.chip));
    let day = day(evidence);
    let numbers = format!(
        "On a day of {}{day}, its hottest point settles at {} ({} of heat there), {}, {}; it may reach {}",
        said(outdoors),
        what(brief, "what the brief asks"),
        number(brief.heat.board, "W"),
        what(music, "music fully up"),
        what(squashed, "squashed music fully up"),
        said(limit)
    );
    let bound = format!(
        "A full sine for hours, which nobody listens to, would take it to {}",
        said(sine.celsius.chip)
    );
    if brief.celsius.chip > limit {
        let verdict = Verdict::stop(
            "Amplifier overheats in the closed box",
            format!("{numbers}."),
        );
        return vec![mended(evidence, verdict).measured(brief.celsius.chip, limit, "°C")];
    }
    let hot = [music, squashed]
        .into_iter()
        .map(|rest| rest.celsius.chip)
        .fold(f64::MIN, f64::max);
    if hot > limit {
        let verdict = Verdict::caution(
            "Amplifier gets too hot when fully up",
            format!("{numbers}."),
        );
        return vec![mended(evidence, verdict).measured(hot, limit, "°C")];
    }
    let inside = format!(
        "the air in the box then stands {} above that outside",
        number(squashed.celsius.air - outdoors, "K")
    );
    let near = hot + HAND * (hot - outdoors) > limit;
    let title = if near {
        "No vent or heat sink needed, with little in hand"
    } else {
        "No vent and no heat sink needed"
    };
    let over = if sine.celsius.chip > limit {
        ": too much, so test with short sines"
    } else {
        ""
    };
    let cause = format!("{numbers}; {inside}. {bound}{over}.");
    vec![Verdict::good(title, cause).measured(hot, limit, "°C")]
}

/// Said after the day's temperature.
pub(super) fn day(evidence: &Evidence<'_>) -> &'static str {
    if evidence.design().place.sun.value {
        ", in the sun"
    } else {
        ", in the shade"
    }
}

/// The same box out of the sun.
pub(super) fn shade(evidence: &Evidence<'_>) -> Option<Candidate> {
    let shade = Candidate::set("stand the box in the shade", "place.sun", "false");
    evidence.design().place.sun.value.then_some(shade)
}

fn mended(evidence: &Evidence<'_>, verdict: Verdict) -> Verdict {
    verdict
        .advice(
            "screw the chip to a metal plate of the control panel, give it a larger heat sink, take a board \
             that wastes less, or keep the box out of the sun",
        )
        .mends(on_plate(evidence))
        .mends(shade(evidence))
        .mends(swap::amplifiers(evidence, |_| true))
}

/// The chip screwed to the plate, which may have to become a metal one.
fn on_plate(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let design = evidence.design();
    let Some(control) = &design.control else {
        return Vec::new();
    };
    if design.amplifier.cooling.value == Cooling::Plate && control.plate.metal.value {
        return Vec::new();
    }
    let edit = || Edit::set("amplifier.cooling", "plate");
    let words = "screw its chip to the plate of the control panel, with a pad that insulates it";
    if control.plate.metal.value {
        return vec![Candidate::new(words, [edit()])];
    }
    let metal = plates(evidence, control, |sheet| sheet.metal.value);
    let each = metal.into_iter().map(|mut plate| {
        plate.words = format!("{}, and {words}", plate.words);
        plate.edits.push(edit());
        plate
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    const BOARD: &str = "[[amplifier]]\nname = \"amplifier 2 x 15 W, 12 V\"\n";

    #[test]
    fn a_usual_box_needs_no_vent() {
        let found = check(CHECK.id, &[], &[Good]);
        assert!(found[0].title.starts_with("No vent"), "{found:#?}");
        let hotter = check(
            CHECK.id,
            &[("place.sun", "true"), ("place.hottest", "40 °C")],
            &[Good],
        );
        assert!(hotter[0].measured > found[0].measured);
    }

    #[test]
    fn a_board_that_cannot_shed_its_heat_overheats() {
        let poor = format!("{BOARD}thermal_resistance = \"60 K/W\"\n");
        with(&[("place.sun", "true")])
            .shelf(&poor)
            .check(CHECK.id, &[Caution]);
        let worse = format!("{BOARD}thermal_resistance = \"120 K/W\"\nhottest = \"80 °C\"\n");
        with(&[]).shelf(&worse).check(CHECK.id, &[Stop]);
    }

    #[test]
    fn a_metal_plate_takes_the_heat_out() {
        let worse = format!("{BOARD}thermal_resistance = \"120 K/W\"\nhottest = \"80 °C\"\n");
        let found = with(PANEL).shelf(&worse).check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits.last().unwrap().key, "amplifier.cooling");
    }
}
