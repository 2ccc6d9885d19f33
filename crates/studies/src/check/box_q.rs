//! Total Q of a sealed box.

use super::resize::{self, Axis};
use super::{Candidate, Check, Evidence, Verdict, swap};
use crate::words::number;
use physics::math::db_amplitude;

pub(super) const CHECK: Check = Check {
    id: "box-q",
    title: "Total Q of a sealed box",
    what: "Whether the total Q of driver, box and amplifier lies where a sealed box sounds right.",
    why: "Too small a box, or a driver with a weak magnet, booms on one note; about 0.7 keeps the \
bass flat down to the resonance; below 0.5 the bass fades out early.",
    limits: "A matter of taste between 0.5 and 1.1. Filling, leaks and the resistance of cable and \
amplifier are counted; the face of the box and the room are not.",
    bad: "a coaxial out of a car, Qts 0.87, in two litres: Qtc 1.6, a hump of 4.5 dB",
    good: "Qtc 0.7",
    sources: &["small-1972", "common practice, no source"],
    run,
};

/// Range that sounds right to most: common practice, no source.
const RIGHT: (f64, f64) = (0.5, 1.1);

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    if evidence.vent().is_some() || evidence.radiator().is_some() {
        return Vec::new();
    }
    let q = evidence.outcome.closed_q;
    let numbers = format!(
        "Its total Q is {} at {}",
        number(q, ""),
        number(evidence.outcome.closed, "Hz")
    );
    let boomy = evidence.odds(|outcome| outcome.closed_q > RIGHT.1);
    let verdict = if q > RIGHT.1 {
        let cause = format!(
            "{numbers}: the bass is raised by {} around {}.",
            number(hump(q), "dB"),
            number(peak_at(evidence.outcome.closed, q), "Hz")
        );
        Verdict::caution("Sealed box booms", cause).measured(q, RIGHT.1, "")
    } else if boomy > 1.0 - evidence.good_odds() {
        let cause = format!(
            "{numbers}, but in {} of 100 builds it is above {}, where the bass booms.",
            crate::words::of_hundred(boomy),
            RIGHT.1
        );
        Verdict::caution("Sealed box may boom", cause).measured(q, RIGHT.1, "")
    } else if q < RIGHT.0 {
        let cause = format!("{numbers}: the bass fades out early, and a smaller box would do.");
        return vec![
            Verdict::caution("Sealed box sounds thin", cause)
                .measured(q, RIGHT.0, "")
                .advice(
                    "make the box smaller, take filling out, or vent it: this driver suits a vent",
                )
                .ladder(resize::smaller(evidence, Axis::Depth))
                .ladder(resize::smaller(evidence, Axis::Width)),
        ];
    } else {
        return vec![
            Verdict::good("Total Q is in order", format!("{numbers}.")).measured(q, RIGHT.1, ""),
        ];
    };
    vec![larger_or_deader(evidence, verdict)]
}

/// Peak of a second-order high-pass over its pass band in dB (`small-1972`).
fn hump(q: f64) -> f64 {
    let square = q * q;
    db_amplitude(square / (square - 0.25).sqrt())
}

/// Frequency of that peak (`small-1972`).
fn peak_at(resonance: f64, q: f64) -> f64 {
    resonance / (1.0 - 0.5 / (q * q)).sqrt()
}

fn larger_or_deader(evidence: &Evidence<'_>, verdict: Verdict) -> Verdict {
    let verdict = verdict
        .advice("make the box larger, fill it with fibre, or take a driver with a stronger magnet")
        .ladder(fuller(evidence))
        .ladders(resize::growth(evidence));
    let drivers = 0..evidence.design().drivers.len();
    verdict.mends(drivers.flat_map(|group| {
        let size = evidence.design().drivers[group]
            .part
            .size
            .map(|size| size.si);
        swap::drivers(evidence, group, |part| {
            part.size.map(|size| size.si) == size
        })
    }))
}

/// More and more filling, in steps of a fifth.
pub(super) fn fuller(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let now = evidence.build.enclosure.filling;
    (1..=5)
        .map(|fifths| 0.2 * f64::from(fifths))
        .filter(|share| *share > now + 0.05)
        .map(|share| {
            let words = format!("filling {:.0} → {:.0} %", 100.0 * now, 100.0 * share);
            Candidate::set(words, "box.filling", format!("{:.0} %", 100.0 * share))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{VENT, check, with};
    use super::*;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn hump_of_a_closed_box_by_the_published_relation() {
        // Table of the closed box (`small-1972`): Qtc 1 peaks 1.249 dB at √2 times the resonance.
        assert!((hump(1.0) - 1.249_4).abs() < 1e-3, "{}", hump(1.0));
        assert!((peak_at(50.0, 1.0) - 70.71).abs() < 0.01);
    }

    #[test]
    fn a_small_box_booms_and_a_large_one_is_thin() {
        check(CHECK.id, &[], &[Good]);
        with(VENT).check(CHECK.id, &[]);
        let coaxial = [
            ("drivers.1.part", "coaxial 4 in, 4 ohm"),
            ("box.outside", "300 x 200 x 160 mm"),
        ];
        let found = check(CHECK.id, &coaxial, &[Caution]);
        assert_eq!(found[0].title, "Sealed box booms");
        assert!(found[0].mend.is_some(), "{found:#?}");
        let strong = [
            ("drivers.1.part", "woofer 5.25 in, 8 ohm"),
            ("box.outside", "420 x 260 x 240 mm"),
            ("box.filling", "100 %"),
        ];
        let found = with(&strong).findings(CHECK.id);
        assert!(found[0].measured.unwrap() < 0.8, "{found:#?}");
    }

    #[test]
    fn odds_count_where_the_nominal_box_is_in_order() {
        let near = [
            ("drivers.1.part", "salvaged full-range 4 in, unknown"),
            ("box.outside", "300 x 200 x 150 mm"),
        ];
        with(&near).builds(200).check(CHECK.id, &[Caution]);
    }
}
