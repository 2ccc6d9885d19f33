//! What the shelf says about fuses, wires, small parts and finishes.

use super::{Facts, Part};
use design::Dimension::{
    Area, Capacitance, Coverage, Current, Length, Power, Resistance, Share, Temperature,
    ThermalResistance, Time, Voltage, Volume,
};
use design::{
    CapacitorPart, ComparatorPart, FinishPart, FusePart, LedPart, ModulePart, PanelElectric,
    ReferencePart, ResistorPart, Shelf, SwitchingKind, SwitchingPart, WirePart, ZenerPart,
};

/// These kinds, in the order of the shelf.
pub(super) fn all(shelf: &Shelf) -> impl Iterator<Item = Part> {
    let fuses = shelf.fuses.iter().map(fuse);
    let modules = shelf.modules.iter().map(module);
    let wires = shelf.wires.iter().map(wire);
    let resistors = shelf.resistors.iter().map(resistor);
    let capacitors = shelf.capacitors.iter().map(capacitor);
    let zeners = shelf.zeners.iter().map(zener);
    let references = shelf.references.iter().map(reference);
    let comparators = shelf.comparators.iter().map(comparator);
    let leds = shelf.leds.iter().map(led);
    let switching = shelf.switching.iter().map(switching);
    let finishes = shelf.finishes.iter().map(finish);
    fuses
        .chain(modules)
        .chain(wires)
        .chain(resistors)
        .chain(capacitors)
        .chain(zeners)
        .chain(references)
        .chain(comparators)
        .chain(leds)
        .chain(switching)
        .chain(finishes)
}

impl Facts {
    /// What a part of a control panel is electrically.
    pub(super) fn panel_electric(self, part: &PanelElectric) -> Self {
        let facts = self
            .word("contacts", part.contacts)
            .number("dc_current", part.dc_current, Current)
            .number("dc_voltage", part.dc_voltage, Voltage)
            .number("resistance", part.resistance, Resistance)
            .word("law", part.law)
            .count("gangs", part.gangs)
            .count("poles", part.poles);
        let facts = match part.switched {
            Some(switched) => facts.said_flag("switched", switched),
            None => facts,
        };
        facts
            .number("forward_voltage", part.forward_voltage, Voltage)
            .number("current", part.current, Current)
            .word("light", part.light)
            .number("supply_min", part.supply_min, Voltage)
            .number("supply_max", part.supply_max, Voltage)
            .number("output_level", part.output_level, Voltage)
            .number("output_impedance", part.output_impedance, Resistance)
            .word("takes", part.takes)
    }
}

fn fuse(part: &FusePart) -> Part {
    Facts::default()
        .word("form", part.form)
        .number("current", part.current, Current)
        .number("dc_voltage", part.dc_voltage, Voltage)
        .number("breaking_current", part.breaking_current, Current)
        .word("speed", part.speed)
        .part("fuse", &part.common)
}

fn module(part: &ModulePart) -> Part {
    Facts::default()
        .word("kind", part.kind)
        .number("supply_min", part.supply_min, Voltage)
        .number("supply_max", part.supply_max, Voltage)
        .number("current", part.current, Current)
        .number("supply_capacitance", part.supply_capacitance, Capacitance)
        .number("output_voltage", part.output_voltage, Voltage)
        .number("output_current", part.output_current, Current)
        .number("efficiency", part.efficiency, Share)
        .said_flag("isolated", part.isolated)
        .number("output_level", part.output_level, Voltage)
        .number("output_impedance", part.output_impedance, Resistance)
        .number("dc_current", part.dc_current, Current)
        .number("dc_voltage", part.dc_voltage, Voltage)
        .word("takes", part.takes)
        .number(
            "thermal_resistance",
            part.thermal_resistance,
            ThermalResistance,
        )
        .number("hottest", part.hottest, Temperature)
        .size("size", part.size)
        .part("module", &part.common)
}

fn wire(part: &WirePart) -> Part {
    Facts::default()
        .number("section", part.section, Area)
        .number("outer", part.outer, Length)
        .number("hottest", part.hottest, Temperature)
        .words("colours", &part.colours)
        .number("in_drawer", part.in_drawer, Length)
        .part("wire", &part.common)
}

fn resistor(part: &ResistorPart) -> Part {
    Facts::default()
        .number("tolerance", part.tolerance, Share)
        .number("power", part.power, Power)
        .values("values", &part.values, Resistance)
        .part("resistor", &part.common)
}

fn capacitor(part: &CapacitorPart) -> Part {
    Facts::default()
        .word("kind", part.kind)
        .number("tolerance", part.tolerance, Share)
        .number("voltage", part.voltage, Voltage)
        .values("values", &part.values, Capacitance)
        .part("capacitor", &part.common)
}

fn zener(part: &ZenerPart) -> Part {
    Facts::default()
        .number("voltage", part.voltage, Voltage)
        .number("tolerance", part.tolerance, Share)
        .number("test_current", part.test_current, Current)
        .number("impedance", part.impedance, Resistance)
        .number("power", part.power, Power)
        .part("zener", &part.common)
}

fn reference(part: &ReferencePart) -> Part {
    Facts::default()
        .number("voltage", part.voltage, Voltage)
        .number("tolerance", part.tolerance, Share)
        .number("least_current", part.least_current, Current)
        .number("most_current", part.most_current, Current)
        .number("impedance", part.impedance, Resistance)
        .number("drift", part.drift, Share)
        .part("reference", &part.common)
}

fn comparator(part: &ComparatorPart) -> Part {
    Facts::default()
        .word("output", part.output)
        .count("channels", part.channels)
        .number("supply_min", part.supply_min, Voltage)
        .number("supply_max", part.supply_max, Voltage)
        .number("supply_current", part.supply_current, Current)
        .number("input_low", part.input_low, Voltage)
        .number("input_high", part.input_high, Voltage)
        .number("output_low", part.output_low, Voltage)
        .number("output_high", part.output_high, Voltage)
        .number("output_current", part.output_current, Current)
        .number("offset", part.offset, Voltage)
        .number("bias_current", part.bias_current, Current)
        .part("comparator", &part.common)
}

fn led(part: &LedPart) -> Part {
    Facts::default()
        .word("colour", part.colour)
        .number("forward_voltage", part.forward_voltage, Voltage)
        .number("current", part.current, Current)
        .number("most_current", part.most_current, Current)
        .part("led", &part.common)
}

fn switching(part: &SwitchingPart) -> Part {
    let facts = match &part.kind {
        SwitchingKind::Relay {
            coil_voltage,
            coil_resistance,
            pull_in,
            drop_out,
        } => Facts::default()
            .say("kind", "relay")
            .number("coil_voltage", *coil_voltage, Voltage)
            .number("coil_resistance", *coil_resistance, Resistance)
            .number("pull_in", *pull_in, Voltage)
            .number("drop_out", *drop_out, Voltage),
        SwitchingKind::Mosfet {
            channel,
            on_resistance,
            gate_voltage,
            gate_most,
            threshold,
        } => Facts::default()
            .say("kind", "mosfet")
            .word("channel", *channel)
            .number("on_resistance", *on_resistance, Resistance)
            .number("gate_voltage", *gate_voltage, Voltage)
            .number("gate_most", *gate_most, Voltage)
            .number("threshold", *threshold, Voltage),
    };
    facts
        .number("dc_current", part.dc_current, Current)
        .number("dc_voltage", part.dc_voltage, Voltage)
        .part("switching", &part.common)
}

fn finish(part: &FinishPart) -> Part {
    Facts::default()
        .word("kind", part.kind)
        .word("base", part.base)
        .number("coverage", part.coverage, Coverage)
        .number("can", part.can, Volume)
        .count("coats", part.coats)
        .number("touch_dry", part.touch_dry, Time)
        .number("recoat", part.recoat, Time)
        .number("cure", part.cure, Time)
        .count("sand", part.sand)
        .said_flag("sprayed", part.sprayed)
        .said_flag("self_heating", part.self_heating)
        .part("finish", &part.common)
}
