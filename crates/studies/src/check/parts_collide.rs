//! Parts that stand in one another's way, or in the wood.

use super::hubs::{self, Hub};
use super::timber::{anywhere, capital, larger_along, listed, longest, mm, place};
use super::{Candidate, Check, Evidence, Verdict, movers, things};
use crate::carpentry::{Carpentry, GapLine, Near, PartKind, PlacedPart};
use crate::words::of_hundred;
use wood::PanelId;
use wood::vector::Vector;

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
    let meet = |line: &&GapLine| line.gap < 0.0;
    let colliding: Vec<&GapLine> = lines.iter().copied().filter(meet).collect();
    let may: Vec<&GapLine> = lines
        .iter()
        .copied()
        .filter(|line| !meet(line) && line.odds > ODDS)
        .collect();
    let stops = hubs::hubs(carpentry, &colliding).into_iter();
    let cautions = hubs::hubs(carpentry, &may).into_iter();
    let wrong: Vec<Verdict> = stops
        .map(|hub| collide(evidence, carpentry, &hub))
        .chain(cautions.map(|hub| may_meet(evidence, carpentry, &hub)))
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

/// What stands in the way of something, as a stop.
fn collide(evidence: &Evidence<'_>, carpentry: &Carpentry, hub: &Hub<'_>) -> Verdict {
    let others = hub.others(carpentry);
    let (it, others_said) = (hub.name(carpentry), listed(&others));
    // What cannot get out of the way is what stands in it.
    let title = if hub.is_wood() || !hub.meets_wood(carpentry) {
        format!("{} {} in the way of {others_said}", capital(&it), is(1))
    } else {
        format!(
            "{} {} in the way of {it}",
            capital(&others_said),
            is(others.len())
        )
    };
    let clauses = hub.worst(carpentry).into_iter().map(|line| {
        let near = things::near_name(carpentry, line.near);
        let part = things::name(carpentry, line.part);
        (part, format!("{} into {near}", mm(-line.gap)))
    });
    let cause = reaches(clauses.collect());
    let deepest = hub.lines.iter().map(|line| line.gap).fold(0.0, f64::min);
    said(evidence, carpentry, hub, Verdict::stop(title, cause))
        .measured(1e3 * deepest, 0.0, "mm")
        .advice("move one of them, or make the box larger")
        .ladders(mends(evidence, carpentry, &hub.lines))
}

/// What is close enough to something to meet it in some builds, as a caution.
fn may_meet(evidence: &Evidence<'_>, carpentry: &Carpentry, hub: &Hub<'_>) -> Verdict {
    let (it, others) = (hub.name(carpentry), listed(&hub.others(carpentry)));
    let clauses = hub.worst(carpentry).into_iter().map(|line| {
        format!(
            "between {} and {} there are {} as drawn, but in {} of 100 builds within the \
tolerances they meet",
            things::name(carpentry, line.part),
            things::near_name(carpentry, line.near),
            mm(line.gap),
            of_hundred(line.odds)
        )
    });
    let clauses: Vec<String> = clauses.collect();
    let cause = format!("{}.", capital(&clauses.join("; ")));
    let odds = hub.lines.iter().map(|line| of_hundred(line.odds));
    let odds = f64::from(odds.max().unwrap_or(0));
    let title = format!("{} may meet {others}", capital(&it));
    said(evidence, carpentry, hub, Verdict::caution(title, cause))
        .measured(odds, 100.0 * ODDS, "of 100")
        .advice("leave more room between them, or measure them and state what you find")
        .ladders(mends(evidence, carpentry, &hub.lines))
}

/// With what it is about, and the place where the design speaks of it.
fn said(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    hub: &Hub<'_>,
    verdict: Verdict,
) -> Verdict {
    let part = &carpentry.parts[hub.lines[0].part];
    let verdict = verdict.at(place(evidence.design(), part));
    hub.lines.iter().fold(verdict, |verdict, line| {
        let things = [
            things::key(carpentry, line.part),
            things::near_key(carpentry, line.near),
        ];
        verdict.about(things, -1e3 * line.gap)
    })
}

const fn is(count: usize) -> &'static str {
    if count == 1 { "is" } else { "are" }
}

/// "The battery reaches 36 mm into the board; 24 mm into the handle.": each part once.
fn reaches(clauses: Vec<(String, String)>) -> String {
    let mut sentences: Vec<(String, Vec<String>)> = Vec::new();
    for (part, clause) in clauses {
        match sentences.iter_mut().find(|(known, _)| *known == part) {
            Some((_, known)) => known.push(clause),
            None => sentences.push((part, vec![clause])),
        }
    }
    let said: Vec<String> = sentences
        .iter()
        .map(|(part, clauses)| format!("{part} reaches {}", listed(clauses)))
        .collect();
    format!("{}.", capital(&said.join("; ")))
}

fn nearest(carpentry: &Carpentry, line: &GapLine) -> Verdict {
    let cause = format!(
        "The closest are {} and {}, {} apart.",
        things::name(carpentry, line.part),
        things::near_name(carpentry, line.near),
        mm(line.gap)
    );
    Verdict::good("Nothing collides", cause).measured(1e3 * line.gap, 0.0, "mm")
}

/// What many gaps have in common moved, what it meets moved, places left open, what narrows
/// the box taken back, the box larger.
pub(super) fn mends(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    lines: &[&GapLine],
) -> Vec<Vec<Candidate>> {
    let Some(hub) = hubs::hubs(carpentry, lines).into_iter().next() else {
        return Vec::new();
    };
    let mut single: Vec<Candidate> = Vec::new();
    for step in movers::steps(&hub.demands(carpentry, None)) {
        single.extend(movers::moves(evidence, carpentry, &hub.thing, step));
    }
    // All that it meets, each out of its way by the shortest step.
    let each: Vec<(String, Vec<Vector>)> = hub
        .other_keys(carpentry)
        .into_iter()
        .map(|other| {
            let steps = movers::steps(&hub.demands(carpentry, Some(&other)));
            (other, steps)
        })
        .collect();
    if let [(other, steps)] = &each[..] {
        for step in steps {
            single.extend(movers::moves(evidence, carpentry, other, *step));
        }
    } else {
        let first = |(other, steps): &(String, Vec<Vector>)| Some((other.clone(), *steps.first()?));
        let all: Option<Vec<(String, Vector)>> = each.iter().map(first).collect();
        single.extend(all.map_or_else(Vec::new, |all| movers::together(evidence, carpentry, &all)));
    }
    single.extend(anywheres(evidence, carpentry, &hub));
    let mut ladders: Vec<Vec<Candidate>> = single.into_iter().map(|one| vec![one]).collect();
    ladders.extend(movers::easing(evidence));
    if let Some(deepest) = hub.lines.iter().min_by(|a, b| a.gap.total_cmp(&b.gap)) {
        let wanting = deepest.wanted.max(0.0) - deepest.gap;
        ladders.push(larger_along(evidence, longest(deepest.away), wanting));
    }
    ladders
}

/// The place of each part left to be found that stands in the box.
fn anywheres(evidence: &Evidence<'_>, carpentry: &Carpentry, hub: &Hub<'_>) -> Vec<Candidate> {
    let mut tables: Vec<String> = vec![hub.thing.clone()];
    tables.extend(hub.other_keys(carpentry));
    let parts = tables
        .iter()
        .filter_map(|table| carpentry.parts.iter().find(|part| part.table == *table));
    let open: Vec<Candidate> = parts
        .filter_map(|part| anywhere(evidence.design(), part))
        .collect();
    let mut together = open.iter();
    let all = together.next().map(|first| {
        together.fold(vec![first.clone()], |sum, next| {
            super::swap::pairs(&sum, core::slice::from_ref(next))
        })
    });
    let all = all.filter(|_| open.len() > 1);
    open.into_iter().chain(all.into_iter().flatten()).collect()
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
