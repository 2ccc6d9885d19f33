//! What cannot be, whatever the shape of the box comes to in detail.

use super::words::{WALLS, word_of};
use crate::diagnostic::Log;
use crate::fault::{DesignFault, WoodFault};
use crate::quantity::{Dimension, format_rounded};
use crate::{
    BatteryUse, Bay, Carpentry, Control, EdgeJointKind, Enclosure, EnclosureSize, Fitting, Joints,
    OuterEdge, OuterEdges, SheetPart, Size, Value, Wall,
};

/// The walls with their sheets, as far as they bear on what can be cut.
struct Walls<'a> {
    sheet: &'a SheetPart,
    thickness: f64,
    carpentry: &'a Carpentry,
}

impl Walls<'_> {
    fn sheet(&self, wall: Wall) -> &SheetPart {
        let own = self.own(wall).and_then(|own| own.sheet.as_ref());
        own.map_or(self.sheet, |(sheet, _)| sheet)
    }

    fn own(&self, wall: Wall) -> Option<&crate::WallUse> {
        self.carpentry.walls.iter().find(|own| own.side == wall)
    }

    fn thickness(&self, wall: Wall) -> f64 {
        let Some(own) = self.own(wall) else {
            return self.thickness;
        };
        let of_sheet = own.sheet.as_ref().map(|(sheet, _)| sheet.thickness);
        own.thickness
            .or(of_sheet)
            .map_or(self.thickness, |thickness| thickness.si)
    }

    fn two(&self, a: Wall, b: Wall) -> f64 {
        self.thickness(a) + self.thickness(b)
    }
}

/// Notes walls that leave no room, that are cut through, or that no sheet holds.
pub(crate) fn walls(
    size: &EnclosureSize,
    sheet: &SheetPart,
    thickness: Option<Value>,
    carpentry: &Carpentry,
    log: &mut Log,
) {
    let walls = Walls {
        sheet,
        thickness: thickness.unwrap_or(sheet.thickness).si,
        carpentry,
    };
    cut_through(&walls, log);
    if let Some([width, height, depth]) = inner(size, &walls, log)
        && let Some(top_depth) = under_the_top(height, depth, carpentry, log)
    {
        sheets_suffice(&walls, [width, height, top_depth], size.place(), log);
    }
}

impl EnclosureSize {
    fn place(&self) -> crate::Place {
        match self {
            Self::Outside(size) | Self::Inside(size) => size.place,
        }
    }
}

/// Width, height and depth between the walls, in m.
fn inner(size: &EnclosureSize, walls: &Walls<'_>, log: &mut Log) -> Option<[f64; 3]> {
    let outside = match size {
        EnclosureSize::Inside(size) => {
            return Some([size.width.si, size.height.si, size.depth.si]);
        }
        EnclosureSize::Outside(size) => size,
    };
    let sides = [
        ("width", outside.width, walls.two(Wall::Left, Wall::Right)),
        ("height", outside.height, walls.two(Wall::Top, Wall::Bottom)),
        ("depth", outside.depth, walls.two(Wall::Front, Wall::Back)),
    ];
    let mut room = [0.0; 3];
    for (room, (side, length, walls)) in room.iter_mut().zip(sides) {
        *room = length.si - walls;
        if *room <= 0.0 {
            log.add(DesignFault::BoxNoRoom { side }, length.place);
        }
    }
    room.iter().all(|room| *room > 0.0).then_some(room)
}

/// Depth between front and back under the top, in m.
fn under_the_top(height: f64, depth: f64, carpentry: &Carpentry, log: &mut Log) -> Option<f64> {
    let leans = [carpentry.front_lean, carpentry.back_lean];
    let lost: f64 = leans
        .into_iter()
        .flatten()
        .map(|lean| height * libm::tan(lean.si))
        .sum();
    if lost < depth {
        return Some(depth - lost);
    }
    let steepest = leans
        .into_iter()
        .flatten()
        .max_by(|a, b| a.si.total_cmp(&b.si));
    if let Some(lean) = steepest {
        log.add(WoodFault::LeansShut, lean.place);
    }
    None
}

fn cut_through(walls: &Walls<'_>, log: &mut Log) {
    let carpentry = walls.carpentry;
    match carpentry.outer {
        Some(OuterEdge::Round(value)) => not_through("round", value, walls, &outer(carpentry), log),
        Some(OuterEdge::Chamfer(value)) => {
            not_through("chamfer", value, walls, &outer(carpentry), log);
        }
        None => {}
    }
    if let Some(rebate) = carpentry.rebate
        && carpentry.joints.value == Joints::Rebated
    {
        not_through("rebate", rebate, walls, &RING, log);
    }
    for joint in &carpentry.edges {
        if let EdgeJointKind::Rebate { within, depth } = joint.kind {
            match (depth, carpentry.rebate) {
                (Some(depth), _) => not_through("depth", depth, walls, &[within], log),
                (None, Some(rebate)) if carpentry.joints.value != Joints::Rebated => {
                    not_through("rebate", rebate, walls, &[within], log);
                }
                (None, _) => {}
            }
        }
    }
}

const ALL: [Wall; 6] = [
    Wall::Front,
    Wall::Back,
    Wall::Left,
    Wall::Right,
    Wall::Top,
    Wall::Bottom,
];
const RING: [Wall; 4] = [Wall::Left, Wall::Right, Wall::Top, Wall::Bottom];

/// Walls that treated outer edges are cut from; an inset front has none of them.
fn outer(carpentry: &Carpentry) -> Vec<Wall> {
    let reaches = |fitting: Fitting| match carpentry.joints.value {
        Joints::Butt | Joints::MitredRing => fitting == Fitting::Overlaid,
        Joints::Mitred => true,
        Joints::Rebated => false,
    };
    let treated = carpentry.outer_edges.value;
    let front = treated != OuterEdges::Ring && reaches(carpentry.front.value);
    let back = treated == OuterEdges::All && reaches(carpentry.back.value);
    let mut walls = RING.to_vec();
    walls.extend(front.then_some(Wall::Front));
    walls.extend(back.then_some(Wall::Back));
    walls
}

/// Notes a cut that is as deep as the thinnest of some walls.
fn not_through(key: &'static str, cut: Value, walls: &Walls<'_>, of: &[Wall], log: &mut Log) {
    let thickness = |wall: &&Wall| walls.thickness(**wall);
    let thinnest = of
        .iter()
        .min_by(|a, b| thickness(a).total_cmp(&thickness(b)));
    if let Some(wall) = thinnest
        && cut.si >= walls.thickness(*wall)
    {
        let fault = WoodFault::DeeperThanWall {
            key,
            wall: word_of(WALLS, *wall),
            thickness: millimetres(walls.thickness(*wall)),
        };
        log.add(fault, cut.place);
    }
}

fn millimetres(length: f64) -> String {
    format_rounded(length, Dimension::Length, 4)
}

/// Notes walls that are larger than a sheet even if every joint takes all it can
/// off them.
fn sheets_suffice(walls: &Walls<'_>, inner: [f64; 3], place: crate::Place, log: &mut Log) {
    let [width, height, depth] = inner;
    let leaning = walls.carpentry.front_lean.is_some() || walls.carpentry.back_lean.is_some();
    for wall in ALL {
        let (a, b) = match wall {
            Wall::Front | Wall::Back => (width, height),
            Wall::Top | Wall::Bottom => (width, depth),
            Wall::Left | Wall::Right => (depth, height),
        };
        // What a leaning wall takes off a side depends on how it is joined.
        if leaning && !matches!(wall, Wall::Front | Wall::Back) {
            continue;
        }
        let sheet = walls.sheet(wall);
        let (length, breadth) = (sheet.length.si, sheet.width.si);
        if a.max(b) > length.max(breadth) || a.min(b) > length.min(breadth) {
            let own = walls.own(wall).and_then(|own| own.sheet.as_ref());
            let fault = WoodFault::SheetTooSmall {
                wall: word_of(WALLS, wall),
                least: format!("{} x {}", millimetres(a), millimetres(b)),
                sheet: format!("{} x {}", millimetres(length), millimetres(breadth)),
            };
            log.add(fault, own.map_or(place, |(_, place)| *place));
            return;
        }
    }
}

/// Notes a bay whose battery is not in it.
pub(crate) fn bay_is_used(bay: &Bay, battery: &BatteryUse, log: &mut Log) {
    if !battery.vented_bay.value {
        log.add(WoodFault::BayNotVented, bay.place);
    }
}

/// Notes a recess that goes through the box.
pub(crate) fn recess_ends_inside(control: &Control, enclosure: &Enclosure, log: &mut Log) {
    let Some(recess) = control.recess else {
        return;
    };
    let (EnclosureSize::Outside(size) | EnclosureSize::Inside(size)) = &enclosure.size;
    let Size {
        width,
        height,
        depth,
        ..
    } = size;
    let across = match control.on.value {
        Wall::Front | Wall::Back => depth,
        Wall::Left | Wall::Right => width,
        Wall::Top | Wall::Bottom => height,
    };
    if recess.si >= across.si {
        let across = millimetres(across.si);
        log.add(WoodFault::RecessTooDeep { across }, recess.place);
    }
}
