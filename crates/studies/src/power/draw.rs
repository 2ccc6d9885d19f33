//! Power out of and into the amplifier, into the computed impedance.

use crate::build::Build;
use crate::sound::{Caps, Gains, Scene};
use core::f64::consts::SQRT_2;
use physics::programme::{SINE_MEAN_TO_RMS, noise_mean_to_rms};

/// What is amplified, as far as the supply is concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Signal {
    /// Programme: amplitudes spread like noise.
    Programme,
    /// A steady sine, averaged over the frequencies of the programme.
    Sine,
}

impl Signal {
    /// Mean of the magnitude over the rms.
    fn form(self) -> f64 {
        match self {
            Self::Programme => noise_mean_to_rms(),
            Self::Sine => SINE_MEAN_TO_RMS,
        }
    }
}

/// Per-volt figures of one channel under a programme, gathered once per build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Load {
    /// Output current per volt rms.
    current: f64,
    /// Output power per square volt.
    power: f64,
}

impl Load {
    /// Under the brief's programme.
    pub(crate) fn of(gains: &Gains, scene: &Scene) -> Self {
        Self::under(gains, &scene.programme)
    }

    /// Under a programme with these shares of its power at the points of the grid.
    pub(crate) fn under(gains: &Gains, shares: &[f64]) -> Self {
        let mean = |square: &dyn Fn(usize) -> f64| {
            let each = shares.iter().enumerate();
            each.map(|(i, share)| square(i) * share).sum::<f64>()
        };
        Self {
            current: mean(&|i| gains.current[i] * gains.current[i]).sqrt(),
            power: mean(&|i| gains.power[i]),
        }
    }

    /// Power of one channel in W at so many volts rms.
    pub(crate) fn output_power(&self, volts: f64) -> f64 {
        volts * volts * self.power
    }

    /// Highest sine voltage the stage gives into this load, V rms.
    pub(crate) fn clean_volts(&self, caps: &Caps) -> f64 {
        let voltage = caps.peak_volts / SQRT_2;
        voltage.min(caps.peak_current / (SQRT_2 * self.current))
    }
}

/// Clean sine power of one channel in W, averaged over the frequencies of the
/// programme, within the stage's voltage and current.
pub(crate) fn clean_power(load: &Load, caps: &Caps) -> f64 {
    load.output_power(load.clean_volts(caps))
}

/// Power drawn from the supply by all channels of the amplifier in W.
pub(crate) fn supply_power(
    build: &Build,
    load: &Load,
    channels: u32,
    supply: f64,
    volts: f64,
    signal: Signal,
) -> f64 {
    let stage = &build.amplifier.stage;
    let rms = volts * load.current;
    let one = stage.supply_power(supply, rms, rms * signal.form(), load.output_power(volts));
    let idle = stage.idle_current * supply;
    f64::from(channels) * (one - idle) + idle
}
