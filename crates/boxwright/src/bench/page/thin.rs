//! Curves with no more points than can be told apart on a page.

use drawings::chart::{Axis, Band, Chart, Series};

/// How far a curve may come to lie off, as a share of the height of its plot: a third of
/// a hair line.
const OFF: f64 = 7e-4;

/// The same chart with fewer points.
pub(super) fn thinned(chart: &Chart) -> Chart {
    let mut out = chart.clone();
    for series in &mut out.series {
        thin(series, &chart.x, &chart.y);
    }
    out
}

fn thin(series: &mut Series, x: &Axis, y: &Axis) {
    let count = series.points.len();
    let band = |side: fn(&Band) -> &Vec<f64>| {
        let values = series.band.as_ref().map(side);
        values.filter(|values| values.len() == count)
    };
    let share = |values: Vec<f64>| -> Vec<f64> {
        values.into_iter().map(|value| y.fraction(value)).collect()
    };
    let mut curves = vec![share(series.points.iter().map(|(_, y)| *y).collect())];
    curves.extend(band(|band| &band.low).map(|values| share(values.clone())));
    curves.extend(band(|band| &band.high).map(|values| share(values.clone())));
    let along: Vec<f64> = series
        .points
        .iter()
        .map(|(at, _)| x.fraction(*at))
        .collect();
    let kept = kept(&along, &curves);
    let pick = |values: &[f64]| kept.iter().map(|i| values[*i]).collect::<Vec<_>>();
    series.points = kept.iter().map(|i| series.points[*i]).collect();
    if let Some(band) = &mut series.band {
        if band.low.len() == count {
            band.low = pick(&band.low);
        }
        if band.high.len() == count {
            band.high = pick(&band.high);
        }
    }
}

/// Points to keep: between two of them no curve lies further off the straight line than
/// [`OFF`] (after Ramer, Douglas and Peucker). Breaks are kept with their neighbours.
fn kept(along: &[f64], curves: &[Vec<f64>]) -> Vec<usize> {
    let count = along.len();
    let broken = |i: usize| curves.iter().any(|curve| !curve[i].is_finite());
    let ends: Vec<usize> = (0..count)
        .filter(|i| {
            let mut near = i.saturating_sub(1)..=(i + 1).min(count - 1);
            *i == 0 || i + 1 == count || near.any(broken)
        })
        .collect();
    let mut keep = vec![false; count];
    for i in &ends {
        keep[*i] = true;
    }
    let mut spans: Vec<(usize, usize)> = ends.windows(2).map(|pair| (pair[0], pair[1])).collect();
    while let Some((from, to)) = spans.pop() {
        let far = (from + 1..to)
            .map(|i| (i, off(along, curves, from, to, i)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((i, off)) = far
            && off > OFF
        {
            keep[i] = true;
            spans.extend([(from, i), (i, to)]);
        }
    }
    (0..count).filter(|i| keep[*i]).collect()
}

/// How far the curves lie at a point off the straight lines between two others.
fn off(along: &[f64], curves: &[Vec<f64>], from: usize, to: usize, at: usize) -> f64 {
    let share = (along[at] - along[from]) / (along[to] - along[from]).max(f64::MIN_POSITIVE);
    let each = curves.iter().map(|curve| {
        let line = curve[from] + share * (curve[to] - curve[from]);
        (curve[at] - line).abs()
    });
    each.fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_curve_is_moved_further_than_can_be_seen(
            steps in proptest::collection::vec(-0.02_f64..0.02, 2..300),
            broken in proptest::option::of(0_usize..300),
        ) {
            let mut at = 0.5;
            let mut curve: Vec<f64> = steps.iter().map(|step| { at += step; at }).collect();
            if let Some(broken) = broken
                && let Some(value) = curve.get_mut(broken)
            {
                *value = f64::NEG_INFINITY;
            }
            let along: Vec<f64> = (0..curve.len()).map(|i| i as f64 / curve.len() as f64).collect();
            let kept = kept(&along, std::slice::from_ref(&curve));
            prop_assert_eq!(kept[0], 0);
            prop_assert_eq!(kept[kept.len() - 1], curve.len() - 1);
            for pair in kept.windows(2) {
                for i in pair[0]..=pair[1] {
                    if curve[pair[0]].is_finite() && curve[pair[1]].is_finite() {
                        prop_assert!(off(&along, std::slice::from_ref(&curve), pair[0], pair[1], i) <= OFF);
                    }
                }
            }
        }
    }

    #[test]
    fn a_straight_line_needs_its_ends_alone() {
        let along: Vec<f64> = (0..100).map(f64::from).collect();
        assert_eq!(kept(&along, std::slice::from_ref(&along)), [0, 99]);
    }
}
