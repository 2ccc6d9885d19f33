//! A box too small for all that was placed in it: told once.

use super::outgrown::{self, Kind, Outgrown, towards_end};
use super::timber::{capital, grown, listed, mm};
use super::{Check, Evidence, Verdict, boards_fit, drivers_fit, inside_box, things};
use crate::carpentry::Carpentry;
use wood::Fault;

pub(super) const CHECK: Check = Check {
    id: "box-holds",
    title: "Box against what is placed in it",
    what: "Whether the box is large enough for the places the design states, where several different \
things reach out of it: frames, parts, boards, the control panel.",
    why: "One number, the size of the box, then is wrong, not a dozen places. Mended one by one they \
would all be moved for nothing.",
    limits: "Three things of two kinds at least; fewer are told each by its own check. Growth is \
reckoned to the right, upwards and backwards, away from where places are measured from.",
    bad: "a box made a third smaller, all places left as they were",
    good: "the same places in a box as large as they were measured in",
    sources: &["common practice, no source"],
    run,
};

/// Things and kinds of things from which on it is the box that is wrong.
const LEAST: (usize, usize) = (3, 2);

/// Things named at most.
const NAMED: usize = 4;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let all = drivers_fit::outgrown(evidence, carpentry)
        .into_iter()
        .chain(inside_box::outgrown(evidence, carpentry))
        .chain(boards_fit::outgrown(carpentry))
        .chain(bay(evidence))
        .chain(holes(evidence, carpentry));
    let mut found: Vec<Outgrown> = Vec::new();
    for one in all.filter(|one| one.most() > 0.0) {
        match found.iter_mut().find(|known| known.thing == one.thing) {
            Some(known) => known.missing = largest(known.missing, one.missing),
            None => found.push(one),
        }
    }
    found.sort_by(|a, b| b.most().total_cmp(&a.most()));
    let mut kinds: Vec<Kind> = found.iter().map(|one| one.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    if found.len() < LEAST.0 || kinds.len() < LEAST.1 {
        return Vec::new();
    }
    vec![verdict(evidence, &found)]
}

fn largest(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [0, 1, 2].map(|axis| a[axis].max(b[axis]))
}

fn verdict(evidence: &Evidence<'_>, found: &[Outgrown]) -> Verdict {
    let missing = found
        .iter()
        .fold([0.0; 3], |most, one| largest(most, one.missing));
    let mut names: Vec<String> = found
        .iter()
        .take(NAMED)
        .map(|one| format!("{} by {}", one.name, mm(one.most())))
        .collect();
    if found.len() > NAMED {
        names.push(format!("{} more", found.len() - NAMED));
    }
    let wants = ["width", "depth", "height"]
        .iter()
        .zip(missing)
        .filter(|(_, by)| *by > 1e-4)
        .map(|(name, by)| format!("{} in {name}", mm(by)));
    let cause = format!(
        "{} reach out of the box. It lacks {}.",
        capital(&listed(&names)),
        listed(&wants.collect::<Vec<_>>())
    );
    let said = Verdict::stop("The box is too small for what is placed in it", cause)
        .measured(-1e3 * found[0].most(), 0.0, "mm")
        .advice("make the box larger, or place everything anew")
        .at(super::timber::size_place(evidence.design()))
        .about(["box"], 0.0);
    found
        .iter()
        .fold(said, |said, one| said.about([&one.thing], 1e3 * one.most()))
        .ladder(grown(evidence, missing))
}

/// A bay that reaches into the walls.
fn bay(evidence: &Evidence<'_>) -> Option<Outgrown> {
    outgrown::bay(evidence).map(|missing| Outgrown {
        kind: Kind::Part,
        thing: "bay".into(),
        name: "the bay".into(),
        missing,
    })
}

/// Holes of the control panel and the handle that reach over the flat of their wall.
fn holes(evidence: &Evidence<'_>, carpentry: &Carpentry) -> Vec<Outgrown> {
    let design = evidence.design();
    let faults = carpentry.body.faults.iter();
    let off = faults.filter_map(|fault| match *fault {
        Fault::HoleOff {
            hole, towards, by, ..
        } => Some((hole, towards, by)),
        _ => None,
    });
    off.filter(|(hole, ..)| matches!(carpentry.holes[*hole].table.as_str(), "control" | "handle"))
        .map(|(hole, towards, by)| Outgrown {
            kind: Kind::Hole,
            thing: things::origin_key(&carpentry.holes[hole]),
            name: things::origin_name(design, carpentry, &carpentry.holes[hole]),
            missing: towards_end(towards, by),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::Stop;

    #[test]
    fn a_box_made_smaller_afterwards_is_one_finding() {
        check(CHECK.id, &[], &[]);
        let placed = with(PANEL).with(&[
            ("drivers.1.at.1", "90 x 120 mm"),
            ("drivers.1.at.2", "310 x 120 mm"),
            ("battery.at", "20 x 0 x 80 mm"),
            ("amplifier.at", "260 x 6 x 60 mm"),
        ]);
        placed.check(CHECK.id, &[]);
        let small = placed.with(&[("box.outside", "280 x 168 x 140 mm")]);
        let found = small.check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
        assert!(found[0].brings.len() > 2, "{found:#?}");
        assert!(found[0].place.is_some(), "{found:#?}");
        for folded in ["drivers-fit", "inside-box", "parts-collide"] {
            assert!(small.findings(folded).is_empty(), "{folded}");
        }
    }
    /// The box grows up to the largest size that the brief allows, and not beyond.
    #[test]
    fn a_box_grows_within_the_brief() {
        let small = with(&[
            ("drivers.1.at.1", "90 x 105 mm"),
            ("drivers.1.at.2", "290 x 105 mm"),
            ("battery.at", "100 x 0 x 75 mm"),
            ("amplifier.at", "140 x 120 x 0 mm"),
            ("box.outside", "250 x 150 x 130 mm"),
        ]);
        for (largest, mends) in [
            ("400 x 220 x 220 mm", true),
            ("350 x 200 x 170 mm", true),
            ("340 x 220 x 220 mm", false),
        ] {
            let found = small.clone().with(&[("brief.largest", largest)]);
            let found = found.check(CHECK.id, &[Stop]);
            assert_eq!(found[0].mend.is_some(), mends, "{largest}: {found:#?}");
        }
    }
}
