//! Mends: edits that are offered only after the studies were run again with
//! them, the finding was gone, no new stop had come, and no wish of the brief
//! that was kept before was broken.

use crate::carpentry::{self, Carpentry};
use crate::check::{self, Brought, Candidate, Edit, Evidence, Finding, Mend, Said, Severity};
use crate::follow::{self, Group};
use crate::maker_units::restated;
use crate::money::Need;
use crate::odds::Drawn;
use crate::outcome::{Bench, Studied};
use crate::report::{self, Promise};
use crate::run::paid;
use crate::sound::{Ceiling, Grid};
use crate::subject::Subject;
use crate::texts::Texts;
use crate::vary::Draw;
use crate::wrongs::{Goal, Trial, Wrongs};
use design::{Diagnostic, EditError};
use rayon::prelude::*;
use std::sync::OnceLock;

/// Candidates tried for one finding at most.
const MOST_TRIES: usize = 40;

/// Candidates tried at most after one that clears the finding at the price of a caution.
const MOST_BETTER: usize = 4;

/// Drawn builds a candidate is tried on that clears the finding of the nominal build.
const TRIAL_BUILDS: usize = 100;

/// Makes edits to the text of a design; comments and every other byte stay.
///
/// # Errors
/// The first edit that cannot be made.
pub fn apply(design: &str, edits: &[Edit]) -> Result<String, EditError> {
    edits.iter().try_fold(design.to_owned(), |text, edit| {
        let path = edit.path();
        match &edit.value {
            Some(value) => design::set_value(&text, &path, value),
            None => design::remove_value(&text, &path),
        }
    })
}

/// All findings of a design, worst first, with their mends tried where that is wanted.
/// `progress` hears of every trial.
pub(crate) fn findings(
    texts: Texts<'_>,
    evidence: &Evidence<'_>,
    mending: bool,
    progress: &(dyn Fn(usize) + Sync),
) -> Vec<Finding> {
    let said = said(evidence);
    let groups = follow::groups(&said);
    let mends: Vec<Option<Mend>> = if mending {
        let trials = Trials::new(texts, evidence, &said, progress);
        let mend = |group: &Group| trials.mend(&said, group);
        groups.par_iter().map(mend).collect()
    } else {
        vec![None; groups.len()]
    };
    let mended = |id: &str| {
        let mut own = groups
            .iter()
            .zip(&mends)
            .filter(|(group, _)| said[group.lead].0.id == id);
        own.all(|(_, mend)| mend.is_some())
    };
    let mut findings: Vec<Finding> = groups
        .iter()
        .zip(&mends)
        .filter(|(group, _)| !said[group.lead].1.unless_mended.is_some_and(mended))
        .map(|(group, mend)| finding(&said, group, mend.clone()))
        .collect();
    findings.sort_by_key(|finding| finding.severity);
    number(&mut findings);
    findings
}

fn finding(said: &[Said], group: &Group, mend: Option<Mend>) -> Finding {
    let (check, verdict) = &said[group.lead];
    let brought = |index: &usize| {
        let (check, verdict) = &said[*index];
        Brought {
            id: check.id,
            severity: verdict.severity,
            title: verdict.title.clone(),
            cause: verdict.cause.clone(),
            about: verdict.keys(),
        }
    };
    Finding {
        id: check.id,
        name: check.id.into(),
        severity: verdict.severity,
        title: verdict.title.clone(),
        cause: verdict.cause.clone(),
        advice: verdict.advice.clone(),
        mend,
        measured: verdict.measured,
        limit: verdict.limit,
        unit: verdict.unit,
        source: check.sources,
        place: verdict.place,
        about: verdict.keys(),
        brings: group.brings.iter().map(brought).collect(),
    }
}

/// Numbers the findings of every check that finds fault more than once.
fn number(findings: &mut [Finding]) {
    let ids: Vec<&str> = findings
        .iter()
        .filter(|finding| finding.severity < Severity::Good)
        .map(|finding| finding.id)
        .collect();
    let alike = |id: &str, until: usize| ids[..until].iter().filter(|other| **other == id).count();
    let wrong = findings
        .iter_mut()
        .filter(|finding| finding.severity < Severity::Good);
    for (index, finding) in wrong.enumerate() {
        if alike(finding.id, ids.len()) > 1 {
            finding.name = format!("{}.{}", finding.id, alike(finding.id, index) + 1);
        }
    }
}

/// What every check says.
pub(crate) fn said(evidence: &Evidence<'_>) -> Vec<Said> {
    check::ALL
        .iter()
        .flat_map(|check| {
            (check.run)(evidence)
                .into_iter()
                .map(move |verdict| (*check, verdict))
        })
        .collect()
}

/// What candidates are held against.
struct Trials<'a> {
    texts: Texts<'a>,
    subject: &'a Subject,
    carpentry: Option<&'a Carpentry>,
    builds: usize,
    /// Hears of every trial.
    progress: &'a (dyn Fn(usize) + Sync),
    /// The unedited design without its low-battery indicator, whose search takes longest.
    unlit: Before,
    /// The same with it, for what is found about it.
    lit: OnceLock<Before>,
}

/// What is wrong with the unedited design.
#[derive(Default)]
struct Before {
    /// But for its wood: its nominal build on the coarse grid.
    plain: Wrongs,
    /// The same with its wood.
    quick: Wrongs,
    /// The same on the fine grid with drawn builds.
    thorough: Wrongs,
}

impl Before {
    fn new(
        subject: &Subject,
        carpentry: Option<&Carpentry>,
        builds: usize,
        indicator: Indicator,
    ) -> Self {
        let wrongs = |carpentry, grid, builds| {
            Wrongs::of(&tried(subject, carpentry, grid, builds, indicator))
        };
        Self {
            plain: wrongs(None, Grid::coarse(), 0),
            quick: wrongs(carpentry, Grid::coarse(), 0),
            thorough: wrongs(carpentry, Grid::fine(), builds),
        }
    }
}

/// Whether the low-battery indicator of a subject that is tried is designed as well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Indicator {
    /// Its checks say what they find.
    Designed,
    /// Its checks say nothing.
    LeftOut,
}

impl<'a> Trials<'a> {
    fn new(
        texts: Texts<'a>,
        evidence: &Evidence<'a>,
        said: &[Said],
        progress: &'a (dyn Fn(usize) + Sync),
    ) -> Self {
        let builds = evidence.drawn.outcomes.len().min(TRIAL_BUILDS);
        let mendable = said.iter().any(|(_, verdict)| !verdict.ladders.is_empty());
        let Evidence {
            subject, carpentry, ..
        } = *evidence;
        let unlit = if mendable {
            Before::new(subject, carpentry, builds, Indicator::LeftOut)
        } else {
            Before::default()
        };
        Self {
            texts,
            subject,
            carpentry,
            builds,
            progress,
            unlit,
            lit: OnceLock::new(),
        }
    }

    fn before(&self, indicator: Indicator) -> &Before {
        match indicator {
            Indicator::LeftOut => &self.unlit,
            Indicator::Designed => self
                .lit
                .get_or_init(|| Before::new(self.subject, self.carpentry, self.builds, indicator)),
        }
    }

    /// The first candidate that clears a finding with all that it brings; failing that, one
    /// that clears the finding alone.
    fn mend(&self, said: &[Said], group: &Group) -> Option<Mend> {
        let (_, verdict) = &said[group.lead];
        if verdict.severity == Severity::Good {
            return None;
        }
        let restated = |candidate: &Candidate| restated(self.texts.design, candidate);
        let ladders = verdict.ladders.iter();
        let ladders: Vec<Vec<Candidate>> = ladders
            .map(|ladder| ladder.iter().map(restated).collect())
            .collect();
        let whole = Goal::of(group.all().map(|index| &said[index]));
        let found = self.search(&whole, &ladders);
        if found.is_some() || group.brings.is_empty() {
            return found;
        }
        self.search(&Goal::of([&said[group.lead]]), &ladders)
    }

    /// The first candidate that reaches a goal; failing that, the first that does at the
    /// price of another caution.
    fn search(&self, goal: &Goal, ladders: &[Vec<Candidate>]) -> Option<Mend> {
        let mut tries = 0;
        let mut most = MOST_TRIES;
        let mut second = None;
        for ladder in ladders {
            match self.climb(goal, ladder, &mut tries) {
                Some((candidate, Trial::Clears)) => return Some(mend(candidate)),
                Some((candidate, _)) if second.is_none() => {
                    second = Some(candidate);
                    most = most.min(tries + MOST_BETTER);
                }
                _ => {}
            }
            if tries >= most {
                break;
            }
        }
        second.map(mend)
    }

    /// The lowest rung found that reaches a goal, by halving.
    fn climb<'c>(
        &self,
        goal: &Goal,
        ladder: &'c [Candidate],
        tries: &mut usize,
    ) -> Option<(&'c Candidate, Trial)> {
        let (rung, trial) = lowest(ladder.len(), |rung| {
            *tries += 1;
            self.attempt(goal, &ladder[rung])
        })?;
        Some((&ladder[rung], trial))
    }

    /// Runs the studies with a candidate's edits: quickly, and where that goes
    /// well on the fine grid and on drawn builds.
    fn attempt(&self, goal: &Goal, candidate: &Candidate) -> Trial {
        (self.progress)(0);
        let Ok(subject) = edited(self.texts, self.subject, &candidate.edits) else {
            return Trial::Fails;
        };
        let indicator = if goal.is_about("indicator-") {
            Indicator::Designed
        } else {
            Indicator::LeftOut
        };
        let before = self.before(indicator);
        let study = |carpentry, grid, builds| {
            Wrongs::of(&tried(&subject, carpentry, grid, builds, indicator))
        };
        // How it goes with a finding that is not about wood, before the wood is worked out anew.
        if before.plain.have(goal) {
            let plain = Trial::judge(goal, &before.plain, &study(None, Grid::coarse(), 0));
            if !plain.helps() {
                return plain;
            }
        }
        let carpentry = Some(&carpentry::study(&subject));
        let quick = Trial::judge(goal, &before.quick, &study(carpentry, Grid::coarse(), 0));
        if !quick.helps() {
            return quick;
        }
        let thorough = study(carpentry, Grid::fine(), self.builds);
        Trial::judge(goal, &before.thorough, &thorough)
    }
}

/// A variant of a design with some edits, made ready; what keeps it from being studied otherwise.
pub(crate) fn edited(
    texts: Texts<'_>,
    subject: &Subject,
    edits: &[Edit],
) -> Result<Subject, String> {
    let said = |errors: Vec<Diagnostic>| {
        let said: Vec<String> = errors.into_iter().map(|error| error.message).collect();
        said.join(" ")
    };
    let edited = apply(texts.design, edits).map_err(|error| error.to_string())?;
    let project = design::read(&edited, texts.shelf).map_err(said)?;
    subject.variant(project).map_err(said)
}

/// The lowest of so many rungs found to help, by halving: none where the last leaves the finding
/// as it is, for then none below does better. Where the last goes too far, those below may not.
fn lowest(rungs: usize, mut attempt: impl FnMut(usize) -> Trial) -> Option<(usize, Trial)> {
    let last = rungs.checked_sub(1)?;
    let top = attempt(last);
    if top == Trial::Fails {
        return None;
    }
    let mut best = top.helps().then_some((last, top));
    let (mut from, mut to) = (0, last);
    while from < to {
        let middle = usize::midpoint(from, to);
        let trial = attempt(middle);
        if trial.helps() {
            (best, to) = (Some((middle, trial)), middle);
        } else if trial == Trial::Spoils && best.is_none() {
            to = middle;
        } else {
            from = middle + 1;
        }
    }
    best
}

fn mend(candidate: &Candidate) -> Mend {
    Mend {
        words: candidate.words.clone(),
        edits: candidate.edits.clone(),
    }
}

/// What the checks say about a subject on one grid, with so many drawn builds.
fn tried(
    subject: &Subject,
    carpentry: Option<&Carpentry>,
    grid: Grid,
    builds: usize,
    indicator: Indicator,
) -> Vec<Said> {
    held(subject, carpentry, grid, builds, indicator, said)
}

/// Looks at a subject that is only tried, on one grid, with so many drawn builds.
pub(crate) fn held<T>(
    subject: &Subject,
    carpentry: Option<&Carpentry>,
    grid: Grid,
    builds: usize,
    indicator: Indicator,
    look: impl FnOnce(&Evidence<'_>) -> T,
) -> T {
    let mut bench = Bench::new(subject, grid);
    let studied = bench.study(subject.build(&Draw::Nominal));
    let drawn = if builds > 0 {
        let coarse = Bench::new(subject, Grid::coarse());
        Drawn::run(subject, &coarse, builds, &|_| {})
    } else {
        Drawn::none()
    };
    let promises = report::promises(subject, &studied.outcome, &drawn);
    let ceilings = bench.ceilings(&studied);
    let of = (&studied, &bench, ceilings.as_slice(), &drawn);
    look(&evidence(subject, of, &promises, carpentry, indicator))
}

/// Looks at the nominal build of a subject that is only tried, on one grid; what its
/// studies find to be needed is counted first.
pub(crate) fn held_paid<T>(
    subject: &Subject,
    carpentry: &Carpentry,
    grid: Grid,
    indicator: Indicator,
    needs: impl FnOnce(&Evidence<'_>) -> Vec<Need>,
    look: impl FnOnce(&Evidence<'_>) -> T,
) -> T {
    let mut bench = Bench::new(subject, grid);
    let mut studied = bench.study(subject.build(&Draw::Nominal));
    let mut drawn = Drawn::none();
    let ceilings = bench.ceilings(&studied);
    let of = (&studied, &bench, ceilings.as_slice(), &drawn);
    let before = evidence(subject, of, &[], Some(carpentry), indicator);
    let needs = needs(&before);
    let (electrics, designed) = (before.electrics, before.indicator);
    let subject = paid(subject, &needs, &mut studied, &mut drawn);
    let promises = report::promises(&subject, &studied.outcome, &drawn);
    let of = (&studied, &bench, ceilings.as_slice(), &drawn);
    look(&Evidence {
        electrics,
        indicator: designed,
        ..evidence(&subject, of, &promises, Some(carpentry), indicator)
    })
}

/// The evidence of a subject that is only tried.
fn evidence<'a>(
    subject: &'a Subject,
    (studied, bench, ceilings, drawn): (&'a Studied, &'a Bench<'a>, &'a [Ceiling], &'a Drawn),
    promises: &'a [Promise],
    carpentry: Option<&'a Carpentry>,
    indicator: Indicator,
) -> Evidence<'a> {
    Evidence {
        subject,
        build: &studied.build,
        outcome: &studied.outcome,
        scene: &bench.scene,
        gains: &studied.gains,
        ceilings,
        face_loss: bench.face_loss(),
        drawn,
        promises,
        versus: None,
        measurement: None,
        carpentry,
        warmth: OnceLock::new(),
        indicator: match indicator {
            Indicator::Designed => OnceLock::new(),
            Indicator::LeftOut => OnceLock::from(None),
        },
        electrics: OnceLock::new(),
        trial: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DESIGN: &str = "\
[[drivers]]  # left and right
part = \"a\"   # the old ones

[[drivers]]
part = \"b\"

[box]
kind = \"vented\"
[box.vent]
count = 1
";

    #[test]
    fn groups_are_counted_from_one_and_remarks_stay() {
        let edits = [
            Edit::set("drivers.2.part", "c"),
            Edit::set("box.kind", "sealed"),
            Edit::remove("box.vent"),
        ];
        let edited = apply(DESIGN, &edits).unwrap();
        assert!(edited.contains("part = \"a\"   # the old ones"), "{edited}");
        assert!(
            edited.contains("part = \"c\"") && !edited.contains("vent"),
            "{edited}"
        );
    }

    #[test]
    fn the_lowest_rung_that_helps_is_found_whatever_the_last_does() {
        use Trial::{Clears, Fails, Spoils};
        // The finding goes from one rung on, and from another on something is spoiled.
        let climbed = |goes: usize, spoils: usize| {
            let trial = |rung| match rung {
                rung if rung < goes => Fails,
                rung if rung < spoils => Clears,
                _ => Spoils,
            };
            lowest(12, trial).map(|(rung, _)| rung)
        };
        for goes in 0..12 {
            for spoils in goes + 1..=12 {
                assert_eq!(climbed(goes, spoils), Some(goes), "{goes} {spoils}");
            }
            assert_eq!(climbed(goes, goes), None);
        }
        assert_eq!(climbed(12, 12), None);
        // A rung in the middle that brings a stop does not keep from a higher one.
        let gap = |rung| if rung < 7 { Spoils } else { Clears };
        assert_eq!(lowest(12, gap), Some((7, Clears)));
        assert_eq!(lowest(0, gap), None);
    }

    #[test]
    fn an_edit_that_cannot_be_made_is_told() {
        let nowhere = [Edit::remove("box.radiator.part")];
        assert!(apply(DESIGN, &nowhere).is_err());
    }
}
