//! An invented box of wood for tests.

use studies::carpentry::{ControlHole, ControlPlan, CutLine};
use wood::{
    Block, Board, BoardKind, Body, Edge, EdgeForm, Hole, Joint, Outline, Plan, Purpose, Wall,
    WallPlan, Window,
};

const THICK: f64 = 0.012;

fn hole(wall: Wall, at: [f64; 2], outline: Outline, purpose: Purpose, label: &str) -> Hole {
    Hole {
        wall,
        at,
        outline,
        pocket: None,
        purpose,
        label: label.to_owned(),
    }
}

const fn round(diameter: f64) -> Outline {
    Outline::Circle { diameter }
}

fn holes() -> Vec<Hole> {
    let mut out = Vec::new();
    for x in [0.08, 0.28] {
        let at = [x, 0.11];
        let frame = hole(
            Wall::Front,
            at,
            round(0.118),
            Purpose::Driver,
            "driver frame",
        );
        out.push(Hole {
            pocket: Some(0.004),
            ..frame
        });
        out.push(hole(
            Wall::Front,
            at,
            round(0.104),
            Purpose::Driver,
            "driver",
        ));
        for (dx, dy) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
            let off = 0.0555 * core::f64::consts::FRAC_1_SQRT_2;
            let at = [x + dx * off, 0.11 + dy * off];
            out.push(hole(
                Wall::Front,
                at,
                round(0.003),
                Purpose::Fastening,
                "driver screw",
            ));
        }
    }
    out.push(hole(
        Wall::Front,
        [0.18, 0.035],
        round(0.036),
        Purpose::Vent,
        "vent",
    ));
    let panel = Outline::Rectangle {
        width: 0.12,
        height: 0.06,
        corner: 0.003,
    };
    out.push(hole(
        Wall::Top,
        [0.18, 0.09],
        panel,
        Purpose::Control,
        "control panel",
    ));
    out
}

fn plan(lean: f64, joints: Joint) -> Plan {
    let wall = WallPlan {
        thickness: THICK,
        setback: 0.0,
    };
    Plan {
        block: Block {
            width: 0.36,
            height: 0.2,
            depth: 0.18,
            front_lean: lean,
            back_lean: 0.0,
        },
        walls: [wall; 6],
        joints: [joints; 12],
        edges: Vec::new(),
        holes: holes(),
        boards: vec![Board {
            name: "brace".to_owned(),
            kind: BoardKind::Brace,
            low: [0.0, 0.1, 0.0],
            high: [0.36, 0.112, 0.2],
            across: 1,
            windows: vec![Window {
                low: [0.06, 0.04],
                high: [0.3, 0.16],
                corner: 0.02,
            }],
        }],
    }
}

fn butt(plan: Plan) -> Plan {
    let mut plan = plan;
    for edge in Edge::ALL {
        let through = edge.first.min(edge.second);
        plan.joints[edge.index()] = Joint::Butt { through };
    }
    plan
}

/// An upright box, its walls butted, one edge rounded.
pub(crate) fn demo_body() -> Body {
    let mut plan = butt(plan(0.0, Joint::Mitre));
    let edge = Edge::between(Wall::Front, Wall::Top).unwrap();
    plan.edges = vec![(edge, EdgeForm::Round(0.003))];
    Body::new(&plan).unwrap()
}

/// A box whose front leans back by ten degrees, mitred all round.
pub(crate) fn leaning_body() -> Body {
    Body::new(&plan(10_f64.to_radians(), Joint::Mitre)).unwrap()
}

pub(crate) fn demo_control() -> ControlPlan {
    let part = |name: &str, at, diameter, front, label: &str| ControlHole {
        name: name.to_owned(),
        at,
        outline: round(diameter),
        because: "the part's data".to_owned(),
        front,
        label: Some(label.to_owned()),
        scale: None,
        body: [0.016, 0.016],
    };
    let volume = ControlHole {
        scale: Some((0, 10, 4)),
        because: "M7 and 0.5 mm of play".to_owned(),
        ..part("potentiometer", [0.035, 0.042], 0.0075, 0.02, "Volume")
    };
    let meter = ControlHole {
        outline: Outline::Rectangle {
            width: 0.022,
            height: 0.011,
            corner: 0.0,
        },
        ..part("meter", [0.12, 0.055], 0.0, 0.024, "Battery ½")
    };
    ControlPlan {
        wall: Wall::Top,
        size: [0.15, 0.08],
        thickness: 0.003,
        plate: "aluminium 3 mm".to_owned(),
        holes: vec![
            volume,
            part("switch", [0.08, 0.055], 0.0125, 0.016, "Power"),
            meter,
            part("jack", [0.08, 0.022], 0.0064, 0.01, "Line in"),
            part(
                "charging socket",
                [0.12, 0.022],
                0.0085,
                0.012,
                "Charge 14.6 V",
            ),
        ],
        screws: [
            [0.006, 0.006],
            [0.144, 0.006],
            [0.006, 0.074],
            [0.144, 0.074],
        ]
        .map(|at| (at, 0.0034))
        .into(),
        recess: 0.004,
    }
}

/// Every panel of a body in the order of letters.
pub(crate) fn demo_lines(body: &Body) -> Vec<CutLine> {
    let line = |(index, panel): (usize, &wood::Panel)| CutLine {
        letter: char::from(b'A' + index as u8).to_string(),
        panels: vec![panel.id],
        name: panel.name.clone(),
        sheet: "birch ply 12 mm".to_owned(),
        thickness: panel.thickness,
        long: panel.blank,
        short: panel.blank,
        grain: Some(0),
        edges: "square".to_owned(),
    };
    body.panels.iter().enumerate().map(line).collect()
}
