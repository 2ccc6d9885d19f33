//! Dense elimination with partial pivoting: the fallback, and the check.

use super::plan::one_norm;
use crate::math::Complex;

/// Solves `size` equations; row-major `matrix` has the right-hand side as its
/// last column and is overwritten. `None` when singular.
///
/// Pivots are chosen relative to the largest entry of their row, so that rows
/// in different units compare fairly.
pub(super) fn solve(matrix: &mut [Complex], size: usize) -> Option<Vec<Complex>> {
    let width = size + 1;
    let mut weight: Vec<f64> = (0..size)
        .map(|row| {
            (0..size)
                .map(|column| one_norm(matrix[row * width + column]))
                .fold(0.0, f64::max)
        })
        .collect();
    for step in 0..size {
        let strength = |row: usize| one_norm(matrix[row * width + step]) / weight[row];
        let mut best = step;
        for row in step + 1..size {
            if strength(row) > strength(best) {
                best = row;
            }
        }
        if strength(best).is_nan() || strength(best) <= 0.0 {
            return None;
        }
        weight.swap(step, best);
        for column in 0..width {
            matrix.swap(step * width + column, best * width + column);
        }
        for row in step + 1..size {
            let factor = matrix[row * width + step] / matrix[step * width + step];
            if factor == Complex::ZERO {
                continue;
            }
            for column in step + 1..width {
                let change = factor * matrix[step * width + column];
                matrix[row * width + column] -= change;
            }
        }
    }
    let mut unknowns = vec![Complex::ZERO; size];
    for row in (0..size).rev() {
        let mut sum = matrix[row * width + size];
        for column in row + 1..size {
            sum -= matrix[row * width + column] * unknowns[column];
        }
        unknowns[row] = sum / matrix[row * width + row];
    }
    unknowns
        .iter()
        .all(|value| value.is_finite())
        .then_some(unknowns)
}
