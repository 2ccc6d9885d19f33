//! What the box weighs.

use super::EnclosureSubject;
use crate::build::EnclosureBuild;
use crate::carpentry::{BOARD_WEIGHT, CONTROL_WEIGHT, MODULE_WEIGHT, grille_weight};
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{
    BatteryPart, Chemistry, Common, Design, DriverKind, DriverPart, EnclosureKind, Value,
};
use physics::math::pow;

/// Fibre filling in kg per m³ of the space it fills: common practice, no source.
const FIBRE: f64 = 12.0;

/// A passive radiator that states no weight, in kg: common practice, no source.
pub(crate) const RADIATOR_WEIGHT: f64 = 0.15;

/// Wire, screws, glue, sockets, knobs and finish in kg: common practice, no source.
const SUNDRIES: f64 = 0.25;

/// Weight in kg of a battery that states none, from cell voltage and Wh per kg
/// usual for its chemistry, case and protection included: common practice, no source.
pub(crate) fn battery_guess(part: &BatteryPart) -> f64 {
    let (volts, density) = match part.chemistry.value {
        Chemistry::LeadAcid => (2.0, 37.0),
        Chemistry::IronPhosphate => (3.2, 95.0),
        Chemistry::LithiumIon => (3.6, 200.0),
        Chemistry::NickelMetalHydride => (1.2, 52.0),
    };
    part.capacity.si / 3600.0 * f64::from(part.cells) * volts / density
}

/// A line of the weight account.
#[derive(Clone, Debug, PartialEq)]
pub struct WeightLine {
    /// What it is.
    pub label: String,
    /// Nominal weight in kg.
    pub kilograms: f64,
    /// Whether the part's own data give it.
    pub known: bool,
}

#[derive(Clone, Debug)]
pub(crate) struct WeightSubject {
    parts: Vec<(String, Uncertain, bool)>,
}

/// The weighed parts, gathered one by one.
struct Account<'a> {
    causes: &'a mut Causes,
    parts: Vec<(String, Uncertain, bool)>,
}

impl Account<'_> {
    /// So many of a part of the shelf; `guess` in kg each where its weight is unknown.
    fn shelf(&mut self, common: &Common, count: u32, guess: f64) {
        self.add(common.name.text.clone(), count, common.weight, guess);
    }

    /// So many of anything; `guess` in kg each where its weight is unknown.
    fn add(&mut self, label: String, count: u32, weight: Option<Value>, guess: f64) {
        let count = f64::from(count);
        let id = format!("weight.{}", self.parts.len() + 1);
        let words = format!("weight of {label}");
        let each = match weight {
            Some(weight) => {
                let all = scaled(weight, count);
                self.causes.value(id, words, "kg", &all, &spreads::WEIGHT)
            }
            None => {
                let all = guess * count;
                self.causes
                    .usual(id, words, "kg", all, &spreads::WEIGHT_GUESSED)
            }
        };
        if each.nominal() > 0.0 {
            self.parts.push((label, each, weight.is_some()));
        }
    }
}

impl WeightSubject {
    pub(super) fn new(
        causes: &mut Causes,
        design: &Design,
        enclosure: &mut EnclosureSubject,
    ) -> Self {
        let mut account = Account {
            causes,
            parts: Vec::new(),
        };
        for group in &design.drivers {
            let guess = driver_guess(&group.part);
            account.shelf(&group.part.common, group.count, guess);
        }
        if let EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind {
            account.shelf(&used.part.common, used.count, RADIATOR_WEIGHT);
            let label = "mass added to the radiators".into();
            account.add(label, used.count, used.added_mass, 0.0);
        }
        account.shelf(&design.amplifier.part.common, 1, BOARD_WEIGHT);
        let battery = &design.battery;
        let guess = battery_guess(&battery.part);
        account.shelf(&battery.part.common, battery.count, guess);
        for thing in &design.inside {
            account.add(thing.name.text.clone(), thing.count, thing.weight, 0.0);
        }
        for used in &design.modules {
            account.shelf(&used.part.common, 1, MODULE_WEIGHT);
        }
        let label = "wire, screws, glue, sockets and finish".into();
        account.add(label, 1, None, SUNDRIES);
        if let Some(control) = &design.control {
            for used in &control.parts {
                account.shelf(&used.part.common, 1, CONTROL_WEIGHT);
            }
        }
        if let Some(handle) = &design.handle {
            account.add("handle".into(), 1, handle.weight, 0.0);
        }
        if let Some(grille) = &design.grille {
            let guess = grille_weight(&enclosure.plan, grille);
            account.add("grille frame with its cloth".into(), 1, None, guess);
        }
        let Account { causes, parts } = account;
        enclosure.plan.sheets.weigh(causes);
        Self { parts }
    }

    pub(super) fn at(&self, draw: &Draw, enclosure: &EnclosureBuild) -> f64 {
        let parts: f64 = self
            .parts
            .iter()
            .map(|(_, weight, _)| weight.at(draw))
            .sum();
        parts + fibre(enclosure) + enclosure.wood_weights.iter().sum::<f64>()
    }

    /// The account, nominal.
    pub(crate) fn lines(&self, enclosure: &EnclosureBuild) -> Vec<WeightLine> {
        let of = ["walls", "boards inside", "plate of the control panel"];
        let wood = of.into_iter().zip(enclosure.wood_weights);
        let mut lines: Vec<WeightLine> = wood
            .filter(|(_, kilograms)| *kilograms > 0.0)
            .map(|(label, kilograms)| WeightLine {
                label: label.into(),
                kilograms,
                known: true,
            })
            .collect();
        lines.extend(self.parts.iter().map(|(label, weight, known)| WeightLine {
            label: label.clone(),
            kilograms: weight.nominal(),
            known: *known,
        }));
        if enclosure.filling > 0.0 {
            lines.push(WeightLine {
                label: "filling".into(),
                kilograms: fibre(enclosure),
                known: false,
            });
        }
        lines
    }
}

/// Weight in kg of a driver whose weight nobody stated: so much at four
/// inches for its kind, growing with frame and magnet. Common practice, no source.
pub(crate) fn driver_guess(part: &DriverPart) -> f64 {
    let at_four_inches = match part.kind.value {
        DriverKind::FullRange | DriverKind::Coaxial => 0.45,
        DriverKind::Woofer => 0.85,
        DriverKind::Subwoofer => 1.4,
    };
    let size = part.size.map_or(1.0, |size| size.si / 0.1016);
    at_four_inches * pow(size, 1.7)
}

fn fibre(enclosure: &EnclosureBuild) -> f64 {
    FIBRE * enclosure.filling * enclosure.net
}

fn scaled(value: Value, by: f64) -> Value {
    let tolerance = match value.tolerance {
        design::Tolerance::Within(half) => design::Tolerance::Within(half * by),
        other => other,
    };
    Value {
        si: value.si * by,
        tolerance,
        ..value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DESIGN: &str = include_str!("../../../../examples/bathing-beach/design.toml");

    /// The generic batteries of the shelf weigh what is guessed of them, within the
    /// spread of a guess.
    #[test]
    fn batteries_weigh_about_what_is_guessed() {
        let project = design::read(DESIGN, None).expect("a sound design");
        for part in &project.shelf.batteries {
            let weight = part.common.weight.expect("the shelf states it").si;
            let ratio = battery_guess(part) / weight;
            let name = &part.common.name.text;
            assert!((0.7..=1.3).contains(&ratio), "{name}: {ratio}");
        }
    }
}
