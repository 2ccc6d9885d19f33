//! Every output touches nothing but its own load: each leg against everything else, pair by pair.

use super::Testing;
use super::test;
use crate::electrics::Electrics;
use crate::order::model::{Expect, Hold};
use design::Instrument;
use wiring::{End, Kind, Role, System};

const PANEL: &str = "the metal of the control panel";

/// Insulation below this many Ω is none: common practice, no source.
const INSULATED: f64 = 1e6;

pub(super) fn hold(testing: &Testing<'_>) -> Hold {
    let base = test(
        "test-isolation",
        "Outputs touch nothing else",
        &[Instrument::Multimeter],
    )
    .how("amplifier still unplugged from its wires, fuse out; each leg at the amplifier's end")
    .how("the two legs of one output read as its coils: that is the next test");
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

/// What is held against what, in words.
fn pairs(testing: &Testing<'_>) -> Vec<String> {
    let plate = testing.design().control.as_ref();
    let metal = plate.is_some_and(|control| control.plate.metal.value);
    let of_wires = testing.electrics.map(|known| of_wires(known, metal));
    if let Some(pairs) = of_wires.filter(|pairs| !pairs.is_empty()) {
        return pairs;
    }
    // Without a list of wires, what every box of this kind has.
    let outputs = testing.outputs();
    let mut others = vec!["battery −"];
    if metal {
        others.push(PANEL);
    }
    let mut pairs: Vec<String> = Vec::new();
    for (index, (name, _)) in outputs.iter().enumerate() {
        let others = others.iter().map(|other| (*other).to_owned());
        let later = outputs[index + 1..].iter();
        let later = later.map(|(name, _)| format!("the {name} output"));
        for other in later.chain(others) {
            pairs.push(format!("both wires of {name} to {other}"));
        }
    }
    pairs
}

/// The pairs of a list of wires: each leg of each output against the battery's minus, bare metal,
/// the sleeves of jacks, and each leg of the outputs after it.
fn of_wires(electrics: &Electrics, metal: bool) -> Vec<String> {
    let system = &electrics.system;
    // A panel that no bare part touches is no part of the wiring, but a strand may touch it.
    let plate = system.parts.iter().any(|part| part.kind == Kind::Plate);
    let panel = metal && !plate;
    let legs = legs(system);
    let others = others(system);
    let mut pairs = Vec::new();
    for (index, leg) in legs.iter().enumerate() {
        let own = side(system, *leg);
        let later = legs[index + 1..].iter().copied();
        let later = later.filter(|other| side(system, *other) != own);
        let against = others.iter().copied().filter(|other| {
            // A leg that is ground by its making is no bridged one: ground is its own wire.
            role(system, *leg) != Role::OutputGround || role(system, *other) == Role::Metal
        });
        for other in later.chain(against) {
            if role(system, *leg) == Role::OutputGround && role(system, other) == Role::OutputGround
            {
                continue;
            }
            pairs.push(format!("{} to {}", said(system, *leg), said(system, other)));
        }
        if panel {
            pairs.push(format!("{} to {PANEL}", said(system, *leg)));
        }
    }
    pairs
}

/// Terminals of amplifiers that drive loads, channel by channel.
fn legs(system: &System) -> Vec<End> {
    let drives = |role: Role| matches!(role, Role::Bridged | Role::Output | Role::OutputGround);
    let all = system.ends();
    all.filter(|end| {
        system.parts[end.part].kind == Kind::Amplifier
            && drives(role(system, *end))
            && used(system, *end)
    })
    .collect()
}

/// What no output may touch.
fn others(system: &System) -> Vec<End> {
    let forbidden = |end: &End| {
        let kind = system.parts[end.part].kind;
        let sleeve = kind == Kind::Jack && role(system, *end) == Role::SignalGround;
        let minus = kind == Kind::Battery && role(system, *end) == Role::Minus;
        let metal = role(system, *end) == Role::Metal;
        minus || sleeve || metal
    };
    let mut seen: Vec<(Kind, Option<usize>)> = Vec::new();
    let all = system.ends().filter(forbidden);
    // Batteries share their minus, and a plate is one piece of metal.
    all.filter(|end| {
        let kind = system.parts[end.part].kind;
        let one = (kind, (kind != Kind::Battery).then_some(end.part));
        let new = !seen.contains(&one);
        if new {
            seen.push(one);
        }
        new
    })
    .collect()
}

fn used(system: &System, end: End) -> bool {
    let mut wires = system.wires.iter();
    wires.any(|wire| wire.from == end || wire.to == end)
}

fn role(system: &System, end: End) -> Role {
    system.parts[end.part].terminals[end.terminal].role
}

fn side(system: &System, end: End) -> Option<wiring::Side> {
    system.parts[end.part].terminals[end.terminal].side
}

/// A terminal as its label has it; those of the amplifier without its name.
fn said(system: &System, end: End) -> String {
    let part = &system.parts[end.part];
    let terminal = part.terminals[end.terminal].name.replace('-', "−");
    match part.kind {
        Kind::Amplifier => terminal,
        Kind::Plate => PANEL.to_owned(),
        _ => format!("{} {terminal}", part.name),
    }
}
