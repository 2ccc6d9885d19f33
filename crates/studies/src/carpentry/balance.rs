//! Weight, where it acts, and how the box hangs and stands.

use super::model::{Balance, PartKind, PlacedPart};
use super::plan::{Hull, PlanSubject, Seat, Sheets, fastenings::feet_at, wall};
use crate::vary::Draw;
use core::f64::consts::PI;
use design::Design;
use physics::math::{atan, atan2};
use wood::vector::{Vector, add, cross, dot, length, scale, sub};
use wood::{Body, PanelId, Shape, Solid, Wall};

/// Share of a driver's weight that is its magnet: common practice, no source.
const MAGNET: f64 = 0.7;

/// A weight in its place.
#[derive(Clone, Copy, Debug)]
struct Mass {
    kilograms: f64,
    at: Vector,
}

/// What the balance is drawn up from.
pub(super) struct Scales<'a> {
    pub(super) design: &'a Design,
    pub(super) plan: &'a PlanSubject,
    pub(super) hull: &'a Hull,
    pub(super) body: &'a Body,
    pub(super) seat: Option<Seat>,
    pub(super) parts: &'a [PlacedPart],
    /// Weight of the whole box in kg, of which what has no place here is spread evenly.
    pub(super) weight: f64,
}

/// The balance of the nominal build.
pub(super) fn balance(of: &Scales<'_>) -> Balance {
    let centre = centre(of);
    let handle = of.design.handle.as_ref().map(|said| wall(said.on.value));
    let level = handle.map(|on| of.hull.block.frame(on).flat(centre));
    let hang = handle.zip(of.plan.handle_at()).map(|(on, at)| {
        let frame = of.hull.block.frame(on);
        let grip = frame.point(at, 0.0);
        let down = sub(centre, grip);
        let deep = -dot(down, frame.out);
        let aside = [dot(down, frame.across), dot(down, frame.up)];
        atan2((aside[0] * aside[0] + aside[1] * aside[1]).sqrt(), deep)
    });
    Balance {
        weight: of.weight,
        centre,
        level_handle: level,
        hang,
        tipping: tipping(of.design, of.hull, centre),
    }
}

/// Wood, parts, and the rest spread evenly over the inside.
fn centre(of: &Scales<'_>) -> Vector {
    let mut masses = wood(of.body, &of.plan.sheets);
    masses.extend(
        of.parts
            .iter()
            .filter(|part| part.weight > 0.0)
            .map(|part| Mass {
                kilograms: part.weight,
                at: centre_of_part(part),
            }),
    );
    masses.extend(plate(of));
    let known: f64 = masses.iter().map(|mass| mass.kilograms).sum();
    let (low, high) = of.hull.inside();
    masses.push(Mass {
        kilograms: (of.weight - known).max(0.0),
        at: scale(add(low, high), 0.5),
    });
    let total: f64 = masses.iter().map(|mass| mass.kilograms).sum();
    let moment = masses.iter().fold([0.0; 3], |sum, mass| {
        add(sum, scale(mass.at, mass.kilograms))
    });
    scale(moment, 1.0 / total)
}

fn wood(body: &Body, sheets: &Sheets) -> Vec<Mass> {
    body.panels
        .iter()
        .filter(|panel| panel.volume() > 0.0)
        .map(|panel| {
            let kind = match panel.id {
                PanelId::Wall(wall) => sheets.of_wall(wall),
                PanelId::Board(board) => sheets.of_board(&body.plan.boards, board),
            };
            Mass {
                kilograms: panel.volume() * sheets.density(kind, &Draw::Nominal),
                at: panel.centroid(),
            }
        })
        .collect()
}

/// The plate of the control panel.
fn plate(of: &Scales<'_>) -> Option<Mass> {
    let seat = of.seat?;
    let sheets = &of.plan.sheets;
    let kind = sheets.of_plate()?;
    let frame = of.hull.block.frame(seat.wall);
    Some(Mass {
        kilograms: seat.plate_volume() * sheets.density(kind, &Draw::Nominal),
        at: frame.point(seat.at, -seat.below - seat.plate / 2.0),
    })
}

/// Centre of mass of a part where it stands: of its solids, alike throughout but for magnets.
fn centre_of_part(part: &PlacedPart) -> Vector {
    let own = if part.kind == PartKind::Driver {
        of_driver(&part.part.shape)
    } else {
        of_solids(&part.part.shape.solids)
    };
    part.part.pose.point(own)
}

fn of_driver(shape: &Shape) -> Vector {
    // Frame, magnet, basket: the order in which outlines give them.
    let Some((magnet, _)) = shape.solids.get(1).map(centroid) else {
        return of_solids(&shape.solids);
    };
    let rest: Vec<Solid> = shape
        .solids
        .iter()
        .enumerate()
        .filter(|(index, _)| *index != 1)
        .map(|(_, solid)| solid.clone())
        .collect();
    add(scale(magnet, MAGNET), scale(of_solids(&rest), 1.0 - MAGNET))
}

fn of_solids(solids: &[Solid]) -> Vector {
    let (moment, volume) = solids
        .iter()
        .map(centroid)
        .fold(([0.0; 3], 0.0), |(moment, sum), (at, volume)| {
            (add(moment, scale(at, volume)), sum + volume)
        });
    if volume > 0.0 {
        scale(moment, 1.0 / volume)
    } else {
        moment
    }
}

/// Centre and volume of a solid.
fn centroid(solid: &Solid) -> (Vector, f64) {
    match solid {
        // Every hull here is a block.
        Solid::Hull(points) => {
            let mut low = [f64::INFINITY; 3];
            let mut high = [f64::NEG_INFINITY; 3];
            for point in points {
                for axis in 0..3 {
                    low[axis] = low[axis].min(point[axis]);
                    high[axis] = high[axis].max(point[axis]);
                }
            }
            let volume = (0..3).map(|axis| high[axis] - low[axis]).product();
            (scale(add(low, high), 0.5), volume)
        }
        Solid::Frustum {
            from,
            to,
            from_radius: a,
            to_radius: b,
        } => {
            let long = length(sub(*to, *from));
            let squares = a * a + a * b + b * b;
            let share = (a * a + 2.0 * a * b + 3.0 * b * b) / (4.0 * squares);
            let at = add(*from, scale(sub(*to, *from), share));
            (at, PI * long * squares / 3.0)
        }
    }
}

/// Smallest angle at which the box tips over what it stands on, and towards which side.
fn tipping(design: &Design, hull: &Hull, centre: Vector) -> (f64, Wall) {
    let block = &hull.block;
    let frame = block.frame(Wall::Bottom);
    let (stands, foot) = design.feet.as_ref().map_or_else(
        || {
            let corners = [
                [0.0, 0.0],
                [block.width, 0.0],
                [block.width, block.depth],
                [0.0, block.depth],
            ];
            (corners.map(|[x, y]| [x, y, 0.0]).to_vec(), 0.0)
        },
        |feet| {
            let at = feet_at(feet, hull).into_iter();
            (at.map(|at| frame.point(at, 0.0)).collect(), feet.height.si)
        },
    );
    let high = centre[2] + foot;
    let middle = scale(
        stands.iter().fold([0.0; 3], |sum, at| add(sum, *at)),
        1.0 / stands.len() as f64,
    );
    let mut least = (f64::INFINITY, Wall::Front);
    for (index, from) in stands.iter().enumerate() {
        let along = sub(stands[(index + 1) % stands.len()], *from);
        let mut out = cross(along, [0.0, 0.0, 1.0]);
        out = scale(out, 1.0 / length(out));
        if dot(sub(middle, *from), out) > 0.0 {
            out = scale(out, -1.0);
        }
        let room = -dot(sub([centre[0], centre[1], 0.0], *from), out);
        let angle = atan(room / high);
        if angle < least.0 {
            least = (angle, towards(out));
        }
    }
    least
}

/// The wall that looks most in a level direction.
fn towards(out: Vector) -> Wall {
    if out[1].abs() >= out[0].abs() {
        if out[1] < 0.0 {
            Wall::Front
        } else {
            Wall::Back
        }
    } else if out[0] < 0.0 {
        Wall::Left
    } else {
        Wall::Right
    }
}
