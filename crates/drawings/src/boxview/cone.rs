//! The front of a driver or radiator as seen: surround, cone and cap on its frame.

use super::model::Model;
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Drawing, Stroke, Style, pen};
use crate::view::{Eye, Place, ring};
use studies::carpentry::{Carpentry, PartKind, PlacedPart};
use wood::Solid;
use wood::vector::{Vector, add, dot, scale, sub, unit};

/// Colours from the outside inwards, how opaque, and radii as shares of the hole's.
const DISCS: [(Role, f64, f64); 3] = [
    (Role::MetalDark, 0.6, 0.98),
    (Role::Metal, 1.0, 0.78),
    (Role::MetalDark, 0.6, 0.3),
];
/// Seen from farther aside than this cosine there is nothing to tell apart.
const ASIDE: f64 = 0.1;
/// What lies before the frame by more than this, in m, covers it.
const BEFORE: f64 = 1e-4;

/// Draws the fronts that nothing covers on a scene that was drawn.
pub(super) fn draw(
    carpentry: &Carpentry,
    model: &Model,
    eye: &Eye,
    place: &Place,
    out: &mut Drawing,
) {
    for (part, things) in carpentry.parts.iter().zip(&model.parts) {
        let Some((way, hole, frame)) = front(part) else {
            continue;
        };
        if dot(way, eye.near) < ASIDE {
            continue;
        }
        // A scene may have moved the part: its frame is found there.
        let own = model.scene.facets.iter();
        let faces = own.filter(|f| things.contains(&f.thing) && dot(f.normal, way) > 0.999);
        let corners = faces.filter_map(|face| face.loops.first());
        let foremost = corners.max_by(|a, b| dot(a[0], way).total_cmp(&dot(b[0], way)));
        let Some(corners) = foremost else { continue };
        let sum = corners.iter().fold([0.0; 3], |sum, p| add(sum, *p));
        let middle = scale(sum, 1.0 / corners.len() as f64);
        let rim = ring(add(middle, scale(way, BEFORE)), way, 0.98 * frame);
        if !model.scene.all_open(&rim, eye) {
            continue;
        }
        for (role, opaque, share) in DISCS {
            let seen = ring(middle, way, share * hole).into_iter().map(|p| {
                let [x, y, _] = eye.see(p);
                place.at([x, y])
            });
            let edge = Stroke::new(Role::Ink, pen::FINE);
            let path = Path::polygon(&seen.collect::<Vec<_>>());
            out.path(path, Style::washed(role, opaque).edged(edge));
        }
    }
}

/// Where a part with a cone looks, and the radii of the hole behind its frame and of the frame.
fn front(part: &PlacedPart) -> Option<(Vector, f64, f64)> {
    if !matches!(part.kind, PartKind::Driver | PartKind::Radiator) {
        return None;
    }
    let (frame, behind) = part.part.shape.solids.split_first()?;
    let Solid::Frustum {
        from,
        to,
        from_radius,
        ..
    } = frame
    else {
        return None;
    };
    let widest = behind.iter().map(|solid| match solid {
        Solid::Frustum {
            from_radius,
            to_radius,
            ..
        } => from_radius.max(*to_radius),
        Solid::Hull(_) => 0.0,
    });
    let hole = widest.fold(0.0, f64::max);
    let way = part.part.pose.turn.map(|row| dot(row, sub(*from, *to)));
    (hole > 0.0).then(|| (unit(way), hole, *from_radius))
}
