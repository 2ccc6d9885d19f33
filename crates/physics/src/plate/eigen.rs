//! Eigenvalues of small symmetric matrices, by Jacobi's rotations.

/// A square matrix, row by row.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Matrix {
    size: usize,
    entries: Vec<f64>,
}

impl Matrix {
    /// The symmetric matrix whose lower half a function gives.
    pub(super) fn symmetric(size: usize, entry: impl Fn(usize, usize) -> f64) -> Self {
        let mut matrix = Self {
            size,
            entries: vec![0.0; size * size],
        };
        for row in 0..size {
            for column in 0..=row {
                let value = entry(row, column);
                matrix.entries[row * size + column] = value;
                matrix.entries[column * size + row] = value;
            }
        }
        matrix
    }

    const fn at(&self, row: usize, column: usize) -> f64 {
        self.entries.as_slice()[row * self.size + column]
    }

    /// Sum of squares off the diagonal, over that on it.
    fn off_diagonal(&self) -> f64 {
        let (mut on, mut off) = (0.0, 0.0);
        for row in 0..self.size {
            for column in 0..self.size {
                let square = self.at(row, column) * self.at(row, column);
                *(if row == column { &mut on } else { &mut off }) += square;
            }
        }
        off / on
    }

    /// Turns the plane of two axes so that the entry between them vanishes.
    fn rotate(&mut self, p: usize, q: usize) {
        let between = self.at(p, q);
        if between == 0.0 {
            return;
        }
        let theta = (self.at(q, q) - self.at(p, p)) / (2.0 * between);
        let tangent = theta.signum() / (theta.abs() + (theta * theta + 1.0).sqrt());
        let cosine = 1.0 / (tangent * tangent + 1.0).sqrt();
        let sine = tangent * cosine;
        let size = self.size;
        for k in 0..size {
            let (kp, kq) = (self.at(k, p), self.at(k, q));
            self.entries[k * size + p] = cosine * kp - sine * kq;
            self.entries[k * size + q] = sine * kp + cosine * kq;
        }
        for k in 0..size {
            let (pk, qk) = (self.at(p, k), self.at(q, k));
            self.entries[p * size + k] = cosine * pk - sine * qk;
            self.entries[q * size + k] = sine * pk + cosine * qk;
        }
    }
}

/// Sweeps over all pairs of axes at most; the last ones converge quadratically.
const SWEEPS: usize = 30;

/// Eigenvalues in no order.
pub(super) fn values(mut matrix: Matrix) -> Vec<f64> {
    for _ in 0..SWEEPS {
        if matrix.off_diagonal() < 1e-26 {
            break;
        }
        for p in 0..matrix.size {
            for q in p + 1..matrix.size {
                matrix.rotate(p, q);
            }
        }
    }
    (0..matrix.size).map(|axis| matrix.at(axis, axis)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;

    #[test]
    fn a_chain_of_springs_has_its_known_values() {
        // 2 on the diagonal, −1 beside it: 2 − 2·cos(kπ/(n+1)).
        let size = 9;
        let chain = Matrix::symmetric(size, |row, column| match row - column {
            0 => 2.0,
            1 => -1.0,
            _ => 0.0,
        });
        let mut found = values(chain);
        found.sort_by(f64::total_cmp);
        for (k, value) in found.iter().enumerate() {
            let exact = 2.0 - 2.0 * crate::math::cos((k + 1) as f64 * PI / (size + 1) as f64);
            assert!((value - exact).abs() < 1e-12, "{value} {exact}");
        }
    }
}
