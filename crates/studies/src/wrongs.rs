//! What is wrong with a design, and whether an edit makes it better.

use crate::check::{Said, Severity};

/// One thing that is wrong: what finds it, what it is about, how bad it is and by how much.
#[derive(Clone, Debug, PartialEq)]
struct Wrong {
    id: &'static str,
    about: String,
    severity: Severity,
    short: f64,
}

/// All that is wrong with a design.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Wrongs(Vec<Wrong>);

/// How much larger what a stop lacks may become before it counts as worse: rounding.
const WORSE: f64 = 1.01;

impl Wrongs {
    pub(crate) fn of(said: &[Said]) -> Self {
        let wrong = said
            .iter()
            .filter(|(_, verdict)| verdict.severity < Severity::Good);
        let each = wrong.flat_map(|(check, verdict)| {
            verdict.abouts().into_iter().map(|about| Wrong {
                id: check.id,
                about: about.key(),
                severity: verdict.severity,
                short: about.short,
            })
        });
        Self(each.collect())
    }

    /// Those of one check about one thing, as bad as `worst` or worse.
    fn alike<'a>(
        &'a self,
        id: &'a str,
        about: &'a str,
        worst: Severity,
    ) -> impl Iterator<Item = &'a Wrong> {
        let alike =
            move |wrong: &&Wrong| wrong.id == id && wrong.about == about && wrong.severity <= worst;
        self.0.iter().filter(alike)
    }

    fn count(&self, id: &str, about: &str, worst: Severity) -> usize {
        self.alike(id, about, worst).count()
    }

    /// What the worst of them lacks.
    fn short(&self, id: &str, about: &str) -> f64 {
        let stops = self.alike(id, about, Severity::Stop);
        stops.map(|wrong| wrong.short).fold(0.0, f64::max)
    }

    /// Whether anything of a goal is wrong here.
    pub(crate) fn have(&self, goal: &Goal) -> bool {
        let mut goals = goal.0.iter();
        goals.any(|(id, about)| self.count(id, about, Severity::Caution) > 0)
    }

    /// What is wrong here, as bad as `worst` or worse, that was not wrong before.
    fn added<'a>(
        &'a self,
        before: &'a Self,
        worst: Severity,
    ) -> impl Iterator<Item = &'static str> + 'a {
        let more = move |wrong: &&Wrong| {
            let count = |of: &Self| of.count(wrong.id, &wrong.about, worst);
            count(self) > count(before)
        };
        self.0.iter().filter(more).map(|wrong| wrong.id)
    }

    /// What some verdicts find that is not wrong here, worst first, each title once.
    pub(crate) fn beyond(&self, said: &[Said]) -> Vec<(Severity, String)> {
        let theirs = Self::of(said);
        let more = |id: &str, about: &str, severity| {
            theirs.count(id, about, severity) > self.count(id, about, severity)
        };
        let mut beyond: Vec<(Severity, String)> = said
            .iter()
            .filter(|(_, verdict)| verdict.severity < Severity::Good)
            .filter(|(check, verdict)| {
                let mut abouts = verdict.abouts().into_iter();
                abouts.any(|about| more(check.id, &about.key(), verdict.severity))
            })
            .map(|(_, verdict)| (verdict.severity, verdict.title.clone()))
            .collect();
        beyond.sort();
        beyond.dedup();
        beyond
    }

    /// Whether a stop that was there before now lacks more.
    fn worsened(&self, before: &Self) -> bool {
        let stops = self
            .0
            .iter()
            .filter(|wrong| wrong.severity == Severity::Stop);
        stops.into_iter().any(|wrong| {
            let was = before.count(wrong.id, &wrong.about, Severity::Stop) > 0;
            was && wrong.short > WORSE * before.short(wrong.id, &wrong.about) + 1e-9
        })
    }
}

/// What an edit is to clear: checks, and what each is about.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Goal(Vec<(&'static str, String)>);

impl Goal {
    pub(crate) fn of<'a>(said: impl IntoIterator<Item = &'a Said>) -> Self {
        let each = said.into_iter().flat_map(|(check, verdict)| {
            let abouts = verdict.abouts().into_iter();
            abouts.map(|about| (check.id, about.key()))
        });
        Self(each.collect())
    }

    /// Whether a check whose id begins so finds any of it.
    pub(crate) fn is_about(&self, prefix: &str) -> bool {
        self.0.iter().any(|(id, _)| id.starts_with(prefix))
    }

    /// Whether all of it is gone, or what there was several times has become less.
    fn is_reached(&self, before: &Wrongs, after: &Wrongs) -> bool {
        let mut goals = self.0.iter();
        goals.all(|(id, about)| {
            let count = |of: &Wrongs| of.count(id, about, Severity::Caution);
            // A finding that only drawn builds show is not there before or after on the
            // nominal one.
            count(after) < count(before).max(1)
        })
    }
}

/// How a trial went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Trial {
    /// The finding stays.
    Fails,
    /// The finding goes, but a stop comes or grows worse, or a wish of the brief is broken that
    /// was kept.
    Spoils,
    /// The finding goes, but another caution comes.
    Shifts,
    /// The finding goes and nothing comes.
    Clears,
}

impl Trial {
    /// Whether it may be offered.
    pub(crate) const fn helps(self) -> bool {
        matches!(self, Self::Shifts | Self::Clears)
    }

    pub(crate) fn judge(goal: &Goal, before: &Wrongs, after: &Wrongs) -> Self {
        let stops = after.added(before, Severity::Stop).count() > 0;
        let mut cautions = after.added(before, Severity::Caution).peekable();
        let shifts = cautions.peek().is_some();
        let spoils = stops || after.worsened(before) || cautions.any(is_wish);
        if !goal.is_reached(before, after) {
            Self::Fails
        } else if spoils {
            Self::Spoils
        } else if shifts {
            Self::Shifts
        } else {
            Self::Clears
        }
    }
}

/// Whether a check holds the design against a wish of the brief: a mend must
/// not break one wish for another.
fn is_wish(id: &str) -> bool {
    id.starts_with("brief-") || id == "box-size"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{self, Verdict};

    type Row<'a> = (&'static str, &'a str, Severity, f64);

    fn wrongs(rows: &[Row<'_>]) -> Wrongs {
        let wrong = |(id, about, severity, short): &Row<'_>| Wrong {
            id,
            about: (*about).into(),
            severity: *severity,
            short: *short,
        };
        Wrongs(rows.iter().map(wrong).collect())
    }

    fn judge(goal: &[(&'static str, &str)], before: &[Row<'_>], after: &[Row<'_>]) -> Trial {
        let goal = Goal(goal.iter().map(|(id, of)| (*id, (*of).into())).collect());
        Trial::judge(&goal, &wrongs(before), &wrongs(after))
    }

    use Severity::{Caution, Stop};
    use Trial::{Clears, Fails, Shifts, Spoils};

    #[test]
    fn a_mend_may_not_break_a_wish_nor_bring_a_stop() {
        let before = [("vent-fits", "", Caution, 0.0)];
        for (after, trial) in [
            (vec![], Clears),
            (vec![("vent-fits", "", Caution, 0.0)], Fails),
            (vec![("vent-speed", "", Caution, 0.0)], Shifts),
            (vec![("vent-speed", "", Stop, 0.0)], Spoils),
            (vec![("brief-low", "", Caution, 0.0)], Spoils),
        ] {
            assert_eq!(judge(&[("vent-fits", "")], &before, &after), trial);
        }
    }

    #[test]
    fn a_stop_about_something_else_is_another_stop() {
        let goal = [("parts-collide", "battery drivers.1.at.1")];
        let before = [("parts-collide", "battery drivers.1.at.1", Stop, 20.0)];
        let other = [("parts-collide", "battery control", Stop, 1.0)];
        assert_eq!(judge(&goal, &before, &other), Spoils);
        let both = [before[0], ("parts-collide", "brace.1 handle", Stop, 3.0)];
        assert_eq!(judge(&goal, &both, &both[1..]), Clears, "others may stay");
    }

    #[test]
    fn a_stop_that_stays_may_not_grow() {
        let goal = [("holes-clear", "control")];
        let with = |short| [("holes-clear", "drivers.1.at.1", Stop, short)];
        let before = [with(5.0)[0], ("holes-clear", "control", Stop, 2.0)];
        assert_eq!(judge(&goal, &before, &with(5.0)), Clears);
        assert_eq!(judge(&goal, &before, &with(4.0)), Clears);
        assert_eq!(judge(&goal, &before, &with(5.3)), Spoils);
    }

    #[test]
    fn a_caution_that_becomes_a_stop_is_a_new_stop() {
        let before = [
            ("open-time", "", Caution, 1.0),
            ("glue-line", "", Caution, 1.0),
        ];
        let after = [("glue-line", "", Stop, 1.0)];
        assert_eq!(judge(&[("open-time", "")], &before, &after), Spoils);
    }

    #[test]
    fn beyond_is_what_was_not_wrong_before_each_title_once() {
        let [fit, leak] = ["vent-fits", "leak"].map(|id| check::find(id).expect("a check"));
        let said = |severity, title: &str, about: &str| {
            (fit, Verdict::new(severity, title, "").about([about], 1.0))
        };
        let before = [said(Caution, "vent near the wall", "a")];
        let after = [
            (leak, Verdict::caution("leaks", "")),
            said(Stop, "vent too long", "a"),
            said(Stop, "vent too long", "b"),
            said(Severity::Good, "in order", "c"),
        ];
        let titles = |before: &[Said], after: &[Said]| Wrongs::of(before).beyond(after);
        let stop = (Stop, "vent too long".to_owned());
        let caution = (Caution, "leaks".to_owned());
        assert_eq!(titles(&before, &after), [stop, caution]);
        assert!(
            titles(&after, &before).is_empty(),
            "a stop is worse than the caution"
        );
        assert!(titles(&before, &before).is_empty());
    }

    #[test]
    fn a_finding_about_several_things_goes_only_with_all_of_them() {
        let goal = [("drivers-fit", "a"), ("drivers-fit", "b")];
        let before = [
            ("drivers-fit", "a", Stop, 9.0),
            ("drivers-fit", "b", Stop, 9.0),
        ];
        assert_eq!(judge(&goal, &before, &before[1..]), Fails);
        assert_eq!(judge(&goal, &before, &[]), Clears);
    }
}
