//! The parts of the low-battery indicator and its cut-off, out of the drawers.

use super::list::{Amount, List};
use super::model::{Extra, Kind};
use crate::electrics::Electrics;
use crate::indicator::{self, Indicator, Part};
use crate::words::{prefixed, stated};
use design::{Common, Shelf, Text};

/// What the light that the indicator switches is called among the electrical parts.
const LOW_BATTERY_LIGHT: &str = "low-battery light";

/// All parts of a circuit and of what cuts off. Where a light of the control panel says that the
/// battery is low, it is the lamp of the circuit and stands on the list already.
fn all<'a>(electrics: &Electrics, indicator: &'a Indicator) -> impl Iterator<Item = &'a Part> {
    let on_panel = has_light(electrics);
    let built = indicator.built.iter();
    let parts = built.flat_map(|built| {
        let cut_off = built.cut_off.iter().flat_map(|cut_off| &cut_off.parts);
        built.parts.iter().chain(cut_off)
    });
    parts.filter(move |part| !(on_panel && part.kind == indicator::Kind::Lamp))
}

/// Whether the indicator's wires go to a light that the design names.
fn has_light(electrics: &Electrics) -> bool {
    let light = electrics.system.part(LOW_BATTERY_LIGHT);
    let part = light.and_then(|index| electrics.parts.get(index));
    part.is_some_and(|part| !part.assumed && part.table.starts_with("control.part"))
}

/// Adds every part that the shelf has, equal ones together.
pub(super) fn parts(
    list: &mut List<'_>,
    shelf: &Shelf,
    electrics: &Electrics,
    indicator: &Indicator,
) {
    for part in all(electrics, indicator) {
        let Some(common) = part.name.as_deref().and_then(|name| named(shelf, name)) else {
            continue;
        };
        let of_drawer = Common {
            name: Text {
                text: label(part, Some(&common.name.text)),
                place: common.name.place,
            },
            ..common.clone()
        };
        let one = Amount::pieces(1);
        list.pieces(Kind::Indicator, &of_drawer, one, None, &part.mark);
    }
}

/// Those that it has not.
pub(super) fn strangers(shelf: &Shelf, electrics: &Electrics, indicator: &Indicator) -> Vec<Extra> {
    let stands = |part: &&Part| {
        let name = part.name.as_deref();
        name.is_some_and(|name| named(shelf, name).is_some())
    };
    let strange = all(electrics, indicator).filter(|part| !stands(part));
    strange
        .map(|part| Extra {
            label: label(part, part.name.as_deref()),
            amount: 1.0,
            unit: "",
            about: format!("{} of the indicator: {}", part.mark, part.does),
            part: true,
        })
        .collect()
}

/// The part of this name, of the kinds a circuit is made of.
fn named<'a>(shelf: &'a Shelf, name: &str) -> Option<&'a Common> {
    let resistors = shelf.resistors.iter().map(|part| &part.common);
    let capacitors = shelf.capacitors.iter().map(|part| &part.common);
    let zeners = shelf.zeners.iter().map(|part| &part.common);
    let references = shelf.references.iter().map(|part| &part.common);
    let comparators = shelf.comparators.iter().map(|part| &part.common);
    let leds = shelf.leds.iter().map(|part| &part.common);
    let switching = shelf.switching.iter().map(|part| &part.common);
    resistors
        .chain(capacitors)
        .chain(zeners)
        .chain(references)
        .chain(comparators)
        .chain(leds)
        .chain(switching)
        .find(|common| common.name.text == name)
}

/// What to ask for: of a drawer, the value too.
fn label(part: &Part, name: Option<&str>) -> String {
    let valued = matches!(
        part.kind,
        indicator::Kind::Resistor
            | indicator::Kind::Trimmer
            | indicator::Kind::Capacitor
            | indicator::Kind::Electrolytic
    );
    let value = part.value.filter(|_| valued);
    // Capacitors of a millifarad and more are sold in microfarads.
    let value = value.map(|value| match part.unit {
        "F" if value >= 1e-3 => stated(1e6 * value, "µF"),
        unit => prefixed(value, unit),
    });
    let name = name.unwrap_or(match part.kind {
        indicator::Kind::Resistor => "resistor",
        indicator::Kind::Trimmer => "trimmer",
        indicator::Kind::Capacitor => "capacitor",
        indicator::Kind::Electrolytic => "electrolytic capacitor",
        // A reference comes off the shelf; what has no name there is the diode across a coil.
        indicator::Kind::Reference => "silicon diode",
        indicator::Kind::Comparator => "comparator",
        indicator::Kind::Lamp => "light-emitting diode",
        indicator::Kind::Mosfet | indicator::Kind::MosfetP => "field-effect transistor",
        indicator::Kind::Relay => "relay",
        indicator::Kind::Button => "push-button",
    });
    value.map_or_else(|| name.into(), |value| format!("{value}, {name}"))
}
