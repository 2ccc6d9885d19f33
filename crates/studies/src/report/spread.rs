//! What drives the spread of each promise, and what to measure to narrow it.

use crate::build::DriverBuild;
use crate::odds::{Band, Drawn};
use crate::outcome::Outcome;
use crate::report::Promise;
use crate::subject::{Parameter, Subject};
use crate::vary::{Draw, draw};
use rayon::prelude::*;
use serde::Serialize;

/// A cause and its share in the spread of a promise.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mover {
    /// The promise.
    pub promise: &'static str,
    /// The cause, in words.
    pub cause: String,
    /// Squared correlation of cause and promise over the drawn builds, 0 to 1.
    pub share: f64,
    /// Whether more of the cause means more of the promise's number.
    pub rises: bool,
}

/// The single measurement that would narrow the promises most.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measurement {
    /// Key of the value on the shelf.
    pub key: &'static str,
    /// In words, with the part.
    pub what: String,
    /// Name of the part as it stands on the shelf.
    pub part: String,
    /// The band of "low" now, in Hz.
    pub low_now: (f64, f64),
    /// Its expected width once this is measured, in Hz.
    pub low_width_then: f64,
    /// The band of "loud" now, in dB.
    pub loud_now: (f64, f64),
    /// Its expected width once this is measured, in dB.
    pub loud_width_then: f64,
}

/// Causes named for each promise at most.
const NAMED: usize = 5;

/// Share of the spread below which a cause is not worth naming: two per cent,
/// or what chance alone may bring forth among so many builds and some sixty causes.
fn worth_naming(builds: usize) -> f64 {
    (16.0 / builds.max(1) as f64).max(0.02)
}

/// Fewer builds than this name no cause: a Sobol sequence cut short is not
/// independent from one dimension to the next.
const ENOUGH: usize = 250;

/// How loud, as the brief counts it: A-weighted or not.
fn loudness(subject: &Subject) -> fn(&Outcome) -> f64 {
    let wanted = subject.project.design.brief.loudness;
    if wanted.is_some_and(|wanted| wanted.a_weighted) {
        |o| o.loud_a
    } else {
        |o| o.loud
    }
}

fn number(subject: &Subject, promise: &str) -> fn(&Outcome) -> f64 {
    match promise {
        "low" => |o| o.low,
        "loud" => loudness(subject),
        "long" => |o| o.runtime,
        "light" => |o| o.weight,
        _ => |o| o.cost,
    }
}

fn points(subject: &Subject, builds: usize) -> Vec<Draw> {
    let dimensions = subject.causes.list().len();
    (0..builds)
        .map(|i| draw(u32::try_from(i).unwrap_or(u32::MAX), dimensions))
        .collect()
}

/// The strongest causes behind the spread of each promise.
pub(crate) fn movers(subject: &Subject, drawn: &Drawn, promises: &[Promise]) -> Vec<Mover> {
    if drawn.outcomes.len() < ENOUGH {
        return Vec::new();
    }
    let points = points(subject, drawn.outcomes.len());
    let causes = subject.causes.list();
    promises
        .par_iter()
        .flat_map_iter(|promise| {
            let number = number(subject, promise.id);
            let values: Vec<f64> = drawn.outcomes.iter().map(number).collect();
            let mut list: Vec<Mover> = causes
                .iter()
                .enumerate()
                .map(|(dimension, cause)| {
                    let units = points.iter().map(|point| match point {
                        Draw::Point(units) => units[dimension],
                        Draw::Nominal => 0.5,
                    });
                    let r = correlation(units, &values);
                    Mover {
                        promise: promise.id,
                        cause: cause.label.clone(),
                        share: r * r,
                        rises: r > 0.0,
                    }
                })
                .filter(|mover| mover.share > worth_naming(values.len()))
                .collect();
            list.sort_by(|a, b| b.share.total_cmp(&a.share));
            list.truncate(NAMED);
            list
        })
        .collect()
}

/// Pearson's correlation coefficient; 0 where either side does not vary.
fn correlation(x: impl Iterator<Item = f64> + Clone, y: &[f64]) -> f64 {
    let count = y.len() as f64;
    let mean_x = x.clone().sum::<f64>() / count;
    let mean_y = y.iter().sum::<f64>() / count;
    let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
    for (x, y) in x.zip(y) {
        let (x, y) = (x - mean_x, y - mean_y);
        xx += x * x;
        yy += y * y;
        xy += x * y;
    }
    if xx > 0.0 && yy > 0.0 {
        xy / (xx * yy).sqrt()
    } else {
        0.0
    }
}

/// A measurement a maker can make, and what it reads on one example.
type Reading = (Parameter, fn(&DriverBuild, &Subject) -> f64);

/// Measurements a maker can make with a meter, a sound card or weights, and a test box.
const READINGS: [Reading; 4] = [
    (Parameter::Fs, |d, _| d.fs()),
    (Parameter::Qts, |d, _| d.qts()),
    (Parameter::Vas, |d, s| d.vas(&s.air)),
    (Parameter::Mms, |d, _| d.mms),
];

/// The measurement that narrows "low" and "loud" most, for drivers with guessed data.
pub(crate) fn best_measurement(subject: &Subject, drawn: &Drawn) -> Option<Measurement> {
    if subject
        .drivers
        .iter()
        .all(|driver| driver.guessed.is_empty())
    {
        return None;
    }
    let points = points(subject, drawn.outcomes.len());
    let low: Vec<f64> = drawn.outcomes.iter().map(|o| o.low).collect();
    let loud: Vec<f64> = drawn.outcomes.iter().map(loudness(subject)).collect();
    let low_now = Band::of(low.iter().copied())?;
    let loud_now = Band::of(loud.iter().copied())?;
    let mut best: Option<(f64, Measurement)> = None;
    for (driver, group) in subject.drivers.iter().zip(&subject.project.design.drivers) {
        if driver.guessed.is_empty() {
            continue;
        }
        let examples: Vec<DriverBuild> = points.iter().map(|point| driver.at(point)).collect();
        for (parameter, read) in READINGS {
            let readings: Vec<f64> = examples
                .iter()
                .map(|example| read(example, subject))
                .collect();
            let low_then = width_once_known(&readings, &low);
            let loud_then = width_once_known(&readings, &loud);
            let narrowed =
                low_then / (low_now.p90 - low_now.p10) + loud_then / (loud_now.p90 - loud_now.p10);
            let (key, words, _) = parameter.words();
            let part = &group.part.common.name.text;
            if best.as_ref().is_none_or(|(least, _)| narrowed < *least) {
                let measurement = Measurement {
                    key,
                    what: format!("{words} of {part}"),
                    part: part.clone(),
                    low_now: (low_now.p10, low_now.p90),
                    low_width_then: low_then,
                    loud_now: (loud_now.p10, loud_now.p90),
                    loud_width_then: loud_then,
                };
                best = Some((narrowed, measurement));
            }
        }
    }
    best.map(|(_, measurement)| measurement)
}

/// Builds whose reading is alike, taken together.
const CLASS: usize = 50;

/// Mean width of the 10–90 % band of `values` among builds with like readings.
fn width_once_known(readings: &[f64], values: &[f64]) -> f64 {
    let mut order: Vec<usize> = (0..readings.len()).collect();
    order.sort_by(|&a, &b| readings[a].total_cmp(&readings[b]));
    let widths: Vec<f64> = order
        .chunks(CLASS.min(readings.len()))
        .filter_map(|class| Band::of(class.iter().map(|&i| values[i])))
        .map(|band| band.p90 - band.p10)
        .collect();
    widths.iter().sum::<f64>() / widths.len() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_that_follows_its_reading_is_narrowed_and_another_is_not() {
        let readings: Vec<f64> = (0..1000).map(f64::from).collect();
        let unrelated: Vec<f64> = (0..1000).map(|i| f64::from(i * 7919 % 1000)).collect();
        assert!(width_once_known(&readings, &readings) < 50.0);
        assert!(width_once_known(&readings, &unrelated) > 700.0);
        assert!((correlation(readings.iter().copied(), &readings) - 1.0).abs() < 1e-12);
    }
}
