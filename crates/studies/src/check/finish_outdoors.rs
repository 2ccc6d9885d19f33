//! Finishes that water out of doors gets through.

use super::coats::{self, Coats};
use super::timber::listed;
use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::carpentry::wall;
use crate::finish::{self, Takes, takes_colour};
use crate::words;
use design::{FinishKind, FinishPart, FinishUse, Stands};
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "finish-outdoors",
    title: "The finish out of doors",
    what: "Whether every face of a box that plays out of doors lies under something that stands dew, \
wet hands and a shower.",
    why: "Water stands on a box on wet grass: shellac turns white under it, wax lets it through within \
minutes, bare wood greys and moves, and fibreboard that has swollen stays so.",
    limits: "A caution, for boxes that do not stand indoors and name a finish: faces without any, faces \
under shellac or wax alone, fibreboard and chipboard under oil. Clear lacquer yellows and lifts in \
years of sun; that, and salt, is not judged.",
    bad: "shellac on a box that plays at the beach",
    good: "hard-wax oil or lacquer on all sides of it",
    sources: &["common practice, no source"],
    run,
};

/// What water does on one face.
#[derive(Clone, Copy, PartialEq)]
enum Wet {
    Bare,
    Through(usize),
    Swells(usize),
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let design = evidence.design();
    let said = &design.finishes;
    if said.is_empty() || design.place.stands.value == Stands::Indoors {
        return Vec::new();
    }
    let mut found: Vec<(Wet, Vec<Wall>)> = Vec::new();
    for side in Wall::ALL {
        let Some(wet) = wet(evidence, said, side) else {
            continue;
        };
        match found.iter_mut().find(|(known, _)| *known == wet) {
            Some((_, sides)) => sides.push(side),
            None => found.push((wet, vec![side])),
        }
    }
    if found.is_empty() {
        let cause = "Every side lies under a finish that stands dew and a shower.";
        return vec![Verdict::good("The finish stands the open air", cause)];
    }
    found
        .iter()
        .map(|(wet, sides)| verdict(evidence, said, *wet, sides))
        .collect()
}

fn wet(evidence: &Evidence<'_>, said: &[FinishUse], side: Wall) -> Option<Wet> {
    let here = said
        .iter()
        .enumerate()
        .filter(|(_, used)| used.on.is_empty() || used.on.iter().any(|own| wall(*own) == side));
    let here: Vec<(usize, FinishKind)> = here
        .map(|(index, used)| (index, used.part.kind.value))
        .collect();
    let Some((last, _)) = here.last() else {
        return Some(Wet::Bare);
    };
    let (index, kind) = *here
        .iter()
        .rev()
        .find(|(_, kind)| *kind != FinishKind::Wax)
        .unwrap_or(&(*last, FinishKind::Wax));
    let woods = finish::woods(evidence.subject);
    let mut own = woods.iter().filter(|wood| wood.walls.contains(&side));
    let swells = own.any(|wood| {
        let species = wood.species;
        species.is_some_and(|species| takes_colour(species) == Takes::Poorly)
    });
    match kind {
        FinishKind::Shellac | FinishKind::Wax => Some(Wet::Through(index)),
        FinishKind::Oil | FinishKind::HardWaxOil if swells => Some(Wet::Swells(index)),
        // Grounds left open are told under finish-open.
        _ => None,
    }
}

fn verdict(evidence: &Evidence<'_>, said: &[FinishUse], wet: Wet, sides: &[Wall]) -> Verdict {
    let names: Vec<String> = sides
        .iter()
        .map(|side| words::wall(*side).to_owned())
        .collect();
    let lies = match (sides.len(), &names[..]) {
        (6, _) => "All sides lie".to_owned(),
        (1, [one]) => format!("The {one} lies"),
        _ => format!("{} lie", super::timber::capital(&listed(&names))),
    };
    let name = |index: usize| said[index].part.common.name.text.as_str();
    let (title, cause, about, place) = match wet {
        Wet::Bare => (
            "A side is left bare out of doors",
            format!(
                "{lies} bare while the others are finished: water comes in there, and the wood \
bows towards the finished side."
            ),
            "finish".to_owned(),
            said[0].place,
        ),
        Wet::Through(index) => (
            "The finish does not stand water",
            format!(
                "{lies} under {} alone, which water gets through within minutes.",
                name(index)
            ),
            format!("finish.{}", index + 1),
            said[index].place,
        ),
        Wet::Swells(index) => (
            "The board swells under this finish",
            format!(
                "{lies} under {}: it keeps off drops, not standing water, and fibreboard or \
chipboard that has swollen stays so.",
                name(index)
            ),
            format!("finish.{}", index + 1),
            said[index].place,
        ),
    };
    let things = sides.iter().map(|side| super::things::wall_key(*side));
    Verdict::caution(title, cause)
        .advice("lacquer, paint or, on wood, hard-wax oil on all sides; or keep the box dry")
        .at(place)
        .about(things.chain([about]), sides.len() as f64)
        .mends(mends(evidence, said, wet))
}

fn mends(evidence: &Evidence<'_>, said: &[FinishUse], wet: Wet) -> Vec<Candidate> {
    match wet {
        Wet::Bare => {
            let all = said
                .iter()
                .enumerate()
                .filter(|(_, used)| !used.on.is_empty());
            let edits: Vec<Edit> = all
                .map(|(index, _)| Edit::remove(format!("finish.{}.on", index + 1)))
                .collect();
            vec![Candidate::new("every layer on all sides", edits)]
        }
        Wet::Through(index) | Wet::Swells(index) => {
            let kinds = [
                FinishKind::Lacquer,
                FinishKind::HardWaxOil,
                FinishKind::Paint,
            ];
            let others = kinds.into_iter().filter_map(|kind| {
                let passes = |part: &FinishPart| part.kind.value == kind && !part.sprayed.value;
                coats::on_shelf(evidence, passes)
            });
            others
                .filter_map(|part| {
                    let mut other = coats::now(said);
                    let from = other[index].part;
                    other[index] = Coats::of(part, &said[index].on);
                    let words = format!("{from} → {}", part.common.name.text);
                    coats::instead(words, said, &other)
                })
                .collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn water_gets_through_shellac_and_wax() {
        check(CHECK.id, &[], &[]);
        let under = |part| with(&[("finish.1.part", part)]);
        under("hard-wax oil").check(CHECK.id, &[Good]);
        under("wax paste").check(CHECK.id, &[Caution]);
        let found = under("shellac").check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().expect("lacquer is on the shelf");
        assert_eq!(mend.words, "shellac → water-based lacquer");
        let indoors = under("shellac").with(&[("place.stands", "indoors")]);
        indoors.check(CHECK.id, &[]);
    }

    #[test]
    fn a_side_left_bare_is_found() {
        let found = with(&[
            ("finish.1.part", "water-based lacquer"),
            ("finish.1.on.1", "front"),
            ("finish.1.on.2", "back"),
        ])
        .check(CHECK.id, &[Caution]);
        assert!(found[0].cause.contains("top"), "{found:#?}");
        let mend = found[0].mend.as_ref().expect("it may go on all");
        assert_eq!(mend.words, "every layer on all sides");
    }

    #[test]
    fn fibreboard_swells_under_oil() {
        let fibre = "[[sheet]]\nname = \"birch plywood 12 mm\"\nspecies = \"fibreboard\"\n";
        let oiled = with(&[("finish.1.part", "hard-wax oil")]).shelf(fibre);
        oiled.check(CHECK.id, &[Caution]);
        oiled
            .with(&[("finish.1.part", "water-based lacquer")])
            .check(CHECK.id, &[Good]);
    }
}
