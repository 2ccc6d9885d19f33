//! The loudspeakers that are solved: invented ones, of usual sizes.

use boxwright_physics::air::Air;
use boxwright_physics::loudspeaker::{
    AirLoad, Chamber, Channel, CoilInductance, Driver, DriverGroup, Feed, Filling, Outlet,
    OutputFilter, Radiator, System, Vent, VentEnd,
};

/// Each kind of box, with its name.
pub(crate) fn kinds() -> [(&'static str, System); 3] {
    let vent = Vent {
        count: 1,
        area: 22e-4,
        length: 0.12,
        hydraulic_radius: 0.026,
        inner: VentEnd::Free,
        outer: VentEnd::Flush,
        roughness: 1.5,
    };
    let radiator = Radiator {
        count: 2,
        mass: 32e-3,
        compliance: 0.7e-3,
        resistance: 0.6,
        area: 133e-4,
    };
    [
        ("sealed", system(Vec::new())),
        ("vented", system(vec![Outlet::Vent(vent)])),
        ("passive radiator", system(vec![Outlet::Radiator(radiator)])),
    ]
}

/// Every law at work: output filter, coupling capacitor, lossy coil, piston
/// air load, filling, absorption and leak.
fn system(outlets: Vec<Outlet>) -> System {
    let driver = Driver {
        re: 3.6,
        inductance: CoilInductance::Lossy { k: 12e-3, n: 0.72 },
        bl: 6.1,
        mass: 12.0e-3,
        compliance: 0.67e-3,
        resistance: 1.1,
        area: 133e-4,
    };
    let filter = OutputFilter {
        inductance: 20e-6,
        capacitance: 0.68e-6,
    };
    System {
        air: Air::with(1.2, 343.0),
        air_load: AirLoad::Piston,
        channels: vec![Channel {
            feed: Feed {
                output_resistance: 0.12,
                output_filter: Some(filter),
                coupling_capacitance: Some(4.7e-3),
                cable_resistance: 0.08,
            },
            drive: 1.0,
            groups: vec![DriverGroup {
                driver,
                series: 1,
                parallel: 2,
                chamber: 0,
            }],
        }],
        chambers: vec![Chamber {
            volume: 14e-3,
            filling: Filling {
                share: 0.4,
                relaxation: 1.5e-3,
            },
            leak_resistance: Some(4e5),
            absorption_resistance: 150.0,
            outlets,
        }],
    }
}

/// One build: the numbers of a system moved by up to a tenth, each otherwise.
pub(crate) fn build(nominal: &System, index: usize) -> System {
    let mut step = 0.0;
    let mut moved = |value: &mut f64| {
        step += 1.0;
        let share = (index as f64 * GOLDEN * step).fract();
        *value *= 0.9 + 0.2 * share;
    };
    let mut system = nominal.clone();
    let driver = &mut system.channels[0].groups[0].driver;
    for value in [
        &mut driver.re,
        &mut driver.bl,
        &mut driver.mass,
        &mut driver.compliance,
        &mut driver.resistance,
    ] {
        moved(value);
    }
    let chamber = &mut system.chambers[0];
    moved(&mut chamber.volume);
    for outlet in &mut chamber.outlets {
        match outlet {
            Outlet::Vent(vent) => moved(&mut vent.length),
            Outlet::Radiator(radiator) => moved(&mut radiator.mass),
        }
    }
    system
}

/// Steps of this share of a turn fill a circle evenly.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
