//! Sheets of curves.

use super::{Page, say};
use crate::chart::{Axis, Band, Chart, Mark, Series, SeriesStyle, Strip};
use crate::geometry::Rect;
use crate::layout::content_area;
use crate::math;
use crate::paper::Paper;
use crate::sheet::Drawing;
use design::Project;
use studies::report::{Curve, Discharging};
use studies::{Limit, Report};

/// Charts on the first sheet, two by two; the others share the next ones.
const FIRST: usize = 4;
/// Charts on one of the next sheets at most, three by two.
const NEXT: usize = 6;
/// Between charts, mm.
const GUTTER: f64 = 11.0;
const NOTE: &str = "Line: the box as designed. Shaded: eight of ten builds drawn within the \
     tolerances lie there. Dotted curve: beyond what the model can say. Dashed straight lines: \
     limits, and what the brief asks for.";

pub(crate) fn pages(project: &Project, report: &Report, paper: Paper) -> Vec<Page> {
    let mut charts: Vec<Chart> = Vec::new();
    let (side, mut curves): (Vec<&Curve>, Vec<&Curve>) =
        report.curves.iter().partition(|curve| curve.id == OFF_AXIS);
    curves.sort_by_key(|curve| rank(curve.id));
    for curve in curves {
        let mut chart = chart_of(curve);
        if curve.id == "response" {
            chart.marks.extend(how_low(report));
            chart
                .series
                .extend(side.iter().map(|side| from_the_side(side)));
        }
        charts.push(chart);
    }
    charts.push(discharge_of(project, report));
    let area = content_area(paper);
    let (first, rest) = charts.split_at(FIRST.min(charts.len()));
    std::iter::once(first)
        .chain(rest.chunks(NEXT))
        .map(|some| Page::new("Curves", grid(some, area)).noted(NOTE))
        .collect()
}

/// The curve that is drawn beside the response rather than by itself.
const OFF_AXIS: &str = "off-axis";

const GROUP_DELAY: &str = "group-delay";
/// Where hearing begins, Hz: group delay below it does not set the scale.
const HEARD: f64 = 20.0;

/// The response to a listener beside the axis, to compare with.
fn from_the_side(curve: &Curve) -> Series {
    Series {
        name: "to the side".to_owned(),
        points: points(curve),
        band: None,
        style: SeriesStyle::Reference,
    }
}

fn points(curve: &Curve) -> Vec<(f64, f64)> {
    curve
        .x
        .iter()
        .copied()
        .zip(curve.y.iter().copied())
        .collect()
}

/// Place among the charts; those not named here come last.
fn rank(id: &str) -> usize {
    const ORDER: [&str; 9] = [
        "response",
        "max-level",
        "impedance",
        "phase",
        "travel",
        "radiator-travel",
        "vent-speed",
        "current",
        GROUP_DELAY,
    ];
    ORDER
        .iter()
        .position(|known| *known == id)
        .unwrap_or(ORDER.len())
}

fn grid(charts: &[Chart], area: Rect) -> Drawing {
    let mut out = Drawing::default();
    let columns = if charts.len() > FIRST { 3 } else { 2 };
    let each = |length: f64, count: usize| (length - GUTTER * (count - 1) as f64) / count as f64;
    let (w, h) = (each(area.w, columns), each(area.h, 2));
    for (i, chart) in charts.iter().enumerate() {
        let x = area.x + (w + GUTTER) * (i % columns) as f64;
        let y = area.y + (h + GUTTER) * (i / columns) as f64;
        out.append(chart.draw(Rect::new(x, y, w, h)));
    }
    out
}

/// The chart of one curve of a report.
#[must_use]
pub fn chart_of(curve: &Curve) -> Chart {
    let (low, high) = (
        curve.x.first().copied().unwrap_or(20.0),
        curve.x.last().copied().unwrap_or(20_000.0),
    );
    let (title, label) = words_of(curve);
    let mut chart = Chart::new(
        title,
        Axis::log("frequency in Hz", low, high),
        y_axis(curve, label),
    );
    chart.subtitle = curve.title.clone();
    chart.series = vec![Series {
        name: String::new(),
        points: points(curve),
        band: curve
            .p10
            .clone()
            .zip(curve.p90.clone())
            .map(|(low, high)| Band { low, high }),
        style: SeriesStyle::Main,
    }];
    if curve.id == GROUP_DELAY && curve.y.iter().any(|y| *y < chart.y.low) {
        chart.caption = "The curve goes on below the chart.".to_owned();
    }
    chart.model_holds = curve.trusted_to.map(|to| (low, to));
    if let Some(mark) = curve.mark {
        let name = format!("{}: {}", mark_name(curve.id), say::plain(mark, curve.unit));
        chart.marks.push(Mark::AtY(mark, name));
    }
    chart.strip = curve.limits.as_ref().map(|limits| strip(&curve.x, limits));
    chart
}

/// Heading and name of the upright axis.
fn words_of(curve: &Curve) -> (&'static str, String) {
    let title = match curve.id {
        "response" => "How low",
        OFF_AXIS => "To the side",
        "max-level" => "How loud",
        "impedance" => "Impedance",
        "phase" => "Phase",
        "travel" => "Cone travel",
        GROUP_DELAY => "Group delay",
        "current" => "Current",
        "radiator-travel" => "Radiator travel",
        "vent-speed" => "Air in the vent",
        _ => "Curve",
    };
    let label = match (curve.id, curve.unit) {
        (_, "dB") => "dB re 20 µPa, rms".to_owned(),
        ("vent-speed", unit) => format!("peak air speed in {unit}"),
        ("current", unit) => format!("rms current in {unit}"),
        ("travel" | "radiator-travel", unit) => format!("peak travel in {unit}"),
        (_, unit) => format!("{} in {unit}", title.to_lowercase()),
    };
    (title, label)
}

fn mark_name(id: &str) -> &'static str {
    match id {
        "impedance" => "least load of the board",
        "travel" | "radiator-travel" => "linear travel",
        "vent-speed" => "quiet up to",
        _ => "limit",
    }
}

/// Levels over the span that matters; travel and speed not far beyond their
/// limit; phase over its whole range; group delay as far down as it is heard;
/// the rest from zero.
fn y_axis(curve: &Curve, label: String) -> Axis {
    let from = if curve.id == GROUP_DELAY { HEARD } else { 0.0 };
    let along = |values: &'_ [f64]| -> Vec<f64> {
        let pairs = curve.x.iter().zip(values);
        let shown = pairs.filter(|(x, v)| **x >= from && v.is_finite());
        shown.map(|(_, v)| *v).collect()
    };
    let values = [Some(&curve.y), curve.p10.as_ref(), curve.p90.as_ref()];
    let finite = values.into_iter().flatten().flat_map(|v| along(v));
    let (least, top) = finite.fold((0.0, f64::MIN), |(a, b), v| (v.min(a), v.max(b)));
    let top = if top > f64::MIN { top } else { 1.0 };
    match (curve.unit, curve.mark) {
        ("dB", _) => {
            let top = 5.0 * math::ceil((top + 1.0) / 5.0);
            Axis::linear(&label, top - 40.0, top)
        }
        ("°", _) => Axis::linear(&label, -90.0, 90.0),
        ("Ω", _) => {
            let bottom = bottom(curve);
            Axis::log(&label, bottom, round_above(top).max(10.0 * bottom))
        }
        (_, Some(mark)) => {
            let top = top.clamp(1.25 * mark, 2.5 * mark);
            Axis::linear_around(&label, [0.0, top], 0.0)
        }
        _ => Axis::linear_around(&label, [least, top], 1e-6),
    }
}

/// A round value below every value of the curve, its band and its mark.
fn bottom(curve: &Curve) -> f64 {
    let band = curve.p90.iter().chain(&curve.p10).flatten();
    let all = curve.y.iter().chain(band).chain(&curve.mark).copied();
    let least = all.filter(|v| *v > 0.0).fold(f64::MAX, f64::min);
    if least < f64::MAX {
        1.0 / round_above(1.25 / least)
    } else {
        1.0
    }
}

/// The next of 1, 2, 5, 10, … at or above a positive value.
fn round_above(value: f64) -> f64 {
    let power = math::pow(10.0, math::floor(math::log10(value)));
    let step = [1.0, 2.0, 5.0, 10.0].into_iter();
    step.map(|s| s * power)
        .find(|v| *v >= value * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// The −6 dB point as promised, and as the brief asks for it.
fn how_low(report: &Report) -> Vec<Mark> {
    let Some(low) = report.promises.iter().find(|p| p.id == "low") else {
        return Vec::new();
    };
    let at = |name: &str, hertz: f64| {
        let said = format!("{name}: {}", say::plain(hertz, &low.unit));
        Mark::AtX(hertz, said)
    };
    let asked = low.target.map(|target| at("brief", target));
    asked.into_iter().chain([at("−6 dB", low.value)]).collect()
}

/// Runs of one limit along the curve.
fn strip(x: &[f64], limits: &[Limit]) -> Strip {
    let mut spans: Vec<(f64, f64, String)> = Vec::new();
    for (i, (at, limit)) in x.iter().zip(limits).enumerate() {
        let next = x.get(i + 1).copied().unwrap_or(*at);
        // Half way to the neighbour, by ratio.
        let end = math::pow(at * next, 0.5);
        match spans.last_mut() {
            Some(span) if span.2 == limit.words() => span.1 = end,
            last => {
                let start = last.map_or(*at, |span| span.1);
                spans.push((start, end, limit.words().to_owned()));
            }
        }
    }
    Strip {
        title: "what gives out first".to_owned(),
        spans,
    }
}

/// The chart of the battery's discharge.
#[must_use]
pub fn discharge_of(project: &Project, report: &Report) -> Chart {
    let wanted = project.design.brief.runtime;
    discharge(&report.discharge, wanted.map(|v| v.si / 3600.0))
}

fn discharge(discharge: &Discharging, wanted: Option<f64>) -> Chart {
    let last = discharge.hours.last().copied().unwrap_or(1.0);
    let longest = wanted.map_or(last, |w| last.max(w));
    let volts = discharge.volts.iter().copied();
    let mut chart = Chart::new(
        "How long",
        Axis::linear_around("time in h", [0.0, longest], 0.1),
        Axis::linear_around(
            "volts at the battery",
            volts.chain([discharge.end_voltage - 0.3]),
            0.5,
        ),
    );
    chart.subtitle = "at the brief's loudness, as designed".to_owned();
    chart.series = vec![Series {
        name: String::new(),
        points: discharge
            .hours
            .iter()
            .copied()
            .zip(discharge.volts.iter().copied())
            .collect(),
        band: None,
        style: SeriesStyle::Main,
    }];
    let end = format!("empty at {}", say::plain(discharge.end_voltage, "V"));
    chart.marks.push(Mark::AtY(discharge.end_voltage, end));
    if let Some(hours) = wanted {
        let name = format!("brief: {}", say::plain(hours, "h"));
        chart.marks.push(Mark::AtX(hours, name));
    }
    chart
}
