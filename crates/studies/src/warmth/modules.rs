//! What modules and lights turn into heat.

use crate::subject::Subject;
use design::ModulePart;

/// Thermal resistance in K/W of a small module's hottest point to the air
/// around it, and what that may reach in °C: common practice, no source.
const RESISTANCE: f64 = 40.0;
const LIMIT: f64 = 85.0;

/// All modules together, and the warmest of them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Modules {
    /// Heat of all in W.
    pub(crate) heat: f64,
    /// The one that stands highest over the air.
    pub(crate) hottest: Option<Hottest>,
}

/// The warmest module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Hottest {
    /// Its name on the shelf.
    pub(crate) name: String,
    /// Whether the shelf says both how it sheds its heat and what it may reach.
    pub(crate) known: bool,
    /// K over the air around it.
    pub(crate) rise: f64,
    /// °C that it may reach.
    pub(crate) limit: f64,
}

impl Modules {
    /// Of a design on a supply of so many volts.
    pub(crate) fn of(subject: &Subject, supply: f64) -> Self {
        let modules = &subject.project.design.modules;
        let mut all = Self::default();
        for taker in &subject.aside.takers {
            let part = taker.module.map(|module| &modules[module].part);
            all.add(taker.heat.power(supply), part);
        }
        all
    }

    fn add(&mut self, heat: f64, part: Option<&ModulePart>) {
        self.heat += heat;
        let Some(part) = part else { return };
        let resistance = part.thermal_resistance.map_or(RESISTANCE, |value| value.si);
        let rise = heat * resistance;
        if rise > 0.0
            && self
                .hottest
                .as_ref()
                .is_none_or(|hottest| rise > hottest.rise)
        {
            self.hottest = Some(Hottest {
                name: part.common.name.text.clone(),
                known: part.thermal_resistance.is_some() && part.hottest.is_some(),
                rise,
                limit: part.hottest.map_or(LIMIT, |value| value.si),
            });
        }
    }
}
