//! Full-size templates: panels with holes or odd outlines, and the control
//! plate, tiled over as many pages as they need.
//!
//! Pages overlap by [`OVERLAP_MM`]; crosses that lie on both are laid on one
//! another. On every page two bars of 100 mm tell whether it was printed true.

mod list;
mod page;
mod subject;
mod tile;

use crate::date::Date;
use crate::paper::Paper;
use crate::sheet::Sheet;
use studies::carpentry::Carpentry;
use subject::{Subject, subjects};
use tile::Tiling;

/// How far neighbouring pages overlap, in mm.
pub const OVERLAP_MM: f64 = 15.0;

/// What the pages say of where they belong to.
struct Imprint {
    /// Name, revision and date.
    words: String,
    paper: Paper,
}

/// Every template of a box, the list of them first; empty where nothing is
/// better marked from a template than measured.
#[must_use]
pub fn templates(
    carpentry: &Carpentry,
    name: &str,
    revision: Option<u32>,
    paper: Paper,
    date: Option<Date>,
) -> Vec<Sheet> {
    let revision = revision.map(|number| format!("revision {number}"));
    let date = date.map(|date| date.to_string());
    let words: Vec<String> = [Some(name.to_owned()), revision, date]
        .into_iter()
        .flatten()
        .collect();
    let imprint = Imprint {
        words: words.join(" · "),
        paper,
    };
    let control = carpentry.control.as_ref();
    let (subjects, plain) = subjects(&carpentry.body, &carpentry.cut_list, control, paper);
    sheets(&subjects, &plain, &imprint)
}

fn sheets(subjects: &[Subject], plain: &[String], imprint: &Imprint) -> Vec<Sheet> {
    if subjects.is_empty() {
        return Vec::new();
    }
    let tiled: Vec<Tiling> = subjects
        .iter()
        .map(|subject| Tiling::new(subject.size, imprint.paper))
        .collect();
    let mut sheets = list::sheets(subjects, &tiled, plain, imprint);
    for (subject, tiling) in subjects.iter().zip(&tiled) {
        sheets.extend(page::pages(subject, tiling, imprint));
    }
    sheets
}

#[cfg(test)]
mod tests;
