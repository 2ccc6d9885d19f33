use super::trouble::{BadNumber, BadTolerance, BadUnit};
use super::*;
use crate::value::Tolerance;

#[track_caller]
fn check(text: &str, dimension: Dimension, si: f64) {
    let read = quantity(text, dimension).unwrap_or_else(|t| panic!("{text}: {t:?}"));
    let slack = 4.0 * f64::EPSILON * si.abs();
    assert!(
        (read.si - si).abs() <= slack,
        "{text}: {} not {si}",
        read.si
    );
}

#[track_caller]
fn check_exact(text: &str, dimension: Dimension, si: f64) {
    assert_eq!(quantity(text, dimension).map(|q| q.si), Ok(si), "{text}");
}

#[track_caller]
fn refused(text: &str, dimension: Dimension) -> TroubleKind {
    let trouble = quantity(text, dimension).expect_err(text);
    assert!(
        text.get(trouble.range.clone()).is_some(),
        "{text}: {trouble:?}"
    );
    trouble.kind
}

#[track_caller]
fn check_tolerance(text: &str, dimension: Dimension, expected: Tolerance) {
    let read = quantity(text, dimension).unwrap_or_else(|t| panic!("{text}: {t:?}"));
    match (read.tolerance, expected) {
        (Tolerance::Within(a), Tolerance::Within(b)) => {
            assert!((a - b).abs() <= 1e-12 * b.abs(), "{text}: {a} not {b}");
        }
        (a, b) => assert_eq!(a, b, "{text}"),
    }
}

#[test]
fn metric_values_are_converted_without_rounding() {
    check_exact("11.7 mm", Dimension::Length, 0.0117);
    check_exact("6.2 L", Dimension::Volume, 0.0062);
    check_exact("6.2L", Dimension::Volume, 0.0062);
    check_exact("330 µF", Dimension::Capacitance, 330e-6);
    check_exact("330uF", Dimension::Capacitance, 330e-6);
    check_exact("0.75 mm²", Dimension::Area, 0.75e-6);
    check_exact("0.75 mm^2", Dimension::Area, 0.75e-6);
    check_exact("0.75 mm2", Dimension::Area, 0.75e-6);
    check_exact("1.5 kHz", Dimension::Frequency, 1500.0);
    check_exact("9 GPa", Dimension::Pressure, 9e9);
    check_exact("0.68 mm/N", Dimension::Compliance, 0.68e-3);
    check_exact("1e3 mm", Dimension::Length, 1.0);
    check_exact("-5 °C", Dimension::Temperature, -5.0);
    check_exact("\u{2212}5 °C", Dimension::Temperature, -5.0);
    check_exact("50 %", Dimension::Share, 0.5);
    check_exact("88 dB(A)", Dimension::SoundLevel, 88.0);
}

#[test]
fn angles_are_written_in_degrees_and_kept_in_radians() {
    use core::f64::consts::PI;
    for text in ["8°", "8 °", "8 deg", "8 degrees", "8deg"] {
        check(text, Dimension::Angle, 8.0 * PI / 180.0);
    }
    check("45°", Dimension::Angle, PI / 4.0);
    check("1/4°", Dimension::Angle, PI / 720.0);
    check("-3°", Dimension::Angle, -PI / 60.0);
    check_exact("0.14 rad", Dimension::Angle, 0.14);
    check_tolerance(
        "8° ± 0.25°",
        Dimension::Angle,
        Tolerance::Within(PI / 720.0),
    );
    check_tolerance(
        "8° ± 10 %",
        Dimension::Angle,
        Tolerance::Within(0.8 * PI / 180.0),
    );
    assert_eq!(format_value(PI / 18.0, Dimension::Angle), "10°");
    assert_eq!(
        format_like(PI / 12.0, Dimension::Angle, "8 deg ± 1°", 3),
        "15° ± 1°"
    );
    let wrong = refused("8 °C", Dimension::Angle);
    assert!(
        matches!(wrong, TroubleKind::Unit(BadUnit::Wrong { .. })),
        "{wrong:?}"
    );
}

#[test]
fn one_unit_has_many_spellings() {
    for text in [
        "4.2 T m",
        "4.2 Tm",
        "4.2 T·m",
        "4.2 T*m",
        "4.2 N/A",
        "4.2 N / A",
    ] {
        check_exact(text, Dimension::ForceFactor, 4.2);
    }
    for text in [
        "3.4 Ω",
        "3.4 \u{2126}",
        "3.4 ohm",
        "3.4 Ohms",
        "3400 mΩ",
        "0.0034 kΩ",
    ] {
        check_exact(text, Dimension::Resistance, 3.4);
    }
    for text in ["0.6 kg/s", "0.6 N s/m", "0.6 N·s/m", "0.6 Ns/m"] {
        check_exact(text, Dimension::Damping, 0.6);
    }
    for text in [
        "3 \u{b5}m",
        "3 \u{3bc}m",
        "3 um",
        "3\u{a0}µm",
        "3\u{202f}µm",
    ] {
        check_exact(text, Dimension::Length, 3e-6);
    }
}

// The inch is 25.4 mm and the pound 0.45359237 kg by definition (si-brochure).
#[test]
fn units_of_the_wood_yard_are_exact() {
    check("1 in", Dimension::Length, 0.0254);
    check("23/32 in", Dimension::Length, 0.0254 * 23.0 / 32.0);
    check("1 1/2 in", Dimension::Length, 0.0381);
    check("1-1/2 in", Dimension::Length, 0.0381);
    check("1½ in", Dimension::Length, 0.0381);
    check("1 ½ in", Dimension::Length, 0.0381);
    check("¾\"", Dimension::Length, 0.01905);
    check("3/4 ″", Dimension::Length, 0.01905);
    check("8 ft", Dimension::Length, 2.4384);
    check("8'", Dimension::Length, 2.4384);
    check("30 thou", Dimension::Length, 0.000_762);
    check("1 lb", Dimension::Mass, 0.453_592_37);
    check("16 oz", Dimension::Mass, 0.453_592_37);
    check("1 ft³", Dimension::Volume, 0.028_316_846_592);
    check("1728 in³", Dimension::Volume, 0.028_316_846_592);
    check("77 °F", Dimension::Temperature, 25.0);
    check("7 Ah", Dimension::Charge, 25_200.0);
    check("3400 mAh", Dimension::Charge, 12_240.0);
    check("90 min", Dimension::Time, 5400.0);
}

// Code after iec-60062: the letter stands for the decimal point.
#[test]
fn component_codes_are_read() {
    check_exact("R22", Dimension::Resistance, 0.22);
    check_exact("4R7", Dimension::Resistance, 4.7);
    check_exact("47R", Dimension::Resistance, 47.0);
    check_exact("4k7", Dimension::Resistance, 4700.0);
    check_exact("4K7", Dimension::Resistance, 4700.0);
    check_exact("47K", Dimension::Resistance, 47_000.0);
    check_exact("2M2", Dimension::Resistance, 2.2e6);
    check_exact("4k7 Ω", Dimension::Resistance, 4700.0);
    check_exact("4.7k", Dimension::Resistance, 4700.0);
    check_exact("1n5", Dimension::Capacitance, 1.5e-9);
    check_exact("3u3", Dimension::Capacitance, 3.3e-6);
    check_exact("3µ3", Dimension::Capacitance, 3.3e-6);
    check_exact("10u", Dimension::Capacitance, 10e-6);
    check_exact("p33", Dimension::Capacitance, 0.33e-12);
    check_exact("4u7F", Dimension::Capacitance, 4.7e-6);
    check_exact("0m33", Dimension::Inductance, 0.33e-3);
    check_exact("4k7 ± 5 %", Dimension::Resistance, 4700.0);
    assert!(matches!(
        refused("4.7k7", Dimension::Resistance),
        TroubleKind::Unit(BadUnit::Unknown { .. })
    ));
}

#[test]
fn gains_are_ratios() {
    check("20 dB", Dimension::Gain, 10.0);
    check("0 dB", Dimension::Gain, 1.0);
    check("20 V/V", Dimension::Gain, 20.0);
    // 26 dB is 19.9526 by the definition of the decibel.
    let read = quantity("26 dB", Dimension::Gain).unwrap();
    assert!((read.si - 19.952_623_149_688_797).abs() < 1e-12);
}

#[test]
fn tolerances_are_half_widths_in_si() {
    use Tolerance::{About, Unstated, Within};
    check_tolerance("6.2 L", Dimension::Volume, Unstated);
    check_tolerance("6.2 L ± 10 %", Dimension::Volume, Within(0.00062));
    check_tolerance("6.2 L +- 10 %", Dimension::Volume, Within(0.00062));
    check_tolerance("6.2 L +/- 10 %", Dimension::Volume, Within(0.00062));
    check_tolerance("6.2 L±10%", Dimension::Volume, Within(0.00062));
    check_tolerance("12 mm ± 0.3 mm", Dimension::Length, Within(0.0003));
    check_tolerance("12 ± 0.3 mm", Dimension::Length, Within(0.0003));
    check_tolerance(
        "23/32 in ± 1/64 in",
        Dimension::Length,
        Within(0.0254 / 64.0),
    );
    check_tolerance("about 6 L", Dimension::Volume, About);
    check_tolerance("About 6 L", Dimension::Volume, About);
    check_tolerance("~6 L", Dimension::Volume, About);
    check_tolerance("25 °C ± 5 °C", Dimension::Temperature, Within(5.0));
    check_tolerance("77 °F ± 9 °F", Dimension::Temperature, Within(5.0));
    check_tolerance("86 dB ± 2 dB", Dimension::Decibel, Within(2.0));
    check_tolerance("0.45 ± 0.05", Dimension::Number, Within(0.05));
    check_tolerance("0.45 ± 10 %", Dimension::Number, Within(0.045));
    // On a share per cent is the unit itself: 40 to 60 %.
    check_tolerance("50 % ± 10 %", Dimension::Share, Within(0.1));
    check_tolerance("20 V/V ± 5 %", Dimension::Gain, Within(1.0));
}

#[test]
fn impossible_tolerances_are_refused() {
    let check = |text, dimension, bad: BadTolerance| {
        assert_eq!(
            refused(text, dimension),
            TroubleKind::Tolerance(bad),
            "{text}"
        );
    };
    check("6 L ± 100 %", Dimension::Volume, BadTolerance::TooWide);
    check("6 L ± -1 %", Dimension::Volume, BadTolerance::Negative);
    check(
        "88 dB ± 10 %",
        Dimension::SoundLevel,
        BadTolerance::Relative,
    );
    check(
        "25 °C ± 10 %",
        Dimension::Temperature,
        BadTolerance::Relative,
    );
    check("about 6 L ± 1 %", Dimension::Volume, BadTolerance::Twice);
    let unreadable = |text: &str| BadTolerance::Unreadable {
        text: text.to_owned(),
    };
    check("6 L ± x", Dimension::Volume, unreadable("x"));
    check("6 L ±", Dimension::Volume, unreadable(""));
    check("6 L ± 1", Dimension::Volume, unreadable("1"));
}

#[test]
fn wrong_units_are_told_apart() {
    let kind = |text, dimension| refused(text, dimension);
    assert_eq!(
        kind("6", Dimension::Volume),
        BadUnit::Missing { number: "6".into() }.into()
    );
    assert_eq!(
        kind("6 mm", Dimension::Volume),
        BadUnit::Wrong {
            unit: "mm".into(),
            measures: Dimension::Length
        }
        .into()
    );
    assert_eq!(
        kind("70 HZ", Dimension::Frequency),
        BadUnit::Unknown {
            unit: "HZ".into(),
            nearest: Some("Hz")
        }
        .into()
    );
    assert_eq!(
        kind("6 parsec", Dimension::Length),
        BadUnit::Unknown {
            unit: "parsec".into(),
            nearest: None
        }
        .into()
    );
    assert_eq!(
        kind("0.4 Hz", Dimension::Number),
        BadUnit::Unwanted { unit: "Hz".into() }.into()
    );
    assert!(matches!(
        kind("3 L ± 1 mm", Dimension::Volume),
        TroubleKind::Unit(BadUnit::Wrong { .. })
    ));
}

#[test]
fn numbers_with_a_comma_are_read_where_they_have_one_meaning() {
    check_exact("6,2 L", Dimension::Volume, 0.0062);
    check_exact("0,750 mm", Dimension::Length, 0.00075);
    check_exact("12,25 mm", Dimension::Length, 0.01225);
    for text in [
        "1,234 mm",
        "12,345 mm",
        "1,234,567 mm",
        "1.234,5 mm",
        "1,234.5 mm",
    ] {
        let kind = refused(text, Dimension::Length);
        assert!(
            matches!(kind, TroubleKind::Number(BadNumber::Ambiguous { .. })),
            "{text}: {kind:?}"
        );
    }
}

#[test]
fn what_is_no_number_is_refused() {
    for text in [
        "three mm", "mm", "- mm", ". mm", "1.2.3 mm", "1/0 mm", "1/ mm", "1 2 mm", "1 2/0 in",
        "nan mm", "inf mm", "5, mm", "0x10 mm", "",
    ] {
        let kind = refused(text, Dimension::Length);
        assert!(
            matches!(
                kind,
                TroubleKind::Number(_) | TroubleKind::Unit(BadUnit::Unknown { .. })
            ),
            "{text}: {kind:?}"
        );
    }
    for text in ["1e999 mm", "1e99999999999 mm"] {
        assert_eq!(refused(text, Dimension::Length), BadNumber::TooLarge.into());
    }
}

#[test]
fn trouble_points_at_the_offending_bytes() {
    let check = |text: &str, at: &str| {
        let trouble = quantity(text, Dimension::Volume).expect_err(text);
        assert_eq!(&text[trouble.range], at, "{text}");
    };
    check("6.2 parsec ± 10 %", "parsec");
    check("  6.2 mm", "mm");
    check("6.2 L ± 10 mm", "mm");
    check("6.2 L ± 200 %", "200 %");
    check("about six L", "six L");
}

#[track_caller]
fn check_size(text: &str, expected: [f64; 3]) {
    let edges = edges(text, 3).unwrap_or_else(|t| panic!("{text}: {t:?}"));
    let si: Vec<f64> = edges.iter().map(|e| e.si).collect();
    assert_eq!(si, expected, "{text}");
}

#[test]
fn sizes_take_a_unit_each_or_one_for_all() {
    let box_size = [0.38, 0.22, 0.2];
    check_size("380 x 220 x 200 mm", box_size);
    check_size("380x220x200mm", box_size);
    check_size("380 × 220 × 200 mm", box_size);
    check_size("380 mm x 22 cm x 0.2 m", box_size);
    check_size("38 cm x 220 x 200 mm", box_size);
    check_size("10 x 1 1/2 x 1/2 in", [0.254, 0.0381, 0.0127]);
    let edges = edges("380 x 220 x 200 mm ± 1 mm", 3).unwrap();
    assert_eq!(edges[1].tolerance, Tolerance::Within(0.001));
    assert_eq!(edges[1].range, 6..9);
}

#[test]
fn bad_sizes_are_refused() {
    let kind = |text| edges(text, 3).expect_err(text).kind;
    assert_eq!(
        kind("380 x 220 mm"),
        BadNumber::SizeCount {
            wanted: 3,
            found: 2
        }
        .into()
    );
    assert!(matches!(
        kind("380 x 220 x 200"),
        TroubleKind::Unit(BadUnit::Missing { .. })
    ));
    assert!(matches!(
        kind("380 x  x 200 mm"),
        TroubleKind::Number(BadNumber::Unreadable { .. })
    ));
}

#[test]
fn prices_are_read_as_people_write_them() {
    let check = |text: &str, amount: f64, currency: &str| {
        let read = super::amount(text).unwrap_or_else(|t| panic!("{text}: {t:?}"));
        assert_eq!(
            (read.amount, read.currency.as_str()),
            (amount, currency),
            "{text}"
        );
    };
    check("12 €", 12.0, "EUR");
    check("€12", 12.0, "EUR");
    check("€ 12.50", 12.5, "EUR");
    check("12,50 €", 12.5, "EUR");
    check("$12", 12.0, "USD");
    check("£ 12", 12.0, "GBP");
    check("12 chf", 12.0, "CHF");
    check("SEK 120", 120.0, "SEK");
    check("about 12 €", 12.0, "EUR");
    check("12 € ± 10 %", 12.0, "EUR");
    check("12 € ± 2 €", 12.0, "EUR");
    for text in [
        "12",
        "€",
        "12 florins",
        "€ 12 €",
        "12 € ± 20 €",
        "12 € ± $1",
        "",
        "12 € ± 1",
    ] {
        assert!(super::amount(text).is_err(), "{text}");
    }
}

#[test]
fn values_are_printed_as_a_maker_would_write_them() {
    let check = |si, dimension, expected: &str| {
        assert_eq!(format_value(si, dimension), expected);
    };
    check(0.0117, Dimension::Length, "11.7 mm");
    check(3.0, Dimension::Length, "3 m");
    check(0.0, Dimension::Length, "0 mm");
    check(0.0062, Dimension::Volume, "6.2 L");
    check(50e-6, Dimension::Volume, "50 ml");
    check(36_000.0, Dimension::Time, "10 h");
    check(1e-3, Dimension::Capacitance, "1000 µF");
    check(4700.0, Dimension::Resistance, "4.7 kΩ");
    check(0.028, Dimension::Resistance, "28 mΩ");
    check(25_200.0, Dimension::Charge, "7 Ah");
    check(0.5, Dimension::Share, "50 %");
    check(-5.0, Dimension::Temperature, "-5 °C");
    check(0.45, Dimension::Number, "0.45");
    check(20.0, Dimension::Power, "20 W");
    assert_eq!(
        format_rounded(0.012_345_67, Dimension::Length, 3),
        "12.3 mm"
    );
    assert_eq!(format_rounded(9999.6, Dimension::Frequency, 4), "10000 Hz");
    assert_eq!(format_rounded(10.0, Dimension::Gain, 3), "20 dB");
}

#[test]
fn a_replaced_value_keeps_the_way_it_was_written() {
    let check = |si, dimension, written: &str, expected: &str| {
        assert_eq!(format_like(si, dimension, written, 4), expected);
    };
    check(0.015, Dimension::Length, "12 mm ± 0.3 mm", "15 mm ± 0.3 mm");
    check(0.0127, Dimension::Length, "3/4 in", "0.5 in");
    check(
        0.0075,
        Dimension::Volume,
        "about 6000 cm³",
        "about 7500 cm³",
    );
    check(0.015, Dimension::Length, "nonsense", "15 mm");
}
