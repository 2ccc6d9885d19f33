//! `boxwright check`.

use super::Ending;
use crate::cli::{BuildsArgs, CheckArgs};
use crate::failure::{Failure, Project};
use crate::terminal::{self, Progress};
use crate::{files, json, say};
use design::Diagnostic;
use studies::check::Severity;
use studies::{Options, Report, Texts};

pub(crate) fn run(args: &CheckArgs, as_json: bool) -> Result<Ending, Failure> {
    let project = files::project(&args.design)?;
    let (project, report) = if as_json {
        compared(project, args.builds)?
    } else {
        studied(project, args.builds)?
    };
    let answer = if as_json {
        json::check(&report)
    } else {
        say::check(&project, &report, args.figures, terminal::ink())
    };
    terminal::say(&answer)?;
    Ok(ending(&report))
}

/// The texts of a design as the studies take them.
pub(super) fn texts(project: &Project) -> Texts<'_> {
    Texts {
        design: &project.design.text,
        shelf: project.shelf.as_ref().map(|shelf| shelf.text.as_str()),
    }
}

/// Studies a design, with a bar on the terminal when it takes long.
pub(super) fn studied(project: Project, builds: BuildsArgs) -> Result<(Project, Report), Failure> {
    by(studies::run, project, builds)
}

/// The same, and what other parts of the shelf would change.
pub(super) fn compared(project: Project, builds: BuildsArgs) -> Result<(Project, Report), Failure> {
    by(studies::run_with_swaps, project, builds)
}

/// One of the ways to study.
type Way = fn(Texts<'_>, Options<'_>) -> Result<Report, Vec<Diagnostic>>;

fn by(way: Way, project: Project, builds: BuildsArgs) -> Result<(Project, Report), Failure> {
    let progress = Progress::new(builds.builds);
    let options = Options {
        builds: builds.builds,
        spread: 1.0,
        progress: &|done| progress.add(done),
    };
    match way(texts(&project), options) {
        Ok(report) => Ok((project, report)),
        Err(found) => Err(Failure::Texts(Box::new(project), found)),
    }
}

/// A stop is told in the exit status.
pub(super) fn ending(report: &Report) -> Ending {
    let stop = report
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Stop);
    if stop { Ending::Stop } else { Ending::Well }
}
