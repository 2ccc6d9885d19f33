//! Places found for a battery and an amplifier board: all clearances kept, wishes served.

use crate::boxes::{plain, with_hole};
use boxwright_wood::{Body, Miss};
use boxwright_wood::{
    DriverOutline, Frame, Gap, Loose, Opening, Other, Outline, PanelId, Part, Pose, Scene, Shape,
    Stand, Target, Wall, Wishes, arrange, gaps,
};

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
