//! The order of elimination, found once for a structure.
//!
//! The pivot of least Markowitz cost (r−1)(c−1) is taken among those that pass
//! a threshold test against their column, at every reference frequency, in an
//! equilibrated copy of the matrix (`markowitz-1957`, `duff-1986`). Electrical,
//! mechanical and acoustical values differ by ten powers of ten; equilibration
//! makes them comparable for the test, and the elimination itself does not
//! depend on it.

use crate::math::Complex;

/// A pivot passes when it is at least this fraction of the largest entry of its column.
const THRESHOLD: f64 = 0.05;

/// Elimination as a flat list of operations on slots.
#[derive(Clone, Debug)]
pub(super) struct Plan {
    /// How many slots there are, fill-in included.
    pub(super) slots: usize,
    /// Elimination steps in order.
    pub(super) steps: Vec<Step>,
    /// Rows reduced by the steps.
    pub(super) rows: Vec<Row>,
    /// Slot pairs (target, source): target −= factor·source.
    pub(super) pairs: Vec<(u32, u32)>,
    /// Slots and unknowns of the back substitution.
    pub(super) terms: Vec<(u32, u32)>,
}

/// One pivot.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub(super) pivot: u32,
    /// The unknown it determines.
    pub(super) unknown: u32,
    /// Slot of the right-hand side in its row, where it is not zero.
    pub(super) source: Option<u32>,
    /// Its part of the list of rows.
    pub(super) rows: (u32, u32),
    /// Its part of the list of back-substitution terms.
    pub(super) terms: (u32, u32),
}

/// One row reduced by a pivot.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    /// Slot of the entry that is eliminated.
    pub(super) entry: u32,
    /// Its part of the list of pairs.
    pub(super) pairs: (u32, u32),
}

impl Plan {
    /// Plans for `size` equations with entries at `places` (column `size` is
    /// the right-hand side); `samples` holds their values at each reference
    /// frequency.
    pub(super) fn new(size: usize, places: &[(usize, usize)], samples: &[Vec<Complex>]) -> Self {
        let mut planner = Planner::new(size, places, samples);
        for _ in 0..size {
            let (row, column) = planner.choose();
            planner.eliminate(row, column);
        }
        planner.plan
    }
}

struct Planner {
    size: usize,
    slot_at: Vec<Option<u32>>,
    matrices: Vec<Vec<Complex>>,
    rows: Vec<usize>,
    columns: Vec<usize>,
    plan: Plan,
}

impl Planner {
    fn new(size: usize, places: &[(usize, usize)], samples: &[Vec<Complex>]) -> Self {
        let width = size + 1;
        let mut slot_at = vec![None; size * width];
        for (slot, (row, column)) in places.iter().enumerate() {
            slot_at[row * width + column] = Some(index(slot));
        }
        let matrices = samples
            .iter()
            .map(|values| {
                let mut matrix = vec![Complex::ZERO; size * width];
                for ((row, column), value) in places.iter().zip(values) {
                    if *column < size {
                        matrix[row * width + column] = *value;
                    }
                }
                equilibrate(&mut matrix, size);
                matrix
            })
            .collect();
        Self {
            size,
            slot_at,
            matrices,
            rows: (0..size).collect(),
            columns: (0..size).collect(),
            plan: Plan {
                slots: places.len(),
                steps: Vec::with_capacity(size),
                rows: Vec::new(),
                pairs: Vec::new(),
                terms: Vec::new(),
            },
        }
    }

    fn slot(&self, row: usize, column: usize) -> Option<u32> {
        self.slot_at[row * (self.size + 1) + column]
    }

    /// The cheapest pivot that passes; the strongest where none does.
    fn choose(&self) -> (usize, usize) {
        let mut best: Option<((usize, usize), usize, f64)> = None;
        let mut strongest = ((self.rows[0], self.columns[0]), -1.0);
        for &column in &self.columns {
            let entries: Vec<usize> = self
                .rows
                .iter()
                .copied()
                .filter(|row| self.slot(*row, column).is_some())
                .collect();
            for &row in &entries {
                let strength = self.strength(row, column, &entries);
                if strength > strongest.1 {
                    strongest = ((row, column), strength);
                }
                if strength < THRESHOLD {
                    continue;
                }
                let cost = (entries.len() - 1) * (self.row_length(row) - 1);
                let better = best.is_none_or(|(_, least, most)| {
                    cost < least || (cost == least && strength > most)
                });
                if better {
                    best = Some(((row, column), cost, strength));
                }
            }
        }
        best.map_or(strongest.0, |(place, ..)| place)
    }

    fn row_length(&self, row: usize) -> usize {
        self.columns
            .iter()
            .filter(|column| self.slot(row, **column).is_some())
            .count()
            + usize::from(self.slot(row, self.size).is_some())
    }

    /// Ratio to the largest entry of the column, at the worst reference frequency.
    fn strength(&self, row: usize, column: usize, entries: &[usize]) -> f64 {
        let width = self.size + 1;
        self.matrices
            .iter()
            .map(|matrix| {
                let size = |row: usize| one_norm(matrix[row * width + column]);
                let largest = entries.iter().map(|row| size(*row)).fold(0.0, f64::max);
                if largest > 0.0 {
                    size(row) / largest
                } else {
                    0.0
                }
            })
            .fold(f64::INFINITY, f64::min)
    }

    fn eliminate(&mut self, pivot_row: usize, pivot_column: usize) {
        self.rows.retain(|row| *row != pivot_row);
        self.columns.retain(|column| *column != pivot_column);
        let across: Vec<(usize, u32)> = self
            .columns
            .iter()
            .filter_map(|column| Some((*column, self.slot(pivot_row, *column)?)))
            .collect();
        let source = self.slot(pivot_row, self.size);
        // Only a structure without a solution leaves no entry: then a zero
        // stands here, and the solver finds out.
        let pivot = self.slot_or_fill(pivot_row, pivot_column);

        let first_row = index(self.plan.rows.len());
        for row in self.rows.clone() {
            let Some(entry) = self.slot(row, pivot_column) else {
                continue;
            };
            let first = index(self.plan.pairs.len());
            for (column, from) in across.iter().copied().chain(source.map(|s| (self.size, s))) {
                let target = self.slot_or_fill(row, column);
                self.plan.pairs.push((target, from));
            }
            let last = index(self.plan.pairs.len());
            self.plan.rows.push(Row {
                entry,
                pairs: (first, last),
            });
            self.reduce(row, pivot_row, pivot_column);
        }

        let first_term = index(self.plan.terms.len());
        self.plan
            .terms
            .extend(across.iter().map(|(column, slot)| (*slot, index(*column))));
        self.plan.steps.push(Step {
            pivot,
            unknown: index(pivot_column),
            source,
            rows: (first_row, index(self.plan.rows.len())),
            terms: (first_term, index(self.plan.terms.len())),
        });
    }

    fn slot_or_fill(&mut self, row: usize, column: usize) -> u32 {
        let place = row * (self.size + 1) + column;
        *self.slot_at[place].get_or_insert_with(|| {
            self.plan.slots += 1;
            index(self.plan.slots - 1)
        })
    }

    /// The same row operation on the reference matrices.
    fn reduce(&mut self, row: usize, pivot_row: usize, pivot_column: usize) {
        let width = self.size + 1;
        for matrix in &mut self.matrices {
            let pivot = matrix[pivot_row * width + pivot_column];
            if pivot == Complex::ZERO {
                continue;
            }
            let factor = matrix[row * width + pivot_column] / pivot;
            for &column in &self.columns {
                let change = factor * matrix[pivot_row * width + column];
                matrix[row * width + column] -= change;
            }
        }
    }
}

fn index(value: usize) -> u32 {
    u32::try_from(value).expect("a network has fewer than 2^32 entries")
}

/// |re| + |im|.
pub(super) fn one_norm(value: Complex) -> f64 {
    value.re.abs() + value.im.abs()
}

/// Scales rows and columns until their largest entries are near one
/// (`ruiz-2001`).
fn equilibrate(matrix: &mut [Complex], size: usize) {
    let width = size + 1;
    for _ in 0..12 {
        for row in 0..size {
            let places = (0..size).map(|column| row * width + column);
            rescale(matrix, places);
        }
        for column in 0..size {
            let places = (0..size).map(|row| row * width + column);
            rescale(matrix, places);
        }
    }
}

fn rescale(matrix: &mut [Complex], places: impl Iterator<Item = usize> + Clone) {
    let largest = places
        .clone()
        .map(|place| one_norm(matrix[place]))
        .fold(0.0, f64::max);
    if largest > 0.0 {
        let scale = 1.0 / largest.sqrt();
        for place in places {
            matrix[place] *= scale;
        }
    }
}
