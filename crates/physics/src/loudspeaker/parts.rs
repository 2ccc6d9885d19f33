//! Element values from the parts of a system: groups of equal things become
//! one element of the same kind, exactly.

use std::sync::Arc;

use super::duct::Duct;
use super::load::{FLUSH_END, FREE_END, PISTON_END, Radiation, radius};
use super::system::{AirLoad, Chamber, CoilInductance, DriverGroup, Feed, Radiator, Vent, VentEnd};
use crate::air::Air;
use crate::circuit::{Admittance, Impedance, SemiInductance, Value};

/// Values of the electrical path of a channel.
pub(super) struct FeedValues {
    /// Output resistance and filter inductance.
    pub(super) stage: Value,
    /// Filter capacitor.
    pub(super) filter: Value,
    /// Coupling capacitor and cable.
    pub(super) line: Value,
}

pub(super) fn feed(feed: &Feed) -> FeedValues {
    let (inductance, capacitance) = feed
        .output_filter
        .map_or((0.0, 0.0), |filter| (filter.inductance, filter.capacitance));
    FeedValues {
        stage: Value::Impedance(Impedance {
            resistance: feed.output_resistance,
            inductance,
            ..Impedance::SHORT
        }),
        filter: Value::Admittance(Admittance::capacitor(capacitance)),
        line: Value::Impedance(Impedance {
            resistance: feed.cable_resistance,
            elastance: feed.coupling_capacitance.map_or(0.0, f64::recip),
            ..Impedance::SHORT
        }),
    }
}

/// Values of a group of drivers, seen at its terminals and as one cone that
/// moves as each of them does.
pub(super) struct GroupValues {
    pub(super) coil: Value,
    pub(super) force: Value,
    pub(super) motion: Value,
    pub(super) front: Value,
    pub(super) cone: Value,
}

pub(super) fn group(group: &DriverGroup, air_load: AirLoad, air: &Air) -> GroupValues {
    let driver = &group.driver;
    let (series, parallel) = (f64::from(group.series), f64::from(group.parallel));
    let count = series * parallel;
    let share = series / parallel;
    let (inductance, semi) = match driver.inductance {
        CoilInductance::None => (0.0, SemiInductance::NONE),
        CoilInductance::Plain(inductance) => (inductance, SemiInductance::NONE),
        CoilInductance::Lossy { k, n } => (0.0, SemiInductance { k: share * k, n }),
    };
    let coil = Impedance {
        resistance: share * driver.re,
        inductance: share * inductance,
        elastance: 0.0,
        semi,
    };
    GroupValues {
        coil: Value::Impedance(coil),
        force: Value::Gyrator(series * driver.bl),
        motion: motion(
            count,
            driver.mass + inner_air_mass(driver.area, air_load, air),
            driver.compliance,
            driver.resistance,
        ),
        front: front(driver.area, count, air),
        cone: Value::Transformer(count * driver.area),
    }
}

fn motion(count: f64, mass: f64, compliance: f64, resistance: f64) -> Value {
    Value::Impedance(Impedance {
        resistance: count * resistance,
        inductance: count * mass,
        elastance: count / compliance,
        ..Impedance::SHORT
    })
}

fn front(area: f64, count: f64, air: &Air) -> Value {
    Value::OnePort(Arc::new(Radiation::cone(area, count, air)))
}

/// The air that moves with the rear of a cone, in kg: a piston in the wall of
/// a box much wider than itself, 8ρa³/3 (an upper bound for narrower boxes).
pub(super) fn inner_air_mass(area: f64, air_load: AirLoad, air: &Air) -> f64 {
    match air_load {
        AirLoad::InMass => 0.0,
        AirLoad::Piston => PISTON_END * air.density * area * radius(area),
    }
}

/// Values of a chamber's air, its losses and its leaks.
pub(super) struct ChamberValues {
    pub(super) absorption: Value,
    pub(super) air: Value,
    pub(super) leak: Value,
}

pub(super) fn chamber(chamber: &Chamber, air: &Air) -> ChamberValues {
    let stiffness = air.density * air.sound_speed * air.sound_speed;
    let capacitance = chamber.volume / stiffness;
    ChamberValues {
        absorption: Value::Impedance(Impedance::resistor(chamber.absorption_resistance)),
        air: Value::Admittance(Admittance {
            conductance: 0.0,
            capacitance,
            relaxing: (air.gamma - 1.0) * chamber.filling.share * capacitance,
            relaxation: chamber.filling.relaxation,
        }),
        leak: Value::Admittance(Admittance::conductance(leak_conductance(chamber))),
    }
}

/// Acoustic conductance of a chamber's leaks in m³/(Pa·s).
pub(super) fn leak_conductance(chamber: &Chamber) -> f64 {
    chamber.leak_resistance.map_or(0.0, f64::recip)
}

/// Values of equal vents in parallel.
pub(super) struct VentValues {
    pub(super) inner: Value,
    pub(super) duct: Value,
    pub(super) mouth: Value,
}

pub(super) fn vent(vent: &Vent, air: &Air) -> VentValues {
    let count = f64::from(vent.count);
    let inner = air.density * end_correction(vent.inner) * radius(vent.area) / vent.area;
    VentValues {
        inner: Value::Impedance(Impedance::inductor(inner / count)),
        duct: Value::TwoPort(Arc::new(Duct::new(
            vent.length,
            vent.area,
            vent.hydraulic_radius,
            count,
            vent.roughness,
            air,
        ))),
        mouth: Value::OnePort(Arc::new(Radiation::mouth(
            vent.outer, vent.area, count, air,
        ))),
    }
}

/// End correction over the radius of the opening.
pub(super) const fn end_correction(end: VentEnd) -> f64 {
    match end {
        VentEnd::Free => FREE_END,
        VentEnd::Flush => FLUSH_END,
        VentEnd::None => 0.0,
    }
}

/// Values of equal passive radiators, as one that moves as each of them does.
pub(super) struct RadiatorValues {
    pub(super) face: Value,
    pub(super) motion: Value,
    pub(super) front: Value,
}

pub(super) fn radiator(radiator: &Radiator, air_load: AirLoad, air: &Air) -> RadiatorValues {
    let count = f64::from(radiator.count);
    RadiatorValues {
        face: Value::Transformer(count * radiator.area),
        motion: motion(
            count,
            radiator.mass + inner_air_mass(radiator.area, air_load, air),
            radiator.compliance,
            radiator.resistance,
        ),
        front: front(radiator.area, count, air),
    }
}
