//! The lamp's resistor and the pull-up, which follow from simple rules.

use super::{Drawer, Wish};
use crate::indicator::{Comparator, Light, Resistor};
use crate::math::ln;

/// The value wanted for a pull-up in Ω: low enough that what the feedback draws
/// leaves the lamp dark, high enough to waste little. Common practice, no source.
const PULL_UP: f64 = 22e3;

/// Index of the resistor before the lamp: of those that keep lamp and output
/// within their currents on the highest supply, the one whose current at the
/// threshold comes nearest to what is wanted, by ratio.
pub(super) fn series_for(
    drawer: &Drawer,
    comparator: &Comparator,
    wish: &Wish,
) -> Option<(usize, Light)> {
    let lamp = &wish.lamp;
    let at = |supply: f64, ohms: f64| (supply - lamp.forward) / (ohms + comparator.sink);
    let most = lamp.most_current.min(SINK_SHARE * comparator.sink_current);
    let mut best: Option<(f64, usize)> = None;
    for (index, offer) in drawer.resistors.iter().enumerate() {
        let one = offer.part;
        let (wanted, highest) = (
            at(wish.trip, one.ohms),
            at(wish.supply[1], one.ohms * (1.0 - one.tolerance)),
        );
        if wanted <= 0.0 || highest > most {
            continue;
        }
        let far = ln(wanted / lamp.current).abs();
        if best.is_none_or(|(least, _)| far < least) {
            best = Some((far, index));
        }
    }
    best.map(|(_, index)| {
        let light = Light {
            forward: lamp.forward,
            series: drawer.resistors[index].part.ohms,
        };
        (index, light)
    })
}

/// Share of an output's rated current that the lamp may take; the pull-up takes
/// some too.
const SINK_SHARE: f64 = 0.9;

/// Index of the pull-up, where the output wants one and there is any resistor.
pub(super) fn pull_up_for(
    drawer: &Drawer,
    comparator: &Comparator,
) -> Option<Option<(usize, Resistor)>> {
    if comparator.output_high.is_some() {
        return Some(None);
    }
    let far = |one: &Resistor| ln(one.ohms / PULL_UP).abs();
    let nearest = drawer
        .resistors
        .iter()
        .enumerate()
        .min_by(|(_, a), (_, b)| far(&a.part).total_cmp(&far(&b.part)))?;
    Some(Some((nearest.0, nearest.1.part)))
}
