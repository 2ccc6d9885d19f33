//! The electrics of whole designs.

use boxwright_studies::{Options, Texts, electrics::Electrics, run};
use std::sync::Arc;

fn electrics(design: &str, shelf: Option<&str>) -> Arc<Electrics> {
    let options = Options {
        builds: 0,
        spread: 1.0,
        progress: &|_| {},
    };
    let report =
        run(Texts { design, shelf }, options).unwrap_or_else(|errors| panic!("{errors:#?}"));
    report.electrics
}

const EXAMPLES: [(&str, Option<&str>); 3] = [
    (
        include_str!("../../../examples/bathing-beach/design.toml"),
        None,
    ),
    (
        include_str!("../../../examples/salvage-party/design.toml"),
        Some(include_str!("../../../examples/salvage-party/shelf.toml")),
    ),
    (
        include_str!("../../../examples/workshop-mono/design.toml"),
        None,
    ),
];

/// Nothing is missing from the shipped designs, and what is proposed for them keeps every rule.
#[test]
fn the_shipped_designs_are_wired() {
    for (design, shelf) in EXAMPLES {
        let found = electrics(design, shelf);
        assert!(found.system.faults().is_empty());
        let breaches: Vec<_> = found
            .breaches
            .iter()
            .map(|breach| {
                let names: Vec<_> = breach
                    .ends
                    .iter()
                    .map(|end| found.system.name(*end))
                    .collect();
                (breach.kind, names)
            })
            .collect();
        assert!(breaches.is_empty(), "{breaches:?}");
        assert!(found.assumed.is_empty(), "{:?}", found.assumed);
        assert!(found.troubles.is_empty(), "{:?}", found.troubles);
        let fuse = found.fuse.as_ref().unwrap();
        assert!(
            fuse.stated && fuse.least <= fuse.current && fuse.current <= fuse.most,
            "{fuse:?}"
        );
        for (index, own) in found.harness.iter().enumerate() {
            if own.carries == wiring::Carries::Touch {
                continue;
            }
            // A bridge between two lugs of one part lies nowhere.
            let part = |end: wiring::End| found.parts[end.part].at;
            let wire = &found.system.wires[index];
            let bridge = part(wire.from) == part(wire.to);
            assert!(own.stated || own.length > own.lies, "{own:?}");
            assert_eq!(own.lies > 0.0, !bridge, "{own:?}");
            // It needs no slack and no loop.
            if wire.from.part == wire.to.part && !own.stated {
                assert!((0.02..0.05).contains(&own.length), "{own:?}");
            }
            assert!(own.section >= 0.14e-6 && own.ohms > 0.0, "{own:?}");
            assert_eq!(own.run.len() >= 2, !bridge, "{own:?}");
        }
    }
}

/// What flows out of the battery comes back to it, in every mode, and equals what is drawn.
#[test]
fn currents_come_back() {
    for (design, shelf) in EXAMPLES {
        let found = electrics(design, shelf);
        let battery = found.system.part("battery").unwrap();
        for state in found.modes.iter().filter(|state| !state.charges) {
            let mut out = [0.0; 2];
            for (wire, amperes) in found.system.wires.iter().zip(&state.flow.wires) {
                for (end, sign) in [(wire.from, 1.0), (wire.to, -1.0)] {
                    if end.part == battery {
                        out[end.terminal] += sign * amperes;
                    }
                }
            }
            assert!((out[0] + out[1]).abs() < 1e-6, "{out:?}");
            assert!(
                (out[0] - state.continuous).abs() < 1e-6,
                "{out:?} {}",
                state.continuous
            );
        }
    }
}
