//! From what is known of a driver to all that follows from it.
//!
//! Data sheets state more than is independent, and what they state seldom
//! agrees. Stated values are taken up one by one in a fixed order of trust:
//! what is measured directly first (R<sub>E</sub>, f<sub>S</sub>, the Qs, area), then V<sub>AS</sub>, mass and
//! compliance, last what is commonly computed from the rest or rounded
//! upwards (Bl, R<sub>MS</sub>, sensitivity). After each, everything that follows is
//! derived. A stated value that already follows from more trusted ones is not
//! used: it is compared, and the difference reported.

use core::f64::consts::PI;

use super::relations::{self, SENSITIVITY_VOLTAGE};
use crate::air::Air;
use crate::math;

/// What is known of a driver; SI units.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Partial {
    /// R<sub>E</sub> in Ω.
    pub re: Option<f64>,
    /// f<sub>S</sub> in Hz.
    pub fs: Option<f64>,
    /// Q<sub>MS</sub>.
    pub qms: Option<f64>,
    /// Q<sub>ES</sub>.
    pub qes: Option<f64>,
    /// Q<sub>TS</sub>.
    pub qts: Option<f64>,
    /// V<sub>AS</sub> in m³.
    pub vas: Option<f64>,
    /// S<sub>D</sub> in m².
    pub sd: Option<f64>,
    /// Bl in T·m.
    pub bl: Option<f64>,
    /// M<sub>MS</sub> in kg.
    pub mms: Option<f64>,
    /// C<sub>MS</sub> in m/N.
    pub cms: Option<f64>,
    /// R<sub>MS</sub> in N·s/m.
    pub rms: Option<f64>,
    /// Level in dB re 20 µPa at 1 m in half space for 2.83 V rms.
    pub sensitivity: Option<f64>,
}

/// All that follows from what was stated.
#[derive(Clone, Debug, PartialEq)]
pub struct Completion {
    /// A set without contradiction: the most trusted stated values and what
    /// follows from them.
    pub values: Partial,
    /// Names of the values that were not stated but follow.
    pub derived: Vec<&'static str>,
    /// Stated values that do not agree with more trusted ones.
    pub conflicts: Vec<Conflict>,
    /// Names of those of `re`, `bl`, `mms`, `cms`, `rms`, `sd` that cannot be
    /// had: without them there is no network.
    pub missing: Vec<&'static str>,
}

/// A stated value against what more trusted ones imply.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// The stated values concerned, the least trusted last: the one set aside.
    pub names: Vec<&'static str>,
    /// The relation by which they are tied.
    pub relation: &'static str,
    /// The value set aside, as stated.
    pub stated: f64,
    /// What the others imply for it.
    pub implied: f64,
    /// How far the stated value is off the implied one, in per cent; for
    /// sensitivity in per cent of sound pressure.
    pub percent: f64,
}

/// Derives what follows from a set of parameters and reports contradictions.
///
/// Differences below a thousandth of a per cent are rounding and not
/// reported; which of the others matter is the caller's to judge. Values that
/// are not positive and finite count as not stated.
#[must_use]
pub fn complete(stated: &Partial, air: &Air) -> Completion {
    let mut work = Work::new(air);
    for symbol in BY_TRUST {
        let Some(value) = symbol.read(stated) else {
            continue;
        };
        match work.known[symbol.index()].clone() {
            Some(known) => work.compare(symbol, value, &known),
            None => work.accept(symbol, value),
        }
    }
    work.finish(stated)
}

/// Differences below this are rounding, in per cent.
const ROUNDING: f64 = 1e-3;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Symbol {
    Re,
    Fs,
    Qms,
    Qes,
    Qts,
    Sd,
    Vas,
    Mms,
    Cms,
    Bl,
    Rms,
    Sensitivity,
}

use Symbol::{Bl, Cms, Fs, Mms, Qes, Qms, Qts, Re, Rms, Sd, Sensitivity, Vas};

const BY_TRUST: [Symbol; 12] = [
    Re,
    Fs,
    Qms,
    Qes,
    Qts,
    Sd,
    Vas,
    Mms,
    Cms,
    Bl,
    Rms,
    Sensitivity,
];

impl Symbol {
    const fn index(self) -> usize {
        self as usize
    }

    const fn name(self) -> &'static str {
        match self {
            Re => "re",
            Fs => "fs",
            Qms => "qms",
            Qes => "qes",
            Qts => "qts",
            Sd => "sd",
            Vas => "vas",
            Mms => "mms",
            Cms => "cms",
            Bl => "bl",
            Rms => "rms",
            Sensitivity => "sensitivity",
        }
    }

    const fn field(self, set: &mut Partial) -> &mut Option<f64> {
        match self {
            Re => &mut set.re,
            Fs => &mut set.fs,
            Qms => &mut set.qms,
            Qes => &mut set.qes,
            Qts => &mut set.qts,
            Sd => &mut set.sd,
            Vas => &mut set.vas,
            Mms => &mut set.mms,
            Cms => &mut set.cms,
            Bl => &mut set.bl,
            Rms => &mut set.rms,
            Sensitivity => &mut set.sensitivity,
        }
    }

    /// The stated value in the form the relations use: sensitivity as pressure.
    fn read(self, set: &Partial) -> Option<f64> {
        let value = (*self.field(&mut set.clone()))?;
        let value = if self == Sensitivity {
            relations::pressure_of(value)
        } else {
            value
        };
        usable(value).then_some(value)
    }

    /// Back to the form values are stated in.
    fn shown(self, value: f64) -> f64 {
        if self == Sensitivity {
            relations::sensitivity_of(value)
        } else {
            value
        }
    }
}

fn usable(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

/// A product of powers that has a fixed value.
struct Product {
    text: &'static str,
    powers: &'static [(Symbol, f64)],
    value: f64,
}

const QUALITY_TEXT: &str = "1/Qts = 1/Qms + 1/Qes";

/// Every relation but that of the Qs. The last two follow from those above
/// them and are there to be solved for what these give only together.
fn products(air: &Air) -> [Product; 7] {
    let stiffness = air.density * air.sound_speed * air.sound_speed;
    let level = air.density * SENSITIVITY_VOLTAGE / (2.0 * PI);
    let turn = 2.0 * PI;
    [
        Product {
            text: "fs = 1/(2π√(Mms·Cms))",
            powers: &[(Fs, 2.0), (Mms, 1.0), (Cms, 1.0)],
            value: 1.0 / (turn * turn),
        },
        Product {
            text: "Vas = ρc²·Sd²·Cms",
            powers: &[(Vas, 1.0), (Sd, -2.0), (Cms, -1.0)],
            value: stiffness,
        },
        Product {
            text: "Qms = 2π·fs·Mms/Rms",
            powers: &[(Qms, 1.0), (Rms, 1.0), (Fs, -1.0), (Mms, -1.0)],
            value: turn,
        },
        Product {
            text: "Qes = 2π·fs·Mms·Re/Bl²",
            powers: &[(Qes, 1.0), (Bl, 2.0), (Fs, -1.0), (Mms, -1.0), (Re, -1.0)],
            value: turn,
        },
        Product {
            text: "sensitivity from Bl·Sd/(Re·Mms)",
            powers: &[
                (Sensitivity, 1.0),
                (Re, 1.0),
                (Mms, 1.0),
                (Bl, -1.0),
                (Sd, -1.0),
            ],
            value: level,
        },
        Product {
            text: "sensitivity from fs·Sd²/(Qes·Re·Mms)",
            powers: &[
                (Sensitivity, 2.0),
                (Qes, 1.0),
                (Re, 1.0),
                (Mms, 1.0),
                (Fs, -1.0),
                (Sd, -2.0),
            ],
            value: level * level * turn,
        },
        Product {
            text: "sensitivity from fs³·Vas/(Qes·Re)",
            powers: &[
                (Sensitivity, 2.0),
                (Qes, 1.0),
                (Re, 1.0),
                (Fs, -3.0),
                (Vas, -1.0),
            ],
            value: level * level * turn * turn * turn / stiffness,
        },
    ]
}

/// A value with the relation it came by and the stated values it rests on.
#[derive(Clone, Debug)]
struct Known {
    value: f64,
    relation: &'static str,
    grounds: [bool; 12],
}

struct Work {
    products: [Product; 7],
    known: [Option<Known>; 12],
    conflicts: Vec<Conflict>,
}

impl Work {
    fn new(air: &Air) -> Self {
        Self {
            products: products(air),
            known: Default::default(),
            conflicts: Vec::new(),
        }
    }

    fn value(&self, symbol: Symbol) -> Option<f64> {
        self.known[symbol.index()].as_ref().map(|known| known.value)
    }

    fn accept(&mut self, symbol: Symbol, value: f64) {
        if symbol == Qts
            && let Some(other) = [Qms, Qes]
                .into_iter()
                .find(|q| self.value(*q) <= Some(value))
            && let Some(known) = self.known[other.index()].clone()
        {
            // No positive Q is left over for the third: a contradiction.
            self.conflict(symbol, value, known.value, QUALITY_TEXT, &known.grounds);
            return;
        }
        let mut grounds = [false; 12];
        grounds[symbol.index()] = true;
        self.known[symbol.index()] = Some(Known {
            value,
            relation: "",
            grounds,
        });
        while let Some((symbol, known)) = self.next_derived() {
            self.known[symbol.index()] = Some(known);
        }
    }

    fn compare(&mut self, symbol: Symbol, stated: f64, known: &Known) {
        if (100.0 * (stated / known.value - 1.0)).abs() > ROUNDING {
            self.conflict(symbol, stated, known.value, known.relation, &known.grounds);
        }
    }

    fn conflict(
        &mut self,
        symbol: Symbol,
        stated: f64,
        implied: f64,
        relation: &'static str,
        grounds: &[bool; 12],
    ) {
        let mut names: Vec<_> = BY_TRUST
            .into_iter()
            .filter(|other| grounds[other.index()] && *other != symbol)
            .map(Symbol::name)
            .collect();
        names.push(symbol.name());
        self.conflicts.push(Conflict {
            names,
            relation,
            stated: symbol.shown(stated),
            implied: symbol.shown(implied),
            percent: 100.0 * (stated / implied - 1.0),
        });
    }

    /// One more value that follows from those known.
    fn next_derived(&self) -> Option<(Symbol, Known)> {
        self.derived_quality().or_else(|| {
            self.products
                .iter()
                .find_map(|product| self.derived_by(product))
        })
    }

    fn derived_by(&self, product: &Product) -> Option<(Symbol, Known)> {
        let mut unknown = None;
        let mut rest = product.value;
        for (symbol, power) in product.powers {
            match self.value(*symbol) {
                Some(value) => rest /= math::pow(value, *power),
                None if unknown.is_none() => unknown = Some((*symbol, *power)),
                None => return None,
            }
        }
        let (symbol, power) = unknown?;
        let known = self.resting_on(
            math::pow(rest, 1.0 / power),
            product.text,
            product.powers.iter().map(|(symbol, _)| *symbol),
        );
        usable(known.value).then_some((symbol, known))
    }

    fn derived_quality(&self) -> Option<(Symbol, Known)> {
        let difference = |total: f64, part: f64| part * total / (part - total);
        let (symbol, value) = match (self.value(Qms), self.value(Qes), self.value(Qts)) {
            (Some(qms), Some(qes), None) => (Qts, relations::total_quality(qms, qes)),
            (Some(qms), None, Some(qts)) => (Qes, difference(qts, qms)),
            (None, Some(qes), Some(qts)) => (Qms, difference(qts, qes)),
            _ => return None,
        };
        let known = self.resting_on(value, QUALITY_TEXT, [Qms, Qes, Qts].into_iter());
        usable(value).then_some((symbol, known))
    }

    fn resting_on(
        &self,
        value: f64,
        relation: &'static str,
        symbols: impl Iterator<Item = Symbol>,
    ) -> Known {
        let mut grounds = [false; 12];
        for known in symbols.filter_map(|symbol| self.known[symbol.index()].as_ref()) {
            for (ground, other) in grounds.iter_mut().zip(known.grounds) {
                *ground |= other;
            }
        }
        Known {
            value,
            relation,
            grounds,
        }
    }

    fn finish(self, stated: &Partial) -> Completion {
        let mut values = Partial::default();
        let mut derived = Vec::new();
        for symbol in BY_TRUST {
            let value = self.value(symbol).map(|value| symbol.shown(value));
            if value.is_some() && symbol.read(stated).is_none() {
                derived.push(symbol.name());
            }
            *symbol.field(&mut values) = value;
        }
        let missing = [Re, Sd, Mms, Cms, Bl, Rms]
            .into_iter()
            .filter(|symbol| self.value(*symbol).is_none())
            .map(Symbol::name)
            .collect();
        Completion {
            values,
            derived,
            conflicts: self.conflicts,
            missing,
        }
    }
}
