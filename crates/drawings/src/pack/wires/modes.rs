//! Which switch stands where, and what is live.

use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table};
use studies::electrics::{Electrics, ModeState};
use studies::words;
use wiring::Kind;

pub(super) fn blocks(electrics: &Electrics) -> Vec<Box<dyn Block>> {
    let mut out: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "Where the switches stand",
            "and what is plugged in, in every mode the box is used in",
        )),
        Box::new(table(electrics, positions(electrics))),
        Box::new(Heading::new(
            "What is live",
            "● supplied; the rest is dead, down to its own wires",
        )),
        Box::new(table(electrics, live(electrics))),
        Box::new(Heading::new(
            "What the battery gives",
            "over the long run; a meter in the fuse's place reads this",
        )),
        Box::new(table(electrics, currents(electrics))),
    ];
    if let Some(fuse) = &electrics.fuse {
        let text = format!(
            "The battery's fuse, {}, carries {} in every mode and blows before the thinnest wire \
             behind it passes {}. Only a fuse rated for direct current at the battery's voltage \
             goes in.",
            words::prefixed(fuse.current, "A"),
            words::prefixed(electrics.supply.continuous, "A"),
            words::prefixed(fuse.most, "A"),
        );
        out.push(Box::new(Paragraph::new(&text)));
    }
    out
}

/// A row of a table: its name and a field for every mode.
type Row = (String, Vec<String>);

fn table(electrics: &Electrics, rows: Vec<Row>) -> Table {
    let modes = electrics.modes.iter();
    let columns = modes.map(|m| Column::new(&m.mode.name, Align::Left, 1.0));
    let first = Column::new("", Align::Left, 1.2);
    let rows = rows.into_iter().map(|(name, fields)| {
        let fields = fields.into_iter().map(Cell::from);
        std::iter::once(Cell::from(name).strong())
            .chain(fields)
            .collect()
    });
    Table {
        columns: std::iter::once(first).chain(columns).collect(),
        rows: rows.collect(),
    }
}

fn each(electrics: &Electrics, said: impl Fn(&ModeState) -> String) -> Vec<String> {
    electrics.modes.iter().map(said).collect()
}

fn positions(electrics: &Electrics) -> Vec<Row> {
    let parts = electrics.system.parts.iter().enumerate();
    let switching = parts.filter(|(_, part)| part.positions.len() > 1);
    switching
        .map(|(i, part)| {
            let fields = each(electrics, |m| part.positions[m.mode.positions[i]].clone());
            (part.name.clone(), fields)
        })
        .collect()
}

fn live(electrics: &Electrics) -> Vec<Row> {
    let takes = |kind: Kind| {
        matches!(
            kind,
            Kind::Amplifier
                | Kind::Converter
                | Kind::Radio
                | Kind::Indicator
                | Kind::Light
                | Kind::Meter
        )
    };
    let parts = electrics.system.parts.iter().enumerate();
    let mut rows: Vec<Row> = parts
        .filter(|(_, part)| takes(part.kind))
        .map(|(i, part)| {
            let fields = each(electrics, |m| mark(m.live.contains(&i)));
            (part.name.clone(), fields)
        })
        .collect();
    if electrics.modes.iter().any(|m| m.charges) {
        let fields = each(electrics, |m| mark(m.charges));
        rows.push(("charger to battery".to_owned(), fields));
    }
    rows
}

fn mark(yes: bool) -> String {
    if yes { "●" } else { "–" }.to_owned()
}

fn currents(electrics: &Electrics) -> Vec<Row> {
    vec![
        (
            "nothing playing".to_owned(),
            each(electrics, |m| words::prefixed(m.idle, "A")),
        ),
        (
            "loudest programme".to_owned(),
            each(electrics, |m| words::prefixed(m.continuous, "A")),
        ),
    ]
}
