//! Sentences about values, units and tolerances.

use super::{Said, either, said, shown};
use crate::fault::{Fault, Wanted};
use crate::quantity::{Dimension, TroubleKind, symbols};

pub(super) fn say(fault: &Fault) -> Option<Said> {
    let said = match fault {
        Fault::PlainNumber {
            key,
            number,
            wanted,
        } => said(
            "unit-missing",
            format!("`{key}` is a number without a unit"),
            format!("{} needs its unit", noun(*wanted)),
            format!(
                "write it in quotes with its unit, as {}",
                with_unit(key, number, *wanted)
            ),
        ),
        Fault::ValueRange {
            key,
            found,
            allowed,
        } => said(
            "value-range",
            format!("`{key}` cannot be {found}"),
            allowed.clone(),
            format!("check the number and its unit: `{key}` must be {allowed}"),
        ),
        Fault::Unreadable {
            key,
            trouble,
            wanted,
        } => about(key, trouble, *wanted),
        _ => return None,
    };
    Some(said)
}

/// How a value of this sort looks in a file.
pub(crate) fn example(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Money => "\"12 €\"",
        Wanted::Size(2) => "\"50 x 120 mm\"",
        Wanted::Size(_) => "\"380 x 220 x 220 mm\"",
        Wanted::Quantity(dimension) => match dimension {
            Dimension::Length => "\"12 mm\"",
            Dimension::Area => "\"55 cm²\"",
            Dimension::Volume => "\"6 L\"",
            Dimension::Mass => "\"1.2 kg\"",
            Dimension::Time => "\"8 h\"",
            Dimension::Frequency => "\"70 Hz\"",
            Dimension::Temperature => "\"20 °C\"",
            Dimension::Share => "\"50 %\"",
            Dimension::SoundLevel => "\"88 dB\"",
            Dimension::Decibel => "\"3 dB\"",
            Dimension::Gain => "\"26 dB\"",
            Dimension::Number => "0.45",
            Dimension::Voltage => "\"12 V\"",
            Dimension::Current => "\"2 A\"",
            Dimension::Resistance => "\"3.4 Ω\"",
            Dimension::Capacitance => "\"1000 µF\"",
            Dimension::Inductance => "\"0.3 mH\"",
            Dimension::SemiInductance => "\"0.02 Ω s^n\"",
            Dimension::Power => "\"20 W\"",
            Dimension::Charge => "\"7 Ah\"",
            Dimension::Energy => "\"80 Wh\"",
            Dimension::ForceFactor => "\"4.2 T m\"",
            Dimension::Compliance => "\"0.8 mm/N\"",
            Dimension::Damping => "\"0.6 kg/s\"",
            Dimension::Density => "\"680 kg/m³\"",
            Dimension::Pressure => "\"9 GPa\"",
            Dimension::Speed => "\"10 m/s\"",
        },
    }
}

fn noun(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Money => "a price",
        Wanted::Size(_) => "a size",
        Wanted::Quantity(dimension) => dimension.noun(),
    }
}

fn usual_unit(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Money => "EUR",
        Wanted::Size(_) => "mm",
        Wanted::Quantity(dimension) => dimension.usual_unit(),
    }
}

fn units(wanted: Wanted) -> String {
    let dimension = match wanted {
        Wanted::Money => return "a currency such as EUR".to_owned(),
        Wanted::Size(_) => Dimension::Length,
        Wanted::Quantity(dimension) => dimension,
    };
    let symbols: Vec<&str> = symbols(dimension).collect();
    either(&symbols)
}

fn with_unit(key: &str, number: &str, wanted: Wanted) -> String {
    let unit = usual_unit(wanted);
    format!("`{key} = \"{} {unit}\"` if it is in {unit}", shown(number))
}

fn about(key: &str, trouble: &TroubleKind, wanted: Wanted) -> Said {
    match trouble {
        TroubleKind::Empty
        | TroubleKind::NumberBad { .. }
        | TroubleKind::NumberAmbiguous { .. }
        | TroubleKind::NumberTooLarge
        | TroubleKind::SizeCount { .. } => number(key, trouble, wanted),
        TroubleKind::UnitMissing { .. }
        | TroubleKind::UnitUnknown { .. }
        | TroubleKind::UnitWrong { .. }
        | TroubleKind::UnitUnwanted { .. }
        | TroubleKind::CurrencyMissing
        | TroubleKind::CurrencyUnknown { .. } => unit(key, trouble, wanted),
        TroubleKind::ToleranceBad { .. }
        | TroubleKind::ToleranceNegative
        | TroubleKind::ToleranceTooWide
        | TroubleKind::ToleranceRelative
        | TroubleKind::ToleranceTwice => tolerance(key, trouble, wanted),
    }
}

fn number(key: &str, trouble: &TroubleKind, wanted: Wanted) -> Said {
    let sample = example(wanted);
    match trouble {
        TroubleKind::NumberAmbiguous { text, readings } => said(
            "number-ambiguous",
            format!("`{key}`: \"{}\" can be read two ways", shown(text)),
            "does the comma part decimals or thousands?",
            format!(
                "write {} or {}, with a point for decimals and nothing between thousands",
                shown(&readings.0),
                shown(&readings.1)
            ),
        ),
        TroubleKind::NumberTooLarge => said(
            "value-range",
            format!("`{key}` is larger than anything that can be computed with"),
            "too large",
            format!("check the number; it looks like {sample}"),
        ),
        TroubleKind::SizeCount {
            wanted: many,
            found,
        } => said(
            "size-count",
            format!("`{key}` takes {many} lengths, and here are {found}"),
            format!("{many} lengths with × between them are needed"),
            match many {
                2 => format!("write diameter × length, like {sample}"),
                _ => format!("write width × height × depth, like {sample}"),
            },
        ),
        TroubleKind::NumberBad { text } => bad_number(key, &shown(text), wanted),
        _ => bad_number(key, "", wanted),
    }
}

fn bad_number(key: &str, text: &str, wanted: Wanted) -> Said {
    said(
        "number-bad",
        if text.is_empty() {
            format!("`{key}` has no number in it")
        } else {
            format!("`{key}`: \"{text}\" does not begin with a number that can be read")
        },
        format!("{} is needed here", noun(wanted)),
        format!(
            "write a number and its unit, like {}; fractions as 23/32 or 1 1/2",
            example(wanted)
        ),
    )
}

fn unit(key: &str, trouble: &TroubleKind, wanted: Wanted) -> Said {
    match trouble {
        TroubleKind::UnitMissing { number } => said(
            "unit-missing",
            format!("`{key}` is a number without a unit"),
            format!("{} needs its unit", noun(wanted)),
            format!("write {}", with_unit(key, number, wanted)),
        ),
        TroubleKind::UnitUnknown { unit, nearest } => said(
            "unit-unknown",
            format!("`{key}`: there is no unit \"{}\"", shown(unit)),
            "unknown unit",
            match nearest {
                Some(nearest) => format!("did you mean {nearest}? Known here: {}", units(wanted)),
                None => format!("write it in {}", units(wanted)),
            },
        ),
        TroubleKind::UnitWrong { unit, measures } => said(
            "unit-wrong",
            format!(
                "`{key}` is {}, but \"{}\" measures {}",
                noun(wanted),
                shown(unit),
                measures.noun()
            ),
            format!("{} is needed here", noun(wanted)),
            format!("write it in {}", units(wanted)),
        ),
        TroubleKind::UnitUnwanted { unit } => said(
            "unit-unwanted",
            format!("`{key}` is a plain number and has no unit"),
            format!("\"{}\" does not belong here", shown(unit)),
            format!("write the number alone, like {}", example(wanted)),
        ),
        TroubleKind::CurrencyMissing => said(
            "currency-missing",
            format!("`{key}` does not say in which currency"),
            "a price needs its currency",
            "write it like \"12 €\", \"$ 12\" or \"12 CHF\"",
        ),
        TroubleKind::CurrencyUnknown { text } => said(
            "currency-unknown",
            format!("`{key}`: \"{}\" is no currency", shown(text)),
            "not a currency",
            "write €, $, £ or a code of three letters, like \"12 CHF\"",
        ),
        _ => bad_number(key, "", wanted),
    }
}

fn tolerance(key: &str, trouble: &TroubleKind, wanted: Wanted) -> Said {
    let unit = usual_unit(wanted);
    match trouble {
        TroubleKind::ToleranceNegative => said(
            "tolerance-bad",
            format!("`{key}` has a tolerance below zero"),
            "± already goes both ways",
            "write the half width as a positive number, like ± 10 %",
        ),
        TroubleKind::ToleranceTooWide => said(
            "tolerance-wide",
            format!("`{key}` has a tolerance as large as the value itself"),
            "this would allow zero or less",
            "write a tolerance smaller than the value, or \"about\" in front of the number",
        ),
        TroubleKind::ToleranceRelative => said(
            "tolerance-relative",
            format!("a tolerance in per cent means nothing for {}", noun(wanted)),
            "per cent of what?",
            format!("write it in {unit}, like ± 2 {unit}"),
        ),
        TroubleKind::ToleranceTwice => said(
            "tolerance-twice",
            format!("`{key}` says both \"about\" and ±"),
            "two tolerances for one value",
            "keep one of the two",
        ),
        TroubleKind::ToleranceBad { text } => said(
            "tolerance-bad",
            format!("`{key}`: the tolerance \"{}\" cannot be read", shown(text)),
            "not a tolerance",
            tolerance_example(unit),
        ),
        _ => bad_number(key, "", wanted),
    }
}

fn tolerance_example(unit: &str) -> String {
    if unit.is_empty() {
        "write ± and a number or per cent, like ± 0.1 or ± 10 %".to_owned()
    } else {
        format!("write ± with a number and {unit} or %, like ± 10 %")
    }
}
