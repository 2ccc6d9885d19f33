//! The box as bodies that take up, pass on and give off heat.

use super::bay::Bay;
use crate::build::Build;
use crate::carpentry::{BOARD_WEIGHT, Hull, Thicknesses};
use crate::subject::{Subject, battery_guess, driver_guess};
use crate::vary::Draw;
use design::{AmplifierPart, BatteryPart, Chemistry, Common, Size, Stands};
use physics::warmth::{Facing, Network, Node, Path, wood_conductivity};
use wood::Wall;

/// Emissivity of wood, boards, sleeves and paint, and of bare metal that is no
/// longer bright: common practice, no source.
const DULL: f64 = 0.9;
const BARE: f64 = 0.2;
/// Moisture of wood indoors in %, and its heat capacity in J/(kg·K)
/// (`wood-handbook`, from memory).
const MOISTURE: f64 = 10.0;
const WOOD_HEAT: f64 = 1600.0;
/// Heat capacity of air in J/(m³·K), nearly enough for a small bay.
const AIR_HEAT: f64 = 1200.0;
/// Heat capacities in J/(kg·K): common practice, no source.
const BOARD_HEAT: f64 = 900.0;
const DRIVER_HEAT: f64 = 500.0;
/// Of a plate in J/(m³·K): aluminium, the least of the usual metals.
const PLATE_HEAT: f64 = 2.4e6;
/// Heat capacity of a power chip with its tab in J/K: common practice, no source.
const CHIP_HEAT: f64 = 1.0;
/// From a chip to its board, and to a plate it is screwed to over a pad, in
/// K/W: common practice, no source.
const TO_BOARD: f64 = 2.0;
const TO_PLATE: f64 = 2.5;
/// Board and magnet of a part whose size nobody states, in m: common practice, no source.
const BOARD_SIDES: [f64; 2] = [0.07, 0.05];
const MAGNET: [f64; 2] = [0.08, 0.05];
pub(super) const BATTERY_SIDES: [f64; 3] = [0.15, 0.1, 0.07];

/// Bodies of a box and which is which.
#[derive(Clone, Debug)]
pub(super) struct Room {
    pub(super) network: Network,
    pub(super) outdoors: usize,
    pub(super) air: usize,
    pub(super) chip: usize,
    pub(super) board: usize,
    pub(super) battery: usize,
    pub(super) drivers: usize,
    /// Outer faces: body, area in m² and the wall it is on.
    pub(super) faces: Vec<(usize, f64, Wall)>,
    /// The air's neighbour by radiation: what every surface inside sees.
    seen: usize,
    /// The air of the battery's own bay, where it has one.
    bay: Option<usize>,
}

impl Room {
    /// Of one build, on a day of so many °C.
    pub(super) fn new(subject: &Subject, build: &Build, draw: &Draw, celsius: f64) -> Self {
        let mut network = Network::new(build.air.pressure);
        let outdoors = network.add(Node::held(celsius));
        let capacity = 1005.0 * build.air.density * build.enclosure.net;
        let air = network.add(Node::free(capacity, 0.0));
        let seen = network.add(Node::free(0.0, 0.0));
        let mut room = Self {
            network,
            outdoors,
            air,
            chip: 0,
            board: 0,
            battery: 0,
            drivers: 0,
            faces: Vec::new(),
            seen,
            bay: None,
        };
        let plate = room.add_plate(subject, draw);
        room.add_walls(subject, draw, plate.map(|(_, on, area)| (on, area)));
        room.add_board(subject, plate.map(|(body, _, _)| body));
        room.add_battery(subject);
        room.add_drivers(subject);
        room
    }

    /// A surface inside that meets the air and sees all the others.
    fn inside(&mut self, body: usize, area: f64, length: f64, facing: Facing, emissivity: f64) {
        let still = Path::Convection {
            area,
            length,
            facing,
        };
        self.network.join(body, self.air, still);
        let shine = Path::Radiation { area, emissivity };
        self.network.join(body, self.seen, shine);
    }

    /// A surface in a bay, whose walls are taken to be as warm as its air.
    fn shut_in(&mut self, bay: usize, body: usize, area: f64, length: f64, facing: Facing) {
        let still = Path::Convection {
            area,
            length,
            facing,
        };
        self.network.join(body, bay, still);
        let shine = Path::Radiation {
            area,
            emissivity: DULL,
        };
        self.network.join(body, bay, shine);
    }

    /// An outer face.
    fn outside(&mut self, body: usize, wall: Wall, area: f64, length: f64, emissivity: f64) {
        let still = Path::Convection {
            area,
            length,
            facing: facing(wall),
        };
        self.network.join(body, self.outdoors, still);
        let shine = Path::Radiation { area, emissivity };
        self.network.join(body, self.outdoors, shine);
        self.faces.push((body, area, wall));
    }

    /// The metal plate of the control panel, where there is one: its body, wall and area.
    fn add_plate(&mut self, subject: &Subject, draw: &Draw) -> Option<(usize, Wall, f64)> {
        let control = subject.project.design.control.as_ref()?;
        if !control.plate.metal.value {
            return None;
        }
        let [width, height] = control.size.map(|side| side.si);
        let area = width * height;
        let thickness = subject.enclosure.plan.sheets.at(draw).plate;
        let body = self
            .network
            .add(Node::free(PLATE_HEAT * thickness * area, 0.0));
        let wall = crate::carpentry::wall(control.on.value);
        let length = height_or_reach(wall, [width, height]);
        self.inside(body, area, length, inner(wall), BARE);
        self.outside(body, wall, area, length, BARE);
        Some((body, wall, area))
    }

    fn add_walls(&mut self, subject: &Subject, draw: &Draw, plate: Option<(Wall, f64)>) {
        let plan = &subject.enclosure.plan;
        let thick = plan.sheets.at(draw);
        let hull = plan.hull_of(draw, &thick);
        let design = &subject.project.design;
        let lies_flat = design.feet.is_none() && design.place.stands.value != Stands::Free;
        let bay = Bay::of(subject, &hull, &thick);
        if let Some(bay) = &bay {
            self.add_bay(bay);
        }
        for wall in Wall::ALL {
            let off = plate.map_or(0.0, |(on, area)| if on == wall { area } else { 0.0 });
            let density = plan.sheets.density(plan.sheets.of_wall(wall), draw);
            let slab = Slab::new(&hull, &thick, wall, off, density);
            let in_bay = bay.as_ref().map_or(0.0, |bay| bay.on(wall));
            self.add_wall(&slab, lies_flat, in_bay);
        }
    }

    /// The bay's air, and its way to that of the box.
    fn add_bay(&mut self, bay: &Bay) {
        let air = self.network.add(Node::free(AIR_HEAT * bay.volume(), 0.0));
        let partition = Path::Conductance(bay.to_box());
        self.network.join(air, self.air, partition);
        self.bay = Some(air);
    }

    /// One wall as an inner and an outer half; so many m² of it lie in the
    /// battery's bay.
    fn add_wall(&mut self, slab: &Slab, lies_flat: bool, in_bay: f64) {
        let half = slab.capacity / 2.0;
        let inner_half = self.network.add(Node::free(half, 0.0));
        let outer_half = self.network.add(Node::free(half, 0.0));
        let through = Path::Conductance(slab.conductance);
        self.network.join(inner_half, outer_half, through);
        let wall = slab.wall;
        let left = (slab.inner - in_bay).max(1e-4);
        self.inside(inner_half, left, slab.inner_length, inner(wall), DULL);
        if let Some(bay) = self.bay.filter(|_| in_bay > 0.0) {
            let length = slab.inner_length;
            self.shut_in(bay, inner_half, in_bay, length, inner(wall));
        }
        if wall != Wall::Bottom || !lies_flat {
            self.outside(outer_half, wall, slab.outer, slab.outer_length, DULL);
        }
    }

    /// Chip and board; on the plate where the chip is screwed to it.
    fn add_board(&mut self, subject: &Subject, plate: Option<usize>) {
        let used = &subject.project.design.amplifier;
        let part = &used.part;
        let weight = weight(&part.common, BOARD_WEIGHT);
        self.chip = self.network.add(Node::free(CHIP_HEAT, 0.0));
        self.board = self.network.add(Node::free(BOARD_HEAT * weight, 0.0));
        let stated = part.thermal_resistance.map(|value| value.si);
        let to_board = stated.map_or(TO_BOARD, |all| TO_BOARD.min(all / 2.0));
        let way = Path::Conductance(1.0 / to_board);
        self.network.join(self.chip, self.board, way);
        if let Some(all) = stated {
            let rest = Path::Conductance(1.0 / (all - to_board));
            self.network.join(self.board, self.air, rest);
        } else {
            let (area, length) = faces_of(part);
            self.inside(self.board, area, length, Facing::Sideways, DULL);
        }
        if let Some(plate) = plate.filter(|_| on_plate(subject)) {
            let pad = Path::Conductance(1.0 / TO_PLATE);
            self.network.join(self.chip, plate, pad);
        }
    }

    fn add_battery(&mut self, subject: &Subject) {
        let used = &subject.project.design.battery;
        let count = f64::from(used.count);
        let [width, height, depth] = sides(used.part.size, BATTERY_SIDES);
        // It stands on a board and gives nothing off there.
        let area = 2.0 * (width + depth) * height + width * depth;
        let weight = weight(&used.part.common, battery_guess(&used.part));
        let capacity = count * weight * cell_heat(&used.part);
        self.battery = self.network.add(Node::free(capacity, 0.0));
        let area = count * area;
        match self.bay {
            None => self.inside(self.battery, area, height, Facing::Sideways, DULL),
            Some(bay) => self.shut_in(bay, self.battery, area, height, Facing::Sideways),
        }
    }

    fn add_drivers(&mut self, subject: &Subject) {
        let (mut area, mut capacity) = (0.0, 0.0);
        for group in &subject.project.design.drivers {
            let count = f64::from(group.count);
            let across = group.part.magnet.map_or(MAGNET[0], |value| value.si);
            let deep = group.part.depth.map_or(MAGNET[1], |value| value.si);
            // Magnet and basket as a cylinder with one end.
            area += count * core::f64::consts::PI * across * (deep + across / 4.0);
            let weight = weight(&group.part.common, driver_guess(&group.part));
            capacity += count * weight * DRIVER_HEAT;
        }
        self.drivers = self.network.add(Node::free(capacity, 0.0));
        self.inside(self.drivers, area, MAGNET[0], Facing::Sideways, DULL);
    }
}

/// Whether the chip is screwed to the metal plate of the control panel.
pub(super) fn on_plate(subject: &Subject) -> bool {
    let design = &subject.project.design;
    let plate = design.control.as_ref().map(|control| &control.plate);
    plate.is_some_and(|plate| plate.metal.value)
        && design.amplifier.cooling.value == design::Cooling::Plate
}

/// One wall in numbers.
struct Slab {
    wall: Wall,
    inner: f64,
    outer: f64,
    inner_length: f64,
    outer_length: f64,
    /// W/K.
    conductance: f64,
    /// J/K.
    capacity: f64,
}

impl Slab {
    /// A wall of a hull, `off` m² of it taken by a plate, of so many kg/m³.
    fn new(hull: &Hull, thick: &Thicknesses, wall: Wall, off: f64, density: f64) -> Self {
        let block = &hull.block;
        let outside = face([block.width, block.height, block.depth], wall);
        let inside = face(hull.inside_size(), wall);
        let area = |[across, up]: [f64; 2]| (across * up - off).max(1e-4);
        let (outer, inner) = (area(outside), area(inside));
        let thickness = thick.walls[wall.index()];
        let mean = f64::midpoint(outer, inner);
        // Oven-dry mass over volume as it is.
        let gravity = density / 1000.0 / (1.0 + MOISTURE / 100.0);
        Self {
            wall,
            inner,
            outer,
            inner_length: height_or_reach(wall, inside),
            outer_length: height_or_reach(wall, outside),
            conductance: wood_conductivity(gravity, MOISTURE) * mean / thickness,
            capacity: WOOD_HEAT * density * mean * thickness,
        }
    }
}

/// Across and up of the face of a block.
pub(super) const fn face([width, height, depth]: [f64; 3], wall: Wall) -> [f64; 2] {
    match wall {
        Wall::Front | Wall::Back => [width, height],
        Wall::Left | Wall::Right => [depth, height],
        Wall::Top | Wall::Bottom => [width, depth],
    }
}

/// Height of an upright face, area over perimeter of a level one.
fn height_or_reach(wall: Wall, [across, up]: [f64; 2]) -> f64 {
    match facing(wall) {
        Facing::Sideways => up,
        Facing::Up | Facing::Down => across * up / (2.0 * (across + up)),
    }
}

/// Which way a wall faces outside.
const fn facing(wall: Wall) -> Facing {
    match wall {
        Wall::Top => Facing::Up,
        Wall::Bottom => Facing::Down,
        Wall::Front | Wall::Back | Wall::Left | Wall::Right => Facing::Sideways,
    }
}

/// Which way it faces inside.
const fn inner(wall: Wall) -> Facing {
    facing(wall.opposite())
}

fn weight(common: &Common, guess: f64) -> f64 {
    common.weight.map_or(guess, |weight| weight.si)
}

pub(super) fn sides(size: Option<Size>, usual: [f64; 3]) -> [f64; 3] {
    size.map_or(usual, |size| {
        [size.width, size.height, size.depth].map(|side| side.si)
    })
}

/// Both faces of a board in m², and the length the air climbs in m.
fn faces_of(part: &AmplifierPart) -> (f64, f64) {
    let mut each = sides(part.size, [BOARD_SIDES[0], 0.0, BOARD_SIDES[1]]);
    each.sort_by(f64::total_cmp);
    let [_, short, long] = each;
    (2.0 * short * long, short)
}

/// Heat capacity of a battery in J/(kg·K): common practice, no source.
const fn cell_heat(part: &BatteryPart) -> f64 {
    match part.chemistry.value {
        Chemistry::LeadAcid => 850.0,
        Chemistry::IronPhosphate | Chemistry::LithiumIon | Chemistry::NickelMetalHydride => 1000.0,
    }
}
