//! Whether screwdriver and hand reach what can be taken out.

use super::timber::{anywhere, capital, place, placement, the};
use super::{Candidate, Check, Edit, Evidence, Verdict, things};
use crate::carpentry::{AccessLine, PartKind, PlacedPart};
use crate::words::wall;
use design::{Closing, Design};
use wood::Wall;

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
            let said = verdict(design, part, line)?;
            let mends = anywhere(design, part).into_iter();
            let mends = mends.chain(fixed(design, part));
            let thing = things::key(carpentry, line.part);
            let said = said.about([thing], 0.0);
            Some(said.at(place(design, part)).mends(mends))
        })
        .collect()
}

/// Fixed where its screws can be turned, its place on that wall left to be found: to any wall
/// that will do, to the one that comes off, to the one across from it; and where all are
/// glued, to one that is screwed on instead.
fn fixed(design: &Design, part: &PlacedPart) -> Vec<Candidate> {
    let Some(said) = placement(design, &part.table) else {
        return Vec::new();
    };
    let glued = design.enclosure.carpentry.last_with.value == Closing::Glue;
    let last = crate::carpentry::wall(design.enclosure.carpentry.last.value);
    let key = |name: &str| format!("{}.{name}", part.table);
    let free = || {
        let stated = [said.at.is_some(), said.turn.is_some()];
        let names = ["at", "turn"].into_iter().zip(stated);
        names
            .filter(|(_, stated)| *stated)
            .map(|(name, _)| Edit::remove(key(name)))
    };
    let on = |to: Wall, words: String| {
        let mut edits: Vec<Edit> = free().collect();
        edits.push(Edit::set(key("fixed_to"), wall(to)));
        Candidate::new(words, edits)
    };
    let it = the(part);
    let mut found = Vec::new();
    if said.fixed_to.is_some() {
        let mut edits: Vec<Edit> = free().collect();
        edits.push(Edit::remove(key("fixed_to")));
        found.push(Candidate::new(
            format!("{it}: let its wall and place be found"),
            edits,
        ));
    }
    if glued {
        let mut candidate = on(
            last,
            format!("{it} on the {}, which is screwed on, not glued", wall(last)),
        );
        candidate.edits.push(Edit::set("box.last_with", "screws"));
        found.push(candidate);
    } else {
        let with_it = format!("{it} fixed to the {}, which comes off with it", wall(last));
        found.push(on(last, with_it));
    }
    let across = last.opposite();
    found.push(on(across, format!("{it} fixed to the {}", wall(across))));
    found
}

fn verdict(design: &Design, part: &PlacedPart, line: &AccessLine) -> Option<Verdict> {
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
        Verdict::caution(format!("{} is out of reach", capital(&it)), cause).advice(advice(design)),
    )
}

fn advice(design: &Design) -> String {
    let carpentry = &design.enclosure.carpentry;
    let last = wall(crate::carpentry::wall(carpentry.last.value));
    if carpentry.last_with.value == Closing::Glue {
        format!(
            "leave the {last} screwed instead of glued and fix it to that, turn its screws to an \
opening, or hold it with a strap instead of screws"
        )
    } else {
        format!(
            "fix it to the {last}, which comes off, or so that its screws face the {last}, or hold \
it with a strap instead of screws"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn screws_must_face_the_opening() {
        check(CHECK.id, &[], &[Good, Good]);
        let found =
            with(&[("box.last", "left"), ("amplifier.fixed_to", "bottom")]).findings(CHECK.id);
        assert_eq!(found[0].severity, Caution, "{found:#?}");
        assert!(found[0].cause.contains("screwdriver"), "{found:#?}");
    }
}
