//! Sanding of the bare wood.

use super::model::{Grit, Layer, Wood};
use design::{FinishKind, Species};

/// Rounds of paper, each finer than the one before it by less than a factor of two, so that it
/// takes out the scratches of that one: common practice, no source.
const ROUNDS: [u32; 4] = [120, 150, 180, 240];
/// Hands-on time of one round: so many s to begin with, and s per m²; common practice, no
/// source.
const BEGIN: f64 = 300.0;
const PER_AREA: f64 = 1800.0;

/// The last grit a first layer wants under it: colour must still get in, oil shows every
/// scratch, a thick film hides them. Common practice, no source.
const fn last(kind: FinishKind) -> u32 {
    match kind {
        FinishKind::Stain | FinishKind::Primer | FinishKind::Paint => 180,
        FinishKind::Oil
        | FinishKind::HardWaxOil
        | FinishKind::Wax
        | FinishKind::Shellac
        | FinishKind::Lacquer => 240,
    }
}

/// Rounds of sanding before the first layer; none where nothing goes on.
pub(super) fn steps(layers: &[Layer], woods: &[Wood]) -> Vec<Grit> {
    let Some(first) = layers.first() else {
        return Vec::new();
    };
    let veneered = woods.iter().any(|wood| {
        let species = wood.species;
        !matches!(species, Some(Species::Fibreboard | Species::Chipboard))
    });
    let until = last(first.kind);
    let time = BEGIN + PER_AREA * first.area;
    let rounds = ROUNDS.into_iter().filter(|grit| *grit <= until);
    rounds
        .map(|grit| Grit {
            grit,
            words: words(grit, until, veneered),
            time,
        })
        .collect()
}

fn words(grit: u32, until: u32, veneered: bool) -> String {
    let mut said = match grit {
        120 => "glue spots, pencil and saw marks off; a wet wipe shows glue as light spots".into(),
        grit if grit == until => {
            "along the grain; wipe damp, let it dry, and take the raised fibres off".to_owned()
        }
        _ => "along the grain until the scratches of the paper before are gone".to_owned(),
    };
    if veneered && grit == 120 {
        said.push_str("; go easy: the face veneer of plywood is about a millimetre");
    }
    said
}
