//! Stain and primer that nothing covers.

use super::coats::{self, Coats};
use super::{Check, Evidence, Verdict};
use crate::finish::shared;
use design::{FinishKind, FinishPart, FinishUse};

pub(super) const CHECK: Check = Check {
    id: "finish-open",
    title: "Stain or primer left open",
    what: "Whether something goes over every stain and every primer on all their faces.",
    why: "Stain is colour without a skin: it rubs off on clothes, runs in rain and fades. Primer is \
chalky so that paint grips; left open it takes dirt and water the same way.",
    limits: "A layer counts as covered where later layers go on all its faces. Wax counts over stain, \
not over primer.",
    bad: "water stain and nothing over it",
    good: "water stain, then two coats of lacquer",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let said = &evidence.design().finishes;
    let grounds = said.iter().enumerate().filter(|(_, used)| is_ground(used));
    let open = grounds.filter(|(index, used)| !covered(used, &said[index + 1..]));
    open.map(|(index, used)| verdict(evidence, said, index, used))
        .collect()
}

fn is_ground(used: &FinishUse) -> bool {
    matches!(used.part.kind.value, FinishKind::Stain | FinishKind::Primer)
}

fn covered(ground: &FinishUse, later: &[FinishUse]) -> bool {
    let covers = |over: &&FinishUse| match over.part.kind.value {
        FinishKind::Stain | FinishKind::Primer => false,
        FinishKind::Wax => ground.part.kind.value == FinishKind::Stain,
        _ => shared(ground, over),
    };
    let mut over = later.iter().filter(covers).peekable();
    if ground.on.is_empty() {
        let mut sides: Vec<design::Wall> = Vec::new();
        return over.any(|over| {
            for side in &over.on {
                if !sides.contains(side) {
                    sides.push(*side);
                }
            }
            over.on.is_empty() || sides.len() == 6
        });
    }
    let over: Vec<&FinishUse> = over.collect();
    ground.on.iter().all(|side| {
        over.iter()
            .any(|over| over.on.is_empty() || over.on.contains(side))
    })
}

fn verdict(evidence: &Evidence<'_>, said: &[FinishUse], index: usize, used: &FinishUse) -> Verdict {
    let name = &used.part.common.name.text;
    let over = match used.part.kind.value {
        FinishKind::Primer => FinishKind::Paint,
        _ => FinishKind::Lacquer,
    };
    let passes = |part: &FinishPart| part.kind.value == over && !part.sprayed.value;
    let added = coats::on_shelf(evidence, passes).and_then(|part| {
        let mut more = coats::now(said);
        more.push(Coats::of(part, &used.on));
        let words = format!("{} over {name}", part.common.name.text);
        coats::instead(words, said, &more)
    });
    let cause = format!("On some of its faces nothing goes over the {name}.");
    Verdict::caution("A ground of the finish is left open", cause)
        .advice("put lacquer or oil over a stain, paint over a primer")
        .at(used.place)
        .about([format!("finish.{}", index + 1)], 1.0)
        .mends(added)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::Caution;

    #[test]
    fn a_primer_wants_paint() {
        check(CHECK.id, &[], &[]);
        let primed = with(&[("finish.1.part", "water-based primer")]);
        let found = primed.check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().expect("paint is on the shelf");
        assert!(mend.words.contains("paint"), "{mend:?}");
        let painted = primed.with(&[("finish.2.part", "water-based paint")]);
        painted.check(CHECK.id, &[]);
    }

    #[test]
    fn every_face_counts() {
        let sides = [
            ("finish.2.part", "water-based paint"),
            ("finish.2.on.1", "front"),
        ];
        let primed = with(&[("finish.1.part", "water-based primer")]);
        primed.clone().with(&sides).check(CHECK.id, &[Caution]);
        let front = primed.with(&[("finish.1.on.1", "front")]);
        front.with(&sides).check(CHECK.id, &[]);
    }
}
