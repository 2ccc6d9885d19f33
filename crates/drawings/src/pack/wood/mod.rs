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
use studies::Report;

/// Box, views, cuts, panels, corners, gluing up, what goes in and comes out.
pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
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
    out.extend(corners::pages(carpentry, paper));
    out.extend(glue::pages(carpentry, paper));
    out.extend(access::pages(carpentry, paper));
    out
}
