//! What was written or would be, in JSON.

use super::{FORMAT, layout};
use serde::Serialize;
use std::path::PathBuf;
use studies::check::{Finding, Mend};
use studies::report::Curve;

#[derive(Serialize)]
struct Written {
    format: u32,
    written: Vec<String>,
}

/// The files a command has written.
pub(crate) fn written(paths: &[PathBuf]) -> String {
    layout::text(&Written {
        format: FORMAT,
        written: paths
            .iter()
            .map(|path| path.display().to_string())
            .collect(),
    })
}

#[derive(Serialize)]
struct Opened<'a> {
    format: u32,
    address: &'a str,
}

/// Where the bench is.
pub(crate) fn opened(address: &str) -> String {
    layout::text(&Opened {
        format: FORMAT,
        address,
    })
}

#[derive(Serialize)]
struct Curves<'a> {
    format: u32,
    curves: &'a [Curve],
}

/// Curves alone.
pub(crate) fn curves(curves: &[Curve]) -> String {
    layout::text(&Curves {
        format: FORMAT,
        curves,
    })
}

#[derive(Serialize)]
struct Netlist<'a> {
    format: u32,
    netlist: &'a str,
}

/// A netlist.
pub(crate) fn netlist(netlist: &str) -> String {
    layout::text(&Netlist {
        format: FORMAT,
        netlist,
    })
}

#[derive(Serialize)]
struct Mends<'a> {
    format: u32,
    mends: Vec<Offer<'a>>,
}

#[derive(Serialize)]
struct Offer<'a> {
    id: &'a str,
    name: &'a str,
    title: &'a str,
    mend: &'a Mend,
}

/// The mends on offer.
pub(crate) fn mends(findings: &[Finding]) -> String {
    let offers = findings.iter().filter_map(|finding| {
        finding.mend.as_ref().map(|mend| Offer {
            id: finding.id,
            name: &finding.name,
            title: &finding.title,
            mend,
        })
    });
    layout::text(&Mends {
        format: FORMAT,
        mends: offers.collect(),
    })
}
