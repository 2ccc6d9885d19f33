//! Where a screwdriver and a hand get to.

use crate::boxes::{board, plain, with_hole};
use boxwright_wood::{Body, Opening, Outline, PanelId, Part, Pose, Scene, Shape, Wall};

fn inner_box() -> Body {
    plain([0.5, 0.3, 0.4], 0.02)
}

/// A board on the inside of the front, its screws turned from behind.
fn on_the_front(at: [f64; 2]) -> Part {
    let foot_forward = [[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]];
    Part {
        name: "board".into(),
        shape: Shape::board([0.1, 0.08, 0.03], 0.008),
        pose: Pose {
            turn: foot_forward,
            at: [at[0], 0.02, at[1]],
        },
        sits_in: None,
    }
}

fn block(size: [f64; 3], at: [f64; 3]) -> Part {
    Part {
        name: "block".into(),
        shape: Shape::block(size),
        pose: Pose::at(at),
        sits_in: None,
    }
}

fn off(wall: Wall) -> Opening {
    Opening {
        panel: PanelId::Wall(wall),
        hole: None,
        taken_out: Vec::new(),
    }
}

fn hole(wall: Wall) -> Opening {
    Opening {
        hole: Some(0),
        ..off(wall)
    }
}

fn round(wall: Wall, at: [f64; 2], diameter: f64) -> Body {
    with_hole(inner_box(), wall, at, Outline::Circle { diameter })
}

#[test]
fn a_screwdriver_wants_the_wall_behind_it_off() {
    let parts = [on_the_front([0.25, 0.2])];
    let body = inner_box();
    let scene = Scene::new(&body, &parts);
    assert!(scene.screwdriver_reaches(0, &off(Wall::Back)));
    assert!(!scene.screwdriver_reaches(0, &off(Wall::Top)));
}

#[test]
fn a_screwdriver_slants_past_a_wall_but_not_through_a_part() {
    // Its corner screws are 3.5 mm from the edge, which is 8 mm off the left wall; a handle is
    // 15 mm thick all around.
    let beside = on_the_front([0.02 + 0.05 + 0.008, 0.2]);
    let body = inner_box();
    let alone = [beside.clone()];
    assert!(Scene::new(&body, &alone).screwdriver_reaches(0, &off(Wall::Back)));
    let covered = [beside, block([0.14, 0.03, 0.1], [0.09, 0.12, 0.2])];
    let scene = Scene::new(&body, &covered);
    assert!(!scene.screwdriver_reaches(0, &off(Wall::Back)));
    let freed = Opening {
        taken_out: vec![1],
        ..off(Wall::Back)
    };
    assert!(scene.screwdriver_reaches(0, &freed));
}

#[test]
fn a_screwdriver_goes_through_a_hole_over_the_screws() {
    // All four screws lie within 45 mm of the middle of the board in depth.
    let parts = [on_the_front([0.25, 0.2])];
    for (diameter, reached) in [(0.16, true), (0.04, false)] {
        let body = round(Wall::Back, [0.23, 0.18], diameter);
        let scene = Scene::new(&body, &parts);
        assert_eq!(
            scene.screwdriver_reaches(0, &hole(Wall::Back)),
            reached,
            "{diameter}"
        );
    }
}

#[test]
fn a_part_without_screws_needs_no_screwdriver() {
    let parts = [block([0.1; 3], [0.25, 0.15, 0.1])];
    let body = inner_box();
    assert!(Scene::new(&body, &parts).screwdriver_reaches(0, &off(Wall::Top)));
}

#[test]
fn a_hand_passes_what_is_wide_enough() {
    let parts = [block([0.05, 0.05, 0.05], [0.25, 0.2, 0.2])];
    // Over its corners a hand is 96.2 mm.
    for (diameter, reached) in [(0.1, true), (0.094, false)] {
        let body = round(Wall::Front, [0.23, 0.18], diameter);
        let scene = Scene::new(&body, &parts);
        assert_eq!(
            scene.hand_reaches(0, &hole(Wall::Front)),
            reached,
            "{diameter}"
        );
    }
    for (height, reached) in [(0.05, true), (0.044, false)] {
        let outline = Outline::Rectangle {
            width: 0.09,
            height,
            corner: 0.0,
        };
        let body = with_hole(inner_box(), Wall::Front, [0.23, 0.18], outline);
        let scene = Scene::new(&body, &parts);
        assert_eq!(
            scene.hand_reaches(0, &hole(Wall::Front)),
            reached,
            "{height}"
        );
    }
}

#[test]
fn a_hand_goes_around_one_corner_and_not_through_wood() {
    // The part lies behind a screen; the opening is before it.
    let hidden = block([0.06, 0.06, 0.06], [0.25, 0.245, 0.2]);
    let screen = block([0.1, 0.01, 0.1], [0.25, 0.15, 0.2]);
    let body = round(Wall::Front, [0.23, 0.18], 0.14);
    let parts = [hidden, screen];
    assert!(Scene::new(&body, &parts).hand_reaches(0, &hole(Wall::Front)));
    let walled = board(body, 1, 0.15, [0.02, 0.02]);
    let parts = [parts[0].clone()];
    assert!(!Scene::new(&walled, &parts).hand_reaches(0, &hole(Wall::Front)));
}

#[test]
fn a_board_comes_off_with_the_wall_it_is_screwed_to() {
    let parts = [on_the_front([0.25, 0.2])];
    let body = inner_box();
    let scene = Scene::new(&body, &parts);
    assert!(parts[0].is_screwed_to(body.wall(Wall::Front)));
    assert!(!parts[0].is_screwed_to(body.wall(Wall::Back)));
    assert!(scene.screwdriver_reaches(0, &off(Wall::Front)));
    assert!(scene.hand_reaches(0, &off(Wall::Front)));
    assert!(!scene.screwdriver_reaches(0, &hole(Wall::Front)));
    let mut away = parts[0].clone();
    away.pose.at[1] += 0.002;
    assert!(!away.is_screwed_to(body.wall(Wall::Front)));
}
