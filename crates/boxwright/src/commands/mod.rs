//! One file for each command.

mod check;
mod explain;
mod export;
pub(crate) mod mend;
pub(crate) mod new;
mod open;
pub(crate) mod pack;
mod shelf;
pub(crate) mod workshop;

use crate::cli::{Cli, Command};
use crate::failure::Failure;
use crate::{json, say, terminal};
use std::process::ExitCode;

/// How a command ended, as its exit status says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    /// 0.
    Well,
    /// 1: the design has a finding that says stop.
    Stop,
}

/// Exit status when there is no answer.
const NO_ANSWER: u8 = 2;

/// Runs what was asked for.
pub(crate) fn run(cli: &Cli) -> ExitCode {
    let ended = match &cli.command {
        Command::New(args) => new::run(args, cli.json),
        Command::Check(args) => check::run(args, cli.json),
        Command::Mend(args) => mend::run(args, cli.json),
        Command::Pack(args) => pack::run(args, cli.json),
        Command::Shelf(args) => shelf::run(args, cli.json),
        Command::Explain(args) => explain::run(args, cli.json),
        Command::Export(args) => export::run(args, cli.json),
        Command::Open(args) => open::run(args, cli.json),
    };
    match ended {
        Ok(Ending::Well) => ExitCode::SUCCESS,
        Ok(Ending::Stop) => ExitCode::from(1),
        Err(failure) => {
            report(&failure, cli.json);
            ExitCode::from(NO_ANSWER)
        }
    }
}

fn report(failure: &Failure, as_json: bool) {
    if as_json {
        // A failure to say so on standard output is all there is left to say.
        if terminal::say(&json::failure(failure)).is_err() {
            terminal::complain("cannot write the answer\n");
        }
    } else {
        terminal::complain(&say::failure(failure, terminal::complaint_ink()));
    }
}
