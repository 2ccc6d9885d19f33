//! What can be asked on the command line.

use clap::{Args, Parser, Subcommand, ValueEnum};
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
    /// Write a design to start from, with a remark on every line.
    New(NewArgs),
    /// Work on a design in the browser; the file stays the truth.
    Open(OpenArgs),
    /// Hold a design against its brief: promises with odds, findings, mends.
    Check(CheckArgs),
    /// Make the edit that a finding offers; comments stay.
    Mend(MendArgs),
    /// Write the pack: every sheet on paper and for the screen, every curve.
    Pack(PackArgs),
    /// List the parts on the shelf, or show one whole.
    Shelf(ShelfArgs),
    /// List the checks, or tell one whole: what, why, limits, sources.
    Explain(ExplainArgs),
    /// Write a design's network or curves for other programs.
    Export(ExportArgs),
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
    /// Builds drawn within the tolerances: 0 for the nominal build alone, or at least 100.
    #[arg(long, value_name = "N", default_value_t = 2000, value_parser = builds)]
    pub(crate) builds: usize,
}

/// More drawn builds than this tell nothing new and fill the memory.
const MOST_BUILDS: usize = 100_000;

/// Odds of fewer drawn builds would be a matter of luck.
const FEWEST_BUILDS: usize = 100;

fn builds(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(builds) if builds == 0 || (FEWEST_BUILDS..=MOST_BUILDS).contains(&builds) => Ok(builds),
        _ => Err(format!(
            "0 for the nominal build alone, or at least {FEWEST_BUILDS} and at most {MOST_BUILDS}"
        )),
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

#[derive(Args, Debug)]
pub(crate) struct NewArgs {
    /// The file to write, or a folder for it.
    #[arg(value_name = "PATH", default_value = "design.toml")]
    pub(crate) path: PathBuf,
    /// Name of the design; guessed from PATH when absent.
    #[arg(long)]
    pub(crate) name: Option<String>,
    /// Start from a shipped example instead.
    #[arg(long, value_name = "EXAMPLE")]
    pub(crate) like: Option<Example>,
}

/// The shipped examples.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Example {
    /// Sealed, two 4-inch drivers, iron phosphate, for the beach.
    BathingBeach,
    /// One full-range driver with a passive radiator, lithium-ion, indoors.
    WorkshopMono,
    /// Vented, two salvaged drivers of unknown data, lead-acid.
    SalvageParty,
}

#[derive(Args, Debug)]
pub(crate) struct OpenArgs {
    /// The design file, or the folder it is in; a choice of designs when absent.
    #[arg(value_name = "DESIGN")]
    pub(crate) design: Option<PathBuf>,
    /// The maker's own parts; the shelf.toml beside the design when absent.
    #[arg(long, value_name = "FILE", requires = "design")]
    pub(crate) shelf: Option<PathBuf>,
    /// The port of this machine to serve the page on; a free one when absent.
    #[arg(long, value_name = "N", default_value_t = 0, hide_default_value = true)]
    pub(crate) port: u16,
    /// Say the address and leave the browser alone.
    #[arg(long)]
    pub(crate) no_browser: bool,
    #[command(flatten)]
    pub(crate) builds: BuildsArgs,
}

#[derive(Args, Debug)]
pub(crate) struct MendArgs {
    #[command(flatten)]
    pub(crate) design: DesignArgs,
    /// The finding to mend as `check` names it, one of several with its number: holes-clear.2;
    /// all that can be mended are listed when absent.
    #[arg(value_name = "NAME")]
    pub(crate) finding: Option<String>,
    #[command(flatten)]
    pub(crate) builds: BuildsArgs,
}

#[derive(Args, Debug)]
pub(crate) struct ShelfArgs {
    /// The part to show; all are listed when absent.
    #[arg(value_name = "NAME")]
    pub(crate) name: Option<String>,
    /// The maker's own parts; the shelf.toml beside the design when absent.
    #[arg(long, value_name = "FILE")]
    pub(crate) shelf: Option<PathBuf>,
    /// The design beside which the shelf.toml lies.
    #[arg(long, value_name = "DESIGN", default_value = "design.toml")]
    pub(crate) design: PathBuf,
}

#[derive(Args, Debug)]
pub(crate) struct ExplainArgs {
    /// The check to tell; all are listed when absent.
    #[arg(value_name = "ID")]
    pub(crate) id: Option<String>,
}

#[derive(Args, Debug)]
pub(crate) struct ExportArgs {
    #[command(flatten)]
    pub(crate) design: DesignArgs,
    #[command(flatten)]
    pub(crate) what: ExportWhat,
    /// The file to write; standard output when absent.
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) builds: BuildsArgs,
}

#[derive(Args, Clone, Copy, Debug)]
#[group(required = true, multiple = false)]
pub(crate) struct ExportWhat {
    /// The network of the nominal build as a SPICE netlist.
    #[arg(long)]
    pub(crate) netlist: bool,
    /// Every curve with its band as one table in CSV.
    #[arg(long)]
    pub(crate) curves: bool,
}

#[derive(Args, Debug)]
pub(crate) struct PackArgs {
    #[command(flatten)]
    pub(crate) design: DesignArgs,
    /// The folder to write into; one named after the design, beside it, when absent.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    /// What it will be printed on.
    #[arg(long, value_enum, default_value = "a4")]
    pub(crate) paper: PaperSize,
    #[command(flatten)]
    pub(crate) builds: BuildsArgs,
}

/// What is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperSize {
    /// 297 × 210 mm.
    A4,
    /// 11 × 8½ in.
    Letter,
}
