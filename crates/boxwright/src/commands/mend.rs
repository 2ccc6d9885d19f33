//! `boxwright mend`.

use super::Ending;
use super::check::{studied, texts};
use crate::cli::MendArgs;
use crate::failure::{Failure, Project};
use crate::{files, json, say, terminal};
use studies::Report;
use studies::check::{Finding, Mend, Severity};

pub(crate) fn run(args: &MendArgs, as_json: bool) -> Result<Ending, Failure> {
    let project = files::project(&args.design)?;
    let (project, report) = studied(project, args.builds)?;
    let Some(name) = &args.finding else {
        terminal::say(&if as_json {
            json::mends(&report.findings)
        } else {
            say::mends(&report.findings, terminal::ink())
        })?;
        return Ok(Ending::Well);
    };
    if in_order(&report, name) {
        terminal::say(&if as_json {
            json::written(&[])
        } else {
            say::nothing_to_mend(name)
        })?;
        return Ok(Ending::Well);
    }
    let mend = mend(&report, name)?;
    let edited = edited(&project, mend)?;
    let path = files::design_path(&args.design.design);
    files::replace(&path, &project.design.text, &edited)?;
    terminal::say(&if as_json {
        json::written(&[path])
    } else {
        say::mended(mend, &project.design.text, &edited, terminal::ink())
    })?;
    Ok(Ending::Well)
}

/// Whether a finding goes by a name: its own, or that of its check.
fn is_called(finding: &Finding, name: &str) -> bool {
    finding.id == name || finding.name == name
}

/// Whether a check was made and found nothing that an edit could better.
fn in_order(report: &Report, name: &str) -> bool {
    let mut called = report
        .findings
        .iter()
        .filter(|finding| is_called(finding, name));
    let fine = |finding: &Finding| finding.severity == Severity::Good && finding.mend.is_none();
    let follows = |finding: &Finding| finding.brings.iter().any(|brought| brought.id == name);
    called.next().is_some_and(fine) && called.all(fine) && !report.findings.iter().any(follows)
}

/// The mend of the one finding that goes by a name.
pub(crate) fn mend<'a>(report: &'a Report, name: &str) -> Result<&'a Mend, Failure> {
    let called: Vec<&Finding> = report
        .findings
        .iter()
        .filter(|finding| is_called(finding, name) && finding.severity < Severity::Good)
        .collect();
    match called[..] {
        [finding] => finding
            .mend
            .as_ref()
            .ok_or_else(|| unmendable(report, finding)),
        [] => Err(not_found(report, name)),
        _ => Err(several(&called, name)),
    }
}

/// No edit clears it.
fn unmendable(report: &Report, finding: &Finding) -> Failure {
    let message = format!("no single edit clears {}", finding.name);
    let advice = finding.advice.clone();
    Failure::mended(message, advice.unwrap_or_else(|| mendable(report)))
}

/// The name is that of none, or of one that only follows from another.
fn not_found(report: &Report, name: &str) -> Failure {
    let causes: Vec<&str> = report
        .findings
        .iter()
        .filter(|finding| finding.brings.iter().any(|brought| brought.id == name))
        .map(|finding| finding.name.as_str())
        .collect();
    if causes.is_empty() {
        let message = format!("this design has no finding {name}");
        Failure::mended(message, mendable(report))
    } else {
        let causes = causes.join(" and ");
        Failure::mended(
            format!("{name} follows from {causes}"),
            format!("mend {causes} first"),
        )
    }
}

/// The name is that of several.
fn several(called: &[&Finding], name: &str) -> Failure {
    let each: Vec<String> = called
        .iter()
        .map(|finding| format!("{} ({})", finding.name, finding.title))
        .collect();
    Failure::mended(
        format!("{} findings are called {name}", called.len()),
        format!("say which: {}", each.join(", ")),
    )
}

fn mendable(report: &Report) -> String {
    let names: Vec<&str> = report
        .findings
        .iter()
        .filter(|finding| finding.mend.is_some())
        .map(|finding| finding.name.as_str())
        .collect();
    if names.is_empty() {
        "no finding of this design has a mend; see boxwright check".into()
    } else {
        format!("findings with a mend: {}", names.join(", "))
    }
}

/// The design with the mend made, read again before anything is written.
pub(crate) fn edited(project: &Project, mend: &Mend) -> Result<String, Failure> {
    let edited = studies::apply(&project.design.text, &mend.edits)
        .map_err(|error| Failure::plain(format!("cannot edit {}: {error}", project.design.name)))?;
    let after = Project {
        design: crate::failure::Named {
            name: project.design.name.clone(),
            text: edited.clone(),
        },
        shelf: project.shelf.clone(),
    };
    let again = texts(&after);
    match design::read(again.design, again.shelf) {
        Ok(_) => Ok(edited),
        Err(found) => Err(Failure::Texts(Box::new(after), found)),
    }
}
