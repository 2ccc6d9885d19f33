//! Convex solids sorted into a tree of upright blocks, so that of thousands only the near ones
//! are asked.

use super::convex::Convex;
use crate::vector::Vector;

/// Solids in one leaf at most.
const LEAF: usize = 4;

/// Convex solids, those near each other together.
#[derive(Clone, Debug, Default)]
pub(crate) struct Grove {
    solids: Vec<Convex>,
    /// In the order of a walk from the root; the first is the root.
    nodes: Vec<Node>,
}

/// A block and what is in it.
#[derive(Clone, Copy, Debug)]
struct Node {
    low: Vector,
    high: Vector,
    /// Its solids, from and to.
    solids: [usize; 2],
    /// The next node of the walk that is not below this one.
    beyond: usize,
    leaf: bool,
}

impl Grove {
    pub(crate) fn new(mut solids: Vec<Convex>) -> Self {
        let mut nodes = Vec::new();
        if !solids.is_empty() {
            grow(&mut solids, 0, &mut nodes);
        }
        Self { solids, nodes }
    }

    /// All solids.
    pub(crate) fn solids(&self) -> &[Convex] {
        &self.solids
    }

    /// Solids whose blocks are nearer to that of another than a limit, which each that is
    /// asked may lower; the last limit.
    pub(crate) fn nearer(
        &self,
        to: &Convex,
        mut limit: f64,
        mut ask: impl FnMut(&Convex, f64) -> f64,
    ) -> f64 {
        let mut at = 0;
        while let Some(node) = self.nodes.get(at) {
            if to.block_distance_to(&node.low, &node.high) >= limit {
                at = node.beyond;
                continue;
            }
            if node.leaf {
                for solid in &self.solids[node.solids[0]..node.solids[1]] {
                    if to.block_distance(solid) < limit {
                        limit = ask(solid, limit);
                    }
                }
            }
            at += 1;
        }
        limit
    }
}

/// Sorts some solids, which stand from an index on, into nodes.
fn grow(solids: &mut [Convex], from: usize, nodes: &mut Vec<Node>) {
    let mut low = [f64::INFINITY; 3];
    let mut high = [f64::NEG_INFINITY; 3];
    for solid in solids.iter() {
        for i in 0..3 {
            low[i] = low[i].min(solid.low[i]);
            high[i] = high[i].max(solid.high[i]);
        }
    }
    let own = nodes.len();
    let leaf = solids.len() <= LEAF;
    nodes.push(Node {
        low,
        high,
        solids: [from, from + solids.len()],
        beyond: 0,
        leaf,
    });
    if !leaf {
        let width = |i: &usize| high[*i] - low[*i];
        let axis = (0..3).max_by(|i, j| width(i).total_cmp(&width(j)));
        let axis = axis.unwrap_or(0);
        let middle = |solid: &Convex| solid.low[axis] + solid.high[axis];
        let half = solids.len() / 2;
        solids.sort_by(|a, b| middle(a).total_cmp(&middle(b)));
        let (first, second) = solids.split_at_mut(half);
        grow(first, from, nodes);
        grow(second, from + half, nodes);
    }
    nodes[own].beyond = nodes.len();
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Pose, Solid};

    #[test]
    fn the_near_ones_are_asked_and_no_others() {
        let block = |i: u32| {
            let s = |k: u32| f64::from((i * 7919 + k * 104_729) % 1000) / 1000.0;
            let low = [s(1), s(2), s(3)];
            let high = [0, 1, 2].map(|k| low[k] + 0.01 + 0.05 * s(4 + k as u32));
            Convex::placed(&Solid::block(low, high), &Pose::at([0.0; 3]))
        };
        let all: Vec<Convex> = (0..300).map(block).collect();
        let grove = Grove::new(all.clone());
        assert_eq!(grove.solids().len(), all.len());
        for i in 300..400 {
            let this = block(i);
            for limit in [1e-9, 0.02, 0.1] {
                let wanted = all.iter().filter(|o| this.block_distance(o) < limit);
                let mut asked = 0;
                grove.nearer(&this, limit, |_, limit| {
                    asked += 1;
                    limit
                });
                assert_eq!(asked, wanted.count());
            }
            let nearest = all.iter().map(|o| this.block_distance(o));
            let nearest = nearest.fold(f64::INFINITY, f64::min);
            let found = grove.nearer(&this, f64::INFINITY, |o, _| this.block_distance(o));
            assert_eq!(found, nearest);
        }
        assert_eq!(Grove::default().nearer(&all[0], 1.0, |_, _| 0.0), 1.0);
    }
}
