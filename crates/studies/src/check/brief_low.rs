//! How low it plays against the brief.

use super::wish::{self, Wish};
use super::{Check, Evidence, Severity, Verdict, box_q, resize, swap, tune};

pub(super) const CHECK: Check = Check {
    id: "brief-low",
    title: "How low, against the brief",
    what: "Whether the box plays down to the lowest frequency the brief asks for, and in how many \
builds of a hundred.",
    why: "Depth, size and loudness are fixed together: small boxes play low only quietly.",
    limits: "The frequency at which the box's own roll-off has lost 6 dB; face, place and room come \
on top. Kept means in eight builds of ten.",
    bad: "lowest = \"50 Hz\" from two 4 in drivers in four litres",
    good: "lowest = \"90 Hz\" from the same",
    sources: &["small-1972", "small-1973"],
    run,
};

const WISH: Wish = Wish {
    promise: "low",
    kept: "Plays low enough",
    missed: "Does not play low enough",
    does: "plays down to",
    much: 1.3,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(mut verdict) = wish::verdict(evidence, &WISH) else {
        return Vec::new();
    };
    if verdict.severity == Severity::Good {
        return vec![verdict];
    }
    verdict = verdict
        .advice("make the box larger, vent it, or take drivers with a lower resonance")
        .ladder(tune::lower(evidence))
        .ladder(box_q::fuller(evidence))
        .ladders(resize::growth(evidence));
    let drivers = 0..evidence.design().drivers.len();
    vec![
        verdict
            .mends(tune::vented(evidence))
            .mends(drivers.flat_map(|group| lower_drivers(evidence, group)))
            .mends(tune::radiators(evidence)),
    ]
}

fn lower_drivers(evidence: &Evidence<'_>, group: usize) -> Vec<super::Candidate> {
    let now = evidence.build.drivers[group].fs();
    swap::drivers(evidence, group, |part| {
        part.fs.is_some_and(|fs| fs.si < now)
    })
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn odds_and_distance_from_the_mark_decide() {
        check(CHECK.id, &[], &[Good]);
        let value = check(CHECK.id, &[], &[Good])[0].measured.unwrap();
        let mark = |by: f64| format!("{:.2} Hz", by * value);
        // Kept on paper by a hair is kept by about half of the builds.
        let hair = mark(1.001);
        let found = with(&[("brief.lowest", &hair)])
            .builds(200)
            .check(CHECK.id, &[Caution]);
        assert!(found[0].title.contains("not surely"), "{found:#?}");
        with(&[("brief.lowest", &hair)]).check(CHECK.id, &[Good]);
        with(&[("brief.lowest", &mark(0.95))]).check(CHECK.id, &[Caution]);
        with(&[("brief.lowest", &mark(0.5))])
            .builds(100)
            .check(CHECK.id, &[Stop]);
    }

    #[test]
    fn a_wish_that_is_absent_is_not_held_against_the_box() {
        with(&[]).without("brief.lowest").check(CHECK.id, &[]);
    }

    #[test]
    fn the_box_grows_within_the_largest_size() {
        let smaller = [
            ("box.outside", "360 x 230 x 180 mm"),
            ("box.filling", "0 %"),
        ];
        let low = with(&smaller).check(CHECK.id, &[Good])[0].measured.unwrap();
        let wish = format!("{:.1} Hz", 0.97 * low);
        let found = with(&smaller)
            .with(&[("brief.lowest", &wish)])
            .check(CHECK.id, &[Caution]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }
}
