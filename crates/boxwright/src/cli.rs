//! What can be asked on the command line.

use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;

/// Plan, check and print a portable loudspeaker before anything is cut.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 80, disable_help_subcommand = true)]
pub(crate) struct Cli {
    /// Answer in JSON instead of words.
    #[arg(long, global = true)]
    pub(crate) json: bool,
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Hold a design against its brief: promises with odds, findings, mends.
    Check(CheckArgs),
}

/// Which design, with which shelf.
#[derive(Args, Debug)]
pub(crate) struct DesignArgs {
    /// The design file, or the folder it is in.
    #[arg(value_name = "DESIGN", default_value = "design.toml")]
    pub(crate) design: PathBuf,
    /// The maker's own parts; the shelf.toml beside the design when absent.
    #[arg(long, value_name = "FILE")]
    pub(crate) shelf: Option<PathBuf>,
}

/// How thoroughly to study.
#[derive(Args, Clone, Copy, Debug)]
pub(crate) struct BuildsArgs {
    /// Builds drawn within the tolerances; 0 for the nominal one alone.
    #[arg(long, value_name = "N", default_value_t = 2000, value_parser = builds)]
    pub(crate) builds: usize,
}

/// More drawn builds than this tell nothing new and fill the memory.
const MOST_BUILDS: usize = 100_000;

fn builds(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(builds) if builds <= MOST_BUILDS => Ok(builds),
        _ => Err(format!("a whole number from 0 to {MOST_BUILDS} is wanted")),
    }
}

#[derive(Args, Debug)]
pub(crate) struct CheckArgs {
    #[command(flatten)]
    pub(crate) design: DesignArgs,
    #[command(flatten)]
    pub(crate) builds: BuildsArgs,
    /// Also print every figure with its band.
    #[arg(long)]
    pub(crate) figures: bool,
}
