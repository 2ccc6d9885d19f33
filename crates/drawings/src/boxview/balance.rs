//! Where the weight acts: a small view from the side.

use super::model::Model;
use super::scale::mm;
use crate::geometry::{Point, Rect};
use crate::layout::SMALL;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use crate::view::{Eye, Flat, Place};
use studies::carpentry::{Carpentry, PartKind};

/// The box from the right with its centre of mass; gives the height used.
pub(crate) fn balance(carpentry: &Carpentry, area: Rect) -> (Drawing, f64) {
    let model = Model::new(carpentry, &[]);
    let mut out = Drawing::default();
    let eye = Eye::RIGHT;
    let Some(bounds) = model.scene.bounds(&eye) else {
        return (out, 0.0);
    };
    let (w, h) = (
        bounds.high[0] - bounds.low[0],
        bounds.high[1] - bounds.low[1],
    );
    let scale = ((area.w - 30.0) / w).min((area.h - 12.0) / h);
    let origin = Point::new(
        area.x + 12.0 - bounds.low[0] * scale,
        area.y + 2.0 + bounds.high[1] * scale,
    );
    let place = Place { origin, scale };
    model.scene.seen(&eye).draw(&model.scene, &place, &mut out);
    let [_, y, z] = carpentry.balance.centre;
    let at = place.at([y, z]);
    let foot = place.at([y, bounds.low[1]]);
    let line = Stroke::new(Role::Accent, pen::FINE).dashed(Dash::Centre);
    out.line(at, foot.moved(0.0, 2.5), line);
    let left = place.at([bounds.low[0], z]);
    out.line(at, left.moved(-2.0, 0.0), line);
    mark(at, &mut out);
    let under = foot.moved(0.0, 3.0 + SMALL.cap_height());
    out.text(Text::new(under, &mm(y), SMALL).anchored(Anchor::Middle));
    let beside = left.moved(-2.6, 0.0);
    out.text(
        Text::new(beside, &mm(z), SMALL)
            .anchored(Anchor::End)
            .centred(),
    );
    hanging(carpentry, &place, &mut out);
    (out, h * scale + 4.0 + 2.0 * SMALL.size_mm)
}

/// The usual sign: a disc in quarters.
fn mark(at: Point, out: &mut Drawing) {
    const R: f64 = 1.8;
    let edge = Stroke::new(Role::Ink, pen::THIN);
    out.circle(at, R, Style::filled(Role::Paper).edged(edge));
    let quarter = core::f64::consts::FRAC_PI_2;
    for from in [(R, 0.0), (-R, 0.0)] {
        let path = crate::path::Path::default()
            .move_to(at)
            .line_to(at.moved(from.0, from.1))
            .arc(at, -quarter)
            .close();
        out.path(path, Style::filled(Role::Ink));
    }
}

/// A line from the handle to the centre of mass.
fn hanging(carpentry: &Carpentry, place: &Place, out: &mut Drawing) {
    let handles = carpentry
        .parts
        .iter()
        .filter(|p| p.kind == PartKind::Handle);
    for handle in handles {
        let [_, y, z] = handle.part.pose.at;
        let [_, cy, cz] = carpentry.balance.centre;
        let ends: [Flat; 2] = [[y, z], [cy, cz]];
        let line = Stroke::new(Role::Second, pen::THIN);
        out.line(place.at(ends[0]), place.at(ends[1]), line);
    }
}
