//! The wires to cut and strip, spool by spool.

use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table};
use crate::math;
use crate::text::{capital, number};
use design::WireColour;
use studies::electrics::{Electrics, Ending, EndingKind, HarnessWire, Spool, colour};
use wiring::Carries;

pub(super) const NOTE: &str = "In the order of cutting: spool by spool, the longest piece first. \
     Lengths hold slack and the loop that lets a part be taken out. Strip lengths are those of the \
     ends named; those of your own terminals come first. Twist the two wires of an output, and \
     those of an input. Tick a wire when it is cut, again when it is in.";

pub(super) fn blocks(electrics: &Electrics) -> Vec<Box<dyn Block>> {
    let mut out: Vec<Box<dyn Block>> = Vec::new();
    for spool in &electrics.spools {
        out.push(Box::new(Heading::new(
            &capital(&spool.label),
            &format!("{} together, lengths in mm", metres(spool.length())),
        )));
        out.push(Box::new(table(electrics, spool)));
    }
    out.push(Box::new(Heading::new(
        "How much of each wire",
        "bought by whole metres of each colour",
    )));
    out.push(Box::new(totals(electrics)));
    if !electrics.assumed.is_empty() {
        let said: Vec<&str> = electrics.assumed.iter().map(|a| a.words.as_str()).collect();
        let text = format!(
            "Assumed, because the design does not name it: {}.",
            said.join("; ")
        );
        out.push(Box::new(Paragraph::remark(&text)));
    }
    out
}

/// Wires that are cut: not metal that touches metal.
pub(super) fn cut(electrics: &Electrics) -> impl Iterator<Item = &HarnessWire> {
    electrics
        .harness
        .iter()
        .filter(|w| w.carries != Carries::Touch)
}

/// The pieces cut from a spool.
fn table(electrics: &Electrics, spool: &Spool) -> Table {
    let column = |name: &str, align: Align, share: f64| Column::new(name, align, share);
    let wires = spool.colours.iter().flat_map(|strand| &strand.wires);
    let rows = wires.map(|index| {
        let wire = &electrics.harness[*index];
        let [a, b] = wire.endings;
        vec![
            Cell::from("☐"),
            Cell::from(wire.label.as_str()).strong(),
            Cell::from(coloured(wire.colour)),
            Cell::from(millimetres(wire.length)).strong(),
            Cell::from(shown(&wire.from)),
            Cell::from(end(a)),
            Cell::from(shown(&wire.to)),
            Cell::from(end(b)),
            Cell::from("☐"),
        ]
    });
    Table {
        columns: vec![
            column("cut", Align::Left, 0.4),
            column("wire", Align::Left, 0.6),
            column("colour", Align::Left, 1.3),
            column("length", Align::Right, 0.6),
            column("from", Align::Left, 2.2),
            column("strip, end", Align::Left, 1.6),
            column("to", Align::Left, 2.2),
            column("strip, end", Align::Left, 1.6),
            column("in", Align::Right, 0.3),
        ],
        rows: rows.collect(),
    }
}

/// Metres of each spool and colour, and what lies there of it.
fn totals(electrics: &Electrics) -> Table {
    let column = |name: &str, align: Align, share: f64| Column::new(name, align, share);
    let rows = electrics.spools.iter().flat_map(|spool| {
        spool.colours.iter().enumerate().map(|(i, strand)| {
            let first = |said: String| if i == 0 { said } else { String::new() };
            vec![
                Cell::from(first(section(spool.section))),
                Cell::from(first(capital(&spool.label))),
                Cell::from(coloured(strand.colour)),
                Cell::from(strand.wires.len().to_string()),
                Cell::from(metres(strand.length)),
                Cell::from(first(metres(spool.length()))).strong(),
                Cell::from(first(metres(spool.in_drawer()))),
                Cell::from(first(metres(spool.to_buy()))).strong(),
            ]
        })
    });
    Table {
        columns: vec![
            column("mm²", Align::Decimal, 0.5),
            column("spool", Align::Left, 2.6),
            column("colour", Align::Left, 1.2),
            column("pieces", Align::Right, 0.6),
            column("of the colour", Align::Right, 0.9),
            column("together", Align::Right, 0.9),
            column("in the drawer", Align::Right, 0.9),
            column("to buy", Align::Right, 0.8),
        ],
        rows: rows.collect(),
    }
}

fn coloured(colour: WireColour) -> String {
    format!("{} {}", colour::letters(colour), colour::name(colour))
}

fn metres(length: f64) -> String {
    format!("{} m", number(length, 2))
}

/// A terminal with a true minus sign.
pub(super) fn shown(end: &str) -> String {
    match end.strip_suffix('-') {
        Some(start) => format!("{start}−"),
        None => end.to_owned(),
    }
}

fn end(ending: Ending) -> String {
    let kind = match ending.kind {
        EndingKind::PushOn => "push-on",
        EndingKind::Ring => "ring",
        EndingKind::Ferrule => "ferrule",
        EndingKind::Solder => "solder",
        EndingKind::Plug => "plug",
    };
    format!("{}\u{a0}mm {kind}", millimetres(ending.strip))
}

fn millimetres(length: f64) -> String {
    number(math::round(1000.0 * length), 0)
}

fn section(section: f64) -> String {
    let hundredths = math::round(section * 1e8);
    number(
        hundredths / 100.0,
        if hundredths % 10.0 == 0.0 { 1 } else { 2 },
    )
}
