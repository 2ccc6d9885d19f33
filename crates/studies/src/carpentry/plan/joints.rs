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
            joints[edge.index()] = single(own.kind, said, walls);
        }
    }
    joints
}

/// The depth of rebates that have none of their own.
fn rebate_of(within: Wall, said: &Carpentry, walls: &[WallPlan; 6]) -> f64 {
    let half = walls[within.index()].thickness / 2.0;
    said.rebate.map_or(half, |depth| depth.si)
}

fn by_pattern(edge: Edge, said: &Carpentry, walls: &[WallPlan; 6]) -> Joint {
    let rebate = |within: Wall| Joint::Rebate {
        within,
        depth: rebate_of(within, said, walls),
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

fn single(kind: EdgeJointKind, said: &Carpentry, walls: &[WallPlan; 6]) -> Joint {
    match kind {
        EdgeJointKind::Butt { through } => Joint::Butt {
            through: wall(through),
        },
        EdgeJointKind::Mitre => Joint::Mitre,
        EdgeJointKind::Rebate { within, depth } => {
            let within = wall(within);
            Joint::Rebate {
                within,
                depth: depth.map_or_else(|| rebate_of(within, said, walls), |depth| depth.si),
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

#[cfg(test)]
mod tests {
    use super::*;

    const DESIGN: &str = include_str!("../../../../../examples/salvage-party/design.toml");
    const SHELF: &str = include_str!("../../../../../examples/salvage-party/shelf.toml");

    #[test]
    fn a_rebate_is_as_deep_as_its_edge_says_or_else_as_the_box_does() {
        let depth = |own: &str, all: &str| {
            let joint = "edge = \"left-top\"\nkind = \"rebate\"\nwithin = \"top\"\n";
            let text = DESIGN.replace("rebate = \"7 mm\"\n", all);
            let text = format!("{text}\n[[box.joint]]\n{joint}{own}");
            let design = design::read(&text, Some(SHELF))
                .expect("a sound design")
                .design;
            let walls = [WallPlan {
                thickness: 0.015,
                setback: 0.0,
            }; 6];
            let edge = Edge::between(Wall::Left, Wall::Top).expect("they meet");
            match joints(&design.enclosure.carpentry, &walls)[edge.index()] {
                Joint::Rebate { within, depth } => {
                    assert_eq!(within, Wall::Top);
                    depth
                }
                other => panic!("{other:?}"),
            }
        };
        let all = "rebate = \"7 mm\"\n";
        assert_eq!(depth("depth = \"4 mm\"\n", all), 0.004);
        assert_eq!(depth("", all), 0.007);
        assert_eq!(depth("", ""), 0.0075);
    }
}
