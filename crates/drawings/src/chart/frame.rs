//! The frame of a chart: heading, plot, grid, ticks, marks, strip, caption.

use super::curve::{self, Mapping};
use super::label::{self, Label, Subject};
use super::lanes::{self, Flag, Placed};
use super::{Axis, Chart, Mark, Strip};
use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;

const TITLE: Lettering = Lettering::bold(3.1);
const SMALL: Lettering = Lettering::regular(2.3);
/// Room left of the plot for the numbers of the upright axis.
const LEFT: f64 = 10.0;
/// Room right of the plot, for half of the last number below it.
const RIGHT: f64 = 3.5;
/// Height of one lane of names over the plot, or under the strip.
const LANE: f64 = 3.2;
/// Height of the strip.
const STRIP: f64 = 3.8;

/// Everything above the plot and below it, as laid out.
struct Layout {
    heading: Drawing,
    plot: Rect,
    marks: Vec<UprightMark>,
    strip_lanes: Vec<StripName>,
    caption: Vec<String>,
}

/// An upright mark with the place of its name, if one was found.
struct UprightMark {
    name: String,
    flag: Flag,
    placed: Option<Placed>,
}

/// The name of a span of the strip that stands under it.
struct StripName {
    span: usize,
    flag: Flag,
    placed: Placed,
}

/// The chart, and where its plot lies.
pub(crate) fn draw(chart: &Chart, area: Rect) -> (Drawing, Rect) {
    let mut columned: Vec<usize> = Vec::new();
    let mut column = 0.0;
    loop {
        let layout = Layout::new(chart, area, column);
        let map = Mapping {
            x: &chart.x,
            y: &chart.y,
            plot: layout.plot,
        };
        let subjects: Vec<Subject> = label::subjects(chart, &map);
        let uprights: Vec<f64> = layout.marks.iter().map(|m| m.flag.x).collect();
        match label::place(&subjects, &uprights, &map, &columned) {
            Ok(labels) => return (compose(chart, &layout, &map, labels), layout.plot),
            Err(homeless) => {
                columned.push(homeless);
                column = label::column_width(&subjects, &columned).min(area.w / 2.0);
            }
        }
    }
}

impl Layout {
    fn new(chart: &Chart, area: Rect, column: f64) -> Self {
        let (heading, mut top) = heading(chart, area);
        let left = area.x + LEFT;
        let width = (area.w - LEFT - RIGHT.max(column)).max(10.0);
        let marks = mark_lanes(chart, left, width, area);
        let lanes = lanes_used(marks.iter().filter_map(|m| m.placed.as_ref()));
        top += 2.4 + LANE * lanes as f64;
        let caption = caption_lines(chart, &marks, area.w);
        let strip_lanes = chart
            .strip
            .as_ref()
            .map(|s| strip_names(s, &chart.x, left, width, area))
            .unwrap_or_default();
        let below =
            7.2 + strip_height(chart, &strip_lanes) + SMALL.leading() * caption.len() as f64;
        let plot = Rect::new(left, top, width, (area.bottom() - below - top).max(10.0));
        Self {
            heading,
            plot,
            marks,
            strip_lanes,
            caption,
        }
    }
}

/// Title, subtitle and the name of the upright axis; gives the y below them.
fn heading(chart: &Chart, area: Rect) -> (Drawing, f64) {
    let mut out = Drawing::default();
    let mut base = area.y + TITLE.cap_height();
    let title = TITLE.ellipsis(&chart.title, area.w);
    let beside = area.x + TITLE.width(&title) + 3.0;
    out.text(Text::new(Point::new(area.x, base), &title, TITLE));
    let room = area.right() - beside;
    if SMALL.width(&chart.subtitle) <= room {
        let at = Point::new(beside, base);
        out.text(Text::new(at, &chart.subtitle, SMALL).coloured(Role::Muted));
    } else {
        for line in SMALL.wrap(&chart.subtitle, area.w) {
            base += SMALL.leading() + 0.4;
            out.text(Text::new(Point::new(area.x, base), &line, SMALL).coloured(Role::Muted));
        }
    }
    base += 5.0;
    let label = SMALL.ellipsis(&chart.y.label, area.w);
    out.text(Text::new(Point::new(area.x, base), &label, SMALL).coloured(Role::Muted));
    (out, base)
}

fn lanes_used<'a>(placed: impl Iterator<Item = &'a Placed>) -> usize {
    placed.map(|p| p.lane + 1).max().unwrap_or(0)
}

/// Upright marks with the lanes of their names over the plot.
fn mark_lanes(chart: &Chart, left: f64, width: f64, area: Rect) -> Vec<UprightMark> {
    let mut out: Vec<UprightMark> = chart
        .marks
        .iter()
        .filter_map(|m| match m {
            Mark::AtX(x, name) if chart.x.holds(*x) => {
                let name = label::LETTERS.ellipsis(name, width / 2.0);
                let x = left + chart.x.fraction(*x) * width;
                let width = label::LETTERS.width(&name);
                let (flag, placed) = (Flag { x, width }, None);
                Some(UprightMark { name, flag, placed })
            }
            _ => None,
        })
        .collect();
    let flags: Vec<Flag> = out.iter().map(|m| m.flag).collect();
    if let Some(placed) = lanes::place(&flags, area.x, area.right()) {
        for (mark, place) in out.iter_mut().zip(placed) {
            mark.placed = Some(place);
        }
    }
    out
}

/// Names of spans of the strip that are too short to hold them.
fn strip_names(strip: &Strip, axis: &Axis, left: f64, width: f64, area: Rect) -> Vec<StripName> {
    let (mut spans, mut flags) = (Vec::new(), Vec::new());
    for (i, span) in strip.spans.iter().enumerate() {
        let Some((a, b)) = span_mm(span, axis, left, width) else {
            continue;
        };
        let width = SMALL.width(&span.2);
        if width + 2.0 > b - a {
            spans.push(i);
            let x = (a + b) / 2.0;
            flags.push(Flag { x, width });
        }
    }
    let placed = lanes::place(&flags, area.x, area.right()).unwrap_or_default();
    spans
        .into_iter()
        .zip(flags)
        .zip(placed)
        .map(|((span, flag), placed)| StripName { span, flag, placed })
        .collect()
}

fn span_mm(span: &(f64, f64, String), axis: &Axis, left: f64, width: f64) -> Option<(f64, f64)> {
    let at = |v: f64| left + axis.fraction(v).clamp(0.0, 1.0) * width;
    let (a, b) = (at(span.0), at(span.1));
    (b > a + 0.2).then_some((a, b))
}

fn strip_height(chart: &Chart, names: &[StripName]) -> f64 {
    if chart.strip.is_none() {
        return 0.0;
    }
    let count = lanes_used(names.iter().map(|n| &n.placed));
    STRIP + 1.4 + LANE * count as f64
}

/// The caption, with what the drawing itself leaves out or only hints at.
fn caption_lines(chart: &Chart, marks: &[UprightMark], width: f64) -> Vec<String> {
    let mut said = vec![chart.caption.clone()];
    if chart
        .model_holds
        .is_some_and(|(a, b)| a > chart.x.low || b < chart.x.high)
    {
        said.push("Dotted: beyond what the model can say.".to_owned());
    }
    if cut_off(chart) {
        said.push("The curve goes on above the chart.".to_owned());
    }
    let unplaced: Vec<&str> = marks
        .iter()
        .filter(|m| m.placed.is_none())
        .map(|m| m.name.as_str())
        .collect();
    if !unplaced.is_empty() {
        said.push(format!("Upright lines: {}.", unplaced.join(", ")));
    }
    let off: Vec<&str> = chart
        .marks
        .iter()
        .filter_map(|m| match m {
            Mark::AtX(x, name) if !chart.x.holds(*x) => Some(name.as_str()),
            Mark::AtY(y, name) if !chart.y.holds(*y) => Some(name.as_str()),
            Mark::Point(x, y, name) if !chart.x.holds(*x) || !chart.y.holds(*y) => {
                Some(name.as_str())
            }
            _ => None,
        })
        .collect();
    if !off.is_empty() {
        said.push(format!("Off the chart: {}.", off.join(", ")));
    }
    said.retain(|s| !s.is_empty());
    SMALL.wrap(&said.join(" "), width)
}

/// Whether a curve leaves the chart at the top.
fn cut_off(chart: &Chart) -> bool {
    let above =
        |(x, y): &(f64, f64)| y.is_finite() && chart.x.holds(*x) && chart.y.fraction(*y) > 1.005;
    chart.series.iter().any(|s| s.points.iter().any(above))
}

fn compose(chart: &Chart, layout: &Layout, map: &Mapping<'_>, labels: Vec<Label>) -> Drawing {
    let mut out = layout.heading.clone();
    let rooms: Vec<Rect> = labels.iter().map(Label::room).collect();
    grid(chart, map, &rooms, &mut out);
    marks(chart, layout, map, &mut out);
    curve::draw(chart, map, &mut out);
    points(chart, map, &mut out);
    for label in labels {
        label.draw(&mut out);
    }
    below(chart, layout, &mut out);
    out
}

/// Grid lines, interrupted where a name stands, and the numbers of the axes.
fn grid(chart: &Chart, map: &Mapping<'_>, rooms: &[Rect], out: &mut Drawing) {
    let plot = map.plot;
    let hair = Stroke::new(Role::Hairline, pen::HAIR).faded(0.7);
    let line = Stroke::new(Role::Hairline, pen::FINE);
    for tick in chart.x.ticks(plot.w, super::axis::room_across(SMALL)) {
        let x = map.x_mm(tick.value);
        let stroke = if tick.label.is_some() { line } else { hair };
        let gaps = rooms.iter().filter(|r| r.x < x && x < r.right());
        for (a, b) in gapped(plot.y, plot.bottom(), gaps.map(|r| (r.y, r.bottom()))) {
            out.line(Point::new(x, a), Point::new(x, b), stroke);
        }
        if let Some(label) = tick.label {
            let at = Point::new(x, plot.bottom() + 3.1);
            out.text(Text::new(at, &label, SMALL).anchored(Anchor::Middle));
        }
    }
    for tick in chart.y.ticks(plot.h, |_| 2.4 * SMALL.size_mm) {
        let y = map.y_mm(tick.value);
        let stroke = if tick.label.is_some() { line } else { hair };
        let gaps = rooms.iter().filter(|r| r.y < y && y < r.bottom());
        for (a, b) in gapped(plot.x, plot.right(), gaps.map(|r| (r.x, r.right()))) {
            out.line(Point::new(a, y), Point::new(b, y), stroke);
        }
        if let Some(label) = tick.label {
            let at = Point::new(plot.x - 1.4, y);
            out.text(Text::new(at, &label, SMALL).anchored(Anchor::End).centred());
        }
    }
    let edge = Stroke::new(Role::Muted, pen::THIN);
    let [_, _, right, left] = plot.corners();
    out.polyline(&[Point::new(plot.x, plot.y), left, right], edge);
}

/// What is left of `from`..`to` when the gaps are taken out.
fn gapped(from: f64, to: f64, gaps: impl Iterator<Item = (f64, f64)>) -> Vec<(f64, f64)> {
    let mut gaps: Vec<(f64, f64)> = gaps.collect();
    gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut out = Vec::new();
    let mut at = from;
    for (a, b) in gaps {
        if a > at {
            out.push((at, a));
        }
        at = at.max(b);
    }
    if at < to {
        out.push((at, to));
    }
    out
}

fn marks(chart: &Chart, layout: &Layout, map: &Mapping<'_>, out: &mut Drawing) {
    let plot = map.plot;
    let stroke = Stroke::new(Role::Ink, pen::THIN).dashed(Dash::Short);
    for mark in &layout.marks {
        let x = mark.flag.x;
        let mut top = plot.y;
        if let Some(placed) = &mark.placed {
            top -= 0.9 + LANE * placed.lane as f64;
            let base = Point::new(placed.start, top - 0.75);
            out.text(Text::new(base, &mark.name, label::LETTERS));
            if placed.beside(&mark.flag) {
                top = base.y - label::LETTERS.cap_height();
            }
        }
        out.line(Point::new(x, plot.bottom()), Point::new(x, top), stroke);
    }
    for mark in &chart.marks {
        if let Mark::AtY(y, _) = mark
            && chart.y.holds(*y)
        {
            let y = map.y_mm(*y);
            out.line(Point::new(plot.x, y), Point::new(plot.right(), y), stroke);
        }
    }
}

fn points(chart: &Chart, map: &Mapping<'_>, out: &mut Drawing) {
    for mark in &chart.marks {
        if let Mark::Point(x, y, _) = mark
            && chart.x.holds(*x)
            && chart.y.holds(*y)
        {
            let at = Point::new(map.x_mm(*x), map.y_mm(*y));
            let edge = Stroke::new(Role::Ink, pen::MEDIUM);
            out.circle(at, 0.7, Style::filled(Role::Paper).edged(edge));
        }
    }
}

/// Name of the level axis, strip and caption.
fn below(chart: &Chart, layout: &Layout, out: &mut Drawing) {
    let plot = layout.plot;
    let mut base = plot.bottom() + 6.3;
    let label = SMALL.ellipsis(&chart.x.label, plot.w);
    let at = Point::new(plot.right(), base);
    out.text(
        Text::new(at, &label, SMALL)
            .anchored(Anchor::End)
            .coloured(Role::Muted),
    );
    if let Some(strip) = &chart.strip {
        let left_room = plot.w - SMALL.width(&label) - 3.0;
        let title = SMALL.ellipsis(&strip.title, left_room);
        out.text(Text::new(Point::new(plot.x, base), &title, SMALL).coloured(Role::Muted));
        draw_strip(strip, chart, layout, base + 1.2, out);
        base += strip_height(chart, &layout.strip_lanes);
    }
    base += 0.6;
    for line in &layout.caption {
        base += SMALL.leading();
        let at = Point::new(plot.x - LEFT, base);
        out.text(Text::new(at, line, SMALL).coloured(Role::Muted));
    }
}

fn draw_strip(strip: &Strip, chart: &Chart, layout: &Layout, top: f64, out: &mut Drawing) {
    let plot = layout.plot;
    let edge = Stroke::new(Role::Muted, pen::FINE);
    for (i, span) in strip.spans.iter().enumerate() {
        let Some((a, b)) = span_mm(span, &chart.x, plot.x, plot.w) else {
            continue;
        };
        let role = if i % 2 == 0 {
            Role::Tint
        } else {
            Role::Hairline
        };
        let cell = Rect::new(a, top, b - a, STRIP);
        out.rect(cell, Style::filled(role).edged(edge));
        match layout.strip_lanes.iter().find(|n| n.span == i) {
            None => out.text(
                Text::new(cell.centre(), &span.2, SMALL)
                    .anchored(Anchor::Middle)
                    .centred(),
            ),
            Some(name) => {
                let x = cell.centre().x;
                let mut end = top + STRIP + 0.7 + LANE * name.placed.lane as f64;
                let base = Point::new(name.placed.start, end + 0.5 + SMALL.cap_height());
                out.text(Text::new(base, &span.2, SMALL));
                if name.placed.beside(&name.flag) {
                    end = base.y;
                }
                out.line(Point::new(x, top + STRIP), Point::new(x, end), edge);
            }
        }
    }
}
