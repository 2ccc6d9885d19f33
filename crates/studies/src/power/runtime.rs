//! How long the battery lasts.

use super::draw::{Load, Signal, supply_power};
use crate::build::Build;
use crate::sound::{Caps, Scene};

/// How the box is played while the battery empties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Playing {
    /// Programme of so many volts rms, held down by clipping near the end.
    Programme(f64),
    /// Programme whose peaks just clip, all the way down.
    ProgrammeAtClip,
    /// A sine at the clip point: the worst case.
    SineAtClip,
}

/// Power drawn from the battery in W while playing, by amplifier and all beside it, for each
/// voltage of the supply.
pub(crate) fn consumption<'a>(
    build: &'a Build,
    load: &'a Load,
    scene: &'a Scene,
    channels: u32,
    playing: Playing,
) -> impl Fn(f64) -> f64 + 'a {
    move |supply: f64| {
        let caps = Caps::of(build, supply, false);
        let at_clip = caps.peak_volts / scene.crest;
        let (volts, signal) = match playing {
            Playing::Programme(volts) => (volts.min(at_clip), Signal::Programme),
            Playing::ProgrammeAtClip => (at_clip, Signal::Programme),
            Playing::SineAtClip => (load.clean_volts(&caps), Signal::Sine),
        };
        supply_power(build, load, channels, supply, volts, signal) + build.aside.power(supply)
    }
}
