//! How long charging takes.

use super::{Battery, Chemistry};

/// How a chemistry takes its charge.
struct Taking {
    /// Charge put in per charge kept.
    excess: f64,
    /// Share of the capacity taken at full current.
    bulk: f64,
    /// Least time for the rest, in h, while the current tapers.
    taper_hours: f64,
}

impl Battery {
    /// Seconds from empty to full on a charger that gives up to `current` A
    /// and holds the charging voltage.
    ///
    /// Full current until the charging voltage is met, then a taper: the rest
    /// takes twice as long as at full current, and at least the time its
    /// chemistry needs. Shares and times are common practice, no source; a
    /// quarter either way is usual.
    #[must_use]
    pub fn charge_seconds(&self, current: f64) -> f64 {
        let taking = self.chemistry.taking();
        let hours = taking.excess * self.capacity_ah / current;
        let taper = (2.0 * (1.0 - taking.bulk) * hours).max(taking.taper_hours);
        3600.0 * (taking.bulk * hours + taper)
    }
}

impl Chemistry {
    fn taking(self) -> Taking {
        match self {
            Self::LeadAcid => Taking {
                excess: 1.15,
                bulk: 0.8,
                taper_hours: 4.0,
            },
            Self::IronPhosphate => Taking {
                excess: 1.0,
                bulk: 0.95,
                taper_hours: 0.25,
            },
            Self::LithiumIon => Taking {
                excess: 1.0,
                bulk: 0.85,
                taper_hours: 0.5,
            },
            Self::NickelMetalHydride => Taking {
                excess: 1.4,
                bulk: 1.0,
                taper_hours: 0.0,
            },
        }
    }
}
