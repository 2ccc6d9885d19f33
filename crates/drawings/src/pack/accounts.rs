//! The accounts behind the promises: air, weight, cost, and single figures.

use super::{Page, flowed, say};
use crate::layout::{Align, Block, Cell, Column, Heading, Ledger, Paragraph, Table};
use crate::paper::Paper;
use crate::text::number;
use studies::money::Line;
use studies::{Report, words};

pub(crate) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    let mut add = |heading: &str, remark: &str, block: Box<dyn Block>| {
        blocks.push(Box::new(Heading::new(heading, remark)));
        blocks.push(block);
    };
    add("Air inside", "nominal", Box::new(air(report)));
    add("Weight", "nominal", Box::new(weight(report)));
    add(
        "Cost",
        "what is still to be bought",
        Box::new(costs(report)),
    );
    let remark = "as designed, and between which eight of ten builds lie";
    add("Figures", remark, Box::new(figures(report)));
    if report.money.unpriced().next().is_some() {
        let text = "A dash: no price in the brief's currency is known, so the sum leaves it out.";
        blocks.push(Box::new(Paragraph::remark(text)));
    }
    flowed("Accounts and figures", &blocks, paper, 2)
}

fn air(report: &Report) -> Ledger {
    let accounts = &report.accounts;
    let litres = |m3: f64| words::number(1000.0 * m3, "L");
    let size = |m: [f64; 3]| m.map(|m| number(1000.0 * m, 0)).join(" × ");
    let mut rows = vec![(
        format!(
            "outside {} mm, walls {} mm",
            size(accounts.outside),
            number(1000.0 * accounts.thickness, 1)
        ),
        litres(accounts.gross),
    )];
    let lines = accounts.air.iter().map(|l| (l.label.clone(), l.volume));
    let lines = small_together(lines.collect(), SMALL / 1000.0);
    rows.extend(
        lines
            .into_iter()
            .map(|(label, volume)| (label, litres(-volume))),
    );
    rows.push(("air left".to_owned(), litres(accounts.net)));
    if accounts.filling_gain > 1.0 {
        let larger = format!("× {}", number(accounts.filling_gain, 2));
        rows.push(("filling makes it act larger".to_owned(), larger));
        let acts = litres(accounts.net * accounts.filling_gain);
        rows.push(("what the cones feel".to_owned(), acts));
    }
    Ledger { rows, summed: true }
}

fn weight(report: &Report) -> Ledger {
    let lines = &report.accounts.weight;
    let named = lines.iter().map(|line| {
        let guessed = if line.known { "" } else { " (guessed)" };
        (format!("{}{guessed}", line.label), line.kilograms)
    });
    let mut rows: Vec<(String, String)> = small_together(named.collect(), SMALL)
        .into_iter()
        .map(|(name, kilograms)| (name, say::kilograms(kilograms)))
        .collect();
    let sum: f64 = lines.iter().map(|l| l.kilograms).sum();
    rows.push(("together".to_owned(), say::kilograms(sum)));
    Ledger { rows, summed: true }
}

/// Below the last digit that is said, in litres and kilograms.
const SMALL: f64 = 0.01;

/// Lines too small to be said, as one line at the end.
fn small_together(lines: Vec<(String, f64)>, digit: f64) -> Vec<(String, f64)> {
    let (small, mut rest): (Vec<_>, Vec<_>) = lines
        .into_iter()
        .partition(|(_, amount)| amount.abs() < digit);
    if let [only] = &small[..] {
        rest.push(only.clone());
    } else if !small.is_empty() {
        let sum = small.iter().map(|(_, amount)| amount).sum();
        rest.push((format!("{} small things", small.len()), sum));
    }
    rest
}

fn costs(report: &Report) -> Ledger {
    let money = &report.money;
    let said = |sum: f64| words::number(sum, &money.currency);
    let row = |line: &Line| (line.label.clone(), line.till().map_or("–".to_owned(), said));
    let mut rows: Vec<(String, String)> = money.lines.iter().map(row).collect();
    rows.push(("to be spent".to_owned(), said(money.till())));
    Ledger { rows, summed: true }
}

fn figures(report: &Report) -> Table {
    let rows = report
        .figures
        .iter()
        .map(|f| {
            vec![
                Cell::from(f.title),
                Cell::from(words::number(f.value, f.unit)),
                Cell::from(say::band(f.p10, f.p90, f.unit)).muted(),
                Cell::from(f.source).muted(),
            ]
        })
        .collect();
    Table {
        columns: vec![
            Column::new("figure", Align::Left, 5.6),
            Column::new("as designed", Align::Right, 1.7),
            Column::new("P10 – P90", Align::Right, 1.9),
            Column::new("source", Align::Left, 1.9),
        ],
        rows,
    }
}
