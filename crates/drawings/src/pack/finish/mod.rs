//! The finish: what goes on, day by day, what stays bare, and what can hurt.

mod amounts;
mod days;
mod masked;
mod said;

use crate::layout::{Block, Heading, Paragraph};
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
    let mut out: Vec<Box<dyn Block>> = vec![Box::new(Heading::new(
        "Before and after",
        "what goes before the coats, what waits",
    ))];
    for (when, title) in [
        (When::Before, "Before"),
        (When::Handled, "Once it may be touched"),
        (When::Cured, "Once it has cured"),
    ] {
        let own = finish.sequence.iter().filter(|turn| turn.when == when);
        out.extend(own.map(|turn| {
            let text = format!("{title}: {}.", turn.words);
            Box::new(Paragraph::new(&text)) as Box<dyn Block>
        }));
    }
    out
}

fn offcut(finish: &Finish) -> Vec<Box<dyn Block>> {
    let ahead = format!("begun {} before the box", said::span(finish.offcut_wait));
    let heading = Box::new(Heading::new("Try it on an offcut", &ahead)) as Box<dyn Block>;
    let texts = finish.offcut.iter();
    let texts = texts.map(|text| Box::new(Paragraph::new(text)) as Box<dyn Block>);
    std::iter::once(heading).chain(texts).collect()
}
