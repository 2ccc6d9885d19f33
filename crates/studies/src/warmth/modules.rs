//! What modules and lights turn into heat.

use design::{ControlKind, Design, ModuleKind, ModulePart};

/// Thermal resistance in K/W of a small module's hottest point to the air
/// around it, and what that may reach in °C: common practice, no source.
const RESISTANCE: f64 = 40.0;
const LIMIT: f64 = 85.0;

/// Share of what a converter takes that it gives, unless stated: common practice, no source.
const EFFICIENCY: f64 = 0.8;

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
    /// Of a design on a supply of so many volts. Radio modules hang on the
    /// converter where there is one.
    pub(crate) fn of(design: &Design, supply: f64) -> Self {
        let converter = design
            .modules
            .iter()
            .map(|used| &used.part)
            .find(|part| part.kind.value == ModuleKind::Converter);
        let converted = converter.and_then(|part| part.output_voltage);
        let feed = converted.map_or(supply, |value| value.si);
        let mut all = Self::default();
        let mut radios = 0.0;
        for part in design.modules.iter().map(|used| &used.part) {
            let own = part.current.map_or(0.0, |value| value.si);
            match part.kind.value {
                ModuleKind::Radio => {
                    radios += own * feed;
                    all.add(own * feed, Some(part));
                }
                ModuleKind::Indicator => all.add(own * supply, Some(part)),
                ModuleKind::Converter | ModuleKind::FuseHolder => {}
            }
        }
        for used in design.control.iter().flat_map(|control| &control.parts) {
            let own = used.part.electric.current.map_or(0.0, |value| value.si);
            let radio = used.part.kind.value == ControlKind::Radio;
            let heat = own * if radio { feed } else { supply };
            radios += if radio { heat } else { 0.0 };
            all.add(heat, None);
        }
        if let Some(part) = converter {
            let share = part.efficiency.map_or(EFFICIENCY, |value| value.si);
            let own = part.current.map_or(0.0, |value| value.si) * supply;
            all.add(radios * (1.0 / share - 1.0) + own, Some(part));
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
