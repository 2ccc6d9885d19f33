//! What holds for every dimension, every unit and any text.

use super::trouble::BadNumber;
use super::*;
use proptest::prelude::*;

const DIMENSIONS: [Dimension; 31] = [
    Dimension::Length,
    Dimension::Area,
    Dimension::Volume,
    Dimension::Mass,
    Dimension::Time,
    Dimension::Frequency,
    Dimension::Temperature,
    Dimension::Share,
    Dimension::SoundLevel,
    Dimension::Decibel,
    Dimension::Gain,
    Dimension::Number,
    Dimension::Voltage,
    Dimension::Current,
    Dimension::Resistance,
    Dimension::Capacitance,
    Dimension::Inductance,
    Dimension::SemiInductance,
    Dimension::Power,
    Dimension::Charge,
    Dimension::Energy,
    Dimension::ForceFactor,
    Dimension::Compliance,
    Dimension::Damping,
    Dimension::Density,
    Dimension::Pressure,
    Dimension::Speed,
    Dimension::Angle,
    Dimension::AreaDensity,
    Dimension::ThermalResistance,
    Dimension::Coverage,
];

#[test]
fn every_dimension_has_its_usual_unit() {
    for dimension in DIMENSIONS {
        let text = format!("1 {}", dimension.usual_unit());
        assert!(quantity(text.trim(), dimension).is_ok(), "{text}");
    }
}

#[test]
fn no_spelling_means_two_units_of_one_dimension() {
    for dimension in DIMENSIONS {
        let mut seen: Vec<String> = Vec::new();
        for unit in unit::UNITS.iter().filter(|u| u.dimension == dimension) {
            for name in std::iter::once(&unit.symbol).chain(unit.also) {
                let name = unit::normal(name);
                assert!(!seen.contains(&name), "{name}");
                seen.push(name);
            }
        }
    }
}

fn any_dimension() -> impl Strategy<Value = Dimension> {
    prop::sample::select(&DIMENSIONS[..])
}

fn written_value() -> impl Strategy<Value = (String, Dimension)> {
    let number = prop_oneof![
        (0u32..100_000).prop_map(|n| n.to_string()),
        (0u32..10_000, 0u32..1000).prop_map(|(a, b)| format!("{a}.{b:03}")),
        (0u32..20, 1u32..64).prop_map(|(a, b)| format!("{a} {b}/64")),
        (1e-6f64..1e6).prop_map(|x| format!("{x}")),
    ];
    let unit = prop::sample::select((0..unit::UNITS.len()).collect::<Vec<_>>());
    (number, unit).prop_map(|(number, unit)| {
        let unit = &unit::UNITS[unit];
        (format!("{number} {}", unit.symbol), unit.dimension)
    })
}

proptest! {
    /// What is printed is read back as the same value, to the last bit, unless
    /// it is a gain, whose decibels are a logarithm.
    #[test]
    fn printing_and_reading_give_the_value_back(
        dimension in any_dimension(),
        mantissa in 1.0f64..10.0,
        exponent in -9i32..6,
    ) {
        let si: f64 = format!("{mantissa}e{exponent}").parse().unwrap();
        let text = format_value(si, dimension);
        let back = quantity(&text, dimension).map_err(|t| TestCaseError::fail(format!("{text}: {t:?}")))?;
        if dimension == Dimension::Gain {
            prop_assert!((back.si / si - 1.0).abs() < 1e-12, "{} {}", text, back.si);
        } else if [Dimension::Time, Dimension::Charge, Dimension::Energy, Dimension::Angle].contains(&dimension) {
            prop_assert!((back.si / si - 1.0).abs() <= 2.0 * f64::EPSILON, "{} {}", text, back.si);
        } else {
            prop_assert_eq!(back.si, si, "{}", text);
        }
    }

    /// Whatever a maker wrote: read, printed and read again it is the same.
    #[test]
    fn reading_printing_and_reading_settles((text, dimension) in written_value()) {
        let first = match quantity(&text, dimension) {
            // A number of decibels may be an astronomic gain.
            Err(t) if t.kind == BadNumber::TooLarge.into() => return Ok(()),
            first => first.map_err(|t| TestCaseError::fail(format!("{text}: {t:?}")))?,
        };
        let printed = format_value(first.si, dimension);
        let second = quantity(&printed, dimension).map_err(|t| TestCaseError::fail(format!("{printed}: {t:?}")))?;
        let error = (second.si - first.si).abs();
        prop_assert!(error <= 1e-12 * first.si.abs(), "{} {}", text, printed);
    }

    /// Every whole hundredth of a degree is printed as it was written.
    #[test]
    fn degrees_are_printed_as_they_were_written(hundredths in -36_000i32..36_000) {
        let written = format!("{}°", f64::from(hundredths) / 100.0);
        let read = quantity(&written, Dimension::Angle).map_err(|t| TestCaseError::fail(format!("{t:?}")))?;
        prop_assert_eq!(format_value(read.si, Dimension::Angle), written);
    }

    /// Rounding never moves a value by more than half a digit.
    #[test]
    fn rounding_stays_close(dimension in any_dimension(), si in 1e-6f64..1e6, digits in 2usize..8) {
        let text = format_rounded(si, dimension, digits);
        let back = quantity(&text, dimension).map_err(|t| TestCaseError::fail(format!("{text}: {t:?}")))?;
        let half_digit: f64 = format!("5e-{digits}").parse().unwrap();
        if dimension != Dimension::Gain {
            prop_assert!((back.si / si - 1.0).abs() <= 1.01 * half_digit, "{} {} {}", si, text, back.si);
        }
    }

    /// No text at all makes the reader of quantities panic or point outside.
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,24}", dimension in any_dimension()) {
        if let Err(trouble) = quantity(&text, dimension) {
            prop_assert!(text.get(trouble.range).is_some());
        }
        if let Err(trouble) = edges(&text, 3) {
            prop_assert!(text.get(trouble.range).is_some());
        }
        if let Err(trouble) = amount(&text) {
            prop_assert!(text.get(trouble.range).is_some());
        }
    }

    /// The same with texts that nearly are quantities.
    #[test]
    fn near_misses_are_read_or_refused(
        text in "(about |~)?-?[0-9]{0,3}[.,/ ½x×e-]{0,2}[0-9]{0,3} ?(mm|in|\"|L|%|dB|Ω|€|k|µF|R)?( ?(±|\\+-) ?-?[0-9.]{0,3} ?(%|mm|L)?)?",
        dimension in any_dimension(),
    ) {
        for trouble in [
            quantity(&text, dimension).err(),
            edges(&text, 2).err(),
            amount(&text).err(),
        ].into_iter().flatten() {
            prop_assert!(text.get(trouble.range).is_some());
        }
    }
}
