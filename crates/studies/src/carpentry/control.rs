//! Parts of the control panel: their holes, and their outlines behind and before it.

use design::{ControlPart, ControlUse, Size};
use wood::{ControlOutline, Outline};

/// Medium clearance holes for metric threads, nominal and hole in mm (`iso-273`).
const MEDIUM: [(f64, f64); 8] = [
    (2.0, 2.4),
    (2.5, 2.9),
    (3.0, 3.4),
    (3.5, 3.9),
    (4.0, 4.5),
    (5.0, 5.5),
    (6.0, 6.6),
    (8.0, 9.0),
];

/// Play of a bush in its hole where its thread is not in the table, in m: common practice, no source.
const PLAY: f64 = 0.000_5;

/// Height of a knob in front of its panel in m: common practice, no source.
const KNOB_HEIGHT: f64 = 0.015;

/// Diameter of a hole nobody gave a measure for, in m: common practice, no source.
const UNKNOWN: f64 = 0.008;

/// The medium clearance hole of a metric thread in m, where the table has it.
pub(crate) fn clearance(thread: f64) -> Option<f64> {
    let same = |row: &&(f64, f64)| (row.0 - 1e3 * thread).abs() < 0.01;
    MEDIUM.iter().find(same).map(|(_, hole)| hole / 1e3)
}

/// The hole of a part and why it is that large.
pub(crate) fn hole(part: &ControlPart) -> (Outline, String) {
    if let Some([width, height]) = part.cutout {
        let outline = Outline::Rectangle {
            width: width.si,
            height: height.si,
            corner: 0.0,
        };
        return (outline, "the part's data".into());
    }
    let round = |diameter| Outline::Circle { diameter };
    if let Some(hole) = part.hole {
        return (round(hole.si), "the part's data".into());
    }
    let Some(thread) = part.thread else {
        return (round(UNKNOWN), "not stated: measure the part".into());
    };
    let name = crate::words::stated(1e3 * thread.si, "");
    clearance(thread.si).map_or_else(
        || {
            let words = format!("M{} and 0.5 mm of play", name.trim());
            (round(thread.si + PLAY), words)
        },
        |hole| (round(hole), format!("ISO 273 medium for M{}", name.trim())),
    )
}

/// Width and height of the hole in m.
pub(crate) const fn hole_size(outline: Outline) -> [f64; 2] {
    match outline {
        Outline::Circle { diameter } => [diameter, diameter],
        Outline::Rectangle { width, height, .. } => [width, height],
    }
}

/// Diameter of what lies in front of the panel, in m: knob, nut or flange.
pub(crate) fn front(part: &ControlPart) -> f64 {
    let [width, height] = hole_size(hole(part).0);
    let own = part.knob.or(part.nut).map_or(0.0, |value| value.si);
    own.max(width).max(height)
}

/// How far knob, lever or button stands in front of the panel in m, where it has one.
pub(crate) fn knob_height(part: &ControlPart) -> Option<f64> {
    let usual = part.knob.map(|_| KNOB_HEIGHT);
    part.knob_height.map(|value| value.si).or(usual)
}

/// Width, height and depth of the body behind, in m.
pub(crate) fn body(part: &ControlPart) -> [f64; 3] {
    let of = |size: &Size| [size.width.si, size.height.si, size.depth.si];
    part.body.as_ref().map_or_else(
        || {
            let [width, height] = hole_size(hole(part).0);
            [width, height, 0.0]
        },
        of,
    )
}

/// The solid of a part in a plate of some thickness.
pub(super) fn outline(used: &ControlUse, plate: f64) -> ControlOutline {
    let part = &used.part;
    let [width, height] = hole_size(hole(part).0);
    let stands = knob_height(part).unwrap_or_else(|| part.nut_height.map_or(0.0, |value| value.si));
    ControlOutline {
        plate,
        hole: width.min(height),
        bush: part.bush.map_or(plate, |value| value.si),
        body: body(part),
        behind: part.behind.map_or(0.0, |value| value.si),
        knob: [front(part), stands],
        plug: part.plug.map_or(0.0, |value| value.si),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every row of the stored table (`iso-273`).
    #[test]
    fn clearance_holes_follow_the_standard() {
        let table = include_str!("../../../../reference/iso273_clearance.csv");
        let rows = table
            .lines()
            .filter(|line| line.starts_with('M'))
            .map(|line| line.split(',').collect::<Vec<_>>());
        let mut count = 0;
        for row in rows {
            let number = |text: &str| text.trim_start_matches('M').parse::<f64>().unwrap();
            let hole = clearance(number(row[0]) / 1e3).unwrap();
            assert!((1e3 * hole - number(row[2])).abs() < 1e-9, "{row:?}");
            count += 1;
        }
        assert_eq!(count, MEDIUM.len());
        assert!(clearance(0.007).is_none());
    }
}
