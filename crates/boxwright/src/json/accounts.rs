//! The accounts behind volume, weight and cost.

use serde::Serialize;
use studies::money::Shopping;
use studies::report::Accounts as Model;

#[derive(Serialize)]
pub(super) struct Accounts<'a> {
    /// Width, height, depth in m.
    outside: [f64; 3],
    inside: [f64; 3],
    /// m.
    thickness: f64,
    /// m³.
    gross: f64,
    air: Vec<Air<'a>>,
    net: f64,
    filling_gain: f64,
    weight: Vec<Weight<'a>>,
    cost: Vec<Cost<'a>>,
}

#[derive(Serialize)]
struct Air<'a> {
    label: &'a str,
    /// m³.
    volume: f64,
}

#[derive(Serialize)]
struct Weight<'a> {
    label: &'a str,
    /// kg.
    weight: f64,
    known: bool,
}

#[derive(Serialize)]
struct Cost<'a> {
    label: &'a str,
    needed: f64,
    on_hand: f64,
    to_buy: Option<f64>,
    in_drawer: Option<f64>,
}

impl<'a> Accounts<'a> {
    pub(super) fn new(model: &'a Model, money: &'a Shopping) -> Self {
        let air = model.air.iter().map(|line| Air {
            label: &line.label,
            volume: line.volume,
        });
        let weight = model.weight.iter().map(|line| Weight {
            label: &line.label,
            weight: line.kilograms,
            known: line.known,
        });
        let cost = money.lines.iter().map(|line| Cost {
            label: &line.label,
            needed: line.needed,
            on_hand: line.on_hand,
            to_buy: line.till(),
            in_drawer: line.in_drawer(),
        });
        Self {
            outside: model.outside,
            inside: model.inside,
            thickness: model.thickness,
            gross: model.gross,
            air: air.collect(),
            net: model.net,
            filling_gain: model.filling_gain,
            weight: weight.collect(),
            cost: cost.collect(),
        }
    }
}
