//! Stain on wood that takes it unevenly.

use super::timber::listed;
use super::{Check, Evidence, Verdict, coats};
use crate::carpentry::wall;
use crate::finish::{self, Takes, Wood, named, takes_colour};
use design::{FinishKind, FinishUse};

pub(super) const CHECK: Check = Check {
    id: "finish-blotches",
    title: "Stain on wood that takes it in blotches",
    what: "Whether a stain goes on bare wood that takes colour evenly.",
    why: "Birch, maple, cherry, pine and their like drink colour in some spots and not in others: the \
face turns cloudy, and sanding down through the veneer of plywood is no way back.",
    limits: "Goes by what the shelf says the sheet's face is of; nothing is said where it does not. \
Oil brings out the same clouds, weaker. Boards differ: an offcut of the same sheet decides.",
    bad: "water stain on birch plywood",
    good: "the same stain on oak or ash, or clear lacquer on the birch",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let said = &evidence.design().finishes;
    let stains = said.iter().enumerate().filter(|(index, used)| {
        let bare = !said[..*index]
            .iter()
            .any(|lower| finish::shared(lower, used));
        used.part.kind.value == FinishKind::Stain && bare
    });
    let woods = finish::woods(evidence.subject);
    stains
        .filter_map(|(index, used)| verdict(said, index, &under(&woods, used)))
        .collect()
}

/// The woods of known face that a layer goes on.
fn under<'a>(woods: &'a [Wood], used: &FinishUse) -> Vec<&'a Wood> {
    let on = |wood: &&Wood| {
        used.on.is_empty() || used.on.iter().any(|side| wood.walls.contains(&wall(*side)))
    };
    woods.iter().filter(on).collect()
}

fn verdict(said: &[FinishUse], index: usize, woods: &[&Wood]) -> Option<Verdict> {
    let used = &said[index];
    let name = &used.part.common.name.text;
    let of = |takes: Takes| {
        let mut names: Vec<String> = Vec::new();
        for species in woods.iter().filter_map(|wood| wood.species) {
            let own = named(species).to_owned();
            if takes_colour(species) == takes && !names.contains(&own) {
                names.push(own);
            }
        }
        names
    };
    let [cloudy, poor, even] = [Takes::Blotches, Takes::Poorly, Takes::Evenly].map(of);
    let mut causes = Vec::new();
    if !cloudy.is_empty() {
        causes.push(format!(
            "The {name} goes on bare {}, whose grain drinks unevenly: expect clouds and dark spots.",
            listed(&cloudy)
        ));
    }
    if !poor.is_empty() {
        causes.push(format!(
            "The {name} goes on {}, which has no grain to bring out; its edges turn much darker than \
its faces.",
            listed(&poor)
        ));
    }
    if causes.is_empty() {
        let known = woods.iter().all(|wood| wood.species.is_some());
        let cause = format!(
            "The {name} goes on {}, which takes it evenly.",
            listed(&even)
        );
        return known.then(|| Verdict::good("The wood takes the stain evenly", cause));
    }
    let advice = "leave the colour of the wood, or colour what lies on it instead of the wood; else \
brush on shellac thinned to a fifth first, let it dry, and judge by an offcut";
    let verdict = Verdict::caution("The stain will come out in blotches", causes.join(" "));
    Some(
        verdict
            .advice(advice)
            .at(used.place)
            .about([format!("finish.{}", index + 1)], 1.0)
            .mends([coats::without(said, index)]),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    const STAINED: &[(&str, &str)] = &[
        ("finish.1.part", "water stain"),
        ("finish.2.part", "water-based lacquer"),
    ];

    #[test]
    fn birch_takes_a_stain_in_blotches() {
        check(CHECK.id, &[], &[]);
        let found = with(STAINED).check(CHECK.id, &[Caution]);
        assert!(found[0].cause.contains("birch"), "{found:#?}");
        let mend = found[0].mend.as_ref().expect("the stain may go");
        assert_eq!(mend.words, "no water stain");
    }

    #[test]
    fn it_goes_by_the_wood_of_the_faces() {
        let oak = "[[sheet]]\nname = \"birch plywood 12 mm\"\nspecies = \"oak\"\n";
        with(STAINED).shelf(oak).check(CHECK.id, &[Good]);
        let fibre = "[[sheet]]\nname = \"birch plywood 12 mm\"\nspecies = \"fibreboard\"\n";
        with(STAINED).shelf(fibre).check(CHECK.id, &[Caution]);
    }
}
