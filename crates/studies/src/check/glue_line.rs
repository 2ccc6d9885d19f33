//! Rounded and chamfered edges against the joints under them.

use super::timber::mm;
use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::words::wall;
use design::{OuterEdge, Value};
use wood::{Edge, EdgeForm, Fault, Joint, Plan};

pub(super) const CHECK: Check = Check {
    id: "glue-line",
    title: "Rounded edges against glue lines",
    what: "How much of the glue line of every joint is left once the outer edges are rounded or \
chamfered, and whether the cut breaks through it.",
    why: "A mitre is glued right up to the edge that is rounded off, and the lip over a rebate is thinner \
than the wall. What the router takes there is strength.",
    limits: "The section across the edge, as if all angles were right. A stop where less than half of a \
glue line is left, a caution where less than three quarters are, or where a butt joint or the lip \
of a rebate is cut open. Splines and screws are not counted.",
    bad: "round = \"10 mm\" over rebates that leave a lip of 6 mm",
    good: "round = \"6 mm\" over mitres of 12 mm walls: 14.5 of 17 mm are left",
    sources: &["common practice, no source"],
    run,
};

/// Shares of a glue line below which it is said, and below which it is a stop.
const LEFT: (f64, f64) = (0.75, 0.5);

/// A joint cut open by no more than this still looks closed, in m.
const OPEN: f64 = 2e-5;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let outer = evidence.design().enclosure.carpentry.outer;
    let (Some(carpentry), Some(outer)) = (evidence.carpentry, outer) else {
        return Vec::new();
    };
    let plan = &carpentry.body.plan;
    let (value, key, word, form): (Value, _, _, fn(f64) -> EdgeForm) = match outer {
        OuterEdge::Round(value) => (value, "box.round", "rounding", EdgeForm::Round),
        OuterEdge::Chamfer(value) => (value, "box.chamfer", "chamfer", EdgeForm::Chamfer),
    };
    let Some(worst) = worst(plan, None) else {
        return Vec::new();
    };
    let broken = carpentry
        .body
        .faults
        .iter()
        .any(|fault| matches!(fault, Fault::GlueLine { .. } | Fault::Form { .. }));
    let said = verdict(&worst, word, value.si, broken).at(value.place);
    let smaller = smaller(plan, value.si, form).map_or_else(
        || Candidate::new(format!("no {word}"), [Edit::remove(key)]),
        |millimetres| {
            let words = format!("{word} {} → {millimetres} mm", mm(value.si));
            Candidate::set(words, key, format!("{millimetres} mm"))
        },
    );
    vec![said.mends([smaller])]
}

/// A joint with what a form leaves of it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Eaten {
    edge: Edge,
    joint: Joint,
    /// Length of the glue line in the section before and after, in m.
    before: f64,
    after: f64,
}

impl Eaten {
    fn share(&self) -> f64 {
        self.after / self.before
    }

    /// Whether a joint that does not end at the edge is cut open.
    fn is_open(&self) -> bool {
        self.joint != Joint::Mitre && self.before - self.after > OPEN
    }

    fn is_good(&self) -> bool {
        self.share() >= LEFT.0 && !self.is_open()
    }
}

/// Of all edges with a form, the one that suffers most; with another form where one is given.
fn worst(plan: &Plan, other: Option<EdgeForm>) -> Option<Eaten> {
    let eaten = plan.edges.iter().map(|(edge, form)| {
        let line = plan.joint_line_with(*edge, Some(other.unwrap_or(*form)));
        Eaten {
            edge: *edge,
            joint: plan.joints[edge.index()],
            before: line.whole,
            after: line.left,
        }
    });
    // One that is cut open is worse than one that only loses some of its length.
    eaten.min_by(|a, b| {
        let rank = |one: &Eaten| (one.share() >= LEFT.1, !one.is_open());
        rank(a).cmp(&rank(b)).then(a.share().total_cmp(&b.share()))
    })
}

/// The largest form in whole millimetres below the present one that does no harm.
fn smaller(plan: &Plan, now: f64, form: fn(f64) -> EdgeForm) -> Option<u32> {
    let most = (1e3 * now - 1e-6).floor() as u32;
    (1..=most).rev().find(|millimetres| {
        let form = form(f64::from(*millimetres) / 1e3);
        worst(plan, Some(form)).is_some_and(|eaten| eaten.is_good())
    })
}

fn verdict(eaten: &Eaten, word: &str, size: f64, broken: bool) -> Verdict {
    let walls = format!("{} and {}", wall(eaten.edge.first), wall(eaten.edge.second));
    let cause = format!(
        "Of the glue line between {walls}, {} long, the {word} of {} leaves {}.",
        mm(eaten.before),
        mm(size),
        mm(eaten.after)
    );
    let said = if broken || eaten.share() < LEFT.1 {
        Verdict::stop(format!("The {word} breaks through the glue line"), cause)
    } else if eaten.is_open() {
        let cause = format!("{cause} It runs into the joint along the whole edge.");
        Verdict::caution(format!("The {word} cuts a joint open"), cause)
    } else if eaten.share() < LEFT.0 {
        Verdict::caution(format!("The {word} eats into the glue line"), cause)
    } else {
        return Verdict::good("Rounded edges leave the joints whole", cause).measured(
            1e3 * eaten.after,
            1e3 * LEFT.0 * eaten.before,
            "mm",
        );
    };
    said.measured(1e3 * eaten.after, 1e3 * LEFT.0 * eaten.before, "mm")
        .advice("take less off the edges, let another wall run through, or cut a shallower rebate")
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn the_lip_of_a_rebate_bears_less_than_a_mitre() {
        check(CHECK.id, &[], &[]);
        let joints = |joints, round| with(&[("box.joints", joints), ("box.round", round)]);
        joints("mitred", "6 mm").check(CHECK.id, &[Good]);
        joints("butt", "8 mm").check(CHECK.id, &[Good]);
        joints("mitred", "11 mm").check(CHECK.id, &[Caution]);
        let found = joints("rebated", "9 mm").check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        // Half the wall of 11.9 mm is the lip.
        assert_eq!(mend.edits[0].value.as_deref(), Some("6 mm"));
        assert!(found[0].place.is_some(), "{found:#?}");
    }
}
