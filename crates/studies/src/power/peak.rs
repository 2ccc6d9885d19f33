//! Current drawn from the battery at the peaks of the programme.

use crate::build::Build;
use crate::sound::{Gains, Scene};

/// Peak current drawn with programme of so many volts rms, in A.
///
/// A switching stage changes its supply down to what the peak needs, which for
/// a single output counts from the lower rail; a linear one passes its output current.
pub(crate) fn peak_current(
    build: &Build,
    gains: &Gains,
    scene: &Scene,
    volts: f64,
    channels: u32,
) -> f64 {
    let stage = &build.amplifier.stage;
    let most = stage.open_circuit_peak(build.battery.full_voltage());
    let peak = (scene.crest * volts).min(most);
    let per_volt = gains.current.iter().copied().fold(0.0, f64::max);
    let output = (peak * per_volt).min(stage.current_limit);
    let swing = if most > 0.0 { peak / most } else { 1.0 };
    let share = match (stage.linear, stage.bridged) {
        (true, _) => 1.0,
        (false, true) => swing,
        (false, false) => (1.0 + swing) / 2.0,
    };
    let aside = build.aside.amperes(build.battery.full_voltage());
    f64::from(channels) * output * share + stage.idle_current + aside
}
