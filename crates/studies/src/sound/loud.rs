//! The highest long-term level of a programme whose peaks just reach the first limit.

use super::{Caps, Ceiling, Gains, Limit, Scene};
use core::f64::consts::SQRT_2;
use physics::heat;
use physics::level::db_of_pressure;
use physics::math::db_amplitude;

/// Temperature rise of a coil at its rated power in K: common practice, no source.
const RATED_RISE: f64 = 120.0;

/// The loudest a build can play its programme.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Loudest {
    /// Programme voltage in V rms.
    pub(crate) volts: f64,
    /// What gives out first.
    pub(crate) limit: Limit,
    /// Long-term level at the brief's distance in dB re 20 µPa, unweighted.
    pub(crate) level: f64,
    /// The same, A-weighted.
    pub(crate) level_a: f64,
    /// Level of one volt of programme, without the heat of the coil, unweighted.
    pub(crate) volt_level: f64,
    /// The same, A-weighted.
    pub(crate) volt_level_a: f64,
    /// Level lost to the heat of the coil at that level, in dB.
    pub(crate) hot_loss: f64,
}

/// The loudest a build can play the programme of a scene.
pub(crate) fn loudest(gains: &Gains, caps: &Caps, scene: &Scene) -> Loudest {
    let ceiling = Ceiling::lowest(programme_ceilings(gains, caps, scene));
    let (volt_level, volt_level_a) = volt_levels(gains, scene);
    let heat_share = ceiling.volts
        * ceiling.volts
        * Gains::programme_mean(gains.heat_share.iter().copied(), scene);
    let hot_loss = hot_loss(heat_share);
    let level = |volt_level: f64| volt_level + db_amplitude(ceiling.volts) - hot_loss;
    Loudest {
        volts: ceiling.volts,
        limit: ceiling.limit,
        level: level(volt_level),
        level_a: level(volt_level_a),
        volt_level,
        volt_level_a,
        hot_loss,
    }
}

/// Loss from a coil that works at this share of its rated power, in dB.
fn hot_loss(share: f64) -> f64 {
    heat::level_loss_db(RATED_RISE * share)
}

/// Programme voltages at which each limit is just reached, V rms.
///
/// Peaks of every quantity stand above its rms by the programme's crest
/// factor; bass alone is a little less peaky, which errs on the safe side.
pub(crate) fn programme_ceilings(gains: &Gains, caps: &Caps, scene: &Scene) -> [Ceiling; 7] {
    let crest = scene.crest;
    let rms = |quantity: &[f64]| Gains::programme_rms(quantity, scene);
    let heat = Gains::programme_mean(gains.heat_share.iter().copied(), scene);
    // Travel, radiator travel and vent speed are stored as peaks of a sine.
    let peak = |quantity: &[f64]| crest * rms(quantity) / SQRT_2;
    let at = |limit, volts| Ceiling { volts, limit };
    [
        at(Limit::AmplifierVoltage, caps.peak_volts / crest),
        at(Limit::ConeTravel, 1.0 / peak(&gains.travel_share)),
        at(
            Limit::RadiatorTravel,
            caps.radiator_travel / peak(&gains.radiator_travel),
        ),
        at(
            Limit::AmplifierCurrent,
            caps.peak_current / (crest * rms(&gains.current)),
        ),
        at(Limit::CoilHeat, 1.0 / heat.sqrt()),
        at(Limit::VentSpeed, caps.vent_speed / peak(&gains.vent_speed)),
        // The source's own peaks are those of its highest sine.
        at(Limit::Source, caps.source * SQRT_2 / crest),
    ]
}

fn volt_levels(gains: &Gains, scene: &Scene) -> (f64, f64) {
    let mean_square = |weight: &dyn Fn(usize) -> f64| {
        let squares = gains
            .pressure
            .iter()
            .enumerate()
            .map(|(i, pressure)| pressure * pressure * scene.to_listener(i) * weight(i));
        Gains::programme_mean(squares, scene)
    };
    let level = |square: f64| db_of_pressure(square.sqrt());
    (
        level(mean_square(&|_| 1.0)),
        level(mean_square(&|i| scene.a_weight[i])),
    )
}
