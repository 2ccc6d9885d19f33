//! A list on which equal things stand once and share what lies in the drawer.

use super::model::{Kind, Line, Unit};
use design::{Common, Money, Place, Value};

/// A line, and its price with the spread it has.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Need {
    pub(crate) line: Line,
    pub(crate) price: Option<Value>,
}

/// Things needed so far.
#[derive(Debug)]
pub(super) struct List<'a> {
    currency: &'a str,
    needs: Vec<Need>,
}

/// How much of one thing is needed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Amount {
    /// What ends up in the box.
    pub(super) uses: f64,
    /// What has to be there.
    pub(super) needed: f64,
}

impl Amount {
    /// So many pieces, all of which end up in the box.
    pub(super) fn pieces(count: u32) -> Self {
        let count = f64::from(count);
        Self {
            uses: count,
            needed: count,
        }
    }
}

impl<'a> List<'a> {
    pub(super) const fn new(currency: &'a str) -> Self {
        Self {
            currency,
            needs: Vec::new(),
        }
    }

    /// Adds pieces of a part; what lies in the drawer is taken first.
    pub(super) fn pieces(
        &mut self,
        kind: Kind,
        common: &Common,
        amount: Amount,
        place: Option<Place>,
        about: &str,
    ) {
        let drawer = f64::from(common.on_hand);
        let line = self.line(kind, common, place);
        line.uses += amount.uses;
        line.needed += amount.needed;
        line.on_hand = line.needed.min(drawer);
        line.to_buy = line.needed - line.on_hand;
        if !about.is_empty() && !line.about.split(", ").any(|known| known == about) {
            let comma = if line.about.is_empty() { "" } else { ", " };
            line.about += &format!("{comma}{about}");
        }
    }

    /// Adds a finished line, with the price of one.
    pub(super) fn add(&mut self, line: Line, price: Option<&Money>) {
        let price = price_in(price, self.currency);
        self.needs.push(Need {
            line: Line {
                price: price.map(|price| price.si),
                ..line
            },
            price,
        });
    }

    pub(super) fn done(self) -> Vec<Need> {
        self.needs
    }

    /// The line of a part, begun where there is none yet.
    fn line(&mut self, kind: Kind, common: &Common, place: Option<Place>) -> &mut Line {
        let label = &common.name.text;
        let known = |need: &Need| need.line.kind == kind && need.line.label == *label;
        let index = self.needs.iter().position(known).unwrap_or_else(|| {
            let line = Line {
                label: label.clone(),
                kind,
                unit: Unit::Piece,
                about: String::new(),
                uses: 0.0,
                needed: 0.0,
                on_hand: 0.0,
                to_buy: 0.0,
                price: None,
                place,
                instead: Vec::new(),
            };
            self.add(line, common.price.as_ref());
            self.needs.len() - 1
        });
        &mut self.needs[index].line
    }
}

/// A price, where it is in this currency.
pub(super) fn price_in(price: Option<&Money>, currency: &str) -> Option<Value> {
    price
        .filter(|price| price.currency == currency)
        .map(|price| price.amount)
}
