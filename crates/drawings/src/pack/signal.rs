//! The signal's way from each source to the drivers.

use super::{Page, say};
use crate::chart::{Axis, Chart, Mark, Series, SeriesStyle};
use crate::geometry::{Point, Rect};
use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table, content_area, stacked};
use crate::math;
use crate::paper::Paper;
use crate::sheet::Drawing;
use studies::Report;
use studies::signal::{Bend, Coupled, Filtered, Signal, SourcePath, Stage};
use studies::words::number;

/// Share of the height that the charts take, and what lies between things in mm.
const CHARTS: f64 = 0.46;
const GUTTER: f64 = 10.0;
const NOTE: &str = "Levels are sines whose peaks are those of the loudest passages, rms, on a \
     half-empty battery. Reading them with a meter: play a sine, not music.";

pub(crate) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let signal = &report.signal;
    let area = content_area(paper);
    let mut charts: Vec<Chart> = Vec::new();
    charts.extend(signal.sources.first().map(diagram));
    charts.extend(signal.volume.as_ref().map(law));
    charts.extend(signal.filter.as_ref().map(filter));
    let mut drawing = row(&charts, Rect::new(area.x, area.y, area.w, CHARTS * area.h));
    let under = Point::new(area.x, area.y + CHARTS * area.h + 0.7 * GUTTER);
    let (tables, _) = stacked(&tables(signal), under, area.w);
    drawing.append(tables);
    vec![Page::new("The signal's way", drawing).noted(NOTE)]
}

fn row(charts: &[Chart], area: Rect) -> Drawing {
    let mut out = Drawing::default();
    let count = charts.len().max(1) as f64;
    let width = (area.w - GUTTER * (count - 1.0)) / count;
    for (i, chart) in charts.iter().enumerate() {
        let x = area.x + (width + GUTTER) * i as f64;
        out.append(chart.draw(Rect::new(x, area.y, width, area.h)));
    }
    out
}

fn db(volts: f64) -> f64 {
    20.0 * math::log10(volts)
}

/// Level against stage.
fn diagram(path: &SourcePath) -> Chart {
    let at = |pick: &dyn Fn(&Stage) -> Option<f64>| -> Vec<(f64, f64)> {
        let stages = path.stages.iter().enumerate();
        stages
            .filter_map(|(i, stage)| Some((i as f64 + 1.0, db(pick(stage)?))))
            .collect()
    };
    let lines = [
        ("fully up", at(&|s| Some(s.full)), SeriesStyle::Main),
        ("as the brief asks", at(&|s| s.brief), SeriesStyle::Second),
        ("clips", at(&|s| s.limit), SeriesStyle::Reference),
    ];
    let values = lines.iter().flat_map(|(_, points, _)| points);
    let (low, high) = values.fold((0.0_f64, 0.0_f64), |(low, high), (_, y)| {
        (low.min(*y), high.max(*y))
    });
    let last = path.stages.len().max(2) as u32;
    let mut chart = Chart::new(
        "Levels",
        Axis::counting("stage, as numbered below", 1, last),
        Axis::linear_around("dB re 1 V, rms", [low - 3.0, high + 3.0], 1.0),
    );
    chart.subtitle = path.name.clone();
    chart.series = lines
        .into_iter()
        .map(|(name, points, style)| Series {
            name: name.to_owned(),
            points,
            band: None,
            style,
        })
        .collect();
    chart
}

/// Level against turn.
fn law(bend: &Bend) -> Chart {
    let points = |values: &[f64]| -> Vec<(f64, f64)> {
        let turns = bend.turns.iter().map(|turn| 100.0 * turn);
        turns.zip(values.iter().copied()).collect()
    };
    let mut chart = Chart::new(
        "Volume control",
        Axis::linear("turn in %", 0.0, 100.0),
        Axis::linear("level in dB", -40.0, 3.0),
    );
    chart.subtitle = format!(
        "half its track: {} by the board",
        number(bend.at_half, "dB")
    );
    let series = |name: &str, values: &[f64], style| Series {
        name: name.to_owned(),
        points: points(values),
        band: None,
        style,
    };
    chart.series = vec![
        series("into the board", &bend.loaded, SeriesStyle::Main),
        series("by itself", &bend.bare, SeriesStyle::Reference),
    ];
    chart
}

/// Gain of the output filter against frequency.
fn filter(filter: &Filtered) -> Chart {
    let points = |values: &[f64]| -> Vec<(f64, f64)> {
        let kilohertz = filter.hertz.iter().map(|hertz| hertz / 1000.0);
        kilohertz.zip(values.iter().copied()).collect()
    };
    let top = (filter.peak.0 + 3.0).max(6.0);
    let mut chart = Chart::new(
        "Output filter",
        Axis::log("frequency in kHz", 1.0, 400.0),
        Axis::linear_around("gain in dB", [-20.0, top], 1.0),
    );
    chart.subtitle = "into the computed impedance".to_owned();
    let mut lines = vec![
        ("into the drivers", &filter.gain, SeriesStyle::Main),
        ("into a resistor", &filter.rated, SeriesStyle::Reference),
    ];
    if filter.damped.is_some() {
        lines.push(("damped", &filter.damped_gain, SeriesStyle::Second));
    }
    chart.series = lines
        .into_iter()
        .map(|(name, values, style)| Series {
            name: name.to_owned(),
            points: points(values),
            band: None,
            style,
        })
        .collect();
    chart.marks = vec![Mark::AtX(20.0, "heard up to 20 kHz".to_owned())];
    chart
}

fn tables(signal: &Signal) -> Vec<Box<dyn Block>> {
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    for path in &signal.sources {
        blocks.push(Box::new(Heading::new(&path.name, &remark(path))));
        blocks.push(Box::new(stages(path)));
    }
    for text in signal.coupled.iter().map(coupled) {
        blocks.push(Box::new(Paragraph::new(&text)));
    }
    if let Some(text) = signal.filter.as_ref().and_then(damping) {
        blocks.push(Box::new(Paragraph::new(&text)));
    }
    blocks
}

/// How it is set.
fn remark(path: &SourcePath) -> String {
    let turn = |turn: Option<f64>, words: &str| {
        turn.map(|turn| format!("{words} {:.0} % of the turn", 100.0 * turn))
    };
    let crosstalk = path
        .crosstalk
        .map(|level| format!("left reaches right at {}", number(level, "dB")));
    let loss = format!(
        "fully up it loses {}, {}",
        number(path.loss, "dB"),
        if path.loss_stated {
            "as stated"
        } else {
            "computed"
        }
    );
    let each = [
        Some(loss),
        turn(path.brief_turn, "the brief plays at"),
        turn(path.clip_turn, "it clips from"),
        crosstalk,
    ];
    let words: Vec<String> = each.into_iter().flatten().collect();
    words.join("; ")
}

fn stages(path: &SourcePath) -> Table {
    let volts = |value: Option<f64>| value.map_or("–".to_owned(), volts);
    let room = |level: Option<f64>, limit: Option<f64>| {
        let room = level.zip(limit).map(|(level, limit)| db(limit / level));
        room.map_or("–".to_owned(), |room| number(room, "dB"))
    };
    let rows = path.stages.iter().enumerate().map(|(i, stage)| {
        let text = [
            format!("{} {}", i + 1, stage.name),
            volts(Some(stage.full)),
            volts(stage.brief),
            volts(stage.limit),
            room(Some(stage.full), stage.limit),
            room(stage.brief, stage.limit),
        ];
        text.into_iter().map(Cell::from).collect()
    });
    let rows = rows.collect();
    Table {
        columns: vec![
            Column::new("after", Align::Left, 3.0),
            Column::new("fully up", Align::Left, 1.4),
            Column::new("as the brief asks", Align::Left, 1.6),
            Column::new("clips at", Align::Left, 1.4),
            Column::new("headroom fully up", Align::Left, 1.6),
            Column::new("headroom as asked", Align::Left, 1.6),
        ],
        rows,
    }
}

fn volts(value: f64) -> String {
    if value < 1.0 {
        format!("{:.0} mV", 1000.0 * value)
    } else {
        number(value, "V")
    }
}

fn coupled(coupled: &Coupled) -> String {
    format!(
        "{} {}: corner at {}, takes {} at {}.",
        say::engineering(coupled.capacitance, "F"),
        coupled.name,
        number(coupled.corner, "Hz"),
        number(coupled.loss.max(0.0), "dB"),
        number(coupled.lowest, "Hz")
    )
}

fn damping(filter: &Filtered) -> Option<String> {
    let damped = filter.damped.as_ref()?;
    Some(format!(
        "The output filter peaks by {} at {}. {} and {} in series across each output hold it to {}; \
         the resistor takes {} with a full sine of 20 kHz and next to nothing with music.",
        number(filter.peak.0, "dB"),
        number(filter.peak.1 / 1000.0, "kHz"),
        say::engineering(damped.resistance, "Ω"),
        say::engineering(damped.capacitance, "F"),
        number(damped.peak, "dB"),
        number(damped.heat, "W")
    ))
}
