//! The solid model against itself: walls, room and what is taken off make the block, and no
//! two pieces of wood share any space.

mod boxes;

use boxes::{any_box, forms, mitred, plain};
use boxwright_wood::{Body, Edge, EdgeForm, Joint, Ledger, Panel, Plan, Wall};
use proptest::prelude::*;

fn made(plan: &Plan) -> Body {
    Body::new(plan).expect("the plan leaves a solid")
}

fn rest(ledger: &Ledger) -> f64 {
    let parts = ledger.walls.iter().sum::<f64>() + ledger.setbacks.iter().sum::<f64>();
    ledger.block - ledger.room - parts - ledger.edges - ledger.open
}

fn shared(a: &Panel, b: &Panel) -> f64 {
    let pairs = a
        .pieces
        .iter()
        .flat_map(|p| b.pieces.iter().map(move |q| (p, q)));
    pairs
        .filter_map(|(p, q)| p.intersection(q))
        .map(|common| common.volume())
        .sum()
}

fn check_split(plan: &Plan) {
    let body = made(plan);
    let ledger = Ledger::of(&body);
    let off = rest(&ledger) / ledger.block;
    assert!(off.abs() < 1e-9, "{off} of the block is nobody's");
    for (k, a) in body.panels.iter().enumerate() {
        for b in &body.panels[k + 1..] {
            let both = shared(a, b) / ledger.block;
            assert!(both < 1e-9, "{} and {} share {both}", a.name, b.name);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn every_point_of_the_block_has_one_owner(plan in any_box()) {
        check_split(&plan);
    }

    #[test]
    fn so_it_has_with_edges_formed(plan in any_box(), forms in forms(0.006)) {
        check_split(&Plan { edges: forms, ..plan });
    }
}

#[test]
fn a_ring_of_butts_around_a_corner_leaves_it_open() {
    let mut plan = plain(0.3, 0.3, 0.3, 0.02);
    for (a, b) in [
        (Wall::Front, Wall::Left),
        (Wall::Left, Wall::Top),
        (Wall::Top, Wall::Front),
    ] {
        plan.joints[Edge::between(a, b).unwrap().index()] = Joint::Butt { through: a };
    }
    let ledger = Ledger::of(&made(&plan));
    assert!((ledger.open - 8e-6).abs() < 1e-15);
    check_split(&plan);
}

#[test]
fn a_mitred_panel_is_as_long_as_the_box_and_tilted_by_half_a_right_angle() {
    let body = made(&mitred(plain(0.3, 0.4, 0.2, 0.018)));
    let front = body.wall(Wall::Front);
    assert_eq!(front.edges.len(), 4);
    for edge in &front.edges {
        assert!((edge.tilt.to_degrees() - 45.0).abs() < 1e-9);
    }
    let close = |a: [f64; 2], b: [f64; 2]| (0..2).all(|k| (a[k] - b[k]).abs() < 1e-12);
    assert!(close(front.long(), [0.3, 0.4]), "{:?}", front.long());
    assert!(close(front.short(), [0.264, 0.364]), "{:?}", front.short());
}

#[test]
fn holes_keep_their_place_on_the_box_whatever_the_panel() {
    let mut plan = plain(0.3, 0.4, 0.2, 0.018);
    plan.holes = Wall::ALL
        .map(|wall| boxwright_wood::Hole {
            wall,
            at: [0.08, 0.09],
            outline: boxwright_wood::Outline::Circle { diameter: 0.05 },
            pocket: None,
            purpose: boxwright_wood::Purpose::Driver,
            label: String::new(),
        })
        .to_vec();
    let body = made(&plan);
    for (wall, wanted) in [
        (Wall::Front, [0.08, 0.0, 0.09]),
        (Wall::Back, [0.22, 0.2, 0.09]),
        (Wall::Left, [0.0, 0.12, 0.09]),
        (Wall::Right, [0.3, 0.08, 0.09]),
        (Wall::Top, [0.08, 0.09, 0.4]),
        (Wall::Bottom, [0.22, 0.09, 0.0]),
    ] {
        let panel = body.wall(wall);
        let found = panel.frame.point(panel.holes[0].at, 0.0);
        for axis in 0..3 {
            let off = found[axis] - wanted[axis];
            assert!(off.abs() < 1e-12, "{wall:?}: {found:?} {wanted:?}");
        }
    }
}

#[test]
fn rounding_shows_on_the_panel_that_loses_wood() {
    let mut plan = plain(0.3, 0.4, 0.2, 0.018);
    let edge = Edge::between(Wall::Front, Wall::Left).unwrap();
    plan.edges = vec![(edge, EdgeForm::Round(0.006))];
    let body = made(&plan);
    let forms = |wall: Wall| {
        body.wall(wall)
            .edges
            .iter()
            .filter(|e| e.form.is_some())
            .count()
    };
    assert_eq!((forms(Wall::Front), forms(Wall::Left)), (1, 0));
}
