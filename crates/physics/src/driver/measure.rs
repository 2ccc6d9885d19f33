//! Parameters from measurements a maker can take.

/// M<sub>MS</sub> in kg from a mass (kg) fixed to the cone that lowers the resonance
/// from `fs` to `loaded` (Hz): m/((f<sub>S</sub>/f<sub>M</sub>)² − 1).
#[must_use]
pub fn added_mass(added: f64, fs: f64, loaded: f64) -> f64 {
    let ratio = fs / loaded;
    added / (ratio * ratio - 1.0)
}

/// V<sub>AS</sub> in the unit of `volume` from the resonance `boxed` (Hz) on a closed
/// test box: V((f<sub>C</sub>/f<sub>S</sub>)² − 1).
///
/// The air load on the cone is taken to stay as it was in free air; the box
/// adds to it, which makes the result some per cent low.
#[must_use]
pub fn known_volume(volume: f64, fs: f64, boxed: f64) -> f64 {
    let ratio = boxed / fs;
    volume * (ratio * ratio - 1.0)
}

/// The same without that error where Q<sub>ES</sub> was measured too, free and boxed:
/// V(f<sub>C</sub>Q<sub>EC</sub>/(f<sub>S</sub>Q<sub>ES</sub>) − 1) (`small-1972`).
#[must_use]
pub fn known_volume_with_quality(volume: f64, fs: f64, qes: f64, boxed: f64, qec: f64) -> f64 {
    volume * (boxed * qec / (fs * qes) - 1.0)
}

/// Three points of the impedance curve about a resonance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ImpedancePoints {
    /// Direct-current resistance in Ω.
    pub re: f64,
    /// Greatest impedance at the resonance in Ω.
    pub peak: f64,
    /// Frequency in Hz below resonance where |Z| = R<sub>E</sub>√r₀.
    pub below: f64,
    /// Frequency in Hz above resonance where |Z| = R<sub>E</sub>√r₀.
    pub above: f64,
}

/// What three points of impedance tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ImpedanceReading {
    /// Resonance in Hz.
    pub fs: f64,
    /// Mechanical Q.
    pub qms: f64,
    /// Electrical Q.
    pub qes: f64,
    /// Total Q.
    pub qts: f64,
}

impl ImpedancePoints {
    /// |Z| in Ω at which the two outer frequencies are to be sought: R<sub>E</sub>√r₀
    /// with r₀ the peak over R<sub>E</sub>.
    #[must_use]
    pub fn search_level(re: f64, peak: f64) -> f64 {
        (re * peak).sqrt()
    }

    /// Resonance and Qs (`small-1972`). Inductance of the coil must not count
    /// yet at the upper frequency.
    #[must_use]
    pub fn reading(&self) -> ImpedanceReading {
        let ratio = self.peak / self.re;
        let fs = (self.below * self.above).sqrt();
        let qms = fs * ratio.sqrt() / (self.above - self.below);
        ImpedanceReading {
            fs,
            qms,
            qes: qms / (ratio - 1.0),
            qts: qms / ratio,
        }
    }
}
