//! What reading the kinds of part has in common.

use super::fields::Fields;
use crate::diagnostic::Log;
use crate::{Common, Shelf};

/// A kind of part on the shelf.
pub(crate) trait Part: Clone {
    /// Its table in a shelf file.
    const TABLE: &'static str;
    /// Its word in a sentence.
    const NOUN: &'static str;

    /// Reads the keys of this kind.
    fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<Self>;

    /// What every part has.
    fn common(&self) -> &Common;

    /// The parts of this kind.
    fn on(shelf: &Shelf) -> &[Self];

    /// The same, to be added to.
    fn on_mut(shelf: &mut Shelf) -> &mut Vec<Self>;
}

macro_rules! part {
    ($part:ty, $table:literal, $noun:literal, $list:ident, $read:path) => {
        impl Part for $part {
            const TABLE: &'static str = $table;
            const NOUN: &'static str = $noun;

            fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<Self> {
                $read(fields, common, log)
            }

            fn common(&self) -> &Common {
                &self.common
            }

            fn on(shelf: &Shelf) -> &[Self] {
                &shelf.$list
            }

            fn on_mut(shelf: &mut Shelf) -> &mut Vec<Self> {
                &mut shelf.$list
            }
        }
    };
}

part!(
    crate::DriverPart,
    "driver",
    "driver",
    drivers,
    super::driver::read
);
part!(
    crate::RadiatorPart,
    "radiator",
    "passive radiator",
    radiators,
    super::radiator::read
);
part!(
    crate::AmplifierPart,
    "amplifier",
    "amplifier board",
    amplifiers,
    super::amplifier::read
);
part!(
    crate::BatteryPart,
    "battery",
    "battery",
    batteries,
    super::battery::read
);
part!(
    crate::SheetPart,
    "sheet",
    "sheet",
    sheets,
    super::sheet::read
);
part!(
    crate::ControlPart,
    "control",
    "control-panel part",
    controls,
    super::control_part::read
);
part!(crate::FusePart, "fuse", "fuse", fuses, super::fuse::read);
part!(
    crate::ModulePart,
    "module",
    "module",
    modules,
    super::module::read
);
part!(crate::WirePart, "wire", "wire", wires, super::wire::read);
part!(
    crate::ResistorPart,
    "resistor",
    "drawer of resistors",
    resistors,
    super::drawer::resistor
);
part!(
    crate::CapacitorPart,
    "capacitor",
    "drawer of capacitors",
    capacitors,
    super::drawer::capacitor
);
part!(
    crate::ZenerPart,
    "zener",
    "zener diode",
    zeners,
    super::circuit_part::zener
);
part!(
    crate::ReferencePart,
    "reference",
    "shunt reference",
    references,
    super::circuit_part::reference
);
part!(
    crate::ComparatorPart,
    "comparator",
    "comparator",
    comparators,
    super::circuit_part::comparator
);
part!(
    crate::LedPart,
    "led",
    "light-emitting diode",
    leds,
    super::circuit_part::led
);
part!(
    crate::SwitchingPart,
    "switching",
    "switching part",
    switching,
    super::circuit_part::switching
);
part!(
    crate::FinishPart,
    "finish",
    "finish",
    finishes,
    super::finish::read
);
