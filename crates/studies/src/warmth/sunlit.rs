//! What share of the sunlight a finish takes up.

use design::{Design, FinishKind};

/// Share of sunlight that oiled, lacquered or bare wood takes up once it has
/// darkened, and that stained wood does; painted it depends on the colour, which
/// no design states: as if black. Fresh pale wood takes up less. Common practice,
/// no source.
const WOOD: f64 = 0.7;
const STAINED: f64 = 0.85;
const PAINTED: f64 = 0.95;

/// The share, and what it is taken as.
pub(super) fn taken_up(design: &Design) -> (f64, &'static str) {
    let has = |kinds: &[FinishKind]| {
        let each = design.finishes.iter();
        each.map(|used| used.part.kind.value)
            .any(|kind| kinds.contains(&kind))
    };
    if has(&[FinishKind::Paint, FinishKind::Primer]) {
        (PAINTED, "painted, taken as black")
    } else if has(&[FinishKind::Stain]) {
        (STAINED, "stained wood, taken as dark")
    } else {
        (WOOD, "wood that has darkened")
    }
}
