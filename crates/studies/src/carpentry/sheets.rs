//! How each kind of sheet is sawn, and how many have to be bought.

use super::model::{CutLine, SheetPlan};
use super::plan::Sheets;
use super::workshop::Workshop;
use crate::memo::Memo;
use design::{Design, Grain, Offcut, Project, SheetPart};
use std::sync::Arc;
use wood::sawing::{Blank, Effort, Layout, SawLimits, Stock, lay_out};
use wood::{PanelId, Wall};

/// The ring in the order in which its grain runs around the box.
const RING: [Wall; 4] = [Wall::Left, Wall::Top, Wall::Right, Wall::Bottom];

/// What is cut from what, with which saw.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Job {
    blanks: Vec<Blank>,
    stock: Vec<Stock>,
    saw: SawLimits,
}

/// Layouts met so far.
pub(crate) type Layouts = Memo<Job, Layout>;

impl Workshop {
    /// A layout, in as much detail as is wanted or in which it is known.
    fn laid_out(&self, job: Job, effort: Effort) -> Arc<Layout> {
        let lay_out = |job: &Job| lay_out(&job.blanks, &job.stock, &job.saw, effort);
        self.layouts.of(job, |job| {
            if effort == Effort::NORMAL {
                Layout::clone(&self.built.of(job.clone(), lay_out))
            } else {
                lay_out(job)
            }
        })
    }
}

/// What the saw of a design can do.
pub(crate) fn saw_limits(design: &Design) -> SawLimits {
    let saw = &design.saw;
    let usual = saw.kind.value.usual();
    let or = |value: Option<design::Value>, usual: f64| value.map_or(usual, |value| value.si);
    SawLimits {
        kerf: or(saw.kerf, usual.kerf),
        trim: or(saw.trim, usual.trim),
        longest: or(saw.longest, usual.longest),
        narrowest: or(saw.narrowest, usual.narrowest),
    }
}

/// Every kind of sheet of a design and how it is sawn.
pub(crate) fn plans(
    project: &Project,
    sheets: &Sheets,
    cut_list: &[CutLine],
    workshop: &Workshop,
    effort: Effort,
) -> Vec<SheetPlan> {
    let saw = saw_limits(&project.design);
    (0..sheets.count())
        .map(|kind| {
            let part = sheets.part(kind);
            let name = &part.common.name.text;
            let (blanks, letters) = blanks(&project.design, cut_list, name);
            let job = Job {
                blanks,
                stock: stock(part, &project.shelf.offcuts),
                saw,
            };
            let layout = workshop.laid_out(job.clone(), effort);
            plan(part, letters, job, layout)
        })
        .filter(|plan| !plan.blanks.is_empty())
        .collect()
}

fn plan(part: &SheetPart, letters: Vec<String>, job: Job, layout: Arc<Layout>) -> SheetPlan {
    let area = |sides: [f64; 2]| sides[0] * sides[1];
    let mut kept = 0.0;
    for sheet in &layout.sheets {
        kept += sheet
            .pieces
            .iter()
            .map(|piece| area([piece.length, piece.width]))
            .sum::<f64>();
        kept += sheet
            .offcuts
            .iter()
            .map(|rest| area([rest[2], rest[3]]))
            .sum::<f64>();
    }
    SheetPlan {
        sheet: part.common.name.text.clone(),
        part: part.clone(),
        blanks: job.blanks,
        letters,
        stock: job.stock,
        waste: if layout.area > 0.0 {
            (1.0 - kept / layout.area).clamp(0.0, 1.0)
        } else {
            0.0
        },
        kerf_and_trim: [job.saw.kerf, job.saw.trim],
        layout: Arc::unwrap_or_clone(layout),
    }
}

/// What lies in the drawer, offcuts first, and the whole sheets that can be bought.
fn stock(part: &SheetPart, offcuts: &[Offcut]) -> Vec<Stock> {
    let name = &part.common.name.text;
    let own = offcuts.iter().filter(|offcut| offcut.sheet.text == *name);
    let mut stock: Vec<Stock> = own
        .filter(|offcut| offcut.count > 0)
        .map(|offcut| Stock {
            name: "offcut".into(),
            length: offcut.length.si,
            width: offcut.width.si,
            count: Some(offcut.count as usize),
            whole: false,
        })
        .collect();
    let whole = |name: &str, count| Stock {
        name: name.into(),
        length: part.length.si,
        width: part.width.si,
        count,
        whole: true,
    };
    if part.common.on_hand > 0 {
        stock.push(whole("sheet on hand", Some(part.common.on_hand as usize)));
    }
    stock.push(whole("sheet to buy", None));
    stock
}

/// Whole sheets that a plan cuts into, on hand or bought.
pub(crate) fn whole_sheets(plan: &SheetPlan) -> usize {
    let used = plan.layout.sheets.iter();
    used.filter(|sheet| plan.stock[sheet.stock].whole).count()
}

/// The blanks of one kind of sheet with their letters: first those of the ring, in the
/// order of the grain around the box.
fn blanks(design: &Design, cut_list: &[CutLine], sheet: &str) -> (Vec<Blank>, Vec<String>) {
    let run = runs_around(design);
    let own = cut_list.iter().filter(|line| line.sheet == sheet);
    let mut all: Vec<(usize, Blank, String)> = Vec::new();
    for line in own {
        let panels = line.panels.iter().map(Some);
        // The plate of the control panel is no panel of the box.
        let plate = line.panels.is_empty().then_some(None);
        for panel in panels.chain(plate) {
            let ring = panel.and_then(|id| match id {
                PanelId::Wall(wall) => RING.iter().position(|of| of == wall),
                PanelId::Board(_) => None,
            });
            let (length, width) = match line.grain {
                Some(1) => (line.long[1], line.long[0]),
                _ => (line.long[0], line.long[1]),
            };
            let blank = Blank {
                name: line.name.clone(),
                length,
                width,
                turns: line.grain.is_none(),
                run: ring.filter(|_| run).map(|_| 0),
            };
            all.push((ring.unwrap_or(RING.len()), blank, line.letter.clone()));
        }
    }
    all.sort_by_key(|(order, ..)| *order);
    all.into_iter()
        .map(|(_, blank, letter)| (blank, letter))
        .unzip()
}

/// Whether the grain is to run around the box: where a wall of the ring says so and none
/// says otherwise.
fn runs_around(design: &Design) -> bool {
    let walls = design.enclosure.carpentry.walls.iter();
    let mut said = walls
        .filter(|own| RING.contains(&super::plan::wall(own.side)))
        .filter_map(|own| own.grain.map(|grain| grain.value))
        .peekable();
    said.peek().is_some() && said.all(|grain| grain == Grain::Around)
}
