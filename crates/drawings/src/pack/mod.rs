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

pub use curves::{chart_of, discharge_of};
pub use order::{duration, expected};

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

/// What a sheet is about, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// What it takes and costs.
    Parts,
    /// How it sounds.
    Sound,
    /// Battery, signal, heat, the low-battery light.
    Power,
    /// The box as a whole.
    Box,
    /// Panels, joints and how they are cut.
    Cuts,
    /// The control panel.
    Panel,
    /// How it is wired.
    Wires,
    /// The order of the work, the finish, what comes out again.
    Build,
    /// What is wrong and what was assumed: of the whole.
    Whole,
}

type Section = fn(&Project, &Report, Paper) -> Vec<Page>;

/// Every section of the pack in the order of reading.
const SECTIONS: [(Subject, Section); 17] = [
    (Subject::Box, |project, report, paper| {
        vec![first::page(project, report, paper)]
    }),
    (Subject::Whole, findings::pages),
    (Subject::Sound, curves::pages),
    (Subject::Sound, |_, report, paper| {
        accounts::pages(report, paper)
    }),
    (Subject::Parts, |_, report, paper| {
        money::pages(report, paper)
    }),
    (Subject::Box, |_, report, paper| wood::whole(report, paper)),
    (Subject::Cuts, |_, report, paper| {
        wood::panels(report, paper)
    }),
    (Subject::Panel, |_, report, paper| {
        wood::control(report, paper)
    }),
    (Subject::Cuts, wood::corners),
    (Subject::Build, |_, report, paper| {
        wood::joined(report, paper)
    }),
    (Subject::Wires, |_, report, paper| {
        wires::pages(report, paper)
    }),
    (Subject::Build, |_, report, paper| {
        finish::pages(report, paper)
    }),
    (Subject::Power, |_, report, paper| {
        indicator::pages(report, paper)
    }),
    (Subject::Power, |_, report, paper| {
        signal::pages(report, paper)
    }),
    (Subject::Power, |_, report, paper| {
        warmth::pages(report, paper)
    }),
    (Subject::Build, |_, report, paper| {
        order::pages(report, paper)
    }),
    (Subject::Whole, |_, report, paper| {
        assumed::pages(report, paper)
    }),
];

/// What is drawn on one sheet of the pack, without frame and title block.
#[derive(Clone, Debug)]
pub struct Leaf {
    /// What it is about.
    pub subject: Subject,
    /// Its number in the pack, where all sheets were laid out.
    pub number: Option<usize>,
    /// What is on it.
    pub title: String,
    /// The scale it is drawn to, in words.
    pub scale: String,
    /// How to read it.
    pub notes: Vec<String>,
    /// What is drawn.
    pub drawing: Drawing,
}

impl Leaf {
    fn new(subject: Subject, page: Page) -> Self {
        Self {
            subject,
            number: None,
            title: page.title,
            scale: page.scale,
            notes: page.notes,
            drawing: page.drawing,
        }
    }
}

/// What the sheets about one subject show.
#[must_use]
pub fn leaves(project: &Project, report: &Report, paper: Paper, subject: Subject) -> Vec<Leaf> {
    laid_out(project, report, paper, |about| about == subject).collect()
}

/// What all sheets show, numbered.
#[must_use]
pub fn numbered(project: &Project, report: &Report, paper: Paper) -> Vec<Leaf> {
    let leaves = laid_out(project, report, paper, |_| true);
    leaves
        .zip(1..)
        .map(|(leaf, number)| Leaf {
            number: Some(number),
            ..leaf
        })
        .collect()
}

fn laid_out(
    project: &Project,
    report: &Report,
    paper: Paper,
    wanted: impl Fn(Subject) -> bool,
) -> impl Iterator<Item = Leaf> {
    let sections = SECTIONS.iter().filter(move |(about, _)| wanted(*about));
    sections.flat_map(move |(about, section)| {
        let pages = section(project, report, paper).into_iter();
        pages.map(|page| Leaf::new(*about, page))
    })
}

/// Every sheet of the pack, numbered, in the order of reading: the brief with
/// the promises and the box, what is wrong and how to mend it, the curves,
/// the accounts behind the numbers, and what was assumed.
#[must_use]
pub fn pack(project: &Project, report: &Report, paper: Paper, date: Option<Date>) -> Vec<Sheet> {
    let leaves = laid_out(project, report, paper, |_| true);
    bound(leaves.collect(), report, paper, date)
}

/// The sheets of a pack whose leaves are laid out already, all of them and in their order.
#[must_use]
pub fn bound(
    mut leaves: Vec<Leaf>,
    report: &Report,
    paper: Paper,
    date: Option<Date>,
) -> Vec<Sheet> {
    let lacking = |leaf: &Leaf| lacks_letters(&leaf.drawing.items);
    if (!missing(&report.name, Weight::Bold).is_empty() || leaves.iter().any(lacking))
        && let Some(first) = leaves.first_mut()
    {
        let note = "Characters this font does not hold are shown as ?.";
        first.notes.push(note.to_owned());
    }
    let count = leaves.len();
    leaves
        .into_iter()
        .zip(1..)
        .map(|(leaf, number)| sheet(leaf, number, count, report, paper, date))
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
    leaf: Leaf,
    number: usize,
    count: usize,
    report: &Report,
    paper: Paper,
    date: Option<Date>,
) -> Sheet {
    let title = TitleBlock {
        project: report.name.clone(),
        title: leaf.title,
        number,
        count,
        scale: leaf.scale,
        revision: report.revision.map_or(String::new(), |r| r.to_string()),
        date: date.map_or(String::new(), |d| d.to_string()),
        paper,
    };
    let mut sheet = title.sheet();
    sheet.drawing.append(leaf.drawing);
    let area = notes_area(paper);
    let notes: Vec<Box<dyn Block>> = leaf
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
