//! How far the box leans before it falls.

use super::timber::{capital, degrees, larger_along, mm};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::Balance;
use crate::words::wall;
use design::Feet;
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "stands-firm",
    title: "Standing firm",
    what: "How far the box can be tilted before it falls over, from its weight, where the weight \
acts, and where its feet or edges stand; and whether the feet have room beside one another.",
    why: "A box on sand, grass or a shaking floor is nudged and pulled by its cable. One that falls \
hurts feet, and its own drivers.",
    limits: "A caution below 15° and a stop below 10°, the tilt at which equipment for the home is \
tried for stability (from memory). On hard ground; feet that sink in lower it. Nothing is known of \
what stands on the box.",
    bad: "a tower 900 mm high and 120 mm deep with the battery on top",
    good: "the same tower with the battery at its foot and feet that reach out",
    sources: &["common practice, no source"],
    run,
};

/// Angles in degrees below which it is said, and below which it is a stop.
const LIMITS: (f64, f64) = (15.0, 10.0);

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let verdict = verdict(&carpentry.balance);
    let (_, towards) = carpentry.balance.tipping;
    let axis = match towards {
        Wall::Left | Wall::Right => 0,
        _ => 1,
    };
    let feet = evidence.design().feet.as_ref();
    let mend = feet.and_then(outer_feet);
    let stands = match feet {
        Some(feet) => verdict.at(feet.place),
        None => verdict,
    };
    let stands = stands
        .mends(mend)
        .ladder(larger_along(evidence, axis, LEAST));
    let block = &carpentry.body.plan.block;
    let crowded = feet.and_then(|feet| crowded(feet, block.width.min(block.depth)));
    core::iter::once(stands).chain(crowded).collect()
}

/// Feet that run into one another along the shorter side of the bottom.
fn crowded(feet: &Feet, side: f64) -> Option<Verdict> {
    let apart = side - 2.0 * feet.inset.si;
    let over = feet.diameter.si - apart;
    (over > 0.0).then(|| {
        let cause = format!(
            "Their middles are {} apart, and each is {} wide.",
            mm(apart.max(0.0)),
            mm(feet.diameter.si)
        );
        let fits = (1e3 * apart).floor();
        let smaller = Candidate::set(
            format!(
                "diameter of the feet {} → {fits:.0} mm",
                mm(feet.diameter.si)
            ),
            "feet.diameter",
            format!("{fits:.0} mm"),
        );
        Verdict::stop("The feet run into one another", cause)
            .measured(-1e3 * over, 0.0, "mm")
            .advice("take smaller feet, or set them further out")
            .at(feet.diameter.place)
            .mends((fits > 0.0).then_some(smaller))
    })
}

/// Least growth tried, in m.
const LEAST: f64 = 0.010;

/// Least inset of feet: half their diameter, so that they stay under the box.
fn outer_feet(feet: &Feet) -> Option<Candidate> {
    let least = (500.0 * feet.diameter.si).ceil();
    let now = 1e3 * feet.inset.si;
    (least + 0.5 < now).then(|| {
        let words = format!("inset of the feet {now:.0} → {least:.0} mm");
        Candidate::set(words, "feet.inset", format!("{least:.0} mm"))
    })
}

fn verdict(balance: &Balance) -> Verdict {
    let (angle, towards) = balance.tipping;
    let cause = format!(
        "Tilted by {} towards its {} it falls over; its weight acts {:.0} mm above its bottom.",
        degrees(angle),
        wall(towards),
        1e3 * balance.centre[2]
    );
    let measured = angle.to_degrees();
    let said = if measured < LIMITS.1 {
        Verdict::stop("The box falls over easily", cause)
    } else if measured < LIMITS.0 {
        Verdict::caution("The box falls over rather easily", cause)
    } else {
        let title = format!("{} stands firm", capital("the box"));
        return Verdict::good(title, cause).measured(measured, LIMITS.0, "°");
    };
    said.measured(measured, LIMITS.0, "°")
        .advice("put the battery lower, set the feet further out, or make the box wider or deeper")
}

#[cfg(test)]
mod tests {
    use super::super::probe::with;
    use super::*;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn feet_have_room_beside_one_another() {
        let feet = |diameter| {
            with(&[
                ("feet.count", "4"),
                ("feet.diameter", diameter),
                ("feet.height", "8 mm"),
                ("feet.inset", "25 mm"),
            ])
        };
        feet("30 mm").check(CHECK.id, &[Good]);
        let found = feet("300 mm").check(CHECK.id, &[Stop, Good]);
        assert!(
            found[0].title.contains("run into one another"),
            "{found:#?}"
        );
        assert_eq!(
            found[0].mend.as_ref().unwrap().edits[0].key,
            "feet.diameter"
        );
    }

    #[test]
    fn a_tilt_of_ten_degrees_must_not_fell_it() {
        let balance = |degrees: f64| Balance {
            weight: 6.0,
            centre: [0.2, 0.1, 0.15],
            level_handle: None,
            hang: None,
            tipping: (degrees.to_radians(), Wall::Front),
        };
        for (degrees, severity) in [(30.0, Good), (14.0, Caution), (9.0, Stop)] {
            assert_eq!(verdict(&balance(degrees)).severity, severity);
        }
    }
}
