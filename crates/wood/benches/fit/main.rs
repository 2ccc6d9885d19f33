//! How long the questions of fit take: `cargo bench -p boxwright-wood --bench fit`.
//!
//! A speaker with two drivers, a battery, a board, a control panel with three parts and a vent,
//! such as makers build. Each row is the median of several rounds.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

#[path = "../../tests/fit/boxes.rs"]
#[allow(dead_code, reason = "the tests use all of it")]
mod boxes;

use boxwright_wood::{
    Body, ControlOutline, DriverOutline, Loose, Opening, Outline, PanelId, Part, Pose, Scene,
    Shape, Stand, Target, Wall, Wishes, arrange, gaps,
};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 15;
const NODES: usize = 300;

fn median(name: &str, mut work: impl FnMut()) {
    work();
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            work();
            1e3 * start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{name:44} {:9.3} ms", times[ROUNDS / 2]);
}

fn in_wall(body: &Body, wall: Wall, at: [f64; 2], shape: Shape) -> Part {
    Part {
        name: String::new(),
        shape,
        pose: Pose::in_panel(&body.panels[wall.index()].frame, at),
        sits_in: Some(wall),
    }
}

fn speaker() -> (Body, Vec<Part>) {
    let mut body = boxes::plain([0.44, 0.2, 0.22], 0.015);
    let drivers = [[0.075, 0.095], [0.335, 0.095]];
    for at in drivers {
        body = boxes::with_hole(body, Wall::Front, at, Outline::Circle { diameter: 0.115 });
    }
    body = boxes::with_hole(
        body,
        Wall::Back,
        [0.1, 0.1],
        Outline::Rectangle {
            width: 0.12,
            height: 0.08,
            corner: 0.004,
        },
    );
    body = boxes::with_hole(
        body,
        Wall::Front,
        [0.205, 0.04],
        Outline::Circle { diameter: 0.05 },
    );
    let outline = DriverOutline {
        vent_air: Some(0.01),
        screws: Some((4, 0.125)),
        ..DriverOutline::new(0.135, 0.115, 0.07)
    };
    let mut parts: Vec<Part> = drivers
        .iter()
        .map(|at| in_wall(&body, Wall::Front, *at, Shape::driver(&outline)))
        .collect();
    let duct = Shape::duct(0.046, 0.002, 0.12, None);
    parts.push(in_wall(&body, Wall::Front, [0.205, 0.04], duct));
    let control = ControlOutline {
        plate: 0.003,
        hole: 0.007,
        bush: 0.008,
        body: [0.016, 0.02, 0.012],
        behind: 0.015,
        knob: [0.02, 0.015],
        plug: 0.0,
    };
    for across in [0.07, 0.1, 0.13] {
        parts.push(in_wall(
            &body,
            Wall::Back,
            [across, 0.1],
            Shape::control(&control),
        ));
    }
    (body, parts)
}

fn loose() -> Vec<Loose> {
    let battery = Loose {
        name: "battery".into(),
        shape: Shape::block([0.15, 0.065, 0.095]),
        walls: vec![Wall::Bottom],
        stand: Stand::Exchanged(Pose::ORDERS.to_vec()),
        clearance: 0.003,
        wishes: Wishes::battery(),
    };
    let cables = vec![Target::Fixed(0), Target::Fixed(1), Target::Fixed(4)];
    let board = Loose {
        name: "board".into(),
        shape: Shape::board([0.11, 0.08, 0.03], 0.008),
        walls: Wall::ALL.to_vec(),
        stand: Stand::OnFoot,
        clearance: 0.003,
        wishes: Wishes::amplifier(Target::Loose(0), cables),
    };
    vec![battery, board]
}

fn opening(wall: Wall, hole: Option<usize>, taken_out: &[usize]) -> Opening {
    Opening {
        panel: PanelId::Wall(wall),
        hole,
        taken_out: taken_out.to_vec(),
    }
}

fn main() {
    let (body, fixed) = speaker();
    let holes = [
        opening(Wall::Back, Some(0), &[3, 4, 5]),
        opening(Wall::Front, Some(0), &[0]),
        opening(Wall::Front, Some(1), &[1]),
    ];
    let back = [opening(Wall::Back, None, &[3, 4, 5])];
    let wanted = loose();
    let mut parts = fixed.clone();
    for (loose, pose) in wanted.iter().zip(arrange(&body, &fixed, &wanted, &back)) {
        parts.push(Part {
            name: loose.name.clone(),
            shape: loose.shape.clone(),
            pose: pose.expect("the speaker has room for it"),
            sits_in: None,
        });
    }
    median("gaps of 8 parts", || {
        black_box(gaps(&body, &parts));
    });
    median("arrange two parts, the back off", || {
        black_box(arrange(&body, &fixed, &wanted, &back));
    });
    median("arrange two parts, through holes", || {
        black_box(arrange(&body, &fixed, &wanted, &holes));
    });
    let scene = Scene::new(&body, &parts);
    median("prepare the scene", || {
        black_box(Scene::new(&body, &parts));
    });
    for (name, moving) in [("battery", 6), ("board", 7)] {
        for (how, openings) in [("the back off", &back[..]), ("holes", &holes[..])] {
            let found = scene.carry_out(moving, openings, NODES);
            let label = format!("carry {name} through {how}: {:?}", found.verdict);
            median(&label, || {
                black_box(scene.carry_out(moving, openings, NODES));
            });
        }
    }
    let own = [opening(Wall::Front, Some(0), &[])];
    median("carry a driver out of its hole", || {
        black_box(scene.carry_out(0, &own, NODES));
    });
}
