//! Joints and outer edges from the pattern and what single edges say.

use super::wall;
use design::{Carpentry, EdgeJointKind, Fitting, Joints, OuterEdge, OuterEdges};
use wood::{Edge, EdgeForm, Joint, Wall, WallPlan};

/// A wall of the ring of left, top, right and bottom.
fn ring(edge: Edge) -> Option<Wall> {
    let front = |wall| matches!(wall, Wall::Front | Wall::Back);
    match (front(edge.first), front(edge.second)) {
        (true, false) => Some(edge.second),
        (false, true) => Some(edge.first),
        _ => None,
    }
}

/// The joint of every edge, in the order of [`Edge::ALL`].
pub(super) fn joints(said: &Carpentry, walls: &[WallPlan; 6]) -> [Joint; 12] {
    let mut joints = Edge::ALL.map(|edge| by_pattern(edge, said, walls));
    for own in &said.edges {
        let (a, b) = own.between;
        if let Some(edge) = Edge::between(wall(a), wall(b)) {
            joints[edge.index()] = single(own.kind, walls);
        }
    }
    joints
}

fn half_of(within: Wall, walls: &[WallPlan; 6]) -> f64 {
    walls[within.index()].thickness / 2.0
}

fn by_pattern(edge: Edge, said: &Carpentry, walls: &[WallPlan; 6]) -> Joint {
    let rebate = |within: Wall| Joint::Rebate {
        within,
        depth: said
            .rebate
            .map_or_else(|| half_of(within, walls), |depth| depth.si),
    };
    let pattern = said.joints.value;
    let Some(of_ring) = ring(edge) else {
        // Left and right meet top and bottom here; the edge lists top or bottom second.
        return match pattern {
            Joints::Butt => Joint::Butt {
                through: edge.second,
            },
            Joints::MitredRing | Joints::Mitred => Joint::Mitre,
            Joints::Rebated => rebate(edge.second),
        };
    };
    let closing = if edge.first == of_ring {
        edge.second
    } else {
        edge.first
    };
    let fitting = if closing == Wall::Front {
        said.front.value
    } else {
        said.back.value
    };
    match (pattern, fitting) {
        (Joints::Mitred, _) => Joint::Mitre,
        (Joints::Rebated, _) => rebate(of_ring),
        (_, Fitting::Overlaid) => Joint::Butt { through: closing },
        (_, Fitting::Inset) => Joint::Butt { through: of_ring },
    }
}

fn single(kind: EdgeJointKind, walls: &[WallPlan; 6]) -> Joint {
    match kind {
        EdgeJointKind::Butt { through } => Joint::Butt {
            through: wall(through),
        },
        EdgeJointKind::Mitre => Joint::Mitre,
        EdgeJointKind::Rebate { within, depth } => {
            let within = wall(within);
            Joint::Rebate {
                within,
                depth: depth.map_or_else(|| half_of(within, walls), |depth| depth.si),
            }
        }
    }
}

/// What is done to outer edges.
pub(super) fn edges(said: &Carpentry) -> Vec<(Edge, EdgeForm)> {
    let form = match said.outer {
        None => return Vec::new(),
        Some(OuterEdge::Round(radius)) => EdgeForm::Round(radius.si),
        Some(OuterEdge::Chamfer(off)) => EdgeForm::Chamfer(off.si),
    };
    let takes = |edge: &Edge| match said.outer_edges.value {
        OuterEdges::All => true,
        OuterEdges::Ring => ring(*edge).is_none(),
        OuterEdges::Front => edge.first == Wall::Front || edge.second == Wall::Front,
    };
    Edge::ALL
        .into_iter()
        .filter(takes)
        .map(|edge| (edge, form))
        .collect()
}
