//! Complex arithmetic on several frequencies at once.
//!
//! Real and imaginary parts lie in separate arrays so that the compiler turns
//! each loop over lanes into vector instructions.

use core::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

use crate::math::Complex;

/// How many frequencies are solved together.
pub const LANES: usize = 8;

/// One real number for each lane.
pub type Reals = [f64; LANES];

/// One complex number for each lane.
#[derive(Clone, Copy, Debug, PartialEq)]
#[repr(align(64))]
pub struct Lanes {
    /// Real parts.
    pub re: Reals,
    /// Imaginary parts.
    pub im: Reals,
}

impl Lanes {
    /// Zero in every lane.
    pub const ZERO: Self = Self {
        re: [0.0; LANES],
        im: [0.0; LANES],
    };

    /// One in every lane.
    pub const ONE: Self = Self {
        re: [1.0; LANES],
        im: [0.0; LANES],
    };

    /// A purely real number.
    #[inline(always)]
    #[must_use]
    pub const fn real(re: Reals) -> Self {
        Self {
            re,
            im: [0.0; LANES],
        }
    }

    /// The same real number in every lane.
    #[inline(always)]
    #[must_use]
    pub const fn splat(value: f64) -> Self {
        Self::real([value; LANES])
    }

    /// The number of one lane.
    #[inline(always)]
    #[must_use]
    pub const fn lane(&self, lane: usize) -> Complex {
        Complex::new(self.re[lane], self.im[lane])
    }

    /// Replaces the number of one lane.
    #[inline(always)]
    pub const fn set_lane(&mut self, lane: usize, value: Complex) {
        self.re[lane] = value.re;
        self.im[lane] = value.im;
    }

    /// The product with a real number, the same in every lane.
    #[inline(always)]
    #[must_use]
    pub fn scaled(mut self, factor: f64) -> Self {
        for lane in 0..LANES {
            self.re[lane] *= factor;
            self.im[lane] *= factor;
        }
        self
    }

    /// The reciprocal.
    #[inline(always)]
    #[must_use]
    pub fn recip(self) -> Self {
        let mut out = Self::ZERO;
        for lane in 0..LANES {
            let scale = 1.0 / (self.re[lane] * self.re[lane] + self.im[lane] * self.im[lane]);
            out.re[lane] = self.re[lane] * scale;
            out.im[lane] = -self.im[lane] * scale;
        }
        out
    }

    /// |re| + |im|: within a factor √2 of the magnitude, and cheap.
    #[inline(always)]
    #[must_use]
    pub fn size(&self) -> Reals {
        core::array::from_fn(|lane| self.re[lane].abs() + self.im[lane].abs())
    }
}

impl Add for Lanes {
    type Output = Self;
    #[inline(always)]
    fn add(mut self, other: Self) -> Self {
        self += other;
        self
    }
}

impl AddAssign for Lanes {
    #[inline(always)]
    fn add_assign(&mut self, other: Self) {
        for lane in 0..LANES {
            self.re[lane] += other.re[lane];
            self.im[lane] += other.im[lane];
        }
    }
}

impl Sub for Lanes {
    type Output = Self;
    #[inline(always)]
    fn sub(mut self, other: Self) -> Self {
        self -= other;
        self
    }
}

impl SubAssign for Lanes {
    #[inline(always)]
    fn sub_assign(&mut self, other: Self) {
        for lane in 0..LANES {
            self.re[lane] -= other.re[lane];
            self.im[lane] -= other.im[lane];
        }
    }
}

impl Mul for Lanes {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        let mut out = Self::ZERO;
        for lane in 0..LANES {
            out.re[lane] = self.re[lane] * other.re[lane] - self.im[lane] * other.im[lane];
            out.im[lane] = self.re[lane] * other.im[lane] + self.im[lane] * other.re[lane];
        }
        out
    }
}

impl Neg for Lanes {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        self.scaled(-1.0)
    }
}
