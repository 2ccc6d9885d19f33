//! The frequencies studied.

use physics::math::pow;

/// Lowest frequency studied in Hz.
const LOWEST: f64 = 10.0;

/// Highest frequency studied in Hz.
const HIGHEST: f64 = 20_000.0;

/// Frequencies spaced evenly on a logarithmic scale.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Grid {
    pub(crate) hertz: Vec<f64>,
}

impl Grid {
    /// So many frequencies from 10 Hz to 20 kHz.
    pub(crate) fn new(count: usize) -> Self {
        let last = (count - 1) as f64;
        let at = |i: usize| LOWEST * pow(HIGHEST / LOWEST, i as f64 / last);
        Self {
            hertz: (0..count).map(at).collect(),
        }
    }

    /// The grid of the nominal build's curves.
    pub(crate) fn fine() -> Self {
        Self::new(400)
    }

    /// The grid of drawn builds: about ten to the octave.
    pub(crate) fn coarse() -> Self {
        Self::new(112)
    }
}
