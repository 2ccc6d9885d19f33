//! Amplifier, source and battery of the design.

use super::fields::Fields;
use super::placement::placement;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive};
use super::words::{CHEMISTRIES, COOLINGS, SUMS};
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{AmplifierUse, BatteryUse, Choice, Cooling, SourceUse, Sum};

/// Most batteries anybody joins in parallel.
const MOST_BATTERIES: u32 = 20;

pub(crate) fn amplifier(
    fields: Fields<'_>,
    shelf: &ReadShelf,
    log: &mut Log,
) -> Option<AmplifierUse> {
    let part = shelf.part(&fields, "part", log);
    let coupling = fields.value("coupling", D::Capacitance, Positive, log);
    let cable_length = fields.value("cable_length", D::Length, NotNegative, log);
    let cable_section = fields.value("cable_section", D::Area, Positive, log);
    let placement = placement(&fields, log);
    let standoff = fields.value("standoff", D::Length, NotNegative, log);
    let damping_resistor = fields.value("damping_resistor", D::Resistance, Positive, log);
    let damping_capacitor = fields.value("damping_capacitor", D::Capacitance, Positive, log);
    let cooling = fields.word_or("cooling", COOLINGS, Cooling::Air, log);
    fields.finish(log);
    let (part, place) = part?;
    Some(AmplifierUse {
        part,
        place,
        coupling,
        cable_length,
        cable_section,
        placement,
        standoff,
        damping_resistor,
        damping_capacitor,
        cooling,
    })
}

pub(crate) fn source(fields: Option<Fields<'_>>, log: &mut Log) -> SourceUse {
    let Some(fields) = fields else {
        return SourceUse {
            level: None,
            loss: None,
            sum: Choice::unsaid(Sum::None),
            sum_resistor: None,
        };
    };
    let source = SourceUse {
        level: fields.value("level", D::Voltage, Positive, log),
        loss: fields.value("loss", D::Decibel, NotNegative, log),
        sum: fields.word_or("sum", SUMS, Sum::None, log),
        sum_resistor: fields.value("sum_resistor", D::Resistance, Positive, log),
    };
    fields.without_use(
        "sum_resistor",
        source.sum.value == Sum::Resistors,
        "add `sum = \"resistors\"`",
        log,
    );
    fields.finish(log);
    source
}

pub(crate) fn battery(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<BatteryUse> {
    let part = shelf.part(&fields, "part", log);
    let count = fields.count("count", 1, MOST_BATTERIES, log).unwrap_or(1);
    let charger_current = fields.value("charger_current", D::Current, Positive, log);
    let charger_voltage = fields.value("charger_voltage", D::Voltage, Positive, log);
    let charger_chemistry = fields.word("charger_chemistry", CHEMISTRIES, log);
    let charged_inside = fields.flag("charged_inside", true, log);
    let vented_bay = fields.flag("vented_bay", false, log);
    let placement = placement(&fields, log);
    fields.finish(log);
    let (part, place) = part?;
    Some(BatteryUse {
        part,
        place,
        count,
        charger_current,
        charger_voltage,
        charger_chemistry,
        charged_inside,
        vented_bay,
        placement,
    })
}
