//! What a check may look at.

use crate::build::Build;
use crate::carpentry::Carpentry;
use crate::electrics::{self, Asked, Electrics};
use crate::indicator::{self, Indicator};
use crate::odds::Drawn;
use crate::outcome::Outcome;
use crate::report::{Measurement, Promise};
use crate::sound::{Ceiling, Gains, Limit, Scene};
use crate::subject::Subject;
use crate::vary::Draw;
use crate::versus::Versus;
use crate::warmth::{self, Played, Player, Rest, Temperatures};
use core::f64::consts::SQRT_2;
use design::{Design, EnclosureKind, RadiatorUse, VentUse};
use physics::math::amplitude_from_db;
use std::sync::{Arc, OnceLock};

/// The nominal build and the drawn builds, studied.
#[derive(Debug)]
pub struct Evidence<'a> {
    pub(crate) subject: &'a Subject,
    pub(crate) build: &'a Build,
    pub(crate) outcome: &'a Outcome,
    /// The grid, the programme and what lies between box and listeners.
    pub(crate) scene: &'a Scene,
    /// What one volt does, frequency by frequency.
    pub(crate) gains: &'a Gains,
    /// Programme voltages at which each limit is just reached.
    pub(crate) ceilings: &'a [Ceiling],
    /// Middle range above bass, from face and place, in dB.
    pub(crate) face_loss: f64,
    pub(crate) drawn: &'a Drawn,
    pub(crate) promises: &'a [Promise],
    pub(crate) versus: Option<&'a Versus>,
    pub(crate) measurement: Option<&'a Measurement>,
    /// The box as wood, nominal.
    pub(crate) carpentry: Option<&'a Carpentry>,
    /// How warm things get, worked out where a check asks.
    pub(crate) warmth: OnceLock<Vec<Rest>>,
    /// The electrics, nominal, once they are asked for.
    pub(crate) electrics: OnceLock<Arc<Electrics>>,
    /// The low-battery indicator, once it is asked for.
    pub(crate) indicator: OnceLock<Option<Arc<Indicator>>>,
    /// Whether a mend is being tried: what is told only to inform is left out,
    /// and odds, then of few builds, must be better by a margin.
    pub(crate) trial: bool,
}

impl Evidence<'_> {
    pub(crate) fn design(&self) -> &Design {
        &self.subject.project.design
    }

    /// Programme voltage at which a limit is reached, V rms.
    pub(crate) fn ceiling(&self, limit: Limit) -> f64 {
        let found = self.ceilings.iter().find(|ceiling| ceiling.limit == limit);
        found.map_or(f64::INFINITY, |ceiling| ceiling.volts)
    }

    /// What gives out first with this programme, and what after it.
    pub(crate) fn first_limit(&self) -> Limit {
        Ceiling::lowest(self.ceilings.iter().copied()).limit
    }

    pub(crate) fn promise(&self, id: &str) -> Option<&Promise> {
        self.promises.iter().find(|promise| promise.id == id)
    }

    pub(crate) fn vent(&self) -> Option<&VentUse> {
        match &self.design().enclosure.kind {
            EnclosureKind::Vented(vent) => Some(vent),
            EnclosureKind::Sealed | EnclosureKind::PassiveRadiator(_) => None,
        }
    }

    pub(crate) fn radiator(&self) -> Option<&RadiatorUse> {
        match &self.design().enclosure.kind {
            EnclosureKind::PassiveRadiator(used) => Some(used),
            EnclosureKind::Sealed | EnclosureKind::Vented(_) => None,
        }
    }

    /// Programme voltage the brief's loudness takes, V rms, whether or not the
    /// box can give it; that of the loudest where nothing was asked.
    pub(crate) fn wanted_volts(&self) -> f64 {
        let outcome = self.outcome;
        let Some(wanted) = self.design().brief.loudness else {
            return outcome.loudest_volts;
        };
        let loudest = if wanted.a_weighted {
            outcome.loud_a
        } else {
            outcome.loud
        };
        outcome.loudest_volts * amplitude_from_db(wanted.level.si - loudest - outcome.hot_loss)
    }

    /// Peak with programme of so many volts rms of a quantity that is stored
    /// as the peak of a sine of one volt rms.
    pub(crate) fn programme_peak(&self, quantity: &[f64], volts: f64) -> f64 {
        self.scene.crest * Gains::programme_rms(quantity, self.scene) * volts / SQRT_2
    }

    /// The nominal box on the hottest day at rest, with each of [`Played::ALL`];
    /// empty where heat finds no balance.
    pub(crate) fn warmth(&self) -> &[Rest] {
        self.warmth
            .get_or_init(|| warmth::at_rest(&self.player(), &Draw::Nominal, &Played::ALL))
    }

    /// The same with nothing playing for hours; `None` where heat finds no balance.
    pub(crate) fn silent(&self) -> Option<Temperatures> {
        warmth::silent(&self.player(), &Draw::Nominal)
    }

    fn player(&self) -> Player<'_> {
        Player {
            subject: self.subject,
            build: self.build,
            gains: self.gains,
            scene: self.scene,
            brief_volts: self.outcome.brief_volts,
        }
    }

    /// The electrics, nominal; `None` where the box is not studied as wood.
    pub(crate) fn electrics(&self) -> Option<&Electrics> {
        let carpentry = self.carpentry?;
        let electrics = self.electrics.get_or_init(|| {
            Arc::new(electrics::study(&Asked {
                subject: self.subject,
                build: self.build,
                outcome: self.outcome,
                gains: self.gains,
                scene: self.scene,
                carpentry,
            }))
        });
        Some(electrics)
    }

    /// The low-battery indicator; `None` where none is wanted.
    pub(crate) fn indicator(&self) -> Option<&Arc<Indicator>> {
        let found = self.indicator.get_or_init(|| {
            let used = self.design().indicator.as_ref();
            let cuts = used.is_some_and(|used| used.cut_off.value != design::CutOff::None);
            let electrics = cuts.then(|| self.electrics()).flatten();
            let player = indicator::Player {
                subject: self.subject,
                build: self.build,
                outcome: self.outcome,
                gains: self.gains,
                scene: self.scene,
                drawn: self.drawn,
                switched: electrics.map(indicator::Switched::of),
            };
            indicator::study(&player).map(Arc::new)
        });
        found.as_ref()
    }

    /// How the level of the programme is said: "at 85.0 dB", or "at its loudest".
    pub(crate) fn at_level(&self) -> String {
        self.design().brief.loudness.map_or_else(
            || "at its loudest".into(),
            |wanted| {
                let unit = if wanted.a_weighted { "dB(A)" } else { "dB" };
                format!("at {}", crate::words::number(wanted.level.si, unit))
            },
        )
    }

    /// Share of drawn builds for which something holds; of the nominal build
    /// alone where none was drawn.
    pub(crate) fn odds(&self, holds: impl Fn(&Outcome) -> bool) -> f64 {
        self.drawn
            .share(&holds)
            .unwrap_or(if holds(self.outcome) { 1.0 } else { 0.0 })
    }

    /// Share of builds that must keep a promise for it to count as kept.
    pub(crate) const fn good_odds(&self) -> f64 {
        if self.trial {
            GOOD_ODDS_OF_FEW
        } else {
            GOOD_ODDS
        }
    }
}

/// Odds from which on a promise counts as kept: eight builds of ten, the same
/// share that a band spans.
const GOOD_ODDS: f64 = 0.80;

/// The same for the few builds of a trial, whose odds may be off by some hundredths.
const GOOD_ODDS_OF_FEW: f64 = 0.85;
