//! One example of a driver.

use physics::air::Air;
use physics::loudspeaker::Driver;

/// One example of a driver.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct DriverBuild {
    /// Its physical causes; the mass is that of the cone alone.
    pub(crate) driver: Driver,
    /// Moving mass with the air load of free air, in kg.
    pub(crate) mms: f64,
    /// Linear travel one way, peak, in m.
    pub(crate) xmax: f64,
    /// Rated long-term power in W.
    pub(crate) power: f64,
}

impl DriverBuild {
    /// Free-air resonance in Hz.
    #[must_use]
    pub(crate) fn fs(&self) -> f64 {
        1.0 / (core::f64::consts::TAU * (self.mms * self.driver.compliance).sqrt())
    }

    /// Mechanical Q in free air.
    #[must_use]
    pub(crate) fn qms(&self) -> f64 {
        (self.mms / self.driver.compliance).sqrt() / self.driver.resistance
    }

    /// Electrical Q in free air.
    #[must_use]
    pub(crate) fn qes(&self) -> f64 {
        let Driver {
            re, bl, compliance, ..
        } = self.driver;
        (self.mms / compliance).sqrt() * re / (bl * bl)
    }

    /// Total Q in free air.
    #[must_use]
    pub(crate) fn qts(&self) -> f64 {
        1.0 / (1.0 / self.qms() + 1.0 / self.qes())
    }

    /// Equivalent volume in m³ in such air.
    #[must_use]
    pub(crate) fn vas(&self, air: &Air) -> f64 {
        let Driver {
            area, compliance, ..
        } = self.driver;
        air.density * air.sound_speed * air.sound_speed * area * area * compliance
    }
}
