//! What was taken for granted: every prior, default and spread.

use super::{Page, flowed, say};
use crate::layout::{Align, Block, Cell, Column, Heading, Table};
use crate::paper::Paper;
use studies::Report;
use studies::report::Assumption;

pub(crate) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    for (kind, heading, remark) in [
        (
            "prior",
            "Guessed",
            "no data: a prior by size and kind; measuring narrows it",
        ),
        (
            "usual",
            "Usual spreads",
            "nothing stated: the spread parts and work usually have",
        ),
        ("stated", "Stated", "tolerances of the design and the shelf"),
    ] {
        let rows: Vec<Vec<Cell>> = report
            .assumptions
            .iter()
            .filter(|a| a.kind == kind)
            .map(row)
            .collect();
        if !rows.is_empty() {
            blocks.push(Box::new(Heading::new(heading, remark)));
            blocks.push(Box::new(table(rows)));
        }
    }
    let note = format!(
        "{} builds were drawn within these spreads, each cause by itself, always the same ones \
         for the same file. Sources are keys of the bibliography.",
        report.builds
    );
    flowed("What was assumed", &blocks, paper, 1)
        .into_iter()
        .map(|p| p.noted(&note))
        .collect()
}

fn row(line: &Assumption) -> Vec<Cell> {
    vec![
        Cell::from(line.label.as_str()),
        Cell::from(say::engineering(line.nominal, line.unit)),
        Cell::from(line.spread.as_str()),
        Cell::from(line.why).muted(),
        Cell::from(line.source).muted(),
    ]
}

fn table(rows: Vec<Vec<Cell>>) -> Table {
    Table {
        columns: vec![
            Column::new("value", Align::Left, 4.2),
            Column::new("nominal", Align::Right, 1.4),
            Column::new("spread", Align::Left, 1.9),
            Column::new("because", Align::Left, 4.2),
            Column::new("source", Align::Left, 2.6),
        ],
        rows,
    }
}
