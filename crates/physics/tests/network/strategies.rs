//! Systems at random, within what makers build and somewhat beyond.

use boxwright_physics::air::Air;
use boxwright_physics::loudspeaker::{
    AirLoad, Chamber, Channel, CoilInductance, Driver, DriverGroup, Feed, Filling, Outlet,
    OutputFilter, Radiator, System, Vent, VentEnd,
};
use boxwright_physics::math::{exp, ln};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

/// Evenly spread on a logarithmic scale.
fn log_range(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (ln(low)..ln(high)).prop_map(exp)
}

pub(crate) fn inductance() -> impl Strategy<Value = CoilInductance> {
    prop_oneof![
        Just(CoilInductance::None),
        log_range(5e-5, 2e-3).prop_map(CoilInductance::Plain),
        (log_range(2e-3, 0.1), 0.5..1.0_f64).prop_map(|(k, n)| CoilInductance::Lossy { k, n }),
    ]
}

pub(crate) fn driver() -> impl Strategy<Value = Driver> {
    (
        1.5..16.0_f64,
        inductance(),
        log_range(1.5, 20.0),
        log_range(1e-3, 0.1),
        log_range(1e-4, 3e-3),
        log_range(0.05, 5.0),
        log_range(1e-3, 0.05),
    )
        .prop_map(
            |(re, inductance, bl, mass, compliance, resistance, area)| Driver {
                re,
                inductance,
                bl,
                mass,
                compliance,
                resistance,
                area,
            },
        )
}

pub(crate) fn feed() -> impl Strategy<Value = Feed> {
    let filter =
        (log_range(5e-6, 5e-5), log_range(1e-7, 2e-6)).prop_map(|(inductance, capacitance)| {
            OutputFilter {
                inductance,
                capacitance,
            }
        });
    (
        0.0..1.0_f64,
        option::of(filter),
        option::of(log_range(4.7e-4, 1e-2)),
        0.0..0.5_f64,
    )
        .prop_map(
            |(output_resistance, output_filter, coupling_capacitance, cable_resistance)| Feed {
                output_resistance,
                output_filter,
                coupling_capacitance,
                cable_resistance,
            },
        )
}

fn end() -> impl Strategy<Value = VentEnd> {
    prop_oneof![
        Just(VentEnd::Free),
        Just(VentEnd::Flush),
        Just(VentEnd::None)
    ]
}

pub(crate) fn vent() -> impl Strategy<Value = Vent> {
    (
        1..3_u32,
        log_range(0.01, 0.06),
        log_range(0.01, 0.4),
        0.3..1.0_f64,
        end(),
        end(),
        1.0..3.0_f64,
    )
        .prop_map(
            |(count, radius, length, flatness, inner, outer, roughness)| Vent {
                count,
                area: core::f64::consts::PI * radius * radius,
                length,
                hydraulic_radius: radius * flatness,
                inner,
                outer,
                roughness,
            },
        )
}

pub(crate) fn outlet() -> impl Strategy<Value = Outlet> {
    let radiator = (
        1..3_u32,
        log_range(5e-3, 0.3),
        log_range(1e-4, 3e-3),
        log_range(0.05, 5.0),
        log_range(2e-3, 0.06),
    )
        .prop_map(|(count, mass, compliance, resistance, area)| Radiator {
            count,
            mass,
            compliance,
            resistance,
            area,
        });
    prop_oneof![
        vent().prop_map(Outlet::Vent),
        radiator.prop_map(Outlet::Radiator)
    ]
}

pub(crate) fn filling() -> impl Strategy<Value = Filling> {
    prop_oneof![
        Just(Filling::default()),
        (0.0..1.0_f64, log_range(1e-5, 1e-2))
            .prop_map(|(share, relaxation)| Filling { share, relaxation }),
    ]
}

pub(crate) fn chamber(
    outlets: impl Strategy<Value = Vec<Outlet>>,
) -> impl Strategy<Value = Chamber> {
    (
        log_range(5e-4, 0.1),
        filling(),
        option::of(log_range(1e4, 1e7)),
        prop_oneof![Just(0.0), log_range(10.0, 3e3)],
        outlets,
    )
        .prop_map(
            |(volume, filling, leak_resistance, absorption_resistance, outlets)| Chamber {
                volume,
                filling,
                leak_resistance,
                absorption_resistance,
                outlets,
            },
        )
}

pub(crate) fn air_load() -> impl Strategy<Value = AirLoad> {
    prop_oneof![Just(AirLoad::InMass), Just(AirLoad::Piston)]
}

fn group(chambers: usize) -> impl Strategy<Value = DriverGroup> {
    (driver(), 1..3_u32, 1..3_u32, 0..chambers).prop_map(|(driver, series, parallel, chamber)| {
        DriverGroup {
            driver,
            series,
            parallel,
            chamber,
        }
    })
}

fn channel(chambers: usize) -> impl Strategy<Value = Channel> {
    (
        feed(),
        prop_oneof![Just(1.0), Just(-1.0)],
        vec(group(chambers), 1..3),
    )
        .prop_map(|(feed, drive, groups)| Channel {
            feed,
            drive,
            groups,
        })
}

/// One or two channels on one or two chambers, any outlets.
pub(crate) fn system() -> impl Strategy<Value = System> {
    (1..3_usize, 1..3_usize).prop_flat_map(|(channels, chambers)| {
        (
            air_load(),
            vec(channel(chambers), channels),
            vec(chamber(vec(outlet(), 0..3)), chambers),
        )
            .prop_map(|(air_load, channels, chambers)| System {
                air: Air::with(1.2, 343.0),
                air_load,
                channels,
                chambers,
            })
    })
}
