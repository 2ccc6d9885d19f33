//! What can hurt in finishing.

use super::model::Layer;
use design::FinishBase;

const RAGS: &str = "Rags with drying oil heat up by themselves and have set houses on fire: spread \
them singly out of doors to dry, or keep them under water in a closed metal tin; never in a heap \
or a bin.";
const SPRAY: &str = "Spray out of doors or where air is drawn off, with a mask for vapour and \
particles (a dust mask holds no vapour back), gloves and glasses. No flame, no heater, no spark: \
the mist burns.";
const SOLVENT: &str = "Solvent vapour is heavier than air, burns and makes ill: open windows on \
two sides, no flame or pilot light, nothing that sparks; gloves that stand the solvent.";
const DUST: &str = "Wood dust harms lungs, and that of hardwood can cause cancer: draw it off at \
the tool, wear a mask of class P2 or better, vacuum rather than sweep.";
const CURING: &str = "Keep battery and cells out of the box until the finish has cured: vapour \
gathers in a closed box, and a spark of a switch is enough.";

/// What applies to these layers; dust always does.
pub(super) fn cautions(layers: &[Layer]) -> Vec<&'static str> {
    let any = |holds: fn(&Layer) -> bool| layers.iter().any(holds);
    let volatile = |layer: &Layer| matches!(layer.base, FinishBase::Solvent | FinishBase::Alcohol);
    let mut said = Vec::new();
    if any(|layer| layer.self_heating) {
        said.push(RAGS);
    }
    if any(|layer| layer.sprayed) {
        said.push(SPRAY);
    }
    if any(volatile) {
        said.push(SOLVENT);
    }
    if any(|layer| layer.base != FinishBase::Water) {
        said.push(CURING);
    }
    said.push(DUST);
    said
}
