//! What plays into the amplifier.

use design::{ControlKind, Design, Does, ModuleKind, Value};

/// Impedance of a phone's output and of a radio module's in Ω: common practice, no source.
const PHONE: f64 = 50.0;
const RADIO: f64 = 100.0;

/// One source.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Source {
    pub(crate) name: String,
    /// Highest sine level in V rms.
    pub(crate) level: f64,
    pub(crate) level_known: bool,
    /// Impedance in Ω.
    pub(crate) impedance: f64,
}

/// Radio modules: name, level and impedance.
fn radios(design: &Design) -> Vec<(&str, Option<Value>, Option<Value>)> {
    let panel = design.control.iter().flat_map(|control| &control.parts);
    let panel = panel
        .filter(|used| used.part.kind.value == ControlKind::Radio)
        .map(|used| {
            let electric = &used.part.electric;
            let name = used.part.common.name.text.as_str();
            (name, electric.output_level, electric.output_impedance)
        });
    let inside = design
        .modules
        .iter()
        .filter(|used| used.part.kind.value == ModuleKind::Radio)
        .map(|used| {
            let part = &used.part;
            let name = part.common.name.text.as_str();
            (name, part.output_level, part.output_impedance)
        });
    panel.chain(inside).collect()
}

/// The level of the first radio module that states one.
pub(crate) fn radio_level(design: &Design) -> Option<Value> {
    radios(design).into_iter().find_map(|(_, level, _)| level)
}

/// Whether something is plugged in.
fn has_jack(design: &Design) -> bool {
    let parts = design.control.iter().flat_map(|control| &control.parts);
    parts.into_iter().any(|used| match used.does {
        Some(does) => does.value == Does::Input,
        None => used.part.kind.value == ControlKind::Jack,
    })
}

/// All sources, what is plugged in first; `level` in V rms is that of a source
/// nobody states one for.
pub(crate) fn sources(design: &Design, level: f64) -> Vec<Source> {
    let radios = radios(design);
    let mut all = Vec::new();
    if radios.is_empty() || has_jack(design) {
        all.push(Source {
            name: "what is plugged in".into(),
            level,
            level_known: design.source.level.is_some(),
            impedance: PHONE,
        });
    }
    all.extend(radios.into_iter().map(|(name, own, impedance)| Source {
        name: name.into(),
        level: own.map_or(level, |value| value.si),
        level_known: own.is_some(),
        impedance: impedance.map_or(RADIO, |value| value.si),
    }));
    all
}
