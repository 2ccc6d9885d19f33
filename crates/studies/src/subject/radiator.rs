//! The passive radiators of the design with their spreads.

use crate::build::RadiatorBuild;
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{RadiatorUse, Value};

/// Passive radiators with their spreads.
#[derive(Clone, Debug)]
pub(crate) struct RadiatorSubject {
    mass: Uncertain,
    fs: Uncertain,
    qms: Uncertain,
    xmax: Uncertain,
    added: Uncertain,
    area: f64,
    count: u32,
}

impl RadiatorSubject {
    pub(super) fn new(causes: &mut Causes, used: &RadiatorUse) -> Self {
        let part = &used.part;
        let mut value = |id: &str, words: &str, unit, value: &Value, usual| {
            causes.value(
                format!("radiator.{id}"),
                format!("{words} of the passive radiator"),
                unit,
                value,
                usual,
            )
        };
        Self {
            mass: value(
                "mass",
                "moving mass",
                "kg",
                &part.mass,
                &spreads::RADIATOR_MASS,
            ),
            fs: value("fs", "resonance", "Hz", &part.fs, &spreads::RADIATOR_FS),
            qms: value("qms", "mechanical Q", "", &part.qms, &spreads::RADIATOR_QMS),
            xmax: value("xmax", "travel", "m", &part.xmax, &spreads::RADIATOR_XMAX),
            added: used.added_mass.map_or(Uncertain::fixed(0.0), |mass| {
                value("added", "mass added", "kg", &mass, &spreads::PLACE)
            }),
            area: part.area.si,
            count: used.count,
        }
    }

    pub(super) fn at(&self, draw: &Draw) -> RadiatorBuild {
        let omega = core::f64::consts::TAU * self.fs.at(draw);
        let bare = self.mass.at(draw);
        RadiatorBuild {
            count: self.count,
            mms: bare + self.added.at(draw),
            compliance: 1.0 / (omega * omega * bare),
            resistance: omega * bare / self.qms.at(draw),
            area: self.area,
            xmax: self.xmax.at(draw),
        }
    }
}
