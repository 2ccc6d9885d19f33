//! The vent tube against what is in its way.

use super::timber::{longest, mm};
use super::{Candidate, Check, Evidence, Verdict, resize, things, tune};
use crate::carpentry::{Carpentry, GapLine, Near, PartKind, TUBE_WALL};
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "vent-fits",
    title: "Vent length against the box",
    what: "Whether the vent tube, straight or with one bend, clears walls, drivers and other parts, with \
room before its inner end.",
    why: "Small boxes tuned low want long tubes. A tube that ends close to a wall is tuned lower than \
computed and chokes.",
    limits: "One diameter free before the inner end. A bend adds some noise; its length counts along the \
middle. Two bends are not considered.",
    bad: "a 60 mm tube 200 mm long in a box 180 mm deep",
    good: "the same box with a passive radiator, with a 36 mm tube 75 mm long, or with the tube bent",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(carpentry), Some(vent)) = (evidence.carpentry, evidence.vent()) else {
        return Vec::new();
    };
    let own = |line: &&GapLine| {
        let is_vent = |index: usize| carpentry.parts[index].kind == PartKind::Vent;
        let other = matches!(line.near, Near::Part(index) if is_vent(index));
        is_vent(line.part) || other
    };
    let nearest = |air: bool| {
        let lines = carpentry.gaps.iter().filter(own);
        lines
            .filter(|line| line.air == air)
            .min_by(|a, b| a.gap.total_cmp(&b.gap))
    };
    let length = mm(vent.length.si);
    let blocked = nearest(false).filter(|line| line.gap < -TOUCHES);
    let choked = nearest(true).filter(|line| line.gap < -TOUCHES);
    let said = match (blocked, choked) {
        (Some(line), _) => {
            let cause = format!(
                "The tube of {length} reaches {} into {}.",
                mm(-line.gap),
                in_the_way(carpentry, line)
            );
            Verdict::stop("The vent does not fit", cause).measured(1e3 * line.gap, 0.0, "mm")
        }
        (None, Some(line)) => {
            let cause = format!(
                "The tube of {length} wants a diameter of {} free before its inner end; {} takes {} \
of it.",
                mm(vent.diameter.si),
                in_the_way(carpentry, line),
                mm(-line.gap)
            );
            Verdict::caution("The vent ends too close to something", cause).measured(
                1e3 * line.gap,
                0.0,
                "mm",
            )
        }
        (None, None) => {
            let cause = format!("The tube of {length} has a diameter free before its inner end.");
            return vec![Verdict::good("Vent fits", cause)];
        }
    };
    let axis = blocked.or(choked).map_or(1, |line| longest(line.away));
    let said = carpentry
        .gaps
        .iter()
        .filter(own)
        .filter(|line| line.gap < -TOUCHES && line.air == blocked.is_none())
        .fold(said, |said, line| {
            let things = [
                things::key(carpentry, line.part),
                things::near_key(carpentry, line.near),
            ];
            said.about(things, -1e3 * line.gap)
        });
    vec![
        said.advice(
            "bend it, its length counting along the middle; take a narrower tube, which is shorter \
for the same tuning; tune higher; or take a passive radiator",
        )
        .at(vent.length.place)
        .mends(bent(evidence, carpentry))
        .mends(tune::other_tubes(evidence, |diameter| {
            diameter < vent.diameter.si
        }))
        .ladder(resize::larger(evidence, AXES[axis]))
        .mends(tune::radiators(evidence)),
    ]
}

/// Directions of the box in the order x, y, z.
const AXES: [resize::Axis; 3] = [
    resize::Axis::Width,
    resize::Axis::Depth,
    resize::Axis::Height,
];

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-5;

/// What stands in the vent's way: the other, whichever of the two was named first.
fn in_the_way(carpentry: &Carpentry, line: &GapLine) -> String {
    if carpentry.parts[line.part].kind == PartKind::Vent {
        things::near_name(carpentry, line.near)
    } else {
        things::name(carpentry, line.part)
    }
}

/// A straight tube bent once, as far back as the box allows; a bend moved a little nearer.
fn bent(evidence: &Evidence<'_>, carpentry: &Carpentry) -> Vec<Candidate> {
    let Some(vent) = evidence.vent() else {
        return Vec::new();
    };
    let side = crate::carpentry::wall(vent.mounting.on.value);
    let [width, height, depth] = evidence.build.enclosure.inside;
    let room = match side {
        Wall::Front | Wall::Back => depth,
        Wall::Left | Wall::Right => width,
        Wall::Top | Wall::Bottom => height,
    };
    let radius = vent.diameter.si / 2.0 + TUBE_WALL;
    let wall = carpentry.body.wall(side).thickness;
    let furthest = wall + room - radius;
    let nearest = wall + radius;
    let now = vent.bent.map_or(f64::INFINITY, |leg| leg.si);
    let leg = |share: f64| (1e3 * (nearest + (furthest - nearest) * share)).floor();
    [0.9, 0.5]
        .into_iter()
        .map(leg)
        .filter(|leg| *leg > 1e3 * nearest && *leg < 1e3 * vent.length.si.min(now))
        .map(|leg| {
            let words = format!("vent bent once after {leg:.0} mm");
            Candidate::set(words, "box.vent.bent", format!("{leg:.0} mm"))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{VENT, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_long_tube_wants_a_bend_and_a_longer_one_another_box() {
        // The box is 176 mm deep inside.
        let tube = |length| with(VENT).with(&[("box.vent.length", length)]);
        tube("140 mm").check(CHECK.id, &[Good]);
        let found = tube("180 mm").check(CHECK.id, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
        tube("600 mm").check(CHECK.id, &[Stop]);
        check(CHECK.id, &[], &[]);
    }
}
