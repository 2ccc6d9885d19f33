//! Mends: edits that are offered only after the studies were run again with
//! them, the finding was gone, no new stop had come, and no wish of the brief
//! that was kept before was broken.

use crate::carpentry::{self, Carpentry};
use crate::check::{self, Candidate, Check, Edit, Evidence, Finding, Mend, Severity, Verdict};
use crate::odds::Drawn;
use crate::outcome::Bench;
use crate::report;
use crate::sound::Grid;
use crate::subject::Subject;
use crate::texts::Texts;
use crate::vary::Draw;
use design::{EditError, Key};
use rayon::prelude::*;

/// Candidates tried for one finding at most.
const MOST_TRIES: usize = 40;

/// Drawn builds a candidate is tried on that clears the finding of the nominal build.
const TRIAL_BUILDS: usize = 100;

type Said = (&'static Check, Verdict);

/// Makes edits to the text of a design; comments and every other byte stay.
///
/// # Errors
/// The first edit that cannot be made.
pub fn apply(design: &str, edits: &[Edit]) -> Result<String, EditError> {
    edits.iter().try_fold(design.to_owned(), |text, edit| {
        let path = path(&edit.key);
        match &edit.value {
            Some(value) => design::set_value(&text, &path, value),
            None => design::remove_value(&text, &path),
        }
    })
}

/// The path of a key whose groups are counted from 1.
fn path(key: &str) -> Vec<Key> {
    let from_zero = |step| match step {
        Key::Index(index) => Key::Index(index.saturating_sub(1)),
        name @ Key::Name(_) => name,
    };
    design::key_path(key).into_iter().map(from_zero).collect()
}

/// All findings of a design, worst first, with their mends tried.
pub(crate) fn findings(texts: Texts<'_>, evidence: &Evidence<'_>) -> Vec<Finding> {
    let said = said(evidence);
    let trials = Trials::new(texts, evidence, &said);
    let mends: Vec<Option<Mend>> = said
        .par_iter()
        .map(|(check, verdict)| trials.mend(check, verdict))
        .collect();
    let mended = |id: &str| {
        let mut own = said
            .iter()
            .zip(&mends)
            .filter(|((check, _), _)| check.id == id);
        own.all(|(_, mend)| mend.is_some())
    };
    let mut findings: Vec<Finding> = said
        .iter()
        .zip(&mends)
        .filter(|((_, verdict), _)| !verdict.unless_mended.is_some_and(mended))
        .map(|((check, verdict), mend)| Finding {
            id: check.id,
            severity: verdict.severity,
            title: verdict.title.clone(),
            cause: verdict.cause.clone(),
            advice: verdict.advice.clone(),
            mend: mend.clone(),
            measured: verdict.measured,
            limit: verdict.limit,
            unit: verdict.unit,
            source: check.sources,
            place: verdict.place,
        })
        .collect();
    findings.sort_by_key(|finding| finding.severity);
    findings
}

fn said(evidence: &Evidence<'_>) -> Vec<Said> {
    check::ALL
        .iter()
        .flat_map(|check| {
            (check.run)(evidence)
                .into_iter()
                .map(move |verdict| (*check, verdict))
        })
        .collect()
}

/// How much is wrong with a design, check by check.
struct Wrongs(Vec<(&'static str, Severity)>);

impl Wrongs {
    fn of(said: &[Said]) -> Self {
        let wrong = said
            .iter()
            .filter(|(_, verdict)| verdict.severity < Severity::Good);
        Self(
            wrong
                .map(|(check, verdict)| (check.id, verdict.severity))
                .collect(),
        )
    }

    fn count(&self, id: &str, worst: Severity) -> usize {
        let alike = |wrong: &&(&str, Severity)| wrong.0 == id && wrong.1 <= worst;
        self.0.iter().filter(alike).count()
    }

    /// What is wrong here, as bad as `worst` or worse, that was not wrong before.
    fn added<'a>(
        &'a self,
        before: &'a Self,
        worst: Severity,
    ) -> impl Iterator<Item = &'static str> + 'a {
        let ids = self.0.iter().map(|(id, _)| *id);
        ids.filter(move |id| self.count(id, worst) > before.count(id, worst))
    }
}

/// How a trial went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Trial {
    /// The finding stays, a stop comes, or a wish of the brief is broken that was kept.
    Fails,
    /// The finding goes, but another caution comes.
    Shifts,
    /// The finding goes and nothing comes.
    Clears,
}

impl Trial {
    fn judge(id: &str, before: &Wrongs, after: &Wrongs) -> Self {
        let was = before.count(id, Severity::Caution);
        let is = after.count(id, Severity::Caution);
        // A finding that only drawn builds show is not there before or after on the nominal one.
        let gone = is < was.max(1);
        let stops = after.added(before, Severity::Stop).count() > 0;
        let mut cautions = after.added(before, Severity::Caution).peekable();
        let shifts = cautions.peek().is_some();
        if !gone || stops || cautions.any(is_wish) {
            Self::Fails
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

/// What candidates are held against.
struct Trials<'a> {
    texts: Texts<'a>,
    subject: &'a Subject,
    builds: usize,
    /// What is wrong with the unedited design but for its wood: its nominal build on the
    /// coarse grid.
    plain: Wrongs,
    /// The same with its wood.
    quick: Wrongs,
    /// The same on the fine grid with drawn builds.
    thorough: Wrongs,
}

impl<'a> Trials<'a> {
    fn new(texts: Texts<'a>, evidence: &Evidence<'a>, said: &[Said]) -> Self {
        let builds = evidence.drawn.outcomes.len().min(TRIAL_BUILDS);
        let mendable = said.iter().any(|(_, verdict)| !verdict.ladders.is_empty());
        let wrongs = |carpentry, grid, builds| {
            if mendable {
                Wrongs::of(&tried(evidence.subject, carpentry, grid, builds))
            } else {
                Wrongs(Vec::new())
            }
        };
        Self {
            texts,
            subject: evidence.subject,
            builds,
            plain: wrongs(None, Grid::coarse(), 0),
            quick: wrongs(evidence.carpentry, Grid::coarse(), 0),
            thorough: wrongs(evidence.carpentry, Grid::fine(), builds),
        }
    }

    /// The first candidate that clears a finding; failing that, the first that
    /// clears it at the price of another caution.
    fn mend(&self, check: &Check, verdict: &Verdict) -> Option<Mend> {
        if verdict.severity == Severity::Good {
            return None;
        }
        let mut tries = 0;
        let mut second = None;
        for ladder in &verdict.ladders {
            match self.climb(check.id, ladder, &mut tries) {
                Some((candidate, Trial::Clears)) => return Some(mend(candidate)),
                Some((candidate, _)) if second.is_none() => second = Some(candidate),
                _ => {}
            }
            if tries >= MOST_TRIES {
                break;
            }
        }
        second.map(mend)
    }

    /// The lowest rung that clears the finding, by halving.
    fn climb<'c>(
        &self,
        id: &str,
        ladder: &'c [Candidate],
        tries: &mut usize,
    ) -> Option<(&'c Candidate, Trial)> {
        let (last, below) = ladder.split_last()?;
        let mut attempt = |candidate| {
            *tries += 1;
            self.attempt(id, candidate)
        };
        let mut best = match attempt(last) {
            Trial::Fails => return None,
            trial => (last, trial),
        };
        let (mut fails, mut holds) = (0, below.len());
        while fails < holds {
            let middle = usize::midpoint(fails, holds);
            match attempt(&below[middle]) {
                Trial::Fails => fails = middle + 1,
                trial => (best, holds) = ((&below[middle], trial), middle),
            }
        }
        Some(best)
    }

    /// Runs the studies with a candidate's edits: quickly, and where that goes
    /// well on the fine grid and on drawn builds.
    fn attempt(&self, id: &str, candidate: &Candidate) -> Trial {
        let Some(subject) = self.edited(candidate) else {
            return Trial::Fails;
        };
        let plainly = self.plain.count(id, Severity::Caution) > 0;
        if plainly && !self.helps_plainly(id, &subject) {
            return Trial::Fails;
        }
        let carpentry = carpentry::study(&subject);
        let study = |grid, builds| Wrongs::of(&tried(&subject, Some(&carpentry), grid, builds));
        let quick = study(Grid::coarse(), 0);
        if Trial::judge(id, &self.quick, &quick) == Trial::Fails {
            return Trial::Fails;
        }
        let thorough = study(Grid::fine(), self.builds);
        Trial::judge(id, &self.thorough, &thorough)
    }

    /// Whether a finding that is not about wood goes, before the wood, which takes longest,
    /// is worked out anew.
    fn helps_plainly(&self, id: &str, subject: &Subject) -> bool {
        let after = Wrongs::of(&tried(subject, None, Grid::coarse(), 0));
        Trial::judge(id, &self.plain, &after) != Trial::Fails
    }

    fn edited(&self, candidate: &Candidate) -> Option<Subject> {
        let edited = apply(self.texts.design, &candidate.edits).ok()?;
        let project = design::read(&edited, self.texts.shelf).ok()?;
        self.subject.variant(project).ok()
    }
}

fn mend(candidate: &Candidate) -> Mend {
    Mend {
        words: candidate.words.clone(),
        edits: candidate.edits.clone(),
    }
}

/// What the checks say about a subject on one grid, with so many drawn builds.
fn tried(subject: &Subject, carpentry: Option<&Carpentry>, grid: Grid, builds: usize) -> Vec<Said> {
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
    said(&Evidence {
        subject,
        build: &studied.build,
        outcome: &studied.outcome,
        scene: &bench.scene,
        gains: &studied.gains,
        ceilings: &ceilings,
        face_loss: bench.face_loss(),
        drawn: &drawn,
        promises: &promises,
        versus: None,
        measurement: None,
        carpentry,
        trial: true,
    })
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
    fn an_edit_that_cannot_be_made_is_told() {
        let nowhere = [Edit::remove("box.radiator.part")];
        assert!(apply(DESIGN, &nowhere).is_err());
    }

    #[test]
    fn a_mend_may_not_break_a_wish_nor_bring_a_stop() {
        let wrongs = |list: &[(&'static str, Severity)]| Wrongs(list.to_vec());
        let (stop, caution) = (Severity::Stop, Severity::Caution);
        let before = wrongs(&[("vent-fits", caution)]);
        let judge = |after| Trial::judge("vent-fits", &before, &after);
        assert_eq!(judge(wrongs(&[])), Trial::Clears);
        assert_eq!(judge(wrongs(&[("vent-fits", caution)])), Trial::Fails);
        assert_eq!(judge(wrongs(&[("vent-speed", caution)])), Trial::Shifts);
        assert_eq!(judge(wrongs(&[("vent-speed", stop)])), Trial::Fails);
        assert_eq!(judge(wrongs(&[("brief-low", caution)])), Trial::Fails);
    }
}
