//! The layers of the finish: how much of each, and whether one holds on another.

use super::model::{FaceArea, Layer};
use crate::carpentry::wall;
use design::{Design, FinishBase, FinishKind, FinishUse};
use wood::Wall;

/// Share of what leaves the can that does not end on the wood: in brush, roller and tray, and
/// as mist beside the box. Common practice, no source.
const LOST: f64 = 0.15;
const LOST_AS_MIST: f64 = 0.4;
/// Hands-on time of one coat and of sanding between coats: so many s to begin with and to clean
/// up, and s per m². Common practice, no source.
const BEGIN: f64 = 600.0;
const PER_AREA: f64 = 1200.0;
const SAND_BEGIN: f64 = 300.0;
const SAND_PER_AREA: f64 = 900.0;

/// The layers of a design in order.
pub(super) fn layers(design: &Design, faces: &[FaceArea]) -> Vec<Layer> {
    let said = &design.finishes;
    said.iter()
        .enumerate()
        .map(|(index, used)| layer(used, said.get(index + 1), faces))
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
    let volume = f64::from(coats) * area / part.coverage.si / (1.0 - lost);
    let cans = (volume / part.can.si - 1e-9).ceil().max(0.0) as u32;
    let cure = part.cure.si;
    Layer {
        name: part.common.name.text.clone(),
        kind: part.kind.value,
        base: part.base.value,
        coats,
        on,
        area,
        volume,
        cans,
        to_buy: cans.saturating_sub(part.common.on_hand),
        touch_dry: part.touch_dry.si,
        recoat: part.recoat.si,
        before_next: match next {
            Some(next) if wants_cured(used, next) => cure,
            _ => part.recoat.si,
        },
        cure,
        sand: part.sand,
        sprayed: part.sprayed.value,
        self_heating: part.self_heating.value,
        coat_time: BEGIN + PER_AREA * area,
        sand_time: part.sand.map_or(0.0, |_| SAND_BEGIN + SAND_PER_AREA * area),
    }
}

/// Whether the lower layer must have cured, not only dried, before the upper one holds: oil
/// under anything that is no oil.
fn wants_cured(lower: &FinishUse, upper: &FinishUse) -> bool {
    let oily = |used: &FinishUse| {
        used.part.base.value == FinishBase::Oil
            || matches!(
                used.part.kind.value,
                FinishKind::Oil | FinishKind::HardWaxOil
            )
    };
    oily(lower) && !oily(upper)
}

/// What is wrong between two layers that share a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// Nothing holds on wax.
    OnWax,
    /// Oil and stain soak in, which a film lets none of.
    OnFilm,
    /// A film on oil holds only once that has cured, and not at all on hard wax.
    OnHardWax,
    /// Solvent lifts what was painted with oil or on a base that it dissolves.
    Lifts,
    /// A ground or a colour that nothing protects.
    Unprotected,
}

/// What is wrong between the layers of a design: index of the lower one, or of one that lies
/// bare, and of the upper one.
pub(crate) fn troubles(design: &Design) -> Vec<(usize, usize, Trouble)> {
    let said = &design.finishes;
    let mut out = Vec::new();
    for (lower, under) in said.iter().enumerate() {
        let next = said
            .iter()
            .enumerate()
            .skip(lower + 1)
            .find(|(_, over)| share(under, over));
        match next {
            Some((upper, over)) => {
                if let Some(trouble) = between(under, over) {
                    out.push((lower, upper, trouble));
                }
            }
            None if matches!(
                under.part.kind.value,
                FinishKind::Primer | FinishKind::Stain
            ) =>
            {
                out.push((lower, lower, Trouble::Unprotected));
            }
            None => {}
        }
    }
    out
}

/// Whether two layers go on a common face.
fn share(a: &FinishUse, b: &FinishUse) -> bool {
    a.on.is_empty() || b.on.is_empty() || a.on.iter().any(|side| b.on.contains(side))
}

/// What is wrong with one layer right on another; common practice, no source.
fn between(under: &FinishUse, over: &FinishUse) -> Option<Trouble> {
    use FinishBase as Base;
    use FinishKind as Kind;
    let (lower, upper) = (under.part.kind.value, over.part.kind.value);
    let (base, by) = (under.part.base.value, over.part.base.value);
    if under.part.common.name.text == over.part.common.name.text || upper == Kind::Wax {
        return None;
    }
    if lower == Kind::Wax {
        return Some(Trouble::OnWax);
    }
    let film = matches!(
        lower,
        Kind::Lacquer | Kind::Shellac | Kind::Paint | Kind::Primer
    );
    if film && matches!(upper, Kind::Oil | Kind::HardWaxOil | Kind::Stain) {
        return Some(Trouble::OnFilm);
    }
    let makes_film = matches!(
        upper,
        Kind::Lacquer | Kind::Shellac | Kind::Paint | Kind::Primer
    );
    if lower == Kind::HardWaxOil && makes_film {
        return Some(Trouble::OnHardWax);
    }
    let dissolved = base == Base::Oil || (lower == Kind::Shellac && base == Base::Alcohol);
    (film && dissolved && by == Base::Solvent).then_some(Trouble::Lifts)
}

/// The test on an offcut, in words.
pub(super) fn offcut(layers: &[Layer]) -> Vec<String> {
    let Some(last) = layers.last() else {
        return Vec::new();
    };
    let names: Vec<String> = layers
        .iter()
        .map(|layer| match layer.coats {
            1 => layer.name.clone(),
            coats => format!("{coats} coats of {}", layer.name),
        })
        .collect();
    vec![
        format!(
            "On an offcut of the same sheet, sanded alike, with a smear of the glue wiped off as \
you would on the box and one sawn edge: {}, each after the times of its tin.",
            names.join(", then ")
        ),
        format!(
            "When {} has cured, look at it in daylight: colour, blotches, light spots where the \
glue was, runs, raised fibres.",
            last.name
        ),
        "Cut a small grid through the layers with a sharp knife, press tape on it and tear it off: \
what comes off on the tape does not hold, and would not on the box."
            .to_owned(),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use design::{Choice, FinishPart};

    fn used(kind: FinishKind, base: FinishBase) -> FinishUse {
        let design = include_str!("../../../../examples/bathing-beach/design.toml");
        let project = design::read(design, None).expect("a sound design");
        let part = project.shelf.finishes.first().expect("a finish").clone();
        let place = project.design.name.place;
        let mut part = FinishPart {
            kind: Choice::unsaid(kind),
            base: Choice::unsaid(base),
            ..part
        };
        part.common.name.text = format!("{kind:?} {base:?}");
        FinishUse {
            part,
            place,
            coats: None,
            on: Vec::new(),
        }
    }

    #[test]
    fn layers_that_hold_and_layers_that_do_not() {
        use FinishBase::{Alcohol, Oil, Solvent, Water};
        use FinishKind as Kind;
        for (lower, upper, trouble) in [
            ((Kind::Stain, Water), (Kind::Lacquer, Water), None),
            ((Kind::Primer, Water), (Kind::Paint, Water), None),
            ((Kind::Shellac, Alcohol), (Kind::Lacquer, Water), None),
            ((Kind::Oil, Oil), (Kind::Wax, Solvent), None),
            ((Kind::Oil, Oil), (Kind::Lacquer, Water), None),
            (
                (Kind::Wax, Solvent),
                (Kind::Lacquer, Water),
                Some(Trouble::OnWax),
            ),
            (
                (Kind::Lacquer, Water),
                (Kind::Oil, Oil),
                Some(Trouble::OnFilm),
            ),
            (
                (Kind::Paint, Water),
                (Kind::Stain, Water),
                Some(Trouble::OnFilm),
            ),
            (
                (Kind::HardWaxOil, Oil),
                (Kind::Lacquer, Water),
                Some(Trouble::OnHardWax),
            ),
            (
                (Kind::Paint, Oil),
                (Kind::Lacquer, Solvent),
                Some(Trouble::Lifts),
            ),
        ] {
            let found = between(&used(lower.0, lower.1), &used(upper.0, upper.1));
            assert_eq!(found, trouble, "{lower:?} under {upper:?}");
        }
    }

    #[test]
    fn oil_under_a_film_wants_to_cure() {
        let oil = used(FinishKind::Oil, FinishBase::Oil);
        let lacquer = used(FinishKind::Lacquer, FinishBase::Water);
        assert!(wants_cured(&oil, &lacquer));
        assert!(!wants_cured(&lacquer, &oil));
    }
}
