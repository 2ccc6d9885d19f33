//! Electrical parts inside the box: on the shelf, and in the design.

use super::fields::Fields;
use super::fuse::{Holds, fuse_in};
use super::placement::{has_no_outline, placement};
use super::role::role;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::{FUSE_FORMS, MODULE_KINDS, word_of};
use crate::diagnostic::Log;
use crate::fault::PartFault;
use crate::quantity::Dimension as D;
use crate::{Common, Does, ModuleKind, ModulePart, ModuleUse};

/// A converter that loses nothing does not exist, nor one that gives a twentieth.
const EFFICIENCY: super::values::Bounds = Within(0.05, 1.0);

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<ModulePart> {
    let kind = fields.need_word("kind", MODULE_KINDS, log);
    let volts = |key, log: &mut Log| fields.value(key, D::Voltage, Positive, log);
    let supply_min = volts("supply_min", log);
    let supply_max = volts("supply_max", log);
    fields.in_order("supply_min", supply_min, "supply_max", supply_max, log);
    let converts = kind.is_some_and(|kind| kind.value == ModuleKind::Converter);
    let needed = |key, dimension, bounds, log: &mut Log| {
        if converts {
            fields.need(key, dimension, bounds, log)
        } else {
            fields.value(key, dimension, bounds, log)
        }
    };
    let output_voltage = needed("output_voltage", D::Voltage, Positive, log);
    let output_current = needed("output_current", D::Current, Positive, log);
    let efficiency = needed("efficiency", D::Share, EFFICIENCY, log);
    let part = ModulePart {
        supply_min,
        supply_max,
        current: fields.value("current", D::Current, NotNegative, log),
        supply_capacitance: fields.value("supply_capacitance", D::Capacitance, Positive, log),
        output_voltage,
        output_current,
        efficiency,
        isolated: fields.flag("isolated", false, log),
        output_level: volts("output_level", log),
        output_impedance: fields.value("output_impedance", D::Resistance, NotNegative, log),
        dc_current: fields.value("dc_current", D::Current, Positive, log),
        dc_voltage: volts("dc_voltage", log),
        takes: fields.word("takes", FUSE_FORMS, log),
        thermal_resistance: fields.value("thermal_resistance", D::ThermalResistance, Positive, log),
        hottest: fields.value("hottest", D::Temperature, Within(20.0, 150.0), log),
        size: fields.size("size", log),
        kind: kind?,
        common,
    };
    Some(part)
}

pub(crate) fn modules(top: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<ModuleUse> {
    let layers = top.layers("module", log);
    let mut names: Vec<String> = Vec::new();
    let mut modules = Vec::new();
    for layer in layers {
        let fields = Fields::new("[[module]]", layer, None);
        let place = fields.place_of("name");
        let Some(module) = module(fields, shelf, log) else {
            continue;
        };
        if let Some(name) = &module.name {
            if names.contains(&name.text) {
                let (noun, name) = ("module", name.text.clone());
                log.add(PartFault::NameTwice { noun, name }, place);
            }
            names.push(name.text.clone());
        }
        modules.push(module);
    }
    modules
}

fn module(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<ModuleUse> {
    let part = shelf.part::<ModulePart>(&fields, "part", log);
    let kind = part.as_ref().map(|(part, _)| part.kind.value);
    let holds = part
        .as_ref()
        .map(|(part, _)| Holds::of(part.kind.value == ModuleKind::FuseHolder, part.takes));
    let name = fields.text("name", log);
    let can = kind.map(|kind| (word_of(MODULE_KINDS, kind), roles(kind)));
    let does = role(&fields, can, log);
    let fuse = fuse_in(&fields, holds, shelf, log);
    let placement = placement(&fields, log);
    if part.as_ref().is_some_and(|(part, _)| part.size.is_none()) {
        has_no_outline(&fields, log);
    }
    fields.finish(log);
    let (part, place) = part?;
    Some(ModuleUse {
        part,
        place,
        name,
        does,
        fuse,
        placement,
    })
}

/// What a module of a kind can be for.
fn roles(kind: ModuleKind) -> &'static [Does] {
    match kind {
        ModuleKind::Radio => &[Does::Radio],
        ModuleKind::Converter => &[Does::RadioSupply],
        ModuleKind::FuseHolder => &[Does::Fuse],
        ModuleKind::Indicator => &[Does::LowBattery],
    }
}
