//! What is still to be spent on one build.

use crate::money::{Line, Need};
use crate::vary::{Causes, Draw, Uncertain, spreads};

/// An amount of money in the brief's currency.
pub(super) type Money = f64;

#[derive(Clone, Debug)]
pub(crate) struct CostSubject {
    lines: Vec<Line>,
    /// How much of each thing that has to be bought, and the price of one.
    prices: Vec<(f64, Uncertain)>,
    /// What only the studies of the nominal build found to be needed.
    found: Vec<Need>,
}

impl CostSubject {
    pub(super) fn new(causes: &mut Causes, currency: &str, needs: Vec<Need>) -> Self {
        let mut account = Self {
            lines: Vec::new(),
            prices: Vec::new(),
            found: Vec::new(),
        };
        for need in needs {
            account.add(causes, currency, need);
        }
        account
    }

    /// Adds what only the studies of the nominal build found to be needed.
    pub(super) fn find(&mut self, causes: &mut Causes, currency: &str, found: &[Need]) {
        for need in found {
            self.add(causes, currency, need.clone());
        }
        self.found.extend_from_slice(found);
    }

    fn add(&mut self, causes: &mut Causes, currency: &str, need: Need) {
        let line = need.line;
        if let Some(price) = need
            .price
            .filter(|price| line.to_buy > 0.0 && price.si > 0.0)
        {
            let id = format!("price.{}", self.prices.len() + 1);
            let label = format!("price of {} in {currency}", line.label);
            let one = causes.value(id, label, "", &price, &spreads::PRICE);
            self.prices.push((line.to_buy, one));
        }
        self.lines.push(line);
    }

    /// Still to be spent on one build.
    pub(crate) fn at(&self, draw: &Draw) -> Money {
        self.prices
            .iter()
            .fold(0.0, |sum, (count, price)| sum + count * price.at(draw))
    }

    pub(crate) fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// Takes nothing over into variants.
    pub(super) fn forget(&mut self) {
        self.found.clear();
    }

    pub(super) fn found(&self) -> &[Need] {
        &self.found
    }
}
