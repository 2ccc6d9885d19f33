//! What the box costs, and how much of it lies in the drawer.

use crate::carpentry::{SheetPlan, whole_sheets};
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{Common, EnclosureKind, Project};

/// An amount of money in the brief's currency.
pub(super) type Money = f64;

/// A line of the cost account.
#[derive(Clone, Debug, PartialEq)]
pub struct CostLine {
    /// What it is.
    pub label: String,
    /// How many are needed.
    pub needed: f64,
    /// How many of them lie in the drawer.
    pub on_hand: f64,
    /// Still to be spent; `None` where no price in the brief's currency is known.
    pub to_buy: Option<Money>,
    /// Worth of what lies in the drawer, where a price is known.
    pub in_drawer: Option<Money>,
}

#[derive(Clone, Debug)]
pub(crate) struct CostSubject {
    lines: Vec<CostLine>,
    /// One factor on the price of each line that is to be bought.
    prices: Vec<(Money, Uncertain)>,
}

impl CostSubject {
    pub(super) fn new(causes: &mut Causes, project: &Project, sheets: &[SheetPlan]) -> Self {
        let design = &project.design;
        let mut account = Self {
            lines: Vec::new(),
            prices: Vec::new(),
        };
        let currency = &design.brief.currency;
        for group in &design.drivers {
            account.part(causes, currency, &group.part.common, f64::from(group.count));
        }
        if let EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind {
            account.part(causes, currency, &used.part.common, f64::from(used.count));
        }
        account.part(causes, currency, &design.amplifier.part.common, 1.0);
        account.part(
            causes,
            currency,
            &design.battery.part.common,
            f64::from(design.battery.count),
        );
        for plan in sheets {
            account.part(
                causes,
                currency,
                &plan.part.common,
                whole_sheets(plan) as f64,
            );
        }
        if let Some(control) = &design.control {
            for used in &control.parts {
                account.part(causes, currency, &used.part.common, 1.0);
            }
        }
        for used in &design.modules {
            account.part(causes, currency, &used.part.common, 1.0);
        }
        for (fuse, _) in design.fuses() {
            account.part(causes, currency, &fuse.common, 1.0);
        }
        for thing in &design.inside {
            if let Some(price) = &thing.price {
                let common = Common {
                    name: thing.name.clone(),
                    about: None,
                    generic: false,
                    price: Some(price.clone()),
                    on_hand: 0,
                    weight: None,
                };
                account.part(causes, currency, &common, f64::from(thing.count));
            }
        }
        account
    }

    fn part(&mut self, causes: &mut Causes, currency: &str, common: &Common, needed: f64) {
        // Two groups of one part share what lies in the drawer.
        let same = self
            .lines
            .iter()
            .filter(|line| line.label == common.name.text);
        let taken: f64 = same.map(|line| line.on_hand).sum();
        let on_hand = (f64::from(common.on_hand) - taken).clamp(0.0, needed);
        let missing = needed - on_hand;
        let price = common
            .price
            .as_ref()
            .filter(|price| price.currency == currency);
        let amount = |count: f64| price.map(|price| price.amount.si * count);
        let to_buy = if missing == 0.0 {
            Some(0.0)
        } else {
            amount(missing)
        };
        if let (Some(price), Some(to_buy)) = (price, to_buy.filter(|&sum| sum > 0.0)) {
            let id = format!("price.{}", self.prices.len() + 1);
            let label = format!("price of {} in {currency}", common.name.text);
            let factor = causes.value(id, label, "", &price.amount, &spreads::PRICE);
            self.prices.push((to_buy / price.amount.si, factor));
        }
        self.lines.push(CostLine {
            label: common.name.text.clone(),
            needed,
            on_hand,
            to_buy,
            in_drawer: amount(on_hand),
        });
    }

    /// Still to be spent on one build.
    pub(super) fn at(&self, draw: &Draw) -> Money {
        self.prices
            .iter()
            .fold(0.0, |sum, (count, price)| sum + count * price.at(draw))
    }

    pub(crate) fn lines(&self) -> &[CostLine] {
        &self.lines
    }
}
