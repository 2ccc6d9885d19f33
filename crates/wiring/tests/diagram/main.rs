//! Diagrams of generated systems, judged by their geometry alone.

#![allow(clippy::unwrap_used, reason = "a test")]

mod audit;
mod brute;
mod systems;

use audit::faults;
use boxwright_wiring::diagram::{Circuit, Face, Member, Pin, Rules, lay_out, pages};
use proptest::prelude::*;

fn check(circuit: &Circuit) {
    let diagram = lay_out(circuit, &Rules::default());
    assert_eq!(faults(circuit, &diagram), Vec::<String>::new());
}

#[test]
fn a_box_of_25_parts_is_drawn_without_fault_on_one_page() {
    let circuit = systems::twenty_five();
    check(&circuit);
    let diagram = lay_out(&circuit, &Rules::default());
    println!(
        "{:?}: {} crossings, {} bends",
        diagram.size, diagram.crossings, diagram.bends
    );
    // Power flows to the right: what takes stands right of what gives.
    let side = |p: &Pin| diagram.blocks[p.block].ports[p.port];
    for net in circuit.nets.iter().filter(|n| n.leads) {
        let on = |face| net.pins.iter().map(side).filter(move |p| p.face == face);
        let gives = on(Face::Right).map(|p| p.at[0]).fold(f64::MIN, f64::max);
        let takes = on(Face::Left).map(|p| p.at[0]).fold(f64::MAX, f64::min);
        assert!(gives < takes, "{net:?}");
    }
}

#[test]
fn the_same_circuit_is_drawn_alike() {
    let circuit = systems::random(11, 14);
    let [a, b] = [0, 1].map(|_| lay_out(&circuit, &Rules::default()));
    assert_eq!(a, b);
}

#[test]
fn an_audit_finds_what_is_moved() {
    let circuit = systems::twenty_five();
    let whole = lay_out(&circuit, &Rules::default());
    for net in 0..circuit.nets.len() {
        let mut off = whole.clone();
        let run = &mut off.nets[net].runs[0];
        run[0][1] += 0.4;
        assert!(!faults(&circuit, &off).is_empty(), "net {net}");
    }
    let mut off = whole.clone();
    off.blocks[0].at[0] += 1.0;
    assert!(!faults(&circuit, &off).is_empty());
}

#[test]
fn pages_keep_to_the_room_and_show_every_pin_once() {
    for seed in 0..6 {
        let circuit = systems::random(seed, 22);
        let rules = Rules {
            room: [160.0, 120.0],
            ..Rules::default()
        };
        let pages = pages(&circuit, &rules, [10.0, 5.0]);
        let mut seen = vec![0; circuit.blocks.len()];
        for page in &pages {
            assert_eq!(faults(&page.circuit, &page.diagram), Vec::<String>::new());
            let own = page.members.iter().filter_map(|m| match m {
                Member::Block(b) => Some(*b),
                Member::Flag { .. } => None,
            });
            let own: Vec<usize> = own.collect();
            let [w, h] = page.diagram.size;
            assert!(own.len() == 1 || (w <= 160.0 && h <= 120.0), "{w} × {h}");
            for block in own {
                seen[block] += 1;
            }
            for (place, net) in page.nets.iter().enumerate() {
                let wanted = &circuit.nets[*net].pins;
                let shown = page.circuit.nets[place].pins.iter().filter_map(|p| {
                    match page.members[p.block] {
                        Member::Block(block) => Some((block, p.port)),
                        Member::Flag { net: flagged, .. } => {
                            assert_eq!(flagged, *net);
                            None
                        }
                    }
                });
                assert!(
                    shown
                        .into_iter()
                        .all(|p| { wanted.iter().any(|w| (w.block, w.port) == p) })
                );
            }
        }
        assert!(seen.iter().all(|n| *n == 1), "{seen:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_circuit_is_drawn_without_fault(seed in 0_u64..1_000_000, blocks in 2_usize..16) {
        let circuit = systems::random(seed, blocks);
        let diagram = lay_out(&circuit, &Rules::default());
        prop_assert_eq!(faults(&circuit, &diagram), Vec::<String>::new());
    }
}
