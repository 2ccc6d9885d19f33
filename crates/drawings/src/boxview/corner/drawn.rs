//! A corner on the sheet.

use super::Corner;
use super::section::{SHOWN, contacts, outline, sides};
use crate::boxview::scale::mm;
use crate::geometry::{Point, Rect};
use crate::layout::SMALL;
use crate::math;
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Drawing, Group, Stroke, Style, Text, pen};
use crate::view::{Place, Side, hatch, side_of};
use wood::Wall;

/// Clear space outside the corner, mm.
const OUTSIDE: f64 = 8.0;
/// Between hatching lines, m.
const HATCH: f64 = 0.0018;
/// Clear space around a figure, mm.
const CLEAR: f64 = 0.7;
/// Between places tried for a figure, mm.
const STEP: f64 = 1.0;

impl Corner {
    /// Width and height of the drawing in mm.
    pub(crate) fn size(&self) -> (f64, f64) {
        let shown = 1000.0 * SHOWN;
        (self.leaning_out() + shown + 10.0, shown + 10.0)
    }

    /// How far the hanging panel reaches out to the left, mm.
    fn leaning_out(&self) -> f64 {
        (-math::cos(self.angle) * 1000.0 * SHOWN).max(0.0)
    }

    /// Draws it at full size, its outer corner near the top left of the area; each panel
    /// with its name.
    pub(crate) fn draw(&self, at: Point, name: impl Fn(Wall) -> &'static str, out: &mut Drawing) {
        let (w, h) = self.size();
        let place = Place {
            origin: at.moved(OUTSIDE + self.leaning_out(), OUTSIDE),
            scale: 1000.0,
        };
        let window = Rect::new(at.x, at.y, w, h).inset(1.0);
        let mut inner = Drawing::default();
        let roles = [Role::Wood, Role::WoodShade, Role::Tint];
        let parts = [&self.sections[0], &self.sections[1], &self.cleats];
        for ((loops, role), quarter) in parts.into_iter().zip(roles).zip([0.25, 0.75, 0.5]) {
            for l in loops {
                let points: Vec<Point> = l.iter().map(|p| place.at(*p)).collect();
                inner.path(Path::polygon(&points), Style::filled(role));
            }
            let fine = Stroke::new(Role::Muted, pen::HAIR);
            for [a, b] in hatch(loops, quarter * core::f64::consts::PI, HATCH) {
                inner.line(place.at(a), place.at(b), fine);
            }
        }
        for loops in parts {
            for [a, b] in outline(loops) {
                let edge = Stroke::new(Role::Ink, pen::BOLD);
                inner.line(place.at(a), place.at(b), edge);
            }
        }
        self.glue(&place, &mut inner);
        out.group(Group::Clip(window), inner);
        self.names(&place, window, name, out);
    }

    /// Where glue goes: nowhere on a wall that comes off again.
    fn glue(&self, place: &Place, out: &mut Drawing) {
        let [first, second] = [self.edges[0].first, self.edges[0].second];
        let fixed = |wall: Wall| self.loose != Some(wall);
        let [a, b] = &self.sections;
        let joints = [
            (a, b, fixed(first) && fixed(second)),
            (a, &self.cleats, fixed(first)),
            (b, &self.cleats, fixed(second)),
        ];
        let glue = Stroke::new(Role::Accent, pen::FRAME);
        for (one, other, glued) in joints {
            for [p, q] in contacts(one, other) {
                if glued {
                    out.line(place.at(p), place.at(q), glue);
                }
            }
        }
    }

    /// Name and thickness of either panel, where nothing is drawn: beside it, nearest to
    /// its middle.
    fn names(
        &self,
        place: &Place,
        window: Rect,
        name: impl Fn(Wall) -> &'static str,
        out: &mut Drawing,
    ) {
        let mut taken: Vec<Rect> = Vec::new();
        let walls = [self.edges[0].first, self.edges[0].second];
        let far = 0.7 * SHOWN;
        let ends = [
            [far, 0.0],
            [far * math::cos(self.angle), -far * math::sin(self.angle)],
        ];
        for i in 0..2 {
            let said = format!("{} {} mm", name(walls[i]), mm(self.thick[i]));
            let (w, h) = (SMALL.width(&said), SMALL.size_mm);
            let wish = place.at(ends[i]);
            let free = |r: &Rect| {
                let room = r.inset(-CLEAR);
                window.contains(&room)
                    && taken.iter().all(|t| !t.overlaps(&room))
                    && self.is_clear(&room, place)
            };
            let steps = |long: f64, side: f64| {
                let count = ((long - side) / STEP).max(0.0) as usize;
                (0..=count).map(|k| STEP * k as f64)
            };
            let spots = steps(window.w, w)
                .flat_map(|x| steps(window.h, h).map(move |y| (x, y)))
                .map(|(x, y)| Rect::new(window.x + x, window.y + y, w, h));
            let best = spots.filter(free).min_by(|a, b| {
                let far = |r: &Rect| r.centre().distance(wish);
                far(a).total_cmp(&far(b))
            });
            if let Some(rect) = best {
                let at = Point::new(rect.x, rect.centre().y);
                out.text(Text::new(at, &said, SMALL).centred());
                taken.push(rect);
            }
        }
    }

    /// Whether no wood lies in a rectangle on the sheet.
    fn is_clear(&self, room: &Rect, place: &Place) -> bool {
        let back = |p: Point| {
            [
                (p.x - place.origin.x) / place.scale,
                (place.origin.y - p.y) / place.scale,
            ]
        };
        let [a, b] = &self.sections;
        [a, b, &self.cleats].into_iter().all(|loops| {
            sides(loops).all(|(_, p, q)| room.clip(place.at(p), place.at(q)).is_none())
                && loops.iter().all(|l| {
                    side_of(core::slice::from_ref(l), back(room.centre())) == Side::Outside
                })
        })
    }
}
