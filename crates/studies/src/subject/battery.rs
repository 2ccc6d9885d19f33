//! The battery with its spreads.

use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{BatteryPart, Chemistry, Design, Value};
use physics::battery as cells;

/// Share of the new capacity counted on: the middle of a few hundred cycles.
/// Common practice, no source.
const AGED: f64 = 0.92;

#[derive(Clone, Debug)]
pub(crate) struct BatterySubject {
    capacity: Uncertain,
    age: Uncertain,
    resistance: Uncertain,
    part: BatteryPart,
    count: f64,
    /// Supply at which the amplifier board gives up, in V.
    least_supply: f64,
}

pub(crate) const fn chemistry(of: Chemistry) -> cells::Chemistry {
    match of {
        Chemistry::LeadAcid => cells::Chemistry::LeadAcid,
        Chemistry::IronPhosphate => cells::Chemistry::IronPhosphate,
        Chemistry::LithiumIon => cells::Chemistry::LithiumIon,
        Chemistry::NickelMetalHydride => cells::Chemistry::NickelMetalHydride,
    }
}

/// Hours at which capacity is rated and Peukert's exponent, unless stated:
/// common practice, no source.
const fn usual_rate(of: Chemistry) -> (f64, f64) {
    match of {
        Chemistry::LeadAcid => (20.0, 1.15),
        // Fitted to a published cell (`prada-2013`) from the ten-hour to the two-hour rate.
        Chemistry::IronPhosphate => (5.0, 1.04),
        Chemistry::LithiumIon | Chemistry::NickelMetalHydride => (5.0, 1.0),
    }
}

impl BatterySubject {
    pub(super) fn new(causes: &mut Causes, design: &Design) -> Self {
        let part = design.battery.part.clone();
        Self {
            capacity: causes.value(
                "battery.capacity",
                "capacity of the battery",
                "A·s",
                &part.capacity,
                &spreads::BATTERY_CAPACITY,
            ),
            age: causes.usual(
                "battery.age",
                "share of the new capacity left",
                "",
                AGED,
                &spreads::BATTERY_AGE,
            ),
            resistance: causes.value(
                "battery.resistance",
                "resistance of the battery",
                "Ω",
                &part.resistance,
                &spreads::BATTERY_RESISTANCE,
            ),
            count: f64::from(design.battery.count),
            least_supply: design.amplifier.part.supply_min.si,
            part,
        }
    }

    /// Voltage at which its own discharge must end, in V; a board that gives up
    /// before that ends the playing earlier.
    pub(crate) fn own_end_voltage(&self) -> f64 {
        let part = &self.part;
        let usual = chemistry(part.chemistry.value).end_voltage_per_cell() * f64::from(part.cells);
        part.end_voltage.map_or(usual, |value| value.si)
    }

    pub(crate) fn at(&self, draw: &Draw) -> cells::Battery {
        let part = &self.part;
        let kind = chemistry(part.chemistry.value);
        let (rated_hours, peukert) = usual_rate(part.chemistry.value);
        let or = |value: Option<Value>, usual: f64| value.map_or(usual, |value| value.si);
        cells::Battery {
            chemistry: kind,
            cells: part.cells,
            capacity_ah: self.count * self.capacity.at(draw) * self.age.at(draw) / 3600.0,
            rated_hours: or(part.rated_time, 3600.0 * rated_hours) / 3600.0,
            peukert: or(part.peukert, peukert),
            resistance: self.resistance.at(draw) / self.count,
            end_voltage: self.own_end_voltage().max(self.least_supply),
        }
    }
}
