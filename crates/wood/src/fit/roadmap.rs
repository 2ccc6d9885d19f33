//! A roadmap of poses grown from both ends until they meet: rapidly exploring random trees
//! (key `kuffner-lavalle-2000`), with a fixed seed and a bounded number of nodes.

use super::carry::{MARGIN, WIDE};
use super::connect::Links;
use super::motion::Mover;
use crate::Pose;
use crate::math::{atan2, cos, sin};
use crate::vector::{Vector, length, sub, unit};

/// Longest steps, in m of the furthest point: the second where the first is not free.
const STEPS: [f64; 2] = [0.04, 0.01];
/// Steps towards the other tree in a row.
const GREEDY: usize = 12;
/// The seed of all searches.
const SEED: u64 = 0x9E37_79B9_7F4A_7C15;

/// Poses from one place to another, or none where the trees do not meet.
pub(crate) fn roadmap(mover: &Mover, links: &Links, from: &Pose, to: &Pose) -> Option<Vec<Pose>> {
    let mut trees = [Tree::new(*from), Tree::new(*to)];
    let mut draw = Draw(SEED);
    let mut growing = 0;
    for i in 0..links.nodes {
        let target = if i % 2 == 0 {
            draw.between(links, from, to)
        } else {
            draw.pose(links)
        };
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
        let step = |longest: f64| {
            if distance <= longest {
                *target
            } else {
                from.toward(target, longest / distance)
            }
        };
        let mut steps = STEPS.iter().map(|longest| step(*longest));
        let to = steps.find(|to| mover.turning(&from, to, MARGIN, WIDE).is_some())?;
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

    fn middle(&mut self, links: &Links) -> Vector {
        let size = sub(links.room[1], links.room[0]);
        [0, 1, 2].map(|i| links.room[0][i] + self.share() * size[i])
    }

    /// A pose with its middle in the room, turned part of the way between two.
    fn between(&mut self, links: &Links, from: &Pose, to: &Pose) -> Pose {
        let turn = from.toward(to, self.share()).turn;
        let middle = self.middle(links);
        links.centred(&turn, middle)
    }

    /// A pose with its middle in the room; all attitudes are equally likely (key
    /// `shoemake-1992`).
    fn pose(&mut self, links: &Links) -> Pose {
        let middle = self.middle(links);
        let full = 2.0 * core::f64::consts::PI;
        let (split, first, second) = (self.share(), full * self.share(), full * self.share());
        let (a, b) = ((1.0 - split).sqrt(), split.sqrt());
        let half_axis = [a * cos(first), b * sin(second), b * cos(second)];
        let sine = length(half_axis);
        let angle = 2.0 * atan2(sine, a * sin(first));
        links.centred(&Pose::about(unit(half_axis), angle), middle)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Solid;
    use crate::fit::convex::Convex;
    use crate::fit::obstacles::Obstacles;

    fn block(low: [f64; 3], high: [f64; 3]) -> Convex {
        Convex::placed(&Solid::block(low, high), &Pose::at([0.0; 3]))
    }

    /// A corridor 60 mm wide with a right-angled corner, open above by less than the part is
    /// long, and a part 150 mm long that must turn as it goes around.
    #[test]
    fn a_long_part_goes_around_a_corner() {
        let walls = [
            block([-0.1, -0.1, 0.0], [0.6, 0.0, 0.08]),
            block([-0.1, 0.0, 0.0], [0.0, 0.6, 0.08]),
            block([0.1, 0.1, 0.0], [0.6, 0.6, 0.08]),
            block([-0.1, -0.1, -0.1], [0.6, 0.6, 0.0]),
            block([-0.1, -0.1, 0.08], [0.6, 0.6, 0.1]),
        ];
        let solids = [Solid::block(
            [-0.075, -0.015, -0.015],
            [0.075, 0.015, 0.015],
        )];
        let mover = Mover::new(
            &solids,
            Obstacles {
                woods: Vec::new(),
                parts: walls.iter().collect(),
            },
        );
        let from = Pose::at([0.4, 0.05, 0.04]);
        let quarter = Pose::about([0.0, 0.0, -1.0], core::f64::consts::FRAC_PI_2);
        let to = Pose {
            turn: quarter,
            at: [0.05, 0.4, 0.04],
        };
        let links = Links::over([[0.0; 3], [0.5, 0.5, 0.08]], &mover, 1000);
        let path = roadmap(&mover, &links, &from, &to).expect("it goes around");
        assert_eq!((path[0], path[path.len() - 1]), (from, to));
        for pair in path.windows(2) {
            for i in 0..=200 {
                let pose = pair[0].toward(&pair[1], f64::from(i) / 200.0);
                assert!(mover.gap(&pose, WIDE) >= MARGIN - 1e-9, "{pair:?}");
            }
        }
        let none = Links::over(links.room, &mover, 3);
        assert!(roadmap(&mover, &none, &from, &to).is_none());
    }
}
