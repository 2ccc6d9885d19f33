//! The headline results held against the brief.

use crate::money::nothing_priced;
use crate::odds::{Band, Drawn};
use crate::outcome::Outcome;
use crate::subject::Subject;
use crate::words;
use serde::Serialize;

/// Which way is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Better {
    /// At most the brief's mark.
    Lower,
    /// At least the brief's mark.
    Higher,
}

/// One headline result.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Promise {
    /// Stable name: low, loud, long, light or cost.
    pub id: &'static str,
    /// As a heading.
    pub title: &'static str,
    /// What is promised, in words, with its conditions.
    pub about: String,
    /// Value of the nominal build.
    pub value: f64,
    /// Unit of all its numbers.
    pub unit: String,
    /// One drawn build in ten is below.
    pub p10: Option<f64>,
    /// One drawn build in ten is above.
    pub p90: Option<f64>,
    /// The brief's mark.
    pub target: Option<f64>,
    /// Share of drawn builds that keep the mark, 0 to 1.
    pub odds: Option<f64>,
    /// Which way is better.
    pub better: Better,
}

impl Promise {
    /// Whether the nominal build keeps the brief's mark.
    #[must_use]
    pub fn kept(&self) -> bool {
        self.target
            .is_none_or(|target| self.better.keeps(self.value, target))
    }

    /// The odds as a sentence: "61 of 100 builds reach 70 Hz".
    #[must_use]
    pub fn odds_sentence(&self) -> Option<String> {
        let (odds, target) = (self.odds?, self.target?);
        let of_hundred = words::of_hundred(odds);
        let mark = words::stated(target, &self.unit);
        let verb = match (self.id, of_hundred) {
            ("low" | "loud", 1) => "reaches",
            ("low" | "loud", _) => "reach",
            ("long", 1) => "lasts",
            ("long", _) => "last",
            (_, 1) => "stays within",
            _ => "stay within",
        };
        Some(format!("{of_hundred} of 100 builds {verb} {mark}"))
    }
}

impl Better {
    pub(crate) fn keeps(self, value: f64, target: f64) -> bool {
        match self {
            Self::Lower => value <= target,
            Self::Higher => value >= target,
        }
    }
}

/// A promise before it is held against the builds.
struct Row {
    id: &'static str,
    title: &'static str,
    about: String,
    unit: String,
    target: Option<f64>,
    better: Better,
    number: fn(&Outcome) -> f64,
}

impl Row {
    fn promise(self, nominal: &Outcome, drawn: &Drawn) -> Promise {
        let band: Option<Band> = drawn.band(self.number);
        let keeps =
            |target| drawn.share(|outcome| self.better.keeps((self.number)(outcome), target));
        Promise {
            id: self.id,
            title: self.title,
            about: self.about,
            value: (self.number)(nominal),
            unit: self.unit,
            p10: band.map(|band| band.p10),
            p90: band.map(|band| band.p90),
            target: self.target,
            odds: self.target.and_then(keeps),
            better: self.better,
        }
    }
}

/// The five promises of a design.
pub(crate) fn promises(subject: &Subject, nominal: &Outcome, drawn: &Drawn) -> Vec<Promise> {
    let brief = &subject.project.design.brief;
    let rows = [
        Row {
            id: "low",
            title: "Low",
            about: "plays down to (−6 dB, the box's own roll-off)".into(),
            unit: "Hz".into(),
            target: brief.lowest.map(|value| value.si),
            better: Better::Lower,
            number: |outcome| outcome.low,
        },
        loud(subject),
        long(subject, nominal),
        Row {
            id: "light",
            title: "Light",
            about: "with battery".into(),
            unit: "kg".into(),
            target: brief.weight.map(|value| value.si),
            better: Better::Lower,
            number: |outcome| outcome.weight,
        },
        Row {
            id: "cost",
            title: "Cost",
            about: "still to be bought".into(),
            unit: brief.currency.clone(),
            target: brief.cost.map(|value| value.si),
            better: Better::Lower,
            number: |outcome| outcome.cost,
        },
    ];
    let mut promises: Vec<Promise> = rows.map(|row| row.promise(nominal, drawn)).into();
    if nothing_priced(subject.cost.lines()) {
        // A sum of nothing keeps every mark in every build: that says nothing.
        let costs = promises.iter_mut().filter(|promise| promise.id == "cost");
        for cost in costs {
            cost.about = "still to be bought; no price of it is known".into();
            cost.odds = None;
        }
    }
    promises
}

/// The unit of loudness the brief is in, and where an outcome holds it.
fn loudness(subject: &Subject) -> (&'static str, fn(&Outcome) -> f64) {
    let wanted = subject.project.design.brief.loudness;
    if wanted.is_some_and(|wanted| wanted.a_weighted) {
        ("dB(A)", |outcome| outcome.loud_a)
    } else {
        ("dB", |outcome| outcome.loud)
    }
}

fn loud(subject: &Subject) -> Row {
    let brief = &subject.project.design.brief;
    let programme = words::programme(brief.programme.value);
    let distance = words::stated(brief.distance.si, "m");
    let place = words::stands(subject.project.design.place.stands.value);
    let sides = if subject.channels_used() == 2 {
        ", both sides"
    } else {
        ""
    };
    let (unit, number) = loudness(subject);
    Row {
        id: "loud",
        title: "Loud",
        about: format!("long-term {programme} at {distance}, {place}{sides}, peaks clean"),
        unit: unit.into(),
        target: brief.loudness.map(|wanted| wanted.level.si),
        better: Better::Higher,
        number,
    }
}

fn long(subject: &Subject, nominal: &Outcome) -> Row {
    let brief = &subject.project.design.brief;
    let programme = words::programme(brief.programme.value);
    let (unit, number) = loudness(subject);
    let reached = number(nominal);
    let level = match brief.loudness.map(|wanted| wanted.level.si) {
        Some(wanted) if wanted <= reached => format!("at {}", words::stated(wanted, unit)),
        _ => format!("as loud as it can, {}", words::number(reached, unit)),
    };
    Row {
        id: "long",
        title: "Long",
        about: format!("{programme} {level}, to the end of the battery"),
        unit: "h".into(),
        target: brief.runtime.map(|value| value.si / 3600.0),
        better: Better::Higher,
        number: |outcome| outcome.runtime / 3600.0,
    }
}
