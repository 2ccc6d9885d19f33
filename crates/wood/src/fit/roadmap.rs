//! A roadmap of poses grown from both ends until they meet: rapidly exploring random trees
//! (key `kuffner-lavalle-2000`), with a fixed seed and a bounded number of nodes.

use super::carry::{MARGIN, WIDE};
use super::connect::Links;
use super::motion::Mover;
use crate::Pose;
use crate::math::{atan2, cos, sin};
use crate::vector::{length, sub, unit};

/// Longest step, in m of the furthest point.
const STEP: f64 = 0.04;
/// Steps towards the other tree in a row.
const GREEDY: usize = 12;
/// The seed of all searches.
const SEED: u64 = 0x9E37_79B9_7F4A_7C15;

/// Poses from one place to another, or none where the trees do not meet.
pub(crate) fn roadmap(mover: &Mover, links: &Links, from: &Pose, to: &Pose) -> Option<Vec<Pose>> {
    let mut trees = [Tree::new(*from), Tree::new(*to)];
    let mut draw = Draw(SEED);
    let mut growing = 0;
    for _ in 0..links.nodes {
        let target = draw.pose(links);
        let [first, second] = &mut trees;
        let (tree, other) = if growing == 0 {
            (first, second)
        } else {
            (second, first)
        };
        if let Some(new) = tree.grow(mover, &target) {
            let goal = tree.nodes[new].0;
            for _ in 0..GREEDY {
                let Some(next) = other.grow(mover, &goal) else {
                    break;
                };
                if far(mover, &other.nodes[next].0, &goal) < 1e-9 {
                    let mut path = trees[0].to_root(if growing == 0 { new } else { next });
                    path.reverse();
                    path.extend(trees[1].to_root(if growing == 0 { next } else { new }));
                    path.dedup();
                    return Some(shortened(mover, path));
                }
            }
        }
        growing = 1 - growing;
    }
    None
}

/// How far the furthest point moves from one pose to another, at most.
fn far(mover: &Mover, from: &Pose, to: &Pose) -> f64 {
    length(sub(to.at, from.at)) + from.angle_to(to) * mover.radius()
}

/// Leaves out what can be left out.
fn shortened(mover: &Mover, mut path: Vec<Pose>) -> Vec<Pose> {
    let mut at = 0;
    while at + 2 < path.len() {
        let free = (at + 2..path.len()).rev().find(|next| {
            mover
                .turning(&path[at], &path[*next], MARGIN, WIDE)
                .is_some()
        });
        if let Some(next) = free {
            path.drain(at + 1..next);
        }
        at += 1;
    }
    path
}

struct Tree {
    /// Poses and the node each was grown from.
    nodes: Vec<(Pose, usize)>,
}

impl Tree {
    fn new(root: Pose) -> Self {
        Self {
            nodes: vec![(root, 0)],
        }
    }

    /// One step from the nearest node towards a pose; the new node where that is free.
    fn grow(&mut self, mover: &Mover, target: &Pose) -> Option<usize> {
        let distances = self.nodes.iter().map(|(pose, _)| far(mover, pose, target));
        let (nearest, distance) = distances
            .enumerate()
            .min_by(|(_, a), (_, b)| a.total_cmp(b))?;
        let from = self.nodes[nearest].0;
        let to = if distance <= STEP {
            *target
        } else {
            from.toward(target, STEP / distance)
        };
        mover.turning(&from, &to, MARGIN, WIDE)?;
        self.nodes.push((to, nearest));
        Some(self.nodes.len() - 1)
    }

    fn to_root(&self, mut node: usize) -> Vec<Pose> {
        let mut path = vec![self.nodes[node].0];
        while node != 0 {
            node = self.nodes[node].1;
            path.push(self.nodes[node].0);
        }
        path
    }
}

/// Evenly distributed numbers, always the same (splitmix64, key `steele-2014`).
struct Draw(u64);

impl Draw {
    /// From 0 to 1.
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(SEED);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A pose with its middle in the room; all attitudes are equally likely (key
    /// `shoemake-1992`).
    fn pose(&mut self, links: &Links) -> Pose {
        let size = sub(links.room[1], links.room[0]);
        let middle = [0, 1, 2].map(|i| links.room[0][i] + self.share() * size[i]);
        let full = 2.0 * core::f64::consts::PI;
        let (split, first, second) = (self.share(), full * self.share(), full * self.share());
        let (a, b) = ((1.0 - split).sqrt(), split.sqrt());
        let half_axis = [a * cos(first), b * sin(second), b * cos(second)];
        let sine = length(half_axis);
        let angle = 2.0 * atan2(sine, a * sin(first));
        links.centred(&Pose::about(unit(half_axis), angle), middle)
    }
}
