//! What may get how warm.

use super::model::Limits;
use super::modules::Modules;
use design::{Chemistry, Design};

/// Hottest point of an amplifier board nobody states a limit for, in °C: chips
/// switch off between 130 and 150 °C. Common practice, no source.
const BOARD: f64 = 110.0;

/// Highest temperatures in °C at which a battery is discharged and charged,
/// where its shelf part says nothing: common practice, no source; the sheet of
/// its maker comes first.
const fn battery(chemistry: Chemistry) -> (f64, f64) {
    match chemistry {
        Chemistry::LithiumIon | Chemistry::IronPhosphate => (60.0, 45.0),
        Chemistry::LeadAcid => (50.0, 40.0),
        Chemistry::NickelMetalHydride => (50.0, 45.0),
    }
}

pub(crate) fn limits(design: &Design, modules: &Modules) -> Limits {
    let board = design.amplifier.part.hottest.map(|value| value.si);
    let pack = &design.battery.part;
    let (usual, charging) = battery(pack.chemistry.value);
    let stated = pack.hottest.map(|value| value.si);
    Limits {
        board: board.unwrap_or(BOARD),
        board_known: board.is_some(),
        battery: stated.unwrap_or(usual),
        battery_known: stated.is_some(),
        charging,
        module: modules.hottest.as_ref().map(|hottest| hottest.limit),
    }
}
