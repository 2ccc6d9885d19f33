//! From what a design says of wood to the plan of one box.

mod boards;
pub(crate) mod fastenings;
mod hull;
mod joints;
pub(crate) mod openings;
pub(crate) mod screws;
mod seat;
mod sheets;
mod source;

pub(crate) use boards::bay_room;
pub(crate) use hull::{Hull, extent, middle};
pub(crate) use openings::{Opening, TUBE_WALL, fit};
pub(crate) use seat::Seat;
pub(crate) use sheets::{Sheets, Thicknesses};
pub(crate) use source::Source;

use screws::Taken;

use crate::vary::{Causes, Draw, Uncertain, spreads};
use design::{Carpentry, Closing, Design, EnclosureSize, Fitting, Value};
use std::sync::Arc;
use wood::vector::Vector;
use wood::{Board, Hole, Outline, Plan, Wall, WallPlan};

/// A wall as the solid model names it.
#[must_use]
pub const fn wall(of: design::Wall) -> Wall {
    match of {
        design::Wall::Front => Wall::Front,
        design::Wall::Back => Wall::Back,
        design::Wall::Left => Wall::Left,
        design::Wall::Right => Wall::Right,
        design::Wall::Top => Wall::Top,
        design::Wall::Bottom => Wall::Bottom,
    }
}

/// The axis along which a block is thinnest.
fn thin_axis(low: Vector, high: Vector) -> usize {
    let thinner = |a: &usize, b: &usize| (high[*a] - low[*a]).total_cmp(&(high[*b] - low[*b]));
    [0, 1, 2].into_iter().min_by(thinner).unwrap_or(0)
}

/// The box as wood, with its spreads.
#[derive(Clone, Debug)]
pub(crate) struct PlanSubject {
    design: Arc<Design>,
    size: [Uncertain; 3],
    outside: bool,
    leans: [Uncertain; 2],
    pub(crate) sheets: Sheets,
    /// Openings where they are in the nominal build.
    pub(crate) openings: Vec<Opening>,
    /// Middle of the handle on its wall, where one was found for it.
    handle: Option<[f64; 2]>,
}

impl PlanSubject {
    /// Sizes and the thickness of the walls; [`Self::complete`] must follow.
    pub(crate) fn new(causes: &mut Causes, design: &Design) -> Self {
        let (size, outside) = match &design.enclosure.size {
            EnclosureSize::Outside(size) => (size, true),
            EnclosureSize::Inside(size) => (size, false),
        };
        let mut length = |id: &str, label: &str, value: &Value| {
            causes.value(format!("box.{id}"), label, "m", value, &spreads::CUT_LENGTH)
        };
        let size = [
            length("width", "width of the box", &size.width),
            length("height", "height of the box", &size.height),
            length("depth", "depth of the box", &size.depth),
        ];
        Self {
            sheets: Sheets::new(causes, design),
            design: Arc::new(design.clone()),
            size,
            outside,
            leans: [Uncertain::fixed(0.0); 2],
            openings: Vec::new(),
            handle: None,
        }
    }

    /// What only some designs have: its causes come after those that all have.
    pub(crate) fn complete(&mut self, causes: &mut Causes, design: &Design) {
        let said = &design.enclosure.carpentry;
        let mut lean = |side: &str, value: Option<Value>| {
            value.map_or(Uncertain::fixed(0.0), |value| {
                let (id, label) = (format!("box.{side}_lean"), format!("lean of the {side}"));
                causes.value(id, label, "rad", &value, &spreads::PLACE)
            })
        };
        self.leans = [lean("front", said.front_lean), lean("back", said.back_lean)];
        self.sheets.complete(causes, design);
        let block = self.hull(&Draw::Nominal).block;
        self.openings = openings::all(design, &block);
    }

    /// Puts the handle where the design leaves it open.
    pub(crate) const fn place_handle(&mut self, at: [f64; 2]) {
        self.handle = Some(at);
    }

    /// The outer block and the walls of one build.
    pub(crate) fn hull(&self, draw: &Draw) -> Hull {
        self.hull_of(draw, &self.sheets.at(draw))
    }

    /// The same where thicknesses are known.
    pub(crate) fn hull_of(&self, draw: &Draw, thick: &Thicknesses) -> Hull {
        let said = &self.design.enclosure.carpentry;
        let walls = Wall::ALL.map(|wall| WallPlan {
            thickness: thick.walls[wall.index()],
            setback: setback(said, wall),
        });
        let size = self.size.map(|length| length.at(draw));
        let leans = self.leans.map(|lean| lean.at(draw));
        Hull::new(size, self.outside, leans, walls)
    }

    /// The plan of one build.
    pub(crate) fn at(&self, draw: &Draw) -> Plan {
        let thick = self.sheets.at(draw);
        self.plan(&self.hull_of(draw, &thick), &thick)
    }

    /// The plan of a hull and its boards.
    pub(crate) fn plan(&self, hull: &Hull, thick: &Thicknesses) -> Plan {
        let said = &self.design.enclosure.carpentry;
        let seat = self.seat(hull, thick);
        let mut boards: Vec<Board> = boards::boards(&self.design, hull, thick);
        if let Some(seat) = &seat {
            boards.extend(seat.boards(hull, thick.main));
        }
        let holes = self.holes(hull, seat.as_ref());
        let mut plan = Plan {
            block: hull.block,
            walls: hull.walls,
            joints: joints::joints(said, &hull.walls),
            edges: joints::edges(said),
            holes: holes.into_iter().map(|(_, hole)| hole).collect(),
            boards,
        };
        if let Some(last) = self.screwed() {
            let taken = self.taken(hull, &plan.holes, seat.as_ref(), last);
            let screws = screws::holes(hull, &plan, last, taken);
            plan.holes.extend(screws);
        }
        plan
    }

    /// The wall that is screwed on, where one is.
    pub(crate) fn screwed(&self) -> Option<Wall> {
        let said = &self.design.enclosure.carpentry;
        (said.last_with.value == Closing::Screws).then(|| wall(said.last.value))
    }

    /// What covers or opens a wall already.
    fn taken(&self, hull: &Hull, holes: &[Hole], seat: Option<&Seat>, on: Wall) -> Vec<Taken> {
        let round = |at: [f64; 2], diameter: f64| Taken {
            at,
            outline: Outline::Circle { diameter },
        };
        let cut = holes.iter().filter(|hole| hole.wall == on);
        let mut taken: Vec<Taken> = cut
            .map(|hole| Taken {
                at: hole.at,
                outline: hole.outline,
            })
            .collect();
        let covered = self.openings.iter().filter(|opening| opening.wall == on);
        taken.extend(covered.map(|opening| round(opening.at, opening.diameter)));
        taken.extend(seat.filter(|seat| seat.wall == on).map(|seat| Taken {
            at: seat.at,
            outline: Outline::Rectangle {
                width: seat.size[0],
                height: seat.size[1],
                corner: 0.0,
            },
        }));
        if let Some(feet) = self.design.feet.as_ref().filter(|_| on == Wall::Bottom) {
            let feet_at = fastenings::feet_at(feet, hull).into_iter();
            taken.extend(feet_at.map(|at| round(at, feet.diameter.si)));
        }
        taken
    }

    fn holes(&self, hull: &Hull, seat: Option<&Seat>) -> Vec<(Source, Hole)> {
        let mut holes = fastenings::holes(&self.design, hull, &self.openings, self.handle_at());
        let of_seat = seat.map_or_else(Vec::new, |seat| seat.holes(hull));
        holes.extend(of_seat.into_iter().map(|hole| (Source::Control, hole)));
        holes
    }

    /// What wants each hole and each board of the nominal plan.
    pub(crate) fn sources(&self, plan: &Plan) -> [Vec<Source>; 2] {
        let thick = self.sheets.at(&Draw::Nominal);
        let hull = self.hull_of(&Draw::Nominal, &thick);
        let holes = self.holes(&hull, self.seat(&hull, &thick).as_ref());
        [
            holes
                .into_iter()
                .map(|(source, _)| source)
                .chain(core::iter::repeat(Source::Closing))
                .take(plan.holes.len())
                .collect(),
            Source::of_boards(&plan.boards),
        ]
    }

    /// The wall the vents are in, where there are any.
    pub(crate) fn vent_wall(&self) -> Option<Wall> {
        let mut openings = self.openings.iter();
        let vent = openings.find(|opening| opening.kind == crate::subject::SpotKind::Vent);
        vent.map(|opening| opening.wall)
    }

    /// Air that a bay and the box of a recess close off from the room, in m³.
    pub(crate) fn rooms(&self, hull: &Hull, thick: &Thicknesses) -> [f64; 2] {
        let bay = self.design.bay.as_ref().map(|bay| bay_room(bay, hull));
        let seat = self.seat(hull, thick);
        let recess = seat.and_then(|seat| seat.boxed_air(hull));
        [bay, recess].map(|room| room.map_or(0.0, |room| hull.shared(room)))
    }

    /// How the control panel sits, in one build.
    pub(crate) fn seat(&self, hull: &Hull, thick: &Thicknesses) -> Option<Seat> {
        let control = self.design.control.as_ref()?;
        Some(Seat::new(control, hull, thick.plate))
    }

    /// Middle of the handle on its side of the block, where there is one.
    pub(crate) fn handle_at(&self) -> Option<[f64; 2]> {
        let handle = self.design.handle.as_ref()?;
        let stated = handle.at.as_ref().map(|at| [at.across.si, at.up.si]);
        let nominal = || middle(&self.hull(&Draw::Nominal).block, wall(handle.on.value));
        Some(stated.or(self.handle).unwrap_or_else(nominal))
    }
}

/// How far a wall lies behind the edge of the ring.
fn setback(said: &Carpentry, wall: Wall) -> f64 {
    let inset = |fitting: Fitting| fitting == Fitting::Inset;
    match wall {
        Wall::Front if inset(said.front.value) => said.setback.map_or(0.0, |value| value.si),
        _ => 0.0,
    }
}
