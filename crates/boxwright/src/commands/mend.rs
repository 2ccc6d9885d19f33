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
    let Some(id) = &args.finding else {
        terminal::say(&if as_json {
            json::mends(&report.findings)
        } else {
            say::mends(&report.findings, terminal::ink())
        })?;
        return Ok(Ending::Well);
    };
    if in_order(&report, id) {
        terminal::say(&if as_json {
            json::written(&[])
        } else {
            say::nothing_to_mend(id)
        })?;
        return Ok(Ending::Well);
    }
    let mend = mend(&report, id)?;
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

/// Whether a check was made and found nothing that an edit could better.
fn in_order(report: &Report, id: &str) -> bool {
    let mut of_id = report.findings.iter().filter(|finding| finding.id == id);
    let fine = |finding: &Finding| finding.severity == Severity::Good && finding.mend.is_none();
    of_id.next().is_some_and(fine) && of_id.all(fine)
}

fn mend<'a>(report: &'a Report, id: &str) -> Result<&'a Mend, Failure> {
    let of_id: Vec<&Finding> = report
        .findings
        .iter()
        .filter(|finding| finding.id == id)
        .collect();
    if let Some(mend) = of_id.iter().find_map(|finding| finding.mend.as_ref()) {
        return Ok(mend);
    }
    let mendable: Vec<&str> = report
        .findings
        .iter()
        .filter(|finding| finding.mend.is_some())
        .map(|finding| finding.id)
        .collect();
    let advice = of_id.iter().find_map(|finding| finding.advice.clone());
    let message = if of_id.is_empty() {
        format!("this design has no finding {id}")
    } else {
        format!("no single edit clears {id}")
    };
    let instead = match (advice, mendable.is_empty()) {
        (Some(advice), _) => advice,
        (None, false) => format!("findings with a mend: {}", mendable.join(", ")),
        (None, true) => "no finding of this design has a mend; see boxwright check".into(),
    };
    Err(Failure::mended(message, instead))
}

/// The design with the mend made, read again before anything is written.
fn edited(project: &Project, mend: &Mend) -> Result<String, Failure> {
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
