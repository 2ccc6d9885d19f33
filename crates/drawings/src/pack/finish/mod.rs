//! The finish: what goes on, day by day, what stays bare, and what can hurt.

mod amounts;
mod days;
mod masked;
mod said;

use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::role::Role;
use studies::Report;
use studies::finish::{Finish, When};

const NOTE: &str = "Times and coverage are those of the shelf; what stands on the can comes first. \
     Amounts, grits, hands-on times and what holds on what: common practice, no source.";

/// The finish; where none is named, what that means.
pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let finish = &report.finish;
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    if let Some(raw) = finish.raw {
        blocks.push(Box::new(Heading::new("Left raw", "")));
        blocks.push(Box::new(Paragraph::new(raw)));
        blocks.extend(amounts::faces(finish));
        return flowed("Finish", &blocks, paper, 2);
    }
    blocks.extend(amounts::blocks(finish));
    blocks.extend(amounts::faces(finish));
    blocks.extend(days::blocks(finish));
    blocks.extend(turns(finish));
    blocks.extend(offcut(finish));
    blocks.extend(masked::blocks(finish, &report.carpentry));
    blocks.push(Box::new(Heading::new("Air", "")));
    blocks.extend(said(&finish.air));
    blocks.push(Box::new(Heading::new("What can hurt", "")));
    blocks.extend(finish.cautions.iter().map(|text| {
        Box::new(Paragraph {
            role: Role::Caution,
            ..Paragraph::new(text)
        }) as Box<dyn Block>
    }));
    let mut pages = flowed("Finish", &blocks, paper, 2);
    if let Some(first) = pages.first_mut() {
        first.notes.push(NOTE.to_owned());
    }
    pages
}

fn said(texts: &[&str]) -> Vec<Box<dyn Block>> {
    let blocks = texts.iter().map(|text| Box::new(Paragraph::new(text)) as _);
    blocks.collect()
}

/// What is done before the finish and after it.
fn turns(finish: &Finish) -> Vec<Box<dyn Block>> {
    let mut before = None;
    let rows = finish.sequence.iter().map(|turn| {
        let when = match turn.when {
            _ if before == Some(turn.when) => "",
            When::Before => "before",
            When::Handled => "once it may be touched",
            When::Cured => "once it has cured",
        };
        before = Some(turn.when);
        vec![Cell::from(when).strong(), Cell::from(turn.words.as_str())]
    });
    let table = Table {
        rows: rows.collect(),
        columns: vec![
            Column::new("", Align::Left, 2.0),
            Column::new("", Align::Left, 7.0),
        ],
    };
    vec![
        Box::new(Heading::new("Before and after the coats", "")),
        Box::new(table),
    ]
}

fn offcut(finish: &Finish) -> Vec<Box<dyn Block>> {
    let ahead = format!("begun {} before the box", said::span(finish.offcut_wait));
    let heading = Box::new(Heading::new("Try it on an offcut", &ahead)) as Box<dyn Block>;
    let texts = finish.offcut.iter();
    let texts = texts.map(|text| Box::new(Paragraph::new(text)) as Box<dyn Block>);
    std::iter::once(heading).chain(texts).collect()
}
