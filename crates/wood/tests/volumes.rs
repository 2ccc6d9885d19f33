//! Volumes by three routes: the solid model, closed forms, and by hand for the plain box.

mod boxes;

use boxes::{any_box, boarded, forms, plain, usual};
use boxwright_wood::{
    Body, Edge, EdgeForm, Hole, Joint, Ledger, Outline, Plan, Purpose, Volumes, Wall,
};
use proptest::prelude::*;

/// Doubles lose about 1e-13 on the way; 1e-9 is far below any saw and far above that.
const SAME: f64 = 1e-9;

fn by_solid(plan: &Plan) -> Ledger {
    Ledger::of(&Body::new(plan).expect("the plan leaves a solid"))
}

fn check(plan: &Plan) {
    let (solid, closed) = (by_solid(plan), Volumes::of(plan));
    let scale = solid.block;
    let same = |what: &str, a: f64, b: f64| {
        assert!(
            (a - b).abs() <= SAME * scale,
            "{what}: {a} by solid, {b} closed"
        );
    };
    same("room", solid.room, closed.room);
    for wall in Wall::ALL {
        let k = wall.index();
        same(&format!("{wall:?}"), solid.walls[k], closed.walls[k]);
        same(
            &format!("holes of {wall:?}"),
            solid.holes[k],
            closed.holes[k],
        );
    }
    assert_eq!(solid.boards.len(), closed.boards.len());
    for (k, (a, b)) in solid.boards.iter().zip(&closed.boards).enumerate() {
        same(&format!("board {k}"), *a, *b);
    }
    same("wood", solid.wood(), closed.wood());
    same("air", solid.air(), closed.air());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn solid_and_closed_forms_agree(plan in any_box()) {
        check(&plan);
    }

    #[test]
    fn so_they_do_with_boards_and_windows(plan in boarded()) {
        check(&plan);
    }

    /// What is left is that facets meet at corners otherwise than cylinders, and who owns
    /// the wood there.
    #[test]
    fn formed_edges_agree_on_upright_boxes(plan in usual(), forms in forms(0.006)) {
        let plan = Plan { edges: forms, ..plan };
        let (solid, closed) = (by_solid(&plan), Volumes::of(&plan));
        prop_assert_eq!(solid.open, 0.0);
        let sum = |walls: [f64; 6]| walls.iter().sum::<f64>();
        let (a, b) = (sum(solid.walls), sum(closed.walls));
        let removed = solid.edges;
        prop_assert!((a - b).abs() < 0.02 * removed + 1e-12, "{} {}", a - b, removed);
        for (a, b) in solid.walls.into_iter().zip(closed.walls) {
            prop_assert!((a - b).abs() < 1e-3 * a, "{} of {}", a - b, a);
        }
    }

    /// One edge alone has no such corners.
    #[test]
    fn one_formed_edge_agrees(plan in usual(), forms in forms(0.006)) {
        let plan = Plan { edges: forms.into_iter().take(1).collect(), ..plan };
        check(&plan);
    }
}

#[test]
fn a_plain_box_is_what_anyone_gets_by_hand() {
    let (width, height, depth, thick) = (0.32, 0.21, 0.18, 0.012);
    let plan = plain(width, height, depth, thick);
    let closed = Volumes::of(&plan);
    let room = (width - 2.0 * thick) * (height - 2.0 * thick) * (depth - 2.0 * thick);
    let front = width * height * thick;
    let top = width * (depth - 2.0 * thick) * thick;
    let side = (height - 2.0 * thick) * (depth - 2.0 * thick) * thick;
    let wanted = [front, front, side, side, top, top];
    assert!((closed.room - room).abs() < 1e-15);
    for (found, wanted) in closed.walls.into_iter().zip(wanted) {
        assert!((found - wanted).abs() < 1e-15, "{found} {wanted}");
    }
    assert!((closed.wood() + room - width * height * depth).abs() < 1e-15);
}

#[test]
fn a_driver_in_its_pocket_takes_two_cylinders() {
    let mut plan = plain(0.3, 0.3, 0.3, 0.018);
    let hole = |diameter: f64, pocket: Option<f64>| Hole {
        wall: Wall::Front,
        at: [0.15, 0.15],
        outline: Outline::Circle { diameter },
        pocket,
        purpose: Purpose::Driver,
        label: String::new(),
    };
    plan.holes = vec![hole(0.1, None), hole(0.12, Some(0.004))];
    let quarter = 0.25 * core::f64::consts::PI;
    let wanted = quarter * (0.12 * 0.12 * 0.004 + 0.1 * 0.1 * 0.014);
    assert!((Volumes::of(&plan).holes[0] - wanted).abs() < 1e-15);
    check(&plan);
}

/// Under the thin outer layer that a deep rebate leaves, the wall at the edge's end begins.
#[test]
fn a_chamfer_may_go_through_what_a_rebate_leaves() {
    let mut plan = plain(0.15, 0.15, 0.15, 0.006);
    for joint in &mut plan.joints {
        if let Joint::Butt { through } = *joint {
            *joint = Joint::Rebate {
                within: through,
                depth: 0.0046,
            };
        }
    }
    for edge in Edge::ALL {
        for form in [EdgeForm::Chamfer(0.0042), EdgeForm::Round(0.005)] {
            plan.edges = vec![(edge, form)];
            check(&plan);
        }
    }
}
