//! A physical cause of variation and its spread.

use super::draw::Draw;
use super::normal::log_factor;
use super::shape::Shape;
use super::spreads::{self, Usual};
use design::{Place, Tolerance, Value};

/// Why a cause has the spread it has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Origin {
    /// The maker stated the tolerance, here.
    Stated(Place),
    /// The usual spread of this kind of value.
    Usual(&'static Usual),
    /// The value is not known at all: a prior by size and kind.
    Prior(&'static Usual),
}

/// A physical cause of variation.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause {
    /// Stable name, such as `drivers.1.compliance`.
    pub id: String,
    /// In words.
    pub label: String,
    /// Nominal value in SI units.
    pub nominal: f64,
    /// SI unit, for print.
    pub unit: &'static str,
    /// Spread about it.
    pub shape: Shape,
    /// Where the spread comes from.
    pub origin: Origin,
}

/// A number that may differ from build to build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    nominal: f64,
    shape: Shape,
    dimension: usize,
}

impl Uncertain {
    /// A number that is the same in every build.
    #[must_use]
    pub const fn fixed(nominal: f64) -> Self {
        Self {
            nominal,
            shape: Shape::Fixed,
            dimension: 0,
        }
    }

    /// Its value in the nominal build.
    #[must_use]
    pub const fn nominal(&self) -> f64 {
        self.nominal
    }

    /// Its value in one build.
    #[must_use]
    pub fn at(&self, draw: &Draw) -> f64 {
        let Draw::Point(point) = draw else {
            return self.nominal;
        };
        let unit = point.get(self.dimension).copied().unwrap_or(0.5);
        match self.shape {
            Shape::Fixed => self.nominal,
            Shape::Even { half } => self.nominal + half * (2.0 * unit - 1.0),
            Shape::Factor { sigma } => self.nominal * log_factor(unit, sigma),
        }
    }
}

/// All causes of variation of one design, in a fixed order: the order of the
/// dimensions of a draw.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Causes {
    list: Vec<Cause>,
    /// Multiplies every spread; 1 as a rule, less or more to study the effect of tolerances.
    scale: Option<f64>,
}

impl Causes {
    /// No causes yet; every spread will be multiplied by `scale`.
    #[must_use]
    pub const fn scaled(scale: f64) -> Self {
        Self {
            list: Vec::new(),
            scale: Some(scale),
        }
    }

    /// The causes so far.
    #[must_use]
    pub fn list(&self) -> &[Cause] {
        &self.list
    }

    /// A value of the design: varies as its tolerance says, or as usual.
    pub fn value(
        &mut self,
        id: impl Into<String>,
        label: impl Into<String>,
        unit: &'static str,
        value: &Value,
        usual: &'static Usual,
    ) -> Uncertain {
        let (shape, origin) = match value.tolerance {
            Tolerance::Unstated => (usual.shape(value.si), Origin::Usual(usual)),
            Tolerance::Within(half) => (Shape::Even { half }, Origin::Stated(value.place)),
            Tolerance::About => (
                Shape::Even {
                    half: spreads::ABOUT.spread * value.si.abs(),
                },
                Origin::Stated(value.place),
            ),
        };
        self.add(id.into(), label.into(), unit, value.si, shape, origin)
    }

    /// A value that is not written anywhere but derived, with its usual spread.
    pub fn usual(
        &mut self,
        id: impl Into<String>,
        label: impl Into<String>,
        unit: &'static str,
        nominal: f64,
        usual: &'static Usual,
    ) -> Uncertain {
        let (shape, origin) = (usual.shape(nominal), Origin::Usual(usual));
        self.add(id.into(), label.into(), unit, nominal, shape, origin)
    }

    /// A value that is not known, with its prior.
    pub fn prior(
        &mut self,
        id: impl Into<String>,
        label: impl Into<String>,
        unit: &'static str,
        nominal: f64,
        usual: &'static Usual,
    ) -> Uncertain {
        let (shape, origin) = (usual.shape(nominal), Origin::Prior(usual));
        self.add(id.into(), label.into(), unit, nominal, shape, origin)
    }

    fn add(
        &mut self,
        id: String,
        label: String,
        unit: &'static str,
        nominal: f64,
        shape: Shape,
        origin: Origin,
    ) -> Uncertain {
        let shape = shape.scaled(self.scale.unwrap_or(1.0));
        if shape == Shape::Fixed {
            return Uncertain::fixed(nominal);
        }
        let dimension = self.list.len();
        self.list.push(Cause {
            id,
            label,
            nominal,
            unit,
            shape,
            origin,
        });
        Uncertain {
            nominal,
            shape,
            dimension,
        }
    }
}
