//! How warm it gets in the closed box.

use super::Page;
use crate::chart::{Axis, Chart, Mark, Series, SeriesStyle};
use crate::geometry::{Point, Rect};
use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table, content_area, stacked};
use crate::paper::Paper;
use crate::sheet::Drawing;
use studies::Report;
use studies::warmth::{Case, Standing, Temperatures, Warmth};
use studies::words::{number, prefixed};

/// Share of the height that the charts take at most; the tables come first.
const CHARTS: f64 = 0.47;
/// Between the charts, and from them to the tables, in mm.
const GUTTER: f64 = 11.0;
const GAP: f64 = 0.7 * GUTTER;
const NOTE: &str = "Laws of natural convection scatter by 15 %. Bands: eight of ten builds drawn \
     within the tolerances. All heat of the voice coils is taken to stay in the box.";

const BAY: &str = "The battery stands in a bay of its own, which the air of the box does not reach; \
     the draught of its holes is not counted.";

pub(crate) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let Some(warmth) = &report.warmth else {
        return Vec::new();
    };
    let area = content_area(paper);
    let blocks = tables(warmth);
    let height = stacked(&blocks, Point::default(), area.w).1;
    let charted = (area.h - height - GAP).min(CHARTS * area.h);
    let mut drawing = charts(warmth, Rect::new(area.x, area.y, area.w, charted));
    let under = Point::new(area.x, area.y + charted + GAP);
    let (tables, _) = stacked(&blocks, under, area.w);
    drawing.append(tables);
    let note = if warmth.in_bay {
        format!("{NOTE} {BAY}")
    } else {
        NOTE.to_owned()
    };
    vec![Page::new("How warm it gets", drawing).noted(&note)]
}

/// The hour with squashed music fully up, and with a full sine.
fn charts(warmth: &Warmth, area: Rect) -> Drawing {
    let shown: Vec<&Case> = warmth
        .cases
        .iter()
        .filter(|case| ["squashed", "sine"].contains(&case.id))
        .collect();
    let mut out = Drawing::default();
    let width = (area.w - GUTTER) / 2.0;
    for (i, case) in shown.into_iter().enumerate() {
        let x = area.x + (width + GUTTER) * i as f64;
        out.append(chart(warmth, case).draw(Rect::new(x, area.y, width, area.h)));
    }
    out
}

type Pick = fn(&Temperatures) -> f64;

const LINES: [(&str, Pick, SeriesStyle); 4] = [
    ("chip", |t| t.chip, SeriesStyle::Main),
    ("battery", |t| t.battery, SeriesStyle::Second),
    ("air inside", |t| t.air, SeriesStyle::Third),
    ("outer face", |t| t.wall, SeriesStyle::Reference),
];

fn chart(warmth: &Warmth, case: &Case) -> Chart {
    let minutes: Vec<f64> = case.seconds.iter().map(|seconds| seconds / 60.0).collect();
    let all = |pick: Pick| case.course.iter().map(pick);
    let hottest = LINES.iter().flat_map(|(_, pick, _)| all(*pick));
    let hottest = hottest.fold(warmth.limits.battery, f64::max);
    let coolest = case.course.first().map_or(warmth.outdoors, |t| t.air);
    let last = minutes.last().copied().unwrap_or(60.0);
    let mut chart = Chart::new(
        heading(case.id),
        Axis::linear("minutes", 0.0, last),
        Axis::linear_around(
            "°C",
            [coolest.min(warmth.outdoors) - 4.0, hottest + 4.0],
            1.0,
        ),
    );
    chart.subtitle = if case.played < 3600.0 {
        "from the day's own warmth until the battery is empty".to_owned()
    } else {
        "from the day's own warmth".to_owned()
    };
    chart.series = LINES
        .iter()
        .map(|(name, pick, style)| Series {
            name: (*name).to_owned(),
            points: minutes.iter().copied().zip(all(*pick)).collect(),
            band: None,
            style: *style,
        })
        .collect();
    let limits = [
        ("battery up to", warmth.limits.battery),
        ("chip up to", warmth.limits.board),
    ];
    let within = |limit: &f64| *limit <= chart.y.high;
    chart.marks = limits
        .into_iter()
        .filter(|(_, limit)| within(limit))
        .map(|(name, limit)| Mark::AtY(limit, format!("{name} {}", number(limit, "°C"))))
        .collect();
    chart
}

fn heading(id: &str) -> &'static str {
    match id {
        "sine" => "A full sine, the bound",
        _ => "Squashed music, fully up",
    }
}

fn tables(warmth: &Warmth) -> Vec<Box<dyn Block>> {
    let remark = format!(
        "on a day of {}, {}",
        number(warmth.outdoors, "°C"),
        warmth.place()
    );
    vec![
        Box::new(Paragraph::new(&warmth.verdict())),
        Box::new(Heading::new("Once nothing changes any more", &remark)),
        Box::new(steady(warmth)),
        Box::new(Heading::new(
            "What turns into heat",
            "on a half-empty battery",
        )),
        Box::new(heat(warmth)),
    ]
}

fn steady(warmth: &Warmth) -> Table {
    let silent = ("nothing plays", None, &warmth.silent);
    let playing = warmth
        .cases
        .iter()
        .map(|case| (case.title, Some(case), &case.steady));
    let rows = std::iter::once(silent)
        .chain(playing)
        .map(|(title, case, standing)| {
            let mut row = vec![Cell::from(title)];
            row.extend(
                COLUMNS
                    .iter()
                    .map(|(_, pick)| Cell::from(told(standing, *pick))),
            );
            row.push(Cell::from(case.map_or(String::new(), hour)).muted());
            row
        })
        .collect();
    let mut columns = vec![Column::new("", Align::Left, 2.2)];
    columns.extend(
        COLUMNS
            .iter()
            .map(|(name, _)| Column::new(name, Align::Left, 1.7)),
    );
    columns.push(Column::new(
        "chip and battery after an hour",
        Align::Left,
        2.2,
    ));
    Table { columns, rows }
}

const COLUMNS: [(&str, Pick); 5] = [
    ("chip in °C", |t| t.chip),
    ("board", |t| t.board),
    ("battery", |t| t.battery),
    ("air inside", |t| t.air),
    ("warmest outer face", |t| t.wall),
];

/// "61 (57 to 66)".
fn told(standing: &Standing, pick: Pick) -> String {
    let whole = |t: &Temperatures| format!("{:.0}", pick(t));
    let nominal = whole(&standing.nominal);
    match (&standing.p10, &standing.p90) {
        (Some(low), Some(high)) => format!("{nominal} ({} to {})", whole(low), whole(high)),
        _ => nominal,
    }
}

fn hour(case: &Case) -> String {
    let both = format!("{:.0} and {:.0} °C", case.hour.chip, case.hour.battery);
    if case.played < 3600.0 {
        format!("{both}, empty after {:.0} min", case.played / 60.0)
    } else {
        both
    }
}

fn heat(warmth: &Warmth) -> Table {
    let rows = warmth.cases.iter().map(|case| {
        let heat = &case.heat;
        let mut row = vec![Cell::from(case.title)];
        let parts = [
            heat.board,
            heat.battery,
            heat.drivers,
            heat.modules,
            heat.total(),
        ];
        row.extend(parts.map(|watts| Cell::from(prefixed(watts, "W"))));
        row
    });
    let mut columns = vec![Column::new("", Align::Left, 2.2)];
    let names = ["amplifier", "battery", "voice coils", "modules", "together"];
    columns.extend(names.map(|name| Column::new(name, Align::Left, 1.5)));
    Table {
        columns,
        rows: rows.collect(),
    }
}
