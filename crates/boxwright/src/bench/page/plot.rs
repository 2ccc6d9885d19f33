//! Charts whose values are read under the pointer.

use super::thin::thinned;
use drawings::chart::{Axis, Chart, Scale};
use drawings::{Rect, export};
use maud::{Markup, PreEscaped, html};
use serde::Serialize;

/// A chart on a page.
pub(super) struct Plot<'a> {
    /// Its id, unlike any other on the page.
    pub(super) id: &'a str,
    pub(super) chart: &'a Chart,
    /// Width and height in the units of the drawing, mm.
    pub(super) size: (f64, f64),
}

/// What a script needs to read values off a chart.
#[derive(Serialize)]
struct Values<'a> {
    /// The plot: left, top, width, height.
    plot: [f64; 4],
    x: Along<'a>,
    y: Along<'a>,
    series: Vec<Series<'a>>,
}

#[derive(Serialize)]
struct Along<'a> {
    log: bool,
    from: f64,
    to: f64,
    label: &'a str,
}

#[derive(Serialize)]
struct Series<'a> {
    name: &'a str,
    x: Vec<f64>,
    y: Vec<Option<f64>>,
    low: Option<Vec<Option<f64>>>,
    high: Option<Vec<Option<f64>>>,
}

impl Plot<'_> {
    pub(super) fn draw(&self) -> Markup {
        let (w, h) = self.size;
        let chart = thinned(self.chart);
        let (drawing, plot) = chart.plotted(Rect::new(0.0, 0.0, w, h));
        let values = Values {
            plot: [plot.x, plot.y, plot.w, plot.h].map(short),
            x: along(&self.chart.x),
            y: along(&self.chart.y),
            series: series(&chart),
        };
        let values = serde_json::to_string(&values).unwrap_or_default();
        let x = &self.chart.x;
        html! {
            figure.plot id=(self.id) data-values=(values) {
                div.reader role="slider" tabindex="0" id={ (self.id) "-reader" }
                    aria-label={ (self.chart.title) ": read values, " (x.label) }
                    aria-valuemin=(short(x.low)) aria-valuemax=(short(x.high))
                    aria-valuenow=(short(x.low)) aria-valuetext="not reading" {
                    svg.drawing viewBox={ "0 0 " (w) " " (h) } aria-hidden="true" focusable="false" {
                        (PreEscaped(export::svg::elements(&drawing, self.id)))
                        g.cross {}
                    }
                }
                output.reading { "\u{a0}" }
            }
        }
    }
}

fn series(chart: &Chart) -> Vec<Series<'_>> {
    let series = chart.series.iter();
    let reading = |values: &[f64]| values.iter().map(|v| finite(*v)).collect::<Vec<_>>();
    series
        .map(|series| Series {
            name: &series.name,
            x: series.points.iter().map(|(x, _)| short(*x)).collect(),
            y: series.points.iter().map(|(_, y)| finite(*y)).collect(),
            low: series.band.as_ref().map(|band| reading(&band.low)),
            high: series.band.as_ref().map(|band| reading(&band.high)),
        })
        .collect()
}

fn along(axis: &Axis) -> Along<'_> {
    Along {
        log: axis.scale == Scale::Log,
        from: axis.low,
        to: axis.high,
        label: &axis.label,
    }
}

fn finite(value: f64) -> Option<f64> {
    value.is_finite().then(|| short(value))
}

/// Four digits: more than can be read off.
fn short(value: f64) -> f64 {
    format!("{value:.3e}").parse().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use drawings::chart::{Series, SeriesStyle};

    #[test]
    fn values_are_those_of_the_curve_and_breaks_stay_breaks() {
        let mut chart = Chart::new(
            "</figure><script>",
            Axis::log("frequency in Hz", 20.0, 20_000.0),
            Axis::linear("level in dB", 0.0, 100.0),
        );
        chart.series.push(Series {
            name: "a\"<b>".into(),
            points: vec![
                (20.0, 81.234_56),
                (200.0, f64::NEG_INFINITY),
                (2000.0, 90.0),
            ],
            band: None,
            style: SeriesStyle::Main,
        });
        let plot = Plot {
            id: "p",
            chart: &chart,
            size: (90.0, 60.0),
        };
        let page = plot.draw().into_string();
        assert!(!page.contains("<script") && !page.contains("<b>"), "{page}");
        let values = page.split("data-values=\"").nth(1).unwrap();
        let values = values.split('"').next().unwrap().replace("&quot;", "\"");
        let values = values.replace("&lt;", "<").replace("&gt;", ">");
        let values: serde_json::Value = serde_json::from_str(&values).unwrap();
        assert_eq!(
            values["series"][0]["y"],
            serde_json::json!([81.23, null, 90.0])
        );
        assert_eq!(values["x"]["log"], true);
    }
}
