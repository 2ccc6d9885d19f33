use super::*;
use crate::geometry::Point;
use crate::sheet::Sheet;
use proptest::prelude::*;

fn on_sheet(chart: &Chart, w: f64, h: f64) -> Sheet {
    let mut sheet = Sheet::sized(w + 10.0, h + 10.0, "chart");
    let drawing = chart.draw(Rect::new(5.0, 5.0, w, h));
    sheet.drawing.append(drawing);
    sheet
}

fn bump(name: &str, level: f64, style: SeriesStyle) -> Series {
    let points = (0..80)
        .map(|i| {
            let f = 20.0 * libm::pow(1000.0, f64::from(i) / 79.0);
            (
                f,
                level - 10.0 * libm::log10(1.0 + libm::pow(70.0 / f, 4.0)),
            )
        })
        .collect();
    Series {
        name: name.to_owned(),
        points,
        band: None,
        style,
    }
}

fn axes() -> (Axis, Axis) {
    (
        Axis::log("frequency in Hz", 20.0, 20_000.0),
        Axis::linear("level in dB", 60.0, 100.0),
    )
}

#[test]
fn three_named_curves_and_marks_are_clear() {
    let (x, y) = axes();
    let mut chart = Chart::new("Response", x, y);
    chart.subtitle = "at 1 m for 2.83 V".to_owned();
    chart.series = vec![
        bump("sealed", 86.0, SeriesStyle::Main),
        bump("vented", 88.0, SeriesStyle::Second),
        bump("with grille", 84.5, SeriesStyle::Third),
    ];
    chart.marks = vec![
        Mark::AtX(70.0, "brief: 70 Hz".to_owned()),
        Mark::AtX(74.0, "−6 dB at 74 Hz".to_owned()),
        Mark::AtY(90.0, "brief: 90 dB".to_owned()),
        Mark::AtX(2.0, "lost".to_owned()),
    ];
    let sheet = on_sheet(&chart, 120.0, 70.0);
    assert_eq!(sheet.collisions(), []);
    let svg = crate::export::svg::svg(&sheet, crate::role::Theme::Paper);
    for text in [
        "sealed",
        "vented",
        "with grille",
        "brief: 70 Hz",
        "Off the chart: lost.",
    ] {
        assert!(svg.contains(text), "{text} is missing");
    }
}

#[test]
fn a_broken_curve_is_drawn_in_its_parts() {
    let (x, y) = axes();
    let mut chart = Chart::new("t", x, y);
    let mut series = bump("a", 86.0, SeriesStyle::Main);
    series.points[40].1 = f64::NEG_INFINITY;
    series.points[60].1 = f64::NAN;
    chart.series = vec![series];
    let map = curve::Mapping {
        x: &chart.x,
        y: &chart.y,
        plot: Rect::new(0.0, 0.0, 100.0, 50.0),
    };
    let runs = map.runs(&chart.series[0].points);
    assert_eq!(runs.iter().map(Vec::len).collect::<Vec<_>>(), [40, 19, 19]);
}

#[test]
fn values_land_where_the_axes_say() {
    let (x, y) = axes();
    let map = curve::Mapping {
        x: &x,
        y: &y,
        plot: Rect::new(10.0, 20.0, 90.0, 40.0),
    };
    let at = Point::new(map.x_mm(200.0), map.y_mm(90.0));
    assert!(at.distance(Point::new(40.0, 30.0)) < 1e-9, "{at:?}");
}

#[test]
fn strips_name_every_span_even_narrow_ones() {
    let (x, y) = axes();
    let mut chart = Chart::new("Loudest", x, y);
    chart.series = vec![bump("clean", 90.0, SeriesStyle::Main)];
    chart.strip = Some(Strip {
        title: "what gives out first".to_owned(),
        spans: vec![
            (20.0, 90.0, "cone travel".to_owned()),
            (90.0, 110.0, "vent speed".to_owned()),
            (110.0, 130.0, "coil heat".to_owned()),
            (130.0, 20_000.0, "amplifier voltage".to_owned()),
        ],
    });
    let sheet = on_sheet(&chart, 110.0, 60.0);
    assert_eq!(sheet.collisions(), []);
    let svg = crate::export::svg::svg(&sheet, crate::role::Theme::Paper);
    for text in [
        "cone travel",
        "vent speed",
        "coil heat",
        "amplifier voltage",
    ] {
        assert!(svg.contains(text), "{text} is missing");
    }
}

fn any_series() -> impl Strategy<Value = Series> {
    let style = prop_oneof![
        Just(SeriesStyle::Main),
        Just(SeriesStyle::Second),
        Just(SeriesStyle::Third),
        Just(SeriesStyle::Reference),
    ];
    let walk = proptest::collection::vec(-6.0_f64..6.0, 30);
    (
        "|[a-z]{1,4}( [a-z]{2,6}){0,3}",
        50.0_f64..110.0,
        walk,
        style,
    )
        .prop_map(|(name, start, steps, style)| {
            let mut y = start;
            let points = steps
                .iter()
                .enumerate()
                .map(|(i, dy)| {
                    y += dy;
                    (20.0 * libm::pow(1000.0, i as f64 / 29.0), y)
                })
                .collect();
            Series {
                name,
                points,
                band: None,
                style,
            }
        })
}

fn any_mark() -> impl Strategy<Value = Mark> {
    prop_oneof![
        (20.0_f64..20_000.0, "[a-z]{2,9}").prop_map(|(x, n)| Mark::AtX(x, n)),
        (60.0_f64..100.0, "[a-z]{2,9}").prop_map(|(y, n)| Mark::AtY(y, n)),
        (20.0_f64..20_000.0, 60.0_f64..100.0, "[a-z]{2,9}")
            .prop_map(|(x, y, n)| Mark::Point(x, y, n)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn names_never_collide(
        series in proptest::collection::vec(any_series(), 1..6),
        marks in proptest::collection::vec(any_mark(), 0..4),
        w in 80.0_f64..160.0,
        h in 55.0_f64..90.0,
    ) {
        let (x, y) = axes();
        let mut chart = Chart::new("Random walks", x, y);
        chart.series = series;
        chart.marks = marks;
        let sheet = on_sheet(&chart, w, h);
        prop_assert_eq!(sheet.collisions(), []);
    }
}
