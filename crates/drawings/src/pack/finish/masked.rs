//! What stays bare: a list, and every side that has some of it, small.

use crate::boxview::mm;
use crate::geometry::{Point, Rect};
use crate::layout::{Align, Block, Cell, Column, Heading, Piece, SMALL, Table};
use crate::math;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use studies::carpentry::Carpentry;
use studies::finish::{Bare, Finish, Mask};
use wood::{Outline, Panel, PanelHole, Wall};

pub(super) fn blocks(finish: &Finish, carpentry: &Carpentry) -> Vec<Box<dyn Block>> {
    if finish.masks.is_empty() {
        return Vec::new();
    }
    vec![
        Box::new(Heading::new(
            "Mask",
            "seen from outside; dark: stays bare, numbers as in the list",
        )),
        Box::new(Sides::new(finish, carpentry)),
        Box::new(list(finish)),
    ]
}

fn list(finish: &Finish) -> Table {
    let rows = finish.masks.iter().enumerate().map(|(index, mask)| {
        let rim = mask.bare.iter().map(|bare| bare.rim).fold(0.0, f64::max);
        let rim = match rim > 0.0 {
            true => format!(", {} mm around", mm(rim)),
            false => String::new(),
        };
        vec![
            Cell::from((index + 1).to_string()).strong(),
            Cell::from(studies::words::wall(mask.wall)),
            Cell::from(format!("{}{rim}", mask.what)),
            Cell::from(mask.how.as_str()),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Align::Left, 0.5),
            Column::new("side", Align::Left, 1.3),
            Column::new("what", Align::Left, 3.2),
            Column::new("how", Align::Left, 4.6),
        ],
        rows: rows.collect(),
    }
}

/// One side with its masks and their numbers.
struct Side {
    wall: Wall,
    panel: Panel,
    masks: Vec<(usize, Mask)>,
}

/// The sides that have something to mask.
struct Sides {
    sides: Vec<Side>,
}

/// Sides beside one another, what lies between them, and height of a name, mm.
const COLUMNS: usize = 3;
const GAP: f64 = 5.0;
const NAME: f64 = 4.6;
/// Largest height of a side, mm.
const TALL: f64 = 38.0;
/// Space around a side for numbers that find none in it.
const MARGIN: f64 = 3.0;

impl Sides {
    fn new(finish: &Finish, carpentry: &Carpentry) -> Self {
        let of = |wall: Wall| {
            let own = finish.masks.iter().enumerate();
            let own = own.filter(|(_, mask)| mask.wall == wall);
            let masks: Vec<(usize, Mask)> = own.map(|(i, mask)| (i + 1, mask.clone())).collect();
            (!masks.is_empty()).then(|| Side {
                wall,
                panel: carpentry.body.wall(wall).clone(),
                masks,
            })
        };
        Self {
            sides: Wall::ALL.into_iter().filter_map(of).collect(),
        }
    }

    /// Millimetres on paper of one metre, alike for all sides.
    fn scale(&self, width: f64) -> f64 {
        let fits = self.sides.iter().map(|side| {
            let [w, h] = side.panel.blank;
            ((width - 2.0 * MARGIN) / w).min(TALL / h)
        });
        fits.fold(f64::INFINITY, f64::min)
    }
}

impl Block for Sides {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let columns = self.sides.len().clamp(1, COLUMNS);
        let cell = (width - GAP * (columns - 1) as f64) / columns as f64;
        let scale = self.scale(cell);
        let rows = self.sides.chunks(columns).map(|some| {
            let tall = some
                .iter()
                .map(|side| side.panel.blank[1])
                .fold(0.0, f64::max);
            let mut drawing = Drawing::default();
            for (i, side) in some.iter().enumerate() {
                let x = (cell + GAP) * i as f64 + MARGIN;
                let y = NAME + scale * (tall - side.panel.blank[1]);
                drawing.append(drawn(side, Place { x, y, scale }));
            }
            Piece {
                height: NAME + scale * tall + 2.0,
                drawing,
                keep_with_next: true,
            }
        });
        rows.collect()
    }
}

/// From the panel's frame to the paper.
#[derive(Clone, Copy)]
struct Place {
    x: f64,
    y: f64,
    scale: f64,
}

impl Place {
    fn at(&self, panel: &Panel, [u, v]: [f64; 2]) -> Point {
        let up = panel.blank[1] - v;
        Point::new(self.x + self.scale * u, self.y + self.scale * up)
    }
}

fn drawn(side: &Side, place: Place) -> Drawing {
    let mut out = Drawing::default();
    let panel = &side.panel;
    let name = studies::words::wall(side.wall);
    let outline: Vec<Point> = panel
        .edges
        .iter()
        .map(|edge| place.at(panel, edge.outer[0]))
        .collect();
    let around = side.masks.iter().find(|(_, mask)| mask.around);
    let edge = match around {
        Some(_) => Stroke::new(Role::Ink, pen::BOLD).dashed(Dash::Short),
        None => Stroke::new(Role::Ink, pen::THIN),
    };
    out.polygon(&outline, Style::filled(Role::Wood).edged(edge));
    let [w, h] = panel.blank.map(|m| m * place.scale);
    let within = Rect::new(place.x, place.y, w, h);
    for each in side.masks.iter().flat_map(|(_, mask)| &mask.bare) {
        if let Some(hole) = panel.holes.get(each.hole) {
            let at = place.at(panel, hole.at);
            put(hole, each.rim, at, place.scale, within, &mut out);
        }
    }
    out.text(Text::new(Point::new(place.x, place.y - 1.6), name, SMALL));
    for (number, mask) in &side.masks {
        number_mask(*number, mask, panel, place, &mut out);
    }
    out
}

/// A hole, and the band around it that stays bare, as far as the side reaches.
fn put(hole: &PanelHole, rim: f64, at: Point, scale: f64, within: Rect, out: &mut Drawing) {
    let edge = Stroke::new(Role::Ink, pen::FINE);
    let style = Style::filled(Role::MetalDark).edged(edge);
    match hole.outline {
        Outline::Circle { diameter } => {
            let radius = ((diameter / 2.0 + rim) * scale).max(0.4);
            round(at, radius, within, style, out);
        }
        Outline::Rectangle { width, height, .. } => {
            let (w, h) = ((width + 2.0 * rim) * scale, (height + 2.0 * rim) * scale);
            let corner = |dx: f64, dy: f64| {
                let x = (at.x + dx * w / 2.0).clamp(within.x, within.right());
                let y = (at.y + dy * h / 2.0).clamp(within.y, within.bottom());
                Point::new(x, y)
            };
            let [low, high] = [corner(-1.0, -1.0), corner(1.0, 1.0)];
            let rect = Rect::new(low.x, low.y, high.x - low.x, high.y - low.y);
            out.rect(rect, style);
        }
    }
}

/// Sides of a circle that the edge of its side cuts off.
const SIDES: usize = 72;

/// A circle, as far as the side reaches.
fn round(at: Point, radius: f64, within: Rect, style: Style, out: &mut Drawing) {
    let whole = Rect::new(at.x - radius, at.y - radius, 2.0 * radius, 2.0 * radius);
    if within.contains(&whole) {
        out.circle(at, radius, style);
        return;
    }
    let kept = (0..SIDES).map(|i| {
        let turn = core::f64::consts::TAU * i as f64 / SIDES as f64;
        let (x, y) = (
            at.x + radius * math::cos(turn),
            at.y + radius * math::sin(turn),
        );
        Point::new(
            x.clamp(within.x, within.right()),
            y.clamp(within.y, within.bottom()),
        )
    });
    out.polygon(&kept.collect::<Vec<_>>(), style);
}

/// Puts the number of a mask beside the first of its holes that has room.
fn number_mask(number: usize, mask: &Mask, panel: &Panel, place: Place, out: &mut Drawing) {
    let text = number.to_string();
    let holes = mask.bare.iter().filter_map(|bare: &Bare| {
        let hole = panel.holes.get(bare.hole)?;
        let half = match hole.outline {
            Outline::Circle { diameter } => [diameter / 2.0; 2],
            Outline::Rectangle { width, height, .. } => [width / 2.0, height / 2.0],
        };
        Some((
            place.at(panel, hole.at),
            half.map(|m| (m + bare.rim) * place.scale),
        ))
    });
    for (at, [w, h]) in holes {
        for (dx, dy) in [(1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (0.8, 0.8)] {
            let beside = at.moved(dx * (w + 1.8), dy * (h + 1.8));
            let label = Text::new(beside, &text, SMALL).anchored(Anchor::Middle);
            if out.text_where_clear(label.centred()) {
                return;
            }
        }
    }
    let [w, _] = panel.blank;
    let at = Point::new(place.x + place.scale * w, place.y - 1.6);
    out.text_where_clear(Text::new(at, &text, SMALL).anchored(Anchor::End));
}
