//! A small dense system of equations, solved by elimination with row exchanges.

/// The factors of a square matrix.
#[derive(Clone, Debug)]
pub(super) struct Factors {
    size: usize,
    /// Row by row: below the diagonal the multipliers, from it on the upper factor.
    cells: Vec<f64>,
    order: Vec<usize>,
}

impl Factors {
    /// Of a matrix given row by row; `None` where it is singular.
    pub(super) fn of(size: usize, mut cells: Vec<f64>) -> Option<Self> {
        let mut order: Vec<usize> = (0..size).collect();
        for column in 0..size {
            let pivot = (column..size).max_by(|&a, &b| {
                let of = |row: usize| cells[row * size + column].abs();
                of(a).total_cmp(&of(b))
            })?;
            let size_of_pivot = cells[pivot * size + column].abs();
            if size_of_pivot.is_nan() || size_of_pivot < f64::MIN_POSITIVE {
                return None;
            }
            if pivot != column {
                order.swap(pivot, column);
                for k in 0..size {
                    cells.swap(pivot * size + k, column * size + k);
                }
            }
            for row in column + 1..size {
                let times = cells[row * size + column] / cells[column * size + column];
                cells[row * size + column] = times;
                for k in column + 1..size {
                    cells[row * size + k] -= times * cells[column * size + k];
                }
            }
        }
        Some(Self { size, cells, order })
    }

    /// Solves for one right-hand side.
    pub(super) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let size = self.size;
        let mut x: Vec<f64> = self.order.iter().map(|&row| right[row]).collect();
        for row in 0..size {
            for k in 0..row {
                x[row] -= self.cells[row * size + k] * x[k];
            }
        }
        for row in (0..size).rev() {
            for k in row + 1..size {
                x[row] -= self.cells[row * size + k] * x[k];
            }
            x[row] /= self.cells[row * size + row];
        }
        x
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn solves_what_it_was_given(
            cells in prop::collection::vec(-1.0_f64..1.0, 25),
            x in prop::collection::vec(-5.0_f64..5.0, 5),
        ) {
            let mut cells = cells;
            (0..5).for_each(|i| cells[6 * i] += 6.0);
            let right: Vec<f64> = (0..5)
                .map(|row| (0..5).map(|k| cells[5 * row + k] * x[k]).sum())
                .collect();
            let found = Factors::of(5, cells).unwrap().solve(&right);
            for (a, b) in found.iter().zip(&x) {
                prop_assert!((a - b).abs() < 1e-10);
            }
        }
    }

    #[test]
    fn a_singular_matrix_is_refused() {
        assert!(Factors::of(2, vec![1.0, 2.0, 2.0, 4.0]).is_none());
        assert!(Factors::of(1, vec![f64::NAN]).is_none());
    }

    #[test]
    fn rows_are_exchanged_where_the_diagonal_is_zero() {
        let x = Factors::of(2, vec![0.0, 1.0, 2.0, 0.0])
            .unwrap()
            .solve(&[3.0, 8.0]);
        assert_eq!(x, [4.0, 3.0]);
    }
}
