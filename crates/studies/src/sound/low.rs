//! How low: where the box's own roll-off has lost so many decibels.

use physics::math::{db_amplitude, exp, ln};

/// The −3 and −6 dB points of a roll-off on a grid, in Hz.
///
/// The roll-off is the volume acceleration of everything that radiates, over
/// the asymptote of the mid-band: the box's own, without face and place. The
/// point is the highest frequency below which the output stays lower.
pub(crate) fn low_points(hertz: &[f64], roll_off: &[f64]) -> (f64, f64) {
    (
        crossing_below(hertz, roll_off, -3.010_3),
        crossing_below(hertz, roll_off, -6.020_6),
    )
}

/// The highest frequency, below the loudest of the bass, at which the roll-off
/// falls through `level` dB, by straight lines on logarithmic axes. The lowest
/// frequency of the grid where it never does.
pub(crate) fn crossing_below(hertz: &[f64], roll_off: &[f64], level: f64) -> f64 {
    let level_at = |i: usize| db_amplitude(roll_off[i]);
    let top = loudest_bass(hertz, roll_off);
    let Some(below) = (0..top).rev().find(|&i| level_at(i) < level) else {
        return hertz[0];
    };
    let (low, high) = (level_at(below), level_at(below + 1));
    if high < level {
        return hertz[below + 1];
    }
    let share = (level - low) / (high - low);
    exp(ln(hertz[below]) + share * (ln(hertz[below + 1]) - ln(hertz[below])))
}

/// The greatest hump of the bass over the mid-band: its frequency in Hz and its height in dB.
///
/// Nothing stands above an even bass, whose height is 0 or less.
pub(crate) fn hump(hertz: &[f64], roll_off: &[f64]) -> (f64, f64) {
    let top = loudest_bass(hertz, roll_off);
    (hertz[top], db_amplitude(roll_off[top]))
}

/// Highest frequency that counts as bass where a roll-off starts and a hump stands, in Hz.
const BASS: f64 = 500.0;

fn loudest_bass(hertz: &[f64], roll_off: &[f64]) -> usize {
    let end = hertz.partition_point(|&f| f <= BASS).max(1);
    (0..end)
        .max_by(|&a, &b| roll_off[a].total_cmp(&roll_off[b]))
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_second_order_roll_off_crosses_where_it_should() {
        // Butterworth: −3.01 dB at 1, −6.02 dB at 0.7598 of the corner.
        let hertz: Vec<f64> = (0..400)
            .map(|i| 10.0 * physics::math::pow(2000.0, f64::from(i) / 399.0))
            .collect();
        let roll_off: Vec<f64> = hertz
            .iter()
            .map(|f| {
                let x = (f / 80.0) * (f / 80.0);
                x / (1.0 + x * x).sqrt()
            })
            .collect();
        let (three, six) = low_points(&hertz, &roll_off);
        assert!((three - 80.0).abs() < 0.05, "{three}");
        assert!((six - 60.79).abs() < 0.05, "{six}");
    }
}
