//! One file for each command.

mod check;

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
        Command::Check(args) => check::run(args, cli.json),
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
