//! In which column each block stands.

use super::circuit::{Circuit, Face, Rules};
use super::faces::Faces;

/// Passes of improvement at most.
const PASSES: usize = 40;
/// What a step of height over the room weighs against a step of length.
const OVERFULL: i64 = 4;
/// What a line back weighs against a step of length.
const BACK: i64 = 30;

struct Layering<'a> {
    circuit: &'a Circuit,
    faces: &'a Faces,
    /// Pairs of blocks, the first left of the second.
    arrows: Vec<(usize, usize)>,
    /// Height of every block with the gap below it, and of the room, in steps.
    heights: Vec<i64>,
    room: i64,
    /// Columns at most; where there are fewer than the arrows ask for, some lead back.
    most: usize,
}

/// The column of every block, from 0 on without gaps; of `most` columns where the
/// arrows ask for more. Columns are filled to a share of the room's height.
pub(super) fn layered(
    circuit: &Circuit,
    faces: &Faces,
    rules: &Rules,
    most: Option<usize>,
    share: f64,
) -> Vec<usize> {
    let steps = |mm: f64| libm::ceil(mm / rules.step) as i64;
    let layering = Layering {
        circuit,
        faces,
        arrows: acyclic(circuit.blocks.len(), &arrows(circuit, faces)),
        heights: (circuit.blocks.iter())
            .map(|b| steps(b.size[1]) + 2)
            .collect(),
        room: steps(share * rules.room[1]),
        most: most.unwrap_or(usize::MAX).max(1),
    };
    let mut layers = layering.longest_paths();
    let asked = layers.iter().max().map_or(0, |l| l + 1);
    if asked > layering.most {
        for layer in &mut layers {
            *layer = *layer * layering.most / asked;
        }
    }
    layering.improve(&mut layers);
    without_gaps(&layers)
}

/// Who gives to whom, and how strongly.
fn arrows(circuit: &Circuit, faces: &Faces) -> Vec<(usize, usize, i64)> {
    let mut out: Vec<(usize, usize, i64)> = Vec::new();
    for net in circuit.nets.iter().filter(|net| net.leads) {
        let on = |face: Face| {
            let own = net
                .pins
                .iter()
                .filter(move |p| faces[p.block][p.port] == face);
            own.map(|p| p.block)
        };
        for from in on(Face::Right) {
            for to in on(Face::Left).filter(|to| *to != from) {
                match out.iter_mut().find(|(a, b, _)| (*a, *b) == (from, to)) {
                    Some((_, _, weight)) => *weight += 1,
                    None => out.push((from, to, 1)),
                }
            }
        }
    }
    out
}

/// The arrows without those that close a cycle: of a good order of the blocks
/// (`eades-1993`) those that lead back.
fn acyclic(count: usize, arrows: &[(usize, usize, i64)]) -> Vec<(usize, usize)> {
    let mut left: Vec<usize> = (0..count).collect();
    let (mut head, mut tail): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
    while !left.is_empty() {
        let sum = |block: usize, out: bool| -> i64 {
            let own = arrows.iter().filter(|(a, b, _)| {
                let (own, other) = if out { (*a, *b) } else { (*b, *a) };
                own == block && left.contains(&other)
            });
            own.map(|(_, _, w)| w).sum()
        };
        let source = left.iter().position(|b| sum(*b, false) == 0);
        let sink = left.iter().position(|b| sum(*b, true) == 0);
        if let Some(at) = source {
            head.push(left.remove(at));
        } else if let Some(at) = sink {
            tail.push(left.remove(at));
        } else {
            let gain = |b: usize| sum(b, true) - sum(b, false);
            let most = (0..left.len()).max_by_key(|i| (gain(left[*i]), core::cmp::Reverse(*i)));
            head.push(left.remove(most.unwrap_or(0)));
        }
    }
    head.extend(tail.into_iter().rev());
    let mut rank = vec![0; count];
    for (i, block) in head.iter().enumerate() {
        rank[*block] = i;
    }
    let forward = arrows.iter().filter(|(a, b, _)| rank[*a] < rank[*b]);
    forward.map(|(a, b, _)| (*a, *b)).collect()
}

impl Layering<'_> {
    fn longest_paths(&self) -> Vec<usize> {
        let mut layers = vec![0; self.heights.len()];
        for _ in 0..layers.len() {
            for (a, b) in &self.arrows {
                layers[*b] = layers[*b].max(layers[*a] + 1);
            }
        }
        layers
    }

    /// Moves blocks, alone or with all before or behind them, while that helps.
    fn improve(&self, layers: &mut Vec<usize>) {
        let groups: Vec<Vec<usize>> = (0..layers.len())
            .flat_map(|b| [vec![b], self.all(b, true), self.all(b, false)])
            .collect();
        let mut best = self.cost(layers);
        for _ in 0..PASSES {
            let before = best;
            for group in &groups {
                for by in [-3_i64, -2, -1, 1, 2, 3] {
                    let Some(trial) = self.moved(layers, group, by) else {
                        continue;
                    };
                    let cost = self.cost(&trial);
                    if cost < best {
                        (*layers, best) = (trial, cost);
                    }
                }
            }
            if best == before {
                break;
            }
        }
    }

    /// A block with everything behind it, or before it.
    fn all(&self, block: usize, behind: bool) -> Vec<usize> {
        let mut out = vec![block];
        let mut at = 0;
        while at < out.len() {
            for (a, b) in &self.arrows {
                let (own, next) = if behind { (*a, *b) } else { (*b, *a) };
                if own == out[at] && !out.contains(&next) {
                    out.push(next);
                }
            }
            at += 1;
        }
        out
    }

    fn moved(&self, layers: &[usize], group: &[usize], by: i64) -> Option<Vec<usize>> {
        let mut out = layers.to_vec();
        for block in group {
            out[*block] = usize::try_from(layers[*block] as i64 + by).ok()?;
        }
        let highest = layers.iter().max().copied().unwrap_or(0);
        let free = self.most == usize::MAX;
        let kept = !free || self.arrows.iter().all(|(a, b)| out[*a] < out[*b]);
        let last = if free { highest + 1 } else { self.most - 1 };
        (kept && out.iter().all(|l| *l <= last)).then_some(out)
    }

    /// Length of all nets in columns, crowding, and the number of columns.
    fn cost(&self, layers: &[usize]) -> i64 {
        let count = layers.iter().max().map_or(0, |l| l + 1);
        let mut filled = vec![0; count];
        for (block, layer) in layers.iter().enumerate() {
            filled[*layer] += self.heights[block];
        }
        let mut cost = 2 * count as i64;
        let back = self.arrows.iter().filter(|(a, b)| layers[*a] >= layers[*b]);
        cost += BACK * back.count() as i64;
        for net in self.circuit.nets.iter().filter(|n| n.pins.len() > 1) {
            let channels = net.pins.iter().map(|p| {
                let right = self.faces[p.block][p.port] == Face::Right;
                layers[p.block] + usize::from(right)
            });
            let (low, high) = channels.fold((usize::MAX, 0), |(l, h), c| (l.min(c), h.max(c)));
            cost += 2 * net.pull() * (high - low) as i64;
            for layer in filled.iter_mut().take(high).skip(low) {
                *layer += 1;
            }
        }
        let over = filled.iter().map(|f| (f - self.room).max(0));
        cost + OVERFULL * over.sum::<i64>()
    }
}

/// The same columns numbered without gaps.
fn without_gaps(layers: &[usize]) -> Vec<usize> {
    let mut used = layers.to_vec();
    used.sort_unstable();
    used.dedup();
    let place = |l: &usize| used.iter().position(|u| u == l).unwrap_or(0);
    layers.iter().map(place).collect()
}
