//! A design made ready to be studied: every value with its spread, gaps
//! filled from priors, and whatever follows resolved once.

mod amplifier;
mod battery;
mod codes;
mod cost;
mod displacement;
mod driver;
mod enclosure;
mod front;
mod parameter;
mod prior;
mod radiator;
mod ties;
mod timber;
mod weight;

pub use codes::DIAGNOSTIC_CODES;
pub(crate) use driver::DriverSubject;
pub use enclosure::AirLine;
pub(crate) use enclosure::EnclosureSubject;
pub use front::{Front, Spot, SpotKind};
pub(crate) use parameter::{Parameter, stated};
pub(crate) use radiator::RadiatorSubject;
pub use weight::WeightLine;

pub(crate) use amplifier::AmplifierSubject;
pub(crate) use battery::BatterySubject;
pub(crate) use cost::CostSubject;
pub(crate) use weight::{RADIATOR_WEIGHT, WeightSubject, battery_guess, driver_guess};

use crate::baffles::Baffles;
use crate::build::Build;
use crate::carpentry::{CutLine, SheetPlan, Workshop, cut_list, diagnostic, sheet_plans, solid};
use crate::electrics::Aside;
use crate::indicator::Indicators;
use crate::memory::Memory;
use crate::money::{self, Need};
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{Diagnostic, DriverUse, EnclosureKind, Project, Side};
use physics::air::Air;
use std::sync::Arc;
use wood::Body;
use wood::sawing::Effort;

/// How many drivers of a group hang on one channel of those that carry it.
#[must_use]
pub(crate) const fn on_one_channel(group: &DriverUse) -> u32 {
    match group.side.value {
        Side::Both => group.count / 2,
        Side::Left | Side::Right | Side::Mono => group.count,
    }
}

/// A design ready to be studied.
#[derive(Clone, Debug)]
pub(crate) struct Subject {
    /// The design and the shelf as read.
    pub(crate) project: Project,
    /// What varies, in the order of the dimensions of a draw.
    pub(crate) causes: Causes,
    /// Drivers, one for each group of the design.
    pub(crate) drivers: Vec<DriverSubject>,
    /// Passive radiators, where there are any.
    pub(crate) radiator: Option<RadiatorSubject>,
    /// The box.
    pub(crate) enclosure: EnclosureSubject,
    /// The solid model of the nominal build.
    pub(crate) body: Arc<Body>,
    /// What is cut for it.
    pub(crate) cut_list: Vec<CutLine>,
    /// From which sheets.
    pub(crate) sheets: Vec<SheetPlan>,
    /// Where things sit on the front.
    pub(crate) front: Front,
    /// The air at the place of use, nominal.
    pub(crate) air: Air,
    pub(crate) amplifier: AmplifierSubject,
    pub(crate) battery: BatterySubject,
    /// What draws from it beside the amplifier.
    pub(crate) aside: Aside,
    pub(crate) weight: WeightSubject,
    pub(crate) cost: CostSubject,
    /// Faces met so far, shared with variants of the design.
    pub(crate) baffles: Baffles,
    /// Circuits of indicators found so far.
    pub(crate) indicators: Indicators,
    /// Work in wood done so far, shared with them too.
    pub(crate) workshop: Workshop,
    /// Whether it is a variant that is only tried.
    pub(crate) trial: bool,
    celsius: Uncertain,
}

/// How the wood of a design is made ready.
#[derive(Clone, Copy)]
enum Wood<'a> {
    /// As it will be built.
    Own,
    /// In less detail, for a variant that is only tried.
    OfTrial,
    /// Not at all: that of another design stands for it.
    Of(&'a Subject),
}

impl Subject {
    /// Prepares a design, its usual spreads multiplied by `spread` (1 as a rule).
    ///
    /// # Errors
    /// What cannot be studied at all, such as a box with no air left inside,
    /// comes back as located errors.
    pub(crate) fn new(project: Project, spread: f64) -> Result<Self, Vec<Diagnostic>> {
        Self::remembering(project, spread, &Memory::default())
    }

    /// The same with what was worked out for designs before.
    ///
    /// # Errors
    /// As for [`Subject::new`].
    pub(crate) fn remembering(
        project: Project,
        spread: f64,
        memory: &Memory,
    ) -> Result<Self, Vec<Diagnostic>> {
        let subject = Self::prepared(project, spread, memory.workshop(), Wood::Own)?;
        Ok(Self {
            baffles: memory.baffles(),
            indicators: memory.indicators(),
            ..subject
        })
    }

    fn prepared(
        project: Project,
        spread: f64,
        workshop: Workshop,
        wood: Wood<'_>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let mut causes = Causes::scaled(spread);
        let design = &project.design;
        let reference = reference_air();
        let mut errors = Vec::new();
        let mut drivers = Vec::new();
        for (index, group) in design.drivers.iter().enumerate() {
            match DriverSubject::new(&mut causes, index, group, &reference) {
                Ok(driver) => drivers.push(driver),
                Err(error) => errors.push(error),
            }
        }
        let radiator = match &design.enclosure.kind {
            EnclosureKind::PassiveRadiator(used) => Some(RadiatorSubject::new(&mut causes, used)),
            EnclosureKind::Sealed | EnclosureKind::Vented(_) => None,
        };
        let mut enclosure = EnclosureSubject::new(&mut causes, design);
        let celsius = design
            .place
            .temperature
            .map_or(Uncertain::fixed(20.0), |t| {
                causes.value(
                    "place.temperature",
                    "air temperature",
                    "°C",
                    &t,
                    &spreads::PLACE,
                )
            });
        let amplifier = AmplifierSubject::new(&mut causes, design);
        let battery = BatterySubject::new(&mut causes, design);
        let usual = battery.at(&Draw::Nominal);
        let aside = Aside::of(&project, [usual.end_voltage, usual.full_voltage()]);
        let weight = WeightSubject::new(&mut causes, design, &mut enclosure);
        let front = Front::new(&enclosure);
        let body = match wood {
            Wood::Of(other) => Some(Arc::clone(&other.body)),
            Wood::Own | Wood::OfTrial => solid(design, &mut enclosure.plan, &workshop)
                .map_err(|faults| {
                    let located = faults.iter().map(|fault| diagnostic(fault, design));
                    errors.extend(located);
                })
                .ok(),
        };
        // Where no solid can be made, its air is not spoken of.
        let air = body
            .as_ref()
            .map_or(Ok(()), |_| enclosure.check_air(design));
        let room = [air, enclosure.check_outlets(design)];
        errors.extend(room.into_iter().filter_map(Result::err));
        let Some(body) = body.filter(|_| errors.is_empty()) else {
            return Err(errors);
        };
        let sawn = |effort| {
            let plan = &enclosure.plan;
            let cut_list = cut_list(&body, plan, design);
            let sheets = sheet_plans(&project, &plan.sheets, &cut_list, &workshop, effort);
            (cut_list, sheets)
        };
        let (cut_list, sheets) = match wood {
            Wood::Own => sawn(Effort::NORMAL),
            Wood::OfTrial => sawn(Effort::QUICK),
            Wood::Of(other) => (other.cut_list.clone(), other.sheets.clone()),
        };
        let needs = money::named(&project, &sheets);
        let cost = CostSubject::new(&mut causes, &project.design.brief.currency, needs);
        let mut subject = Self {
            air: reference,
            causes,
            drivers,
            radiator,
            enclosure,
            body,
            cut_list,
            sheets,
            front,
            amplifier,
            battery,
            aside,
            weight,
            cost,
            baffles: Baffles::default(),
            indicators: Indicators::default(),
            trial: !matches!(wood, Wood::Own),
            workshop,
            celsius,
            project,
        };
        subject.air = subject.air_at(&Draw::Nominal);
        Ok(subject)
    }

    /// A variant of this design made ready.
    ///
    /// # Errors
    /// As for [`Subject::new`].
    pub(crate) fn variant(&self, project: Project) -> Result<Self, Vec<Diagnostic>> {
        self.variant_in(project, Wood::OfTrial)
    }

    /// The same for its sound alone: its wood stays that of this design, and whether it can be
    /// made of wood is not looked at.
    ///
    /// # Errors
    /// As for [`Subject::new`].
    pub(crate) fn sounding(&self, project: Project) -> Result<Self, Vec<Diagnostic>> {
        self.variant_in(project, Wood::Of(self))
    }

    fn variant_in(&self, project: Project, wood: Wood<'_>) -> Result<Self, Vec<Diagnostic>> {
        let workshop = self.workshop.clone();
        let mut subject = Self::prepared(project, 1.0, workshop, wood)?;
        subject.find(self.cost.found());
        Ok(Self {
            baffles: self.baffles.clone(),
            indicators: self.indicators.clone(),
            ..subject
        })
    }

    /// Counts what only the studies of the nominal build found to be needed, such as wires; a
    /// variant takes over what was found for the design.
    pub(crate) fn find(&mut self, found: &[Need]) {
        let currency = &self.project.design.brief.currency;
        self.cost.find(&mut self.causes, currency, found);
    }

    /// The same, but whose variants count nothing that only the studies find: it is found anew
    /// for each.
    pub(crate) fn forgetting(&self) -> Self {
        let mut subject = self.clone();
        subject.cost.forget();
        subject
    }

    /// The numbers of one box.
    #[must_use]
    pub(crate) fn build(&self, draw: &Draw) -> Build {
        let enclosure = self.enclosure.at(draw);
        Build {
            air: self.air_at(draw),
            drivers: self.drivers.iter().map(|driver| driver.at(draw)).collect(),
            radiator: self.radiator.as_ref().map(|radiator| radiator.at(draw)),
            amplifier: self.amplifier.at(draw),
            battery: self.battery.at(draw),
            aside: self.aside.drawn(),
            weight: self.weight.at(draw, &enclosure),
            cost: self.cost.at(draw),
            enclosure,
        }
    }

    /// How many equal channels one modelled channel stands for: 2 where left
    /// and right are alike, 1 for a mono box or unlike sides.
    #[must_use]
    pub(crate) fn folds(&self) -> u32 {
        let groups = &self.project.design.drivers;
        if groups.iter().all(|group| group.side.value == Side::Both) {
            2
        } else {
            1
        }
    }

    /// Whether left and right carry different drivers.
    #[must_use]
    pub(crate) fn has_unlike_sides(&self) -> bool {
        let groups = &self.project.design.drivers;
        groups
            .iter()
            .any(|group| matches!(group.side.value, Side::Left | Side::Right))
    }

    /// Amplifier channels in use: as many as sides that play.
    #[must_use]
    pub(crate) fn channels_used(&self) -> u32 {
        if self.has_unlike_sides() {
            let both = [Side::Left, Side::Right];
            both.map(|side| u32::from(self.plays_on(side))).iter().sum()
        } else {
            self.folds()
        }
    }

    /// Whether drivers hang on the channel of a side.
    #[must_use]
    pub(crate) fn plays_on(&self, side: Side) -> bool {
        let mut groups = self.project.design.drivers.iter();
        groups.any(|group| [side, Side::Both].contains(&group.side.value))
    }

    fn air_at(&self, draw: &Draw) -> Air {
        let place = &self.project.design.place;
        let humidity = place.humidity.map_or(0.6, |value| value.si);
        let altitude = place.altitude.map_or(0.0, |value| value.si);
        Air::at_altitude(self.celsius.at(draw), altitude, humidity)
    }
}

/// The air in which data sheets are taken to be measured.
pub(crate) fn reference_air() -> Air {
    Air::at(20.0, 101_325.0, 0.5)
}
