//! Mends: edits that are offered only after the studies were run again with
//! them, the finding was gone, and no new stop had come.

use crate::check::{self, Candidate, Check, Edit, Evidence, Finding, Mend, Severity, Verdict};
use crate::odds::Drawn;
use crate::outcome::Bench;
use crate::report;
use crate::run::Texts;
use crate::sound::Grid;
use crate::subject::Subject;
use crate::vary::Draw;

/// All findings of a design, worst first, with their mends tried.
pub(crate) fn findings(texts: Texts<'_>, evidence: &Evidence<'_>) -> Vec<Finding> {
    let verdicts = verdicts(evidence);
    let stops: Vec<&str> = stops(&verdicts);
    let mut findings: Vec<Finding> = verdicts
        .iter()
        .map(|(check, verdict)| Finding {
            id: check.id,
            severity: verdict.severity,
            title: verdict.title.clone(),
            cause: verdict.cause.clone(),
            advice: verdict.advice.clone(),
            mend: verdict
                .mends
                .iter()
                .find(|candidate| clears(texts, candidate, check, verdict.severity, &stops))
                .map(|candidate| Mend {
                    words: candidate.words.clone(),
                    edits: candidate.edits.clone(),
                }),
            measured: verdict.measured,
            limit: verdict.limit,
            unit: verdict.unit,
            source: check.sources,
        })
        .collect();
    findings.sort_by_key(|finding| finding.severity);
    findings
}

fn verdicts(evidence: &Evidence<'_>) -> Vec<(&'static Check, Verdict)> {
    check::ALL
        .iter()
        .flat_map(|check| {
            (check.run)(evidence)
                .into_iter()
                .map(move |verdict| (*check, verdict))
        })
        .collect()
}

fn stops(verdicts: &[(&'static Check, Verdict)]) -> Vec<&'static str> {
    let stops = verdicts
        .iter()
        .filter(|(_, verdict)| verdict.severity == Severity::Stop);
    stops.map(|(check, _)| check.id).collect()
}

fn apply(_design: &str, _edits: &[Edit]) -> Result<String, ()> {
    Err(())
}

/// Whether a candidate clears the finding and brings no new stop, tried on the nominal build.
fn clears(
    texts: Texts<'_>,
    candidate: &Candidate,
    check: &Check,
    severity: Severity,
    stops: &[&str],
) -> bool {
    let Ok(edited) = apply(texts.design, &candidate.edits) else {
        return false;
    };
    let Ok(project) = design::read(&edited, texts.shelf) else {
        return false;
    };
    let Ok(subject) = Subject::new(project, 1.0) else {
        return false;
    };
    let after = nominal_verdicts(&subject);
    let gone = !after
        .iter()
        .any(|(other, verdict)| other.id == check.id && verdict.severity <= severity);
    gone && self::stops(&after).iter().all(|stop| stops.contains(stop))
}

/// The verdicts on the nominal build alone.
fn nominal_verdicts(subject: &Subject) -> Vec<(&'static Check, Verdict)> {
    let grid = Grid::fine();
    let mut bench = Bench::new(subject, grid.clone());
    let studied = bench.study(subject.build(&Draw::Nominal));
    let traces = bench.traces(&studied);
    let drawn = Drawn::none();
    let promises = report::promises(subject, &studied.outcome, &drawn);
    let ceilings = bench.ceilings(&studied);
    verdicts(&Evidence {
        subject,
        build: &studied.build,
        outcome: &studied.outcome,
        traces: &traces,
        hertz: &grid.hertz,
        ceilings: &ceilings,
        crest: bench.scene.crest,
        face_loss: bench.face_loss(),
        drawn: &drawn,
        promises: &promises,
        versus: None,
        measurement: None,
    })
}
