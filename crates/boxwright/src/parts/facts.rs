//! What the shelf says about each kind of part.

use super::{Facts, OFFCUT, Part};
use design::Dimension::{
    Area, Capacitance, Charge, Compliance, Current, Density, ForceFactor, Frequency, Gain,
    Inductance, Length, Mass, Number, Power, Pressure, Resistance, SemiInductance, SoundLevel,
    Temperature, ThermalResistance, Time, Voltage, Volume,
};
use design::{
    AmplifierPart, BatteryPart, ControlPart, DriverPart, Offcut, RadiatorPart, SheetPart,
};

pub(super) fn driver(part: &DriverPart) -> Part {
    Facts::default()
        .word("kind", part.kind)
        .nominal_size(part.size)
        .number("impedance", part.impedance, Resistance)
        .number("re", part.re, Resistance)
        .number("le", part.le, Inductance)
        .number("lossy_k", part.lossy_k, SemiInductance)
        .number("lossy_n", part.lossy_n, Number)
        .number("fs", part.fs, Frequency)
        .number("qms", part.qms, Number)
        .number("qes", part.qes, Number)
        .number("qts", part.qts, Number)
        .number("vas", part.vas, Volume)
        .number("sd", part.sd, Area)
        .number("diameter", part.diameter, Length)
        .number("bl", part.bl, ForceFactor)
        .number("mms", part.mms, Mass)
        .number("cms", part.cms, Compliance)
        .number("xmax", part.xmax, Length)
        .number("power", part.power, Power)
        .number("sensitivity", part.sensitivity, SoundLevel)
        .number("frame", part.frame, Length)
        .number("cutout", part.cutout, Length)
        .number("depth", part.depth, Length)
        .number("magnet", part.magnet, Length)
        .number("displacement", part.displacement, Volume)
        .count("screws", part.screws)
        .number("screw_circle", part.screw_circle, Length)
        .number("screw", part.screw, Length)
        .number("frame_thickness", part.frame_thickness, Length)
        .said_flag("vented_magnet", part.vented_magnet)
        .part("driver", &part.common)
}

pub(super) fn radiator(part: &RadiatorPart) -> Part {
    Facts::default()
        .nominal_size(part.size)
        .number("area", part.area, Area)
        .number("mass", part.mass, Mass)
        .number("fs", part.fs, Frequency)
        .number("qms", part.qms, Number)
        .number("xmax", part.xmax, Length)
        .number("frame", part.frame, Length)
        .number("cutout", part.cutout, Length)
        .number("depth", part.depth, Length)
        .part("radiator", &part.common)
}

pub(super) fn amplifier(part: &AmplifierPart) -> Part {
    Facts::default()
        .word("stage", part.stage)
        .count("channels", part.channels)
        .flag("bridged", part.bridged)
        .number("on_resistance", part.on_resistance, Resistance)
        .number("rail_loss", part.rail_loss, Voltage)
        .number("current_limit", part.current_limit, Current)
        .number("minimum_load", part.minimum_load, Resistance)
        .number("supply_min", part.supply_min, Voltage)
        .number("supply_max", part.supply_max, Voltage)
        .number("supply_recommended", part.supply_recommended, Voltage)
        .number("gain", part.gain, Gain)
        .number("input_impedance", part.input_impedance, Resistance)
        .number("idle_current", part.idle_current, Current)
        .number("switching_loss", part.switching_loss, Voltage)
        .number("filter_inductance", part.filter_inductance, Inductance)
        .number("filter_capacitance", part.filter_capacitance, Capacitance)
        .number("input_capacitance", part.input_capacitance, Capacitance)
        .number("supply_capacitance", part.supply_capacitance, Capacitance)
        .number(
            "thermal_resistance",
            part.thermal_resistance,
            ThermalResistance,
        )
        .number("hottest", part.hottest, Temperature)
        .size("size", part.size)
        .part("amplifier", &part.common)
}

pub(super) fn battery(part: &BatteryPart) -> Part {
    Facts::default()
        .word("chemistry", part.chemistry)
        .count("cells", part.cells)
        .number("capacity", part.capacity, Charge)
        .number("rated_time", part.rated_time, Time)
        .number("peukert", part.peukert, Number)
        .number("resistance", part.resistance, Resistance)
        .number("end_voltage", part.end_voltage, Voltage)
        .number("charge_voltage", part.charge_voltage, Voltage)
        .number("protection_current", part.protection_current, Current)
        .said_flag("protection_latches", part.protection_latches)
        .number("hottest", part.hottest, Temperature)
        .size("size", part.size)
        .part("battery", &part.common)
}

pub(super) fn sheet(part: &SheetPart) -> Part {
    Facts::default()
        .number("thickness", part.thickness, Length)
        .number("density", part.density, Density)
        .number("modulus", part.modulus, Pressure)
        .number("modulus_across", part.modulus_across, Pressure)
        .word("species", part.species)
        .said_flag("metal", part.metal)
        .number("length", part.length, Length)
        .number("width", part.width, Length)
        .part("sheet", &part.common)
}

pub(super) fn control(part: &ControlPart) -> Part {
    Facts::default()
        .word("kind", part.kind)
        .number("hole", part.hole, Length)
        .two("cutout", part.cutout)
        .thread(part.thread)
        .number("bush", part.bush, Length)
        .number("nut_height", part.nut_height, Length)
        .number("nut", part.nut, Length)
        .number("knob", part.knob, Length)
        .number("knob_height", part.knob_height, Length)
        .size("body", part.body)
        .number("behind", part.behind, Length)
        .number("plug", part.plug, Length)
        .said_flag("insulated", part.insulated)
        .said_flag("radio", part.radio)
        .panel_electric(&part.electric)
        .part("control", &part.common)
}

/// A piece of sheet, which goes by the name of its sheet.
pub(super) fn offcut(offcut: &Offcut) -> Part {
    let facts = Facts::default()
        .number("length", offcut.length, Length)
        .number("width", offcut.width, Length)
        .count("count", offcut.count);
    Part {
        kind: OFFCUT,
        name: offcut.sheet.text.clone(),
        about: None,
        generic: false,
        price: None,
        on_hand: 0,
        facts: facts.0,
    }
}
