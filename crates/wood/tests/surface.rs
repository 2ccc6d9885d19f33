//! Surfaces of panels are closed, face outwards, and hold what the panel's wood takes.

mod boxes;

use std::collections::BTreeMap;

use boxes::{any_box, boarded, forms, plain};
use boxwright_wood::vector::{cross, dot, length, sub};
use boxwright_wood::{
    Board, BoardKind, Body, Fault, Hole, Mesh, Outline, Panel, Plan, Purpose, Surface, Wall, Window,
};
use proptest::prelude::*;

/// Chord error of the meshes, in m.
const CHORD: f64 = 1e-5;

/// Every directed edge has its opposite, as often as it stands there itself, and no more
/// than once: a closed two-manifold.
fn check_closed(mesh: &Mesh) {
    let mut edges: BTreeMap<(usize, usize), i32> = BTreeMap::new();
    for [a, b, c] in &mesh.triangles {
        assert!(a != b && b != c && c != a, "a triangle of one corner twice");
        for edge in [(*a, *b), (*b, *c), (*c, *a)] {
            *edges.entry(edge).or_default() += 1;
        }
    }
    for ((a, b), count) in &edges {
        let back = edges.get(&(*b, *a)).copied().unwrap_or(0);
        assert_eq!(*count, back, "edge {a} {b}");
    }
}

/// No triangle is turned against its face: their areas add up to those of the faces.
fn check_areas(surface: &Surface, mesh: &Mesh) {
    let triangles: f64 = mesh
        .corners()
        .iter()
        .map(|[a, b, c]| 0.5 * length(cross(sub(*b, *a), sub(*c, *a))))
        .sum();
    let faces: f64 = surface
        .planar_faces()
        .iter()
        .map(|face| {
            let ring = |ring: &Vec<[f64; 3]>| {
                let fan = ring.windows(2).map(|pair| {
                    let out = cross(sub(pair[0], ring[0]), sub(pair[1], ring[0]));
                    0.5 * dot(out, face.plane.normal)
                });
                fan.sum::<f64>()
            };
            face.loops.iter().map(ring).sum::<f64>()
        })
        .sum();
    assert!(
        (triangles - faces).abs() < 1e-9 * faces,
        "{triangles} {faces}"
    );
}

fn check_planes(surface: &Surface) {
    for face in &surface.faces {
        for corner in face.loops.iter().flatten() {
            let off = face.plane.distance(surface.vertices[*corner]);
            assert!(off.abs() < 1e-7, "{off}");
        }
    }
}

/// Perimeter of all arcs, in m: chords stand within them by at most the chord error.
fn arcs(panel: &Panel) -> f64 {
    let round = |outline: &Outline| core::f64::consts::TAU * outline.corner();
    panel.holes.iter().map(|hole| round(&hole.outline)).sum()
}

fn check(panel: &Panel) {
    let surface = panel.surface(CHORD);
    let mesh = surface.mesh();
    check_planes(&surface);
    check_closed(&mesh);
    check_areas(&surface, &mesh);
    let off = mesh.volume() - panel.volume();
    let allowed = arcs(panel) * CHORD * panel.thickness + 1e-12;
    assert!(off.abs() <= allowed, "{}: {off} of {allowed}", panel.name);
    for edge in surface.edges() {
        assert!(length(sub(edge.ends[0], edge.ends[1])) > 1e-9);
    }
}

fn made(plan: &Plan) -> Body {
    Body::new(plan).expect("the plan leaves a solid")
}

fn hole() -> impl Strategy<Value = Hole> {
    let wall = prop::sample::select(Wall::ALL.to_vec());
    let outline = prop_oneof![
        (0.003..0.15).prop_map(|diameter| Outline::Circle { diameter }),
        (0.01..0.15, 0.01..0.15, 0.0..0.03).prop_map(|(width, height, corner)| {
            Outline::Rectangle {
                width,
                height,
                corner,
            }
        }),
    ];
    let pocket = prop::option::of(0.001..0.006);
    (wall, [0.0..0.5, 0.0..0.5_f64], outline, pocket).prop_map(|(wall, at, outline, pocket)| Hole {
        wall,
        at,
        outline,
        pocket,
        purpose: Purpose::Fastening,
        label: String::new(),
    })
}

/// The same plan with the holes that nothing is wrong with.
fn sound(plan: Plan) -> Plan {
    let faulty: Vec<usize> = made(&plan)
        .faults
        .iter()
        .flat_map(|fault| match *fault {
            Fault::HoleOff { hole, .. }
            | Fault::HoleBlocked { hole, .. }
            | Fault::Pocket { hole, .. } => vec![hole],
            Fault::HolesOverlap { holes, .. } => holes.to_vec(),
            _ => Vec::new(),
        })
        .collect();
    let indexed = plan.holes.iter().enumerate();
    let holes = indexed
        .filter(|(index, _)| !faulty.contains(index))
        .map(|(_, hole)| hole.clone())
        .collect();
    Plan { holes, ..plan }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn walls_of_any_box_are_closed(plan in any_box()) {
        made(&plan).panels.iter().for_each(check);
    }

    #[test]
    fn boards_are_closed_however_they_meet(plan in boarded()) {
        let body = made(&plan);
        body.boards().iter().filter(|board| !board.pieces.is_empty()).for_each(check);
    }

    #[test]
    fn holes_leave_walls_closed(plan in any_box(), holes in prop::collection::vec(hole(), 0..25)) {
        let plan = sound(Plan { holes, ..plan });
        made(&plan).panels.iter().for_each(check);
    }

    #[test]
    fn formed_edges_leave_walls_closed(plan in any_box(), forms in forms(0.006)) {
        made(&Plan { edges: forms, ..plan }).panels.iter().for_each(check);
    }
}

#[test]
fn seams_between_pieces_do_not_show() {
    let mut plan = plain(0.3, 0.4, 0.2, 0.02);
    for joint in &mut plan.joints {
        let boxwright_wood::Joint::Butt { through } = *joint else {
            continue;
        };
        *joint = boxwright_wood::Joint::Rebate {
            within: through,
            depth: 0.008,
        };
    }
    let body = made(&plan);
    let front = body.wall(Wall::Front);
    assert_eq!(front.pieces.len(), 2);
    // Front, back of the step and its floor, four sides of each of the two layers.
    assert_eq!(front.faces().len(), 11);
    assert!(front.outline_edges().iter().all(|edge| !edge.bend));
}

#[test]
fn a_round_hole_bends_and_a_square_one_has_corners() {
    let mut plan = plain(0.3, 0.4, 0.2, 0.02);
    let hole = |outline: Outline| Hole {
        wall: Wall::Front,
        at: [0.15, 0.2],
        outline,
        pocket: None,
        purpose: Purpose::Driver,
        label: String::new(),
    };
    let count = |plan: &Plan| {
        let body = made(plan);
        let edges = body.wall(Wall::Front).outline_edges();
        let bends = edges.iter().filter(|edge| edge.bend).count();
        (edges.len() - bends, bends)
    };
    plan.holes = vec![hole(Outline::Rectangle {
        width: 0.1,
        height: 0.1,
        corner: 0.0,
    })];
    assert_eq!(count(&plan), (12 + 12, 0));
    plan.holes = vec![hole(Outline::Circle { diameter: 0.1 })];
    let (sharp, bends) = count(&plan);
    assert_eq!(sharp, 12 + 2 * bends);
}

/// A window that ends just beside the rounded corner of another leaves a strip far thinner
/// than a hair, which is wood all the same.
#[test]
fn slivers_between_windows_stay_closed() {
    let corner = 0.0015;
    for apart in [2e-8, 5e-8, 1e-7, 3e-7, 1e-6, 1e-5] {
        let mut plan = plain(0.4, 0.3, 0.3, 0.012);
        let window = |low: [f64; 2], high: [f64; 2], corner: f64| Window { low, high, corner };
        let board = |low, high, across, window| Board {
            name: "board".into(),
            kind: BoardKind::Brace,
            low,
            high,
            across,
            windows: vec![window],
        };
        plan.boards = vec![
            board(
                [0.1, 0.1, 0.07],
                [0.4, 0.16, 0.13],
                2,
                window([0.15, 0.12], [0.35, 0.14], corner),
            ),
            board(
                [0.13, 0.1, 0.04],
                [0.15 + corner + 6e-6, 0.16, 0.15],
                0,
                window([0.12 + corner + apart, 0.09], [0.18, 0.1], 0.0),
            ),
        ];
        for board in made(&plan).boards() {
            assert!(!board.pieces.is_empty());
            check(board);
        }
    }
}
