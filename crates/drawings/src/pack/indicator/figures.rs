//! Figures, parts and steps as tables.

use super::circuit::{prefixed, value};
use crate::layout::{Align, Block, Cell, Column, Heading, Ledger, Paragraph, Table};
use crate::text::number;
use studies::indicator::{Built, CutOff, Indicator, Part, Reading, Threshold};
use studies::words;

pub(super) fn blocks(indicator: &Indicator, built: &Built) -> Vec<Box<dyn Block>> {
    let mut blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "What it does",
            "as designed; in brackets at worst",
        )),
        Box::new(figures(indicator, built)),
    ];
    for remark in &indicator.remarks {
        blocks.push(Box::new(Paragraph::remark(remark)));
    }
    blocks.push(Box::new(Heading::new("Parts", "")));
    blocks.push(Box::new(parts(&built.parts)));
    blocks.push(Box::new(Heading::new(
        "Test and set",
        "one after the other",
    )));
    blocks.push(Box::new(steps(built)));
    if !indicator.alternatives.is_empty() {
        blocks.push(Box::new(Heading::new(
            "Other ways",
            "each with its best values",
        )));
        blocks.push(Box::new(others(indicator)));
    }
    blocks
}

/// What a cut-off does, and its parts.
pub(super) fn cut_off(of: &CutOff) -> Vec<Box<dyn Block>> {
    let mut rows = vec![
        ("disconnects below".to_owned(), threshold(&of.falling)),
        (
            "would come back by itself at".to_owned(),
            format!("{}, which the battery never has", volts(of.rising)),
        ),
        ("draws while joined".to_owned(), prefixed(of.dark, "A")),
    ];
    if of.loss > 0.0 {
        rows.push((
            "loses at the mean current".to_owned(),
            prefixed(of.loss, "V"),
        ));
    }
    vec![
        Box::new(Heading::new(
            "What the cut-off does",
            "as designed; in brackets at worst",
        )),
        Box::new(Ledger {
            rows,
            summed: false,
        }),
        Box::new(Heading::new("Parts of the cut-off", "")),
        Box::new(parts(&of.parts)),
    ]
}

fn volts(value: f64) -> String {
    format!("{}\u{a0}V", number(value, 2))
}

fn threshold(of: &Threshold) -> String {
    format!(
        "{} ({} to {})",
        volts(of.volts),
        number(of.least, 2),
        volts(of.most)
    )
}

fn figures(indicator: &Indicator, built: &Built) -> Ledger {
    let minutes = |seconds: f64| number(seconds / 60.0, 0);
    let mut rows = vec![
        ("lights below".to_owned(), threshold(&built.falling)),
        ("goes out above".to_owned(), threshold(&built.rising)),
        (
            "music left when it lights".to_owned(),
            format!("{}\u{a0}min", minutes(built.left)),
        ),
        (
            "in eight builds of ten".to_owned(),
            format!(
                "{} to {}\u{a0}min",
                minutes(built.left_band.p10),
                minutes(built.left_band.p90)
            ),
        ),
        (
            format!(
                "less than the {} min wanted",
                minutes(indicator.wanted.warning)
            ),
            words::number(100.0 * built.too_late, "of 100"),
        ),
        (
            "waits before it lights".to_owned(),
            format!("{}\u{a0}s", number(built.delay, 1)),
        ),
        (
            "draws with the lamp dark".to_owned(),
            prefixed(built.dark, "A"),
        ),
        (
            "draws with the lamp lit".to_owned(),
            prefixed(built.lit, "A"),
        ),
        ("through the lamp".to_owned(), prefixed(built.lamp, "A")),
        ("draws when switched off".to_owned(), "nothing".to_owned()),
        (
            "battery sags on the mean, at peaks".to_owned(),
            format!(
                "{}, {}",
                prefixed(indicator.sag.mean, "V"),
                prefixed(indicator.sag.peak, "V")
            ),
        ),
    ];
    if let Some(most) = built.causes.first() {
        rows.push((
            format!("most of the spread: {}", most.words),
            format!("±{}", prefixed(most.volts, "V")),
        ));
    }
    Ledger {
        rows,
        summed: false,
    }
}

fn parts(all: &[Part]) -> Table {
    let all = all.iter();
    let rows = all
        .map(|part| {
            let tolerance = part
                .tolerance
                .map(|share| format!(" ±{} %", number(100.0 * share, 1).trim_end_matches(".0")));
            vec![
                Cell::from(part.mark.as_str()).strong(),
                Cell::from(format!("{}{}", value(part), tolerance.unwrap_or_default())),
                Cell::from(part.does),
                Cell::from(
                    part.name
                        .clone()
                        .unwrap_or_else(|| "not on the shelf".to_owned()),
                )
                .muted(),
            ]
        })
        .collect();
    Table {
        columns: vec![
            Column::new("", Align::Left, 0.9),
            Column::new("value", Align::Left, 2.6),
            Column::new("what it does", Align::Left, 4.0),
            Column::new("shelf", Align::Left, 4.2),
        ],
        rows,
    }
}

fn steps(built: &Built) -> Table {
    let all = built.steps.iter().enumerate();
    let rows = all
        .map(|(i, step)| {
            vec![
                Cell::from((i + 1).to_string()).strong(),
                Cell::from(step.act.as_str()),
                Cell::from(step.reads.as_ref().map_or_else(String::new, reading)).strong(),
                Cell::from(step.otherwise.as_str()).muted(),
            ]
        })
        .collect();
    Table {
        columns: vec![
            Column::new("", Align::Left, 0.5),
            Column::new("do", Align::Left, 5.0),
            Column::new("should read", Align::Left, 2.6),
            Column::new("if not", Align::Left, 3.6),
        ],
        rows,
    }
}

fn reading(of: &Reading) -> String {
    if of.unit == "A" {
        let milli = |amperes: f64| number(1e3 * amperes, if amperes < 1e-3 { 2 } else { 1 });
        return format!(
            "{} ({} to {})\u{a0}mA",
            milli(of.value),
            milli(of.band[0]),
            milli(of.band[1])
        );
    }
    format!(
        "{} ({} to {})\u{a0}{}",
        number(of.value, 2),
        number(of.band[0], 2),
        number(of.band[1], 2),
        of.unit
    )
}

fn others(indicator: &Indicator) -> Table {
    let rows = indicator
        .alternatives
        .iter()
        .map(|other| {
            let [least, nominal, most] = other.falling;
            let divider: Vec<String> = other
                .divider
                .iter()
                .map(|ohms| prefixed(*ohms, "Ω"))
                .collect();
            vec![
                Cell::from(format!("{}, {}", other.comparator, other.reference)),
                Cell::from(format!(
                    "{} ({} to {})",
                    number(nominal, 2),
                    number(least, 2),
                    volts(most)
                )),
                Cell::from(prefixed(other.dark, "A")),
                Cell::from(divider.join(", ")).muted(),
            ]
        })
        .collect();
    Table {
        columns: vec![
            Column::new("comparator and reference", Align::Left, 4.6),
            Column::new("lights below", Align::Left, 2.8),
            Column::new("draws", Align::Right, 1.4),
            Column::new("divider", Align::Left, 3.0),
        ],
        rows,
    }
}
