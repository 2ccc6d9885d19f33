//! The rating of the fuse.

use super::{Candidate, Check, Evidence, Verdict};
use crate::electrics::{Electrics, FuseChoice, lets_pass};
use crate::words::{number, prefixed};
use design::{FuseForm, FusePart, FuseSpeed, ModuleKind};
use physics::fuse::Family;

pub(super) const CHECK: Check = Check {
    id: "fuse-size",
    title: "Rating of the fuse",
    what: "Whether the battery's fuse is rated between 1.25 times the long-term current and what \
the thinnest wire behind it carries, for direct current of the battery's voltage and its short circuit, \
and whether it lets the rush into the boards' capacitors pass.",
    why: "Too small, it tires and opens in the middle of a song; too large, the wire burns before \
it. An arc of direct current does not go out by itself: a fuse for mains may not end it.",
    limits: "Long-term current is that of the loudest programme, or the charger's where that is more; \
a fuse may open after minutes of a loud sine, which the text then says. Of a rush it counts what a fuse \
surely lets pass by its standard, from memory for blades and slow tubes; most let more pass. Whether a \
fuse goes into its holder is told while the design is read. Wires count by the rows for supply cords, which is on the safe \
side for a short wire in free air.",
    bad: "a 20 A fuse before wires of 0.75 mm²",
    good: "a 5 A fuse before wires of 0.75 mm² that carry 0.5 A of music",
    sources: &[
        "ul-248-14",
        "iec-60127",
        "iec-60335-1",
        "common practice, no source",
    ],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let Some(fuse) = &electrics.fuse else {
        return Vec::new();
    };
    let amperes = |value: f64| number(value, "A");
    let mends = others(evidence, electrics, fuse);
    let mut found = Vec::new();
    if fuse.current > fuse.most + 1e-9 {
        let cause = format!(
            "The fuse is rated {}, the thinnest wire behind it carries {}.",
            amperes(fuse.current),
            amperes(fuse.most)
        );
        found.push(
            Verdict::stop("Fuse too large for the wires", cause)
                .measured(fuse.current, fuse.most, "A")
                .advice("take a smaller fuse or thicker wires"),
        );
    }
    if fuse.current < fuse.least - 1e-9 {
        let cause = format!(
            "The fuse is rated {}; 1.25 times the long-term current, the charger's included, is {}.",
            amperes(fuse.current),
            amperes(fuse.least)
        );
        found.push(
            Verdict::stop("Fuse too small for the music", cause)
                .measured(fuse.current, fuse.least, "A")
                .advice("take a larger fuse, and wires that carry it"),
        );
    }
    found.extend(rush(electrics, fuse));
    if fuse.stated
        && let Some(part) = &fuse.stock
    {
        found.extend(rated(electrics, part));
    }
    if found.is_empty() {
        found.push(right(electrics, fuse));
        return found;
    }
    let with = |verdict: Verdict| verdict.mends(mends.clone());
    found.into_iter().map(with).collect()
}

fn right(electrics: &Electrics, fuse: &FuseChoice) -> Verdict {
    let whose = if fuse.stated { "The" } else { "A proposed" };
    let mut cause = format!(
        "{whose} fuse of {} lies between {}, which is 1.25 times the long-term current, and {}, \
which the thinnest wire carries.",
        number(fuse.current, "A"),
        number(fuse.least, "A"),
        number(fuse.most, "A")
    );
    let sine = electrics.supply.sine;
    if sine > fuse.current {
        let more = format!(
            " A sine at the clip point draws {}: it opens {}.",
            number(sine, "A"),
            within(fuse, sine)
        );
        cause.push_str(&more);
    }
    Verdict::good("Fuse fits current and wires", cause).measured(fuse.current, fuse.most, "A")
}

/// When the fuse opens at the latest with a current above its rating (A), in words.
fn within(fuse: &FuseChoice, current: f64) -> String {
    let part = fuse.stock.as_ref();
    let fast_tube = part.is_some_and(|part| {
        part.form.value == FuseForm::Tube && part.speed.value == FuseSpeed::Fast
    });
    let family = if fast_tube {
        Family::TubeFast
    } else {
        Family::General
    };
    match family.longest(current / fuse.current) {
        Some(seconds) => format!("within {}", number(seconds / 60.0, "min")),
        None => "after a while".into(),
    }
}

/// What switching on drives through it.
fn rush(electrics: &Electrics, fuse: &FuseChoice) -> Option<Verdict> {
    (fuse.rush > fuse.passes).then(|| {
        let (amperes, time) = electrics.supply.inrush;
        let cause = format!(
            "Switching on, {} rush into the capacitors and fall to a third within {}: {} go through \
the fuse, which surely bears {}.",
            prefixed(amperes, "A"),
            prefixed(time, "s"),
            number(fuse.rush, "A²·s"),
            number(fuse.passes, "A²·s")
        );
        Verdict::caution("Fuse may open when switched on", cause)
            .measured(fuse.rush, fuse.passes, "A²·s")
            .advice("take a slow or a larger fuse, or put a thermistor for inrush into the supply wire")
    })
}

/// Its voltage and what it can break.
fn rated(electrics: &Electrics, part: &FusePart) -> Vec<Verdict> {
    let mut found = Vec::new();
    let volts = electrics.supply.volts[0];
    match part.dc_voltage.map(|value| value.si) {
        None => found.push(
            Verdict::caution(
                "Fuse not known to be for direct current",
                "The shelf states no direct voltage that it ends.",
            )
            .advice("look for a rating in V DC on it, or take one for cars"),
        ),
        Some(rated) if rated < volts => {
            let cause = format!(
                "It is rated for {} of direct voltage; the full battery has {}.",
                number(rated, "V"),
                number(volts, "V")
            );
            found.push(
                Verdict::stop("Fuse not for this voltage", cause)
                    .measured(volts, rated, "V")
                    .advice(
                        "take a fuse for at least the voltage of the full battery, direct current",
                    ),
            );
        }
        Some(_) => {}
    }
    let short = volts / electrics.supply.ohms;
    let breaks = part.breaking_current.map(|value| value.si);
    if let Some(breaks) = breaks.filter(|breaks| *breaks < short) {
        let cause = format!(
            "It ends {}; a short circuit of this battery drives {}.",
            number(breaks, "A"),
            number(short, "A")
        );
        found.push(
            Verdict::stop("Fuse cannot end a short circuit", cause)
                .measured(short, breaks, "A")
                .advice("take a fuse that breaks more: blades, or tubes filled with sand"),
        );
    }
    found
}

/// The form its holder takes.
fn holder(
    evidence: &Evidence<'_>,
    electrics: &Electrics,
    fuse: &FuseChoice,
) -> Option<design::FuseForm> {
    let table = &electrics.parts[fuse.part].table;
    let number = |list: &str| -> Option<usize> { table.strip_prefix(list)?.parse().ok() };
    let design = evidence.design();
    if let Some(number) = number("module.") {
        let used = design.modules.get(number - 1)?;
        let holds = used.part.kind.value == ModuleKind::FuseHolder;
        return used
            .part
            .takes
            .as_ref()
            .filter(|_| holds)
            .map(|form| form.value);
    }
    let used = design
        .control
        .as_ref()?
        .parts
        .get(number("control.part.")? - 1)?;
    used.part.electric.takes.as_ref().map(|form| form.value)
}

/// Fuses of the shelf that keep all of it, the smallest first.
fn others(evidence: &Evidence<'_>, electrics: &Electrics, fuse: &FuseChoice) -> Vec<Candidate> {
    let table = &electrics.parts[fuse.part].table;
    if table.is_empty() {
        return Vec::new();
    }
    let form = holder(evidence, electrics, fuse);
    let fits = |part: &&FusePart| {
        let right = part.current.si >= fuse.least && part.current.si <= fuse.most;
        right
            && form.is_none_or(|form| form == part.form.value)
            && lets_pass(part) >= fuse.rush
            && part.dc_voltage.is_some()
            && rated(electrics, part).is_empty()
    };
    let mut fuses: Vec<&FusePart> = evidence
        .subject
        .project
        .shelf
        .fuses
        .iter()
        .filter(fits)
        .collect();
    fuses.sort_by(|a, b| a.current.si.total_cmp(&b.current.si));
    let name = |part: &FusePart| part.common.name.text.clone();
    fuses
        .into_iter()
        .take(TRIES)
        .map(|part| Candidate::set(name(part), &format!("{table}.fuse"), name(part)))
        .collect()
}

/// Other fuses tried.
const TRIES: usize = 3;

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    fn fused(fuse: &str) -> Probe {
        with(&[
            ("module.1.part", "inline holder for a blade fuse"),
            ("module.1.place", "auto"),
            ("module.1.fuse", fuse),
        ])
    }

    #[test]
    fn both_ends_count() {
        fused("blade fuse 3 A").check(CHECK.id, &[Good]);
        let thin = [("wiring.usual", "flexible wire 0.5 mm²")];
        let found = fused("blade fuse 15 A")
            .with(&thin)
            .check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some());
    }
}
