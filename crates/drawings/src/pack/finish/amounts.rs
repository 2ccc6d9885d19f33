//! What goes on, how much of it, and what it goes on.

use super::said::{on, span};
use crate::layout::{Align, Block, Cell, Column, Heading, Ledger, Paragraph, Table};
use crate::role::Role;
use crate::text::number;
use studies::finish::{Cans, Finish, Hold, Layer, named};

pub(super) fn blocks(finish: &Finish) -> Vec<Box<dyn Block>> {
    let mut out: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "Layers",
            "in order; window: later coats want it sanded",
        )),
        Box::new(layers(finish)),
        Box::new(Heading::new("To be had", "for the most it may take")),
        Box::new(cans(&finish.cans)),
    ];
    if let Some(weight) = finish.wet_weight {
        let grams = number(1e3 * weight, 0);
        let thick: f64 = finish.layers.iter().map(|layer| layer.wet_thickness).sum();
        let text = format!(
            "All coats weigh {grams} g and are {} mm thick while wet; a third to a half of that \
             stays. Rebates and gaps around lids lose it on both sides.",
            number(1e3 * thick, 2)
        );
        out.push(Box::new(Paragraph::remark(&text)));
    }
    if !finish.holds.is_empty() {
        out.push(Box::new(Heading::new("Does it hold?", "layer on layer")));
        out.extend(finish.holds.iter().map(|hold| said(finish, hold)));
    }
    out
}

fn layers(finish: &Finish) -> Table {
    let rows = finish.layers.iter().enumerate().map(|(index, layer)| {
        vec![
            Cell::from((index + 1).to_string()).strong(),
            Cell::from(format!("{} × {}", layer.coats, layer.name)),
            Cell::from(on(layer)),
            Cell::from(span(layer.touch_dry)),
            Cell::from(span(layer.recoat)),
            Cell::from(span(layer.window)),
            Cell::from(span(layer.cure)),
            Cell::from(layer.sand.map_or("–".to_owned(), |grit| format!("P{grit}"))),
        ]
    });
    let column = |name: &str, share: f64| Column::new(name, Align::Left, share);
    Table {
        columns: vec![
            column("", 0.4),
            column("coats", 3.4),
            column("on", 1.3),
            column("touch", 1.5),
            column("next coat", 1.5),
            column("window", 1.3),
            column("cured", 1.5),
            column("sand", 1.1),
        ],
        rows: rows.collect(),
    }
}

fn litres(volume: f64) -> String {
    number(1e3 * volume, 2)
}

fn cans(cans: &[Cans]) -> Table {
    let rows = cans.iter().map(|cans| {
        vec![
            Cell::from(cans.name.as_str()),
            Cell::from(litres(cans.volume)),
            Cell::from(format!(
                "{} to {}",
                litres(cans.band.0),
                litres(cans.band.1)
            )),
            Cell::from(format!(
                "{} × {} L",
                cans.wanted,
                number(1e3 * cans.size, 3)
            )),
            Cell::from(cans.to_buy.to_string()),
        ]
    });
    Table {
        columns: vec![
            Column::new("finish", Align::Left, 3.2),
            Column::new("litres", Align::Right, 1.0),
            Column::new("may take", Align::Left, 1.8),
            Column::new("cans", Align::Left, 1.8),
            Column::new("to buy", Align::Right, 1.0),
        ],
        rows: rows.collect(),
    }
}

fn name(layer: &Layer) -> &str {
    &layer.name
}

fn said(finish: &Finish, hold: &Hold) -> Box<dyn Block> {
    let [under, over] = [hold.lower, hold.upper].map(|index| name(&finish.layers[index]));
    let holds = if hold.holds { "yes" } else { "NO" };
    let text = format!("{over} on {under}: {holds}, {}.", hold.because);
    Box::new(Paragraph {
        role: if hold.holds { Role::Ink } else { Role::Stop },
        ..Paragraph::new(&text)
    })
}

/// Area of every side, and what it is of.
pub(super) fn faces(finish: &Finish) -> Vec<Box<dyn Block>> {
    let square = |area: f64| format!("{} dm²", number(100.0 * area, 1));
    let of = |wall| {
        let mut own = finish
            .woods
            .iter()
            .filter(|wood| wood.walls.contains(&wall));
        own.next().map_or(String::new(), |wood| match wood.species {
            Some(species) => format!(", {}", named(species)),
            None => format!(", {}", wood.sheet),
        })
    };
    let rows = finish.faces.iter().map(|face| {
        let name = format!("{}{}", studies::words::wall(face.wall), of(face.wall));
        (name, square(face.area))
    });
    let all: f64 = finish.faces.iter().map(|face| face.area).sum();
    let rows = rows.chain([("all sides".to_owned(), square(all))]);
    vec![
        Box::new(Heading::new(
            "Areas",
            "seen from outside, openings off, rims and rounded edges in",
        )),
        Box::new(Ledger {
            rows: rows.collect(),
            summed: true,
        }),
    ]
}
