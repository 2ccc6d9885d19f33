//! Curves and bands in millimetres.

use super::{Axis, Chart, Series};
use crate::geometry::{Point, Rect};
use crate::path::Polyline;
use crate::sheet::{Dash, Drawing, Group, Stroke, Style};

/// Maps values to places in the plot.
#[derive(Clone, Copy)]
pub(crate) struct Mapping<'a> {
    pub(crate) x: &'a Axis,
    pub(crate) y: &'a Axis,
    pub(crate) plot: Rect,
}

impl Mapping<'_> {
    pub(crate) fn x_mm(&self, value: f64) -> f64 {
        self.plot.x + self.x.fraction(value).clamp(-20.0, 20.0) * self.plot.w
    }

    pub(crate) fn y_mm(&self, value: f64) -> f64 {
        self.plot.bottom() - self.y.fraction(value).clamp(-20.0, 20.0) * self.plot.h
    }

    /// The runs of finite points of a series, in millimetres.
    pub(crate) fn runs(&self, points: &[(f64, f64)]) -> Vec<Vec<Point>> {
        points
            .split(|(x, y)| !x.is_finite() || !y.is_finite())
            .filter(|run| !run.is_empty())
            .map(|run| {
                run.iter()
                    .map(|(x, y)| Point::new(self.x_mm(*x), self.y_mm(*y)))
                    .collect()
            })
            .collect()
    }

    /// The visible stretches of a series.
    pub(crate) fn visible(&self, series: &Series) -> Vec<(Point, Point)> {
        self.runs(&series.points)
            .iter()
            .flat_map(|run| run.windows(2).map(|w| (w[0], w[1])).collect::<Vec<_>>())
            .filter_map(|(a, b)| self.plot.clip(a, b))
            .collect()
    }

    /// Outlines of the shaded band, one for each unbroken run.
    pub(crate) fn band_outlines(&self, series: &Series) -> Vec<Polyline> {
        let Some(band) = &series.band else {
            return Vec::new();
        };
        let edges: Vec<(f64, f64, f64)> = series
            .points
            .iter()
            .zip(&band.low)
            .zip(&band.high)
            .map(|((p, low), high)| (p.0, *low, *high))
            .collect();
        edges
            .split(|(x, low, high)| !(x.is_finite() && low.is_finite() && high.is_finite()))
            .filter(|run| run.len() > 1)
            .map(|run| {
                let top = run
                    .iter()
                    .map(|e| Point::new(self.x_mm(e.0), self.y_mm(e.2)));
                let back = run
                    .iter()
                    .rev()
                    .map(|e| Point::new(self.x_mm(e.0), self.y_mm(e.1)));
                Polyline {
                    points: top.chain(back).collect(),
                    closed: true,
                }
            })
            .collect()
    }
}

/// Bands, then curves, the first series on top.
pub(crate) fn draw(chart: &Chart, map: &Mapping<'_>, out: &mut Drawing) {
    let mut bands = Drawing::default();
    for series in chart.series.iter().rev() {
        for outline in map.band_outlines(series) {
            bands.polygon(&outline.points, Style::washed(series.style.role(), 0.2));
        }
    }
    if !bands.items.is_empty() {
        out.group(Group::Clip(map.plot), bands);
    }
    for (clip, held) in stretches_of_belief(chart, map) {
        let mut curves = Drawing::default();
        for series in chart.series.iter().rev() {
            let stroke = if held {
                series.style.stroke()
            } else {
                beyond(series.style.stroke())
            };
            for run in map.runs(&series.points) {
                curves.polyline(&run, stroke);
            }
        }
        out.group(Group::Clip(clip), curves);
    }
}

fn beyond(stroke: Stroke) -> Stroke {
    stroke.dashed(Dash::Dotted)
}

/// Parts of the plot where the model holds (true) or does not.
fn stretches_of_belief(chart: &Chart, map: &Mapping<'_>) -> Vec<(Rect, bool)> {
    let plot = map.plot;
    let Some((from, to)) = chart.model_holds else {
        return vec![(plot, true)];
    };
    let from = map.x_mm(from).clamp(plot.x, plot.right());
    let to = map.x_mm(to).clamp(from, plot.right());
    let part = |a: f64, b: f64| Rect::new(a, plot.y, b - a, plot.h);
    [
        (part(plot.x, from), false),
        (part(from, to), true),
        (part(to, plot.right()), false),
    ]
    .into_iter()
    .filter(|(rect, _)| rect.w > 0.0)
    .collect()
}
