//! The search for a circuit, and the threshold it is set to.

use super::drawer::Named;
use super::fading::Fading;
use super::model::Wanted;
use super::wants::{off, trip, wish};
use crate::memo::Memo;
use design::IndicatorUse;
use physics::indicator::Indicator as Circuit;
use physics::indicator::search::{Drawer, Found, Lamp, Wish, search};

/// What was found before for the same drawer and wish, so many kept.
pub(crate) type Indicators = Memo<(Drawer, Wish, usize), Vec<Found>>;

/// Circuits kept, the best included.
const KEPT: usize = 4;

/// How far thresholds are taken to differ before a circuit is known, as a share.
const GUESS: f64 = 0.012;

/// A change of the wanted threshold, as a share, that asks for another circuit.
const ENOUGH: f64 = 1e-3;

/// The best circuits, each with the small capacitor across its feedback, and what
/// was wanted of them.
pub(super) fn design(
    named: &Named<'_>,
    used: &IndicatorUse,
    lamp: Lamp,
    fading: &Fading,
    wanted: Wanted,
    highest: f64,
    met: &Indicators,
) -> (Wanted, Vec<Found>) {
    let guess = |own: &[f64]| 1.0 + GUESS * own.first().copied().unwrap_or(0.0);
    let mut wanted = Wanted {
        trip: trip(fading, wanted.warning, guess),
        ..wanted
    };
    let look = |wanted: &Wanted| {
        let wish = wish(wanted, used, lamp, highest);
        found(named, wish, KEPT, met)
    };
    let mut all = look(&wanted);
    if let Some(best) = all.first() {
        let known = trip(fading, wanted.warning, off(&best.circuit));
        if (known / wanted.trip - 1.0).abs() > ENOUGH {
            wanted.trip = known;
            all = look(&wanted);
        }
    }
    for one in &mut all {
        one.circuit = hurried(named, one.circuit);
    }
    (wanted, all)
}

/// The best circuits for a wish, at most so many.
pub(super) fn found(named: &Named<'_>, wish: Wish, keep: usize, met: &Indicators) -> Vec<Found> {
    let question = (named.drawer.clone(), wish, keep);
    let found = met.of(question, |(drawer, wish, keep)| search(drawer, wish, *keep));
    found.as_ref().clone()
}

/// With the capacitor across the feedback that lets the hysteresis act at once.
pub(super) fn hurried(named: &Named<'_>, circuit: Circuit) -> Circuit {
    let nearest = circuit
        .wanted_speed_up()
        .and_then(|farads| named.unpolar(farads));
    Circuit {
        speed_up: nearest.map(|(_, farads)| farads),
        ..circuit
    }
}
