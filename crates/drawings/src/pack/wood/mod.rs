//! The box as wood, in the order of the work.

mod access;
mod boxed;
mod corners;
mod cuts;
mod cutting;
mod glue;
mod panels;
mod views;
mod words;

pub(super) use words::holes;

use super::Page;
use crate::control;
use crate::paper::Paper;
use design::{Closing, Project};
use studies::Report;
use studies::carpentry::wall;

/// The box as a whole, taken apart and in views.
pub(super) fn whole(report: &Report, paper: Paper) -> Vec<Page> {
    let carpentry = &report.carpentry;
    vec![boxed::page(carpentry, paper), views::page(carpentry, paper)]
}

/// How sheets are sawn, and every panel.
pub(super) fn panels(report: &Report, paper: Paper) -> Vec<Page> {
    let mut out = cuts::pages(&report.carpentry, paper);
    out.extend(panels::pages(&report.carpentry, paper));
    out
}

/// The control panel.
pub(super) fn control(report: &Report, paper: Paper) -> Vec<Page> {
    let controls = report.carpentry.control.iter();
    let views = controls.flat_map(|c| control::pages(c, paper));
    views
        .map(|view| Page {
            title: "Control panel".to_owned(),
            scale: view.scale,
            drawing: view.drawing,
            notes: view.notes,
        })
        .collect()
}

/// Corners at full size.
pub(super) fn corners(project: &Project, report: &Report, paper: Paper) -> Vec<Page> {
    corners::pages(&report.carpentry, loose(project), paper)
}

/// Gluing up, what goes in and comes out.
pub(super) fn joined(report: &Report, paper: Paper) -> Vec<Page> {
    let mut out = glue::pages(&report.carpentry, paper);
    out.extend(access::pages(&report.carpentry, paper));
    out
}

/// The wall that is screwed on and comes off again.
fn loose(project: &Project) -> Option<wood::Wall> {
    let said = &project.design.enclosure.carpentry;
    (said.last_with.value == Closing::Screws).then(|| wall(said.last.value))
}
