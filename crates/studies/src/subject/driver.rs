//! A driver of the design: what is stated, what is expected of the rest, and
//! how one drawn example of it comes out.

use super::prior::expected;
use crate::vary::{Causes, Draw, Uncertain, spreads, spreads::Usual};
use design::{Diagnostic, DriverPart, DriverUse, Tolerance, Value};
use physics::air::Air;
use physics::driver::{Completion, Partial, complete, free_air_mass};
use physics::loudspeaker::{CoilInductance, Driver};

/// A parameter of a driver that can be measured or published.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Parameter {
    /// DC resistance of the coil.
    Re,
    /// Free-air resonance.
    Fs,
    /// Mechanical Q.
    Qms,
    /// Electrical Q.
    Qes,
    /// Total Q.
    Qts,
    /// Equivalent volume.
    Vas,
    /// Effective area.
    Sd,
    /// Force factor.
    Bl,
    /// Moving mass.
    Mms,
    /// Compliance.
    Cms,
    /// Level at 1 m for 2.83 V.
    Sensitivity,
}

impl Parameter {
    const ALL: [Self; 11] = [
        Self::Re,
        Self::Fs,
        Self::Qms,
        Self::Qes,
        Self::Qts,
        Self::Vas,
        Self::Sd,
        Self::Bl,
        Self::Mms,
        Self::Cms,
        Self::Sensitivity,
    ];

    fn slot(self, partial: &mut Partial) -> &mut Option<f64> {
        match self {
            Self::Re => &mut partial.re,
            Self::Fs => &mut partial.fs,
            Self::Qms => &mut partial.qms,
            Self::Qes => &mut partial.qes,
            Self::Qts => &mut partial.qts,
            Self::Vas => &mut partial.vas,
            Self::Sd => &mut partial.sd,
            Self::Bl => &mut partial.bl,
            Self::Mms => &mut partial.mms,
            Self::Cms => &mut partial.cms,
            Self::Sensitivity => &mut partial.sensitivity,
        }
    }

    /// Name in the design file and in words, and the unit for print.
    #[must_use]
    pub(crate) const fn words(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Re => ("re", "DC resistance", "Ω"),
            Self::Fs => ("fs", "resonance", "Hz"),
            Self::Qms => ("qms", "mechanical Q", ""),
            Self::Qes => ("qes", "electrical Q", ""),
            Self::Qts => ("qts", "total Q", ""),
            Self::Vas => ("vas", "equivalent volume", "m³"),
            Self::Sd => ("sd", "cone area", "m²"),
            Self::Bl => ("bl", "force factor", "T·m"),
            Self::Mms => ("mms", "moving mass", "kg"),
            Self::Cms => ("cms", "compliance", "m/N"),
            Self::Sensitivity => ("sensitivity", "sensitivity", "dB"),
        }
    }
}

/// A driver with its spreads.
#[derive(Clone, Debug)]
pub(crate) struct DriverSubject {
    /// Everything that follows from what is stated and expected, at nominal.
    pub(crate) completion: Completion,
    /// Parameters that nothing stated or implied: taken from priors.
    pub(crate) guessed: Vec<Parameter>,
    known: Vec<(Parameter, Uncertain)>,
    pinned: Vec<Parameter>,
    factors: Factors,
    inductance: Inductance,
    xmax: Uncertain,
    power: Uncertain,
    air: Air,
}

/// Unit-to-unit factors on the physical causes; 1 in the nominal build.
#[derive(Clone, Copy, Debug)]
struct Factors {
    re: Uncertain,
    sd: Uncertain,
    mass: Uncertain,
    compliance: Uncertain,
    bl: Uncertain,
    rms: Uncertain,
}

#[derive(Clone, Copy, Debug)]
enum Inductance {
    Plain(Uncertain),
    Lossy { k: Uncertain, n: f64 },
}

/// One example of a driver.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct DriverBuild {
    /// Its physical causes; the mass is that of the cone alone.
    pub(crate) driver: Driver,
    /// Moving mass with the air load of free air, in kg.
    pub(crate) mms: f64,
    /// Linear travel one way, peak, in m.
    pub(crate) xmax: f64,
    /// Rated long-term power in W.
    pub(crate) power: f64,
}

impl DriverBuild {
    /// Free-air resonance in Hz.
    #[must_use]
    pub(crate) fn fs(&self) -> f64 {
        1.0 / (core::f64::consts::TAU * (self.mms * self.driver.compliance).sqrt())
    }

    /// Mechanical Q in free air.
    #[must_use]
    pub(crate) fn qms(&self) -> f64 {
        (self.mms / self.driver.compliance).sqrt() / self.driver.resistance
    }

    /// Electrical Q in free air.
    #[must_use]
    pub(crate) fn qes(&self) -> f64 {
        let Driver {
            re, bl, compliance, ..
        } = self.driver;
        (self.mms / compliance).sqrt() * re / (bl * bl)
    }

    /// Total Q in free air.
    #[must_use]
    pub(crate) fn qts(&self) -> f64 {
        1.0 / (1.0 / self.qms() + 1.0 / self.qes())
    }

    /// Equivalent volume in m³ in such air.
    #[must_use]
    pub(crate) fn vas(&self, air: &Air) -> f64 {
        let Driver {
            area, compliance, ..
        } = self.driver;
        air.density * air.sound_speed * air.sound_speed * area * area * compliance
    }
}

fn stated(part: &DriverPart, parameter: Parameter) -> Option<Value> {
    match parameter {
        Parameter::Re => part.re,
        Parameter::Fs => part.fs,
        Parameter::Qms => part.qms,
        Parameter::Qes => part.qes,
        Parameter::Qts => part.qts,
        Parameter::Vas => part.vas,
        Parameter::Sd => part.sd.or_else(|| part.diameter.map(disc)),
        Parameter::Bl => part.bl,
        Parameter::Mms => part.mms,
        Parameter::Cms => part.cms,
        Parameter::Sensitivity => part.sensitivity,
    }
}

/// The area of a disc whose diameter is written.
fn disc(diameter: Value) -> Value {
    let area = core::f64::consts::FRAC_PI_4 * diameter.si * diameter.si;
    let tolerance = match diameter.tolerance {
        Tolerance::Within(half) => Tolerance::Within(2.0 * area * half / diameter.si),
        other => other,
    };
    Value {
        si: area,
        tolerance,
        ..diameter
    }
}

/// Nominal size in m: stated, or that of a frame with such a cone.
fn nominal_size(part: &DriverPart) -> f64 {
    let from_area = |sd: Value| (sd.si / core::f64::consts::FRAC_PI_4).sqrt() / 0.80;
    part.size
        .map(|size| size.si)
        .or_else(|| stated(part, Parameter::Sd).map(from_area))
        .unwrap_or(0.1016)
}

fn settled(values: &Partial) -> bool {
    [
        values.re, values.sd, values.mms, values.cms, values.rms, values.bl,
    ]
    .iter()
    .all(Option::is_some)
}

impl DriverSubject {
    pub(super) fn new(
        causes: &mut Causes,
        index: usize,
        used: &DriverUse,
        air: &Air,
    ) -> Result<Self, Diagnostic> {
        let part = &used.part;
        let id = |what: &str| format!("drivers.{}.{what}", index + 1);
        let label = |what: &str| format!("{what} of {}", part.common.name.text);
        let mut known = Vec::new();
        let mut pinned = Vec::new();
        for parameter in Parameter::ALL {
            let Some(value) = stated(part, parameter) else {
                continue;
            };
            let (name, words, unit) = parameter.words();
            if value.tolerance == Tolerance::Unstated {
                known.push((parameter, Uncertain::fixed(value.si)));
            } else {
                pinned.push(parameter);
                let usual = &spreads::ABOUT;
                known.push((
                    parameter,
                    causes.value(id(name), label(words), unit, &value, usual),
                ));
            }
        }
        let guess = expected(part.kind.value, nominal_size(part));
        let re = part.impedance.map_or(3.4, |rated| 0.85 * rated.si);
        let fill = [
            (Parameter::Sd, guess.sd, &spreads::PRIOR_SD),
            (Parameter::Re, re, &spreads::PRIOR_RE),
            (Parameter::Fs, guess.fs, &spreads::PRIOR_FS),
            (Parameter::Mms, guess.mms, &spreads::PRIOR_MASS),
            (Parameter::Qms, guess.qms, &spreads::PRIOR_QMS),
            (Parameter::Qes, guess.qes, &spreads::PRIOR_QES),
        ];
        let mut guessed = Vec::new();
        let mut completion = complete(&partial(&known, &Draw::Nominal), air);
        for (parameter, median, usual) in fill {
            if settled(&completion.values) || parameter.slot(&mut completion.values).is_some() {
                continue;
            }
            let (name, words, unit) = parameter.words();
            known.push((
                parameter,
                causes.prior(id(name), label(words), unit, median, usual),
            ));
            guessed.push(parameter);
            completion = complete(&partial(&known, &Draw::Nominal), air);
        }
        let mut factor = |what: &str, words: &str, usual: &'static Usual| {
            causes.usual(id(what), label(words), "×", 1.0, usual)
        };
        let factors = Factors {
            re: factor("re.unit", "DC resistance", &spreads::DRIVER_RE),
            sd: factor("sd.unit", "cone area", &spreads::DRIVER_SD),
            mass: factor("mass.unit", "moving mass", &spreads::DRIVER_MASS),
            compliance: factor(
                "compliance.unit",
                "suspension compliance",
                &spreads::DRIVER_COMPLIANCE,
            ),
            bl: factor("bl.unit", "force factor", &spreads::DRIVER_BL),
            rms: factor("rms.unit", "mechanical resistance", &spreads::DRIVER_RMS),
        };
        let inductance = match (part.lossy_k, part.lossy_n, part.le) {
            (Some(k), Some(n), _) => Inductance::Lossy {
                k: causes.value(
                    id("lossy_k"),
                    label("coil inductance"),
                    "Ω·sⁿ",
                    &k,
                    &spreads::DRIVER_LE,
                ),
                n: n.si,
            },
            (_, _, Some(le)) => Inductance::Plain(causes.value(
                id("le"),
                label("coil inductance"),
                "H",
                &le,
                &spreads::DRIVER_LE,
            )),
            _ => Inductance::Plain(causes.prior(
                id("le"),
                label("coil inductance"),
                "H",
                guess.le,
                &spreads::PRIOR_LE,
            )),
        };
        let mut rating =
            |what: &str, words: &str, unit, value: Option<Value>, median, usual, prior| match value
            {
                Some(value) => causes.value(id(what), label(words), unit, &value, usual),
                None => causes.prior(id(what), label(words), unit, median, prior),
            };
        let xmax = rating(
            "xmax",
            "linear travel",
            "m",
            part.xmax,
            guess.xmax,
            &spreads::DRIVER_XMAX,
            &spreads::PRIOR_XMAX,
        );
        let power = rating(
            "power",
            "power rating",
            "W",
            part.power,
            guess.power,
            &spreads::DRIVER_POWER,
            &spreads::PRIOR_POWER,
        );
        let subject = Self {
            completion,
            guessed,
            known,
            pinned,
            factors,
            inductance,
            xmax,
            power,
            air: *air,
        };
        subject.check(used)?;
        Ok(subject)
    }

    fn check(&self, used: &DriverUse) -> Result<(), Diagnostic> {
        let Driver {
            re,
            bl,
            mass,
            compliance,
            resistance,
            area,
            ..
        } = self.at(&Draw::Nominal).driver;
        let sound = [re, bl, mass, compliance, resistance, area];
        if sound.iter().all(|value| value.is_finite() && *value > 0.0) {
            return Ok(());
        }
        Err(Diagnostic {
            code: "driver-impossible",
            message: format!("the data of \"{}\" contradict each other beyond repair", used.part.common.name.text),
            label: "no driver can have these values together".into(),
            place: used.place,
            mend: "check for slipped units and digits; the total Q must be below the mechanical Q, and the moving mass above that of the air it carries".into(),
        })
    }

    /// One example of this driver.
    ///
    /// Unit-to-unit factors act on the physical causes; where the maker stated
    /// a tolerance on a value, the cause that would break it is tied to it.
    #[must_use]
    pub(crate) fn at(&self, draw: &Draw) -> DriverBuild {
        let values = complete(&partial(&self.known, draw), &self.air).values;
        let base = |value: Option<f64>| value.unwrap_or(f64::NAN);
        let f = self.tied(draw, &values);
        let area = base(values.sd) * f.sd;
        let mms = base(values.mms) * f.mass;
        let inductance = match self.inductance {
            Inductance::Plain(le) => CoilInductance::Plain(le.at(draw)),
            Inductance::Lossy { k, n } => CoilInductance::Lossy { k: k.at(draw), n },
        };
        DriverBuild {
            driver: Driver {
                re: base(values.re) * f.re,
                inductance,
                bl: base(values.bl) * f.bl,
                mass: mms - free_air_mass(area, &self.air),
                compliance: base(values.cms) * f.compliance,
                resistance: base(values.rms) * f.rms,
                area,
            },
            mms,
            xmax: self.xmax.at(draw),
            power: self.power.at(draw),
        }
    }

    fn tied(&self, draw: &Draw, values: &Partial) -> Tied {
        let has = |parameter| self.pinned.contains(&parameter);
        let free = |pinned: bool, factor: &Uncertain| if pinned { 1.0 } else { factor.at(draw) };
        let re = free(has(Parameter::Re), &self.factors.re);
        let sd = free(has(Parameter::Sd), &self.factors.sd);
        let mut mass = free(has(Parameter::Mms), &self.factors.mass);
        let holds_compliance = has(Parameter::Cms) || has(Parameter::Vas);
        let mut compliance = free(holds_compliance, &self.factors.compliance);
        if has(Parameter::Vas) {
            compliance /= sd * sd;
        }
        if has(Parameter::Fs) {
            if holds_compliance && !has(Parameter::Mms) {
                mass = 1.0 / compliance;
            } else {
                compliance = 1.0 / mass;
            }
        }
        let impedance = (mass / compliance).sqrt();
        let rms = if has(Parameter::Qms) {
            impedance
        } else {
            self.factors.rms.at(draw)
        };
        let mut bl = free(has(Parameter::Bl), &self.factors.bl);
        if has(Parameter::Qes) {
            bl = (impedance * re).sqrt();
        } else if has(Parameter::Qts) && !has(Parameter::Bl) {
            // 1/Qts = 1/Qms + 1/Qes, with Qms as it came out.
            if let (Some(qts), Some(qms), Some(qes)) = (values.qts, values.qms, values.qes) {
                let wanted = 1.0 / qts - rms / (impedance * qms);
                if wanted > 0.0 {
                    bl = (qes * wanted * impedance * re).sqrt();
                }
            }
        }
        Tied {
            re,
            sd,
            mass,
            compliance,
            bl,
            rms,
        }
    }
}

/// Factors on the physical causes of one example, stated tolerances honoured.
struct Tied {
    re: f64,
    sd: f64,
    mass: f64,
    compliance: f64,
    bl: f64,
    rms: f64,
}

fn partial(known: &[(Parameter, Uncertain)], draw: &Draw) -> Partial {
    let mut partial = Partial::default();
    for (parameter, value) in known {
        *parameter.slot(&mut partial) = Some(value.at(draw));
    }
    partial
}
