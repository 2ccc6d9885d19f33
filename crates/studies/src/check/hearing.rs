//! How long ears bear it.

use super::{Check, Evidence, Verdict, variant};
use crate::words::number;
use physics::level::exposure::{listening_hours_per_week, sensitive_hours_per_week};

pub(super) const CHECK: Check = Check {
    id: "hearing",
    title: "Hearing",
    what: "How many hours a week ears bear the brief's loudness, where the listeners are and at a \
metre from the box.",
    why: "Hearing lost to loud music does not come back, and it is lost without pain. Whoever turns \
the knob, and children, stand closest.",
    limits: "Weekly allowance of the World Health Organization and ITU: 40 h at 80 dB(A) for adults, \
40 h at 75 dB(A) for children, half the hours for every 3 dB more; all other noise of the week counts \
against it as well. Rules for work and public events are stricter in places and come first.",
    bad: "95 dB(A) at the listeners for an evening: an hour and a quarter is the allowance of a week",
    good: "75 dB(A) at the listeners",
    sources: &["itu-h870"],
    run,
};

/// A-weighted level whose weekly allowance is a working week, in dB.
const WORKING_WEEK: f64 = 80.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    if evidence.trial {
        return Vec::new();
    }
    let outcome = evidence.outcome;
    let brief = &evidence.design().brief;
    let asked = brief.loudness.map_or(f64::INFINITY, |wanted| {
        let weighting = if wanted.a_weighted {
            0.0
        } else {
            outcome.loud_a - outcome.loud
        };
        wanted.level.si + weighting
    });
    let wanted = asked.min(outcome.loud_a);
    let level = if asked > outcome.loud_a {
        "as loud as it can".into()
    } else {
        evidence.at_level()
    };
    let distance = brief.distance.si;
    let closer = level_at(evidence, NEAR) - level_at(evidence, distance);
    let line = |place: &str, level: f64| {
        format!(
            "{place} {} can be borne for {} a week by adults and {} by children",
            number(level, "dB(A)"),
            hours(listening_hours_per_week(level)),
            hours(sensitive_hours_per_week(level))
        )
    };
    let there = format!("Playing {level}, at {},", number(distance, "m"));
    let mut lines = vec![line(&there, wanted)];
    if distance > NEAR {
        lines.push(line("at 1 m,", wanted + closer));
    }
    lines.push(line("fully up at 1 m,", outcome.loud_a + closer));
    let cause = format!("{}.", lines.join("; "));
    let verdict = if wanted > WORKING_WEEK {
        Verdict::caution("Loud enough to harm hearing", cause)
            .advice("keep the hours short, and children and whoever turns the knob at a distance")
    } else {
        Verdict::good("Listeners' hearing is safe at this loudness", cause)
    };
    vec![verdict.measured(wanted, WORKING_WEEK, "dB(A)")]
}

/// Where whoever turns the knob stands, in m.
const NEAR: f64 = 1.0;

/// The loudest A-weighted level at a distance.
fn level_at(evidence: &Evidence<'_>, distance: f64) -> f64 {
    let outcome = variant::outcome_with(evidence, |design| design.brief.distance.si = distance);
    outcome.map_or(evidence.outcome.loud_a, |outcome| outcome.loud_a)
}

/// Hours as anyone says them: minutes below two hours, and no more than a week has.
fn hours(hours: f64) -> String {
    match hours {
        _ if hours >= WEEK => "all hours".into(),
        _ if hours >= 10.0 => format!("{hours:.0} h"),
        _ if hours >= 2.0 => format!("{hours:.1} h"),
        _ => format!("{:.0} min", 60.0 * hours),
    }
}

/// Hours of a week.
const WEEK: f64 = 168.0;

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn hours_follow_the_weekly_allowance() {
        check(CHECK.id, &[], &[Good]);
        // Asked for in dB(A), so that the allowance can be read off: 89 dB(A), 5.04 h (`itu-h870`).
        let loud = [("brief.loudness", "89 dB(A)"), ("brief.distance", "1 m")];
        let found = check(CHECK.id, &loud, &[Caution]);
        assert!(
            found[0].cause.contains("5.0 h a week"),
            "{}",
            found[0].cause
        );
        assert!(found[0].cause.contains("96 min"), "{}", found[0].cause);
    }
}
