//! Whether a mitred ring closes.

use super::timber::mm;
use super::{Check, Evidence, Verdict};
use crate::carpentry::RingBudget;
use crate::words::of_hundred;

pub(super) const CHECK: Check = Check {
    id: "ring-closes",
    title: "Closing of the mitred ring",
    what: "How many of a hundred rings sawn with this saw close at the last mitre within the gap \
that the glue fills.",
    why: "The errors of eight cuts add up in the last corner: a quarter of a degree on each opens it by \
two degrees, 5 mm over 150 mm.",
    limits: "A caution below 80 of 100. Most of the angle's error is the blade's setting, which all \
eight cuts share; the rest, and the error of lengths, each cut has for itself. A strap pulls the \
ring together and shares what is left among its corners. It leaves the glue under strain.",
    bad: "angle_error = \"1°\", glue that fills 0.1 mm",
    good: "a saw set against a test ring of four offcuts, angle_error = \"0.05°\"",
    sources: &["common practice, no source"],
    run,
};

/// Share of rings that should close.
const LIMIT: f64 = 0.80;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let ring = evidence.carpentry.and_then(|wood| wood.ring.as_ref());
    let place = evidence.design().saw.place;
    ring.map(|ring| verdict(ring).at(place))
        .into_iter()
        .collect()
}

fn verdict(ring: &RingBudget) -> Verdict {
    let cause = format!(
        "With angles within {} and lengths within {}, {} of 100 rings close within the {} that the \
glue fills; nine of ten stay below {}.",
        degrees(ring.angle_error),
        hundredths(ring.length_error),
        of_hundred(ring.odds),
        hundredths(ring.glue_gap),
        hundredths(ring.p90_gap)
    );
    let measured = (100.0 * ring.odds).round();
    if ring.odds >= LIMIT {
        return Verdict::good("The mitred ring closes", cause).measured(
            measured,
            100.0 * LIMIT,
            "of 100",
        );
    }
    let advice = format!(
        "keep every cut within {} of its angle, and try the blade first: four mitred offcuts {} \
long, three corners held tight, must close within {} at the fourth; or plane the last mitre to fit \
before gluing",
        degrees(ring.wanted_angle),
        mm(ring.test_length),
        mm(ring.test_gap)
    );
    Verdict::caution("The mitred ring may not close", cause)
        .measured(measured, 100.0 * LIMIT, "of 100")
        .advice(advice)
}

/// Angles of saws and gaps of glue differ by hundredths.
fn degrees(angle: f64) -> String {
    format!("{:.2}°", angle.to_degrees())
}

fn hundredths(length: f64) -> String {
    format!("{:.2} mm", 1e3 * length)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn most_rings_must_close() {
        let ring = |odds| RingBudget {
            angle_error: 0.25_f64.to_radians(),
            length_error: 0.0003,
            worst_gap: 0.006,
            median_gap: 0.001,
            p90_gap: 0.0025,
            glue_gap: 0.0003,
            odds,
            wanted_angle: 0.04_f64.to_radians(),
            test_length: 0.15,
            test_gap: 0.0004,
        };
        assert_eq!(verdict(&ring(0.93)).severity, Good);
        let found = verdict(&ring(0.2));
        assert_eq!(found.severity, Caution);
        let advice = found.advice.unwrap();
        assert!(
            advice.contains("0.04°") && advice.contains("150 mm"),
            "{advice}"
        );
    }
}
