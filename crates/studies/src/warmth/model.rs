//! What the heat study gives.

use crate::odds::Band;
use serde::Serialize;

/// How warm it gets in the closed box.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Warmth {
    /// Air outdoors on the hottest day in °C.
    pub outdoors: f64,
    /// Whether the sun shines on the box.
    pub sun: bool,
    /// Share of the sunlight that its finish takes up.
    pub taken_up: f64,
    /// What that is taken from.
    pub taken_up_as: &'static str,
    /// Whether the battery stands in a bay of its own, which the box's air does not reach.
    pub in_bay: bool,
    /// Name of the warmest module, where one gets warm.
    pub module: Option<String>,
    /// Whether the chip gives its heat to the metal plate of the control panel.
    pub on_plate: bool,
    /// What must not be exceeded.
    pub limits: Limits,
    /// With nothing playing for hours: what the sun alone does.
    pub silent: Standing,
    /// What may play, gentlest first: as the brief asks, music, squashed music, a full sine.
    pub cases: Vec<Case>,
}

/// What must not be exceeded, in °C.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Limits {
    /// The hottest point of the amplifier board.
    pub board: f64,
    /// Whether the shelf says so.
    pub board_known: bool,
    /// The battery while it is discharged.
    pub battery: f64,
    /// Whether the shelf says so.
    pub battery_known: bool,
    /// The battery while it is charged: common practice, no source.
    pub charging: f64,
    /// The hottest module, where one gets warm.
    pub module: Option<f64>,
}

/// One thing that may play.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Case {
    /// Stable name: "brief", "music", "squashed" or "sine".
    pub id: &'static str,
    /// In words.
    pub title: &'static str,
    /// What turns into heat where.
    pub heat: Heat,
    /// Once nothing changes any more.
    pub steady: Standing,
    /// After an hour from the day's own warmth, or when the battery is empty before.
    pub hour: Temperatures,
    /// Seconds of playing behind `hour`: an hour, or less where the battery is empty before.
    pub played: f64,
    /// Seconds since the start.
    pub seconds: Vec<f64>,
    /// Temperatures at these times.
    pub course: Vec<Temperatures>,
}

/// Heat in W, in the box.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Heat {
    /// In the amplifier: drawn less given.
    pub board: f64,
    /// In the battery's own resistance.
    pub battery: f64,
    /// In the voice coils, all of which stays in the box.
    pub drivers: f64,
    /// In radio module, converter and the like.
    pub modules: f64,
}

impl Heat {
    /// All of it.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.board + self.battery + self.drivers + self.modules
    }
}

/// Temperatures at rest with their bands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Standing {
    /// Of the box as designed.
    pub nominal: Temperatures,
    /// One drawn build in ten is cooler; `None` where none was drawn.
    pub p10: Option<Temperatures>,
    /// One drawn build in ten is warmer.
    pub p90: Option<Temperatures>,
}

/// Temperatures in °C.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Temperatures {
    /// Hottest point of the amplifier board.
    pub chip: f64,
    /// The amplifier board beside it.
    pub board: f64,
    /// The battery.
    pub battery: f64,
    /// The air in the box.
    pub air: f64,
    /// The warmest outer face of the box.
    pub wall: f64,
    /// The warmest module; that of the air where there is none.
    pub module: f64,
}

impl Temperatures {
    fn each(self) -> [f64; 6] {
        [
            self.chip,
            self.board,
            self.battery,
            self.air,
            self.wall,
            self.module,
        ]
    }

    const fn from(each: [f64; 6]) -> Self {
        let [chip, board, battery, air, wall, module] = each;
        Self {
            chip,
            board,
            battery,
            air,
            wall,
            module,
        }
    }
}

impl Standing {
    /// With the bands of some drawn builds.
    pub(crate) fn new(nominal: Temperatures, drawn: &[Temperatures]) -> Self {
        let bands: [Option<Band>; 6] =
            core::array::from_fn(|i| Band::of(drawn.iter().map(|one| one.each()[i])));
        let side = |of: fn(&Band) -> f64| {
            let known = bands.iter().all(Option::is_some);
            known.then(|| {
                Temperatures::from(core::array::from_fn(|i| {
                    bands[i].as_ref().map_or(f64::NAN, of)
                }))
            })
        };
        Self {
            nominal,
            p10: side(|band| band.p10),
            p90: side(|band| band.p90),
        }
    }
}
