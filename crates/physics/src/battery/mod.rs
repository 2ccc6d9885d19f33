//! A battery as a source: open-circuit voltage against charge, a resistance,
//! a capacity that may depend on rate, and an end voltage.
//!
//! What this leaves out: temperature (cold costs capacity and adds
//! resistance), recovery at rest, self-discharge, and the slow part of a
//! cell's resistance, which is lumped into the one value. Against
//! porous-electrode models of published cells (`pybamm`), with capacity and
//! resistance set to the cell's, hours and energy come out within 3 % for
//! lithium-ion (20 h to 70 min), 7 % for iron phosphate (2.5 % with a Peukert
//! exponent of 1.04), 2 % for lead-acid from 40 h to 2 h and 20 % too long at
//! half an hour.

mod charge;
mod curve;
mod discharge;

use crate::math::{exp, pow};
use curve::Curve;

pub use discharge::{Discharge, Ended, Endurance};

/// Battery chemistry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chemistry {
    /// Sealed lead-acid.
    LeadAcid,
    /// Lithium iron phosphate.
    IronPhosphate,
    /// Lithium-ion with a cobalt or nickel cathode.
    LithiumIon,
    /// Nickel-metal hydride.
    NickelMetalHydride,
}

/// A whole battery; parallel strings are counted into capacity and resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Battery {
    /// Chemistry of its cells.
    pub chemistry: Chemistry,
    /// Cells in series.
    pub cells: u32,
    /// Rated capacity in Ah.
    pub capacity_ah: f64,
    /// Hours of the discharge at which that capacity is rated.
    pub rated_hours: f64,
    /// Peukert exponent; 1 for a capacity that does not depend on rate.
    pub peukert: f64,
    /// Resistance of the whole battery with its protection and leads, in Ω.
    pub resistance: f64,
    /// Voltage at which the discharge must end, whole battery, in V.
    pub end_voltage: f64,
}

impl Chemistry {
    /// Open-circuit voltage of a cell in V against its state of charge, 0 to 1.
    fn cell_voltage(self, charge: f64) -> f64 {
        match self {
            Self::LeadAcid => curve::lead_acid(charge),
            Self::IronPhosphate => IRON_PHOSPHATE.at(charge),
            Self::LithiumIon => LITHIUM_ION.at(charge),
            Self::NickelMetalHydride => NICKEL.at(charge),
        }
    }

    /// Usual highest charging voltage of a cell in V: 4.20 lithium-ion, 3.65
    /// iron phosphate, 2.45 lead-acid in cyclic use (14.7 V per 12 V block;
    /// 14.4 V is as usual), 1.50 NiMH. Common practice; the maker's sheet
    /// comes first.
    #[must_use]
    pub fn charge_voltage_per_cell(self) -> f64 {
        match self {
            Self::LeadAcid => 2.45,
            Self::IronPhosphate => 3.65,
            Self::LithiumIon => 4.20,
            Self::NickelMetalHydride => 1.50,
        }
    }

    /// Usual end of discharge of a cell in V: 1.75 lead-acid (10.5 V per 12 V
    /// block), 2.5 iron phosphate, 3.0 lithium-ion, 1.0 NiMH. Common practice
    /// in agreement with published sheets.
    #[must_use]
    pub fn end_voltage_per_cell(self) -> f64 {
        match self {
            Self::LeadAcid => 1.75,
            Self::IronPhosphate => 2.5,
            Self::LithiumIon => 3.0,
            Self::NickelMetalHydride => 1.0,
        }
    }
}

impl Battery {
    /// Open-circuit voltage of the rested battery in V at a state of charge, 0 to 1.
    #[must_use]
    pub fn open_circuit(&self, state_of_charge: f64) -> f64 {
        f64::from(self.cells) * self.chemistry.cell_voltage(state_of_charge)
    }

    /// Rested voltage in V when full.
    #[must_use]
    pub fn full_voltage(&self) -> f64 {
        self.open_circuit(1.0)
    }

    /// Rested voltage in V at half charge.
    #[must_use]
    pub fn mid_voltage(&self) -> f64 {
        self.open_circuit(0.5)
    }

    /// Usual highest charging voltage in V.
    #[must_use]
    pub fn charge_voltage(&self) -> f64 {
        f64::from(self.cells) * self.chemistry.charge_voltage_per_cell()
    }

    /// The same battery with a share of its capacity and a multiple of its
    /// resistance: an old, a cold or a poor one.
    #[must_use]
    pub fn aged(&self, capacity_share: f64, resistance_ratio: f64) -> Self {
        Self {
            capacity_ah: self.capacity_ah * capacity_share,
            resistance: self.resistance * resistance_ratio,
            ..*self
        }
    }

    /// Terminal voltage in V while `power` W are drawn at a state of charge;
    /// `None` when the battery cannot give that much.
    #[must_use]
    pub fn loaded_voltage(&self, state_of_charge: f64, power: f64) -> Option<f64> {
        solve_terminal(self.emf(state_of_charge), self.resistance, power)
    }

    /// Hours a constant current (A) lasts: H·(C/IH)ⁿ (`peukert-1897`), not
    /// more than the rated charge below the rated current.
    #[must_use]
    pub fn hours_at(&self, current: f64) -> f64 {
        self.capacity_ah / (current * self.rate_penalty(current))
    }

    /// Charge used up per charge delivered: (I/I_rated)^(n−1), at least 1.
    fn rate_penalty(&self, current: f64) -> f64 {
        let ratio = current * self.rated_hours / self.capacity_ah;
        if ratio > 1.0 && self.peukert != 1.0 {
            pow(ratio, self.peukert - 1.0)
        } else {
            1.0
        }
    }

    /// Voltage behind the resistance while current flows.
    ///
    /// For lead-acid the acid in the plates runs out before that in the cell:
    /// a knee brings the cell to 1.75 V at exhaustion (shape: common practice,
    /// no source).
    fn emf(&self, state_of_charge: f64) -> f64 {
        let rested = self.open_circuit(state_of_charge);
        match self.chemistry {
            Chemistry::LeadAcid => {
                let knee = KNEE_VOLTS * exp(-state_of_charge / KNEE_CHARGE);
                rested - f64::from(self.cells) * knee
            }
            _ => rested,
        }
    }
}

/// Depth of lead-acid's knee in V per cell, and the charge over which it fades.
const KNEE_VOLTS: f64 = 0.22;
const KNEE_CHARGE: f64 = 0.035;

/// Mean of two published lithium-ion cells, `pybamm` (`chen-2020`, `ecker-2015`).
const LITHIUM_ION: Curve = Curve::through([
    2.5, 3.377_24, 3.536_09, 3.645_40, 3.718_54, 3.769_06, 3.828_03, 3.915_08, 4.014_46, 4.087_78,
    4.2,
]);

/// A published iron-phosphate cell, `pybamm` (`prada-2013`).
const IRON_PHOSPHATE: Curve = Curve::through([
    2.0, 2.978_09, 3.168_49, 3.205_82, 3.252_50, 3.266_03, 3.268_82, 3.274_03, 3.309_69, 3.314_17,
    3.6,
]);

/// NiMH: shape from memory, no source.
const NICKEL: Curve = Curve::through([
    1.0, 1.19, 1.235, 1.255, 1.268, 1.278, 1.288, 1.300, 1.318, 1.345, 1.42,
]);

/// The higher root of V = E − R·P/V.
fn solve_terminal(emf: f64, resistance: f64, power: f64) -> Option<f64> {
    let square = emf * emf - 4.0 * resistance * power;
    (square >= 0.0).then(|| (emf + square.sqrt()) / 2.0)
}

#[cfg(test)]
mod tests;
