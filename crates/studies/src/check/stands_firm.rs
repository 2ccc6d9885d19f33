//! How far the box leans before it falls.

use super::timber::{capital, degrees, larger_along};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::Balance;
use crate::words::wall;
use design::Feet;
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "stands-firm",
    title: "Standing firm",
    what: "How far the box can be tilted before it falls over, from its weight, where the weight \
acts, and where its feet or edges stand.",
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
    vec![
        match feet {
            Some(feet) => verdict.at(feet.place),
            None => verdict,
        }
        .mends(mend)
        .ladder(larger_along(evidence, axis, LEAST)),
    ]
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
    use super::*;
    use crate::check::Severity::{Caution, Good, Stop};

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
