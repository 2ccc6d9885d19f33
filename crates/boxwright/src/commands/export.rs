//! `boxwright export`.

use super::Ending;
use super::check::{studied, texts};
use crate::cli::ExportArgs;
use crate::failure::Failure;
use crate::{csv, files, json, terminal};

pub(crate) fn run(args: &ExportArgs, as_json: bool) -> Result<Ending, Failure> {
    if let Some(path) = &args.out {
        files::must_take(path)?;
    }
    let project = files::project(&args.design)?;
    let answer = if args.what.netlist {
        let netlist = studies::netlist(texts(&project))
            .map_err(|found| Failure::Texts(Box::new(project), found))?;
        if as_json {
            json::netlist(&netlist)
        } else {
            netlist
        }
    } else {
        let (_, report) = studied(project, args.builds)?;
        if as_json {
            json::curves(&report.curves)
        } else {
            csv::curves(&report.curves)
        }
    };
    match &args.out {
        Some(path) => files::write_out(path, &answer)?,
        None => terminal::say(&answer)?,
    }
    Ok(Ending::Well)
}
