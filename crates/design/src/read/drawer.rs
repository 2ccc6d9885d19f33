//! Drawers of parts that differ only in value: resistors and capacitors.

use super::fields::Fields;
use super::values::Bounds::{Positive, Within};
use super::values::{Bounds, checked, unreadable};
use super::words::{CAPACITOR_KINDS, SERIES};
use crate::diagnostic::Log;
use crate::fault::{ElectricFault, Wanted};
use crate::quantity::{self, Dimension as D};
use crate::{CapacitorPart, Common, ResistorPart, Tolerance, Value};

/// What a share of a value may be, one way.
pub(crate) const TOLERANCE: Bounds = Within(0.0, 0.8);
/// Most values one drawer takes.
const MOST_VALUES: usize = 1000;

pub(crate) fn resistor(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<ResistorPart> {
    let values = values(fields, D::Resistance, log);
    let tolerance = fields.need("tolerance", D::Share, TOLERANCE, log);
    let power = fields.need("power", D::Power, Positive, log);
    Some(ResistorPart {
        common,
        values: values?,
        tolerance: tolerance?,
        power: power?,
    })
}

pub(crate) fn capacitor(
    fields: &Fields<'_>,
    common: Common,
    log: &mut Log,
) -> Option<CapacitorPart> {
    let kind = fields.need_word("kind", CAPACITOR_KINDS, log);
    let values = values(fields, D::Capacitance, log);
    let tolerance = fields.need("tolerance", D::Share, TOLERANCE, log);
    let voltage = fields.need("voltage", D::Voltage, Positive, log);
    Some(CapacitorPart {
        common,
        kind: kind?,
        values: values?,
        tolerance: tolerance?,
        voltage: voltage?,
    })
}

/// The values of a drawer, listed or by series, rising, each once.
fn values(fields: &Fields<'_>, dimension: D, log: &mut Log) -> Option<Vec<f64>> {
    // What a maker says one way replaces what the built-in shelf says the other way.
    let own = |key: &str| fields.own_keys().any(|own| own == key);
    let by_list = !fields.is_absent("values") && (own("values") || !own("series"));
    let by_series = !fields.is_absent("series") && (own("series") || !own("values"));
    fields.know(&["values", "series", "from", "to"]);
    let end = |key, log: &mut Log| {
        if by_series {
            return fields.need(key, dimension, Positive, log);
        }
        if own(key) {
            fields.without_use(key, false, "add `series = \"E12\"`", log);
        }
        None
    };
    let from = end("from", log);
    let to = end("to", log);
    fields.not_above("from", from, "to", to, log);
    match (by_list, by_series) {
        (false, false) => {
            if !fields.is_broken() {
                log.add(ElectricFault::DrawerEmpty, fields.header());
            }
            None
        }
        (true, true) => {
            log.add(ElectricFault::DrawerTwice, fields.place_of("series"));
            None
        }
        (true, false) => listed(fields, dimension, log),
        (false, true) => {
            let values = fields
                .word("series", SERIES, log)?
                .value
                .between(from?.si, to?.si);
            if values.is_empty() && from?.si <= to?.si {
                log.add(ElectricFault::DrawerEmpty, fields.place_of("series"));
            }
            (!values.is_empty()).then_some(values)
        }
    }
}

fn listed(fields: &Fields<'_>, dimension: D, log: &mut Log) -> Option<Vec<f64>> {
    let key = "values";
    let entry = fields.entry(key)?;
    let elements = entry.elements();
    let before = log.len();
    let mut values = Vec::new();
    for element in elements.iter().take(MOST_VALUES) {
        let wanted = Wanted::Quantity(dimension);
        let Some(text) = element.physical_text(key, wanted, log) else {
            continue;
        };
        match quantity::quantity(text, dimension) {
            Ok(read) => {
                let value = Value {
                    si: read.si,
                    tolerance: Tolerance::Unstated,
                    place: element.place(),
                };
                values.extend(checked(key, value, dimension, Positive, log).map(|v| v.si));
            }
            Err(trouble) => unreadable(element, key, text, trouble, wanted, log),
        }
    }
    if elements.is_empty() {
        log.add(ElectricFault::DrawerEmpty, entry.place());
    }
    values.sort_by(f64::total_cmp);
    values.dedup();
    (log.len() == before).then_some(values)
}
