//! Rounded and chamfered edges against the joints under them.

use super::timber::mm;
use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::words::wall;
use design::{OuterEdge, Value};
use physics::math::hypot;
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
const OPEN: f64 = 1e-4;

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
        let joint = plan.joints[edge.index()];
        let line = glue_line(plan, *edge, joint);
        let before = length(&line);
        Eaten {
            edge: *edge,
            joint,
            before,
            after: before - lost(&line, other.unwrap_or(*form)),
        }
    });
    eaten.min_by(|a, b| {
        let rank = |one: &Eaten| (one.share(), f64::from(u8::from(!one.is_open())));
        let ((share_a, open_a), (share_b, open_b)) = (rank(a), rank(b));
        share_a.total_cmp(&share_b).then(open_a.total_cmp(&open_b))
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

/// The glue line in the section across an edge, from outside to inside: points by their depth
/// below the outer faces of the first and the second wall.
fn glue_line(plan: &Plan, edge: Edge, joint: Joint) -> Vec<[f64; 2]> {
    let [first, second] = [edge.first, edge.second].map(|wall| plan.walls[wall.index()]);
    let near = [first.setback, second.setback];
    let far = [
        first.setback + first.thickness,
        second.setback + second.thickness,
    ];
    // The section with the walls exchanged where the second runs through or has the step.
    let ordered = |swap: bool, line: Vec<[f64; 2]>| -> Vec<[f64; 2]> {
        if swap {
            line.into_iter().map(|[a, b]| [b, a]).collect()
        } else {
            line
        }
    };
    let swapped = |through: wood::Wall| {
        if through == edge.first {
            (false, near, far)
        } else {
            (true, [near[1], near[0]], [far[1], far[0]])
        }
    };
    match joint {
        Joint::Mitre => vec![near, far],
        Joint::Butt { through } => {
            let (swap, near, far) = swapped(through);
            ordered(swap, vec![[far[0], near[1]], far])
        }
        Joint::Rebate { within, depth } => {
            let (swap, near, far) = swapped(within);
            let lip = far[0] - depth;
            ordered(swap, vec![[lip, near[1]], [lip, far[1]], far])
        }
    }
}

fn length(line: &[[f64; 2]]) -> f64 {
    line.windows(2)
        .map(|ends| hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]))
        .sum()
}

/// Whether a form takes a point of the section away.
fn takes(form: EdgeForm, [a, b]: [f64; 2]) -> bool {
    match form {
        EdgeForm::Round(radius) => {
            a < radius && b < radius && hypot(radius - a, radius - b) > radius
        }
        EdgeForm::Chamfer(size) => a + b < size,
    }
}

/// Length of a glue line that a form takes away: it starts outside, and once it has left what
/// is taken it does not come back.
fn lost(line: &[[f64; 2]], form: EdgeForm) -> f64 {
    let mut lost = 0.0;
    for ends in line.windows(2) {
        let [from, to] = [ends[0], ends[1]];
        let at = |share: f64| [0, 1].map(|axis| from[axis] + (to[axis] - from[axis]) * share);
        if !takes(form, from) {
            return lost;
        }
        let (mut inside, mut outside) = (0.0, 1.0);
        if takes(form, to) {
            inside = 1.0;
        } else {
            for _ in 0..40 {
                let middle = f64::midpoint(inside, outside);
                if takes(form, at(middle)) {
                    inside = middle;
                } else {
                    outside = middle;
                }
            }
        }
        lost += inside * length(ends);
        if inside < 1.0 {
            return lost;
        }
    }
    lost
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
        let cause = format!("{cause} It cuts the joint open along its whole length.");
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
    use super::*;
    use core::f64::consts::SQRT_2;

    const MITRE: [[f64; 2]; 2] = [[0.0, 0.0], [0.012, 0.012]];

    #[test]
    fn a_mitre_loses_what_lies_outside_the_circle() {
        // (√2 − 1) r along the diagonal; half the diagonal of its square for a chamfer.
        let round = lost(&MITRE, EdgeForm::Round(0.006));
        assert!((round - (SQRT_2 - 1.0) * 0.006).abs() < 1e-9, "{round}");
        let chamfer = lost(&MITRE, EdgeForm::Chamfer(0.006));
        assert!((chamfer - 0.006 / SQRT_2).abs() < 1e-9, "{chamfer}");
        assert!((length(&MITRE) - 0.012 * SQRT_2).abs() < 1e-12);
    }

    #[test]
    fn a_butt_joint_loses_nothing_below_its_own_wall() {
        let butt = [[0.012, 0.0], [0.012, 0.012]];
        assert_eq!(lost(&butt, EdgeForm::Round(0.012)), 0.0);
        // The lip of 6 mm under a rounding of 10 mm: 10 − √(10² − 4²) mm.
        let rebate = [[0.006, 0.0], [0.006, 0.012], [0.012, 0.012]];
        let opened = lost(&rebate, EdgeForm::Round(0.010));
        let wanted = 0.010 - (0.010_f64 * 0.010 - 0.004 * 0.004).sqrt();
        assert!((opened - wanted).abs() < 1e-9, "{opened} {wanted}");
        assert_eq!(lost(&rebate, EdgeForm::Round(0.006)), 0.0);
    }

    #[test]
    fn a_line_within_what_is_taken_is_lost_whole() {
        assert!((lost(&MITRE, EdgeForm::Chamfer(0.03)) - length(&MITRE)).abs() < 1e-12);
    }
}
