//! Invented sheets that exercise everything drawn. No number here means
//! anything.

use boxwright_drawings::chart::{Axis, Band, Chart, Mark, Series, SeriesStyle, Strip};
use boxwright_drawings::layout::*;
use boxwright_drawings::sheet::{Dash, Stroke, Style, Text, pen};
use boxwright_drawings::text::Lettering;
use boxwright_drawings::{Paper, Point, Rect, Role, Sheet};
use studies::check::Severity;

fn frequencies() -> impl Iterator<Item = f64> {
    (0..200).map(|i| 20.0 * libm::pow(1000.0, f64::from(i) / 199.0))
}

fn curve(name: &str, style: SeriesStyle, spread: f64, law: impl Fn(f64) -> f64) -> Series {
    let points: Vec<(f64, f64)> = frequencies().map(|f| (f, law(f))).collect();
    let width = |f: f64| spread * (0.3 + 1.0 / (1.0 + libm::pow(f / 90.0, 2.0)));
    let band = (spread > 0.0).then(|| Band {
        low: points.iter().map(|(f, y)| y - width(*f)).collect(),
        high: points.iter().map(|(f, y)| y + width(*f)).collect(),
    });
    Series {
        name: name.to_owned(),
        points,
        band,
        style,
    }
}

fn high_pass(f: f64, corner: f64, order: f64) -> f64 {
    -10.0 * libm::log10(1.0 + libm::pow(corner / f, 2.0 * order))
}

pub(crate) fn response() -> Chart {
    let mut chart = Chart::new(
        "How low",
        Axis::log("frequency in Hz", 20.0, 20_000.0),
        Axis::linear("level in dB re 20 µPa, rms", 60.0, 100.0),
    );
    chart.subtitle = "at 1 m, 2.83 V rms, free".to_owned();
    let ripple = |f: f64| 1.2 * libm::sin(2.2 * libm::log(f)) + 86.0;
    chart.series = vec![
        curve("sealed", SeriesStyle::Main, 1.8, |f| {
            ripple(f) + high_pass(f, 78.0, 2.0)
        }),
        curve("vented to 66 Hz", SeriesStyle::Second, 0.0, |f| {
            ripple(f)
                + high_pass(f, 62.0, 4.0)
                + 1.5 / (1.0 + libm::pow(libm::log(f / 75.0), 2.0) * 9.0)
        }),
    ];
    chart.marks = vec![
        Mark::AtX(70.0, "brief: 70 Hz".to_owned()),
        Mark::Point(78.0, 82.4, "−3 dB, 78 Hz".to_owned()),
    ];
    chart.model_holds = Some((20.0, 5000.0));
    chart.caption = "Shaded: 8 of 10 boxes built with your tolerances.".to_owned();
    chart
}

pub(crate) fn loudest() -> Chart {
    let mut chart = Chart::new(
        "How loud, and what gives out first",
        Axis::log("frequency in Hz", 20.0, 20_000.0),
        Axis::linear("level in dB re 20 µPa, rms", 70.0, 115.0),
    );
    chart.subtitle = "at 1 m, both sides, sine".to_owned();
    chart.series = vec![curve("clean", SeriesStyle::Main, 1.0, |f| {
        (104.0 + high_pass(f, 130.0, 2.0)).min(101.5)
    })];
    chart.marks = vec![Mark::AtY(88.0, "brief: 88 dB".to_owned())];
    chart.strip = Some(Strip {
        title: "what gives out first".to_owned(),
        spans: vec![
            (20.0, 105.0, "cone travel".to_owned()),
            (105.0, 140.0, "vent speed".to_owned()),
            (140.0, 160.0, "coil heat".to_owned()),
            (160.0, 20_000.0, "amplifier voltage".to_owned()),
        ],
    });
    chart
}

pub(crate) fn impedance() -> Chart {
    let mut chart = Chart::new(
        "Impedance of one channel",
        Axis::log("frequency in Hz", 20.0, 20_000.0),
        Axis::linear("magnitude in Ω", 0.0, 40.0),
    );
    let peak = |f: f64| {
        let d = f / 92.0 - 92.0 / f;
        3.6 + 28.0 / (1.0 + 12.0 * d * d) + 0.0009 * f
    };
    chart.series = vec![curve(
        "as the amplifier sees it",
        SeriesStyle::Main,
        0.8,
        peak,
    )];
    chart.marks = vec![Mark::AtY(3.2, "board's least load, 3.2 Ω".to_owned())];
    chart
}

pub(crate) fn discharge() -> Chart {
    let hours: Vec<f64> = (0..=120).map(|i| f64::from(i) * 0.1).collect();
    let volts = |h: f64, life: f64| {
        let used = h / life;
        if used > 1.0 {
            f64::NAN
        } else {
            13.3 - 0.5 * used - 2.6 * libm::pow(used, 14.0)
        }
    };
    let series = |name: &str, life: f64, style| Series {
        name: name.to_owned(),
        points: hours.iter().map(|h| (*h, volts(*h, life))).collect(),
        band: None,
        style,
    };
    let mut chart = Chart::new(
        "How long",
        Axis::linear("time in h", 0.0, 12.0),
        Axis::linear("battery in V", 9.0, 14.0),
    );
    chart.series = vec![
        series("music at 88 dB", 11.2, SeriesStyle::Main),
        series("music at full clip", 5.4, SeriesStyle::Second),
        series("full sine", 1.4, SeriesStyle::Third),
    ];
    chart.marks = vec![
        Mark::AtX(10.0, "brief: 10 h".to_owned()),
        Mark::AtY(10.0, "cut-off 10.0 V".to_owned()),
    ];
    chart
}

/// A sheet with a bar of 100 mm and one of everything small.
pub(crate) fn rule(paper: Paper) -> Sheet {
    let mut sheet = Sheet::new(paper, "Rule & check <true>");
    let d = &mut sheet.drawing;
    d.rect(
        Rect::new(50.0, 100.0, 100.0, 10.0),
        Style::filled(Role::Ink),
    );
    d.circle(
        Point::new(200.0, 60.0),
        20.0,
        Style::washed(Role::Accent, 0.3).edged(Stroke::new(Role::Ink, pen::BOLD)),
    );
    d.line(
        Point::new(20.0, 20.0),
        Point::new(120.0, 20.0),
        Stroke::new(Role::Stop, pen::MEDIUM).dashed(Dash::Centre),
    );
    d.text(Text::new(
        Point::new(50.0, 95.0),
        "100 mm: Ω ± × → − ≥ µ ² ³ ° € “ ” fi fl AV",
        Lettering::regular(4.0),
    ));
    d.text(Text::new(
        Point::new(50.0, 130.0),
        "Measure before you cut",
        Lettering::bold(5.0),
    ));
    sheet
}

pub(crate) fn charts(paper: Paper) -> Sheet {
    let mut sheet = Sheet::new(paper, "Curves");
    let all = sheet.rect().inset(12.0);
    let (w, h) = (all.w / 2.0 - 5.0, all.h / 2.0 - 5.0);
    for (i, chart) in [response(), loudest(), impedance(), discharge()]
        .iter()
        .enumerate()
    {
        let x = all.x + (w + 10.0) * (i % 2) as f64;
        let y = all.y + (h + 10.0) * (i / 2) as f64;
        let drawing = chart.draw(Rect::new(x, y, w, h));
        sheet.drawing.append(drawing);
    }
    sheet
}

fn promise(
    name: &str,
    value: &str,
    unit: &str,
    about: &str,
    numbers: [f64; 4],
    state: Severity,
    odds: &str,
) -> Promise {
    Promise {
        name: name.to_owned(),
        value: value.to_owned(),
        unit: unit.to_owned(),
        about: about.to_owned(),
        number: numbers[0],
        band: Some((numbers[1], numbers[2])),
        target: Some(numbers[3]),
        state: Some(state),
        odds: odds.to_owned(),
    }
}

fn promises() -> PromiseStrip {
    use Severity::{Caution, Good, Stop};
    PromiseStrip {
        promises: vec![
            promise(
                "Low",
                "74",
                "Hz",
                "plays down to (−6 dB)",
                [74.0, 71.0, 79.0, 70.0],
                Caution,
                "31 of 100 builds reach 70 Hz",
            ),
            promise(
                "Loud",
                "92.1",
                "dB",
                "at 3 m outdoors, clean, both sides",
                [92.1, 90.4, 93.5, 88.0],
                Good,
                "97 of 100 builds reach 88 dB",
            ),
            promise(
                "Long",
                "11.2",
                "h",
                "music at 88 dB, to cut-off",
                [11.2, 10.1, 12.4, 10.0],
                Good,
                "94 of 100 builds last 10 h",
            ),
            promise(
                "Light",
                "6.4",
                "kg",
                "with battery",
                [6.4, 6.2, 6.6, 7.0],
                Good,
                "99 of 100 builds stay within 7 kg",
            ),
            promise(
                "Cost",
                "118",
                "€",
                "still to be bought",
                [118.0, 112.0, 124.0, 100.0],
                Stop,
                "2 of 100 builds stay within 100 €",
            ),
        ],
    }
}

/// The sheet a maker sees first.
pub(crate) fn first(paper: Paper) -> Sheet {
    let title = TitleBlock {
        project: "Invented box".to_owned(),
        title: "Brief".to_owned(),
        number: 1,
        count: 4,
        scale: "no drawing to scale".to_owned(),
        revision: "14".to_owned(),
        date: String::new(),
        paper,
    };
    let mut sheet = title.sheet();
    let area = content_area(paper);
    let brief = Paragraph::new(
        "Plays music outdoors for people 3 m away at 88 dB, down to 70 Hz, for 10 h between charges, in a box within 380 × 220 × 220 mm and 7 kg, for 100 €.",
    );
    let strip = promises();
    let (drawing, y) = stacked(
        &[Box::new(brief), Box::new(strip)],
        Point::new(area.x, area.y),
        area.w,
    );
    sheet.drawing.append(drawing);
    let below = Rect::new(area.x, y + 6.0, area.w, area.bottom() - y - 6.0);
    sheet.drawing.append(loudest().draw(below));
    let (notes, _) = stacked(
        &[Box::new(Paragraph::remark(
            "Bands: 8 of 10 drawn builds lie within. ▼ the brief's mark. All dimensions in mm.",
        ))],
        notes_area(paper).corners()[0],
        notes_area(paper).w,
    );
    sheet.drawing.append(notes);
    sheet
}

fn finding(
    severity: Severity,
    title: &str,
    cause: &str,
    measured: &str,
    mend: &str,
) -> FindingBlock {
    FindingBlock {
        severity,
        title: title.to_owned(),
        cause: cause.to_owned(),
        measured: measured.to_owned(),
        mend: mend.to_owned(),
    }
}

/// Findings, a ledger, bars and a table over as many pages as they need.
pub(crate) fn words(paper: Paper) -> Vec<Sheet> {
    let mut blocks: Vec<Box<dyn Block>> = vec![Box::new(Heading::new("To mend", "2 of 31 checks"))];
    blocks.push(Box::new(finding(
        Severity::Stop,
        "Right driver meets the battery",
        "The magnet overlaps the pack by 3 mm in depth, so the lid would not close over it.",
        "−3 mm of air, at least 5 mm",
        "box depth 180 mm → 196 mm",
    )));
    blocks.push(Box::new(finding(
        Severity::Caution,
        "Bass stops short of the brief",
        "74 Hz against 70 Hz; the box is small for this driver.",
        "74 Hz, at most 70 Hz",
        "",
    )));
    blocks.push(Box::new(finding(
        Severity::Good,
        "Amplifier within its rail",
        "",
        "14.6 V charged, the board allows 26 V",
        "",
    )));
    blocks.push(Box::new(Heading::new("Air inside", "litres")));
    blocks.push(Box::new(Ledger {
        rows: vec![
            ("between the walls".to_owned(), "9.2 L".to_owned()),
            (
                "drivers, battery, board, brace".to_owned(),
                "−2.3 L".to_owned(),
            ),
            ("what the cones see".to_owned(), "6.9 L".to_owned()),
        ],
        summed: true,
    }));
    blocks.push(Box::new(Heading::new(
        "What moves it",
        "share of the spread of “low”",
    )));
    blocks.push(Box::new(Bars {
        bars: [
            ("driver compliance", 41.0),
            ("moving mass", 22.0),
            ("inside depth", 9.0),
            ("filling", -4.0),
        ]
        .map(|(name, v)| Bar {
            name: name.to_owned(),
            value: format!("{v} %").replace('-', "−"),
            length: v,
        })
        .to_vec(),
    }));
    blocks.push(Box::new(Heading::new("What was assumed", "")));
    blocks.push(Box::new(Table {
        columns: vec![
            Column::new("value", Align::Left, 3.0),
            Column::new("nominal", Align::Decimal, 1.2),
            Column::new("spread", Align::Left, 1.6),
            Column::new("because", Align::Left, 3.0),
        ],
        rows: (0..34)
            .map(|i| {
                vec![
                    Cell::from(format!("invented value number {i} of a long list")),
                    Cell::from(format!("{}.{}", i * i, i % 7)),
                    Cell::from("σ 10 %").muted(),
                    Cell::from("common practice, no source").muted(),
                ]
            })
            .collect(),
    }));
    flow(&blocks, content_area(paper), 2, 10.0)
        .into_iter()
        .enumerate()
        .map(|(i, page)| {
            let title = TitleBlock {
                project: "Invented box with rather a long name for a title block".to_owned(),
                title: "Findings and what was assumed".to_owned(),
                number: i + 3,
                count: 4,
                scale: "–".to_owned(),
                revision: String::new(),
                date: "2001-02-03".to_owned(),
                paper,
            };
            let mut sheet = title.sheet();
            sheet.drawing.append(page);
            sheet
        })
        .collect()
}

/// Every demo sheet.
pub(crate) fn sheets(paper: Paper) -> Vec<Sheet> {
    let mut all = vec![rule(paper), first(paper), charts(paper)];
    all.extend(words(paper));
    all
}
