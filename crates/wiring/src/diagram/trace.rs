//! A net as points joined by level and upright stretches.

use super::geometry::Drawn;

/// Points and the stretches between them.
#[derive(Default)]
pub(super) struct Trace {
    points: Vec<[f64; 2]>,
    stretches: Vec<[usize; 2]>,
}

impl Trace {
    /// Adds a stretch.
    pub(super) fn join(&mut self, a: [f64; 2], b: [f64; 2]) {
        if a != b {
            let ends = [self.point(a), self.point(b)];
            self.stretches.push(ends);
        }
    }

    fn point(&mut self, at: [f64; 2]) -> usize {
        if let Some(known) = self.points.iter().position(|p| *p == at) {
            return known;
        }
        self.points.push(at);
        self.points.len() - 1
    }

    fn at(&self, point: usize) -> Vec<usize> {
        let own = self.stretches.iter().enumerate();
        own.filter(|(_, s)| s.contains(&point))
            .map(|(i, _)| i)
            .collect()
    }

    /// Whether a stretch is level.
    fn level(&self, stretch: usize) -> bool {
        let [a, b] = self.stretches[stretch];
        self.points[a][1] == self.points[b][1]
    }

    /// Points where a single line turns.
    pub(super) fn bends(&self) -> usize {
        let turns = |point: &usize| match self.at(*point)[..] {
            [a, b] => self.level(a) != self.level(b),
            _ => false,
        };
        (0..self.points.len()).filter(turns).count()
    }

    /// How often stretches of another net cross those of this one.
    pub(super) fn crossings(&self, other: &Self) -> usize {
        let mut count = 0;
        for a in 0..self.stretches.len() {
            for b in 0..other.stretches.len() {
                let (level, upright) = match (self.level(a), other.level(b)) {
                    (true, false) => (self.ends(a), other.ends(b)),
                    (false, true) => (other.ends(b), self.ends(a)),
                    _ => continue,
                };
                let ([p, q], [r, s]) = (level, upright);
                let between = |v: f64, a: f64, b: f64| a.min(b) < v && v < a.max(b);
                count += usize::from(between(r[0], p[0], q[0]) && between(p[1], r[1], s[1]));
            }
        }
        count
    }

    fn ends(&self, stretch: usize) -> [[f64; 2]; 2] {
        self.stretches[stretch].map(|p| self.points[p])
    }

    /// Lines from pin or branch to pin or branch, and dots at the branches.
    pub(super) fn drawn(&self) -> Drawn {
        let degree: Vec<usize> = (0..self.points.len()).map(|p| self.at(p).len()).collect();
        let mut used = vec![false; self.stretches.len()];
        let mut runs = Vec::new();
        for start in (0..self.points.len()).filter(|p| degree[*p] != 2) {
            for first in self.at(start) {
                if !used[first] {
                    runs.push(self.walk(start, first, &mut used));
                }
            }
        }
        let dots = (0..self.points.len()).filter(|p| degree[*p] > 2);
        Drawn {
            runs,
            dots: dots.map(|p| self.points[p]).collect(),
        }
    }

    /// From a point along a stretch to the next end or branch; points on a straight
    /// line are left out.
    fn walk(&self, start: usize, first: usize, used: &mut [bool]) -> Vec<[f64; 2]> {
        let mut run = vec![self.points[start]];
        let (mut at, mut along) = (start, first);
        loop {
            used[along] = true;
            let [a, b] = self.stretches[along];
            at = if a == at { b } else { a };
            let next = match self.at(at)[..] {
                [x, y] => Some(if x == along { y } else { x }).filter(|n| !used[*n]),
                _ => None,
            };
            match next {
                Some(next) => {
                    if self.level(next) != self.level(along) {
                        run.push(self.points[at]);
                    }
                    along = next;
                }
                None => {
                    run.push(self.points[at]);
                    return run;
                }
            }
        }
    }
}
