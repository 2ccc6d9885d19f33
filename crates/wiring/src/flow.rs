//! Direct current in every wire: the nodal equations of a system whose loads
//! draw stated currents.

use crate::{Carries, End, Mode, System, Through};

/// A current drawn from one terminal and given back at another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Where it flows in.
    pub from: End,
    /// Where it flows out.
    pub to: End,
    /// How much, in A.
    pub amperes: f64,
}

/// What flows where.
#[derive(Clone, Debug, PartialEq)]
pub struct Flow {
    /// Current of each wire in A, from its first end to its second.
    pub wires: Vec<f64>,
    /// Current of each conduction inside each part in A, from its first terminal to its second;
    /// 0 for loads, whose currents are those stated.
    pub inner: Vec<Vec<f64>>,
    /// Potential of each terminal in V, part after part, against the return of the source;
    /// `None` where nothing conducts to the source.
    pub volts: Vec<Option<f64>>,
}

/// Resistance of a closed contact, a fuse link or a strip in Ω: what keeps the equations
/// regular where several lie in parallel. Common practice, no source: contact makers state
/// some 10 mΩ to 50 mΩ for small switches.
const CONTACT: f64 = 0.02;

/// Solves for the currents of all wires in a mode.
///
/// `source` are the terminals of the source, its positive one first; `ohms` is the resistance
/// of each wire in Ω, positive. Draws whose terminals do not conduct to the source are left out.
///
/// The potentials solve G·u = i, G being the conductance matrix of wires, closed contacts,
/// fuses and resistances (modified nodal analysis with the source as the reference of one net
/// and a stiff branch to the other), by elimination with the diagonal as pivot, which is stable
/// for these symmetric, diagonally dominant matrices.
#[must_use]
pub fn flow(
    system: &System,
    mode: &Mode,
    source: [End; 2],
    volts: f64,
    ohms: &[f64],
    draws: &[Draw],
) -> Flow {
    let branches = branches(system, mode, ohms);
    let offsets = system.offsets();
    let count = offsets[system.parts.len()];
    let place = |end: End| offsets[end.part] + end.terminal;
    let [plus, minus] = source.map(place);
    let reached = reached(count, &branches, [plus, minus]);
    let known = |at: usize| match at {
        _ if at == plus => Some(volts),
        _ if at == minus => Some(0.0),
        _ => None,
    };
    let mut unknown = vec![None; count];
    let mut free = 0;
    for (at, unknown) in unknown.iter_mut().enumerate() {
        if reached[at] && known(at).is_none() {
            *unknown = Some(free);
            free += 1;
        }
    }
    let mut matrix = vec![vec![0.0; free]; free];
    let mut right = vec![0.0; free];
    for branch in branches.iter().filter(|branch| reached[branch.ends[0]]) {
        let g = 1.0 / branch.ohms;
        for (own, other) in [(0, 1), (1, 0)] {
            let (own, other) = (branch.ends[own], branch.ends[other]);
            let Some(row) = unknown[own] else { continue };
            matrix[row][row] += g;
            match (unknown[other], known(other)) {
                (Some(column), _) => matrix[row][column] -= g,
                (None, Some(volts)) => right[row] += g * volts,
                (None, None) => {}
            }
        }
    }
    for draw in draws {
        let (from, to) = (place(draw.from), place(draw.to));
        if !(reached[from] && reached[to]) {
            continue;
        }
        if let Some(row) = unknown[from] {
            right[row] -= draw.amperes;
        }
        if let Some(row) = unknown[to] {
            right[row] += draw.amperes;
        }
    }
    let solved = solve(matrix, right);
    let volts: Vec<Option<f64>> = (0..count)
        .map(|at| known(at).or_else(|| unknown[at].map(|row| solved[row])))
        .collect();
    gathered(system, &branches, volts)
}

/// Two terminals and the resistance between them.
struct Branch {
    ends: [usize; 2],
    ohms: f64,
    of: Of,
}

/// What a branch is.
enum Of {
    Wire(usize),
    Inner(usize, usize),
}

fn branches(system: &System, mode: &Mode, ohms: &[f64]) -> Vec<Branch> {
    let offsets = system.offsets();
    let mut branches = Vec::new();
    for (index, wire) in system.wires.iter().enumerate() {
        let ohms = match wire.carries {
            Carries::Touch => CONTACT,
            _ => ohms[index],
        };
        branches.push(Branch {
            ends: [wire.from, wire.to].map(|end| offsets[end.part] + end.terminal),
            ohms,
            of: Of::Wire(index),
        });
    }
    for (part, own) in system.parts.iter().enumerate() {
        for (index, inner) in own.inner.iter().enumerate() {
            let ohms = match inner.through {
                Through::Metal | Through::Fuse => CONTACT,
                Through::Resistance(ohms) => ohms.max(CONTACT),
                Through::Load => continue,
            };
            if inner.conducts(mode.positions[part]) {
                branches.push(Branch {
                    ends: inner.between.map(|terminal| offsets[part] + terminal),
                    ohms,
                    of: Of::Inner(part, index),
                });
            }
        }
    }
    branches
}

/// Terminals that conduct to one of some others.
fn reached(count: usize, branches: &[Branch], from: [usize; 2]) -> Vec<bool> {
    let mut reached = vec![false; count];
    for at in from {
        reached[at] = true;
    }
    loop {
        let mut grown = false;
        for branch in branches {
            let [a, b] = branch.ends;
            if reached[a] != reached[b] {
                reached[a] = true;
                reached[b] = true;
                grown = true;
            }
        }
        if !grown {
            return reached;
        }
    }
}

/// Elimination with the diagonal as pivot.
fn solve(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Vec<f64> {
    let count = right.len();
    for pivot in 0..count {
        let (above, below) = matrix.split_at_mut(pivot + 1);
        let row = &above[pivot];
        for (index, other) in below.iter_mut().enumerate() {
            let factor = other[pivot] / row[pivot];
            if factor == 0.0 {
                continue;
            }
            for column in pivot..count {
                other[column] -= factor * row[column];
            }
            right[pivot + 1 + index] -= factor * right[pivot];
        }
    }
    for pivot in (0..count).rev() {
        let known: f64 = (pivot + 1..count)
            .map(|column| matrix[pivot][column] * right[column])
            .sum();
        right[pivot] = (right[pivot] - known) / matrix[pivot][pivot];
    }
    right
}

fn gathered(system: &System, branches: &[Branch], volts: Vec<Option<f64>>) -> Flow {
    let mut flow = Flow {
        wires: vec![0.0; system.wires.len()],
        inner: system
            .parts
            .iter()
            .map(|part| vec![0.0; part.inner.len()])
            .collect(),
        volts,
    };
    for branch in branches {
        let [a, b] = branch.ends.map(|at| flow.volts[at]);
        let amperes = match (a, b) {
            (Some(a), Some(b)) => (a - b) / branch.ohms,
            _ => 0.0,
        };
        match branch.of {
            Of::Wire(index) => flow.wires[index] = amperes,
            Of::Inner(part, index) => flow.inner[part][index] = amperes,
        }
    }
    flow
}
