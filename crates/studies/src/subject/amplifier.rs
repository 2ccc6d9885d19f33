//! The amplifier board, its source and its cables with their spreads.

use crate::build::AmplifierBuild;
use crate::signal;
use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{AmplifierPart, Design, Stage, Value};
use physics::amplifier::Amplifier;
use physics::loudspeaker::{Feed, OutputFilter};
use physics::wire;

/// Highest sine level of a telephone's or radio module's output in V rms: common practice, no source.
const SOURCE_LEVEL: f64 = 0.9;

#[derive(Clone, Debug)]
pub(crate) struct AmplifierSubject {
    resistance: Uncertain,
    idle: Uncertain,
    gain: Uncertain,
    source: Uncertain,
    source_loss: f64,
    part: AmplifierPart,
    coupling: Option<f64>,
    cable: f64,
}

fn cable_resistance(length: Option<Value>, section: Option<Value>) -> f64 {
    let length = length.map_or(0.4, |value| value.si);
    let section = section.map_or(0.75e-6, |value| value.si);
    wire::cable_loop(length, section, 20.0)
}

/// Loss in dB between source and board fully up: as stated, else from the parts named.
fn loss(design: &Design) -> f64 {
    let stated = design.source.loss.map(|loss| loss.si);
    let computed = || {
        let sources = signal::sources(design, SOURCE_LEVEL);
        signal::Path::of(design).loss(sources.first()?.impedance)
    };
    stated.or_else(computed).unwrap_or(0.0)
}

impl AmplifierSubject {
    pub(super) fn new(causes: &mut Causes, design: &Design) -> Self {
        let used = &design.amplifier;
        let part = used.part.clone();
        let resistance = causes.value(
            "amplifier.resistance",
            "resistance of the output stage",
            "Ω",
            &part.on_resistance,
            &spreads::AMPLIFIER_RESISTANCE,
        );
        let idle = causes.value(
            "amplifier.idle",
            "idle current",
            "A",
            &part.idle_current,
            &spreads::AMPLIFIER_IDLE,
        );
        let gain = causes.value(
            "amplifier.gain",
            "gain",
            "×",
            &part.gain,
            &spreads::AMPLIFIER_GAIN,
        );
        let (id, label) = ("source.level", "highest level of the source");
        let source = match &design.source.level {
            Some(level) => causes.value(id, label, "V", level, &spreads::SOURCE_LEVEL),
            None => {
                let radio = signal::radio_level(design).map(|level| level.si);
                let level = radio.unwrap_or(SOURCE_LEVEL);
                causes.usual(id, label, "V", level, &spreads::SOURCE_LEVEL)
            }
        };
        Self {
            resistance,
            idle,
            gain,
            source,
            source_loss: loss(design),
            coupling: used.coupling.map(|value| value.si),
            cable: cable_resistance(used.cable_length, used.cable_section),
            part,
        }
    }

    pub(super) fn at(&self, draw: &Draw) -> AmplifierBuild {
        let part = &self.part;
        let resistance = self.resistance.at(draw);
        // A bridge has a coil in each leg and its capacitors in series across the load.
        let legs = if part.bridged { 2.0 } else { 1.0 };
        let filter = part.filter_inductance.zip(part.filter_capacitance);
        AmplifierBuild {
            stage: Amplifier {
                bridged: part.bridged,
                linear: part.stage.value == Stage::Linear,
                on_resistance: resistance,
                rail_loss: part.rail_loss.map_or(0.0, |loss| loss.si),
                current_limit: part.current_limit.si,
                idle_current: self.idle.at(draw),
                switching_loss: part.switching_loss.map_or(0.0, |loss| loss.si),
            },
            feed: Feed {
                output_resistance: resistance,
                output_filter: filter.map(|(inductance, capacitance)| OutputFilter {
                    inductance: legs * inductance.si,
                    capacitance: capacitance.si / legs,
                }),
                coupling_capacitance: self.coupling,
                cable_resistance: self.cable,
            },
            gain: self.gain.at(draw),
            source_level: self.source.at(draw),
            source_loss_db: self.source_loss,
        }
    }
}
