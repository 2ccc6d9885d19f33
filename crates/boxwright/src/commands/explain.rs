//! `boxwright explain`.

use super::Ending;
use crate::cli::ExplainArgs;
use crate::failure::Failure;
use crate::{json, likeness, say, terminal};
use studies::check::{self, Check};

pub(crate) fn run(args: &ExplainArgs, as_json: bool) -> Result<Ending, Failure> {
    let answer = match &args.id {
        None if as_json => json::checks(check::ALL),
        None => say::checks(check::ALL, terminal::ink()),
        Some(id) => {
            let check = find(id)?;
            if as_json {
                json::checks(&[check])
            } else {
                say::explained(check, terminal::ink())
            }
        }
    };
    terminal::say(&answer)?;
    Ok(Ending::Well)
}

fn find(id: &str) -> Result<&'static Check, Failure> {
    if let Some(check) = check::find(id) {
        return Ok(check);
    }
    if design::DIAGNOSTIC_CODES.contains(&id) || studies::DIAGNOSTIC_CODES.contains(&id) {
        return Err(Failure::mended(
            format!("{id} is no check of a design, but a mistake in its text"),
            "it is shown at its place in the file, with what to write instead",
        ));
    }
    let ids = check::ALL.iter().map(|check| check.id);
    Err(Failure::mended(
        format!("there is no check {id:?}"),
        likeness::did_you_mean(id, ids, "boxwright explain lists the checks"),
    ))
}
