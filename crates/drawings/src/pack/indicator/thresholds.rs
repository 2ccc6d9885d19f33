//! The battery's voltage while the music plays, and where the light changes.

use crate::chart::{Axis, Band, Chart, Mark, Series, SeriesStyle};
use crate::pack::say;
use studies::indicator::{Built, Indicator, Threshold};

/// How many times the warning the chart shows at least, before the end.
const SHOWN: f64 = 6.0;

pub(super) fn chart(indicator: &Indicator, built: &Built) -> Chart {
    let whole = indicator.left.first().copied().unwrap_or(3600.0);
    let span = (SHOWN * indicator.wanted.warning)
        .max(2.5 * built.left_band.p90)
        .min(whole);
    let hours = |left: f64| (whole - left) / 3600.0;
    let shown: Vec<usize> = (0..indicator.left.len())
        .filter(|i| indicator.left[*i] <= 1.02 * span)
        .collect();
    let (first, last) = (hours(span), hours(0.0));
    let volts = shown.iter().map(|i| indicator.volts[*i]);
    let bands = || shown.iter().map(|i| indicator.volts_band[*i]);
    let lows = bands().map(|band| band.p10).chain([built.falling.band.p10]);
    let highs = bands().map(|band| band.p90).chain([built.rising.band.p90]);
    let (low, high) = (
        lows.fold(f64::MAX, f64::min),
        highs.fold(f64::MIN, f64::max),
    );
    let mut chart = Chart::new(
        "When it lights",
        Axis::linear("hours of music", first, last),
        Axis::linear("volts at the battery", (low - 0.1).max(0.0), high + 0.1),
    );
    chart.subtitle = "playing as the brief asks, the last stretch".to_owned();
    chart.series = vec![
        Series {
            name: "battery".to_owned(),
            points: shown
                .iter()
                .map(|i| hours(indicator.left[*i]))
                .zip(volts)
                .collect(),
            band: Some(Band {
                low: bands().map(|band| band.p10).collect(),
                high: bands().map(|band| band.p90).collect(),
            }),
            style: SeriesStyle::Main,
        },
        level(
            "lights below",
            &built.falling,
            SeriesStyle::Second,
            [first, last],
        ),
        level(
            "goes out above",
            &built.rising,
            SeriesStyle::Third,
            [first, last],
        ),
    ];
    let wanted = indicator.wanted.warning;
    if wanted < span {
        let name = format!("{} left", say::plain(wanted / 60.0, "min"));
        chart.marks.push(Mark::AtX(hours(wanted), name));
    }
    chart
}

fn level(name: &str, threshold: &Threshold, style: SeriesStyle, [from, to]: [f64; 2]) -> Series {
    Series {
        name: format!("{name} {:.2} V", threshold.volts),
        points: vec![(from, threshold.volts), (to, threshold.volts)],
        band: Some(Band {
            low: vec![threshold.band.p10; 2],
            high: vec![threshold.band.p90; 2],
        }),
        style,
    }
}
