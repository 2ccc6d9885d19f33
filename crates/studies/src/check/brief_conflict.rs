//! When the brief asks for more than these parts give: which wish must yield.

use super::variant::{self, least_that, times};
use super::{Check, Evidence, Verdict};
use crate::report::Promise;
use crate::words::number;
use design::{EnclosureSize, Size};

pub(super) const CHECK: Check = Check {
    id: "brief-conflict",
    title: "Which wish must yield",
    what: "Where a wish is missed and no single change within the brief heals it: what the others \
would have to give for it.",
    why: "Loudness, depth, hours, size, weight and money are fixed together or not at all. It is \
cheaper to choose between them on paper.",
    limits: "One wish at a time yields to one other, all else as designed; the nominal build.",
    bad: "50 Hz, 95 dB at 10 m, 20 h, 3 kg and 60 €",
    good: "a brief that leaves one wish open",
    sources: &["small-1972", "common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    if evidence.trial {
        return Vec::new();
    }
    let missed = evidence.promises.iter().filter(|promise| !promise.kept());
    missed
        .filter_map(|promise| {
            let (check, wish) = named(promise.id)?;
            let value = number(promise.value, &promise.unit);
            let mark = number(promise.target?, &promise.unit);
            let prices = prices(evidence, promise);
            let mut cause = format!(
                "With these parts, {wish} must yield from {mark} to {value}, all else as asked."
            );
            cause += &match prices.as_slice() {
                [] => " No other wish can give enough for it; other parts might.".into(),
                prices => format!(" To keep it, {}.", prices.join("; or ")),
            };
            let title = format!("The brief asks for too much together: {wish}");
            Some(Verdict::caution(title, cause).unless_mended(check))
        })
        .collect()
}

fn named(promise: &str) -> Option<(&'static str, &'static str)> {
    Some(match promise {
        "low" => ("brief-low", "the lowest frequency"),
        "loud" => ("brief-loud", "the loudness"),
        "long" => ("brief-long", "the playing time"),
        "light" => ("brief-light", "the weight"),
        "cost" => ("brief-cost", "the cost"),
        _ => return None,
    })
}

/// What other wishes would have to give for a promise to be kept.
fn prices(evidence: &Evidence<'_>, promise: &Promise) -> Vec<String> {
    let Some(target) = promise.target else {
        return Vec::new();
    };
    let found = match promise.id {
        "low" => vec![volume(evidence, target)],
        "loud" => vec![distance(evidence, target)],
        "long" => vec![quieter(evidence, target), capacity(evidence, target)],
        _ => Vec::new(),
    };
    found.into_iter().flatten().collect()
}

/// Growth of a box beyond which nobody would follow.
const MOST_GROWTH: f64 = 6.0;

/// The air it takes for the wanted lowest frequency.
fn volume(evidence: &Evidence<'_>, target: f64) -> Option<String> {
    let grown = |by: f64| {
        variant::outcome_with(evidence, |design| {
            let (EnclosureSize::Outside(size) | EnclosureSize::Inside(size)) =
                &mut design.enclosure.size;
            *size = scaled(*size, physics::math::pow(by, 1.0 / 3.0));
        })
    };
    let by = least_that(1.0, MOST_GROWTH, |by| {
        grown(by).is_some_and(|outcome| outcome.low <= target)
    })?;
    let then = grown(by)?;
    let now = evidence.outcome;
    Some(format!(
        "the box would have to hold {} of air instead of {}, and would weigh {}",
        number(1e3 * then.net, "L"),
        number(1e3 * now.net, "L"),
        number(then.weight, "kg")
    ))
}

fn scaled(size: Size, by: f64) -> Size {
    Size {
        width: times(size.width, by),
        height: times(size.height, by),
        depth: times(size.depth, by),
        place: size.place,
    }
}

/// The distance at which the wanted loudness is reached.
fn distance(evidence: &Evidence<'_>, target: f64) -> Option<String> {
    let wanted = evidence.design().brief.loudness?;
    let now = evidence.design().brief.distance.si;
    let loud_at = |distance: f64| {
        let outcome = variant::outcome_with(evidence, |design| {
            design.brief.distance.si = distance;
        });
        let level = |o: crate::outcome::Outcome| {
            if wanted.a_weighted { o.loud_a } else { o.loud }
        };
        outcome.is_some_and(|outcome| level(outcome) >= target)
    };
    let near = least_that(now, now / NEAREST, loud_at)?;
    Some(format!(
        "listeners would have to come from {} to {}",
        number(now, "m"),
        number(near, "m")
    ))
}

/// How much closer listeners might come.
const NEAREST: f64 = 16.0;

/// The loudness that can be held for the wanted hours.
fn quieter(evidence: &Evidence<'_>, hours: f64) -> Option<String> {
    let wanted = evidence.design().brief.loudness?;
    let lasts_at = |level: f64| {
        let outcome = variant::outcome_with(evidence, |design| {
            if let Some(loudness) = &mut design.brief.loudness {
                loudness.level.si = level;
            }
        });
        outcome.is_some_and(|outcome| outcome.runtime >= 3600.0 * hours)
    };
    let now = wanted.level.si;
    let level = least_that(now, now - QUIETER, lasts_at)?;
    let unit = if wanted.a_weighted { "dB(A)" } else { "dB" };
    Some(format!(
        "the loudness would have to yield from {} to {}",
        number(now, unit),
        number(level, unit)
    ))
}

/// How many dB quieter anyone would go: a tenth of the loudness, as it is heard.
const QUIETER: f64 = 30.0;

/// The capacity it takes for the wanted hours.
fn capacity(evidence: &Evidence<'_>, hours: f64) -> Option<String> {
    let lasts_with = |by: f64| {
        let outcome = variant::outcome_with(evidence, |design| {
            let capacity = &mut design.battery.part.capacity;
            *capacity = times(*capacity, by);
        });
        outcome.is_some_and(|outcome| outcome.runtime >= 3600.0 * hours)
    };
    let by = least_that(1.0, MOST_CAPACITY, lasts_with)?;
    let used = &evidence.design().battery;
    let now = used.part.capacity.si / 3600.0 * f64::from(used.count);
    let weight = used.part.common.weight.map(|weight| {
        let more = weight.si * f64::from(used.count) * (by - 1.0);
        format!(", some {} more to carry", number(more, "kg"))
    });
    Some(format!(
        "the battery would have to hold {} instead of {}{}",
        number(by * now, "Ah"),
        number(now, "Ah"),
        weight.unwrap_or_default()
    ))
}

/// Times the capacity beyond which nobody would carry it.
const MOST_CAPACITY: f64 = 20.0;

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::Caution;

    #[test]
    fn what_would_have_to_give() {
        check(CHECK.id, &[], &[]);
        let deep = [
            ("box.outside", "300 x 200 x 160 mm"),
            ("brief.largest", "300 x 200 x 160 mm"),
            ("brief.lowest", "79 Hz"),
            ("brief.cost", "140 €"),
        ];
        let deep = check(CHECK.id, &deep, &[Caution]);
        assert!(deep[0].cause.contains("would have to hold"), "{deep:#?}");
        let deeper = check(CHECK.id, &[("brief.lowest", "20 Hz")], &[Caution]);
        assert!(deeper[0].cause.contains("No other wish"), "{deeper:#?}");
        let loud = check(CHECK.id, &[("brief.loudness", "104 dB")], &[Caution]);
        assert!(
            loud[0]
                .cause
                .contains("listeners would have to come from 2.00 m to"),
            "{loud:#?}"
        );
        let long = check(CHECK.id, &[("brief.runtime", "400 h")], &[Caution]);
        assert!(
            long[0].cause.contains("the battery would have to hold"),
            "{long:#?}"
        );
    }

    #[test]
    fn the_numbers_hold_when_tried() {
        let loud = check(CHECK.id, &[("brief.loudness", "104 dB")], &[Caution]);
        let (_, near) = loud[0].cause.rsplit_once(" to ").unwrap();
        let near = near.trim_end_matches('.');
        let closer = with(&[("brief.loudness", "104 dB"), ("brief.distance", near)]);
        let found = closer.findings("brief-loud");
        let (level, wanted) = (found[0].measured.unwrap(), found[0].limit.unwrap());
        assert!((level - wanted).abs() < 0.1, "{level} {wanted}");
    }
}
