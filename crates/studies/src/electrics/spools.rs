//! What is cut from which spool: wire by wire kind, colour and piece.

use super::model::{Electrics, HarnessWire};
use design::{WireColour, WirePart};
use wiring::Carries;

/// Lengths below this are rounding, in m.
const ROUNDING: f64 = 1e-9;

/// All that is cut of one kind of wire.
#[derive(Clone, Debug, PartialEq)]
pub struct Spool {
    /// The wire on the shelf, or its section in words where the shelf has none that fits.
    pub label: String,
    /// Copper section in m².
    pub section: f64,
    /// The wire on the shelf, where it is there.
    pub part: Option<WirePart>,
    /// What is cut of each colour, in the order of the convention.
    pub colours: Vec<Strand>,
}

/// All that is cut of one kind of wire in one colour.
#[derive(Clone, Debug, PartialEq)]
pub struct Strand {
    /// The colour.
    pub colour: WireColour,
    /// The wires, by their places in the harness, the longest first: what is left of a spool
    /// still serves for the short ones.
    pub wires: Vec<usize>,
    /// All of them together in m.
    pub length: f64,
}

impl Spool {
    /// All of it in m.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.colours
            .iter()
            .fold(0.0, |sum, strand| sum + strand.length)
    }

    /// How much lies in the drawer, in m.
    #[must_use]
    pub fn in_drawer(&self) -> f64 {
        let drawer = self.part.as_ref().and_then(|part| part.in_drawer);
        drawer.map_or(0.0, |value| value.si)
    }

    /// How much of what is cut comes out of the drawer, in m.
    #[must_use]
    pub fn on_hand(&self) -> f64 {
        self.length().min(self.in_drawer())
    }

    /// Metres to buy: whole ones of each colour, the drawer used up on the first colours, for
    /// nobody says of which it is.
    #[must_use]
    pub fn to_buy(&self) -> f64 {
        let mut drawer = self.in_drawer();
        let bought = self.colours.iter().map(|strand| {
            let taken = strand.length.min(drawer);
            drawer -= taken;
            (strand.length - taken - ROUNDING).ceil().max(0.0)
        });
        bought.fold(0.0, |sum, own| sum + own)
    }

    fn add(&mut self, wire: usize, harness: &[HarnessWire]) {
        let (colour, length) = (harness[wire].colour, harness[wire].length);
        match self.colours.iter_mut().find(|own| own.colour == colour) {
            Some(strand) => {
                strand.wires.push(wire);
                strand.length += length;
            }
            None => self.colours.push(Strand {
                colour,
                wires: vec![wire],
                length,
            }),
        }
    }

    fn order(&mut self, harness: &[HarnessWire]) {
        self.colours.sort_by_key(|strand| strand.colour);
        for strand in &mut self.colours {
            let length = |wire: &usize| harness[*wire].length;
            strand
                .wires
                .sort_by(|a, b| length(b).total_cmp(&length(a)).then(a.cmp(b)));
        }
    }
}

/// What a harness is cut from, thinnest first.
pub(super) fn spools(harness: &[HarnessWire], shelf: &[WirePart]) -> Vec<Spool> {
    let mut all: Vec<Spool> = Vec::new();
    for (index, wire) in harness.iter().enumerate() {
        if wire.carries == Carries::Touch {
            continue;
        }
        let label = wire
            .stock
            .clone()
            .unwrap_or_else(|| format!("wire {} mm²", 1e6 * wire.section));
        let known = all.iter().position(|spool| spool.label == label);
        let known = known.unwrap_or_else(|| {
            let part = shelf.iter().find(|part| part.common.name.text == label);
            all.push(Spool {
                label,
                section: wire.section,
                part: part.cloned(),
                colours: Vec::new(),
            });
            all.len() - 1
        });
        all[known].add(index, harness);
    }
    for spool in &mut all {
        spool.order(harness);
    }
    all.sort_by(|a, b| a.section.total_cmp(&b.section));
    all
}

impl Electrics {
    /// The wires in the order in which they are best cut: spool after spool, colour after colour,
    /// the longest first.
    pub fn cuts(&self) -> impl Iterator<Item = &HarnessWire> {
        let strands = self.spools.iter().flat_map(|spool| &spool.colours);
        strands
            .flat_map(|strand| &strand.wires)
            .map(|wire| &self.harness[*wire])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const COLOURS: [WireColour; 3] = [WireColour::Red, WireColour::Black, WireColour::White];

    fn spool(part: Option<&WirePart>, lengths: [f64; 3]) -> Spool {
        let strand = |(index, colour)| Strand {
            colour,
            wires: vec![index],
            length: lengths[index],
        };
        let mut colours: Vec<Strand> = COLOURS.into_iter().enumerate().map(strand).collect();
        colours.sort_by_key(|strand| strand.colour);
        Spool {
            label: "w".into(),
            section: 1e-6,
            part: part.cloned(),
            colours,
        }
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
        assert_eq!(spool(None, [1.2, 0.4, 2.0]).to_buy(), 2.0 + 1.0 + 2.0);
        let part = with_drawer(1.0);
        // 1 m covers the black and half the red.
        assert_eq!(spool(Some(&part), [1.2, 0.4, 2.0]).to_buy(), 1.0 + 2.0);
    }

    proptest! {
        #[test]
        fn more_in_the_drawer_never_takes_more(
            lengths in prop::array::uniform3(0.0..5.0_f64),
            some in 0.0..12.0_f64,
            more in 0.0..5.0_f64,
        ) {
            let parts = [with_drawer(some), with_drawer(some + more)];
            let [a, b] = [0, 1].map(|i| spool(Some(&parts[i]), lengths).to_buy());
            prop_assert!(b <= a, "{a} {b}");
            let short = lengths.iter().sum::<f64>() - some;
            prop_assert!(a >= short - 1e-6 && a < short.max(0.0) + 3.0 + 1e-6);
        }
    }
}
