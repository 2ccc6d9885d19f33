//! What the studies answer: promises, findings, figures, curves, and what was assumed.

mod assumptions;
mod curves;
mod figures;
mod promises;
mod spread;

pub use assumptions::Assumption;
pub use curves::{Curve, Discharging};
pub use figures::Figure;
pub use promises::{Better, Promise};
pub use spread::{Measurement, Mover};

pub(crate) use assumptions::assumptions;
pub(crate) use curves::{Marks, OFF_AXIS, curves, discharging};
pub(crate) use figures::figures;
pub(crate) use promises::promises;
pub(crate) use spread::{best_measurement, movers};

use crate::carpentry::Carpentry;
use crate::electrics::Electrics;
use crate::finding::Finding;
use crate::finish::Finish;
use crate::indicator::Indicator;
use crate::levers::Lever;
use crate::money::Shopping;
use crate::order::Order;
use crate::signal::Signal;
use crate::subject::{AirLine, Front, WeightLine};
use crate::versus::Versus;
use crate::warmth::Warmth;
use serde::Serialize;
use std::sync::Arc;

/// Everything the studies say about a design.
#[derive(Clone, Debug, Serialize)]
pub struct Report {
    /// Name of the design.
    pub name: String,
    /// Its revision, where one is stated.
    pub revision: Option<u32>,
    /// How many drawn builds stand behind bands and odds.
    pub builds: usize,
    /// The headline results held against the brief.
    pub promises: Vec<Promise>,
    /// What is wrong and what to change, worst first; what is good last.
    pub findings: Vec<Finding>,
    /// Single numbers.
    pub figures: Vec<Figure>,
    /// Numbers against frequency.
    pub curves: Vec<Curve>,
    /// Battery voltage against time at the brief's loudness.
    pub discharge: Discharging,
    /// What drives the spread of each promise, strongest first.
    pub movers: Vec<Mover>,
    /// Inputs that can be moved by hand, and what a step of each does.
    #[serde(skip)]
    pub levers: Vec<Lever>,
    /// The single measurement that would narrow the promises most, where data are missing.
    pub measurement: Option<Measurement>,
    /// Sealed against vented under these tolerances.
    pub versus: Option<Versus>,
    /// Every default, prior and spread used.
    pub assumptions: Vec<Assumption>,
    /// How warm it gets in the closed box.
    pub warmth: Option<Warmth>,
    /// The signal's way to the drivers.
    pub signal: Signal,
    /// What it takes and costs.
    #[serde(skip)]
    pub money: Shopping,
    /// The low-battery indicator, where one is wanted.
    #[serde(skip)]
    pub indicator: Option<Arc<Indicator>>,
    /// The accounts behind volume and weight, and the layout of the front.
    #[serde(skip)]
    pub accounts: Accounts,
    /// The box as wood.
    #[serde(skip)]
    pub carpentry: Arc<Carpentry>,
    /// The electrics.
    #[serde(skip)]
    pub electrics: Arc<Electrics>,
    /// What goes on the wood at last.
    #[serde(skip)]
    pub finish: Finish,
    /// Steps in order, and where to stop and test.
    #[serde(skip)]
    pub order: Order,
}

/// Accounts behind the promises, nominal.
#[derive(Clone, Debug)]
pub struct Accounts {
    /// Width, height, depth over the walls in m.
    pub outside: [f64; 3],
    /// Width, height, depth between the walls in m.
    pub inside: [f64; 3],
    /// Wall thickness in m.
    pub thickness: f64,
    /// Volume between the walls in m³.
    pub gross: f64,
    /// What takes up air.
    pub air: Vec<AirLine>,
    /// Air left in m³.
    pub net: f64,
    /// Apparent volume over net volume at the box's own resonance, thanks to the filling.
    pub filling_gain: f64,
    /// What weighs how much.
    pub weight: Vec<WeightLine>,
    /// Where things sit on the front.
    pub front: Front,
}
