//! The pack: what a design and its report become on paper.

mod accounts;
mod assumed;
mod brief;
mod cautions;
mod curves;
mod findings;
mod finish;
mod first;
mod indicator;
mod money;
mod order;
mod say;
mod signal;
mod warmth;
mod wires;
mod wood;

pub use curves::chart_of;

use crate::date::Date;
use crate::layout::{Block, Paragraph, TitleBlock, content_area, flow, notes_area, stacked};
use crate::paper::Paper;
use crate::sheet::{Drawing, Item, Sheet};
use crate::text::{Weight, missing};
use design::Project;
use studies::Report;

/// A page before it is known how many there are.
pub(crate) struct Page {
    title: String,
    scale: String,
    drawing: Drawing,
    /// How to read it, for the strip left of the title block.
    notes: Vec<String>,
}

impl Page {
    fn new(title: impl Into<String>, drawing: Drawing) -> Self {
        Self {
            title: title.into(),
            scale: "no drawing to scale".to_owned(),
            drawing,
            notes: Vec::new(),
        }
    }

    fn noted(self, note: &str) -> Self {
        let mut notes = self.notes;
        notes.push(note.to_owned());
        Self { notes, ..self }
    }
}

/// Every sheet of the pack, numbered, in the order of reading: the brief with
/// the promises and the box, what is wrong and how to mend it, the curves,
/// the accounts behind the numbers, and what was assumed.
#[must_use]
pub fn pack(project: &Project, report: &Report, paper: Paper, date: Option<Date>) -> Vec<Sheet> {
    let mut pages = vec![first::page(project, report, paper)];
    pages.extend(findings::pages(project, report, paper));
    pages.extend(curves::pages(project, report, paper));
    pages.extend(accounts::pages(report, paper));
    pages.extend(money::pages(report, paper));
    pages.extend(wood::pages(project, report, paper));
    pages.extend(wires::pages(report, paper));
    pages.extend(finish::pages(report, paper));
    pages.extend(indicator::pages(report, paper));
    pages.extend(signal::pages(report, paper));
    pages.extend(warmth::pages(report, paper));
    pages.extend(order::pages(report, paper));
    pages.extend(assumed::pages(report, paper));
    let lacking = |page: &Page| lacks_letters(&page.drawing.items);
    if !missing(&report.name, Weight::Bold).is_empty() || pages.iter().any(lacking) {
        let note = "Characters this font does not hold are shown as ?.";
        pages[0].notes.push(note.to_owned());
    }
    let count = pages.len();
    pages
        .into_iter()
        .enumerate()
        .map(|(i, page)| sheet(page, i + 1, count, report, paper, date))
        .collect()
}

/// Whether any text has characters that the font does not hold.
fn lacks_letters(items: &[Item]) -> bool {
    items.iter().any(|item| match item {
        Item::Text(text) => !missing(&text.content, text.letters.weight).is_empty(),
        Item::Group(_, inside) => lacks_letters(inside),
        Item::Shape(..) => false,
    })
}

fn sheet(
    page: Page,
    number: usize,
    count: usize,
    report: &Report,
    paper: Paper,
    date: Option<Date>,
) -> Sheet {
    let title = TitleBlock {
        project: report.name.clone(),
        title: page.title,
        number,
        count,
        scale: page.scale,
        revision: report.revision.map_or(String::new(), |r| r.to_string()),
        date: date.map_or(String::new(), |d| d.to_string()),
        paper,
    };
    let mut sheet = title.sheet();
    sheet.drawing.append(page.drawing);
    let area = notes_area(paper);
    let notes: Vec<Box<dyn Block>> = page
        .notes
        .iter()
        .map(|n| Box::new(Paragraph::remark(n)) as Box<dyn Block>)
        .collect();
    let (notes, _) = stacked(&notes, area.corners()[0], area.w);
    sheet.drawing.append(notes);
    sheet
}

/// Blocks over as many pages as they need, all with one title.
fn flowed(title: &str, blocks: &[Box<dyn Block>], paper: Paper, columns: usize) -> Vec<Page> {
    flow(blocks, content_area(paper), columns, 9.0)
        .into_iter()
        .map(|drawing| Page::new(title, drawing))
        .collect()
}
