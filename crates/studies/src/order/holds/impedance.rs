//! Peaks of the impedance once the box is closed: they tell tuning and leaks.

use super::context::ALTERNATING;
use super::{Testing, test};
use crate::order::model::{Expect, Hold};
use design::{EnclosureKind, Instrument};
use physics::math::{exp, ln};

/// The highest frequency at which cone, box and outlet resonate, in Hz: above, the coil's
/// inductance rules. Common practice, no source.
const HIGHEST: f64 = 500.0;
/// How far a peak must stand above its foot to be one, as a ratio.
const STANDS_OUT: f64 = 1.1;
/// In series with the output, in Ω, and how much it must stand in W.
const SERIES: f64 = 100.0;
/// What the frequency of a phone's sine and the finding of a flat top err by: common practice,
/// no source.
const FINDING: f64 = 0.02;

/// Frequencies in Hz of the peaks of a curve of magnitudes, lowest first, each set between grid
/// points by a parabola over the logarithm of the frequency.
pub(super) fn peaks(hertz: &[f64], ohms: &[f64]) -> Vec<f64> {
    turning(hertz, ohms, |value| value)
}

/// Frequencies in Hz of its dips between peaks.
pub(super) fn dips(hertz: &[f64], ohms: &[f64]) -> Vec<f64> {
    let all = turning(hertz, ohms, |value| -value);
    let peaks = peaks(hertz, ohms);
    let [Some(first), Some(last)] = [peaks.first(), peaks.last()] else {
        return Vec::new();
    };
    all.into_iter()
        .filter(|dip| dip > first && dip < last)
        .collect()
}

fn turning(hertz: &[f64], ohms: &[f64], sense: impl Fn(f64) -> f64) -> Vec<f64> {
    let last = hertz
        .partition_point(|f| *f < HIGHEST)
        .min(hertz.len().saturating_sub(1));
    let mut out = Vec::new();
    for i in 1..last {
        let [before, here, after] = [i - 1, i, i + 1].map(|k| sense(ohms[k]));
        if here <= before || here < after {
            continue;
        }
        let bend = before - 2.0 * here + after;
        let shift = if bend < 0.0 {
            0.5 * (before - after) / bend
        } else {
            0.0
        };
        let step = ln(hertz[i + 1] / hertz[i]);
        out.push(hertz[i] * exp(shift.clamp(-0.5, 0.5) * step));
    }
    out
}

pub(super) fn hold(testing: &Testing<'_>) -> Hold {
    let hold = test(
        "test-impedance",
        "Impedance of the closed box",
        &[testing.sine_source(), Instrument::Multimeter],
    );
    let sealed = matches!(testing.design().enclosure.kind, EnclosureKind::Sealed);
    let hold = if sealed {
        hold.if_not("a second, lower peak", "a leak: it works as a small vent")
            .if_not(
                "lower than it should be",
                "a softer driver, more filling, or a larger box than drawn",
            )
            .if_not(
                "higher",
                "a stiffer or cold driver (warm it up with music), or less air than drawn",
            )
    } else {
        hold.if_not(
            "one broad peak",
            "the outlet does not work: a leak, a stuck radiator, a stuffed vent",
        )
        .if_not(
            "the dip too low or too high",
            "vent length, added mass, or net volume: trim the first two",
        )
    };
    let hold = hold.if_not(
        "left and right differ",
        "drivers differ, or one chamber leaks into the other",
    );
    let (fine, coarse) = (testing.hertz, testing.coarse);
    let nominal = peaks(fine, &testing.gains.impedance);
    let lows = dips(fine, &testing.gains.impedance);
    let mut hold = hold
        .how(
            "at the thin pair that was led out for it; afterwards cut it short, and fill what it leaves \
with putty",
        )
        .how(format!(
            "that output's own wires off; from it {SERIES:.0} Ω, 1 W in series into the pair; volts \
across the pair"
        ))
        .how(format!(
            "1 V at 100 Hz at the output, then slowly from 20 Hz to {HIGHEST:.0} Hz: note where the \
volts are greatest and, between two such places, least"
        ));
    let count = nominal.len();
    for (k, at) in nominal.iter().enumerate() {
        let label = if count == 1 {
            "peak at".to_owned()
        } else {
            format!("peak {} of {count} at", k + 1)
        };
        hold = hold.read(
            label,
            frequency(testing, *at, |traces| peaks(coarse, &traces.impedance)),
        );
        let ohms = testing.gains.impedance[Testing::near(fine, *at)];
        let height = testing.band_of_curve("mV", [ALTERNATING, 0.0], across(ohms), |traces| {
            let found = nearest(&peaks(coarse, &traces.impedance), *at);
            found.map_or(f64::NAN, |at| {
                across(traces.impedance[Testing::near(coarse, at)])
            })
        });
        hold = hold.read("volts across the driver there", height);
    }
    for at in &lows {
        hold = hold.read(
            "dip between them at",
            frequency(testing, *at, |traces| dips(coarse, &traces.impedance)),
        );
    }
    hold
}

/// Volts in mV across some Ω behind the series resistor, for 1 V at the output.
fn across(ohms: f64) -> f64 {
    1e3 * ohms / (ohms + SERIES)
}

fn nearest(found: &[f64], wanted: f64) -> Option<f64> {
    let apart = |f: &f64| (ln(*f / wanted)).abs();
    let near = found
        .iter()
        .copied()
        .min_by(|a, b| apart(a).total_cmp(&apart(b)));
    near.filter(|at| apart(at) < ln(2.0 * STANDS_OUT))
}

fn frequency(
    testing: &Testing<'_>,
    nominal: f64,
    found: impl Fn(&crate::outcome::Traces) -> Vec<f64>,
) -> Expect {
    testing.band_of_curve("Hz", [FINDING, 0.0], nominal, |traces| {
        nearest(&found(traces), nominal).unwrap_or(f64::NAN)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A peak between two grid points is found where the parabola through them has its top.
    #[test]
    fn peaks_are_found_between_grid_points() {
        let hertz: Vec<f64> = (0..60).map(|i| 20.0 * exp(0.06 * f64::from(i))).collect();
        let hump = |f: f64, at: f64| 30.0 * exp(-12.0 * ln(f / at) * ln(f / at));
        let ohms: Vec<f64> = hertz
            .iter()
            .map(|f| 4.0 + hump(*f, 45.0) + hump(*f, 170.0))
            .collect();
        let found = peaks(&hertz, &ohms);
        assert_eq!(found.len(), 2, "{found:?}");
        for (at, wanted) in found.iter().zip([45.0, 170.0]) {
            assert!((at / wanted - 1.0).abs() < 0.005, "{found:?}");
        }
        let dips = dips(&hertz, &ohms);
        assert_eq!(dips.len(), 1);
        assert!(
            (dips[0] / (45.0_f64 * 170.0).sqrt() - 1.0).abs() < 0.01,
            "{dips:?}"
        );
    }
}
