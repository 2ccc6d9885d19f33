//! Whether what must be replaced one day comes out again.

use super::timber::{anywhere, capital, listed, mm, place, the};
use super::{Candidate, Check, Evidence, Verdict, things};
use crate::carpentry::{AccessLine, Carpentry, Near, PartKind, Passage, PlacedPart};
use design::{Closing, Design};

pub(super) const CHECK: Check = Check {
    id: "comes-out",
    title: "What comes out again",
    what: "Whether battery and board can be carried out of the closed box through an \
opening that remains: a driver's hole, the hole behind the control panel, a wall that is screwed on. \
And whether drivers, radiators and the control panel come off their wall again.",
    why: "Batteries age and boards fail. What cannot come out through any opening can only be sawn \
out.",
    limits: "A stop where battery or board has no way, a caution where anything else has none, and \
for less than 2 mm to spare; 5 mm is comfortable. Parts of the control panel come off with its plate. \
The search moves and turns each part's true outline with all others in place, then once more with those \
out that come out by themselves. Too large is proven; where no way was found, a dry fit decides. Wires \
and glued vents are not looked at.",
    bad: "a battery 98 mm wide in a glued box whose largest hole is 93 mm",
    good: "the same box with last_with = \"screws\", or a battery 65 mm thick",
    sources: &["common practice, no source"],
    run,
};

/// Slack on the way out below which it is said, in m.
const SLACK: f64 = 0.002;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let design = evidence.design();
    let verdicts = carpentry.access.iter().filter_map(|line| {
        let part = &carpentry.parts[line.part];
        if in_the_way(carpentry, line.part) {
            return None;
        }
        let said = verdict(part, line)?;
        let thing = things::key(carpentry, line.part);
        let said = said.about([thing], 1e3 * (SLACK - line.slack).max(0.0));
        Some(said.at(place(design, part)).mends(mends(design, part)))
    });
    verdicts.collect()
}

/// Whether a part meets another as it stands: that has to be mended first.
fn in_the_way(carpentry: &Carpentry, index: usize) -> bool {
    carpentry.gaps.iter().any(|line| {
        let own = line.part == index || line.near == Near::Part(index);
        own && !line.air && line.gap < -TOUCHES
    })
}

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-5;

fn verdict(part: &PlacedPart, line: &AccessLine) -> Option<Verdict> {
    let wears = matches!(part.kind, PartKind::Battery | PartKind::Board);
    match &line.through {
        Some(through) if wears => Some(comes_out(part, line, through)),
        None if wears => Some(stays(part, line)),
        None if serviced(part.kind) => Some(sits_fast(line)),
        _ => None,
    }
}

/// What is taken out now and then, to mend it or to reach what is behind it.
const fn serviced(kind: PartKind) -> bool {
    matches!(
        kind,
        PartKind::Driver | PartKind::Radiator | PartKind::Control
    )
}

fn comes_out(part: &PlacedPart, line: &AccessLine, through: &str) -> Verdict {
    let it = the(part);
    let first = if line.first.is_empty() {
        String::new()
    } else {
        format!(", once {} is off or out", listed(&line.first))
    };
    let cause = format!(
        "{} comes out through {through}{first}, {}, with {} to spare.",
        capital(&it),
        line.how,
        mm(line.slack)
    );
    let numbers = |said: Verdict| said.measured(1e3 * line.slack, 1e3 * SLACK, "mm");
    if line.slack < SLACK {
        let title = format!("{} comes out with hardly any room", capital(&it));
        let advice = "make the opening larger by a few millimetres, or try it before gluing";
        return numbers(Verdict::caution(title, cause).advice(advice));
    }
    let title = format!("{} comes out again", capital(&it));
    numbers(Verdict::good(title, cause))
}

fn stays(part: &PlacedPart, line: &AccessLine) -> Verdict {
    let it = the(part);
    let title = format!("{} cannot come out again", capital(&it));
    Verdict::stop(title, why_not(&it, line)).advice(
        "screw one wall on instead of gluing it, with a strip of foam to seal it; or make an \
opening larger, or take a smaller part",
    )
}

fn sits_fast(line: &AccessLine) -> Verdict {
    let it = match line.label.strip_prefix("control panel") {
        Some(_) => format!("the {}", line.label),
        None => line.label.clone(),
    };
    let title = format!("{} does not come out again", capital(&it));
    Verdict::caution(title, why_not(&it, line)).advice(
        "leave more room behind it or before it, move what stands in its way, or leave one wall \
screwed on",
    )
}

/// What is proven is told apart from what was only not found.
fn why_not(it: &str, line: &AccessLine) -> String {
    let by = mm(-line.slack);
    match line.passage {
        Passage::TooLarge => format!(
            "Once the box is closed, {it} is too large by {by} for the largest opening that \
remains, however it is turned."
        ),
        Passage::NoOpening => format!("Once the box is closed, no opening remains for {it}."),
        Passage::NotFound | Passage::Out => {
            let short = if line.slack < 0.0 {
                format!(" in the best straight try {by} were lacking;")
            } else {
                String::new()
            };
            format!(
                "Once the box is closed, no way was found for {it} through an opening that \
remains:{short} a dry fit decides."
            )
        }
    }
}

/// The last wall screwed on, or a place nearer to the opening.
fn mends(design: &Design, part: &PlacedPart) -> Vec<Candidate> {
    let glued = design.enclosure.carpentry.last_with.value == Closing::Glue;
    let screwed = glued.then(|| {
        Candidate::set(
            "last wall screwed on instead of glued",
            "box.last_with",
            "screws",
        )
    });
    screwed.into_iter().chain(anywhere(design, part)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_glued_box_keeps_what_is_larger_than_its_holes() {
        check(CHECK.id, &[], &[Good, Good]);
        let found = with(&[("box.last_with", "glue")]).findings(CHECK.id);
        assert_eq!(found[0].severity, Stop, "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "box.last_with");
    }
}
