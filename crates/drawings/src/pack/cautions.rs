//! What can hurt and what no check judges, said on every pack; lithium,
//! lead-acid and hearing have checks of their own. Local codes and licensed
//! practice come first.

use design::{Chemistry, Project};

const ALWAYS: [&str; 3] = [
    "Fuse: at the battery, rated for direct current, not above what the thinnest wire behind it may carry.",
    "Mains: an approved charger outside the box, nothing at mains voltage inside it.",
    "Rules for selling what you built are not looked at here. Local codes and licensed practice come first.",
];

const NICKEL: &str = "NiMH: a charger made for this chemistry and number of cells; packs get hot \
     when overcharged.";

/// The cautions that apply to a design.
pub(crate) fn cautions(project: &Project) -> Vec<&'static str> {
    let nickel = project.design.battery.part.chemistry.value == Chemistry::NickelMetalHydride;
    nickel.then_some(NICKEL).into_iter().chain(ALWAYS).collect()
}
