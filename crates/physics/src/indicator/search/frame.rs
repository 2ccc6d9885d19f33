//! The outer choices, and the best circuit within them.

use super::arms::{Arms, Entry, Shelf};
use super::bound::{Top, bound_between, feedback_range, outer_bound, stretches};
use super::light::{pull_up_for, series_for};
use super::score::{Found, rest, score};
use super::{Drawer, Kept, Offer, Wish};
use crate::indicator::stack::HIGH_LOSS_TOLERANCE;
use crate::indicator::{Capacitor, Comparator, Indicator, Light, Reference, Resistor};
use core::f64::consts::LN_2;

/// Comparator, reference, feeding resistor and capacitor, with what follows
/// from them.
pub(super) struct Frame<'a> {
    pub(super) bound: f64,
    pub(super) comparator: &'a Comparator,
    pub(super) reference: &'a Reference,
    pub(super) feed: Resistor,
    pub(super) capacitor: Option<Capacitor>,
    pub(super) slow: Option<Resistor>,
    pub(super) light: Light,
    pub(super) pull_up: Option<Resistor>,
    pub(super) to_buy: u32,
    indices: (usize, usize, Option<usize>),
    /// The reference on the supply: fixed part in V and rise with it.
    pub(super) line: (f64, f64),
    /// Square of what reference and offset may be off together, in V² at the input.
    pub(super) input_square: f64,
}

/// Share of the reference's voltage by which it may rise with the battery up to
/// the threshold: beyond that it is no reference.
const STIFF: f64 = 0.12;

impl<'a> Frame<'a> {
    /// Every frame that works at all, the lowest bound first.
    pub(super) fn all(drawer: &'a Drawer, wish: &Wish, arms: &Arms) -> Vec<Self> {
        let waits = waits(drawer, wish);
        let mut frames = Vec::new();
        for (c, comparator) in drawer.comparators.iter().enumerate() {
            let part = &comparator.part;
            let (Some((series, light)), Some(pull_up)) =
                (series_for(drawer, part, wish), pull_up_for(drawer, part))
            else {
                continue;
            };
            let wants = |index: usize| u32::from(drawer.resistors[index].to_buy);
            let around = u32::from(comparator.to_buy)
                + wants(series)
                + pull_up.map_or(0, |(index, _)| wants(index));
            for (r, reference) in drawer.references.iter().enumerate() {
                if !inputs_bear(part, &reference.part, wish) {
                    continue;
                }
                for feed in &drawer.resistors {
                    if !feeds(&reference.part, feed.part, wish) {
                        continue;
                    }
                    let fed = around + u32::from(reference.to_buy) + u32::from(feed.to_buy);
                    for wait in &waits {
                        let Wait {
                            index,
                            capacitor,
                            slow,
                        } = *wait;
                        let to_buy = fed
                            + capacitor.map_or(0, |offer| u32::from(offer.to_buy))
                            + slow.map_or(0, |offer| u32::from(offer.to_buy));
                        frames.push(Self {
                            bound: 0.0,
                            comparator: part,
                            reference: &reference.part,
                            feed: feed.part,
                            capacitor: capacitor.map(|offer| offer.part),
                            slow: slow.map(|offer| offer.part),
                            light,
                            pull_up: pull_up.map(|(_, one)| one),
                            to_buy,
                            indices: (c, r, index),
                            line: reference.part.line(feed.part.ohms),
                            input_square: 0.0,
                        });
                    }
                }
            }
        }
        for frame in &mut frames {
            frame.input_square = frame.input_error(wish);
            frame.bound = outer_bound(frame, wish, arms);
        }
        frames.retain(|frame| frame.bound.is_finite());
        frames.sort_by(|a, b| a.bound.total_cmp(&b.bound));
        frames
    }

    pub(super) fn is_of(&self, found: &Found) -> bool {
        (self.indices.0, self.indices.1) == (found.comparator, found.reference)
    }

    /// Square of the error at the input in V²: offset, reference, its slope and
    /// its feed, at the wanted threshold.
    fn input_error(&self, wish: &Wish) -> f64 {
        let reference = self.reference;
        let through = self.feed.ohms / (self.feed.ohms + reference.slope);
        let current = reference.current(wish.trip, self.feed.ohms);
        let volts = through * reference.volts;
        let slope = through
            * reference.slope
            * reference.slope_tolerance
            * (current - reference.rated_current);
        let feed = through * reference.slope * current * self.feed.tolerance;
        [
            volts * reference.tolerance,
            volts * reference.drift,
            slope,
            feed,
            self.comparator.offset,
        ]
        .into_iter()
        .map(|part| part * part)
        .sum()
    }

    pub(super) fn high_loss(&self) -> f64 {
        self.comparator.output_high.unwrap_or(0.0)
    }

    /// The reference at a supply.
    pub(super) fn reference_at(&self, supply: f64) -> f64 {
        self.line.0 + self.line.1 * supply
    }

    /// What the capacitor and the input may draw, in A.
    pub(super) fn stray_current(&self) -> f64 {
        // A leak draws one way only: half of it is the middle, half the reach.
        self.comparator.bias + self.capacitor.map_or(0.0, |one| 0.5 * one.leakage)
    }

    /// The same as a voltage error of the divider in V·S: what it takes through
    /// the conductances of so many S together, and before the input.
    pub(super) fn strayed(&self, sum: f64) -> f64 {
        self.stray_current() * (1.0 + self.slow_ohms() * sum)
    }

    pub(super) fn slow_ohms(&self) -> f64 {
        self.slow.map_or(0.0, |one| one.ohms)
    }

    /// Least and greatest delay in s that the divider itself has to bring.
    pub(super) fn delay_left(&self, wish: &Wish) -> [f64; 2] {
        let farads = self.capacitor.map_or(0.0, |one| one.farads);
        let brought = LN_2 * farads * self.slow_ohms();
        wish.delay.map(|delay| (delay - brought).max(0.0))
    }

    /// Walks the arms of this frame and keeps its best circuit.
    pub(super) fn best(&self, wish: &Wish, arms: &Arms, kept: &mut Kept) {
        let beats = |tops: &Shelf, range: (f64, f64), kept: &Kept| {
            bound_between(self, wish, arms, tops, range) < kept.limit(self)
        };
        for tops in &arms.shelves {
            for stretch in stretches(self, wish, tops) {
                if !beats(tops, stretch, kept) {
                    continue;
                }
                for top in tops.between(stretch.0, stretch.1) {
                    if beats(tops, (top.siemens, top.siemens), kept) {
                        self.under(top, wish, arms, kept);
                    }
                }
            }
        }
    }

    /// Tries each feedback and the arms below with one arm above.
    fn under(&self, entry: &Entry, wish: &Wish, arms: &Arms, kept: &mut Kept) {
        if !wish.feeds_back() {
            return self.between(entry, None, wish, arms, kept);
        }
        let (low, high) = feedback_range(self, entry.siemens, wish);
        for back in arms.feedbacks(low, high) {
            self.between(entry, Some(back), wish, arms, kept);
        }
    }

    /// Tries the arms below with one arm above and one feedback.
    fn between(
        &self,
        entry: &Entry,
        back: Option<&Offer<Resistor>>,
        wish: &Wish,
        arms: &Arms,
        kept: &mut Kept,
    ) {
        let top = Top::new(self, entry, back.map(|offer| offer.part), wish);
        if !top.can_have(self, wish) {
            return;
        }
        let buys = self.to_buy + back.map_or(0, |offer| u32::from(offer.to_buy));
        for bottoms in &arms.shelves {
            self.lookup(&top, bottoms, buys, wish, kept);
        }
    }

    /// Judges the arms of one table that may win below a given top.
    fn lookup(&self, top: &Top<'_>, bottoms: &Shelf, buys: u32, wish: &Wish, kept: &mut Kept) {
        let parts = top.entry.count + bottoms.count;
        let rest = rest(top.drain, parts, buys + top.entry.to_buy + bottoms.to_buy);
        let Some(miss) = top.room_for(kept.limit(self) - rest, bottoms.finest, wish) else {
            return;
        };
        let (low, high) = top.bottoms(self, miss, wish);
        for bottom in bottoms.between(low, high) {
            if let Some(judged) = self.judge(top, bottom, wish) {
                let to_buy = buys + top.entry.to_buy + bottom.to_buy;
                let score = score(judged, top.drain, parts, to_buy);
                if score < kept.limit(self) {
                    kept.take(self.found(top, bottom, score, to_buy));
                }
            }
        }
    }

    /// Error of the threshold as a share of the one wanted; `None` where the
    /// circuit does not do what is wanted.
    pub(super) fn judge(&self, top: &Top<'_>, bottom: &Entry, wish: &Wish) -> Option<f64> {
        let circuit = self.circuit(top, bottom);
        let thresholds = circuit.thresholds();
        let trip = thresholds.falling;
        if (trip - wish.trip).abs() > wish.within * wish.trip {
            return None;
        }
        if wish.feeds_back() {
            let [least, most] = wish.hysteresis;
            let hysteresis = thresholds.hysteresis();
            if hysteresis < least || hysteresis > most || thresholds.rising > wish.recovered {
                return None;
            }
        }
        if let Some(capacitor) = self.capacitor {
            let delay = LN_2 * capacitor.farads / (top.siemens() + bottom.siemens);
            let [least, most] = self.delay_left(wish);
            if delay < least || delay > most {
                return None;
            }
        }
        let miss = trip - wish.trip;
        let spread = self.spread_square(top, bottom, trip);
        Some((miss * miss + spread).sqrt() / wish.trip)
    }

    /// Square of the reach of the falling threshold in V², to first order.
    fn spread_square(&self, top: &Top<'_>, bottom: &Entry, trip: f64) -> f64 {
        let (above, back, below) = (top.entry.siemens, top.back, bottom.siemens);
        let sum = above + back + below;
        let steep = above + back - self.line.1 * sum;
        let input = self.reference_at(trip);
        let square = |part: f64| part * part;
        (square(above * (trip - input)) * top.entry.tolerance_square
            + square(below * input) * bottom.tolerance_square
            + square(back * (trip - self.high_loss() - input) * top.feedback_tolerance)
            + square(back * HIGH_LOSS_TOLERANCE * self.high_loss())
            + square(self.strayed(sum))
            + square(sum) * self.input_square)
            / square(steep)
    }

    pub(super) fn circuit(&self, top: &Top<'_>, bottom: &Entry) -> Indicator {
        Indicator {
            top: top.entry.arm,
            bottom: bottom.arm,
            feedback: top.feedback,
            feed: self.feed,
            reference: *self.reference,
            comparator: *self.comparator,
            light: self.light,
            pull_up: self.pull_up,
            slow: self.slow,
            delay: self.capacitor,
            speed_up: None,
        }
    }

    pub(super) fn found(&self, top: &Top<'_>, bottom: &Entry, score: f64, to_buy: u32) -> Found {
        Found {
            score,
            circuit: self.circuit(top, bottom),
            comparator: self.indices.0,
            reference: self.indices.1,
            capacitor: self.indices.2,
            to_buy,
        }
    }
}

/// Whether the comparator works on this battery with this reference at its input.
fn inputs_bear(comparator: &Comparator, reference: &Reference, wish: &Wish) -> bool {
    let [lowest, highest] = wish.supply;
    let reach = reference.volts * (reference.tolerance + reference.drift);
    comparator.supply[0] <= lowest
        && comparator.supply[1] >= highest
        && reference.volts - reach >= comparator.input_low
        && reference.volts + reach <= lowest - comparator.input_high
        && reference.volts * highest / wish.trip <= highest - comparator.input_high
}

/// Whether a resistor keeps the reference within its currents, and the reference
/// stiff enough to be one.
fn feeds(reference: &Reference, feed: Resistor, wish: &Wish) -> bool {
    let [lowest, highest] = wish.supply;
    let reach = reference.tolerance + reference.drift;
    let least = (lowest - reference.volts * (1.0 + reach)) / (feed.ohms * (1.0 + feed.tolerance));
    let most = (highest - reference.volts * (1.0 - reach)) / (feed.ohms * (1.0 - feed.tolerance));
    let (fixed, rise) = reference.line(feed.ohms);
    least >= reference.least_current
        && most <= reference.most_current
        && rise * wish.trip <= STIFF * (fixed + rise * wish.trip)
}

/// What makes the delay: a capacitor at the divider, or behind a resistor.
struct Wait<'a> {
    index: Option<usize>,
    capacitor: Option<&'a Offer<Capacitor>>,
    slow: Option<&'a Offer<Resistor>>,
}

/// Each capacitor with the divider alone, and with the smallest resistor behind
/// it that is slow enough by itself; nothing at all where no delay is wanted.
fn waits<'a>(drawer: &'a Drawer, wish: &Wish) -> Vec<Wait<'a>> {
    if !wish.waits() {
        return vec![Wait {
            index: None,
            capacitor: None,
            slow: None,
        }];
    }
    let [least, most] = wish.delay;
    let mut all = Vec::new();
    for (index, capacitor) in drawer.capacitors.iter().enumerate() {
        let takes = |one: &&Offer<Resistor>| LN_2 * one.part.ohms * capacitor.part.farads;
        let enough = drawer
            .resistors
            .iter()
            .filter(|one| (least..=most).contains(&takes(one)));
        let slow = enough.min_by(|a, b| takes(a).total_cmp(&takes(b)));
        for slow in [None].into_iter().chain(slow.map(Some)) {
            all.push(Wait {
                index: Some(index),
                capacitor: Some(capacitor),
                slow,
            });
        }
    }
    all
}
