//! A battery on the shelf.

use super::fields::Fields;
use super::values::Bounds::{Positive, Within};
use super::words::CHEMISTRIES;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{BatteryPart, Common};

/// Cells in series of the largest battery that makes sense here.
const MOST_CELLS: u32 = 40;

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<BatteryPart> {
    let chemistry = fields.need_word("chemistry", CHEMISTRIES, log);
    let cells = fields.need_count("cells", 1, MOST_CELLS, log);
    let capacity = fields.need("capacity", D::Charge, Positive, log);
    let rated_time = fields.value("rated_time", D::Time, Positive, log);
    let peukert = fields.value("peukert", D::Number, Within(1.0, 2.0), log);
    let resistance = fields.need("resistance", D::Resistance, Positive, log);
    let end_voltage = fields.value("end_voltage", D::Voltage, Positive, log);
    let charge_voltage = fields.value("charge_voltage", D::Voltage, Positive, log);
    fields.in_order(
        "end_voltage",
        end_voltage,
        "charge_voltage",
        charge_voltage,
        log,
    );
    let protection_current = fields.value("protection_current", D::Current, Positive, log);
    let protection_latches = fields.flag("protection_latches", false, log);
    let hottest = fields.value("hottest", D::Temperature, Within(20.0, 100.0), log);
    let size = fields.size("size", log);
    Some(BatteryPart {
        common,
        chemistry: chemistry?,
        cells: cells?,
        capacity: capacity?,
        rated_time,
        peukert,
        resistance: resistance?,
        end_voltage,
        charge_voltage,
        protection_current,
        protection_latches,
        hottest,
        size,
    })
}
