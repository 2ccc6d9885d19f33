//! The fuse close to the battery.

use super::{Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "fuse-near",
    title: "The fuse is near the battery",
    what: "How long the wire between battery and fuse is, along its way in the box.",
    why: "That piece alone is not protected. The shorter it is, the less can chafe through it.",
    limits: "At most 0.3 m, or 0.6 m where a protection board inside the battery ends a short \
circuit as well; never above 1 m. Common practice.",
    bad: "the fuse in a panel at the far end of a long box",
    good: "a holder in the wire, a hand's breadth from the battery",
    sources: &["common practice, no source"],
    run,
};

/// Longest wire before the fuse in m: plain, behind a protection board, and in any case.
const REACH: [f64; 3] = [0.3, 0.6, 1.0];

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let Some(fuse) = electrics
        .fuse
        .as_ref()
        .filter(|fuse| fuse.reach.is_finite())
    else {
        return Vec::new();
    };
    let protected = evidence.design().battery.part.protection_current.is_some();
    let limit = if protected { REACH[1] } else { REACH[0] };
    let length = |value: f64| number(1e3 * value, "mm");
    let cause = format!(
        "The wire from the battery to the fuse is {} long; at most {} is right here.",
        length(fuse.reach),
        length(limit)
    );
    let verdict = if fuse.reach > REACH[2] {
        Verdict::stop("Fuse far from the battery", cause)
    } else if fuse.reach > limit {
        Verdict::caution("Fuse far from the battery", cause)
    } else {
        Verdict::good("Fuse is near the battery", cause)
    };
    vec![
        verdict
            .measured(1e3 * fuse.reach, 1e3 * limit, "mm")
            .advice("put a holder into the wire close to the battery")
            .at(electrics.parts[fuse.part].place),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn the_length_decides() {
        check(CHECK.id, &[], &[Good]);
        for (length, severity) in [("0.2 m", Good), ("0.8 m", Caution), ("1.2 m", Stop)] {
            let keys = [
                ("wiring.wire.1.from", "battery +"),
                ("wiring.wire.1.to", "fuse 1"),
                ("wiring.wire.1.length", length),
            ];
            with(&keys).check(CHECK.id, &[severity]);
        }
    }
}
