//! Single numbers with unit, band and source.

use crate::odds::Drawn;
use crate::outcome::Outcome;
use serde::Serialize;

/// One number.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// Stable name.
    pub id: &'static str,
    /// In words.
    pub title: &'static str,
    /// Value of the nominal build.
    pub value: f64,
    /// Its unit; empty for a ratio.
    pub unit: &'static str,
    /// One drawn build in ten is below.
    pub p10: Option<f64>,
    /// One drawn build in ten is above.
    pub p90: Option<f64>,
    /// Where the law behind it is published: a key of the bibliography.
    pub source: &'static str,
}

struct Row(
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    fn(&Outcome) -> f64,
);

const NETWORK: &str = "small-1972";
const OWN: &str = "own definition";

const ROWS: &[Row] = &[
    Row(
        "box-resonance",
        "resonance of driver and closed box",
        "Hz",
        NETWORK,
        |o| o.closed,
    ),
    Row("total-q", "total Q at that resonance", "", NETWORK, |o| {
        o.closed_q
    }),
    Row(
        "tuning",
        "tuning of vent or passive radiator",
        "Hz",
        "small-1973",
        |o| o.tuning,
    ),
    Row(
        "radiator-resonance",
        "resonance of the passive radiator itself",
        "Hz",
        "small-1974",
        |o| o.radiator_resonance,
    ),
    Row("low-3db", "−3 dB point", "Hz", NETWORK, |o| o.low_3db),
    Row("low-6db", "−6 dB point", "Hz", NETWORK, |o| o.low),
    Row("net-volume", "net volume of air", "L", OWN, |o| 1e3 * o.net),
    Row(
        "sensitivity",
        "one side at 1 m for 2.83 V, half space, mid-band",
        "dB",
        NETWORK,
        |o| o.sensitivity,
    ),
    Row(
        "loud",
        "highest long-term level at the brief's distance",
        "dB",
        OWN,
        |o| o.loud,
    ),
    Row(
        "loud-a",
        "the same, A-weighted",
        "dB(A)",
        "iec-61672-1",
        |o| o.loud_a,
    ),
    Row(
        "hot-loss",
        "level lost to hot coils at that level",
        "dB",
        "iec-60028",
        |o| o.hot_loss,
    ),
    Row(
        "least-impedance",
        "least impedance on one channel",
        "Ω",
        NETWORK,
        |o| o.least_impedance,
    ),
    Row(
        "clean-full",
        "clean power per channel, full battery",
        "W",
        OWN,
        |o| o.clean_full,
    ),
    Row(
        "clean-mid",
        "clean power per channel, half-empty battery",
        "W",
        OWN,
        |o| o.clean_mid,
    ),
    Row(
        "clean-empty",
        "clean power per channel, empty battery",
        "W",
        OWN,
        |o| o.clean_empty,
    ),
    Row(
        "efficiency",
        "efficiency of the amplifier at the clip point",
        "%",
        OWN,
        |o| 100.0 * o.efficiency,
    ),
    Row(
        "efficiency-brief",
        "efficiency of the amplifier at the brief's loudness, idle counted",
        "%",
        OWN,
        |o| 100.0 * o.efficiency_brief,
    ),
    Row("draw-idle", "drawn from the battery, idle", "W", OWN, |o| {
        o.draw_idle
    }),
    Row(
        "draw-brief",
        "drawn from the battery at the brief's loudness",
        "W",
        OWN,
        |o| o.draw_brief,
    ),
    Row(
        "peak-current",
        "peak drawn from the battery at full output",
        "A",
        OWN,
        |o| o.peak_current,
    ),
    Row(
        "runtime",
        "playing time at the brief's loudness",
        "h",
        OWN,
        |o| o.runtime / 3600.0,
    ),
    Row(
        "runtime-clip",
        "playing time with music at the clip point",
        "h",
        OWN,
        |o| o.runtime_clip / 3600.0,
    ),
    Row(
        "runtime-sine",
        "playing time with a full sine, the worst case",
        "h",
        OWN,
        |o| o.runtime_sine / 3600.0,
    ),
    Row(
        "charge-time",
        "charging time from empty to full",
        "h",
        OWN,
        |o| o.charge_time / 3600.0,
    ),
    Row(
        "vent-speed",
        "peak air speed in the vent at the brief's loudness",
        "m/s",
        "small-1973",
        |o| o.vent_speed,
    ),
    Row(
        "travel-share",
        "cone travel used at the brief's loudness",
        "%",
        OWN,
        |o| 100.0 * o.travel_share,
    ),
    Row(
        "radiator-share",
        "radiator travel used at the brief's loudness",
        "%",
        OWN,
        |o| 100.0 * o.radiator_share,
    ),
    Row("weight", "weight", "kg", OWN, |o| o.weight),
];

/// Every figure that exists for this kind of box.
pub(crate) fn figures(nominal: &Outcome, drawn: &Drawn, face_loss: f64) -> Vec<Figure> {
    let face = Figure {
        id: "face-loss",
        title: "middle range above bass, from face and place",
        value: face_loss,
        unit: "dB",
        p10: None,
        p90: None,
        source: "svensson-1999",
    };
    ROWS.iter()
        .filter(|row| !(row.4)(nominal).is_nan())
        .map(|&Row(id, title, unit, source, number)| {
            let band = drawn.band(number);
            Figure {
                id,
                title,
                value: number(nominal),
                unit,
                p10: band.map(|band| band.p10),
                p90: band.map(|band| band.p90),
                source,
            }
        })
        .chain([face])
        .collect()
}
