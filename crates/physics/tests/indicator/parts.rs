//! Circuits to be checked; all values invented.

use boxwright_physics::indicator::{
    Arm, Capacitor, Comparator, Indicator, Light, Reference, Resistor,
};

pub(crate) fn percent(ohms: f64) -> Resistor {
    Resistor {
        ohms,
        tolerance: 0.01,
    }
}

/// A source that is nothing but its voltage.
pub(crate) fn ideal_reference(volts: f64, tolerance: f64) -> Reference {
    Reference {
        volts,
        tolerance,
        drift: 0.0,
        rated_current: 1e-3,
        slope: 0.0,
        slope_tolerance: 0.0,
        least_current: 0.0,
        most_current: 1.0,
    }
}

pub(crate) fn zener(volts: f64, slope: f64) -> Reference {
    Reference {
        rated_current: 5e-3,
        slope,
        slope_tolerance: 0.5,
        ..ideal_reference(volts, 0.05)
    }
}

/// Without offset and without current into its inputs.
pub(crate) fn comparator(output_high: Option<f64>, sink: f64) -> Comparator {
    Comparator {
        output_high,
        sink,
        sink_current: 15e-3,
        offset: 0.0,
        bias: 0.0,
        supply_current: 0.5e-3,
        supply: [2.0, 36.0],
        input_low: 0.0,
        input_high: 1.5,
    }
}

/// Three cells of lithium-ion, a shunt reference and an open collector.
pub(crate) fn open_collector() -> Indicator {
    Indicator {
        top: Arm::Series(percent(220e3), percent(10e3)),
        bottom: Arm::Parallel(percent(120e3), percent(150e3)),
        feedback: Some(percent(3.3e6)),
        feed: percent(15e3),
        reference: Reference {
            slope: 0.3,
            rated_current: 1e-3,
            ..ideal_reference(2.495, 0.01)
        },
        comparator: comparator(None, 60.0),
        light: Light {
            forward: 1.9,
            series: 2.2e3,
        },
        pull_up: Some(percent(22e3)),
        slow: None,
        delay: Some(Capacitor {
            farads: 47e-6,
            tolerance: 0.2,
            leakage: 0.0,
        }),
        speed_up: Some(0.68e-6),
    }
}

/// A zener with a steep slope and an amplifier that loses volts at the top.
pub(crate) fn amplifier() -> Indicator {
    Indicator {
        top: Arm::One(percent(47e3)),
        bottom: Arm::One(percent(41.2e3)),
        feedback: Some(percent(680e3)),
        feed: percent(1.5e3),
        reference: zener(5.1, 60.0),
        comparator: comparator(Some(1.4), 150.0),
        light: Light {
            forward: 2.1,
            series: 1.8e3,
        },
        pull_up: None,
        slow: None,
        delay: Some(Capacitor {
            farads: 100e-6,
            tolerance: 0.2,
            leakage: 0.0,
        }),
        speed_up: Some(3.3e-6),
    }
}

/// A micropower comparator whose input hardly draws: a small capacitor behind a
/// large resistor.
pub(crate) fn micropower() -> Indicator {
    let circuit = Indicator {
        top: Arm::One(percent(91e3)),
        bottom: Arm::Series(percent(20e3), percent(4.7e3)),
        feedback: Some(percent(2.2e6)),
        feed: percent(68e3),
        reference: Reference {
            slope: 1.0,
            rated_current: 0.1e-3,
            ..ideal_reference(2.5, 0.01)
        },
        comparator: comparator(Some(0.3), 60.0),
        light: Light {
            forward: 2.0,
            series: 3e3,
        },
        pull_up: None,
        slow: Some(percent(1e6)),
        delay: Some(Capacitor {
            farads: 4.7e-6,
            tolerance: 0.1,
            leakage: 0.0,
        }),
        speed_up: None,
    };
    Indicator {
        speed_up: circuit.wanted_speed_up(),
        ..circuit
    }
}
