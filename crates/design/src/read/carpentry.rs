//! How the walls become a box.

use super::edge::edge_name;
use super::fields::Fields;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::{
    CLOSINGS, FITTINGS, GRAINS, JOINT_KINDS, JOINTS, JointKind, OUTER_EDGES, WALLS, word_of,
};
use crate::diagnostic::Log;
use crate::fault::{PartFault, WoodFault};
use crate::quantity::Dimension as D;
use crate::{
    Carpentry, Closing, EdgeJoint, EdgeJointKind, Fitting, Joints, OuterEdge, OuterEdges,
    SheetPart, Wall, WallUse,
};
use core::f64::consts::FRAC_PI_4;

/// Sheets and measured walls between these can be cut and glued, in m.
pub(crate) const WALL: (f64, f64) = (1e-3, 0.1);
/// A front that leans by more is a lid.
const MOST_LEAN: f64 = FRAC_PI_4;

pub(crate) fn carpentry(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Carpentry {
    let joints = fields.word_or("joints", JOINTS, Joints::Butt, log);
    let front = fields.word_or("front", FITTINGS, Fitting::Overlaid, log);
    let back = fields.word_or("back", FITTINGS, Fitting::Overlaid, log);
    let edges = edge_joints(fields, log);
    let outer = outer_edge(fields, log);
    let outer_edges = fields.word_or("round_edges", OUTER_EDGES, OuterEdges::All, log);
    let read = Carpentry {
        joints,
        front,
        back,
        setback: fields.value("setback", D::Length, NotNegative, log),
        rebate: fields.value("rebate", D::Length, Positive, log),
        edges,
        outer,
        outer_edges,
        front_lean: fields.value("front_lean", D::Angle, Within(0.0, MOST_LEAN), log),
        back_lean: fields.value("back_lean", D::Angle, Within(0.0, MOST_LEAN), log),
        walls: walls(fields, shelf, log),
        last: fields.word_or("last", WALLS, Wall::Back, log),
        last_with: fields.word_or("last_with", CLOSINGS, Closing::Glue, log),
    };
    without_use(fields, &read, log);
    read
}

/// Notes keys that say nothing beside the others.
fn without_use(fields: &Fields<'_>, read: &Carpentry, log: &mut Log) {
    let fitted = matches!(read.joints.value, Joints::Butt | Joints::MitredRing);
    for key in ["front", "back"] {
        let wants = "write `joints = \"butt\"` or `joints = \"mitred ring\"`";
        fields.without_use(key, fitted, wants, log);
    }
    fields.without_use(
        "setback",
        fitted && read.front.value == Fitting::Inset,
        "write `front = \"inset\"`",
        log,
    );
    let is_rebate = |joint: &EdgeJoint| matches!(joint.kind, EdgeJointKind::Rebate { .. });
    fields.without_use(
        "rebate",
        read.joints.value == Joints::Rebated || read.edges.iter().any(is_rebate),
        "write `joints = \"rebated\"`",
        log,
    );
    fields.without_use(
        "round_edges",
        !fields.is_absent("round") || !fields.is_absent("chamfer"),
        "add `round = \"6 mm\"` or `chamfer = \"3 mm\"`",
        log,
    );
}

fn outer_edge(fields: &Fields<'_>, log: &mut Log) -> Option<OuterEdge> {
    let round = fields.value("round", D::Length, Positive, log);
    let chamfer = fields.value("chamfer", D::Length, Positive, log);
    if !fields.is_absent("round") && !fields.is_absent("chamfer") {
        log.add(WoodFault::EdgeTreatedTwice, fields.place_of("chamfer"));
        return None;
    }
    round
        .map(OuterEdge::Round)
        .or(chamfer.map(OuterEdge::Chamfer))
}

fn edge_joints(fields: &Fields<'_>, log: &mut Log) -> Vec<EdgeJoint> {
    let mut joints: Vec<EdgeJoint> = Vec::new();
    for layer in fields.layers("joint", log) {
        let fields = Fields::new("[[box.joint]]", layer, None);
        let read = edge_joint(&fields, log);
        if let Some(joint) = read {
            let same = |other: &EdgeJoint| edge_name(other.between) == edge_name(joint.between);
            if joints.iter().any(same) {
                let name = edge_name(joint.between).to_owned();
                let fault = PartFault::NameTwice {
                    noun: "joint",
                    name,
                };
                log.add(fault, fields.place_of("edge"));
            }
            joints.push(joint);
        }
        fields.finish(log);
    }
    joints
}

fn edge_joint(fields: &Fields<'_>, log: &mut Log) -> Option<EdgeJoint> {
    let place = fields.header();
    let between = fields.need_edge("edge", log);
    let kind = fields
        .need_word("kind", JOINT_KINDS, log)
        .map(|kind| kind.value);
    let mut of_edge = |key: &'static str, wanted: bool| {
        let wall = if wanted {
            fields.need_word(key, WALLS, log)
        } else {
            fields.word(key, WALLS, log)
        };
        let wall = wall?.value;
        if let Some((a, b)) = between
            && wall != a
            && wall != b
        {
            let edge = edge_name((a, b));
            log.add(WoodFault::NotOfEdge { key, edge }, fields.place_of(key));
            return None;
        }
        Some(wall)
    };
    let through = of_edge("through", kind == Some(JointKind::Butt));
    let within = of_edge("within", kind == Some(JointKind::Rebate));
    let depth = fields.value("depth", D::Length, Positive, log);
    let kind = kind?;
    fields.without_use(
        "through",
        kind == JointKind::Butt,
        "write `kind = \"butt\"`",
        log,
    );
    for key in ["within", "depth"] {
        let wants = "write `kind = \"rebate\"`";
        fields.without_use(key, kind == JointKind::Rebate, wants, log);
    }
    let kind = match kind {
        JointKind::Butt => EdgeJointKind::Butt { through: through? },
        JointKind::Mitre => EdgeJointKind::Mitre,
        JointKind::Rebate => EdgeJointKind::Rebate {
            within: within?,
            depth,
        },
    };
    Some(EdgeJoint {
        between: between?,
        kind,
        place,
    })
}

fn walls(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<WallUse> {
    let mut walls: Vec<WallUse> = Vec::new();
    for layer in fields.layers("panel", log) {
        let fields = Fields::new("[[box.panel]]", layer, None);
        if let Some(wall) = wall(&fields, shelf, log) {
            if walls.iter().any(|other| other.side == wall.side) {
                let name = word_of(WALLS, wall.side).to_owned();
                let fault = PartFault::NameTwice {
                    noun: "panel",
                    name,
                };
                log.add(fault, fields.place_of("side"));
            }
            walls.push(wall);
        }
        fields.finish(log);
    }
    walls
}

fn wall(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<WallUse> {
    let side = fields.need_word("side", WALLS, log);
    let sheet = shelf.part_if_named::<SheetPart>(fields, "wall", log);
    let thickness = fields.value("thickness", D::Length, Within(WALL.0, WALL.1), log);
    let grain = fields.word("grain", GRAINS, log);
    Some(WallUse {
        side: side?.value,
        sheet,
        thickness,
        grain,
        place: fields.header(),
    })
}
