//! `boxwright open`.

use super::Ending;
use crate::bench;
use crate::cli::OpenArgs;
use crate::failure::Failure;

pub(crate) fn run(args: &OpenArgs, as_json: bool) -> Result<Ending, Failure> {
    bench::open(args, as_json)?;
    Ok(Ending::Well)
}
