//! The command line and the bench of Boxwright: the layer that touches disk, network, clock and
//! terminal.

mod bench;
mod bibliography;
mod calendar;
mod cli;
mod commands;
mod csv;
mod failure;
mod files;
mod folder;
mod json;
mod likeness;
mod parts;
mod say;
mod terminal;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    match cli::Cli::try_parse() {
        Ok(cli) => commands::run(&cli),
        Err(request) => terminal::usage(&request),
    }
}
