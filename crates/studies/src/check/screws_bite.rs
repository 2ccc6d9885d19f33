//! What the screws of a wall that comes off bite into.

use super::timber::{capital, listed, mm};
use super::{Candidate, Check, Edit, Evidence, Verdict, resize, things};
use crate::carpentry::{Hull, screws};
use crate::vary::Draw;
use crate::words::wall;
use design::Tolerance;
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "screws-bite",
    title: "What the screws of a wall bite into",
    what: "Whether a wall that is screwed on has wood behind it along each of its sides: the edge of a \
wall that it covers, or a cleat.",
    why: "A wall let in between mitred or rebated ones lies against nothing: its screws find no wood, and \
that is noticed when the box is glued and the screws are in the hand. A long side without screws \
lifts off its seal, hisses and buzzes.",
    limits: "Cleats count that lie against the wall and let a screw bite 8 mm. A side of 150 mm or less \
may go without. Braces, dividers and the walls of a bay are not counted, nor the thin lip of a \
rebate.",
    bad: "last = \"back\", last_with = \"screws\", joints = \"rebated\" without any [[cleat]]",
    good: "the same with a [[cleat]] along each edge of the back",
    sources: &["common practice, no source"],
    run,
};

/// Longest side that may go without screws, in m: common practice, no source.
const BARE: f64 = 0.150;

/// Sides of the section of cleats that are offered, the stouter first, in m.
const SECTIONS: [f64; 2] = [0.015, 0.012];

/// Shares of a side that cleats are tried with where they cannot reach from corner to corner.
const SHARES: [f64; 3] = [1.0, 0.75, 0.5];

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let plan = &evidence.subject.enclosure.plan;
    let (Some(carpentry), Some(last)) = (evidence.carpentry, plan.screwed()) else {
        return Vec::new();
    };
    let hull = plan.hull(&Draw::Nominal);
    let body = &carpentry.body.plan;
    let bare = screws::bare(&hull, &body.boards, &body.joints, last);
    let name = capital(things::wall_name(last));
    if bare.len() == last.neighbours().len() {
        let cause = format!(
            "{name} is to be screwed on, but it covers no edge of another wall and no cleat lies \
behind it."
        );
        let title = format!("{name} has nothing to screw into");
        return vec![told(
            evidence,
            &hull,
            last,
            &bare,
            Verdict::stop(title, cause),
        )];
    }
    let long: Vec<(Wall, f64)> = bare.into_iter().filter(|(_, long)| *long > BARE).collect();
    let Some(longest) = long.iter().map(|(_, long)| *long).reduce(f64::max) else {
        let cause = "Every long side of it has a cleat or the edge of a wall behind it.";
        return vec![Verdict::good(
            format!("{name} is held by its screws"),
            cause,
        )];
    };
    let along: Vec<String> = long
        .iter()
        .map(|(beside, long)| format!("{} of {}", things::wall_name(*beside), mm(*long)))
        .collect();
    let cause = format!(
        "Along {} nothing lies behind {} that a screw would bite into.",
        listed(&along),
        things::wall_name(last)
    );
    let said = Verdict::caution(format!("{name} is not screwed on all around"), cause).measured(
        1e3 * longest,
        1e3 * BARE,
        "mm",
    );
    vec![told(evidence, &hull, last, &long, said)]
}

/// With what is to be done, and where it is said.
fn told(
    evidence: &Evidence<'_>,
    hull: &Hull,
    last: Wall,
    bare: &[(Wall, f64)],
    said: Verdict,
) -> Verdict {
    let carpentry = &evidence.design().enclosure.carpentry;
    let place = carpentry.last_with.place.or(carpentry.last.place);
    said.about([things::wall_key(last)], bare.len() as f64)
        .advice("glue a cleat along each of these sides, flush with the inner face of the wall")
        .at(place)
        .mends(cleats(evidence, hull, last, bare))
}

/// A cleat along each side that has none: in pairs that end before one another, then shorter.
fn cleats(
    evidence: &Evidence<'_>,
    hull: &Hull,
    last: Wall,
    bare: &[(Wall, f64)],
) -> Vec<Candidate> {
    let known = &evidence.design().cleats;
    let widest = known
        .iter()
        .flat_map(|cleat| cleat.section.map(|side| side.si))
        .fold(0.0, f64::max);
    let leans = hull.block.front_lean != 0.0 || hull.block.back_lean != 0.0;
    let way = |section: f64, share: f64| {
        let mut edits = Vec::new();
        let mut names = Vec::new();
        for (index, (beside, long)) in bare.iter().enumerate() {
            let key = format!("cleat.{}", known.len() + index + 1);
            let mut set = |name: &str, value: String| {
                edits.push(Edit::set(format!("{key}.{name}"), value));
            };
            let along = format!("{}-{}", wall(*beside), wall(last));
            let text = |sides: &[f64]| resize::lengths(sides, Tolerance::Unstated);
            set(
                "name",
                format!(
                    "cleat at {} of the {}",
                    things::wall_name(*beside),
                    wall(last)
                ),
            );
            set("along", along.clone());
            set("section", text(&[section, section]));
            // Every other side ends before its neighbours.
            let neighbours = last.neighbours();
            let nth = neighbours.iter().position(|other| other == beside);
            let whole = share == 1.0 && !leans && nth.is_some_and(|nth| nth % 2 == 0);
            let clear = long - 2.0 * section.max(widest) - 2.0 * AIR;
            if !whole || !known.is_empty() {
                set("length", text(&[(1e3 * share * clear).floor() / 1e3]));
            }
            names.push(along);
        }
        let words = format!("cleats {} along {}", mm(section), listed(&names));
        Candidate::new(words, edits)
    };
    SHARES
        .into_iter()
        .flat_map(|share| SECTIONS.map(|section| way(section, share)))
        .collect()
}

/// Between the end of a cleat and its neighbour, in m.
const AIR: f64 = 0.001;

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_wall_let_in_wants_cleats() {
        check(CHECK.id, &[], &[Good]);
        check(CHECK.id, &[("box.last_with", "glue")], &[]);
        for joints in ["mitred", "rebated"] {
            let found = check(CHECK.id, &[("box.joints", joints)], &[Stop]);
            assert!(found[0].place.is_some(), "{found:#?}");
            assert!(found[0].mend.is_some(), "{found:#?}");
        }
    }

    #[test]
    fn each_long_side_is_named() {
        let two = with(&[
            ("box.joints", "rebated"),
            ("cleat.1.name", "above"),
            ("cleat.1.along", "top-back"),
            ("cleat.1.section", "15 x 15 mm"),
            ("cleat.2.name", "below"),
            ("cleat.2.along", "bottom-back"),
            ("cleat.2.section", "15 x 15 mm"),
        ]);
        let found = two.check(CHECK.id, &[Caution]);
        let cause = &found[0].cause;
        assert!(cause.contains("the left side of 216 mm"), "{cause}");
        assert!(cause.contains("the right side of 216 mm"), "{cause}");
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    /// 10 mm of cleat less 3 mm before the tip are less than 8 mm.
    #[test]
    fn a_cleat_too_thin_to_bite_into_is_none() {
        let cleats = |section| {
            let edges = ["top-back", "bottom-back", "left-back", "right-back"];
            let lengths = ["376 mm", "376 mm", "180 mm", "180 mm"];
            (1..).zip(edges.iter().zip(lengths)).fold(
                with(&[("box.joints", "rebated")]),
                |probe, (number, (edge, length))| {
                    let key = |name: &str| format!("cleat.{number}.{name}");
                    probe.with(&[
                        (&key("name"), edge),
                        (&key("along"), edge),
                        (&key("section"), section),
                        (&key("length"), length),
                    ])
                },
            )
        };
        cleats("10 x 10 mm").check(CHECK.id, &[Stop]);
        cleats("12 x 12 mm").check(CHECK.id, &[Good]);
    }
}
