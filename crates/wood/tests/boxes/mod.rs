//! Random plans of boxes.
#![allow(dead_code, reason = "each test file uses some of it")]

use boxwright_wood::{
    Block, Board, BoardKind, Edge, EdgeForm, Joint, Plan, Wall, WallPlan, Window,
};
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

/// Upright boxes as makers build them: one order in which walls run through, one kind of
/// joint throughout.
pub(crate) fn usual() -> impl Strategy<Value = Plan> {
    let order = Just([0_usize, 1, 2]).prop_shuffle();
    let sizes = [0.15..0.5, 0.15..0.5, 0.15..0.5_f64];
    let walls = prop::array::uniform6(0.006..0.03);
    (sizes, order, walls, 0..3_u8, 0.2..0.8).prop_map(
        |([width, height, depth], order, walls, kind, share)| {
            let mut plan = plain(width, height, depth, 0.0);
            for (wall, thickness) in plan.walls.iter_mut().zip(walls) {
                wall.thickness = thickness;
            }
            plan.joints = Edge::ALL.map(|edge| {
                let [a, b] = [edge.first, edge.second].map(|wall| order[wall.index() / 2]);
                let through = if a < b { edge.first } else { edge.second };
                match kind {
                    0 => Joint::Butt { through },
                    1 => Joint::Mitre,
                    _ => Joint::Rebate {
                        within: through,
                        depth: share * plan.walls[through.index()].thickness,
                    },
                }
            });
            plan
        },
    )
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

fn board(block: Block) -> impl Strategy<Value = Board> {
    let size = [block.width, block.depth, block.height];
    let corner = [0, 1, 2].map(|axis| -0.02..0.8 * size[axis]);
    let sides = [0.005..0.1, 0.01..0.5, 0.01..0.5_f64];
    let window = prop::option::weighted(0.6, [0.1..0.45, 0.1..0.45, 0.0..1.0_f64]);
    (corner, 0..3_usize, sides, window).prop_map(|(low, across, sides, window)| {
        let axes = [across, (across + 1) % 3, (across + 2) % 3];
        let mut high = low;
        for (axis, side) in axes.into_iter().zip(sides) {
            high[axis] += side;
        }
        let along: Vec<usize> = (0..3).filter(|axis| *axis != across).collect();
        let windows = window.into_iter().map(|[a, b, corner]| {
            let margin = [0, 1].map(|k| [a, b][k] * (high[along[k]] - low[along[k]]));
            let from = [0, 1].map(|k| low[along[k]] + margin[k]);
            let to = [0, 1].map(|k| high[along[k]] - margin[k]);
            let short = (to[0] - from[0]).min(to[1] - from[1]);
            Window {
                low: from,
                high: to,
                // Sharp, or round as a tool leaves it.
                corner: Some(0.5 * short * corner)
                    .filter(|corner| *corner > 0.001)
                    .unwrap_or(0.0),
            }
        });
        Board {
            name: String::from("board"),
            kind: BoardKind::Brace,
            low,
            high,
            across,
            windows: windows.collect(),
        }
    })
}

/// A box with some boards inside that may run into one another and into walls.
pub(crate) fn boarded() -> impl Strategy<Value = Plan> {
    any_box().prop_flat_map(|plan| {
        prop::collection::vec(board(plan.block), 0..5).prop_map(move |boards| Plan {
            boards,
            ..plan.clone()
        })
    })
}
