//! Cut list and sheet layouts.

use super::cutting::SheetFigure;
use super::words::{counted, holes, percent, size};
use crate::boxview::mm;
use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::text::number;
use studies::carpentry::{Carpentry, CutLine, SheetPlan};

pub(super) fn pages(carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let mut blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "Cut list",
            "in mm; blank: the smallest rectangle around both faces; face: the smaller of the two",
        )),
        Box::new(table(carpentry)),
    ];
    for plan in &carpentry.sheets {
        sheets(plan, &mut blocks);
    }
    for caution in CAUTIONS {
        blocks.push(Box::new(Paragraph::remark(caution)));
    }
    flowed("Cuts", &blocks, paper, 1)
        .into_iter()
        .map(|page| {
            page.noted(
                "Saw along the numbered cuts in their order; each goes right through the piece \
                 in hand. The kerf is allowed for. Arrow: face grain. Measure the real \
                 thickness of your sheet first: every size above follows from it.",
            )
        })
        .collect()
}

const CAUTIONS: [&str; 2] = [
    "Saw: work clamped or guided, guard on, riving knife where the saw has one, push stick for \
     narrow strips, hands clear of the blade. The manual of your saw comes before this sheet.",
    "Dust of wood and boards harms the lungs: extraction on, and a dust mask rated for fine \
     dust. Eyes and ears covered.",
];

fn table(carpentry: &Carpentry) -> Table {
    let column = |name: &str, share: f64| Column::new(name, Align::Left, share);
    let rows = carpentry.cut_list.iter().map(|line| row(carpentry, line));
    Table {
        columns: vec![
            column("", 0.7),
            column("panel", 3.0),
            Column::new("pieces", Align::Right, 0.8),
            column("blank", 2.1),
            column("face", 2.1),
            column("sheet", 2.8),
            column("grain along", 1.6),
            column("edges", 4.2),
            column("then", 4.6),
        ],
        rows: rows.collect(),
    }
}

fn row(carpentry: &Carpentry, line: &CutLine) -> Vec<Cell> {
    let short = size(line.short);
    let short = if short == size(line.long) {
        "the same".to_owned()
    } else {
        short
    };
    let panel = line.panels.first().and_then(|id| carpentry.body.panel(*id));
    let then = panel.map(holes).filter(|said| !said.is_empty());
    let grain = match line.grain {
        Some(axis) => mm(line.long[axis.min(1)]),
        None => "either".to_owned(),
    };
    vec![
        Cell::from(line.letter.as_str()).strong(),
        Cell::from(line.name.as_str()),
        Cell::from(line.panels.len().max(1).to_string()),
        Cell::from(size(line.long)),
        Cell::from(short).muted(),
        Cell::from(format!("{}, {} mm", line.sheet, mm(line.thickness))).muted(),
        Cell::from(grain),
        Cell::from(line.edges.as_str()),
        Cell::from(then.unwrap_or_else(|| "–".to_owned())),
    ]
}

/// The sheets of one kind, each with its drawing.
fn sheets(plan: &SheetPlan, blocks: &mut Vec<Box<dyn Block>>) {
    let [kerf, trim] = plan.kerf_and_trim;
    let count = plan.layout.sheets.len();
    for (i, sheet) in plan.layout.sheets.iter().enumerate() {
        let Some(stock) = plan.stock.get(sheet.stock) else {
            continue;
        };
        let of = if count > 1 {
            format!(", {} of {count}", i + 1)
        } else {
            String::new()
        };
        let remark = format!(
            "{} mm; kerf {} mm, {} mm trimmed off factory edges",
            size([stock.length, stock.width]),
            mm(kerf),
            mm(trim)
        );
        blocks.push(Box::new(Heading::new(
            &format!("{}{of}", stock.name),
            &remark,
        )));
        blocks.push(Box::new(SheetFigure::new(plan, i)));
    }
    if count > 0 {
        blocks.push(Box::new(Paragraph::new(&proof(plan))));
    }
    if !plan.layout.left_over.is_empty() {
        let names: Vec<String> = plan
            .layout
            .left_over
            .iter()
            .map(|i| piece_name(plan, *i))
            .collect();
        blocks.push(Box::new(Paragraph {
            role: crate::role::Role::Stop,
            ..Paragraph::new(&format!("Fits on no sheet: {}.", counted(&names)))
        }));
    }
}

/// Letter and name of a blank.
pub(super) fn piece_name(plan: &SheetPlan, blank: usize) -> String {
    let letter = plan.letters.get(blank).map_or("", String::as_str);
    let name = plan.blanks.get(blank).map_or("", |b| b.name.as_str());
    if letter == name || letter.is_empty() {
        name.to_owned()
    } else {
        format!("{letter} {name}")
    }
}

/// What is proven about a layout.
fn proof(plan: &SheetPlan) -> String {
    let layout = &plan.layout;
    let area = |m2: f64| format!("{} m²", number(m2, 3));
    let offcuts = layout.sheets.iter().flat_map(|s| s.offcuts.first());
    let largest = offcuts.map(|[_, _, l, w]| l * w).fold(0.0, f64::max);
    let best = if layout.proven {
        " No layout that cuts into as little leaves a larger offcut, proven.".to_owned()
    } else {
        format!(
            " The largest offcut is {}; no layout on as few sheets leaves more than {}.",
            area(largest),
            area(layout.offcut_bound.max(largest))
        )
    };
    let sparing = if layout.area > 1.001 * layout.least_area {
        format!(
            " {} of sheets and offcuts are cut into; no layout does with less than {}.",
            area(layout.area),
            area(layout.least_area)
        )
    } else {
        String::new()
    };
    let waste = format!(
        " {} of what is cut into is lost in saw cuts, trim and scrap.",
        percent(plan.waste)
    );
    bought(plan) + &sparing + &best + &waste
}

/// How many sheets have to be bought, and how few could do.
fn bought(plan: &SheetPlan) -> String {
    let sheets = |n: usize| match n {
        1 => "1 sheet".to_owned(),
        n => format!("{n} sheets"),
    };
    let (bought, fewest) = (plan.layout.bought, plan.layout.fewest);
    match (bought, bought.saturating_sub(fewest)) {
        (0, _) => "No sheet has to be bought.".to_owned(),
        (n, 0) => format!("{} to buy: fewer cannot do, proven.", sheets(n)),
        (n, gap) if fewest == 0 => format!(
            "{} to buy; at most {} could be saved.",
            sheets(n),
            sheets(gap)
        ),
        (n, gap) => format!(
            "{} to buy; {fewest} at least, proven, so at most {} could be saved.",
            sheets(n),
            sheets(gap)
        ),
    }
}
