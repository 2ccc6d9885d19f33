//! What other parts of the shelf would change in every promise.

use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table};
use studies::Report;
use studies::check::Severity;
use studies::money::{Changed, Swap};
use studies::report::Promise;
use studies::words;

pub(super) fn blocks(report: &Report) -> Vec<Box<dyn Block>> {
    if report.money.swaps.is_empty() {
        return Vec::new();
    }
    let remark = "one part changed, everything else as it is; as designed, without bands";
    vec![
        Box::new(Heading::new("What another part would change", remark)),
        Box::new(table(report)),
        Box::new(Paragraph::remark(NOTE)),
    ]
}

const NOTE: &str = "Each line was studied like the design itself, with its text changed; wire and \
     finish are counted anew, the few parts of the indicator as for the design as it is. To take \
     one, change the part's name in the design file and check again.";

fn table(report: &Report) -> Table {
    let promise = |promise: &Promise| Column::new(promise.title, Align::Right, 1.3);
    let mut columns = vec![
        Column::new("in place of", Align::Left, 3.2),
        Column::new("take", Align::Left, 3.2),
    ];
    columns.extend(report.promises.iter().map(promise));
    columns.push(Column::new("can it be built", Align::Left, 4.4));
    let mut before = "";
    let mut rows = Vec::new();
    for swap in &report.money.swaps {
        let line = if before == swap.line {
            ""
        } else {
            swap.line.as_str()
        };
        before = &swap.line;
        let mut row = vec![Cell::from(line).muted(), Cell::from(swap.part.as_str())];
        row.extend(changes(swap, &report.promises));
        row.push(built(swap));
        rows.push(row);
    }
    Table { columns, rows }
}

fn changes(swap: &Swap, promises: &[Promise]) -> Vec<Cell> {
    match &swap.outcome {
        Ok(changed) => promises
            .iter()
            .zip(&changed.promises)
            .map(|(promise, (_, by))| Cell::from(words::change(*by, &promise.unit)))
            .collect(),
        Err(_) => promises.iter().map(|_| Cell::from("–")).collect(),
    }
}

/// Whether it can be built, and what it brings or clears.
fn built(swap: &Swap) -> Cell {
    match &swap.outcome {
        Err(why) => Cell::from(format!("no: {why}")),
        Ok(changed) if changed.can_be_built() => Cell::from(remarks(changed)).muted(),
        Ok(changed) => Cell::from(format!("no: {}", list(&changed.brings, Severity::Stop))),
    }
}

fn remarks(changed: &Changed) -> String {
    let mut said = vec!["yes".to_owned()];
    let cautions = list(&changed.brings, Severity::Caution);
    if !cautions.is_empty() {
        said.push(format!("But: {cautions}"));
    }
    let clears = list(&changed.clears, Severity::Stop);
    if !clears.is_empty() {
        said.push(format!("Clears: {clears}"));
    }
    if !changed.unpriced.is_empty() {
        said.push(format!("No price known: {}", changed.unpriced.join(", ")));
    }
    said.join(". ")
}

/// Titles named at most.
const NAMED: usize = 3;

fn list(titles: &[(Severity, String)], severity: Severity) -> String {
    let own = titles.iter().filter(|(of, _)| *of == severity);
    let own: Vec<&str> = own.map(|(_, title)| title.as_str()).collect();
    let more = own.len().saturating_sub(NAMED);
    let mut said = own[..own.len().min(NAMED)].join("; ");
    if more > 0 {
        said += &format!("; {more} more");
    }
    said
}
