//! The shipped examples, whole.

use crate::support::{EXAMPLES, answer, example, golden};
use serde_json::Value;
use std::fmt::Write;

#[test]
fn examples_answer_as_before() {
    for name in EXAMPLES {
        golden(
            &format!("check/{name}.txt"),
            &answer(&["check", &example(name)]),
        );
    }
}

/// Every figure and promise, rounded so that a change that matters to nobody
/// does not show, in a text whose diff can be read.
#[test]
fn figures_of_the_examples_are_as_before() {
    for name in EXAMPLES {
        let text = answer(&["check", "--json", &example(name)]);
        let report: Value = serde_json::from_str(&text).unwrap();
        let mut said = String::new();
        for list in ["promises", "figures"] {
            for row in report[list].as_array().unwrap() {
                let number = |key: &str| match &row[key] {
                    Value::Number(number) => format!("{:.4e}", number.as_f64().unwrap()),
                    _ => "none".into(),
                };
                writeln!(
                    said,
                    "{list} {:20} {:>12} {:>12} {:>12} {}",
                    row["id"].as_str().unwrap(),
                    number("value"),
                    number("p10"),
                    number("p90"),
                    row["unit"].as_str().unwrap(),
                )
                .unwrap();
            }
        }
        golden(&format!("figures/{name}.txt"), &said);
    }
}

/// A check that raises its voice on a shipped example must be meant.
#[test]
fn no_example_has_a_stop() {
    for name in EXAMPLES {
        let text = answer(&["check", "--json", "--builds=200", &example(name)]);
        let report: Value = serde_json::from_str(&text).unwrap();
        assert_ne!(report["verdict"], "stop", "{name}");
    }
}

#[test]
fn all_figures_and_assumptions_can_be_told() {
    let told = answer(&["check", "--figures", &example("salvage-party")]);
    assert!(told.contains("\nFigures ("), "{told}");
    assert!(told.contains("\nTaken for granted\n"), "{told}");
    assert!(
        told.contains("resonance of driver and closed box"),
        "{told}"
    );
}
