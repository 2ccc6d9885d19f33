//! The wires to cut and strip.

use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table};
use crate::math;
use crate::text::number;
use studies::electrics::{Electrics, Ending, EndingKind, HarnessWire, colour};
use wiring::Carries;

pub(super) const NOTE: &str = "Lengths to cut hold slack and the loop that lets a part be taken \
     out. Strip lengths are those of the ends named; those of your own terminals come first. \
     Twist the two wires of an output, and those of an input.";

pub(super) fn blocks(electrics: &Electrics) -> Vec<Box<dyn Block>> {
    let wires: Vec<&HarnessWire> = cut(electrics).collect();
    let mut out: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "Wires to cut",
            "in mm; strip and end as said, label both ends with the wire's number",
        )),
        Box::new(table(&wires)),
        Box::new(Heading::new("How much of each wire", "for the reels")),
        Box::new(reels(&wires)),
    ];
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

fn table(wires: &[&HarnessWire]) -> Table {
    let column = |name: &str, align: Align, share: f64| Column::new(name, align, share);
    let rows = wires.iter().map(|wire| {
        let [a, b] = wire.endings;
        vec![
            Cell::from(wire.label.as_str()).strong(),
            Cell::from(shown(&wire.from)),
            Cell::from(end(a)),
            Cell::from(shown(&wire.to)),
            Cell::from(end(b)),
            Cell::from(format!(
                "{} {}",
                colour::letters(wire.colour),
                colour::name(wire.colour)
            )),
            Cell::from(section(wire.section)),
            Cell::from(millimetres(wire.length)).strong(),
            Cell::from("☐"),
        ]
    });
    Table {
        columns: vec![
            column("wire", Align::Left, 0.6),
            column("from", Align::Left, 2.2),
            column("strip, end", Align::Left, 1.7),
            column("to", Align::Left, 2.2),
            column("strip, end", Align::Left, 1.7),
            column("colour", Align::Left, 1.4),
            column("mm²", Align::Decimal, 0.6),
            column("cut", Align::Right, 0.6),
            column("", Align::Right, 0.3),
        ],
        rows: rows.collect(),
    }
}

/// Metres of each section and colour.
fn reels(wires: &[&HarnessWire]) -> Table {
    let mut sums: Vec<(&HarnessWire, f64, usize)> = Vec::new();
    for wire in wires {
        let like = |w: &&mut (&HarnessWire, f64, usize)| {
            w.0.section == wire.section && w.0.colour == wire.colour
        };
        match sums.iter_mut().find(like) {
            Some((_, length, count)) => {
                *length += wire.length;
                *count += 1;
            }
            None => sums.push((wire, wire.length, 1)),
        }
    }
    sums.sort_by(|a, b| {
        b.0.section
            .total_cmp(&a.0.section)
            .then(a.0.colour.cmp(&b.0.colour))
    });
    let column = |name: &str, align: Align, share: f64| Column::new(name, align, share);
    let rows = sums.into_iter().map(|(wire, length, count)| {
        vec![
            Cell::from(section(wire.section)),
            Cell::from(colour::name(wire.colour)),
            Cell::from(count.to_string()),
            Cell::from(format!("{} m", number(length, 2))),
            Cell::from(wire.stock.as_deref().unwrap_or("none named on the shelf")).muted(),
        ]
    });
    Table {
        columns: vec![
            column("mm²", Align::Decimal, 0.5),
            column("colour", Align::Left, 1.0),
            column("pieces", Align::Right, 0.5),
            column("together", Align::Right, 0.8),
            column("cut from", Align::Left, 3.0),
        ],
        rows: rows.collect(),
    }
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
