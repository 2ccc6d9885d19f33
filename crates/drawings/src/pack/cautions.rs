//! What can hurt, said wherever it applies. Local codes and licensed
//! practice come first. Limits of hearing: keys `who-itu-h870` and `niosh-1998`.

use design::{Chemistry, Project};

const ALWAYS: [&str; 3] = [
    "Hearing: 80 dB(A) is safe for 40 hours a week, 75 dB(A) for children; each 3 dB more halves the time.",
    "Fuse: at the battery, rated for direct current, not above what the thinnest wire behind it may carry.",
    "Mains: an approved charger outside the box, nothing at mains voltage inside. Local codes come first.",
];

const LITHIUM: &str = "Lithium: a protected pack of a known maker with its matched charger; no \
     salvaged cells, no opening or building of packs, no charging below 0 °C; stop using it if it \
     swells, smells or gets hot.";

const LEAD: &str = "Lead-acid: charging sets hydrogen free. Charge it outside the box, or in a bay \
     of its own that is open to the outside; no spark near it.";

const NICKEL: &str = "NiMH: a charger made for this chemistry and number of cells; packs get hot \
     when overcharged.";

/// The cautions that apply to a design.
pub(crate) fn cautions(project: &Project) -> Vec<&'static str> {
    let battery = match project.design.battery.part.chemistry.value {
        Chemistry::IronPhosphate | Chemistry::LithiumIon => LITHIUM,
        Chemistry::LeadAcid => LEAD,
        Chemistry::NickelMetalHydride => NICKEL,
    };
    std::iter::once(battery).chain(ALWAYS).collect()
}
