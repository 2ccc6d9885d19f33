//! Sentences about values, units and tolerances.

use super::example::{example, unit_of};
use super::{Said, either, said, shown};
use crate::fault::{Lengths, ValueFault, Wanted};
use crate::quantity::{BadNumber, BadTolerance, BadUnit, Dimension, TroubleKind, symbols};

pub(super) fn say(fault: &ValueFault) -> Said {
    match fault {
        ValueFault::PlainNumber {
            key,
            number,
            wanted: Wanted::Money,
        } => currency_missing(key, number),
        ValueFault::PlainNumber {
            key,
            number,
            wanted,
        } => unit_missing(key, number, *wanted),
        ValueFault::Range {
            key,
            found,
            allowed,
        } => said(
            "value-range",
            format!("`{key}` cannot be {}", shown(found)),
            format!("must be {allowed}"),
            format!("check the number and its unit: `{key}` must be {allowed}"),
        ),
        ValueFault::Unreadable {
            key,
            trouble,
            wanted,
        } => match trouble {
            TroubleKind::Number(bad) => number(key, bad, *wanted),
            TroubleKind::Unit(bad) => unit(key, bad, *wanted),
            TroubleKind::Tolerance(bad) => tolerance(key, bad, *wanted),
        },
    }
}

fn noun(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Money => "a price",
        Wanted::Lengths(Lengths::Position | Lengths::Corner) => "a position",
        Wanted::Lengths(_) => "a size",
        Wanted::Quantity(dimension) => dimension.noun(),
    }
}

fn units(wanted: Wanted) -> String {
    let dimension = match wanted {
        Wanted::Money => return "a currency such as EUR".to_owned(),
        Wanted::Lengths(_) => Dimension::Length,
        Wanted::Quantity(dimension) => dimension,
    };
    let symbols: Vec<&str> = symbols(dimension).collect();
    either(&symbols)
}

fn number(key: &str, bad: &BadNumber, wanted: Wanted) -> Said {
    let sample = example(key, wanted);
    match bad {
        BadNumber::Empty => said(
            "number-bad",
            format!("`{key}` has no number in it"),
            format!("{} is needed here", noun(wanted)),
            format!("write a number and its unit, like {sample}"),
        ),
        BadNumber::Unreadable { text } => said(
            "number-bad",
            format!(
                "`{key}`: \"{}\" does not begin with a number that can be read",
                shown(text)
            ),
            format!("{} is needed here", noun(wanted)),
            format!("write a number and its unit, like {sample}; fractions as 23/32 or 1 1/2"),
        ),
        BadNumber::Ambiguous { text, readings } => said(
            "number-ambiguous",
            format!("`{key}`: \"{}\" can be read two ways", shown(text)),
            "does the comma part decimals or thousands?",
            format!(
                "write {} or {}, with a point for decimals and nothing between thousands",
                shown(&readings.0),
                shown(&readings.1)
            ),
        ),
        BadNumber::TooLarge => said(
            "value-range",
            format!("`{key}` is larger than anything that can be computed with"),
            "too large",
            format!("check the number; it looks like {sample}"),
        ),
        BadNumber::SizeCount {
            wanted: many,
            found,
        } => {
            let is = if *found == 1 { "is" } else { "are" };
            let order = match wanted {
                Wanted::Lengths(of) => order(of),
                Wanted::Quantity(_) | Wanted::Money => "all of them",
            };
            said(
                "size-count",
                format!("`{key}` takes {many} lengths, and here {is} {found}"),
                format!("{many} lengths with × between them are needed"),
                format!("write {order}, like {sample}"),
            )
        }
    }
}

fn order(of: Lengths) -> &'static str {
    match of {
        Lengths::Block => "width × height × depth",
        Lengths::Cylinder => "diameter × length",
        Lengths::Face => "width × height",
        Lengths::Section => "across × up",
        Lengths::Position => "from the left × from the bottom",
        Lengths::Corner => "from the left × from the bottom × from the front",
    }
}

fn unit_missing(key: &str, number: &str, wanted: Wanted) -> Said {
    let unit = unit_of(example(key, wanted));
    said(
        "unit-missing",
        format!("`{key}` is a number without a unit"),
        format!("{} needs its unit", noun(wanted)),
        format!(
            "write it in quotes with its unit, as `{key} = \"{} {unit}\"` if it is in {unit}",
            shown(number)
        ),
    )
}

fn currency_missing(key: &str, number: &str) -> Said {
    said(
        "currency-missing",
        format!("`{key}` does not say in which currency"),
        "a price needs its currency",
        format!(
            "write it in quotes with its currency, as `{key} = \"{0} €\"`, \"$ {0}\" or \"{0} CHF\"",
            shown(number)
        ),
    )
}

fn unit(key: &str, bad: &BadUnit, wanted: Wanted) -> Said {
    match bad {
        BadUnit::Missing { number } => unit_missing(key, number, wanted),
        BadUnit::Unknown { unit, nearest } => said(
            "unit-unknown",
            format!("`{key}`: there is no unit \"{}\"", shown(unit)),
            "unknown unit",
            match nearest {
                Some(nearest) => format!("did you mean {nearest}? Known here: {}", units(wanted)),
                None => format!("write it in {}", units(wanted)),
            },
        ),
        BadUnit::Wrong { unit, measures } => said(
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
        BadUnit::Unwanted { unit } => said(
            "unit-unwanted",
            format!("`{key}` is a plain number and has no unit"),
            format!("\"{}\" does not belong here", shown(unit)),
            format!("write the number alone, like {}", example(key, wanted)),
        ),
        BadUnit::CurrencyMissing { number } => currency_missing(key, number),
        BadUnit::CurrencyUnknown { text } => said(
            "currency-unknown",
            format!("`{key}`: \"{}\" is no currency", shown(text)),
            "not a currency",
            "write €, $, £ or a code of three letters, like \"12 CHF\"",
        ),
    }
}

fn tolerance(key: &str, bad: &BadTolerance, wanted: Wanted) -> Said {
    let unit = unit_of(example(key, wanted));
    match bad {
        BadTolerance::Negative => said(
            "tolerance-bad",
            format!("`{key}` has a tolerance below zero"),
            "± already goes both ways",
            "write the half width as a positive number, like ± 10 %",
        ),
        BadTolerance::TooWide => said(
            "tolerance-wide",
            format!("`{key}` has a tolerance as large as the value itself"),
            "this would allow zero or less",
            "write a tolerance smaller than the value, or \"about\" in front of the number",
        ),
        BadTolerance::Relative => said(
            "tolerance-relative",
            format!("a tolerance in per cent means nothing for {}", noun(wanted)),
            "per cent of what?",
            format!("write it in {unit}, like ± 2 {unit}"),
        ),
        BadTolerance::Twice => said(
            "tolerance-twice",
            format!("`{key}` says both \"about\" and ±"),
            "two tolerances for one value",
            "keep one of the two",
        ),
        BadTolerance::Unreadable { text } => said(
            "tolerance-bad",
            format!("`{key}`: the tolerance \"{}\" cannot be read", shown(text)),
            "not a tolerance",
            match unit {
                "" => "write ± and a number or per cent, like ± 0.1 or ± 10 %".to_owned(),
                unit => format!("write ± with a number and {unit} or %, like ± 10 %"),
            },
        ),
    }
}
