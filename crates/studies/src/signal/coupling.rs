//! Capacitors in series with the signal.

use super::model::Coupled;
use super::path::Path;
use crate::build::Build;
use crate::sound::Gains;
use crate::subject::Subject;
use physics::math::{Complex, J, db_amplitude, omega};
use physics::signal::Coupling;

/// Up to so many times the brief's lowest tone an output capacitor is judged.
const ABOVE: f64 = 4.0;

/// The capacitor at the board's input, where its value is known and the brief
/// names a lowest tone; `turn` is that of the control.
pub(crate) fn input(subject: &Subject, source: f64, turn: f64) -> Option<Coupled> {
    let design = &subject.project.design;
    let lowest = design.brief.lowest?.si;
    let capacitance = design.amplifier.part.input_capacitance?.si;
    let path = Path::of(design);
    let coupling = Coupling {
        capacitance,
        resistance: path.input() + path.output(source, turn),
    };
    Some(Coupled {
        id: "input",
        name: "at the input of the board",
        capacitance,
        corner: coupling.corner(),
        loss: -db_amplitude(coupling.gain(lowest)),
        lowest,
    })
}

/// The capacitor in series with each load, where there is one, into the
/// computed impedance where it takes most, from the brief's lowest tone to two
/// octaves above.
pub(crate) fn output(
    subject: &Subject,
    build: &Build,
    gains: &Gains,
    hertz: &[f64],
) -> Option<Coupled> {
    let design = &subject.project.design;
    let lowest = design.brief.lowest?.si;
    let capacitance = design.amplifier.coupling?.si;
    // Near the box's own resonance the drivers are hardly a load: it may take more above.
    let loss = |at: usize| {
        let capacitor = (J * omega(hertz[at]) * capacitance).inv();
        let whole = Complex::from_polar(gains.impedance[at], gains.phase[at]);
        -db_amplitude(((whole - capacitor) / whole).norm())
    };
    let from = hertz.partition_point(|&f| f < lowest).min(hertz.len() - 1);
    let to = hertz.partition_point(|&f| f < ABOVE * lowest).max(from + 1);
    let worst = (from..to).max_by(|&a, &b| loss(a).total_cmp(&loss(b)))?;
    let rated = Coupling {
        capacitance,
        resistance: rated_load(subject) + build.amplifier.stage.on_resistance,
    };
    Some(Coupled {
        id: "output",
        name: "in series with the drivers",
        capacitance,
        corner: rated.corner(),
        loss: loss(worst),
        lowest: hertz[worst],
    })
}

/// DC resistance of the drivers on one channel in Ω, nearly enough for a corner.
pub(super) fn rated_load(subject: &Subject) -> f64 {
    let design = &subject.project.design;
    let rated = design.drivers.iter().filter_map(|group| {
        let each = group.part.impedance.or(group.part.re)?.si;
        let count = f64::from(crate::subject::on_one_channel(group).max(1));
        Some(match group.wiring.value {
            design::Wiring::Parallel => each / count,
            design::Wiring::Series => each * count,
            design::Wiring::SeriesParallel => each * 4.0 / count,
        })
    });
    let sum: f64 = rated.map(f64::recip).sum();
    if sum > 0.0 { 1.0 / sum } else { 4.0 }
}
