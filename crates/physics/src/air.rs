//! The air a loudspeaker works in.

/// Properties of air at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Temperature in °C.
    pub celsius: f64,
    /// Static pressure in Pa.
    pub pressure: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Density ρ in kg/m³.
    pub density: f64,
    /// Speed of sound c in m/s.
    pub sound_speed: f64,
    /// Dynamic viscosity µ in Pa·s.
    pub viscosity: f64,
    /// Ratio of the heat capacities γ.
    pub gamma: f64,
    /// Prandtl number.
    pub prandtl: f64,
}

impl Air {
    /// Air with stated density (kg/m³) and speed of sound (m/s), otherwise as at 20 °C.
    ///
    /// Used where a published example states its own ρ and c.
    #[must_use]
    pub const fn with(density: f64, sound_speed: f64) -> Self {
        Self {
            celsius: 20.0,
            pressure: 101_325.0,
            humidity: 0.5,
            density,
            sound_speed,
            viscosity: 1.813e-5,
            gamma: 1.4,
            prandtl: 0.71,
        }
    }
}
