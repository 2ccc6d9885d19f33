//! Bending modes of thin rectangular plates: walls of boxes, seen from the buzz they make.
//!
//! Kirchhoff's theory: thickness below about a tenth of the shorter span, small
//! deflection, edges that do not move. Above that ratio shear makes the true
//! frequencies lower, by some 3 % at a tenth.

mod beam;
mod eigen;

pub use beam::Hold;

use crate::math::omega;
use beam::Beam;

/// Stiffness of a plate against bending and twisting, in N·m (`leissa-1973`, `timoshenko-plates`).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rigidity {
    /// Bent along its first axis: E₁h³ / 12(1 − ν₁₂ν₂₁).
    pub along: f64,
    /// Bent along its second axis.
    pub across: f64,
    /// H = ν₂₁D₁ + 2·Gh³/12, which weighs the mixed term; D of an isotropic plate.
    pub mixed: f64,
}

impl Rigidity {
    /// The same in every direction: modulus (Pa), Poisson's ratio, thickness (m).
    ///
    /// ```
    /// use boxwright_physics::plate::Rigidity;
    /// // 15 mm of board with 3.5 GPa: 1082 N·m.
    /// let board = Rigidity::isotropic(3.5e9, 0.3, 0.015);
    /// assert!((board.along - 1081.73).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn isotropic(modulus: f64, poisson: f64, thickness: f64) -> Self {
        let shear = modulus / (2.0 * (1.0 + poisson));
        Self::orthotropic([modulus, modulus], shear, poisson, thickness)
    }

    /// Two moduli, along the first and the second axis (Pa), the shear modulus in
    /// the plane of the plate (Pa), Poisson's ratio of pulling along the first
    /// axis (its square below the first modulus over the second, as in every
    /// solid), thickness (m).
    #[must_use]
    pub fn orthotropic(moduli: [f64; 2], shear: f64, poisson: f64, thickness: f64) -> Self {
        let [along, across] = moduli;
        let inertia = thickness * thickness * thickness / 12.0;
        let poisson_across = poisson * across / along;
        let restrained = 1.0 - poisson * poisson_across;
        let bent = along * inertia / restrained;
        Self {
            along: bent,
            across: across * inertia / restrained,
            mixed: poisson_across * bent + 2.0 * shear * inertia,
        }
    }

    /// Plywood of two moduli (Pa) and a thickness (m), where nothing else is known of it.
    ///
    /// Its shear modulus in the plane is taken as 0.06 times the sum of both
    /// moduli and Poisson's ratio as 0.05: veneers have G<sub>LT</sub> of 0.05 to
    /// 0.07 E<sub>L</sub>, and both moduli add up to about E<sub>L</sub> (from
    /// memory, `wood-handbook`). Frequencies may be off by 5 % for that.
    #[must_use]
    pub fn plywood(moduli: [f64; 2], thickness: f64) -> Self {
        let shear = 0.06 * (moduli[0] + moduli[1]);
        Self::orthotropic(moduli, shear, 0.05, thickness)
    }

    /// The plate turned by a right angle.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self {
            along: self.across,
            across: self.along,
            ..self
        }
    }
}

/// How the edges of a plate are held, in opposite pairs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edges {
    /// The two at the ends of the first span.
    pub along: Hold,
    /// The two at the ends of the second.
    pub across: Hold,
}

impl Edges {
    /// All four free to turn: the lower bound of a glued box.
    pub const SUPPORTED: Self = Self {
        along: Hold::Supported,
        across: Hold::Supported,
    };
    /// All four held fast: the upper bound.
    pub const CLAMPED: Self = Self {
        along: Hold::Clamped,
        across: Hold::Clamped,
    };
}

/// A rectangular plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Free spans along the first and the second axis in m.
    pub span: [f64; 2],
    /// Mass in kg/m².
    pub mass: f64,
    /// Stiffness.
    pub rigidity: Rigidity,
}

impl Plate {
    /// Natural frequencies in Hz, lowest first, not more than [`Self::MODES`].
    ///
    /// With all edges supported they are exact. Otherwise they come from the
    /// Rayleigh–Ritz method with six by six beam functions, as in `leissa-1973`:
    /// never below the true frequency of the model and, for the lowest four and
    /// spans up to 1 : 2.5, at most 0.15 % above it.
    #[must_use]
    pub fn frequencies(&self, edges: Edges, count: usize) -> Vec<f64> {
        let along = Beam::all(edges.along);
        let across = Beam::all(edges.across);
        let mut squares = Vec::with_capacity(Self::MODES);
        for these in beam::uncoupled(&along) {
            for those in beam::uncoupled(&across) {
                let matrix = self.stiffness(these, those);
                squares.extend(eigen::values(matrix));
            }
        }
        squares.sort_by(f64::total_cmp);
        squares.truncate(count);
        let hertz = |square: f64| (square / self.mass).sqrt() / omega(1.0);
        squares.into_iter().map(hertz).collect()
    }

    /// The lowest natural frequency in Hz.
    #[must_use]
    pub fn lowest(&self, edges: Edges) -> f64 {
        // It belongs to functions without a node, which come first in their order.
        let along = Beam::all(edges.along);
        let across = Beam::all(edges.across);
        let matrix = self.stiffness(
            beam::uncoupled(&along)
                .next()
                .expect("there are beam functions"),
            beam::uncoupled(&across)
                .next()
                .expect("there are beam functions"),
        );
        let squares = eigen::values(matrix);
        let least = squares.into_iter().fold(f64::INFINITY, f64::min);
        (least / self.mass).sqrt() / omega(1.0)
    }

    /// Frequencies given at most.
    pub const MODES: usize = beam::COUNT * beam::COUNT;

    /// Bending energy between products of beam functions, in N/m³, the mass
    /// matrix being the unit matrix times the mass per area.
    fn stiffness(&self, along: &[Beam], across: &[Beam]) -> eigen::Matrix {
        let [a, b] = self.span;
        let Rigidity {
            along: stiff_a,
            across: stiff_b,
            mixed,
        } = self.rigidity;
        let size = along.len() * across.len();
        eigen::Matrix::symmetric(size, |row, column| {
            let (m, n) = (&along[row / across.len()], &across[row % across.len()]);
            let (k, l) = (
                &along[column / across.len()],
                &across[column % across.len()],
            );
            let slopes = m.slopes(k) * n.slopes(l);
            let mut term = 2.0 * mixed * slopes / (a * a * b * b);
            if row == column {
                let bent = |stiff: f64, beam: &Beam, span: f64| {
                    let root = beam.root / span;
                    stiff * root * root * root * root
                };
                term += bent(stiff_a, m, a) + bent(stiff_b, n, b);
            }
            term
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;

    #[test]
    fn supported_edges_give_the_exact_sum() {
        let plate = Plate {
            span: [0.3, 0.2],
            mass: 8.16,
            rigidity: Rigidity::isotropic(8e9, 0.3, 0.012),
        };
        let exact = |m: f64, n: f64| {
            let wave = (m * PI / 0.3) * (m * PI / 0.3) + (n * PI / 0.2) * (n * PI / 0.2);
            wave * (plate.rigidity.along / plate.mass).sqrt() / (2.0 * PI)
        };
        let found = plate.frequencies(Edges::SUPPORTED, 3);
        let wanted = [exact(1.0, 1.0), exact(2.0, 1.0), exact(1.0, 2.0)];
        for (found, wanted) in found.iter().zip(wanted) {
            assert!((found - wanted).abs() < 1e-10 * wanted, "{found} {wanted}");
        }
        assert_eq!(plate.lowest(Edges::SUPPORTED), found[0]);
    }

    #[test]
    fn the_lowest_is_the_first_of_all() {
        let plate = Plate {
            span: [0.31, 0.22],
            mass: 7.0,
            rigidity: Rigidity::orthotropic([9e9, 5e9], 0.7e9, 0.1, 0.011),
        };
        let holds = [Hold::Supported, Hold::Clamped, Hold::OneOfEach];
        for along in holds {
            for across in holds {
                let edges = Edges { along, across };
                let all = plate.frequencies(edges, Plate::MODES);
                assert_eq!(all.len(), Plate::MODES);
                assert!(all.is_sorted());
                assert!((plate.lowest(edges) - all[0]).abs() < 1e-9 * all[0]);
            }
        }
    }
}
