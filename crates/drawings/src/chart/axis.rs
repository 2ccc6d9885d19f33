//! Scales, ranges and ticks.

use crate::math;
use crate::text::{Lettering, number};

/// How values are spread along an axis.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Scale {
    /// Evenly by value.
    #[default]
    Linear,
    /// Evenly by ratio; values are positive.
    Log,
}

/// One axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Quantity and unit, as written beside it ("frequency in Hz").
    pub label: String,
    /// Even by value or by ratio.
    pub scale: Scale,
    /// Lowest value shown.
    pub low: f64,
    /// Highest value shown.
    pub high: f64,
    /// Whether it counts: only whole numbers are written.
    pub whole: bool,
}

/// A place along an axis where a grid line stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tick {
    pub(crate) value: f64,
    /// What is written there, if anything.
    pub(crate) label: Option<String>,
}

impl Axis {
    /// A linear axis over a given range.
    #[must_use]
    pub fn linear(label: &str, low: f64, high: f64) -> Self {
        Self::new(label, Scale::Linear, low, high)
    }

    /// A logarithmic axis over a given range of positive values.
    #[must_use]
    pub fn log(label: &str, low: f64, high: f64) -> Self {
        let low = if low > 0.0 { low } else { 1e-9 };
        Self::new(label, Scale::Log, low, high)
    }

    fn new(label: &str, scale: Scale, low: f64, high: f64) -> Self {
        let sound = low.is_finite() && high.is_finite() && high > low;
        let (low, high) = match (sound, scale) {
            (true, _) => (low, high),
            (false, _) if !low.is_finite() => (1.0, 10.0),
            (false, Scale::Linear) => (low, low + 1.0),
            (false, Scale::Log) => (low, low * 10.0),
        };
        Self {
            label: label.to_owned(),
            scale,
            low,
            high,
            whole: false,
        }
    }

    /// A linear axis that counts from one whole number to another.
    #[must_use]
    pub fn counting(label: &str, low: u32, high: u32) -> Self {
        Self {
            whole: true,
            ..Self::linear(label, f64::from(low), f64::from(high))
        }
    }

    /// A linear axis whose ends are round numbers around all finite values,
    /// and at least `least_span` long.
    #[must_use]
    pub fn linear_around(
        label: &str,
        values: impl IntoIterator<Item = f64>,
        least_span: f64,
    ) -> Self {
        let finite = values.into_iter().filter(|v| v.is_finite());
        let (mut low, mut high) =
            finite.fold((f64::MAX, f64::MIN), |(lo, hi), v| (lo.min(v), hi.max(v)));
        if low > high {
            (low, high) = (0.0, least_span);
        }
        let short = (least_span - (high - low)).max(0.0);
        (low, high) = (low - short / 2.0, high + short / 2.0);
        if high <= low {
            high = low + 1.0;
        }
        let step = step(high - low, 8.0);
        let ends = (
            math::floor(low / step + 1e-9) * step,
            math::ceil(high / step - 1e-9) * step,
        );
        Self::new(label, Scale::Linear, ends.0, ends.1)
    }

    /// Fraction of the way along the axis, 0 at the low end.
    #[must_use]
    pub fn fraction(&self, value: f64) -> f64 {
        match self.scale {
            Scale::Linear => (value - self.low) / (self.high - self.low),
            Scale::Log if value > 0.0 => {
                (math::log10(value) - math::log10(self.low))
                    / (math::log10(self.high) - math::log10(self.low))
            }
            Scale::Log => f64::NEG_INFINITY,
        }
    }

    /// Whether a value lies on the axis, ends included.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        value >= self.low && value <= self.high
    }

    /// Grid lines for an axis `length` mm long whose labels each take
    /// `room(label)` mm along it.
    pub(crate) fn ticks(&self, length: f64, room: impl Fn(&str) -> f64) -> Vec<Tick> {
        match self.scale {
            Scale::Linear => self.linear_ticks(length, &room),
            Scale::Log => self.log_ticks(length, &room),
        }
    }

    fn linear_ticks(&self, length: f64, room: &dyn Fn(&str) -> f64) -> Vec<Tick> {
        let span = self.high - self.low;
        let mut best = Vec::new();
        for wanted in [2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0] {
            let step = match self.whole {
                true => step(span, wanted).max(1.0),
                false => step(span, wanted),
            };
            let ticks = self.stepped(step, decimals(step));
            let apart = length * step / span;
            let widest = ticks
                .iter()
                .filter_map(|t| t.label.as_deref())
                .map(room)
                .fold(0.0, f64::max);
            if best.len() < 2 || apart >= widest {
                best = ticks;
            }
        }
        best
    }

    fn stepped(&self, step: f64, decimals: usize) -> Vec<Tick> {
        let first = math::ceil(self.low / step - 1e-9);
        let last = math::floor(self.high / step + 1e-9);
        let count = (last - first + 1.0).max(0.0) as u32;
        (0..count)
            .map(|i| {
                let value = (first + f64::from(i)) * step;
                Tick {
                    value,
                    label: Some(number(value, decimals)),
                }
            })
            .collect()
    }

    fn log_ticks(&self, length: f64, room: &dyn Fn(&str) -> f64) -> Vec<Tick> {
        let decades = math::log10(self.high / self.low);
        let all = self.multiples();
        let (dense, plain): (&[u32], _) = (&[1, 2, 3, 4, 5, 6, 7, 8, 9], [1, 2, 5]);
        let dense = (decades <= 1.2).then_some(dense);
        for digits in dense.into_iter().chain([&plain[..], &[1, 3], &[1]]) {
            let ticks = labelled(&all, |value, digit| {
                digits.contains(&digit).then(|| compact(value))
            });
            let count = ticks.iter().filter(|t| t.label.is_some()).count();
            if count >= 3 && self.apart(&ticks, length, room) {
                return ticks;
            }
        }
        if decades < 1.0 {
            // Even steps crowd towards the high end: take coarser ones until
            // they stand apart.
            for share in [0.8, 0.6, 0.45, 0.3, 0.2] {
                let ticks = self.linear_ticks(length * share, room);
                if self.apart(&ticks, length, room) {
                    return ticks;
                }
            }
            return ends_only(self.linear_ticks(length * 0.2, room));
        }
        self.as_fit(&all, length, room)
    }

    fn multiples(&self) -> Vec<(f64, u32)> {
        let mut out = Vec::new();
        let mut power = math::floor(math::log10(self.low));
        while math::pow(10.0, power) <= self.high * (1.0 + 1e-9) {
            for digit in 1..=9_u32 {
                let value = f64::from(digit) * math::pow(10.0, power);
                if value >= self.low * (1.0 - 1e-9) && value <= self.high * (1.0 + 1e-9) {
                    out.push((value, digit));
                }
            }
            power += 1.0;
        }
        out
    }

    fn apart(&self, ticks: &[Tick], length: f64, room: &dyn Fn(&str) -> f64) -> bool {
        let spans: Vec<(f64, f64)> = ticks
            .iter()
            .filter_map(|t| {
                let half = room(t.label.as_deref()?) / 2.0;
                Some((self.fraction(t.value) * length, half))
            })
            .collect();
        spans.windows(2).all(|w| w[1].0 - w[1].1 >= w[0].0 + w[0].1)
    }

    /// No regular choice fits: label powers of ten, then fives, then twos,
    /// wherever there is room left.
    fn as_fit(&self, all: &[(f64, u32)], length: f64, room: &dyn Fn(&str) -> f64) -> Vec<Tick> {
        let mut taken: Vec<(f64, f64, f64)> = Vec::new();
        for digit in [1, 5, 2] {
            for (value, _) in all.iter().filter(|(_, d)| *d == digit) {
                let at = self.fraction(*value) * length;
                let half = room(&compact(*value)) / 2.0;
                if taken
                    .iter()
                    .all(|(_, a, b)| at + half <= *a || at - half >= *b)
                {
                    taken.push((*value, at - half, at + half));
                }
            }
        }
        labelled(all, |value, _| {
            let chosen = taken.iter().any(|t| t.0 == value);
            chosen.then(|| compact(value))
        })
    }
}

/// The same grid with all labels but the outer two left out.
fn ends_only(mut ticks: Vec<Tick>) -> Vec<Tick> {
    let last = ticks.len().saturating_sub(1);
    for tick in ticks.iter_mut().take(last).skip(1) {
        tick.label = None;
    }
    ticks
}

fn labelled(all: &[(f64, u32)], label: impl Fn(f64, u32) -> Option<String>) -> Vec<Tick> {
    all.iter()
        .map(|(value, digit)| Tick {
            value: *value,
            label: label(*value, *digit),
        })
        .collect()
}

/// Room a label takes across (with a gap) for an axis that lies level.
pub(crate) fn room_across(letters: Lettering) -> impl Fn(&str) -> f64 {
    move |label| letters.width(label) + 1.5 * letters.size_mm
}

/// A round step (1, 2 or 5 times a power of ten) that cuts a span into about
/// `wanted` parts, and not into more.
fn step(span: f64, wanted: f64) -> f64 {
    let raw = span / wanted;
    let power = math::pow(10.0, math::floor(math::log10(raw)));
    let times = raw / power;
    let round = [1.0, 2.0, 5.0]
        .into_iter()
        .find(|r| times <= r * (1.0 + 1e-9))
        .unwrap_or(10.0);
    round * power
}

fn decimals(step: f64) -> usize {
    (-math::floor(math::log10(step) + 1e-9)).clamp(0.0, 9.0) as usize
}

/// A round value in few characters: 20, 500, 1k, 20k, 0.05.
fn compact(value: f64) -> String {
    let (scaled, suffix) = if value >= 999_999.0 {
        (value / 1e6, "M")
    } else if value >= 999.9 {
        (value / 1e3, "k")
    } else {
        (value, "")
    };
    let places = if scaled >= 1.0 { 0 } else { decimals(scaled) };
    format!("{}{suffix}", number(scaled, places))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn labels(axis: &Axis, length: f64) -> Vec<String> {
        axis.ticks(length, room_across(Lettering::regular(2.4)))
            .into_iter()
            .filter_map(|t| t.label)
            .collect()
    }

    #[test]
    fn the_audio_range_is_labelled_by_ones_twos_and_fives() {
        let axis = Axis::log("frequency in Hz", 20.0, 20_000.0);
        let expected = [
            "20", "50", "100", "200", "500", "1k", "2k", "5k", "10k", "20k",
        ];
        assert_eq!(labels(&axis, 110.0), expected);
        assert_eq!(labels(&axis, 25.0), ["100", "1k", "10k"]);
        assert_eq!(axis.ticks(110.0, |_| 1.0).len(), 8 + 9 + 9 + 2);
    }

    #[test]
    fn a_counting_axis_has_whole_labels() {
        for last in 2..9 {
            for label in labels(&Axis::counting("", 1, last), 200.0) {
                assert!(label.parse::<u32>().is_ok(), "{label}");
            }
        }
        assert_eq!(
            labels(&Axis::counting("", 1, 4), 200.0),
            ["1", "2", "3", "4"]
        );
    }

    #[test]
    fn linear_labels_are_round_and_carry_enough_decimals() {
        assert_eq!(labels(&Axis::linear("", 0.0, 1.0), 80.0).len(), 11);
        assert_eq!(
            labels(&Axis::linear("", -20.0, 10.0), 30.0),
            ["−20", "−10", "0", "10"]
        );
        assert_eq!(labels(&Axis::linear("", 0.0, 0.05), 60.0)[1], "0.01");
    }

    #[test]
    fn ends_around_values_are_round() {
        let axis = Axis::linear_around("", [61.3, 88.9, f64::NAN], 0.0);
        assert_eq!((axis.low, axis.high), (60.0, 90.0));
        let flat = Axis::linear_around("", [5.0, 5.0], 10.0);
        assert!(flat.low <= 0.0 && flat.high >= 10.0);
    }

    proptest! {
        #[test]
        fn ticks_cover_the_range(
            low in -1e5_f64..1e5,
            span in 1e-3_f64..1e6,
            length in 15.0_f64..200.0,
        ) {
            let axis = Axis::linear("", low, low + span);
            let ticks = axis.ticks(length, room_across(Lettering::regular(2.4)));
            prop_assert!(ticks.len() >= 2 && ticks.len() <= 12);
            for t in &ticks {
                prop_assert!(axis.fraction(t.value) > -1e-6 && axis.fraction(t.value) < 1.0 + 1e-6);
            }
            let step = ticks[1].value - ticks[0].value;
            prop_assert!(ticks[0].value - axis.low < step * 1.001);
            prop_assert!(axis.high - ticks[ticks.len() - 1].value < step * 1.001);
        }

        #[test]
        fn log_ticks_cover_the_range_and_labels_keep_apart(
            low in 1e-4_f64..1e4,
            decades in 0.2_f64..7.0,
            length in 40.0_f64..200.0,
        ) {
            let axis = Axis::log("", low, low * libm::pow(10.0, decades));
            let letters = Lettering::regular(2.4);
            let ticks = axis.ticks(length, room_across(letters));
            prop_assert!(ticks.iter().filter(|t| t.label.is_some()).count() >= 2);
            for t in &ticks {
                prop_assert!(axis.fraction(t.value) > -1e-6 && axis.fraction(t.value) < 1.0 + 1e-6);
            }
            let mut end = f64::NEG_INFINITY;
            for t in &ticks {
                if let Some(label) = &t.label {
                    let (at, w) = (axis.fraction(t.value) * length, letters.width(label));
                    prop_assert!(at - w / 2.0 > end, "{label} meets its neighbour");
                    end = at + w / 2.0;
                }
            }
        }
    }
}
