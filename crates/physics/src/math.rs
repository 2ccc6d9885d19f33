//! Elementary functions that give the same last bit on every machine.
//!
//! The platform's own mathematics library may differ from one system to the
//! next in the last bit; these come from one pure-Rust implementation.

pub use libm::{
    acos, asin, atan, atan2, cbrt, cos, cosh, exp, exp2, expm1, hypot, log as ln, log1p as ln_1p,
    log2, log10, pow, sin, sincos, sinh, tan, tanh,
};

/// A complex number of doubles.
pub type Complex = num_complex::Complex<f64>;

/// The imaginary unit; time goes as exp(+jωt).
pub const J: Complex = Complex::new(0.0, 1.0);

/// Twenty times the decimal logarithm: an amplitude ratio in decibels.
#[must_use]
pub fn db_amplitude(ratio: f64) -> f64 {
    20.0 * log10(ratio)
}

/// Ten times the decimal logarithm: a power ratio in decibels.
#[must_use]
pub fn db_power(ratio: f64) -> f64 {
    10.0 * log10(ratio)
}

/// The amplitude ratio of a level difference in decibels.
#[must_use]
pub fn amplitude_from_db(level: f64) -> f64 {
    pow(10.0, level / 20.0)
}

/// The power ratio of a level difference in decibels.
#[must_use]
pub fn power_from_db(level: f64) -> f64 {
    pow(10.0, level / 10.0)
}

/// Angular frequency in rad/s of a frequency in hertz.
#[must_use]
pub fn omega(frequency: f64) -> f64 {
    2.0 * core::f64::consts::PI * frequency
}
