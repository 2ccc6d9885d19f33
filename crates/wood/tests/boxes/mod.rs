//! Random plans of boxes.
#![allow(dead_code, reason = "each test file uses some of it")]

use boxwright_wood::{Block, Edge, EdgeForm, Joint, Plan, Wall, WallPlan};
use proptest::prelude::*;

/// A plain box: front and back overlaid, top and bottom over the sides.
pub(crate) fn plain(width: f64, height: f64, depth: f64, thickness: f64) -> Plan {
    let through = |edge: &Edge| match (edge.first, edge.second) {
        (front @ (Wall::Front | Wall::Back), _) => front,
        (_, other) => other,
    };
    Plan {
        block: Block {
            width,
            height,
            depth,
            front_lean: 0.0,
            back_lean: 0.0,
        },
        walls: [WallPlan {
            thickness,
            setback: 0.0,
        }; 6],
        joints: Edge::ALL.map(|edge| Joint::Butt {
            through: through(&edge),
        }),
        edges: Vec::new(),
        holes: Vec::new(),
        boards: Vec::new(),
    }
}

pub(crate) fn mitred(mut plan: Plan) -> Plan {
    plan.joints = [Joint::Mitre; 12];
    plan
}

fn joint(edge: Edge, walls: [WallPlan; 6]) -> impl Strategy<Value = Joint> {
    let step = move |within: Wall| {
        (0.1..0.9).prop_map(move |share: f64| Joint::Rebate {
            within,
            depth: share * walls[within.index()].thickness,
        })
    };
    prop_oneof![
        Just(Joint::Butt {
            through: edge.first
        }),
        Just(Joint::Butt {
            through: edge.second
        }),
        Just(Joint::Mitre),
        step(edge.first),
        step(edge.second),
    ]
}

fn wall() -> impl Strategy<Value = WallPlan> {
    let setback = prop_oneof![3 => Just(0.0), 1 => 0.002..0.02];
    (0.006..0.03, setback).prop_map(|(thickness, setback)| WallPlan { thickness, setback })
}

pub(crate) fn block() -> impl Strategy<Value = Block> {
    let lean = || prop_oneof![1 => Just(0.0), 2 => -0.1..0.25_f64];
    (0.15..0.6, 0.15..0.6, 0.3..0.6, lean(), lean()).prop_map(
        |(width, height, depth, front_lean, back_lean)| Block {
            width,
            height,
            depth,
            front_lean,
            back_lean,
        },
    )
}

/// Any mixture of joints, thicknesses, leans and setbacks that leaves some room.
pub(crate) fn any_box() -> impl Strategy<Value = Plan> {
    (block(), prop::array::uniform6(wall()))
        .prop_flat_map(|(block, walls)| {
            let joints = Edge::ALL.map(|edge| joint(edge, walls));
            joints.prop_map(move |joints| Plan {
                block,
                walls,
                joints,
                edges: Vec::new(),
                holes: Vec::new(),
                boards: Vec::new(),
            })
        })
        .prop_filter("leaves room", |plan| {
            boxwright_wood::Body::new(plan).is_ok()
        })
}

/// Some outer edges rounded or chamfered by no more than the thinnest wall.
pub(crate) fn forms(most: f64) -> impl Strategy<Value = Vec<(Edge, EdgeForm)>> {
    let form = prop_oneof![
        (0.001..most).prop_map(EdgeForm::Round),
        (0.001..most).prop_map(EdgeForm::Chamfer),
    ];
    prop::sample::subsequence(Edge::ALL.to_vec(), 0..=12).prop_flat_map(move |edges| {
        let count = edges.len();
        prop::collection::vec(form.clone(), count)
            .prop_map(move |forms| edges.iter().copied().zip(forms).collect())
    })
}
