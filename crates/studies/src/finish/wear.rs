//! What can hurt in finishing, and in what air it is done.

use super::holds::is_film;
use super::model::Layer;
use design::{Design, FinishBase, FinishKind, Stands};

const RAGS: &str = "Oily rags heat up by themselves and take fire, hours later: spread each one \
singly out of doors to dry hard, or lay it under water in a closed metal tin; never in a heap, a \
pocket or a bin. The same for sponges, paper and sanding dust with oil in it.";
const SPRAY: &str = "Spray out of doors, or where air is drawn off, with a mask for vapour and \
particles (a dust mask holds no vapour back), gloves and glasses. No flame, heater, pilot light or \
spark within ten metres: mist and vapour burn and explode.";
const SOLVENT: &str = "Vapour of solvent and alcohol is heavier than air, burns and makes ill: open \
windows on two sides, no flame, no pilot light, nothing that sparks; gloves that stand it.";
const DUST: &str = "Wood dust harms lungs, and that of hardwood can cause cancer: draw it off at \
the tool, wear a mask of class P2 or better, vacuum rather than sweep.";
const CURING: &str = "Keep battery and switches out of the box until the finish has cured: vapour \
gathers in a closed box, and the spark of a switch can light it.";
const CANS: &str = "What stands on the can and in its data sheet comes first, and local rules for \
left-overs: not into the drain.";

/// What applies to these layers; nothing where the box is left raw.
pub(super) fn cautions(layers: &[Layer]) -> Vec<&'static str> {
    let any = |holds: fn(&Layer) -> bool| layers.iter().any(holds);
    let volatile = |layer: &Layer| {
        matches!(layer.base, FinishBase::Solvent | FinishBase::Alcohol) && !layer.sprayed
    };
    [
        (any(|layer| layer.self_heating), RAGS),
        (any(|layer| layer.sprayed), SPRAY),
        (any(volatile), SOLVENT),
        (any(|layer| layer.base != FinishBase::Water), CURING),
        (!layers.is_empty(), DUST),
        (!layers.is_empty(), CANS),
    ]
    .into_iter()
    .filter_map(|(applies, said)| applies.then_some(said))
    .collect()
}

const TIMES: &str = "The times hold at about 20 °C in half-dry moving air. The design does not say \
how warm the workshop is: when it is cooler or damper, wait longer, and try a finger nail on an edge \
nobody sees. Common practice, no source.";
const COLD: &str = "Below 10 °C, or on wood colder than that, leave water-based cans closed: they dry \
without making a film.";
const DAMP: &str =
    "Above 70 % humidity shellac and sprayed lacquer turn white: wait for a dry day.";
const HOT: &str = "Above 30 °C, in the sun or on warm wood a film skins before it has run smooth.";
const SLOW: &str =
    "In cold and dark air oil stays sticky for weeks: thin, wiped dry, warm and airy.";

/// In what air the times hold.
pub(super) fn air(layers: &[Layer]) -> Vec<&'static str> {
    let any = |holds: fn(&Layer) -> bool| layers.iter().any(holds);
    let oil = |layer: &Layer| matches!(layer.kind, FinishKind::Oil | FinishKind::HardWaxOil);
    let blushes = |layer: &Layer| layer.kind == FinishKind::Shellac || layer.sprayed;
    [
        (!layers.is_empty(), TIMES),
        (
            any(|layer| layer.base == FinishBase::Water && is_film(layer.kind)),
            COLD,
        ),
        (any(blushes), DAMP),
        (any(|layer| is_film(layer.kind)), HOT),
        (any(oil), SLOW),
    ]
    .into_iter()
    .filter_map(|(applies, said)| applies.then_some(said))
    .collect()
}

/// What it means that nothing goes on; `None` where something does.
pub(super) fn raw(design: &Design) -> Option<&'static str> {
    if !design.finishes.is_empty() {
        return None;
    }
    Some(match design.place.stands.value {
        Stands::Indoors => {
            "The design names no finish, so the box is left raw: hands and cups leave marks that do \
             not wash off, and the wood moves with the air of the seasons. One coat of oil or \
             lacquer is enough indoors."
        }
        Stands::Free | Stands::Ground | Stands::Wall => {
            "The design names no finish, so the box is left raw out of doors: sun greys it within \
             a season, rain soaks in at cut edges first, plies part and fibreboard swells for good, \
             and mitres open. Name layers under [[finish]], or keep it dry and carry it in."
        }
    })
}
