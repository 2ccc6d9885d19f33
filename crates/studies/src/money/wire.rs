//! Wire by the metre, colour by colour.

use super::found::ROUNDING;
use crate::electrics::HarnessWire;
use crate::electrics::colour::letters;
use design::{WireColour, WirePart};

/// All that is cut of one wire.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Reel<'a> {
    pub(super) label: String,
    /// The wire on the shelf, where it is there.
    pub(super) part: Option<&'a WirePart>,
    /// How much of each colour, in m, in the order of the convention.
    pub(super) cut: Vec<(WireColour, f64)>,
}

/// What a harness is cut from, thinnest first.
pub(super) fn reels<'a>(harness: &[HarnessWire], shelf: &'a [WirePart]) -> Vec<Reel<'a>> {
    let mut all: Vec<(f64, Reel<'a>)> = Vec::new();
    for wire in harness {
        let label = wire
            .stock
            .clone()
            .unwrap_or_else(|| format!("wire {} mm²", 1e6 * wire.section));
        let index = all.iter().position(|(_, reel)| reel.label == label);
        let index = index.unwrap_or_else(|| {
            let part = shelf.iter().find(|part| part.common.name.text == label);
            let reel = Reel {
                label,
                part,
                cut: Vec::new(),
            };
            all.push((wire.section, reel));
            all.len() - 1
        });
        all[index].1.add(wire.colour, wire.length);
    }
    all.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    all.into_iter().map(|(_, reel)| reel).collect()
}

impl Reel<'_> {
    fn add(&mut self, colour: WireColour, length: f64) {
        match self.cut.iter_mut().find(|(known, _)| *known == colour) {
            Some((_, sum)) => *sum += length,
            None => self.cut.push((colour, length)),
        }
        self.cut.sort_by_key(|(colour, _)| *colour);
    }

    /// All of it in m.
    pub(super) fn length(&self) -> f64 {
        self.cut.iter().map(|(_, length)| length).sum()
    }

    fn drawer(&self) -> f64 {
        let drawer = self.part.and_then(|part| part.in_drawer);
        drawer.map_or(0.0, |value| value.si)
    }

    /// How much of it lies in the drawer, in m.
    pub(super) fn on_hand(&self) -> f64 {
        self.length().min(self.drawer())
    }

    /// Metres to buy: whole ones of each colour, the drawer used up on the first colours, for
    /// nobody says of which it is.
    pub(super) fn to_buy(&self) -> f64 {
        let mut drawer = self.drawer();
        let bought = self.cut.iter().map(|(_, length)| {
            let taken = length.min(drawer);
            drawer -= taken;
            (length - taken - ROUNDING).ceil().max(0.0)
        });
        bought.sum()
    }

    /// How much of each colour, in words.
    pub(super) fn colours(&self) -> String {
        let each = self.cut.iter();
        let said = each.map(|(colour, length)| format!("{} {length:.2} m", letters(*colour)));
        said.collect::<Vec<_>>().join(", ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn reel(part: Option<&WirePart>, lengths: [f64; 3]) -> Reel<'_> {
        let colours = [WireColour::Red, WireColour::Black, WireColour::White];
        let mut reel = Reel {
            label: "w".into(),
            part,
            cut: Vec::new(),
        };
        for (colour, length) in colours.into_iter().zip(lengths) {
            reel.add(colour, length);
        }
        reel
    }

    fn with_drawer(metres: f64) -> WirePart {
        let shelf = design::built_in_shelf();
        let mut part = shelf.wires[0].clone();
        part.in_drawer = Some(design::Value {
            si: metres,
            ..part.section
        });
        part
    }

    #[test]
    fn each_colour_is_bought_in_whole_metres() {
        let wire = reel(None, [1.2, 0.4, 2.0]);
        assert_eq!(wire.to_buy(), 2.0 + 1.0 + 2.0);
        assert_eq!(wire.colours(), "BK 0.40 m, RD 1.20 m, WH 2.00 m");
        let part = with_drawer(1.0);
        // 1 m covers the black and half the red.
        assert_eq!(reel(Some(&part), [1.2, 0.4, 2.0]).to_buy(), 1.0 + 2.0);
    }

    proptest! {
        #[test]
        fn more_in_the_drawer_never_takes_more(
            lengths in prop::array::uniform3(0.0..5.0_f64),
            some in 0.0..12.0_f64,
            more in 0.0..5.0_f64,
        ) {
            let parts = [with_drawer(some), with_drawer(some + more)];
            let [a, b] = [0, 1].map(|i| reel(Some(&parts[i]), lengths).to_buy());
            prop_assert!(b <= a, "{a} {b}");
            let short = lengths.iter().sum::<f64>() - some;
            prop_assert!(a >= short - 1e-6 && a < short.max(0.0) + 3.0 + 1e-6);
        }
    }
}
