//! Places found for a battery and an amplifier board: all clearances kept, wishes served.

use crate::boxes::{plain, with_hole};
use boxwright_wood::{Body, Miss};
use boxwright_wood::{
    DriverOutline, Frame, Gap, Loose, Opening, Other, Outline, PanelId, Part, Pose, Scene, Shape,
    Stand, Target, Wall, Wishes, arrange, gaps,
};
use proptest::prelude::*;

const CLEARANCE: f64 = 0.005;

fn battery(walls: Vec<Wall>) -> Loose {
    Loose {
        name: "battery".into(),
        shape: Shape::block([0.15, 0.065, 0.095]),
        walls,
        stand: Stand::Exchanged(Pose::ORDERS.to_vec()),
        clearance: CLEARANCE,
        wishes: Wishes::battery(),
    }
}

fn amplifier(cables: Vec<Target>) -> Loose {
    Loose {
        name: "amplifier".into(),
        shape: Shape::board([0.11, 0.08, 0.03], 0.008),
        walls: vec![Wall::Left, Wall::Right, Wall::Top, Wall::Bottom, Wall::Back],
        stand: Stand::OnFoot,
        clearance: CLEARANCE,
        wishes: Wishes::amplifier(Target::Loose(0), cables),
    }
}

fn driver(frame: &Frame, at: [f64; 2]) -> Part {
    let outline = DriverOutline {
        vent_air: Some(0.01),
        ..DriverOutline::new(0.135, 0.115, 0.075)
    };
    Part {
        name: "driver".into(),
        shape: Shape::driver(&outline),
        pose: Pose::in_panel(frame, at),
        sits_in: Some(Wall::Front),
    }
}

/// Two drivers on the front, back screwed on.
fn speaker() -> (Body, Vec<Part>, Vec<Opening>) {
    let mut body = plain([0.44, 0.2, 0.22], 0.015);
    let frame = body.panels[Wall::Front.index()].frame;
    let places = [[0.075, 0.095], [0.335, 0.095]];
    for at in places {
        body = with_hole(body, Wall::Front, at, Outline::Circle { diameter: 0.115 });
    }
    let back = Opening {
        panel: PanelId::Wall(Wall::Back),
        hole: None,
        taken_out: Vec::new(),
    };
    (
        body,
        places.map(|at| driver(&frame, at)).to_vec(),
        vec![back],
    )
}

fn placed(fixed: &[Part], loose: &[Loose], poses: &[Result<Pose, Option<Miss>>]) -> Vec<Part> {
    let mut parts = fixed.to_vec();
    for (loose, pose) in loose.iter().zip(poses) {
        parts.push(Part {
            name: loose.name.clone(),
            shape: loose.shape.clone(),
            pose: *pose.as_ref().expect("it has a place"),
            sits_in: None,
        });
    }
    parts
}

/// Gaps of a part: to what it touches none, to all else the clearance.
fn keeps_clearance(all: &[Gap], part: usize) {
    let mut touching = 0;
    for gap in all {
        let mine = gap.a == part || gap.b == Other::Part(part);
        if !mine || gap.gap >= CLEARANCE - 1e-6 || gap.air && gap.gap > -1e-6 {
            continue;
        }
        assert!(
            gap.gap > -1e-6 && matches!(gap.b, Other::Panel(_)),
            "{gap:?}"
        );
        touching += 1;
    }
    assert!(touching <= 1, "{all:?}");
}

#[test]
fn a_battery_lies_flat_in_the_middle_when_nothing_else_is_there() {
    let body = plain([0.44, 0.2, 0.22], 0.015);
    let loose = [battery(vec![Wall::Bottom])];
    let found = arrange(&body, &[], &loose, &[]);
    let parts = placed(&[], &loose, &found);
    let (low, high) = parts[0].shape.bounds(&parts[0].pose);
    assert!((low[2] - 0.015).abs() < 1e-6);
    assert!(
        (high[2] - low[2] - 0.065).abs() < 1e-6,
        "its least side is up"
    );
    assert!((0.5 * (low[0] + high[0]) - 0.22).abs() < 0.002);
    assert!((0.5 * (low[1] + high[1]) - 0.1).abs() < 0.002);
}

#[test]
fn battery_and_board_find_places_among_drivers() {
    let (body, fixed, openings) = speaker();
    let cables = vec![Target::Fixed(0), Target::Fixed(1)];
    let loose = [battery(vec![Wall::Bottom]), amplifier(cables)];
    let found = arrange(&body, &fixed, &loose, &openings);
    let parts = placed(&fixed, &loose, &found);
    let all = gaps(&body, &parts);
    keeps_clearance(&all, 2);
    keeps_clearance(&all, 3);
    let between = all.iter().find(|gap| gap.a == 2 && gap.b == Other::Part(3));
    assert!(between.expect("a gap").gap >= 0.02 - 1e-6);
    let (low, _) = parts[2].shape.bounds(&parts[2].pose);
    assert!(
        (low[2] - 0.015).abs() < 1e-6,
        "the battery stands on the bottom"
    );
    let again = arrange(&body, &fixed, &loose, &openings);
    assert_eq!(again, found);
}

#[test]
fn a_part_too_large_says_by_how_much() {
    let body = plain([0.44, 0.2, 0.09], 0.015);
    let mut loose = battery(vec![Wall::Bottom]);
    loose.clearance = 0.0;
    let found = arrange(&body, &[], &[loose], &[]);
    let miss = found[0].clone().expect_err("60 mm is less than 65 mm");
    let miss = miss.expect("somewhere it comes near");
    assert!((miss.short - 0.005).abs() < 1e-6, "{miss:?}");
}

#[test]
fn a_board_keeps_its_foot_on_a_leaning_wall() {
    let body = crate::boxes::leaning([0.4, 0.3, 0.3], 0.015, 0.15);
    let loose = Loose {
        walls: vec![Wall::Back],
        ..amplifier(Vec::new())
    };
    let found = arrange(&body, &[], std::slice::from_ref(&loose), &[]);
    let parts = placed(&[], &[loose], &found);
    let all = gaps(&body, &parts);
    keeps_clearance(&all, 0);
    let back = all
        .iter()
        .find(|gap| gap.b == Other::Panel(PanelId::Wall(Wall::Back)));
    assert!(back.expect("a gap").gap.abs() < 1e-6);
    let out = body.wall(Wall::Back).frame.out;
    let foot = parts[0].pose.direction([0.0, 0.0, -1.0]);
    assert!(
        (0..3).all(|i| (out[i] - foot[i]).abs() < 1e-9),
        "{out:?} {foot:?}"
    );
}

#[test]
fn a_board_goes_where_a_screwdriver_reaches_it() {
    let (body, fixed, openings) = speaker();
    let loose = [amplifier(vec![Target::Fixed(0), Target::Fixed(1)])];
    let found = arrange(&body, &fixed, &loose, &openings);
    let parts = placed(&fixed, &loose, &found);
    let scene = Scene::new(&body, &parts);
    assert!(scene.screwdriver_reaches(2, &openings[0]), "{found:?}");
    // The back itself, which comes off: the front has drivers.
    assert!(parts[2].is_screwed_to(body.wall(Wall::Back)));
    keeps_clearance(&gaps(&body, &parts), 2);
}

/// A block with six numbers from 0 to 1 for its place and size.
fn block_of(s: [f64; 6], room: [f64; 3]) -> Part {
    let size = [0, 1, 2].map(|i| 0.03 + 0.3 * room[i] * s[i]);
    let at = [0, 1, 2].map(|i| 0.015 + 0.5 * size[i] + s[3 + i] * (room[i] - size[i]));
    Part {
        name: "block".into(),
        shape: Shape::block(size),
        pose: Pose::at(at),
        sits_in: None,
    }
}

/// Whether an upright block of a size fits somewhere on the floor, by a grid of places and
/// plain arithmetic: so far from every block and from the walls but the floor.
fn a_grid_finds_room(room: [f64; 3], size: [f64; 3], blocks: &[Part], clearance: f64) -> bool {
    const STEPS: u32 = 40;
    let turned = [size, [size[1], size[0], size[2]]];
    turned.iter().any(|size| {
        let free = [0, 1].map(|i| room[i] - size[i] - 2.0 * clearance);
        if free[0] < 0.0 || free[1] < 0.0 || room[2] - size[2] < clearance {
            return false;
        }
        (0..=STEPS).any(|i| {
            (0..=STEPS).any(|j| {
                let share = [f64::from(i), f64::from(j)].map(|k| k / f64::from(STEPS));
                let low = [0, 1].map(|k| 0.015 + clearance + share[k] * free[k]);
                let low = [low[0], low[1], 0.015];
                blocks.iter().all(|block| {
                    let (from, to) = block.shape.bounds(&block.pose);
                    let apart = [0, 1, 2]
                        .map(|k| (from[k] - low[k] - size[k]).max(low[k] - to[k]).max(0.0));
                    let apart = apart.iter().map(|a| a * a).sum::<f64>().sqrt();
                    apart >= clearance
                })
            })
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    /// Where a plain search over a grid finds room, so does the program, and what it finds keeps
    /// every clearance.
    #[test]
    fn room_that_a_grid_finds_is_found(
        outside in prop::array::uniform3(0.16_f64..0.5),
        size in prop::array::uniform3(0.05_f64..0.2),
        blocks in prop::collection::vec(prop::array::uniform6(0.0_f64..1.0), 0..4),
    ) {
        let body = plain(outside, 0.015);
        let room = outside.map(|side| side - 0.03);
        let fixed: Vec<Part> = blocks.into_iter().map(|s| block_of(s, room)).collect();
        let loose = [Loose {
            shape: Shape::block(size),
            stand: Stand::Exchanged(vec![[0, 1, 2], [1, 0, 2]]),
            ..battery(vec![Wall::Bottom])
        }];
        let found = arrange(&body, &fixed, &loose, &[]);
        prop_assert_eq!(&found, &arrange(&body, &fixed, &loose, &[]));
        if found[0].is_ok() {
            let parts = placed(&fixed, &loose, &found);
            let own = fixed.len();
            for gap in gaps(&body, &parts) {
                let mine = gap.a == own || gap.b == Other::Part(own);
                let floor = gap.b == Other::Panel(PanelId::Wall(Wall::Bottom));
                let wanted = if floor { -1e-6 } else { CLEARANCE - 1e-6 };
                prop_assert!(!mine || gap.gap >= wanted, "{:?}", gap);
            }
        } else {
            prop_assert!(!a_grid_finds_room(room, size, &fixed, CLEARANCE + 1e-6));
        }
    }

    /// Alone in a box, a battery stands on the floor in the middle of it, and an amplifier keeps
    /// its distance and no more than its cables are worth.
    #[test]
    fn a_battery_stands_low_and_central_and_the_amplifier_apart(
        outside in prop::array::uniform3(0.3_f64..0.6),
    ) {
        let body = plain(outside, 0.015);
        let middle = outside.map(|side| 0.5 * side);
        let corner = Target::Point([0.03, middle[1], middle[2]]);
        let loose = [battery(vec![Wall::Bottom]), amplifier(vec![corner])];
        let found = arrange(&body, &[], &loose, &[]);
        let parts = placed(&[], &loose, &found);
        let (low, high) = parts[0].shape.bounds(&parts[0].pose);
        prop_assert!((low[2] - 0.015).abs() < 1e-6 && high[2] - low[2] < 0.0651);
        for axis in [0, 1] {
            prop_assert!((0.5 * (low[axis] + high[axis]) - middle[axis]).abs() < 0.003);
        }
        let all = gaps(&body, &parts);
        let apart = all.iter().find(|gap| gap.a == 0 && gap.b == Other::Part(1));
        prop_assert!(apart.is_some_and(|gap| gap.gap >= 0.02 - 1e-6));
        // It stands on the side its cable leads to.
        let (low, high) = parts[1].shape.bounds(&parts[1].pose);
        prop_assert!(0.5 * (low[0] + high[0]) < middle[0] + 1e-6);
    }
}
