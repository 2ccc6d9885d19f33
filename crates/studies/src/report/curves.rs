//! Numbers against frequency, with bands.

use crate::odds::{Band, Drawn};
use crate::outcome::Traces;
use crate::sound::{Grid, Limit};
use physics::battery::Discharge;
use physics::math::ln;
use serde::Serialize;

/// One number against frequency.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Curve {
    /// Stable name.
    pub id: &'static str,
    /// In words, with its conditions.
    pub title: String,
    /// Unit of the values.
    pub unit: &'static str,
    /// Frequencies in Hz.
    pub x: Vec<f64>,
    /// Values of the nominal build.
    pub y: Vec<f64>,
    /// One drawn build in ten is below.
    pub p10: Option<Vec<f64>>,
    /// One drawn build in ten is above.
    pub p90: Option<Vec<f64>>,
    /// What limits the value at each frequency, for the greatest level.
    pub limits: Option<Vec<Limit>>,
    /// Above this frequency in Hz the model no longer follows the driver.
    pub trusted_to: Option<f64>,
    /// A limiting value to be drawn across, where there is one.
    pub mark: Option<f64>,
}

/// Battery voltage against time.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Discharging {
    /// Hours of playing.
    pub hours: Vec<f64>,
    /// Volts at the terminals.
    pub volts: Vec<f64>,
    /// Volts at which the discharge must end.
    pub end_voltage: f64,
}

/// Where the listener to the side stands, in degrees off the axis.
pub(crate) const OFF_AXIS: f64 = 30.0;

/// Values of the limits drawn across curves, and what shifts them.
pub(crate) struct Marks {
    pub(crate) travel: f64,
    pub(crate) radiator_travel: Option<f64>,
    pub(crate) vent_speed: Option<f64>,
    pub(crate) least_load: f64,
    pub(crate) trusted_to: f64,
    pub(crate) stereo: bool,
    /// Level [`OFF_AXIS`] degrees to the side over that on the axis, in dB.
    pub(crate) off_axis: Vec<f64>,
    pub(crate) distance: f64,
    pub(crate) place: &'static str,
}

type Pick = fn(&Traces) -> &[f64];

/// What curves are drawn from.
struct Plot<'a> {
    fine: &'a Grid,
    coarse: &'a Grid,
    nominal: &'a Traces,
    drawn: &'a Drawn,
}

impl Plot<'_> {
    /// One number against frequency, `scale` units to one of SI.
    fn curve(
        &self,
        id: &'static str,
        title: impl Into<String>,
        unit: &'static str,
        scale: f64,
        pick: Pick,
    ) -> Curve {
        let bands = self.drawn.curve_band(pick);
        let side = |side: fn(&Band) -> f64| {
            let values: Vec<f64> = bands.iter().map(|band| scale * side(band)).collect();
            (!values.is_empty()).then(|| onto(&self.fine.hertz, &self.coarse.hertz, &values))
        };
        let values = pick(self.nominal).iter();
        Curve {
            id,
            title: title.into(),
            unit,
            x: self.fine.hertz.clone(),
            y: values.map(|value| scale * value).collect(),
            p10: side(|band| band.p10),
            p90: side(|band| band.p90),
            limits: None,
            trusted_to: None,
            mark: None,
        }
    }

    /// What is heard: on the axis, to the side, and the greatest level of a sine.
    fn levels(&self, marks: &Marks) -> [Curve; 3] {
        let place = marks.place;
        let of_one = if marks.stereo { " of one side" } else { "" };
        let of_both = if marks.stereo { "both sides, " } else { "" };
        let distance = crate::words::stated(marks.distance, "m");
        let shown = format!("level{of_one} at 1 m for 2.83 V, {place}");
        let greatest = format!("greatest level of a sine at {distance}, {of_both}{place}");
        let response = Curve {
            trusted_to: Some(marks.trusted_to),
            ..self.curve("response", shown, "dB", 1.0, |t| &t.response)
        };
        let off_axis = to_the_side(&response, &marks.off_axis);
        let max_level = Curve {
            limits: Some(self.nominal.max_limit.clone()),
            trusted_to: Some(marks.trusted_to),
            ..self.curve("max-level", greatest, "dB", 1.0, |t| &t.max_level)
        };
        [response, off_axis, max_level]
    }

    /// What the amplifier sees and gives, what the cones travel, how late the box is.
    fn loads(&self, marks: &Marks) -> [Curve; 5] {
        let impedance = "impedance on one channel";
        let phase = "phase of that impedance";
        let travel = "peak cone travel at the clip point";
        let delay = "group delay of the box";
        let current = "output current of one channel at the clip point, rms";
        [
            Curve {
                mark: Some(marks.least_load),
                ..self.curve("impedance", impedance, "Ω", 1.0, |t| &t.impedance)
            },
            self.curve("phase", phase, "°", 1.0, |t| &t.phase),
            Curve {
                mark: Some(1e3 * marks.travel),
                ..self.curve("travel", travel, "mm", 1e3, |t| &t.travel)
            },
            self.curve("group-delay", delay, "ms", 1e3, |t| &t.group_delay),
            self.curve("current", current, "A", 1.0, |t| &t.current),
        ]
    }

    /// What moves in the outlet, where the box has one.
    fn outlet(&self, marks: &Marks) -> impl Iterator<Item = Curve> {
        let radiator = marks.radiator_travel.map(|limit| Curve {
            mark: Some(1e3 * limit),
            ..self.curve(
                "radiator-travel",
                "peak travel of the passive radiator at the clip point",
                "mm",
                1e3,
                |t| &t.radiator_travel,
            )
        });
        let vent = marks.vent_speed.map(|limit| Curve {
            mark: Some(limit),
            ..self.curve(
                "vent-speed",
                "peak air speed in the vent at the clip point",
                "m/s",
                1.0,
                |t| &t.vent_speed,
            )
        });
        radiator.into_iter().chain(vent)
    }
}

/// The curves of a design.
pub(crate) fn curves(
    fine: &Grid,
    coarse: &Grid,
    nominal: &Traces,
    drawn: &Drawn,
    marks: &Marks,
) -> Vec<Curve> {
    let plot = Plot {
        fine,
        coarse,
        nominal,
        drawn,
    };
    let mut list = Vec::from(plot.levels(marks));
    list.extend(plot.loads(marks));
    list.extend(plot.outlet(marks));
    list
}

/// The response as heard from the side: the same, shifted by what face and cone do there.
fn to_the_side(response: &Curve, shift: &[f64]) -> Curve {
    let shifted = |values: &[f64]| {
        values
            .iter()
            .zip(shift)
            .map(|(value, by)| value + by)
            .collect()
    };
    Curve {
        id: "off-axis",
        title: format!("{}, {OFF_AXIS:.0}° to the side", response.title),
        y: shifted(&response.y),
        p10: response.p10.as_deref().map(shifted),
        p90: response.p90.as_deref().map(shifted),
        ..response.clone()
    }
}

/// Values on one grid brought onto another, linearly in the logarithm of frequency.
fn onto(target: &[f64], grid: &[f64], values: &[f64]) -> Vec<f64> {
    let at = |hertz: f64| {
        let above = grid
            .partition_point(|&f| f < hertz)
            .clamp(1, grid.len() - 1);
        let (low, high) = (ln(grid[above - 1]), ln(grid[above]));
        let share = ((ln(hertz) - low) / (high - low)).clamp(0.0, 1.0);
        values[above - 1] + share * (values[above] - values[above - 1])
    };
    target.iter().map(|&hertz| at(hertz)).collect()
}

/// The discharge as plain columns.
pub(crate) fn discharging(discharge: &Discharge, end_voltage: f64) -> Discharging {
    let (hours, volts) = discharge
        .curve
        .iter()
        .map(|&(seconds, volts)| (seconds / 3600.0, volts))
        .unzip();
    Discharging {
        hours,
        volts,
        end_voltage,
    }
}
