//! The net list of a box as a schematic.

use crate::schematic::{Face, Net, Part, Schematic, Symbol, Terminal, Wire, stroke_of};
use crate::text::number;
use studies::electrics::{Electrics, colour};
use wiring::{Carries, End, Kind, Role};

/// Parts and nets; metal that only touches metal is left out.
pub(super) fn schematic(electrics: &Electrics) -> Schematic {
    let shown: Vec<usize> = (0..electrics.system.parts.len())
        .filter(|p| electrics.system.parts[*p].kind != Kind::Plate)
        .collect();
    let place = |part: usize| shown.iter().position(|p| *p == part);
    let parts = shown.iter().map(|p| part(electrics, *p)).collect();
    let nets = joined(electrics).into_iter().filter_map(|wires| {
        let first = &electrics.harness[*wires.first()?];
        let mut ends: Vec<End> = Vec::new();
        for wire in &wires {
            let own = &electrics.system.wires[*wire];
            ends.extend(
                [own.from, own.to]
                    .iter()
                    .filter(|e| !ends.contains(e))
                    .copied()
                    .collect::<Vec<_>>(),
            );
        }
        let leads = !ends.iter().any(|end| returns(role(electrics, *end)));
        ends.retain(|end| place(end.part).is_some());
        let spot = |end: End| ends.iter().position(|e| *e == end);
        let own = wires.iter().filter_map(|wire| {
            let (joined, made) = (&electrics.system.wires[*wire], &electrics.harness[*wire]);
            Some(Wire {
                name: made.label.clone(),
                ends: [spot(joined.from)?, spot(joined.to)?],
                stroke: stroke_of(made.colour),
            })
        });
        let own = own.collect();
        let ends = ends.iter().filter_map(|end| {
            let said = label(electrics, &wires, *end);
            Some((place(end.part)?, end.terminal, said))
        });
        Some(Net {
            name: first.label.clone(),
            ends: ends.collect(),
            leads,
            stroke: stroke_of(first.colour),
            wires: own,
        })
    });
    Schematic {
        nets: nets.collect(),
        parts,
    }
}

fn role(electrics: &Electrics, end: End) -> Role {
    electrics.system.parts[end.part].terminals[end.terminal].role
}

/// Whether what flows here flows back.
fn returns(role: Role) -> bool {
    matches!(
        role,
        Role::Minus | Role::Return | Role::ChargeReturn | Role::SignalGround | Role::Bottom
    )
}

/// Wires that share an end, together.
fn joined(electrics: &Electrics) -> Vec<Vec<usize>> {
    let wires = &electrics.system.wires;
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (index, wire) in wires.iter().enumerate() {
        if wire.carries == Carries::Touch {
            continue;
        }
        let meets = |group: &Vec<usize>| {
            group.iter().any(|other| {
                let ends = [wires[*other].from, wires[*other].to];
                ends.contains(&wire.from) || ends.contains(&wire.to)
            })
        };
        let (near, mut far): (Vec<_>, Vec<_>) = groups.into_iter().partition(meets);
        let mut own: Vec<usize> = near.into_iter().flatten().collect();
        own.push(index);
        own.sort_unstable();
        far.push(own);
        groups = far;
    }
    groups.sort();
    groups
}

/// "W7 RD": numbers of the wires that end there, each with the letters of its colour;
/// said once where all are of one colour.
fn label(electrics: &Electrics, wires: &[usize], end: End) -> String {
    let here = wires.iter().filter(|w| {
        let own = &electrics.system.wires[**w];
        own.from == end || own.to == end
    });
    let harness: Vec<_> = here.map(|w| &electrics.harness[*w]).collect();
    let mut words: Vec<&str> = Vec::new();
    for (i, wire) in harness.iter().enumerate() {
        words.push(&wire.label);
        let next = harness.get(i + 1).map(|w| w.colour);
        if next != Some(wire.colour) {
            words.push(colour::letters(wire.colour));
        }
    }
    words.join(" ")
}

fn part(electrics: &Electrics, index: usize) -> Part {
    let own = &electrics.system.parts[index];
    let terminals = own.terminals.iter().map(|t| Terminal {
        name: t.name.replace('-', "−"),
        face: face(own.kind, t.role),
    });
    let symbol = symbol(own);
    let mut part = Part {
        symbol,
        name: own.name.clone(),
        note: note(electrics, index),
        terminals: terminals.collect(),
    };
    if own.kind == Kind::Switch {
        contacts(&mut part);
    }
    part
}

/// A rating, where it is short enough to stand at the symbol.
fn note(electrics: &Electrics, index: usize) -> String {
    match &electrics.fuse {
        Some(fuse) if fuse.part == index => {
            let decimals = usize::from(fuse.current.fract() > 0.0);
            format!("{} A", number(fuse.current, decimals))
        }
        _ => String::new(),
    }
}

fn symbol(part: &wiring::Part) -> Symbol {
    match (part.kind, part.terminals.len()) {
        (Kind::Battery, 2) => Symbol::Battery,
        (Kind::Fuse, 2) => Symbol::Fuse,
        (Kind::Switch, 2) => Symbol::Contact,
        (Kind::Switch, n) if n % 3 == 0 && passes_only(part) => Symbol::Changeover,
        (Kind::Resistor, 2) => Symbol::Resistor,
        (Kind::Potentiometer, n) if n % 3 == 0 => Symbol::Slider,
        (Kind::Light, 2) => Symbol::Lamp,
        (Kind::Driver, 2) => Symbol::Loudspeaker,
        (Kind::Star, _) => Symbol::Strip,
        _ => Symbol::Block,
    }
}

/// Whether a part takes nothing itself: a cut-off does.
fn passes_only(part: &wiring::Part) -> bool {
    let mut terminals = part.terminals.iter();
    terminals.all(|terminal| terminal.role == Role::Contact)
}

/// What takes is on the left, what gives on the right.
fn face(kind: Kind, role: Role) -> Face {
    match role {
        Role::Plus | Role::Minus | Role::Charge | Role::ChargeReturn => Face::Right,
        Role::SignalOut | Role::Wiper => Face::Right,
        Role::Bridged | Role::Output | Role::OutputGround => Face::Right,
        Role::Supply | Role::Return | Role::SignalIn | Role::Load => Face::Left,
        Role::Top | Role::Bottom | Role::Metal => Face::Left,
        Role::SignalGround if matches!(kind, Kind::Jack | Kind::Radio) => Face::Right,
        Role::SignalGround => Face::Left,
        Role::Contact if matches!(kind, Kind::Post | Kind::Jack) => Face::Left,
        Role::Contact => Face::Either,
    }
}

/// Of a switch with throws, the common end is on the left and the throws on the right.
fn contacts(part: &mut Part) {
    match part.symbol {
        Symbol::Changeover => {
            for (i, terminal) in part.terminals.iter_mut().enumerate() {
                let common = i % 3 == 0;
                terminal.face = if common { Face::Left } else { Face::Right };
            }
        }
        Symbol::Contact => {}
        _ => {
            // Poles of one throw each; of a cut-off the entry is its supply and stands on the left.
            let fed = part
                .terminals
                .iter()
                .any(|terminal| terminal.face == Face::Left);
            let mut ends = usize::from(fed);
            for terminal in &mut part.terminals {
                if terminal.face == Face::Either {
                    let first = ends % 2 == 0;
                    terminal.face = if first { Face::Left } else { Face::Right };
                    ends += 1;
                }
            }
        }
    }
}
