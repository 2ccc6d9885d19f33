//! The test on an offcut.

use super::holds::is_film;
use super::model::Layer;
use design::FinishKind;

/// The test in words.
pub(super) fn words(layers: &[Layer]) -> Vec<String> {
    let Some(last) = layers.last() else {
        return Vec::new();
    };
    let names: Vec<String> = layers.iter().map(said).collect();
    let mut out = vec![
        format!(
            "An offcut of the same sheet, 15 x 30 cm or larger: sand it as the box, smear glue on \
             a corner and wipe it off as on the box, leave one sawn edge. Then {}, each after \
             its time.",
            names.join(", then ")
        ),
        format!(
            "The day after the last coat, look at it in daylight: colour, blotches, light spots \
             where the glue was, runs, raised fibres, and how much more the sawn edge drinks. {} \
             hardens for {} yet, but what looks wrong now stays wrong.",
            capital(&last.name),
            days(last.cure)
        ),
    ];
    if is_film(last.kind) {
        out.push(
            "When it has cured, cut a small grid through all layers with a sharp knife, press tape \
             on it and tear it off: what comes off on the tape does not hold, and would not on \
             the box."
                .to_owned(),
        );
    } else {
        out.push(
            "Let a drop of water stand on it for ten minutes when it has cured: a dark or raised \
             spot wants another coat."
                .to_owned(),
        );
    }
    out
}

fn said(layer: &Layer) -> String {
    let thin = match layer.kind {
        FinishKind::Stain | FinishKind::Oil | FinishKind::HardWaxOil => ", wiped off,",
        _ => "",
    };
    match layer.coats {
        1 => format!("{}{thin}", layer.name).trim_end_matches(',').into(),
        coats => format!("{coats} coats of {}", layer.name),
    }
}

fn days(seconds: f64) -> String {
    let days = (seconds / 86_400.0).ceil();
    match days as u32 {
        0 | 1 => "a day".to_owned(),
        _ => format!("{days:.0} days"),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// How long before the first coat on the box to begin, in s: all coats, and a day to see it.
pub(super) fn wait(layers: &[Layer]) -> f64 {
    const SEEN: f64 = 86_400.0;
    if layers.is_empty() {
        return 0.0;
    }
    let coats = layers.iter().enumerate().map(|(index, layer)| {
        let own = f64::from(layer.coats - 1) * layer.recoat;
        let last = index + 1 == layers.len();
        own + if last { SEEN } else { layer.before_next }
    });
    coats.sum()
}
