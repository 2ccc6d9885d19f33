//! Spreading names along a line so that they keep a distance, each as near as
//! can be to where it belongs, in unchanged order.

/// Middles for names that want to stand at `wanted` (rising), each `pitch`
/// from the next, within `low` to `high`. Least squares: names that press
/// against one another share their block's mean.
pub(crate) fn spread(wanted: &[f64], pitch: f64, low: f64, high: f64) -> Vec<f64> {
    // With the pitch taken out, the order constraint is plain monotonicity.
    let mut blocks: Vec<(f64, usize)> = Vec::new();
    for (i, w) in wanted.iter().enumerate() {
        blocks.push((w - pitch * i as f64, 1));
        while blocks.len() > 1 {
            let (b, a) = (blocks[blocks.len() - 1], blocks[blocks.len() - 2]);
            if a.0 <= b.0 {
                break;
            }
            let count = a.1 + b.1;
            let mean = (a.0 * a.1 as f64 + b.0 * b.1 as f64) / count as f64;
            blocks.pop();
            blocks.pop();
            blocks.push((mean, count));
        }
    }
    let last = pitch * wanted.len().saturating_sub(1) as f64;
    let highest = (high - last).max(low);
    blocks
        .iter()
        .flat_map(|(mean, count)| std::iter::repeat_n(mean.clamp(low, highest), *count))
        .enumerate()
        .map(|(i, m)| m + pitch * i as f64)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn names_with_room_stay_where_they_belong() {
        assert_eq!(spread(&[1.0, 9.0], 3.0, 0.0, 20.0), [1.0, 9.0]);
        assert_eq!(spread(&[5.0, 5.0], 3.0, 0.0, 20.0), [3.5, 6.5]);
        assert_eq!(spread(&[0.0, 0.0], 3.0, 0.0, 20.0), [0.0, 3.0]);
    }

    proptest! {
        #[test]
        fn spread_names_keep_their_pitch_and_bounds(
            mut wanted in proptest::collection::vec(0.0_f64..40.0, 1..9),
        ) {
            wanted.sort_by(f64::total_cmp);
            let got = spread(&wanted, 3.0, 0.0, 40.0);
            prop_assert!(got.windows(2).all(|w| w[1] - w[0] >= 3.0 - 1e-9));
            prop_assert!(got.iter().all(|y| *y >= -1e-9 && *y <= 40.0 + 1e-9));
        }
    }
}
