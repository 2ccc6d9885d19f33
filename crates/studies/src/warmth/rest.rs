//! Where the temperatures of one build come to rest.

use super::heat::{Played, Player};
use super::model::{Heat, Temperatures};
use super::modules::Modules;
use super::room::Room;
use super::sunlit::taken_up;
use crate::subject::Subject;
use crate::vary::Draw;
use physics::warmth::{CLEAR_SKY, struck};
use wood::Wall;

/// Air outdoors on the hottest day, unless stated, in °C: common practice, no source.
const HOTTEST: f64 = 35.0;

/// Air outdoors on the hottest day in °C: never cooler than the day it is played on.
pub(crate) fn hottest_day(subject: &Subject) -> f64 {
    let place = &subject.project.design.place;
    let usual = HOTTEST.max(subject.air.celsius);
    place.hottest.map_or(usual, |value| value.si)
}

/// One build at rest with what was played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rest {
    /// What turns into heat.
    pub(crate) heat: Heat,
    /// The temperatures.
    pub(crate) celsius: Temperatures,
}

/// A box on the hottest day, sun included.
pub(super) struct Warm {
    pub(super) room: Room,
    /// K of the warmest module over the air.
    module: f64,
    /// Temperatures of all bodies met last, to start the next search from.
    last: Option<Vec<f64>>,
}

impl Warm {
    pub(super) fn new(player: &Player<'_>, draw: &Draw) -> Self {
        let subject = player.subject;
        let mut room = Room::new(subject, player.build, draw, hottest_day(subject));
        let design = &subject.project.design;
        if design.place.sun.value {
            shine(&mut room, taken_up(design).0);
        }
        let modules = Modules::of(subject, player.supply());
        Self {
            room,
            module: modules.hottest.as_ref().map_or(0.0, |hottest| hottest.rise),
            last: None,
        }
    }

    /// Puts the heat of what plays where it arises.
    pub(super) fn play(&mut self, heat: &Heat) {
        let room = &mut self.room;
        for (body, watts) in [
            (room.chip, heat.board),
            (room.battery, heat.battery),
            (room.drivers, heat.drivers),
            (room.air, heat.modules),
        ] {
            room.network.nodes[body].heat = watts;
        }
    }

    /// All bodies once nothing changes any more; `None` where no balance is found.
    pub(super) fn settle(&mut self) -> Option<Vec<f64>> {
        let network = &self.room.network;
        let found = match &self.last {
            Some(near) => network.steady_from(near),
            None => network.steady(),
        }?;
        self.last = Some(found.clone());
        Some(found)
    }

    /// What is told of all bodies' temperatures.
    pub(super) fn read(&self, celsius: &[f64], on: bool) -> Temperatures {
        let room = &self.room;
        let faces = room.faces.iter().map(|&(body, _, _)| celsius[body]);
        let air = celsius[room.air];
        Temperatures {
            chip: celsius[room.chip],
            board: celsius[room.board],
            battery: celsius[room.battery],
            air,
            wall: faces.fold(f64::NEG_INFINITY, f64::max),
            module: air + if on { self.module } else { 0.0 },
        }
    }
}

/// The sun where it heats the box most: on the top, one of front and back, one
/// side; where one of two opposite walls has a metal plate, on that one.
fn shine(room: &mut Room, share: f64) {
    let on = |wall: Wall| room.faces.iter().filter(move |(_, _, of)| *of == wall);
    let area = |wall: Wall| on(wall).map(|(_, area, _)| area).sum::<f64>();
    let sunny = |wall: Wall| {
        let other = wall.opposite();
        if on(other).count() > on(wall).count() {
            other
        } else {
            wall
        }
    };
    let walls = [sunny(Wall::Back), sunny(Wall::Left), Wall::Top];
    let flux = struck(walls.map(area), CLEAR_SKY);
    for (wall, flux) in walls.into_iter().zip(flux) {
        for &(body, area, of) in &room.faces {
            if of == wall {
                room.network.nodes[body].heat += share * flux * area;
            }
        }
    }
}

/// One build with nothing playing for hours: what the day and the sun alone do. `None` where no
/// balance is found.
pub(crate) fn silent(player: &Player<'_>, draw: &Draw) -> Option<Temperatures> {
    let mut warm = Warm::new(player, draw);
    let all = warm.settle()?;
    Some(warm.read(&all, false))
}

/// One build at rest with each of what may play; empty where no balance is found.
pub(crate) fn at_rest(player: &Player<'_>, draw: &Draw, played: &[Played]) -> Vec<Rest> {
    let mut warm = Warm::new(player, draw);
    let each = played.iter().map(|&played| {
        let (heat, _) = player.heat(played);
        warm.play(&heat);
        let all = warm.settle()?;
        Some(Rest {
            heat,
            celsius: warm.read(&all, true),
        })
    });
    each.collect::<Option<Vec<Rest>>>().unwrap_or_default()
}
