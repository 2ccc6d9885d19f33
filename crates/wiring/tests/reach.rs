//! Nets and reachability of random systems against a plain search of a graph, and currents
//! against what must hold in any circuit.

use boxwright_wiring::{
    Carries, Draw, End, Inner, Kind, Limits, Mode, Nets, Part, Role, State, System, Terminal,
    Through, Wire, flow,
};
use proptest::prelude::*;

/// Parts of two to four terminals, each with a contact closed in position 1, a fuse and a
/// resistance somewhere, and wires between any two terminals.
fn any_system() -> impl Strategy<Value = (System, Mode)> {
    let part = (
        2usize..=4,
        prop::collection::vec((0usize..4, 0usize..4, 0usize..4), 0..4),
    );
    let parts = prop::collection::vec(part, 1..8);
    let wires = prop::collection::vec((any::<u16>(), any::<u16>()), 0..12);
    let positions = prop::collection::vec(0usize..2, 8);
    (parts, wires, positions).prop_map(|(parts, wires, positions)| {
        let mut system = System::default();
        for (index, (count, inner)) in parts.into_iter().enumerate() {
            let mut part = Part::new(format!("part {index}"), Kind::Other);
            part.positions = vec!["open".into(), "closed".into()];
            for terminal in 0..count {
                part.terminals
                    .push(Terminal::new(terminal.to_string(), Role::Contact));
            }
            for (a, b, kind) in inner {
                let (a, b) = (a % count, b % count);
                if a == b {
                    continue;
                }
                part.inner.push(match kind {
                    0 => Inner::always(a, b, Through::Metal),
                    1 => Inner::contact(a, b, &[1]),
                    2 => Inner::always(a, b, Through::Fuse),
                    _ => Inner::always(a, b, Through::Resistance(2.0)),
                });
            }
            system.parts.push(part);
        }
        let ends: Vec<End> = system.ends().collect();
        for (from, to) in wires {
            let (from, to) = (
                ends[from as usize % ends.len()],
                ends[to as usize % ends.len()],
            );
            if from != to {
                system.wires.push(Wire {
                    from,
                    to,
                    carries: Carries::Supply,
                });
            }
        }
        let mode = Mode {
            name: "any".into(),
            state: State::On,
            positions: positions[..system.parts.len()].to_vec(),
        };
        (system, mode)
    })
}

/// Which ends are joined, by the closure of a matrix: another way than union or search.
fn closure(system: &System, mode: &Mode, passes: impl Fn(Through) -> bool) -> Vec<Vec<bool>> {
    let ends: Vec<End> = system.ends().collect();
    let place = |end: End| {
        ends.iter()
            .position(|other| *other == end)
            .expect("an end of the system")
    };
    let mut joined = vec![vec![false; ends.len()]; ends.len()];
    for (index, row) in joined.iter_mut().enumerate() {
        row[index] = true;
    }
    let mut join = |a: usize, b: usize| {
        joined[a][b] = true;
        joined[b][a] = true;
    };
    for wire in &system.wires {
        join(place(wire.from), place(wire.to));
    }
    for (part, own) in system.parts.iter().enumerate() {
        for inner in &own.inner {
            if passes(inner.through) && inner.conducts(mode.positions[part]) {
                let [a, b] = inner.between.map(|terminal| place(End { part, terminal }));
                join(a, b);
            }
        }
    }
    for through in 0..ends.len() {
        for a in 0..ends.len() {
            for b in 0..ends.len() {
                joined[a][b] |= joined[a][through] && joined[through][b];
            }
        }
    }
    joined
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nets_are_what_a_closure_finds((system, mode) in any_system()) {
        prop_assert!(system.faults().is_empty());
        let nets = Nets::new(&system, &mode);
        let metal = closure(&system, &mode, |through| through == Through::Metal);
        let all = closure(&system, &mode, |_| true);
        let ends: Vec<End> = system.ends().collect();
        for (a, one) in ends.iter().enumerate() {
            let by_metal = system.reach(&mode, *one, &Limits::metal());
            let by_any = system.reach(&mode, *one, &Limits::signal());
            for (b, other) in ends.iter().enumerate() {
                prop_assert_eq!(nets.joined(*one, *other), metal[a][b]);
                prop_assert_eq!(by_metal.has(*other), metal[a][b]);
                prop_assert_eq!(by_any.has(*other), all[a][b]);
                // A way is told exactly where there is one, step by step from the start.
                let way = by_any.way(*other);
                prop_assert_eq!(way.is_some(), all[a][b]);
                if let Some(way) = way {
                    let last = way.last().map_or(*one, |(_, end)| *end);
                    prop_assert_eq!(last, *other);
                }
            }
        }
        let counted: usize = (0..nets.len()).map(|net| nets.members(net).len()).sum();
        prop_assert_eq!(counted, ends.len());
    }

    #[test]
    fn opening_contacts_joins_nothing((system, mode) in any_system()) {
        let open = Mode { positions: vec![0; system.parts.len()], ..mode.clone() };
        let (before, after) = (Nets::new(&system, &mode), Nets::new(&system, &open));
        let ends: Vec<End> = system.ends().collect();
        for one in &ends {
            for other in &ends {
                prop_assert!(!after.joined(*one, *other) || before.joined(*one, *other));
            }
        }
        prop_assert!(after.len() >= before.len());
    }

    /// What flows into a terminal flows out of it, and what is drawn comes from the source.
    #[test]
    fn currents_are_kept((system, mode) in any_system(), at in any::<[u16; 4]>()) {
        let ends: Vec<End> = system.ends().collect();
        let pick = |index: usize| ends[at[index] as usize % ends.len()];
        let (plus, minus) = (pick(0), pick(1));
        prop_assume!(plus != minus);
        let draw = Draw { from: pick(2), to: pick(3), amperes: 1.5 };
        let ohms = vec![0.01; system.wires.len()];
        let found = flow(&system, &mode, [plus, minus], 12.0, &ohms, &[draw]);
        let place = |end: End| ends.iter().position(|other| *other == end).expect("an end of the system");
        let mut out = vec![0.0; ends.len()];
        for (wire, amperes) in system.wires.iter().zip(&found.wires) {
            out[place(wire.from)] += amperes;
            out[place(wire.to)] -= amperes;
        }
        for (part, own) in system.parts.iter().enumerate() {
            for (inner, amperes) in own.inner.iter().zip(&found.inner[part]) {
                let [a, b] = inner.between.map(|terminal| place(End { part, terminal }));
                out[a] += amperes;
                out[b] -= amperes;
            }
        }
        let draws = found.volts[place(draw.from)].is_some() && found.volts[place(draw.to)].is_some();
        if draws {
            out[place(draw.from)] += draw.amperes;
            out[place(draw.to)] -= draw.amperes;
        }
        for (index, end) in ends.iter().enumerate() {
            if *end != plus && *end != minus {
                prop_assert!(out[index].abs() < 1e-6, "{} {}", system.name(*end), out[index]);
            }
        }
        prop_assert!((out[place(plus)] + out[place(minus)]).abs() < 1e-6);
    }
}

/// Two resistances in series by hand: 12 V over 1 Ω and 2 Ω, 0.1 Ω of wire.
#[test]
fn a_divider_divides() {
    let resistor = |name: &str, ohms| {
        let mut part = Part::new(name, Kind::Resistor);
        part.terminals = vec![
            Terminal::new("1", Role::Contact),
            Terminal::new("2", Role::Contact),
        ];
        part.inner = vec![Inner::always(0, 1, Through::Resistance(ohms))];
        part
    };
    let end = |part, terminal| End { part, terminal };
    let system = System {
        parts: vec![resistor("upper", 1.0), resistor("lower", 2.0)],
        wires: vec![Wire {
            from: end(0, 1),
            to: end(1, 0),
            carries: Carries::Supply,
        }],
    };
    let mode = Mode {
        name: "on".into(),
        state: State::On,
        positions: vec![0, 0],
    };
    let found = flow(&system, &mode, [end(0, 0), end(1, 1)], 12.0, &[0.1], &[]);
    let amperes = 12.0 / 3.1;
    assert!((found.wires[0] - amperes).abs() < 1e-9);
    assert!((found.volts[2].unwrap() - 2.0 * amperes).abs() < 1e-9);
}
