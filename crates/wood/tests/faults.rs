//! What is wrong with a plan is found, all at once, with numbers that mend it.

mod boxes;

use boxes::{mitred, plain};
use boxwright_wood::{
    Board, BoardKind, Body, Edge, EdgeForm, Fault, Hole, Joint, Measure, Outline, PanelId, Plan,
    Purpose, Wall, Window,
};

fn box_of_plates() -> Plan {
    plain(0.3, 0.4, 0.2, 0.02)
}

fn hole(at: [f64; 2], diameter: f64) -> Hole {
    Hole {
        wall: Wall::Front,
        at,
        outline: Outline::Circle { diameter },
        pocket: None,
        purpose: Purpose::Driver,
        label: String::from("a hole"),
    }
}

fn board(low: [f64; 3], high: [f64; 3], across: usize, windows: Vec<Window>) -> Board {
    Board {
        name: String::from("brace"),
        kind: BoardKind::Brace,
        low,
        high,
        across,
        windows,
    }
}

fn edge(a: Wall, b: Wall) -> Edge {
    Edge::between(a, b).expect("they meet")
}

fn faults(plan: &Plan) -> Vec<Fault> {
    match Body::new(plan) {
        Ok(body) => body.faults,
        Err(faults) => faults,
    }
}

fn with_holes(holes: Vec<Hole>) -> Plan {
    Plan {
        holes,
        ..box_of_plates()
    }
}

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() < 1e-9
}

fn near2(found: Option<[f64; 2]>, wanted: [f64; 2]) -> bool {
    found.is_some_and(|found| near(found[0], wanted[0]) && near(found[1], wanted[1]))
}

#[test]
fn a_sound_plan_has_none() {
    let mut plan = with_holes(vec![hole([0.15, 0.2], 0.1), hole([0.15, 0.08], 0.05)]);
    plan.boards = vec![board([0.0, 0.09, 0.0], [0.3, 0.1, 0.4], 1, vec![])];
    plan.edges = vec![(edge(Wall::Front, Wall::Top), EdgeForm::Round(0.01))];
    assert_eq!(faults(&plan), []);
}

#[test]
fn walls_thicker_than_the_box_leave_no_inside() {
    let plan = plain(0.3, 0.4, 0.03, 0.02);
    let found = faults(&plan);
    let [Fault::NoInside { between, by }] = found[..] else {
        panic!("{found:?}");
    };
    assert_eq!(between, [Wall::Front, Wall::Back]);
    assert!(near(by, 0.01));
    let mut flat = plain(0.03, 0.03, 0.03, 0.02);
    assert_eq!(faults(&flat).len(), 3, "all pairs at once");
    flat.block.width = f64::NAN;
    let found = faults(&flat);
    assert!(matches!(
        found[..],
        [Fault::Measure {
            what: Measure::Width,
            ..
        }]
    ));
}

#[test]
fn what_leans_too_far_closes_no_box() {
    let mut plan = box_of_plates();
    plan.block.front_lean = 0.5;
    let found = faults(&plan);
    assert!(
        found
            .iter()
            .any(|fault| matches!(fault, Fault::LeansMeet { by } if *by > 0.01)),
        "{found:?}"
    );
}

#[test]
fn a_setback_deeper_than_the_box_is_named_as_such() {
    let mut plan = box_of_plates();
    plan.walls[Wall::Front.index()].setback = 0.17;
    let found = faults(&plan);
    let [Fault::Setback { wall, by }] = found[..] else {
        panic!("{found:?}");
    };
    assert_eq!(wall, Wall::Front);
    assert!(near(by, 0.01));
}

#[test]
fn a_step_must_leave_wood() {
    let mut plan = box_of_plates();
    plan.joints[0] = Joint::Rebate {
        within: Wall::Left,
        depth: 0.025,
    };
    let found = faults(&plan);
    let [Fault::Step { within, by, .. }] = found[..] else {
        panic!("{found:?}");
    };
    assert_eq!(within, Wall::Left);
    assert!(near(by, 0.005));
}

#[test]
fn a_hole_over_the_edge_says_how_to_move_back() {
    let found = faults(&with_holes(vec![hole([0.28, 0.2], 0.1)]));
    let [
        Fault::HoleOff {
            hole: 0,
            towards: Wall::Right,
            by,
            shift,
        },
    ] = found[..]
    else {
        panic!("{found:?}");
    };
    assert!(near(by, 0.03));
    assert!(
        near2(shift, [-0.05, 0.0]),
        "clear of the wall's end behind, too: {shift:?}"
    );
}

#[test]
fn a_hole_larger_than_its_panel_has_no_place() {
    let found = faults(&with_holes(vec![hole([0.15, 0.2], 0.32)]));
    assert!(
        matches!(found[..], [Fault::HoleOff { shift: None, .. }]),
        "{found:?}"
    );
}

#[test]
fn a_hole_before_the_end_of_a_wall_is_blocked_but_a_screw_is_not() {
    let mut low = hole([0.15, 0.06], 0.1);
    let found = faults(&with_holes(vec![low.clone()]));
    let [
        Fault::HoleBlocked {
            by: PanelId::Wall(Wall::Bottom),
            depth,
            shift,
            ..
        },
    ] = found[..]
    else {
        panic!("{found:?}");
    };
    assert!(near(depth, 0.01) && near2(shift, [0.0, 0.01]));
    low.purpose = Purpose::Fastening;
    assert_eq!(faults(&with_holes(vec![low])), []);
}

#[test]
fn a_hole_over_a_mitre_leaves_its_panel() {
    let plan = mitred(with_holes(vec![hole([0.15, 0.06], 0.1)]));
    let found = faults(&plan);
    let [Fault::HoleOff { towards, by, .. }] = found[..] else {
        panic!("{found:?}");
    };
    assert_eq!(towards, Wall::Bottom);
    assert!(near(by, 0.01));
}

#[test]
fn a_pocket_keeps_off_the_rounding() {
    let mut pocket = hole([0.055, 0.2], 0.1);
    pocket.pocket = Some(0.005);
    let mut plan = with_holes(vec![pocket]);
    assert_eq!(faults(&plan), []);
    plan.edges = vec![(edge(Wall::Front, Wall::Left), EdgeForm::Round(0.008))];
    let found = faults(&plan);
    let [Fault::HoleOff { by, shift, .. }] = found[..] else {
        panic!("{found:?}");
    };
    assert!(near(by, 0.003) && near2(shift, [0.003, 0.0]));
}

#[test]
fn a_brace_behind_a_hole_blocks_it() {
    let mut plan = with_holes(vec![hole([0.15, 0.2], 0.1)]);
    plan.boards = vec![board([0.0, 0.0, 0.24], [0.3, 0.2, 0.26], 2, vec![])];
    let found = faults(&plan);
    let [
        Fault::HoleBlocked {
            by: PanelId::Board(0),
            depth,
            shift,
            ..
        },
    ] = found[..]
    else {
        panic!("{found:?}");
    };
    assert!(near(depth, 0.01) && near2(shift, [0.0, -0.01]), "{found:?}");
}

#[test]
fn holes_that_meet_are_told_apart_from_holes_in_pockets() {
    let mut pocket = hole([0.15, 0.2], 0.12);
    pocket.pocket = Some(0.005);
    let plan = with_holes(vec![
        hole([0.15, 0.2], 0.1),
        pocket,
        hole([0.15, 0.3], 0.09),
    ]);
    let found = faults(&plan);
    let [
        Fault::HolesOverlap {
            holes: [1, 2],
            by,
            away,
        },
    ] = found[..]
    else {
        panic!("{found:?}");
    };
    assert!(near(by, 0.005) && near(away[1], 1.0));
    let mut deep = hole([0.15, 0.2], 0.1);
    deep.pocket = Some(0.02);
    let found = faults(&with_holes(vec![deep]));
    assert!(
        matches!(found[..], [Fault::Pocket { hole: 0, .. }]),
        "{found:?}"
    );
}

#[test]
fn rounding_larger_than_its_wall_and_through_the_glue_line() {
    let mut plan = box_of_plates();
    plan.edges = vec![(edge(Wall::Front, Wall::Top), EdgeForm::Round(0.024))];
    let found = faults(&plan);
    let [Fault::Form { form: 0, most, by }] = found[..] else {
        panic!("{found:?}");
    };
    assert!(near(most, 0.02) && near(by, 0.004));
    plan.edges[0].1 = EdgeForm::Chamfer(0.05);
    let found = faults(&plan);
    let [Fault::Form { .. }, Fault::GlueLine { most, .. }] = found[..] else {
        panic!("{found:?}");
    };
    assert!((most - 0.04).abs() < 1e-6, "both walls' thickness: {most}");
}

#[test]
fn boards_and_their_windows() {
    let mut plan = box_of_plates();
    let window = |low: [f64; 2], high: [f64; 2]| Window {
        low,
        high,
        corner: 0.0,
    };
    plan.boards = vec![
        board([-0.05, 0.05, 0.05], [-0.01, 0.1, 0.1], 0, vec![]),
        board(
            [0.0, 0.15, 0.0],
            [0.3, 0.16, 0.4],
            1,
            vec![
                window([0.05, 0.05], [0.29, 0.2]),
                window([0.1, 0.1], [0.2, 0.3]),
            ],
        ),
    ];
    let found = faults(&plan);
    let [
        Fault::BoardOff {
            board: 0,
            beyond: Wall::Left,
            by: off,
        },
        Fault::NoBoard { board: 0 },
        Fault::Window {
            board: 1,
            window: 0,
            by: over,
        },
        Fault::WindowsOverlap {
            windows: [0, 1], ..
        },
    ] = found[..]
    else {
        panic!("{found:?}");
    };
    assert!(near(off, 0.05) && near(over, 0.01), "{found:?}");
}
