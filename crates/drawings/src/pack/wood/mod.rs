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

/// Box, views, cuts, panels, corners, gluing up, what goes in and comes out.
pub(super) fn pages(project: &Project, report: &Report, paper: Paper) -> Vec<Page> {
    let carpentry = &report.carpentry;
    let mut out = vec![boxed::page(carpentry, paper), views::page(carpentry, paper)];
    out.extend(cuts::pages(carpentry, paper));
    out.extend(panels::pages(carpentry, paper));
    for view in carpentry
        .control
        .iter()
        .flat_map(|c| control::pages(c, paper))
    {
        out.push(Page {
            title: "Control panel".to_owned(),
            scale: view.scale,
            drawing: view.drawing,
            notes: view.notes,
        });
    }
    out.extend(corners::pages(carpentry, loose(project), paper));
    out.extend(glue::pages(carpentry, paper));
    out.extend(access::pages(carpentry, paper));
    out
}

/// The wall that is screwed on and comes off again.
fn loose(project: &Project) -> Option<wood::Wall> {
    let said = &project.design.enclosure.carpentry;
    (said.last_with.value == Closing::Screws).then(|| wall(said.last.value))
}
