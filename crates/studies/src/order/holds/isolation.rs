//! Every output touches nothing but its own load.

use super::Testing;
use super::test;
use crate::order::model::{Expect, Hold};
use design::Instrument;

/// Insulation below this many Ω is none: common practice, no source.
const INSULATED: f64 = 1e6;

pub(super) fn hold(testing: &Testing<'_>) -> Hold {
    let base = test(
        "test-isolation",
        "Outputs touch nothing else",
        &[Instrument::Multimeter],
    )
    .how("amplifier still unplugged from its wires, fuse out");
    let pairs = pairs(testing);
    let base = base
        .if_not(
            "a reading between an output and anything else",
            "a strand, a screw or a bare sleeve joins them: find it before there is power. A \
bridged output on ground or on the other output is a dead amplifier",
        )
        .if_not(
            "a reading that wanders",
            "fingers on both tips, or flux: let go, clean, read again",
        );
    if testing.has(Instrument::Multimeter) {
        let mut hold = base.how("highest range of resistance, hands off the tips");
        for pair in pairs {
            hold = hold.read(
                pair,
                Expect::AtLeast {
                    value: INSULATED,
                    unit: "Ω",
                },
            );
        }
        return hold;
    }
    let mut hold = base
        .how("a light-emitting diode with 1 kΩ and a 3 V button cell in series, on two test tips")
        .instead(&[]);
    for pair in pairs {
        hold = hold.seen(pair, "stays dark");
    }
    hold
}

/// What is held against what.
fn pairs(testing: &Testing<'_>) -> Vec<String> {
    let outputs = testing.outputs();
    let design = testing.design();
    let mut others = vec!["battery − and ground"];
    let plate = design.control.as_ref();
    if plate.is_some_and(|control| control.plate.metal.value) {
        others.push("the metal of the control panel");
    }
    let mut pairs: Vec<String> = Vec::new();
    for (index, (name, _)) in outputs.iter().enumerate() {
        let name = said(name);
        for (later, _) in &outputs[index + 1..] {
            pairs.push(format!("{name} to {}", said(later)));
        }
        for other in &others {
            pairs.push(format!("{name} to {other}"));
        }
    }
    pairs
}

fn said(name: &str) -> String {
    if name == "the output" {
        "the output's two wires".into()
    } else {
        format!("both {name} wires")
    }
}
