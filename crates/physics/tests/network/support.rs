//! Systems the tests share.

use boxwright_physics::air::Air;
use boxwright_physics::loudspeaker::{
    AirLoad, Chamber, Channel, CoilInductance, Driver, DriverGroup, Feed, Filling, Outlet, System,
};
use boxwright_physics::math::omega;

/// The air of the reference tables.
pub(crate) const AIR: Air = Air::with(1.2, 343.0);

/// A driver from the parameters of `small-1972`, written out here on its own.
pub(crate) fn driver(fs: f64, qes: f64, qms: f64, vas: f64, sd: f64, re: f64) -> Driver {
    let compliance = vas / (AIR.density * AIR.sound_speed * AIR.sound_speed * sd * sd);
    let mass = 1.0 / (omega(fs) * omega(fs) * compliance);
    Driver {
        re,
        inductance: CoilInductance::None,
        bl: (omega(fs) * mass * re / qes).sqrt(),
        mass,
        compliance,
        resistance: omega(fs) * mass / qms,
        area: sd,
    }
}

/// The driver of the network tables.
pub(crate) fn reference_driver() -> Driver {
    driver(55.0, 0.42, 4.0, 8.8e-3, 133e-4, 3.6)
}

/// A chamber of plain air.
pub(crate) fn chamber(volume: f64) -> Chamber {
    Chamber {
        volume,
        filling: Filling::default(),
        leak_resistance: None,
        absorption_resistance: 0.0,
        outlets: Vec::new(),
    }
}

/// One driver on an ideal source in one chamber.
pub(crate) fn single(driver: Driver, chamber: Chamber) -> System {
    System {
        air: AIR,
        air_load: AirLoad::InMass,
        channels: vec![Channel {
            feed: Feed::default(),
            drive: 1.0,
            groups: vec![DriverGroup {
                driver,
                series: 1,
                parallel: 1,
                chamber: 0,
            }],
        }],
        chambers: vec![chamber],
    }
}

/// A chamber with one outlet.
pub(crate) fn with_outlet(mut chamber: Chamber, outlet: Outlet) -> Chamber {
    chamber.outlets.push(outlet);
    chamber
}
