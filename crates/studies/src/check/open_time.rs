//! Open time of the glue against the joints of a step.

use super::{Check, Evidence, Verdict};
use crate::carpentry::GlueUp;

pub(super) const CHECK: Check = Check {
    id: "open-time",
    title: "Open time of the glue",
    what: "Whether the glue of every step of the glue-up can be spread and its joints closed before \
it skins over.",
    why: "White glue stays open for five to ten minutes, less on a warm day. A joint closed after that \
holds by its squeeze-out.",
    limits: "Time per joint and open time as the design says or as is usual; a dry rehearsal tells more. \
Nothing is known of the weather.",
    bad: "twelve joints at once at a minute each, open_time = \"8 min\"",
    good: "the ring today, front and braces tomorrow, the back last",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let place = evidence.design().glue.place;
    verdict(&carpentry.glue_up)
        .map(|said| said.at(place))
        .into_iter()
        .collect()
}

fn verdict(glue_up: &GlueUp) -> Option<Verdict> {
    let steps = glue_up.steps.iter();
    let longest = steps.max_by(|a, b| a.time.total_cmp(&b.time))?;
    let minutes = |seconds: f64| crate::words::stated(seconds / 60.0, "min");
    let joints = match longest.joints {
        1 => "1 joint".into(),
        count => format!("{count} joints"),
    };
    let cause = format!(
        "The longest step closes {joints} and takes {}; the glue stays open for {}.",
        minutes(longest.time),
        minutes(glue_up.open_time)
    );
    let (measured, limit) = (longest.time / 60.0, glue_up.open_time / 60.0);
    let said = if longest.time <= glue_up.open_time {
        Verdict::good("The glue stays open long enough", cause)
    } else {
        Verdict::caution("The glue skins over too soon", cause).advice(
            "glue in more steps, let a second pair of hands spread, or take a glue with a longer \
open time and say so under [glue]",
        )
    };
    Some(said.measured(measured, limit, "min"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::carpentry::GlueStep;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn the_longest_step_counts() {
        let glue_up = |time| GlueUp {
            steps: [240.0, time]
                .map(|time| GlueStep {
                    words: "the ring".into(),
                    joints: 4,
                    time,
                })
                .into(),
            area: 0.02,
            glue: 0.004,
            diagonal: 0.4,
            diagonal_within: 0.001,
            open_time: 480.0,
        };
        assert_eq!(verdict(&glue_up(300.0)).unwrap().severity, Good);
        assert_eq!(verdict(&glue_up(600.0)).unwrap().severity, Caution);
    }
}
