//! Gaps against plain arithmetic, and what must hold for any solids.

use crate::boxes::{plain, with_hole};
use boxwright_wood::vector::{Vector, add, length, scale, sub, unit};
use boxwright_wood::{Gap, Other, Outline, PanelId, Part, Pose, Shape, Solid, Wall, gaps};
use proptest::prelude::*;

fn part(shape: Shape, pose: Pose) -> Part {
    Part {
        name: "part".into(),
        shape,
        pose,
        sits_in: None,
    }
}

fn between(gaps: &[Gap], b: Other) -> Gap {
    let found = gaps.iter().find(|gap| gap.a == 0 && gap.b == b && !gap.air);
    *found.expect("every pair has a gap")
}

fn pair(a: Part, b: Part) -> Gap {
    let body = plain([10.0, 10.0, 10.0], 0.02);
    between(&gaps(&body, &[a, b]), Other::Part(1))
}

fn check(gap: Gap, wanted: f64, away: Vector) {
    assert!((gap.gap - wanted).abs() < 1e-9, "{gap:?}, wanted {wanted}");
    assert!(
        length(sub(gap.away, away)) < 1e-6,
        "{gap:?}, wanted {away:?}"
    );
}

#[test]
fn blocks_beside_and_in_each_other() {
    let block = |x: f64| part(Shape::block([0.2, 0.1, 0.1]), Pose::at([x, 5.0, 5.0]));
    check(pair(block(5.0), block(5.25)), 0.05, [-1.0, 0.0, 0.0]);
    check(pair(block(5.0), block(4.75)), 0.05, [1.0, 0.0, 0.0]);
    check(pair(block(5.0), block(5.19)), -0.01, [-1.0, 0.0, 0.0]);
    let touching = pair(block(5.0), block(5.2));
    assert!(touching.gap.abs() < 1e-9, "{touching:?}");
}

#[test]
fn what_touches_gains_gap_square_to_the_contact() {
    // The hole parts the bottom into pieces, some of which the block touches over an edge only.
    let body = plain([0.5, 0.3, 0.4], 0.02);
    let hole = Outline::Circle { diameter: 0.03 };
    let body = with_hole(body, Wall::Bottom, [0.2, 0.1], hole);
    let bottom = Other::Panel(PanelId::Wall(Wall::Bottom));
    for x in [0.12, 0.165, 0.2, 0.235, 0.4] {
        let lying = part(Shape::block([0.1, 0.06, 0.04]), Pose::at([x, 0.15, 0.04]));
        check(
            between(&gaps(&body, &[lying]), bottom),
            0.0,
            [0.0, 0.0, 1.0],
        );
    }
    let block = |x: f64| part(Shape::block([0.2, 0.1, 0.1]), Pose::at([x, 5.0, 5.0]));
    check(pair(block(5.0), block(5.2)), 0.0, [-1.0, 0.0, 0.0]);
}

#[test]
fn cylinders_and_cones_are_exact() {
    let upright = |x: f64| part(Shape::cylinder(0.1, 0.3), Pose::at([x, 5.0, 5.0]));
    check(pair(upright(5.0), upright(5.13)), 0.03, [-1.0, 0.0, 0.0]);
    check(pair(upright(5.0), upright(5.08)), -0.02, [-1.0, 0.0, 0.0]);
    // A cone of 45° whose tip points at a wall of another: the side meets the corner edge.
    let cone = Shape::of(vec![Solid::Frustum {
        from: [0.0; 3],
        to: [0.0, 0.0, 0.1],
        from_radius: 0.1,
        to_radius: 0.0,
    }]);
    let cone = part(cone, Pose::at([5.0, 5.0, 5.0]));
    let corner = part(Shape::block([0.1, 0.1, 0.1]), Pose::at([5.15, 5.0, 5.15]));
    // The edge at x = 5.1, z = 5.1 lies (0.1 + 0.1 − 0.1) / √2 off the flank.
    let root = 0.5_f64.sqrt();
    check(pair(cone, corner), 0.1 * root, [-root, 0.0, -root]);
}

#[test]
fn gaps_to_walls_and_beyond_them() {
    let body = plain([0.5, 0.3, 0.4], 0.02);
    let block = part(Shape::block([0.1, 0.1, 0.1]), Pose::at([0.08, 0.15, 0.2]));
    let found = gaps(&body, &[block]);
    let left = between(&found, Other::Panel(PanelId::Wall(Wall::Left)));
    check(left, 0.01, [1.0, 0.0, 0.0]);
    let front = between(&found, Other::Panel(PanelId::Wall(Wall::Front)));
    check(front, 0.08, [0.0, 1.0, 0.0]);
    assert!(found.iter().all(|gap| !matches!(gap.b, Other::Outside(_))));
    let through = part(Shape::block([0.1, 0.1, 0.1]), Pose::at([0.065, 0.15, 0.2]));
    let found = gaps(&body, &[through]);
    let left = between(&found, Other::Panel(PanelId::Wall(Wall::Left)));
    check(left, -0.005, [1.0, 0.0, 0.0]);
    check(
        between(&found, Other::Outside(Wall::Left)),
        -0.005,
        [1.0, 0.0, 0.0],
    );
}

#[test]
fn a_part_may_stick_through_a_hole() {
    let body = plain([0.5, 0.3, 0.4], 0.02);
    let outline = Outline::Rectangle {
        width: 0.12,
        height: 0.10,
        corner: 0.0,
    };
    let body = with_hole(body, Wall::Front, [0.2, 0.2], outline);
    let block = part(Shape::block([0.1, 0.2, 0.06]), Pose::at([0.225, 0.1, 0.22]));
    let front = between(
        &gaps(&body, &[block]),
        Other::Panel(PanelId::Wall(Wall::Front)),
    );
    // The hole runs from x = 0.16 to 0.28, the block from 0.175 to 0.275.
    check(front, 0.005, [-1.0, 0.0, 0.0]);
    let block = part(Shape::block([0.1, 0.2, 0.06]), Pose::at([0.235, 0.1, 0.22]));
    let front = between(
        &gaps(&body, &[block]),
        Other::Panel(PanelId::Wall(Wall::Front)),
    );
    check(front, -0.005, [-1.0, 0.0, 0.0]);
}

#[test]
fn a_round_hole_is_true_to_a_tenth_of_a_millimetre() {
    let body = plain([0.5, 0.3, 0.4], 0.02);
    let outline = Outline::Circle { diameter: 0.115 };
    let body = with_hole(body, Wall::Front, [0.23, 0.18], outline);
    let axis = [[0.0, -0.1, 0.0], [0.0, 0.1, 0.0]];
    let shape = Shape::of(vec![Solid::cylinder(axis[0], axis[1], 0.055)]);
    let part = part(shape, Pose::at([0.25, 0.01, 0.2]));
    let front = between(
        &gaps(&body, &[part]),
        Other::Panel(PanelId::Wall(Wall::Front)),
    );
    assert!(
        front.gap <= 0.0025 + 1e-9 && front.gap > 0.0025 - 1e-4,
        "{front:?}"
    );
}

#[test]
fn a_pocket_has_a_bottom() {
    let outline = Outline::Circle { diameter: 0.1 };
    let mut body = with_hole(
        plain([0.5, 0.3, 0.4], 0.02),
        Wall::Front,
        [0.23, 0.18],
        outline,
    );
    body.panels[Wall::Front.index()].holes[0].pocket = Some(0.006);
    let before = |y: f64| {
        let block = part(Shape::block([0.05, 0.02, 0.05]), Pose::at([0.25, y, 0.2]));
        between(
            &gaps(&body, &[block]),
            Other::Panel(PanelId::Wall(Wall::Front)),
        )
    };
    check(before(-0.01), 0.006, [0.0, -1.0, 0.0]);
    check(before(-0.001), -0.003, [0.0, -1.0, 0.0]);
    check(before(0.04), 0.01, [0.0, 1.0, 0.0]);
}

#[test]
fn air_to_keep_free_counts_where_it_is_nearer() {
    let body = plain([1.0, 1.0, 1.0], 0.02);
    let warm = part(
        Shape {
            keep_free: Shape::block([0.16; 3]).solids,
            ..Shape::block([0.1; 3])
        },
        Pose::at([0.3, 0.5, 0.5]),
    );
    let other = part(Shape::block([0.1, 0.1, 0.1]), Pose::at([0.42, 0.5, 0.5]));
    let found = gaps(&body, &[warm, other]);
    check(between(&found, Other::Part(1)), 0.02, [-1.0, 0.0, 0.0]);
    let air = found.iter().find(|gap| gap.air && gap.b == Other::Part(1));
    check(*air.unwrap(), -0.01, [-1.0, 0.0, 0.0]);
}

#[test]
fn a_part_of_many_solids_clears_in_one_move() {
    let fork = Shape::of(vec![
        Solid::block([0.0, 0.0, 0.0], [0.3, 0.05, 0.05]),
        Solid::block([0.0, 0.0, 0.2], [0.3, 0.05, 0.25]),
        Solid::block([0.0, 0.0, 0.0], [0.05, 0.05, 0.25]),
    ]);
    // A bar between the tines, a little too thick: out along the tines or across them.
    let bar = part(
        Shape::block([0.2, 0.3, 0.152]),
        Pose::at([5.25, 5.025, 5.125]),
    );
    let gap = pair(part(fork.clone(), Pose::at([5.0, 5.0, 5.0])), bar.clone());
    let moved = part(fork, Pose::at(gap.cleared([5.0, 5.0, 5.0], 0.0)));
    assert!(gap.gap < 0.0);
    assert!(pair(moved, bar).gap > -1e-7);
}

fn any_solid() -> impl Strategy<Value = Solid> {
    let point = prop::array::uniform3(-0.1..0.1_f64);
    let hull = prop::collection::vec(point, 4..12).prop_map(Solid::Hull);
    let side = 0.01..0.1_f64;
    let block =
        prop::array::uniform3(side.clone()).prop_map(|half| Solid::block(scale(half, -1.0), half));
    let round =
        (side.clone(), side.clone(), 0.0..0.1_f64).prop_map(|(half, from, to)| Solid::Frustum {
            from: [0.0, 0.0, -half],
            to: [0.0, 0.0, half],
            from_radius: from,
            to_radius: to,
        });
    prop_oneof![hull, block, round]
}

fn any_pose(reach: f64) -> impl Strategy<Value = Pose> {
    let at = prop::array::uniform3(-reach..reach).prop_map(|at| add(at, [5.0; 3]));
    let quarters = 0..Pose::right_angles().len();
    let tilt = (prop::array::uniform3(-1.0..1.0_f64), -3.0..3.0_f64);
    let turn = prop_oneof![
        quarters.prop_map(|i| Pose::right_angles()[i]),
        tilt.prop_map(|(axis, angle)| Pose::about(unit(add(axis, [1e-3; 3])), angle)),
    ];
    (turn, at).prop_map(|(turn, at)| Pose { turn, at })
}

proptest! {
    #[test]
    fn a_gap_is_the_same_from_both_sides_and_everywhere(
        (a, b) in (any_solid(), any_solid()),
        (first, second) in (any_pose(0.15), any_pose(0.15)),
        by in prop::array::uniform3(-1.0..1.0_f64),
    ) {
        let one = part(Shape::of(vec![a]), first);
        let other = part(Shape::of(vec![b]), second);
        let there = |part: &Part| Part {
            pose: Pose { turn: part.pose.turn, at: add(part.pose.at, by) },
            ..part.clone()
        };
        let gap = pair(one.clone(), other.clone()).gap;
        let back = pair(other.clone(), one.clone()).gap;
        let moved = pair(there(&one), there(&other)).gap;
        prop_assert!((gap - back).abs() < 1e-7, "{gap} {back}");
        prop_assert!((gap - moved).abs() < 1e-7, "{gap} {moved}");
    }

    #[test]
    fn moving_along_the_way_clears_and_no_less_does(
        (a, b) in (any_solid(), any_solid()),
        (first, second) in (any_pose(0.05), any_pose(0.05)),
    ) {
        let one = part(Shape::of(vec![a]), first);
        let other = part(Shape::of(vec![b]), second);
        let gap = pair(one.clone(), other.clone());
        prop_assume!(gap.gap < -1e-4);
        let at = |by: f64| {
            let pose = Pose { turn: first.turn, at: add(first.at, scale(gap.away, by)) };
            pair(Part { pose, ..one.clone() }, other.clone()).gap
        };
        prop_assert!(at(-gap.gap).abs() < 1e-7, "{}", at(-gap.gap));
        prop_assert!((at(-gap.gap + 0.01) - 0.01).abs() < 1e-7);
        let half = at(-0.5 * gap.gap);
        prop_assert!((half - 0.5 * gap.gap).abs() < 1e-6, "{half} of {}", gap.gap);
    }
}
