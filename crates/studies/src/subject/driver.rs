//! A driver of the design: what is stated, what is expected of the rest, and
//! how one drawn example of it comes out.

use super::parameter::{Parameter, stated};
use super::prior::{Expected, expected};
use super::ties::Factors;
use crate::build::DriverBuild;
use crate::vary::{Causes, Draw, Uncertain, spreads, spreads::Usual};
use design::{Diagnostic, DriverPart, DriverUse, Tolerance, Value};
use physics::air::Air;
use physics::driver::{Completion, Conflict, Partial, complete, free_air_mass};
use physics::loudspeaker::{CoilInductance, Driver};

/// A driver with its spreads.
#[derive(Clone, Debug)]
pub(crate) struct DriverSubject {
    /// Everything that follows from what is stated and expected, at nominal.
    pub(crate) completion: Completion,
    /// Where stated values contradict each other.
    pub(crate) conflicts: Vec<Conflict>,
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

#[derive(Clone, Copy, Debug)]
enum Inductance {
    Plain(Uncertain),
    Lossy { k: Uncertain, n: f64 },
}

/// Coil resistance over rated impedance when only the latter is known:
/// common practice, no source.
const RE_OVER_RATED: f64 = 0.85;

/// Coil resistance in Ω when nothing is known of it: that of a rated 4 Ω.
const USUAL_RE: f64 = 3.4;

/// A size in m to guess from when nothing tells it: four inches.
const USUAL_SIZE: f64 = 0.1016;

/// Nominal size in m: stated, or that of a frame with such a cone.
fn nominal_size(part: &DriverPart) -> f64 {
    let from_area = |sd: Value| (sd.si / core::f64::consts::FRAC_PI_4).sqrt() / 0.80;
    part.size
        .map(|size| size.si)
        .or_else(|| stated(part, Parameter::Sd).map(from_area))
        .unwrap_or(USUAL_SIZE)
}

/// Whether the physical causes are all determined.
fn settled(values: &Partial) -> bool {
    let Partial {
        re,
        sd,
        mms,
        cms,
        rms,
        bl,
        ..
    } = values;
    [re, sd, mms, cms, rms, bl].into_iter().all(Option::is_some)
}

fn partial(known: &[(Parameter, Uncertain)], draw: &Draw) -> Partial {
    let mut partial = Partial::default();
    for (parameter, value) in known {
        *parameter.slot(&mut partial) = Some(value.at(draw));
    }
    partial
}

/// The stated values that count: all with a stated tolerance, which somebody
/// measured, then of the others those that nothing before them implies. With
/// them, which are measured.
fn trusted(
    stated: &[(Parameter, Uncertain, bool)],
    air: &Air,
) -> (Vec<(Parameter, Uncertain)>, Vec<Parameter>) {
    let measured = stated.iter().filter(|(_, _, measured)| *measured);
    let mut known: Vec<_> = measured
        .map(|&(parameter, value, _)| (parameter, value))
        .collect();
    let pinned = known.iter().map(|(parameter, _)| *parameter).collect();
    for &(parameter, value, _) in stated.iter().filter(|(_, _, measured)| !measured) {
        let mut implied = complete(&partial(&known, &Draw::Nominal), air).values;
        if parameter.slot(&mut implied).is_none() {
            known.push((parameter, value));
        }
    }
    (known, pinned)
}

/// Names the causes of one driver as they are gathered.
struct Gatherer<'a> {
    causes: &'a mut Causes,
    part: &'a DriverPart,
    index: usize,
}

impl Gatherer<'_> {
    fn names(&self, id: &str, words: &str) -> (String, String) {
        let name = &self.part.common.name.text;
        (
            format!("drivers.{}.{id}", self.index + 1),
            format!("{words} of {name}"),
        )
    }

    fn prior(
        &mut self,
        words: (&str, &str, &'static str),
        median: f64,
        usual: &'static Usual,
    ) -> Uncertain {
        let (id, label) = self.names(words.0, words.1);
        self.causes.prior(id, label, words.2, median, usual)
    }

    /// A value as stated, with its own or its usual spread, or else expected.
    fn rating(
        &mut self,
        words: (&str, &str, &'static str),
        value: Option<Value>,
        usual: &'static Usual,
        median: f64,
        prior: &'static Usual,
    ) -> Uncertain {
        let Some(value) = value else {
            return self.prior(words, median, prior);
        };
        let (id, label) = self.names(words.0, words.1);
        self.causes.value(id, label, words.2, &value, usual)
    }

    fn factor(&mut self, id: &str, words: &str, usual: &'static Usual) -> Uncertain {
        let (id, label) = self.names(&format!("{id}.unit"), words);
        self.causes.usual(id, label, "×", 1.0, usual)
    }

    /// What is stated, each with its own tolerance or without any.
    fn stated(&mut self) -> Vec<(Parameter, Uncertain, bool)> {
        let mut list = Vec::new();
        for parameter in Parameter::ALL {
            let Some(value) = stated(self.part, parameter) else {
                continue;
            };
            let measured = value.tolerance != Tolerance::Unstated;
            let uncertain = if measured {
                let (name, words, unit) = parameter.words();
                let (id, label) = self.names(name, words);
                self.causes.value(id, label, unit, &value, &spreads::ABOUT)
            } else {
                Uncertain::fixed(value.si)
            };
            list.push((parameter, uncertain, measured));
        }
        list
    }

    /// Fills what is neither stated nor implied, one parameter after another
    /// until the causes are determined; returns those that were filled.
    fn fill(
        &mut self,
        known: &mut Vec<(Parameter, Uncertain)>,
        guess: &Expected,
        air: &Air,
    ) -> (Completion, Vec<Parameter>) {
        let re = self
            .part
            .impedance
            .map_or(USUAL_RE, |rated| RE_OVER_RATED * rated.si);
        let fill = [
            (Parameter::Sd, guess.sd, &spreads::PRIOR_SD),
            (Parameter::Re, re, &spreads::PRIOR_RE),
            (Parameter::Fs, guess.fs, &spreads::PRIOR_FS),
            (Parameter::Mms, guess.mms, &spreads::PRIOR_MASS),
            (Parameter::Qms, guess.qms, &spreads::PRIOR_QMS),
            (Parameter::Qes, guess.qes, &spreads::PRIOR_QES),
        ];
        let mut guessed = Vec::new();
        let mut completion = complete(&partial(known, &Draw::Nominal), air);
        for (parameter, median, usual) in fill {
            if settled(&completion.values) || parameter.slot(&mut completion.values).is_some() {
                continue;
            }
            known.push((parameter, self.prior(parameter.words(), median, usual)));
            guessed.push(parameter);
            completion = complete(&partial(known, &Draw::Nominal), air);
        }
        (completion, guessed)
    }

    fn factors(&mut self) -> Factors {
        Factors {
            re: self.factor("re", "DC resistance", &spreads::DRIVER_RE),
            sd: self.factor("sd", "cone area", &spreads::DRIVER_SD),
            mass: self.factor("mass", "moving mass", &spreads::DRIVER_MASS),
            compliance: self.factor(
                "compliance",
                "suspension compliance",
                &spreads::DRIVER_COMPLIANCE,
            ),
            bl: self.factor("bl", "force factor", &spreads::DRIVER_BL),
            rms: self.factor("rms", "mechanical resistance", &spreads::DRIVER_RMS),
        }
    }

    fn inductance(&mut self, guess: &Expected) -> Inductance {
        let words = "coil inductance";
        if let (Some(k), Some(n)) = (self.part.lossy_k, self.part.lossy_n) {
            let (id, label) = self.names("lossy_k", words);
            let k = self
                .causes
                .value(id, label, "Ω·sⁿ", &k, &spreads::DRIVER_LE);
            return Inductance::Lossy { k, n: n.si };
        }
        let (usual, prior) = (&spreads::DRIVER_LE, &spreads::PRIOR_LE);
        Inductance::Plain(self.rating(("le", words, "H"), self.part.le, usual, guess.le, prior))
    }
}

impl DriverSubject {
    pub(super) fn new(
        causes: &mut Causes,
        index: usize,
        used: &DriverUse,
        air: &Air,
    ) -> Result<Self, Diagnostic> {
        let part = &used.part;
        let guess = expected(part.kind.value, nominal_size(part));
        let mut gatherer = Gatherer {
            causes,
            part,
            index,
        };
        let stated = gatherer.stated();
        let all: Vec<_> = stated
            .iter()
            .map(|&(parameter, value, _)| (parameter, value))
            .collect();
        let conflicts = complete(&partial(&all, &Draw::Nominal), air).conflicts;
        let (mut known, pinned) = trusted(&stated, air);
        let (completion, guessed) = gatherer.fill(&mut known, &guess, air);
        let subject = Self {
            completion,
            conflicts,
            guessed,
            known,
            pinned,
            factors: gatherer.factors(),
            inductance: gatherer.inductance(&guess),
            xmax: gatherer.rating(
                ("xmax", "linear travel", "m"),
                part.xmax,
                &spreads::DRIVER_XMAX,
                guess.xmax,
                &spreads::PRIOR_XMAX,
            ),
            power: gatherer.rating(
                ("power", "power rating", "W"),
                part.power,
                &spreads::DRIVER_POWER,
                guess.power,
                &spreads::PRIOR_POWER,
            ),
            air: *air,
        };
        subject.check(used)?;
        Ok(subject)
    }

    /// Whether a tolerance is stated on the parameter of this name: somebody measured it.
    pub(crate) fn is_measured(&self, name: &str) -> bool {
        self.pinned
            .iter()
            .any(|parameter| parameter.words().0 == name)
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
            message: format!(
                "the data of \"{}\" contradict each other beyond repair",
                used.part.common.name.text
            ),
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
        let factors = self.factors.tied(draw, &self.pinned, &values);
        let area = base(values.sd) * factors.sd;
        let mms = base(values.mms) * factors.mass;
        let inductance = match self.inductance {
            Inductance::Plain(le) => CoilInductance::Plain(le.at(draw)),
            Inductance::Lossy { k, n } => CoilInductance::Lossy { k: k.at(draw), n },
        };
        DriverBuild {
            driver: Driver {
                re: base(values.re) * factors.re,
                inductance,
                bl: base(values.bl) * factors.bl,
                mass: mms - free_air_mass(area, &self.air),
                compliance: base(values.cms) * factors.compliance,
                resistance: base(values.rms) * factors.rms,
                area,
            },
            mms,
            xmax: self.xmax.at(draw),
            power: self.power.at(draw),
        }
    }
}
