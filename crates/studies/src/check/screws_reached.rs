//! Whether screwdriver and hand reach what can be taken out.

use super::timber::{anywhere, capital, place, placement, the};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::{AccessLine, PartKind, PlacedPart};
use crate::words::wall;
use design::Design;

pub(super) const CHECK: Check = Check {
    id: "screws-reached",
    title: "Reach of screwdriver and hand",
    what: "Whether the screws of battery and board can be turned in the closed box through an \
opening that remains, and whether a hand reaches them.",
    why: "A board that would pass through the driver's hole stays in when no screwdriver reaches its \
screws, and a dropped screw stays in for good.",
    limits: "A straight screwdriver, not an offset one, and a hand as a rod; parts only that come out \
at all. Screws with magnets and double-sided tape are other ways.",
    bad: "a board screwed to the inside of the front, beside the only hole",
    good: "the same board on the back, facing the hole",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let design = evidence.design();
    let lines = carpentry.access.iter();
    lines
        .filter_map(|line| {
            let part = &carpentry.parts[line.part];
            let said = verdict(part, line)?;
            let mends = anywhere(design, part).into_iter();
            let mends = mends.chain(facing(design, part));
            Some(said.at(place(design, part)).mends(mends))
        })
        .collect()
}

/// Fixed to the wall across from the one that comes off, so that its screws face it.
fn facing(design: &Design, part: &PlacedPart) -> Option<Candidate> {
    let across = crate::carpentry::wall(design.enclosure.carpentry.last.value).opposite();
    let said = placement(design, &part.table)?.fixed_to;
    let is_there = said.is_some_and(|fixed| crate::carpentry::wall(fixed.value) == across);
    (!is_there).then(|| {
        let words = format!("{} fixed to the {}", the(part), wall(across));
        Candidate::set(words, &format!("{}.fixed_to", part.table), wall(across))
    })
}

fn verdict(part: &PlacedPart, line: &AccessLine) -> Option<Verdict> {
    let looked_at = matches!(part.kind, PartKind::Battery | PartKind::Board);
    if !looked_at || line.through.is_none() {
        return None;
    }
    let it = the(part);
    let screwed = !part.part.shape.screws.is_empty();
    let missing = match (line.driver_reaches || !screwed, line.hand_reaches) {
        (true, true) => {
            let cause = format!("{} can be got at in the closed box.", capital(&it));
            return Some(Verdict::good(
                format!("{} is within reach", capital(&it)),
                cause,
            ));
        }
        (false, true) => "A hand reaches it, but no straight screwdriver reaches its screws.",
        (true, false) => "A screwdriver reaches it, but no hand does.",
        (false, false) => "Neither a hand nor a straight screwdriver reaches it.",
    };
    let cause = format!(
        "{} would pass through an opening that remains. {missing}",
        capital(&it)
    );
    Some(
        Verdict::caution(format!("{} is out of reach", capital(&it)), cause).advice(
            "turn it so that its screws face the opening, put it elsewhere, or hold it with a strap \
instead of screws",
        ),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn screws_must_face_the_opening() {
        check(CHECK.id, &[], &[Good, Good]);
        let found = with(&[("box.last", "left")]).findings(CHECK.id);
        assert_eq!(found[0].severity, Caution, "{found:#?}");
        assert!(found[0].cause.contains("screwdriver"), "{found:#?}");
    }
}
