//! What no circuit can beat.

use super::Wish;
use super::arms::{Arms, Entry, Shelf};
use super::frame::Frame;
use super::score::rest;
use crate::indicator::Resistor;
use crate::math::pow;
use core::f64::consts::LN_2;

/// What an arm above the input and a feedback resistor settle already.
pub(super) struct Top<'a> {
    pub(super) entry: &'a Entry,
    pub(super) feedback: Option<Resistor>,
    pub(super) feedback_tolerance: f64,
    /// Conductance from the high output to the input in S.
    pub(super) back: f64,
    /// Drawn at the wanted threshold with the lamp dark, in A.
    pub(super) drain: f64,
    /// Square of the error that is there with the arm below perfect, in V².
    fixed_square: f64,
    /// Square of what a relative error of the arm below moves the threshold by, in V².
    below_square: f64,
    hysteresis: f64,
    delay: f64,
}

/// Looseness of what is estimated at the wanted threshold and decided at the
/// true one, as a share.
const LOOSE: f64 = 0.1;

impl<'a> Top<'a> {
    pub(super) fn new(
        frame: &Frame<'_>,
        entry: &'a Entry,
        feedback: Option<Resistor>,
        wish: &Wish,
    ) -> Self {
        let trip = wish.trip;
        let pull_up = frame.pull_up.map_or(0.0, |one| one.ohms);
        let back = feedback.map_or(0.0, |one| 1.0 / (one.ohms + pull_up));
        let loss = frame.high_loss();
        let input = frame.reference_at(trip);
        let above = entry.siemens;
        // Conductances together where the threshold is met exactly.
        let sum = (trip * (above + back) - loss * back) / input;
        let steep = above + back - frame.line.1 * sum;
        let tolerance = feedback.map_or(0.0, |one| one.tolerance);
        let square = |part: f64| part * part;
        let fixed = square(above * (trip - input)) * entry.tolerance_square
            + square(back * (trip - loss - input) * tolerance)
            + square(frame.strayed(sum))
            + square(sum) * frame.input_square;
        let below = (sum - above - back) * input;
        Self {
            entry,
            feedback,
            feedback_tolerance: tolerance,
            back,
            drain: frame.comparator.supply_current
                + (trip - input) / frame.feed.ohms
                + (trip - input) * above
                + ((trip - loss - input) * back).max(0.0),
            fixed_square: fixed / square(steep),
            below_square: square(below / steep),
            hysteresis: hysteresis(frame, feedback, [above, back, sum], trip),
            delay: frame.capacitor.map_or(0.0, |one| LN_2 * one.farads / sum),
        }
    }

    /// Conductance of top and feedback in S.
    pub(super) fn siemens(&self) -> f64 {
        self.entry.siemens + self.back
    }

    /// Whether hysteresis and delay can come to lie where they are wanted.
    pub(super) fn can_have(&self, frame: &Frame<'_>, wish: &Wish) -> bool {
        let near = |value: f64, [least, most]: [f64; 2]| {
            value >= least * (1.0 - LOOSE) && value <= most * (1.0 + LOOSE)
        };
        (!wish.feeds_back() || near(self.hysteresis, wish.hysteresis))
            && (!wish.waits() || near(self.delay, frame.delay_left(wish)))
    }

    /// How far the nominal threshold may miss, as a share, for a circuit with
    /// this top to score less than `limit` besides the rest; `None` where
    /// nothing can.
    pub(super) fn room_for(&self, limit: f64, finest: f64, wish: &Wish) -> Option<f64> {
        let spread = (self.fixed_square + self.below_square * finest).sqrt() / wish.trip;
        let room = limit / 100.0;
        // m² + s²(1 − g·m)² = room², solved for the miss m.
        let growth = GROWTH * spread * spread;
        let square = 1.0 + GROWTH * growth;
        let left = growth * growth + square * (room * room - spread * spread);
        if room <= 0.0 || left < 0.0 {
            return None;
        }
        Some(((growth + left.sqrt()) / square).min(wish.within))
    }

    /// Conductances of the arms below for which the threshold misses by no more
    /// than a share.
    pub(super) fn bottoms(&self, frame: &Frame<'_>, miss: f64, wish: &Wish) -> (f64, f64) {
        let at = |trip: f64| {
            let input = frame.reference_at(trip);
            let current = trip * self.siemens() - frame.high_loss() * self.back;
            current / input - self.siemens()
        };
        let edge = |by: f64| at(wish.trip * (1.0 + by));
        (edge(-miss) * (1.0 - EDGE), edge(miss) * (1.0 + EDGE))
    }
}

/// Rounding at the edges of a range, as a share.
const EDGE: f64 = 1e-9;

/// How much faster than the threshold its spread may grow, at most.
const GROWTH: f64 = 2.0;

/// The least that a relative spread, estimated where the threshold is met
/// exactly, and a miss make together.
fn loosened(spread: f64) -> f64 {
    spread / (1.0 + GROWTH * GROWTH * spread * spread).sqrt()
}

/// Hysteresis in V where the threshold is met exactly, the output when low taken
/// at the wanted threshold.
fn hysteresis(
    frame: &Frame<'_>,
    feedback: Option<Resistor>,
    [above, back, sum]: [f64; 3],
    trip: f64,
) -> f64 {
    let Some(feedback) = feedback else { return 0.0 };
    let direct = feedback.siemens();
    let input = frame.reference_at(trip);
    let lamp = 1.0 / frame.light.series;
    let pull_up = frame.pull_up.map_or(0.0, Resistor::siemens);
    let sunk = (trip - frame.light.forward) * lamp + trip * pull_up + input * direct;
    let low = sunk / (1.0 / frame.comparator.sink + lamp + pull_up + direct);
    let below = sum - above - back;
    let rising = frame.line.0 * (above + direct + below) - direct * low;
    rising / (above - frame.line.1 * (above + direct + below)) - trip
}

/// Conductances of arms above the input with which the delay can come to lie
/// where it is wanted.
pub(super) fn conductance_range(frame: &Frame<'_>, wish: &Wish) -> (f64, f64) {
    let Some(capacitor) = frame.capacitor else {
        return (0.0, f64::INFINITY);
    };
    // All conductances together over those above the input lie between one and
    // what the divider takes without feedback.
    let trip = wish.trip * (1.0 + wish.within);
    let most = trip / frame.reference_at(trip);
    let least = wish.trip * (1.0 - wish.within) / frame.reference_at(wish.trip);
    let feedback = feedback_share(frame, wish);
    let sum = |delay: f64| LN_2 * capacitor.farads / delay;
    let [briefest, longest] = frame.delay_left(wish);
    let low = sum(longest) / most / (1.0 + feedback);
    let high = if briefest > 0.0 {
        sum(briefest) / least.max(1.0)
    } else {
        f64::INFINITY
    };
    (low * (1.0 - LOOSE), high * (1.0 + LOOSE))
}

/// Conductances between which a feedback gives the wanted hysteresis with an arm
/// above the input of so many S: x = H·(1 − r·V/V_ref)/(swing) of it, widened.
pub(super) fn feedback_range(frame: &Frame<'_>, above: f64, wish: &Wish) -> (f64, f64) {
    let [least, most] = wish.hysteresis;
    let trip = wish.trip;
    let stiff = 1.0 - frame.line.1 * trip / frame.reference_at(trip);
    let swing = trip - frame.high_loss();
    let pulled = 1.0 + frame.pull_up.map_or(0.0, |one| above * one.ohms);
    (
        above * least * stiff / (swing * (1.0 + LOOSE) + most),
        above * feedback_share(frame, wish) * pulled * (1.0 + LOOSE),
    )
}

/// The most that a feedback's conductance can be of that of the arm above.
fn feedback_share(frame: &Frame<'_>, wish: &Wish) -> f64 {
    let swing = wish.trip * (1.0 - wish.within) - frame.high_loss() - frame.reference_at(wish.trip);
    if !wish.feeds_back() {
        0.0
    } else if swing > 0.0 {
        wish.hysteresis[1] * (1.0 + LOOSE) / swing
    } else {
        f64::INFINITY
    }
}

/// The score that no circuit of a frame can beat.
pub(super) fn outer_bound(frame: &Frame<'_>, wish: &Wish, arms: &Arms) -> f64 {
    let range = conductance_range(frame, wish);
    let each = arms.shelves.iter();
    each.map(|tops| bound_between(frame, wish, arms, tops, range))
        .fold(f64::INFINITY, f64::min)
}

/// Stretches of the conductance of the arm above that are bounded by themselves:
/// a large divider draws little but is moved far by stray currents, a small one
/// the other way round.
const STRETCHES: u32 = 12;

/// The stretches in which arms of one shelf can come to lie.
pub(super) fn stretches(frame: &Frame<'_>, wish: &Wish, tops: &Shelf) -> Vec<(f64, f64)> {
    let (least, most) = conductance_range(frame, wish);
    let (Some(first), Some(last)) = (tops.entries.first(), tops.entries.last()) else {
        return Vec::new();
    };
    let (least, most) = (least.max(first.siemens), most.min(last.siemens));
    if least > most {
        return Vec::new();
    }
    let ratio = pow(most / least, 1.0 / f64::from(STRETCHES)) * (1.0 + EDGE);
    let mut low = least;
    let next = |_| {
        let stretch = (low, low * ratio);
        low = stretch.1;
        stretch
    };
    (0..STRETCHES).map(next).collect()
}

/// What no circuit with an arm above from one shelf and of such a conductance can
/// beat.
pub(super) fn bound_between(
    frame: &Frame<'_>,
    wish: &Wish,
    arms: &Arms,
    tops: &Shelf,
    (least, most): (f64, f64),
) -> f64 {
    let trip = wish.trip;
    let input = frame.reference_at(trip);
    let drain =
        frame.comparator.supply_current + (trip - input) / frame.feed.ohms + (trip - input) * least;
    let share = feedback_share(frame, wish);
    let square = |part: f64| part * part;
    // A high output that loses some volts lets the input's error count for less.
    let lost = frame.high_loss() * share / (1.0 + share);
    let fixed = square((trip - lost) / input) * frame.input_square
        + square(
            frame.stray_current()
                * (1.0 / (most * (1.0 + share)) + frame.slow_ohms() * (trip - lost) / input),
        )
        + square((trip - input) / (1.0 + share)) * tops.finest;
    let below = square((trip - lost - input).max(0.0));
    let feedback = u32::from(wish.feeds_back() && arms.buys_feedback);
    let each = arms.shelves.iter().map(|bottoms| {
        let error = (fixed + below * bottoms.finest).sqrt() / trip;
        let buys = frame.to_buy + feedback + tops.to_buy + bottoms.to_buy;
        let parts = tops.count + bottoms.count;
        100.0 * loosened(error) + rest(drain, parts, buys)
    });
    each.fold(f64::INFINITY, f64::min)
}
