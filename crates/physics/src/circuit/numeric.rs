//! Filling in the numbers and walking the plan.

use std::fmt;
use std::sync::Arc;

use super::band::{Band, Grid};
use super::dense;
use super::element::{Admittance, OnePort, SemiInductance, TwoPort, Value};
use super::lanes::{LANES, Lanes, Reals};
use super::layout::{Layout, Stamp};
use super::network::{Circuit, ElementId, Node};
use super::plan::Plan;
use super::solution::Solution;
use crate::math::Complex;

/// Largest accepted backward error of a planned solve, relative and by component.
const BACKWARD_ERROR: f64 = 1e-11;

/// Frequencies in Hz at which a plan tries its pivots.
const REFERENCES: Reals = [5.0, 20.0, 60.0, 150.0, 500.0, 2_000.0, 8_000.0, 30_000.0];

/// The network has no unique solution at some frequency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Singular;

impl fmt::Display for Singular {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the network has no unique solution")
    }
}

impl std::error::Error for Singular {}

/// Solves circuits of one structure.
#[derive(Clone, Debug)]
pub struct Solver {
    structure: Arc<Structure>,
    coefficients: Vec<Coefficient>,
    laws: Vec<Law>,
    matrix: Vec<Lanes>,
    work: Vec<Lanes>,
    unknowns: Vec<Lanes>,
}

#[derive(Debug)]
struct Structure {
    layout: Layout,
    plan: Plan,
}

/// constant + jω·rising + falling/(jω).
#[derive(Clone, Copy, Debug, Default)]
struct Coefficient {
    constant: f64,
    rising: f64,
    falling: f64,
}

/// What an element has beyond coefficients, and where it goes.
#[derive(Clone, Debug)]
struct Law {
    kind: LawKind,
    element: usize,
}

#[derive(Clone, Debug)]
enum LawKind {
    Semi(SemiInductance),
    Relaxing(Admittance),
    OnePort(Arc<dyn OnePort>),
    TwoPort(Arc<dyn TwoPort>),
}

impl Solver {
    /// Plans the elimination for a circuit's structure and takes its values.
    #[must_use]
    pub fn new(circuit: &Circuit) -> Self {
        let layout = Layout::new(circuit);
        let slots = layout.places.len();
        let mut solver = Self {
            coefficients: vec![Coefficient::default(); slots],
            laws: Vec::new(),
            matrix: vec![Lanes::ZERO; slots],
            work: Vec::new(),
            unknowns: vec![Lanes::ZERO; layout.size + 1],
            structure: Arc::new(Structure {
                plan: Plan::new(0, &[], &[]),
                layout,
            }),
        };
        solver.load(circuit);
        solver.assemble(&Band::new(REFERENCES));
        let samples: Vec<Vec<Complex>> = (0..LANES)
            .map(|lane| solver.matrix.iter().map(|value| value.lane(lane)).collect())
            .collect();
        let layout = solver.structure.layout.clone();
        let plan = Plan::new(layout.size, &layout.places, &samples);
        solver.work = vec![Lanes::ZERO; plan.slots];
        solver.structure = Arc::new(Structure { layout, plan });
        solver
    }

    /// Takes the values of a circuit of the same structure.
    pub fn load(&mut self, circuit: &Circuit) {
        self.coefficients.fill(Coefficient::default());
        self.laws.clear();
        let structure = Arc::clone(&self.structure);
        for (element, (item, stamps)) in circuit
            .elements()
            .iter()
            .zip(&structure.layout.stamps)
            .enumerate()
        {
            let own = coefficient(&item.value);
            for stamp in stamps {
                self.coefficients[stamp.slot].add(stamp, own);
            }
            if let Some(kind) = law(&item.value) {
                self.laws.push(Law { kind, element });
            }
        }
    }

    /// Solves at every frequency of a grid and keeps everything.
    ///
    /// # Errors
    /// When the network has no unique solution.
    pub fn solve(&mut self, circuit: &Circuit, grid: &Grid) -> Result<Solution, Singular> {
        self.load(circuit);
        let size = self.structure.layout.size;
        let mut unknowns = Vec::with_capacity(grid.frequencies().len());
        for (_, count, band) in grid.bands() {
            self.solve_band(band)?;
            for lane in 0..count {
                let values = self.unknowns[..=size].iter();
                unknowns.push(values.map(|value| value.lane(lane)).collect());
            }
        }
        Ok(Solution::new(
            circuit.clone(),
            self.structure.layout.clone(),
            grid.frequencies().to_vec(),
            unknowns,
        ))
    }

    /// Solves for the frequencies of a band with the values last loaded.
    ///
    /// # Errors
    /// When the network has no unique solution.
    pub fn solve_band(&mut self, band: &Band) -> Result<(), Singular> {
        self.assemble(band);
        self.eliminate();
        self.substitute();
        if self.accurate() {
            Ok(())
        } else {
            self.solve_dense()
        }
    }

    /// Solves a band by dense elimination with partial pivoting instead of the plan.
    ///
    /// # Errors
    /// When the network has no unique solution.
    pub fn solve_band_densely(&mut self, band: &Band) -> Result<(), Singular> {
        self.assemble(band);
        self.solve_dense()
    }

    /// Place of a node's potential in [`unknowns`](Self::unknowns).
    #[must_use]
    pub fn potential(&self, node: Node) -> usize {
        self.structure.layout.potential(node)
    }

    /// Place of an element's current in [`unknowns`](Self::unknowns), from its
    /// first terminal to its second, where it is one of them.
    #[must_use]
    pub fn current(&self, id: ElementId) -> Option<usize> {
        self.structure.layout.current(id)
    }

    /// Potentials and currents of the band solved last.
    #[must_use]
    pub fn unknowns(&self) -> &[Lanes] {
        &self.unknowns
    }

    /// How many equations there are, and unknowns.
    #[must_use]
    pub fn size(&self) -> usize {
        self.structure.layout.size
    }

    /// Row, column and value of every place of the equations filled in last
    /// that may differ from zero; column [`size`](Self::size) is the
    /// right-hand side.
    pub fn equations(&self) -> impl Iterator<Item = (usize, usize, &Lanes)> {
        let places = self.structure.layout.places.iter();
        places
            .zip(&self.matrix)
            .map(|((row, column), value)| (*row, *column, value))
    }

    /// Fills in the equations for the frequencies of a band with the values
    /// last loaded, and does not solve them.
    pub fn assemble(&mut self, band: &Band) {
        for (place, coefficient) in self.matrix.iter_mut().zip(&self.coefficients) {
            *place = coefficient.at(band);
        }
        for law in &self.laws {
            let parts = law.kind.at(band);
            for stamp in &self.structure.layout.stamps[law.element] {
                if stamp.part > 0 {
                    self.matrix[stamp.slot] += parts[stamp.part - 1].scaled(stamp.sign);
                }
            }
        }
    }

    fn eliminate(&mut self) {
        let plan = &self.structure.plan;
        let work = &mut self.work[..plan.slots];
        work[..self.matrix.len()].copy_from_slice(&self.matrix);
        work[self.matrix.len()..].fill(Lanes::ZERO);
        for step in &plan.steps {
            let inverse = work[step.pivot as usize].recip();
            work[step.pivot as usize] = inverse;
            for row in &plan.rows[step.rows.0 as usize..step.rows.1 as usize] {
                let factor = work[row.entry as usize] * inverse;
                for (target, source) in &plan.pairs[row.pairs.0 as usize..row.pairs.1 as usize] {
                    let change = factor * work[*source as usize];
                    work[*target as usize] -= change;
                }
            }
        }
    }

    fn substitute(&mut self) {
        let plan = &self.structure.plan;
        for step in plan.steps.iter().rev() {
            let mut sum = step
                .source
                .map_or(Lanes::ZERO, |slot| self.work[slot as usize]);
            for (slot, unknown) in &plan.terms[step.terms.0 as usize..step.terms.1 as usize] {
                sum -= self.work[*slot as usize] * self.unknowns[*unknown as usize];
            }
            self.unknowns[step.unknown as usize] = sum * self.work[step.pivot as usize];
        }
    }

    /// Whether the unknowns solve a network whose every coefficient differs
    /// from the given one by no more than rounding (`oettli-1964`).
    fn accurate(&mut self) -> bool {
        let layout = &self.structure.layout;
        let size = layout.size;
        let rows = &mut self.work[..2 * size];
        rows.fill(Lanes::ZERO);
        for ((row, column), value) in layout.places.iter().zip(&self.matrix) {
            let (term, scale) = if *column == size {
                (-*value, value.size())
            } else {
                let unknown = self.unknowns[*column];
                let mut scale = value.size();
                for (scale, unknown) in scale.iter_mut().zip(unknown.size()) {
                    *scale *= unknown;
                }
                (*value * unknown, scale)
            };
            rows[2 * row] += term;
            for (sum, scale) in rows[2 * row + 1].re.iter_mut().zip(scale) {
                *sum += scale;
            }
        }
        rows.chunks_exact(2).all(|pair| {
            pair[0]
                .size()
                .iter()
                .zip(pair[1].re)
                .all(|(residual, scale)| *residual <= BACKWARD_ERROR * scale && scale.is_finite())
        })
    }

    #[cold]
    fn solve_dense(&mut self) -> Result<(), Singular> {
        let layout = &self.structure.layout;
        let width = layout.size + 1;
        for lane in 0..LANES {
            let mut matrix = vec![Complex::ZERO; layout.size * width];
            for ((row, column), value) in layout.places.iter().zip(&self.matrix) {
                matrix[row * width + column] = value.lane(lane);
            }
            let solved = dense::solve(&mut matrix, layout.size).ok_or(Singular)?;
            for (place, value) in self.unknowns.iter_mut().zip(solved) {
                place.set_lane(lane, value);
            }
        }
        Ok(())
    }
}

impl Coefficient {
    fn add(&mut self, stamp: &Stamp, own: Self) {
        if stamp.part == 0 {
            self.constant += stamp.sign;
        } else {
            self.constant += stamp.sign * own.constant;
            self.rising += stamp.sign * own.rising;
            self.falling += stamp.sign * own.falling;
        }
    }

    #[inline(always)]
    fn at(&self, band: &Band) -> Lanes {
        let mut out = Lanes::splat(self.constant);
        for lane in 0..LANES {
            out.im[lane] = self.rising * band.omega[lane] - self.falling * band.period[lane];
        }
        out
    }
}

/// The part of an element that needs no law of its own.
fn coefficient(value: &Value) -> Coefficient {
    let zero = Coefficient::default();
    match value {
        Value::Impedance(z) => Coefficient {
            constant: z.resistance,
            rising: z.inductance,
            falling: z.elastance,
        },
        Value::Admittance(y) => Coefficient {
            constant: y.conductance,
            rising: y.capacitance,
            ..zero
        },
        Value::Gyrator(ratio) => Coefficient {
            constant: 1.0 / ratio,
            ..zero
        },
        Value::Transformer(number)
        | Value::VoltageSource(number)
        | Value::CurrentSource(number) => Coefficient {
            constant: *number,
            ..zero
        },
        Value::OnePort(_) | Value::TwoPort(_) => zero,
    }
}

fn law(value: &Value) -> Option<LawKind> {
    match value {
        Value::Impedance(z) if z.semi.k != 0.0 => Some(LawKind::Semi(z.semi)),
        Value::Admittance(y) if y.relaxing != 0.0 => Some(LawKind::Relaxing(*y)),
        Value::OnePort(law) => Some(LawKind::OnePort(Arc::clone(law))),
        Value::TwoPort(law) => Some(LawKind::TwoPort(Arc::clone(law))),
        _ => None,
    }
}

impl LawKind {
    fn at(&self, band: &Band) -> [Lanes; 3] {
        let single = |value| [value, Lanes::ZERO, Lanes::ZERO];
        match self {
            Self::Semi(semi) => single(semi.impedance(band)),
            Self::Relaxing(admittance) => single(admittance.relaxing_at(band)),
            Self::OnePort(law) => single(law.impedance(band)),
            Self::TwoPort(law) => law.admittance(band),
        }
    }
}
