//! The layers of the finish and how much of each.

use super::holds::{is_film, shared, wants_cured};
use super::model::{Cans, FaceArea, Layer};
use crate::carpentry::wall;
use design::{Design, FinishKind, FinishUse, Tolerance};
use wood::Wall;

/// Share of what leaves the can that does not end on the wood: in brush, roller and tray, and
/// as mist beside the box. Common practice, no source.
const LOST: f64 = 0.15;
const LOST_AS_MIST: f64 = 0.4;
/// By what share an area covered may differ either way where the shelf does not say: how much
/// wood drinks, how thick a hand paints. Common practice, no source.
const COVERAGE: f64 = 0.25;
/// Hands-on time of one coat and of sanding between coats: so many s to begin with and to clean
/// up, and s per m². Common practice, no source.
const BEGIN: f64 = 600.0;
const PER_AREA: f64 = 1200.0;
const SAND_BEGIN: f64 = 300.0;
const SAND_PER_AREA: f64 = 900.0;
/// Time after which a film has set so hard that the next coat wants it sanded, in s: a day, as
/// most cans say. Common practice, no source.
const WINDOW: f64 = 86_400.0;

/// The layers of a design in order.
pub(super) fn layers(design: &Design, faces: &[FaceArea]) -> Vec<Layer> {
    let said = &design.finishes;
    said.iter()
        .enumerate()
        .map(|(index, used)| {
            let over = said[index + 1..].iter().find(|over| shared(used, over));
            layer(used, over, faces)
        })
        .collect()
}

fn layer(used: &FinishUse, next: Option<&FinishUse>, faces: &[FaceArea]) -> Layer {
    let part = &used.part;
    let on: Vec<Wall> = if used.on.is_empty() {
        Wall::ALL.into()
    } else {
        used.on.iter().map(|side| wall(*side)).collect()
    };
    let seen = faces.iter().filter(|face| on.contains(&face.wall));
    let area: f64 = seen.map(|face| face.area).sum();
    let coats = used.coats.unwrap_or(part.coats).max(1);
    let lost = if part.sprayed.value {
        LOST_AS_MIST
    } else {
        LOST
    };
    let taken = |coverage: f64| f64::from(coats) * area / coverage / (1.0 - lost);
    let coverage = part.coverage.si;
    let half = match part.coverage.tolerance {
        Tolerance::Within(half) => half.min(0.9 * coverage),
        Tolerance::Unstated | Tolerance::About => COVERAGE * coverage,
    };
    let cure = part.cure.si;
    let recoat = part.recoat.si;
    Layer {
        name: part.common.name.text.clone(),
        kind: part.kind.value,
        base: part.base.value,
        coats,
        on,
        area,
        volume: taken(coverage),
        volume_band: (taken(coverage + half), taken(coverage - half)),
        wet_thickness: f64::from(coats) / coverage,
        touch_dry: part.touch_dry.si,
        recoat,
        window: window(part.kind.value, recoat),
        before_next: match next {
            Some(next) if wants_cured(used, next) => cure,
            _ => recoat,
        },
        cure,
        sand: part.sand,
        sprayed: part.sprayed.value,
        self_heating: part.self_heating.value,
        coat_time: BEGIN + PER_AREA * area,
        sand_time: SAND_BEGIN + SAND_PER_AREA * area,
    }
}

/// Shellac is dissolved by its next coat, and what soaks in makes no film to hold on.
fn window(kind: FinishKind, recoat: f64) -> f64 {
    if is_film(kind) && kind != FinishKind::Shellac {
        WINDOW.max(recoat)
    } else {
        f64::INFINITY
    }
}

/// The cans that takes, layers of one name from the same cans.
pub(super) fn cans(design: &Design, layers: &[Layer]) -> Vec<Cans> {
    let mut out: Vec<Cans> = Vec::new();
    for (used, layer) in design.finishes.iter().zip(layers) {
        let part = &used.part;
        let cans = match out.iter_mut().position(|cans| cans.name == layer.name) {
            Some(known) => &mut out[known],
            None => {
                out.push(Cans {
                    name: layer.name.clone(),
                    size: part.can.si,
                    volume: 0.0,
                    band: (0.0, 0.0),
                    wanted: 0,
                    to_buy: 0,
                });
                out.last_mut().expect("one was just put in")
            }
        };
        cans.volume += layer.volume;
        cans.band.0 += layer.volume_band.0;
        cans.band.1 += layer.volume_band.1;
        cans.wanted = whole(cans.band.1 / cans.size);
        cans.to_buy = cans.wanted.saturating_sub(part.common.on_hand);
    }
    out
}

/// Whole cans; a hair over a full one is still that one.
fn whole(cans: f64) -> u32 {
    (cans - 1e-9).ceil().max(0.0) as u32
}

/// What all layers weigh while wet, in kg, by the weight of full cans.
pub(super) fn wet_weight(design: &Design, layers: &[Layer]) -> Option<f64> {
    let each = design.finishes.iter().zip(layers).map(|(used, layer)| {
        let part = &used.part;
        let density = part.common.weight?.si / part.can.si;
        Some(density * layer.wet_thickness * layer.area)
    });
    each.sum()
}
