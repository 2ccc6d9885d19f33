//! Frequencies, packed by lanes, with what every element needs of them.

use super::lanes::{LANES, Reals};
use crate::math;

/// As many frequencies as there are lanes, with what depends on nothing else.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Angular frequency ω in rad/s.
    pub omega: Reals,
    /// 1/ω in s/rad.
    pub period: Reals,
    /// √ω.
    pub root: Reals,
    /// ln ω.
    pub log: Reals,
}

impl Band {
    /// Frequencies in Hz.
    #[must_use]
    pub fn new(frequencies: Reals) -> Self {
        let omega = frequencies.map(math::omega);
        Self {
            omega,
            period: omega.map(|omega| 1.0 / omega),
            root: omega.map(f64::sqrt),
            log: omega.map(math::ln),
        }
    }

    /// The same frequency in Hz in every lane.
    #[must_use]
    pub fn splat(frequency: f64) -> Self {
        Self::new([frequency; LANES])
    }
}

/// A list of frequencies cut into bands; the last band repeats its last frequency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Grid {
    frequencies: Vec<f64>,
    bands: Vec<Band>,
}

impl Grid {
    /// Frequencies in Hz.
    ///
    /// # Panics
    /// When a frequency is not positive and finite: at zero the elements of a
    /// network with capacitors have no finite impedance.
    #[must_use]
    pub fn new(frequencies: &[f64]) -> Self {
        assert!(
            frequencies.iter().all(|f| f.is_finite() && *f > 0.0),
            "frequencies must be positive and finite"
        );
        let bands = frequencies
            .chunks(LANES)
            .map(|chunk| {
                let last = chunk[chunk.len() - 1];
                let mut lanes = [last; LANES];
                lanes[..chunk.len()].copy_from_slice(chunk);
                Band::new(lanes)
            })
            .collect();
        Self {
            frequencies: frequencies.to_vec(),
            bands,
        }
    }

    /// The frequencies in Hz.
    #[must_use]
    pub fn frequencies(&self) -> &[f64] {
        &self.frequencies
    }

    /// Each band with the index of its first frequency and how many of its lanes count.
    pub fn bands(&self) -> impl Iterator<Item = (usize, usize, &Band)> {
        let total = self.frequencies.len();
        self.bands.iter().enumerate().map(move |(index, band)| {
            let start = index * LANES;
            (start, (total - start).min(LANES), band)
        })
    }
}
