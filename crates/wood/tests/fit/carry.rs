//! What comes out of a box, through what, and that it touches nothing on the way.

use crate::boxes::{board, plain, with_hole};
use boxwright_wood::{
    Body, Carry, DriverOutline, Opening, Other, Outline, PanelHole, PanelId, Part, Pose, Scene,
    Shape, Solid, Verdict, Wall, gaps,
};

const NODES: usize = 300;

fn part(shape: Shape, at: [f64; 3]) -> Part {
    Part {
        name: "part".into(),
        shape,
        pose: Pose::at(at),
        sits_in: None,
    }
}

/// A generic battery lying on the bottom, its long side across.
fn battery() -> Part {
    part(
        Shape::block([0.15, 0.065, 0.095]),
        [0.2, 0.15, 0.02 + 0.0475],
    )
}

fn inner_box() -> Body {
    plain([0.5, 0.3, 0.4], 0.02)
}

fn round(diameter: f64) -> Body {
    with_hole(
        inner_box(),
        Wall::Front,
        [0.23, 0.18],
        Outline::Circle { diameter },
    )
}

fn hole() -> Opening {
    Opening {
        panel: PanelId::Wall(Wall::Front),
        hole: Some(0),
        taken_out: Vec::new(),
    }
}

fn off(wall: Wall) -> Opening {
    Opening {
        panel: PanelId::Wall(wall),
        hole: None,
        taken_out: Vec::new(),
    }
}

fn carry(body: &Body, parts: &[Part], opening: &Opening) -> Carry {
    let carry = Scene::new(body, parts).carry_out(0, std::slice::from_ref(opening), NODES);
    if carry.verdict == Verdict::ComesOut {
        touches_nothing(body, parts, opening, &carry);
    }
    carry
}

/// A thousand places on the way, each asked by the plain gaps, which know nothing of ways.
fn touches_nothing(body: &Body, parts: &[Part], opening: &Opening, carry: &Carry) {
    let mut body = body.clone();
    if opening.hole.is_none() {
        body.panels.retain(|panel| panel.id != opening.panel);
    }
    assert_eq!(carry.path[0], parts[0].pose);
    let legs = carry.path.len() - 1;
    for i in 0..=1000 {
        let along = legs as f64 * f64::from(i) / 1000.0;
        let leg = (along as usize).min(legs - 1);
        let pose = carry.path[leg].toward(&carry.path[leg + 1], along - leg as f64);
        let mut there = parts.to_vec();
        there[0].pose = pose;
        let least = gaps(&body, &there)
            .into_iter()
            .filter(|gap| gap.a == 0 && !gap.air && !matches!(gap.b, Other::Outside(_)))
            .map(|gap| gap.gap)
            .fold(f64::INFINITY, f64::min);
        // Lifting it off may slide it along what it touches.
        let wanted = if leg == 0 { -1e-6 } else { carry.slack - 1e-6 };
        assert!(
            least > wanted,
            "{least} at {along} of {legs}, slack {}",
            carry.slack
        );
    }
}

#[test]
fn with_the_back_off_a_battery_comes_straight_out() {
    let found = carry(&inner_box(), &[battery()], &off(Wall::Back));
    assert_eq!(found.verdict, Verdict::ComesOut);
    assert_eq!(found.through, Some(0));
    assert!(found.turned < 1e-9 && found.tipped < 1e-9);
    assert!(found.slack >= 0.005, "{}", found.slack);
}

#[test]
fn through_a_driver_hole_it_is_turned_first() {
    // Its section is 115.1 mm over the corners.
    let found = carry(&round(0.12), &[battery()], &hole());
    assert_eq!(found.verdict, Verdict::ComesOut);
    let diagonal = (0.065_f64 * 0.065 + 0.095 * 0.095).sqrt();
    let slack = 0.5 * (0.12 - diagonal);
    assert!(
        found.slack < slack + 1e-6 && found.slack > slack - 2e-4,
        "{}",
        found.slack
    );
    assert!(found.turned > 1.0 && found.tipped < 1e-6, "{found:?}");
}

#[test]
fn what_is_larger_than_the_hole_is_told_apart_from_what_was_not_found() {
    let too_large = carry(&round(0.09), &[battery()], &hole());
    assert_eq!(too_large.verdict, Verdict::TooLarge);
    assert!(
        (too_large.slack + 0.005).abs() < 1e-6,
        "{}",
        too_large.slack
    );
    let tight = carry(&round(0.11), &[battery()], &hole());
    assert_eq!(tight.verdict, Verdict::NotFound);
    // 115.1 mm over the corners against 110 mm.
    assert!((tight.slack + 0.0051).abs() < 2e-4, "{}", tight.slack);
    let none = Scene::new(&inner_box(), &[battery()]).carry_out(0, &[], NODES);
    assert_eq!(none.verdict, Verdict::NoOpening);
}

#[test]
fn what_is_longer_than_the_room_is_deep_comes_out_tipped() {
    let rod = part(Shape::block([0.33, 0.03, 0.03]), [0.25, 0.15, 0.1]);
    let outline = Outline::Circle { diameter: 0.12 };
    let body = with_hole(inner_box(), Wall::Front, [0.13, 0.18], outline);
    let found = carry(&body, &[rod], &hole());
    assert_eq!(found.verdict, Verdict::ComesOut);
    assert!(found.tipped > 0.2, "{}", found.tipped);
}

#[test]
fn a_part_in_the_way_is_passed() {
    // A shelf across most of the room above the battery; the way is round its end.
    let mut body = inner_box();
    body = with_hole(
        body,
        Wall::Top,
        [0.25, 0.15],
        Outline::Rectangle {
            width: 0.2,
            height: 0.12,
            corner: 0.005,
        },
    );
    let shelf = part(
        Shape::of(vec![Solid::block([0.0; 3], [0.25, 0.26, 0.012])]),
        [0.02, 0.02, 0.2],
    );
    let opening = Opening {
        panel: PanelId::Wall(Wall::Top),
        hole: Some(0),
        taken_out: Vec::new(),
    };
    let found = carry(&body, &[battery(), shelf.clone()], &opening);
    assert_eq!(found.verdict, Verdict::ComesOut, "{found:?}");
    let wall = part(
        Shape::of(vec![Solid::block([0.0; 3], [0.46, 0.26, 0.012])]),
        [0.02, 0.02, 0.2],
    );
    let shut = carry(&body, &[battery(), wall], &opening);
    assert_eq!(shut.verdict, Verdict::NotFound);
    let freed = Opening {
        taken_out: vec![1],
        ..opening
    };
    let parts = [battery(), shelf];
    let found = Scene::new(&body, &parts).carry_out(0, &[freed], NODES);
    assert_eq!(found.verdict, Verdict::ComesOut);
}

#[test]
fn a_brace_with_a_window_holds_back_what_is_larger() {
    let body = board(inner_box(), 1, 0.2, [0.1, 0.08]);
    let small = part(Shape::block([0.08, 0.06, 0.06]), [0.1, 0.1, 0.05]);
    let found = carry(&body, &[small], &off(Wall::Back));
    assert_eq!(found.verdict, Verdict::ComesOut);
    assert!((found.slack - 0.01).abs() < 1e-6, "{}", found.slack);
    let large = part(Shape::block([0.11, 0.09, 0.12]), [0.1, 0.1, 0.09]);
    let found = carry(&body, &[large], &off(Wall::Back));
    assert_eq!(found.verdict, Verdict::NotFound);
}

#[test]
fn a_driver_comes_out_of_its_own_hole() {
    let driver = Part {
        sits_in: Some(Wall::Front),
        ..part(
            Shape::driver(&DriverOutline::new(0.135, 0.12, 0.07)),
            [0.25, 0.0, 0.2],
        )
    };
    let scene = [driver, battery()];
    let found = Scene::new(&round(0.12), &scene).carry_out(0, &[hole()], NODES);
    assert_eq!(found.verdict, Verdict::ComesOut, "{found:?}");
    assert!(found.turned < 1e-9);
}

#[test]
fn the_same_question_has_the_same_answer() {
    let parts = [battery()];
    let body = round(0.12);
    let ask = || Scene::new(&body, &parts).carry_out(0, &[hole()], NODES);
    assert_eq!(ask(), ask());
}

/// A block that stands in the corner of a room with so much play above it and beside it.
fn in_a_bay(play: f64) -> (Body, Part) {
    let body = plain([0.19 + play, 0.3, 0.135 + play], 0.02);
    let battery = part(
        Shape::block([0.15, 0.098, 0.095]),
        [0.02 + 0.5 * (0.15 + play), 0.15, 0.02 + 0.0475],
    );
    (body, battery)
}

#[test]
fn a_battery_in_a_narrow_bay_slides_straight_out() {
    for play in [0.01, 0.005, 0.002, 0.001, 0.0006] {
        let (body, battery) = in_a_bay(play);
        let found = carry(&body, &[battery], &off(Wall::Back));
        assert_eq!(found.verdict, Verdict::ComesOut, "{play} {found:?}");
        // In the middle of its play there is half of it on all sides.
        assert!(
            found.slack > 0.39 * play && found.slack < 0.5 * play + 1e-6,
            "{play} {found:?}"
        );
        assert!(found.turned < 1e-9 && found.tipped < 1e-9);
    }
    let (body, battery) = in_a_bay(0.0);
    let found = carry(&body, &[battery], &off(Wall::Back));
    assert_eq!(found.verdict, Verdict::ComesOut, "{found:?}");
    assert!(found.slack.abs() < 1e-9, "a drawer without any play");
    let (body, battery) = in_a_bay(-0.0005);
    let found = carry(&body, &[battery], &off(Wall::Back));
    assert_ne!(found.verdict, Verdict::ComesOut, "{found:?}");
}

#[test]
fn what_is_beside_a_part_counts_as_it_is_lifted() {
    for beside in [0.0005, 0.003] {
        // Two blocks left and right of the battery, far lower than it is lifted.
        let block = |x: f64| part(Shape::block([0.02, 0.065, 0.015]), [x, 0.15, 0.0275]);
        let off_middle = 0.075 + 0.01 + beside;
        let parts = [battery(), block(0.2 - off_middle), block(0.2 + off_middle)];
        let found = carry(&inner_box(), &parts, &off(Wall::Top));
        assert_eq!(found.verdict, Verdict::ComesOut);
        assert!((found.slack - beside).abs() < 1e-6, "{beside} {found:?}");
    }
}

#[test]
fn what_a_part_is_lifted_away_from_does_not_count() {
    // A board on four legs: its underside lies 1 mm above the bottom.
    let legs = [-0.04, 0.03].map(|x| Solid::block([x, -0.03, 0.0], [x + 0.01, 0.03, 0.001]));
    let plate = Solid::block([-0.04, -0.03, 0.001], [0.04, 0.03, 0.02]);
    let solids = legs.into_iter().chain([plate]).collect();
    let board = part(Shape::of(solids), [0.2, 0.15, 0.02]);
    let found = carry(&inner_box(), &[board], &off(Wall::Top));
    assert_eq!(found.verdict, Verdict::ComesOut);
    assert!((found.slack - 0.02).abs() < 1e-9, "{found:?}");
}

#[test]
fn a_plate_is_drawn_off_the_pocket_it_fits() {
    let mut body = inner_box();
    body.panels[Wall::Back.index()].holes.push(PanelHole {
        at: [0.2, 0.2],
        outline: Outline::Rectangle {
            width: 0.1,
            height: 0.08,
            corner: 0.0,
        },
        pocket: Some(0.005),
        purpose: None,
        label: String::new(),
    });
    let plate = |deep: f64| Part {
        pose: Pose::in_panel(&body.wall(Wall::Back).frame, [0.2, 0.2]),
        ..part(
            Shape::of(vec![Solid::block([-0.05, 0.0, -0.04], [0.05, deep, 0.04])]),
            [0.0; 3],
        )
    };
    let lid = part(Shape::block([0.2, 0.01, 0.2]), [0.3, 0.31, 0.2]);
    let parts = [plate(0.005), plate(0.006), lid];
    let scene = Scene::new(&body, &parts);
    assert_eq!(scene.draw_off(0, Wall::Back, &[1, 2]), Some(0.0));
    assert_eq!(
        scene.draw_off(1, Wall::Back, &[0, 2]),
        None,
        "into the wood"
    );
    assert_eq!(scene.draw_off(0, Wall::Back, &[1]), None, "into the lid");
    let lid = scene
        .draw_off(2, Wall::Back, &[])
        .expect("nothing is outside");
    assert!((lid - 0.005).abs() < 1e-9, "{lid}");
}
