//! The brief, and where the box is played.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::{PROGRAMMES, STANDS};
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{Brief, Choice, Loudness, PlayPlace, Programme, Stands};

/// The currency of the built-in shelf.
const USUAL_CURRENCY: &str = "EUR";

pub(crate) fn brief(fields: Fields<'_>, log: &mut Log) -> Option<Brief> {
    let programme = fields.word_or("programme", PROGRAMMES, Programme::Music, log);
    let distance = fields.need("distance", D::Length, Within(0.1, 1000.0), log);
    let loudness = fields
        .value_in_unit("loudness", D::SoundLevel, Within(20.0, 150.0), log)
        .map(|(level, unit)| Loudness {
            level,
            a_weighted: unit == "dB(A)",
        });
    let lowest = fields.value("lowest", D::Frequency, Within(5.0, 20_000.0), log);
    let runtime = fields.value("runtime", D::Time, Positive, log);
    let largest = fields.size("largest", log);
    let weight = fields.value("weight", D::Mass, Positive, log);
    let cost = fields.money("cost", log);
    fields.finish(log);
    Some(Brief {
        programme,
        distance: distance?,
        loudness,
        lowest,
        runtime,
        largest,
        weight,
        currency: cost
            .as_ref()
            .map_or_else(|| USUAL_CURRENCY.to_owned(), |cost| cost.currency.clone()),
        cost: cost.map(|cost| cost.amount),
    })
}

pub(crate) fn play_place(fields: Option<Fields<'_>>, log: &mut Log) -> PlayPlace {
    let Some(fields) = fields else {
        return PlayPlace {
            stands: Choice::unsaid(Stands::Free),
            temperature: None,
            humidity: None,
            altitude: None,
            room: None,
            reverberation: None,
            ears: None,
            hottest: None,
            sun: Choice::unsaid(false),
        };
    };
    let place = PlayPlace {
        stands: fields.word_or("stands", STANDS, Stands::Free, log),
        temperature: fields.value("temperature", D::Temperature, Within(-40.0, 60.0), log),
        humidity: fields.value("humidity", D::Share, NotNegative, log),
        altitude: fields.value("altitude", D::Length, Within(-500.0, 9000.0), log),
        room: fields.value("room", D::Volume, Within(1.0, 1e6), log),
        reverberation: fields.value("reverberation", D::Time, Within(0.01, 60.0), log),
        ears: fields.value("ears", D::Length, Within(0.0, 100.0), log),
        hottest: fields.value("hottest", D::Temperature, Within(-40.0, 60.0), log),
        sun: fields.flag("sun", false, log),
    };
    fields.not_above(
        "temperature",
        place.temperature,
        "hottest",
        place.hottest,
        log,
    );
    fields.finish(log);
    place
}
