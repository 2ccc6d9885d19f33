//! What is reached from a terminal, and through what.

use crate::{Carries, End, Mode, Role, System, Through, Wire};

/// One step of a way through a system.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Along a wire, by its place in the list.
    Wire(usize),
    /// Through a part, by its place and that of the conduction inside it.
    Inner {
        /// The part.
        part: usize,
        /// The conduction inside it.
        inner: usize,
    },
}

/// Where a search may pass.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Limits {
    /// Whether it passes fuses.
    pub fuses: bool,
    /// Whether it passes resistances.
    pub resistances: bool,
    /// Whether it passes loads.
    pub loads: bool,
    /// Parts it does not pass through; it may end at them.
    pub closed_parts: Vec<usize>,
    /// Wires it does not follow.
    pub closed_wires: Vec<usize>,
    /// What the wires it follows carry; any where empty.
    pub carries: Vec<Carries>,
    /// Roles of terminals at which it ends; it goes on from its start.
    pub ends_at: Vec<Role>,
}

impl Limits {
    /// Metal alone.
    #[must_use]
    pub fn metal() -> Self {
        Self::default()
    }

    /// Metal and fuses: what a supply flows through.
    #[must_use]
    pub fn supply() -> Self {
        Self {
            fuses: true,
            ..Self::default()
        }
    }

    /// Metal, fuses and resistances: what a signal flows through.
    #[must_use]
    pub fn signal() -> Self {
        Self {
            fuses: true,
            resistances: true,
            ..Self::default()
        }
    }

    /// The same without passing through some parts.
    #[must_use]
    pub fn but(mut self, parts: &[usize]) -> Self {
        self.closed_parts.extend_from_slice(parts);
        self
    }

    /// The same along wires that carry one of these.
    #[must_use]
    pub fn along(mut self, carries: &[Carries]) -> Self {
        self.carries.extend_from_slice(carries);
        self
    }

    /// The same, ending at terminals of some roles.
    #[must_use]
    pub fn ending_at(mut self, roles: &[Role]) -> Self {
        self.ends_at.extend_from_slice(roles);
        self
    }

    fn follows(&self, index: usize, wire: &Wire) -> bool {
        !self.closed_wires.contains(&index)
            && (self.carries.is_empty() || self.carries.contains(&wire.carries))
    }

    const fn passes(&self, through: Through) -> bool {
        match through {
            Through::Metal => true,
            Through::Fuse => self.fuses,
            Through::Resistance(_) => self.resistances,
            Through::Load => self.loads,
        }
    }
}

/// Everything reached from a terminal in one mode.
#[derive(Clone, Debug)]
pub struct Reach {
    offsets: Vec<usize>,
    start: End,
    came: Vec<Option<(End, Step)>>,
    order: Vec<End>,
}

impl System {
    /// What is reached from a terminal in a mode, nearest first.
    #[must_use]
    pub fn reach(&self, mode: &Mode, start: End, limits: &Limits) -> Reach {
        let offsets = self.offsets();
        let mut came = vec![None; offsets[self.parts.len()]];
        let mut seen = vec![false; came.len()];
        seen[offsets[start.part] + start.terminal] = true;
        let mut order = vec![start];
        let mut next = 0;
        while let Some(&at) = order.get(next) {
            next += 1;
            let role = self.parts[at.part].terminals[at.terminal].role;
            if at != start && limits.ends_at.contains(&role) {
                continue;
            }
            for (to, step) in self.steps(mode, at, limits) {
                let place = offsets[to.part] + to.terminal;
                if !seen[place] {
                    seen[place] = true;
                    came[place] = Some((at, step));
                    order.push(to);
                }
            }
        }
        Reach {
            offsets,
            start,
            came,
            order,
        }
    }

    /// Single steps from a terminal.
    fn steps(&self, mode: &Mode, at: End, limits: &Limits) -> Vec<(End, Step)> {
        let mut steps = Vec::new();
        for (index, wire) in self.wires.iter().enumerate() {
            if !limits.follows(index, wire) {
                continue;
            }
            if wire.from == at {
                steps.push((wire.to, Step::Wire(index)));
            } else if wire.to == at {
                steps.push((wire.from, Step::Wire(index)));
            }
        }
        let part = &self.parts[at.part];
        if limits.closed_parts.contains(&at.part) {
            return steps;
        }
        for (index, inner) in part.inner.iter().enumerate() {
            let Some(own) = inner.between.iter().position(|own| *own == at.terminal) else {
                continue;
            };
            if inner.conducts(mode.positions[at.part]) && limits.passes(inner.through) {
                let to = End {
                    part: at.part,
                    terminal: inner.between[1 - own],
                };
                let step = Step::Inner {
                    part: at.part,
                    inner: index,
                };
                steps.push((to, step));
            }
        }
        steps
    }
}

impl Reach {
    /// Whether a terminal is reached.
    #[must_use]
    pub fn has(&self, end: End) -> bool {
        end == self.start || self.came[self.offsets[end.part] + end.terminal].is_some()
    }

    /// Every terminal reached, nearest first, the start itself before all.
    #[must_use]
    pub fn ends(&self) -> &[End] {
        &self.order
    }

    /// A shortest way to a terminal: the steps from the start, and where each ends.
    #[must_use]
    pub fn way(&self, to: End) -> Option<Vec<(Step, End)>> {
        if !self.has(to) {
            return None;
        }
        let mut way = Vec::new();
        let mut at = to;
        while at != self.start {
            let (before, step) = self.came[self.offsets[at.part] + at.terminal]?;
            way.push((step, at));
            at = before;
        }
        way.reverse();
        Some(way)
    }
}
