//! What a part in the control panel is electrically.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive};
use super::words::{CONTACTS, FUSE_FORMS, LIGHT_COLOURS, TRACK_LAWS};
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{ControlKind, Does, PanelElectric};

/// Most tracks on one shaft.
const MOST_GANGS: u32 = 6;
/// Most terminals of a socket.
const MOST_POLES: u32 = 8;

pub(crate) fn read(fields: &Fields<'_>, log: &mut Log) -> PanelElectric {
    let volts = |key, log: &mut Log| fields.value(key, D::Voltage, Positive, log);
    let supply_min = volts("supply_min", log);
    let supply_max = volts("supply_max", log);
    fields.in_order("supply_min", supply_min, "supply_max", supply_max, log);
    let switched = fields.flag("switched", false, log);
    PanelElectric {
        contacts: fields.word("contacts", CONTACTS, log),
        dc_current: fields.value("dc_current", D::Current, Positive, log),
        dc_voltage: volts("dc_voltage", log),
        resistance: fields.value("resistance", D::Resistance, Positive, log),
        law: fields.word("law", TRACK_LAWS, log),
        gangs: fields.count("gangs", 1, MOST_GANGS, log),
        poles: fields.count("poles", 1, MOST_POLES, log),
        switched: switched.place.map(|_| switched),
        forward_voltage: volts("forward_voltage", log),
        current: fields.value("current", D::Current, NotNegative, log),
        light: fields.word("light", LIGHT_COLOURS, log),
        supply_min,
        supply_max,
        output_level: volts("output_level", log),
        output_impedance: fields.value("output_impedance", D::Resistance, NotNegative, log),
        takes: fields.word("takes", FUSE_FORMS, log),
    }
}

/// What a panel part of a kind can be for.
pub(crate) fn roles(kind: ControlKind) -> &'static [Does] {
    use Does as R;
    match kind {
        ControlKind::Potentiometer => &[R::Volume],
        ControlKind::Switch => &[R::Power, R::ChargeSelector, R::Radio],
        ControlKind::Jack => &[R::Input, R::LeftOutput, R::RightOutput],
        ControlKind::PowerSocket => &[R::Charging],
        ControlKind::Terminal => &[R::LeftOutput, R::RightOutput, R::Charging],
        ControlKind::FuseHolder => &[R::Fuse],
        ControlKind::Light => &[R::PowerLight, R::LowBattery, R::Charging],
        ControlKind::Meter => &[R::Voltage, R::LowBattery],
        ControlKind::Radio => &[R::Radio],
    }
}
