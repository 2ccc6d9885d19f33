//! A plain box to put parts into: front and back between the others, square edges.

use boxwright_wood::{
    Block, Body, Edge, Frame, Joint, Outline, Panel, PanelHole, PanelId, Plan, Polytope, Purpose,
    Wall, WallPlan,
};

/// Outer width, depth and height and the thickness of all walls, in m.
pub(crate) fn plain(size: [f64; 3], wall: f64) -> Body {
    let [w, d, h] = size;
    let t = wall;
    let panel = |id: Wall, low: [f64; 3], high: [f64; 3], frame: Frame| Panel {
        id: PanelId::Wall(id),
        name: format!("{id:?}"),
        frame,
        thickness: t,
        pieces: vec![Polytope::block(low, high)],
        edges: Vec::new(),
        holes: Vec::new(),
        blank: [0.0; 2],
    };
    let frame = |origin, across, up, out| Frame {
        origin,
        across,
        up,
        out,
    };
    let (x, y, z) = ([1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]);
    let neg = |v: [f64; 3]| v.map(|c| -c);
    let panels = vec![
        panel(
            Wall::Front,
            [t, 0.0, t],
            [w - t, t, h - t],
            frame([t, 0.0, t], x, z, neg(y)),
        ),
        panel(
            Wall::Back,
            [t, d - t, t],
            [w - t, d, h - t],
            frame([w - t, d, t], neg(x), z, y),
        ),
        panel(
            Wall::Left,
            [0.0, 0.0, t],
            [t, d, h - t],
            frame([0.0, d, t], neg(y), z, neg(x)),
        ),
        panel(
            Wall::Right,
            [w - t, 0.0, t],
            [w, d, h - t],
            frame([w, 0.0, t], y, z, x),
        ),
        panel(
            Wall::Top,
            [0.0, 0.0, h - t],
            [w, d, h],
            frame([0.0, 0.0, h], x, y, z),
        ),
        panel(
            Wall::Bottom,
            [0.0, 0.0, 0.0],
            [w, d, t],
            frame([w, 0.0, 0.0], neg(x), y, neg(z)),
        ),
    ];
    Body {
        plan: plan(size, wall),
        panels,
        room: Polytope::block([t; 3], [w - t, d - t, h - t]),
        faults: Vec::new(),
    }
}

/// A box whose back leans in by an angle, made by the solid model.
pub(crate) fn leaning(size: [f64; 3], wall: f64, lean: f64) -> Body {
    let mut plan = plan(size, wall);
    plan.block.back_lean = lean;
    Body::new(&plan).expect("a box can be made of it")
}

fn plan(size: [f64; 3], wall: f64) -> Plan {
    Plan {
        block: Block {
            width: size[0],
            height: size[2],
            depth: size[1],
            front_lean: 0.0,
            back_lean: 0.0,
        },
        walls: [WallPlan {
            thickness: wall,
            setback: 0.0,
        }; 6],
        joints: Edge::ALL.map(|edge| Joint::Butt {
            through: edge.first,
        }),
        edges: Vec::new(),
        holes: Vec::new(),
        boards: Vec::new(),
    }
}

/// The same with a hole through a wall, its middle in the frame of the panel.
pub(crate) fn with_hole(mut body: Body, wall: Wall, at: [f64; 2], outline: Outline) -> Body {
    let panel = &mut body.panels[wall.index()];
    panel.holes.push(PanelHole {
        at,
        outline,
        pocket: None,
        purpose: Some(Purpose::Driver),
        label: String::new(),
    });
    body
}

/// The same with a full board across an axis, its near face at a depth, with a window in its
/// middle.
pub(crate) fn board(mut body: Body, across: usize, near: f64, window: [f64; 2]) -> Body {
    let thickness = 0.012;
    let inside = &body.room.vertices;
    let extreme = |pick: fn(f64, f64) -> f64, start: f64| {
        [0, 1, 2].map(|i| inside.iter().map(|c| c[i]).fold(start, pick))
    };
    let mut low = extreme(f64::min, f64::INFINITY);
    let mut high = extreme(f64::max, f64::NEG_INFINITY);
    low[across] = near;
    high[across] = near + thickness;
    let [first, second] = match across {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    };
    let axis = |i: usize, sign: f64| {
        let mut axis = [0.0; 3];
        axis[i] = sign;
        axis
    };
    // Across × up points out of the near face for y; of the far face otherwise.
    let (origin, out) = if across == 1 {
        (low, axis(across, -1.0))
    } else {
        let mut corner = low;
        corner[across] = high[across];
        (corner, axis(across, 1.0))
    };
    let size = [high[first] - low[first], high[second] - low[second]];
    body.panels.push(Panel {
        id: PanelId::Board(0),
        name: "brace".into(),
        frame: Frame {
            origin,
            across: axis(first, 1.0),
            up: axis(second, 1.0),
            out,
        },
        thickness,
        pieces: vec![Polytope::block(low, high)],
        edges: Vec::new(),
        holes: vec![PanelHole {
            at: size.map(|side| 0.5 * side),
            outline: Outline::Rectangle {
                width: window[0],
                height: window[1],
                corner: 0.0,
            },
            pocket: None,
            purpose: None,
            label: String::new(),
        }],
        blank: size,
    });
    body
}
