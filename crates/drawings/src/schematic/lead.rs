//! Sizes of parts: what their symbols, names and terminals take.

use super::{Face, Part, Symbol};
use crate::geometry::Point;
use crate::text::Lettering;
use wiring::diagram::{Block, Order, Port};

/// Where a terminal's line reaches its part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lead {
    pub(super) at: Point,
    pub(super) left: bool,
}

/// Sizes of a drawing, all in proportion.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kit {
    /// Size of a unit in mm.
    pub(super) k: f64,
}

/// Step of the layout's grid, units.
const STEP: f64 = 2.5;
/// Steps by which the upright side of a comparator is longer than its terminals need,
/// so that their names stand clear of the slanted ones.
pub(super) const COMPARATOR: f64 = 2.4;

impl Kit {
    pub(super) fn text(self) -> Lettering {
        Lettering::regular(2.0 * self.k)
    }

    pub(super) fn name(self) -> Lettering {
        Lettering::bold(2.1 * self.k)
    }

    /// Height of a row of text.
    pub(super) fn row(self) -> f64 {
        2.6 * self.k
    }

    pub(super) fn step(self) -> f64 {
        STEP * self.k
    }

    /// Room for a label on a line, its ends included; 0 without one.
    pub(super) fn label(self, text: &str) -> f64 {
        if text.is_empty() {
            0.0
        } else {
            self.text().width(text) + 0.8 * self.k
        }
    }

    /// Width of the names of the terminals of a side.
    pub(super) fn names(self, part: &Part, face: Face) -> f64 {
        let on = part
            .terminals
            .iter()
            .filter(|t| t.face == face || t.face == Face::Either);
        let widths = on.map(|t| self.text().width(&t.name));
        widths.fold(0.0, f64::max)
    }

    /// Length of a lead: what a terminal's name beside a symbol needs.
    pub(super) fn lead(self, part: &Part) -> f64 {
        let widest = self
            .names(part, Face::Left)
            .max(self.names(part, Face::Right));
        (widest + 1.2 * self.k).max(2.0 * self.k)
    }

    /// Ports of the fuller side.
    fn most(part: &Part) -> usize {
        let on = |face| part.terminals.iter().filter(|t| t.face == face).count();
        let either = on(Face::Either);
        let most = on(Face::Left).max(on(Face::Right));
        match either {
            0 => most,
            2 if part.terminals.len() == 2 => 1,
            n => most + n,
        }
    }

    /// Lines of name and note above the body.
    pub(super) fn above(self, part: &Part) -> f64 {
        if part.name.is_empty() {
            0.0
        } else {
            self.row() + 0.4 * self.k
        }
    }

    fn below(self, part: &Part) -> f64 {
        if part.note.is_empty() {
            0.0
        } else {
            self.row()
        }
    }

    /// Width of the body, and of the whole part.
    pub(super) fn widths(self, part: &Part) -> (f64, f64) {
        let k = self.k;
        let words = self
            .name()
            .width(&part.name)
            .max(self.text().width(&part.note));
        match part.symbol {
            Symbol::Block | Symbol::Strip => {
                let sides = self.names(part, Face::Left) + self.names(part, Face::Right);
                let least = if part.symbol == Symbol::Strip {
                    6.0
                } else {
                    12.0
                };
                let inside = (sides + 4.0 * k).max(words + 2.4 * k).max(least * k);
                (inside, inside)
            }
            Symbol::Comparator => {
                let body = 14.0 * k;
                (body, (body + 4.0 * k).max(words))
            }
            other => {
                let [w, _] = other.body().unwrap_or([6.0, 6.0]);
                let leads = if Self::one_sided(part) { 1.0 } else { 2.0 } * self.lead(part);
                (w * k, (w * k + leads).max(words))
            }
        }
    }

    /// Whether all terminals are on one side.
    pub(super) fn one_sided(part: &Part) -> bool {
        let on = |face| part.terminals.iter().all(|t| t.face == face);
        on(Face::Left) || on(Face::Right)
    }

    /// The part as the layout sees it; `labels` are the widths on its lines.
    pub(super) fn block(self, part: &Part, labels: &[f64]) -> Block {
        let most = Self::most(part).max(1) as f64;
        let ports = 2.0 * most * self.step();
        let body = match part.symbol.body() {
            Some([_, h]) => (h * self.k + 0.8 * self.k).max(ports - self.step()),
            None if part.symbol == Symbol::Comparator => ports + COMPARATOR * self.step(),
            None => ports,
        };
        let up = |mm: f64| crate::math::ceil(mm / self.step() - 1e-9) * self.step();
        let middle = up(self.above(part) + body / 2.0);
        let height = up(middle + body / 2.0 + self.below(part));
        let ports = part
            .terminals
            .iter()
            .zip(labels)
            .map(|(terminal, label)| Port {
                face: terminal.face,
                label: *label,
            });
        let free = matches!(part.symbol, Symbol::Strip | Symbol::Block);
        Block {
            size: [self.widths(part).1, height],
            middle,
            ports: ports.collect(),
            order: if free { Order::Free } else { Order::Fixed },
        }
    }
}
