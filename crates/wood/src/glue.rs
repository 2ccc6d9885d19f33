//! What outer edges leave of the glue lines beneath them.

use crate::plan::{Edge, EdgeForm, Joint, Plan};
use crate::vector::dot;

/// The faces that touch in a joint, seen along the edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JointLine {
    /// Their width from inside to outside before the outer edge is formed, in m.
    pub whole: f64,
    /// What the formed edge leaves of it, in m; zero where it reaches the inside.
    pub left: f64,
}

/// Heights above the inner faces of the edge's first and second wall, in m.
type Heights = [f64; 2];

impl Plan {
    /// The glue line of an edge.
    #[must_use]
    pub fn joint_line(&self, edge: Edge) -> JointLine {
        let form = self.edges.iter().find(|(known, _)| *known == edge);
        self.joint_line_with(edge, form.map(|(_, what)| *what))
    }

    /// The glue line of an edge if it were formed so.
    #[must_use]
    pub fn joint_line_with(&self, edge: Edge, form: Option<EdgeForm>) -> JointLine {
        let section = Section::of(self, edge, form);
        let path = self.path(edge);
        let mut line = JointLine {
            whole: 0.0,
            left: 0.0,
        };
        let mut open = section.keeps(path[0]);
        for pair in path.windows(2) {
            let length = section.distance(pair[0], pair[1]);
            line.whole += length;
            if open {
                let share = section.kept(pair[0], pair[1]);
                line.left += share * length;
                open = share == 1.0;
            }
        }
        line
    }

    /// The touching faces from inside to outside.
    fn path(&self, edge: Edge) -> Vec<Heights> {
        let [first, second] =
            [edge.first, edge.second].map(|wall| self.walls[wall.index()].thickness);
        match self.joints[edge.index()] {
            Joint::Butt { through } if through == edge.first => vec![[0.0, 0.0], [0.0, second]],
            Joint::Butt { .. } => vec![[0.0, 0.0], [first, 0.0]],
            Joint::Mitre => vec![[0.0, 0.0], [first, second]],
            Joint::Rebate { within, depth } if within == edge.first => {
                vec![[0.0, 0.0], [depth, 0.0], [depth, second]]
            }
            Joint::Rebate { depth, .. } => vec![[0.0, 0.0], [0.0, depth], [first, depth]],
        }
    }
}

/// A section across an edge.
struct Section {
    /// Cosine of the angle between the normals of its walls.
    cos: f64,
    /// Heights of the block's faces above the inner faces.
    faces: Heights,
    form: Option<EdgeForm>,
}

impl Section {
    fn of(plan: &Plan, edge: Edge, form: Option<EdgeForm>) -> Self {
        let walls = [edge.first, edge.second];
        let [a, b] = walls.map(|wall| plan.block.plane(wall).normal);
        Self {
            cos: dot(a, b),
            faces: walls.map(|wall| {
                let what = plan.walls[wall.index()];
                what.setback + what.thickness
            }),
            form,
        }
    }

    /// Length of an arm given by its heights.
    fn length(&self, [p, q]: Heights) -> f64 {
        let square = p * p - 2.0 * self.cos * p * q + q * q;
        (square / (1.0 - self.cos * self.cos)).sqrt()
    }

    fn distance(&self, a: Heights, b: Heights) -> f64 {
        self.length([b[0] - a[0], b[1] - a[1]])
    }

    /// Whether the form leaves a point.
    fn keeps(&self, at: Heights) -> bool {
        let below = [self.faces[0] - at[0], self.faces[1] - at[1]];
        match self.form {
            None => true,
            Some(EdgeForm::Chamfer(size)) => {
                below[0] + below[1] >= size * (1.0 - self.cos * self.cos).sqrt()
            }
            Some(EdgeForm::Round(radius)) => {
                let arm = below.map(|depth| radius - depth);
                let beside = arm[0] < self.cos * arm[1] || arm[1] < self.cos * arm[0];
                beside || self.length(arm) <= radius
            }
        }
    }

    /// The share of a way that is kept from its start on; what is left is convex.
    fn kept(&self, from: Heights, to: Heights) -> f64 {
        if self.keeps(to) {
            return 1.0;
        }
        let (mut inside, mut outside) = (0.0, 1.0);
        for _ in 0..50 {
            let middle = 0.5 * (inside + outside);
            let at = [0, 1].map(|k| from[k] + middle * (to[k] - from[k]));
            if self.keeps(at) {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        inside
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Block, Wall, WallPlan};

    fn line(joint: Joint, form: EdgeForm) -> JointLine {
        let plan = Plan {
            block: Block {
                width: 0.3,
                height: 0.3,
                depth: 0.3,
                front_lean: 0.0,
                back_lean: 0.0,
            },
            walls: [WallPlan {
                thickness: 0.01,
                setback: 0.0,
            }; 6],
            joints: [joint; 12],
            edges: vec![(Edge::ALL[0], form)],
            holes: Vec::new(),
            boards: Vec::new(),
        };
        plan.joint_line(Edge::ALL[0])
    }

    fn check(joint: Joint, form: EdgeForm, whole: f64, left: f64) {
        let found = line(joint, form);
        assert!((found.whole - whole).abs() < 1e-12, "{found:?}");
        assert!((found.left - left).abs() < 1e-12, "{found:?} {left}");
    }

    #[test]
    fn rounding_eats_the_outer_end_of_a_mitre() {
        let root = core::f64::consts::SQRT_2;
        let left = root * 0.01 - 0.006 * (root - 1.0);
        check(Joint::Mitre, EdgeForm::Round(0.006), root * 0.01, left);
        let left = root * (0.01 - 0.003);
        check(Joint::Mitre, EdgeForm::Chamfer(0.006), root * 0.01, left);
    }

    #[test]
    fn a_butt_keeps_its_glue_line_until_the_radius_is_the_wall() {
        let joint = Joint::Butt {
            through: Wall::Front,
        };
        check(joint, EdgeForm::Round(0.01), 0.01, 0.01);
        let half = line(joint, EdgeForm::Round(0.015));
        assert!(half.left < 0.01 && half.left > 0.0);
        assert_eq!(line(joint, EdgeForm::Round(0.05)).left, 0.0);
    }

    #[test]
    fn a_rebate_has_its_step_besides() {
        let joint = Joint::Rebate {
            within: Wall::Left,
            depth: 0.004,
        };
        check(joint, EdgeForm::Round(0.004), 0.014, 0.014);
    }
}
