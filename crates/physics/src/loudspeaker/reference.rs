//! The level a loudspeaker tends to when only masses and resistances count.

use super::load::{PISTON_END, radius};
use super::parts::inner_air_mass;
use super::system::{AirLoad, Channel, DriverGroup, System};
use crate::air::Air;

/// Volume acceleration in m³/s² for 1 V rms of the common source, far above
/// resonance, without inductance or output filter: the sum over all drivers of
/// S_D·Bl·i/M.
pub(super) fn reference_acceleration(system: &System) -> f64 {
    system
        .channels
        .iter()
        .map(|channel| channel_acceleration(channel, system.air_load, &system.air))
        .sum()
}

fn channel_acceleration(channel: &Channel, air_load: AirLoad, air: &Air) -> f64 {
    let resistance =
        |group: &DriverGroup| group.driver.re * f64::from(group.series) / f64::from(group.parallel);
    let conductance: f64 = channel.groups.iter().map(|g| 1.0 / resistance(g)).sum();
    if conductance == 0.0 {
        return 0.0;
    }
    let feed = channel.feed.output_resistance + channel.feed.cable_resistance;
    let terminals = channel.drive / (1.0 + feed * conductance);
    channel
        .groups
        .iter()
        .map(|group| {
            let driver = &group.driver;
            let current = terminals / (f64::from(group.series) * driver.re);
            let mass = driver.mass + air_mass(driver.area, air_load, air);
            f64::from(group.series * group.parallel) * driver.area * driver.bl * current / mass
        })
        .sum()
}

/// The air that moves with a cone on both its sides at low frequency, in kg.
fn air_mass(area: f64, air_load: AirLoad, air: &Air) -> f64 {
    match air_load {
        AirLoad::InMass => 0.0,
        AirLoad::Piston => {
            inner_air_mass(area, air_load, air) + PISTON_END * air.density * area * radius(area)
        }
    }
}
