//! Distances against general libraries: whether solids meet, by a collision library, and how far
//! they are apart, by a solver of second-order cone programs (keys `python-fcl`, `clarabel`).

use boxwright_wood::vector::{add, dot, scale};
use boxwright_wood::{Body, Other, Part, Pose, Shape, Solid, gaps};

/// Nine digits are written; both ways of computing stop within less.
const TOLERANCE: f64 = 1e-8;
/// The collision library calls solids apart or not within a micrometre of touching.
const MEETING: f64 = 1e-6;

fn solid(kind: &str, size: &[f64]) -> Shape {
    let half = 0.5 * size[1];
    let about_z = |to_radius: f64| {
        Shape::of(vec![Solid::Frustum {
            from: [0.0, 0.0, -half],
            to: [0.0, 0.0, half],
            from_radius: size[0],
            to_radius,
        }])
    };
    match kind {
        "block" => Shape::block([size[0], size[1], size[2]]),
        "cylinder" => about_z(size[0]),
        "cone" => about_z(0.0),
        other => panic!("{other}"),
    }
}

fn turn(q: &[f64]) -> Pose {
    let axis = [q[1], q[2], q[3]];
    let long = dot(axis, axis).sqrt();
    let angle = 2.0 * libm::atan2(long, q[0]);
    let axis = if long > 0.0 {
        scale(axis, 1.0 / long)
    } else {
        [1.0, 0.0, 0.0]
    };
    Pose {
        turn: Pose::about(axis, angle),
        at: [0.0; 3],
    }
}

fn part(shape: Shape, pose: Pose) -> Part {
    Part {
        name: String::new(),
        shape,
        pose,
        sits_in: None,
    }
}

fn distance(body: &Body, row: &[&str]) -> f64 {
    let number = |i: usize| row[i].parse::<f64>().expect("a number");
    let mm = |i: usize| 0.001 * number(i);
    let first = solid(row[0], &[mm(1), mm(2), mm(3)]);
    let second = solid(row[4], &[mm(5), mm(6), mm(7)]);
    let middle = [5.0; 3];
    let turned = turn(&[number(8), number(9), number(10), number(11)]);
    let pose = Pose {
        at: add(middle, [mm(12), mm(13), mm(14)]),
        ..turned
    };
    let parts = [part(first, Pose::at(middle)), part(second, pose)];
    let found = gaps(body, &parts);
    let gap = found.iter().find(|gap| gap.b == Other::Part(1));
    gap.expect("the two have a gap").gap
}

#[test]
fn ten_thousand_pairs_stand_to_each_other_as_libraries_find() {
    let text = include_str!("../../../../reference/solid_distances.csv");
    let body = Body {
        panels: Vec::new(),
        ..crate::boxes::plain([10.0, 10.0, 10.0], 0.02)
    };
    let rows = text.lines().filter(|line| !line.starts_with(['#', 'f']));
    let (mut count, mut overlapping, mut worst) = (0, 0, 0.0_f64);
    for line in rows {
        let row: Vec<&str> = line.split(',').collect();
        let meet = row[15] == "1";
        let wanted: f64 = row[16].parse().unwrap();
        let got = distance(&body, &row);
        assert!(meet == (got < 0.0) || got.abs() < MEETING, "{line}: {got}");
        let off = if meet { 0.0 } else { (got - wanted).abs() };
        assert!(off < TOLERANCE, "{line}: {got}");
        worst = worst.max(off);
        count += 1;
        overlapping += usize::from(got < 0.0);
    }
    assert_eq!(count, 10_000);
    assert!(overlapping > 2_000 && overlapping < 8_000, "{overlapping}");
    println!("largest difference {worst:.1e} m, {overlapping} overlap");
}
