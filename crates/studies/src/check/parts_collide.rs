//! Parts that stand in one another's way, or in the wood.

use super::timber::{anywhere, capital, larger_along, longest, mm, moved, place, slid, the};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::{Carpentry, GapLine, Near, PartKind, PlacedPart};
use crate::words::of_hundred;
use wood::PanelId;
use wood::vector::{Vector, scale};

pub(super) const CHECK: Check = Check {
    id: "parts-collide",
    title: "Collisions inside",
    what: "Whether any part stands where another part, a brace or a wall already is, as drawn and \
within the tolerances.",
    why: "The magnet that meets the battery is found when the back is on, or when the driver will \
not go in.",
    limits: "Parts as blocks, cylinders and bodies of revolution by the outline on the shelf; cables and \
connectors only as the shelf gives them room. A collision as drawn is a stop; one in more than 5 \
of 100 builds is a caution.",
    bad: "a battery at the back wall behind a driver 80 mm deep, 70 mm between front and battery",
    good: "the same battery between the two drivers",
    sources: &["common practice, no source"],
    run,
};

/// Share of builds that may collide without a word.
const ODDS: f64 = 0.05;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let lines: Vec<&GapLine> = carpentry
        .gaps
        .iter()
        .filter(|line| !line.air && is_ours(carpentry, line))
        .collect();
    let wrong: Vec<Verdict> = lines
        .iter()
        .filter_map(|line| {
            let said = verdict(carpentry, line)?;
            let part = &carpentry.parts[line.part];
            Some(
                said.at(place(evidence.design(), part))
                    .ladders(mends(evidence, carpentry, line)),
            )
        })
        .collect();
    if wrong.is_empty() {
        let cause = "Nothing comes near anything else.";
        let far = || Verdict::good("Nothing collides", cause);
        return vec![
            lines
                .first()
                .map_or_else(far, |line| nearest(carpentry, line)),
        ];
    }
    wrong
}

/// Not what other checks tell: parts no place was found for, vents, parts that reach out of
/// the box, frames on one wall, and bodies behind one panel.
pub(super) fn is_ours(carpentry: &Carpentry, line: &GapLine) -> bool {
    let part = &carpentry.parts[line.part];
    let told = |part: &PlacedPart| {
        part.kind == PartKind::Vent || part.found && part.part.sits_in.is_none()
    };
    if told(part) {
        return false;
    }
    match line.near {
        Near::Part(index) => {
            let other = &carpentry.parts[index];
            let one_wall = part.part.sits_in.is_some() && part.part.sits_in == other.part.sits_in;
            let framed =
                |part: &PlacedPart| matches!(part.kind, PartKind::Driver | PartKind::Radiator);
            let panel = |part: &PlacedPart| part.kind == PartKind::Control;
            let elsewhere = framed(part) && framed(other) || panel(part) && panel(other);
            !(told(other) || one_wall && elsewhere)
        }
        Near::Panel(PanelId::Wall(_)) => part.part.sits_in.is_some() || line.gap >= 0.0,
        Near::Panel(PanelId::Board(_)) => true,
        Near::Outside(_) => false,
    }
}

fn verdict(carpentry: &Carpentry, line: &GapLine) -> Option<Verdict> {
    let it = the(&carpentry.parts[line.part]);
    let odds = of_hundred(line.odds);
    if line.gap < 0.0 {
        let cause = format!(
            "{} reaches {} into {}.",
            capital(&it),
            mm(-line.gap),
            line.other
        );
        let title = format!("{} is in the way of {}", capital(&line.other), it);
        return Some(
            Verdict::stop(title, cause)
                .measured(1e3 * line.gap, 0.0, "mm")
                .advice("move one of the two, or make the box larger"),
        );
    }
    (line.odds > ODDS).then(|| {
        let cause = format!(
            "Between {it} and {} there are {} as drawn, but in {odds} of 100 builds within the \
tolerances they meet.",
            line.other,
            mm(line.gap)
        );
        Verdict::caution(format!("{} may meet {}", capital(&it), line.other), cause)
            .measured(f64::from(odds), 100.0 * ODDS, "of 100")
            .advice("leave more room between the two, or measure them and state what you find")
    })
}

fn nearest(carpentry: &Carpentry, line: &GapLine) -> Verdict {
    let cause = format!(
        "The closest are {} and {}, {} apart.",
        the(&carpentry.parts[line.part]),
        line.other,
        mm(line.gap)
    );
    Verdict::good("Nothing collides", cause).measured(1e3 * line.gap, 0.0, "mm")
}

/// One of the two moved, its place left open, the box larger.
pub(super) fn mends(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    line: &GapLine,
) -> Vec<Vec<Candidate>> {
    let design = evidence.design();
    let part = &carpentry.parts[line.part];
    let other = match line.near {
        Near::Part(index) => Some(&carpentry.parts[index]),
        Near::Panel(_) | Near::Outside(_) => None,
    };
    let wanting = line.wanted.max(0.0) - line.gap;
    let axis = longest(line.away);
    let mut single: Vec<Candidate> = Vec::new();
    let mut shift = |index: usize, away: Vector| {
        let part = &carpentry.parts[index];
        let mut along = [0.0; 3];
        along[axis] = wanting / away[axis];
        single.extend(moved(design, part, along));
        if away[axis].abs() < 0.999 {
            single.extend(moved(design, part, scale(away, wanting)));
        }
        single.extend(slid(design, carpentry, index, scale(away, wanting)));
    };
    shift(line.part, line.away);
    if let Near::Part(index) = line.near {
        shift(index, scale(line.away, -1.0));
    }
    single.extend(anywhere(design, part));
    single.extend(other.and_then(|other| anywhere(design, other)));
    let mut ladders: Vec<Vec<Candidate>> = single.into_iter().map(|one| vec![one]).collect();
    ladders.push(larger_along(evidence, axis, wanting));
    ladders
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_battery_in_a_magnet_is_moved() {
        check(CHECK.id, &[], &[Good]);
        let found = with(&[("battery.at", "20 x 60 x 20 mm")]).findings(CHECK.id);
        assert_eq!(found[0].severity, Stop, "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "battery.at");
        assert!(found[0].place.is_some(), "{found:#?}");
    }
}
