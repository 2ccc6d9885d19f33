//! An amplifier board on the shelf.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::STAGES;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{AmplifierPart, Common};

/// Channels of the largest board that makes sense here.
const MOST_CHANNELS: u32 = 8;

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<AmplifierPart> {
    let stage = fields.need_word("stage", STAGES, log);
    let channels = fields.need_count("channels", 1, MOST_CHANNELS, log);
    if fields.entry("bridged").is_none() {
        fields.missing("bridged", "true", log);
    }
    let bridged = fields.flag("bridged", false, log).value;
    let on_resistance = fields.need("on_resistance", D::Resistance, NotNegative, log);
    let current_limit = fields.need("current_limit", D::Current, Positive, log);
    let minimum_load = fields.need("minimum_load", D::Resistance, Positive, log);
    let supply_min = fields.need("supply_min", D::Voltage, Positive, log);
    let supply_max = fields.need("supply_max", D::Voltage, Positive, log);
    let supply_recommended = fields.value("supply_recommended", D::Voltage, Positive, log);
    let gain = fields.need("gain", D::Gain, Positive, log);
    let input_impedance = fields.need("input_impedance", D::Resistance, Positive, log);
    let input_capacitance = fields.value("input_capacitance", D::Capacitance, Positive, log);
    let idle_current = fields.need("idle_current", D::Current, NotNegative, log);
    fields.in_order("supply_min", supply_min, "supply_max", supply_max, log);
    fields.in_order(
        "supply_min",
        supply_min,
        "supply_recommended",
        supply_recommended,
        log,
    );
    fields.not_above(
        "supply_recommended",
        supply_recommended,
        "supply_max",
        supply_max,
        log,
    );
    let rail_loss = fields.value("rail_loss", D::Voltage, NotNegative, log);
    let switching_loss = fields.value("switching_loss", D::Voltage, NotNegative, log);
    let filter_inductance = fields.value("filter_inductance", D::Inductance, Positive, log);
    let filter_capacitance = fields.value("filter_capacitance", D::Capacitance, Positive, log);
    let supply_capacitance = fields.value("supply_capacitance", D::Capacitance, Positive, log);
    let thermal_resistance =
        fields.value("thermal_resistance", D::ThermalResistance, Positive, log);
    let hottest = fields.value("hottest", D::Temperature, Within(20.0, 150.0), log);
    let size = fields.size("size", log);
    Some(AmplifierPart {
        common,
        stage: stage?,
        channels: channels?,
        bridged,
        on_resistance: on_resistance?,
        rail_loss,
        current_limit: current_limit?,
        minimum_load: minimum_load?,
        supply_min: supply_min?,
        supply_max: supply_max?,
        supply_recommended,
        gain: gain?,
        input_impedance: input_impedance?,
        input_capacitance,
        idle_current: idle_current?,
        switching_loss,
        filter_inductance,
        filter_capacitance,
        supply_capacitance,
        thermal_resistance,
        hottest,
        size,
    })
}
