//! The order of building: steps, tests, tools.

use serde::Serialize;
use studies::order::{
    Expect, Hold as HoldModel, Order as Model, Reading as ReadingModel, Span as SpanModel,
    Step as StepModel, Taken, instrument,
};

/// Times in s; moments in s from the beginning of the first day, nights counted.
#[derive(Serialize)]
pub(super) struct Order<'a> {
    steps: Vec<Step<'a>>,
    tests: Vec<Test<'a>>,
    tools: Vec<Tool<'a>>,
    hands: Span,
    days: [u32; 3],
    day: f64,
    until_ready: Span,
    meanwhile: f64,
}

#[derive(Serialize)]
struct Span {
    quick: f64,
    usual: f64,
    slow: f64,
}

#[derive(Serialize)]
struct Step<'a> {
    id: &'a str,
    title: &'a str,
    words: &'a [String],
    work: &'static str,
    hands: Span,
    wait: f64,
    wait_for: Option<&'static str>,
    begins: f64,
    ends: f64,
    ready: f64,
    tools: &'a [String],
    after: Vec<After<'a>>,
    hides: &'a [String],
}

#[derive(Serialize)]
struct After<'a> {
    step: &'a str,
    why: &'static str,
}

#[derive(Serialize)]
struct Test<'a> {
    id: &'static str,
    title: &'a str,
    how: &'a [String],
    with: Vec<&'static str>,
    /// best, instead or not.
    taken: &'static str,
    missing: Option<&'a str>,
    readings: Vec<Reading<'a>>,
    otherwise: Vec<Otherwise<'a>>,
    caution: Option<&'a str>,
}

/// What does not apply is null: a band has low, nominal and high, a limit one end, what is
/// seen only words.
#[derive(Serialize)]
struct Reading<'a> {
    label: &'a str,
    low: Option<f64>,
    nominal: Option<f64>,
    high: Option<f64>,
    unit: Option<&'static str>,
    seen: Option<&'a str>,
}

#[derive(Serialize)]
struct Otherwise<'a> {
    sign: &'a str,
    meaning: &'a str,
}

#[derive(Serialize)]
struct Tool<'a> {
    name: &'a str,
    steps: Vec<&'a str>,
}

impl<'a> Order<'a> {
    pub(super) fn new(model: &'a Model) -> Self {
        let id = |index: usize| model.steps[index].id.as_str();
        let total = &model.total;
        Self {
            steps: model
                .steps
                .iter()
                .map(|step| Step::new(step, &id))
                .collect(),
            tests: model.holds.iter().map(Test::new).collect(),
            tools: model
                .tools
                .iter()
                .map(|(name, steps)| Tool {
                    name,
                    steps: steps.iter().map(|step| id(*step)).collect(),
                })
                .collect(),
            hands: Span::new(total.hands),
            days: total.days,
            day: total.day,
            until_ready: Span::new(total.until_ready),
            meanwhile: total.meanwhile,
        }
    }
}

impl Span {
    const fn new(model: SpanModel) -> Self {
        Self {
            quick: model.quick,
            usual: model.usual,
            slow: model.slow,
        }
    }
}

impl<'a> Step<'a> {
    fn new(model: &'a StepModel, id: &impl Fn(usize) -> &'a str) -> Self {
        Self {
            id: &model.id,
            title: &model.title,
            words: &model.words,
            work: model.work.words(),
            hands: Span::new(model.hands),
            wait: model.wait,
            wait_for: model.wait_for,
            begins: model.begins,
            ends: model.ends,
            ready: model.ready,
            tools: &model.tools,
            after: model
                .after
                .iter()
                .map(|(step, why)| After {
                    step: id(*step),
                    why: why.words(),
                })
                .collect(),
            hides: &model.hides,
        }
    }
}

impl<'a> Test<'a> {
    fn new(model: &'a HoldModel) -> Self {
        let (taken, missing) = match &model.taken {
            Taken::Best => ("best", None),
            Taken::Instead => ("instead", None),
            Taken::Not(missing) => ("not", Some(missing.as_str())),
        };
        Self {
            id: model.id,
            title: &model.title,
            how: &model.how,
            with: model.with.iter().map(|one| instrument(*one)).collect(),
            taken,
            missing,
            readings: model.readings.iter().map(Reading::new).collect(),
            otherwise: model
                .otherwise
                .iter()
                .map(|(sign, meaning)| Otherwise { sign, meaning })
                .collect(),
            caution: model.caution.as_deref(),
        }
    }
}

impl<'a> Reading<'a> {
    fn new(model: &'a ReadingModel) -> Self {
        let (low, nominal, high, unit, seen) = match &model.expect {
            Expect::Band {
                low,
                nominal,
                high,
                unit,
            } => (Some(*low), Some(*nominal), Some(*high), Some(*unit), None),
            Expect::AtLeast { value, unit } => (Some(*value), None, None, Some(*unit), None),
            Expect::AtMost { value, unit } => (None, None, Some(*value), Some(*unit), None),
            Expect::Seen(what) => (None, None, None, None, Some(what.as_str())),
        };
        Self {
            label: &model.label,
            low,
            nominal,
            high,
            unit,
            seen,
        }
    }
}
