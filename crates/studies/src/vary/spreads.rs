//! The usual spread of each kind of value: the one table of defaults.
//!
//! Most of these are common practice without a published source, and say so.
//! A tolerance stated in the design or the shelf always takes precedence.

use super::shape::Shape;

/// A row of the table of usual spreads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// Stable name.
    pub id: &'static str,
    /// Kind of value.
    pub what: &'static str,
    /// How `spread` is meant.
    pub kind: Kind,
    /// The spread itself.
    pub spread: f64,
    /// Source key, or "common practice, no source".
    pub source: &'static str,
    /// Why this much.
    pub why: &'static str,
}

/// How a spread is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Standard deviation of the logarithm: 0.05 is about ±5 % in two builds of three.
    Factor,
    /// Half width of an even spread, relative to the value.
    EvenRelative,
    /// Half width of an even spread, in the value's own SI unit.
    EvenAbsolute,
    /// Does not vary.
    None,
}

impl Usual {
    pub(crate) fn shape(&self, nominal: f64) -> Shape {
        match self.kind {
            Kind::Factor => Shape::Factor { sigma: self.spread },
            Kind::EvenRelative => Shape::Even {
                half: self.spread * nominal.abs(),
            },
            Kind::EvenAbsolute => Shape::Even { half: self.spread },
            Kind::None => Shape::Fixed,
        }
    }
}

const PRACTICE: &str = "common practice, no source";

macro_rules! table {
    ($($name:ident = $id:literal, $what:literal, $kind:ident, $spread:literal, $source:expr, $why:literal;)*) => {
        $(
            #[doc = $what]
            pub const $name: Usual = Usual {
                id: $id, what: $what, kind: Kind::$kind, spread: $spread, source: $source, why: $why,
            };
        )*
        /// Every row, in the order of the manual.
        pub const ALL: &[&Usual] = &[$(&$name),*];
    };
}

table! {
    ABOUT = "about", "a value written with \"about\"", EvenRelative, 0.15, PRACTICE,
        "a maker who writes about 6 L means neither 5 nor 7";
    DRIVER_MASS = "driver.mass", "moving mass of a driver", Factor, 0.04, PRACTICE,
        "glue and cone weight; with the compliance it puts 8 of 10 drivers within ±10 % of the published resonance";
    DRIVER_COMPLIANCE = "driver.compliance", "suspension compliance of a driver", Factor, 0.15, PRACTICE,
        "the softest figure of any driver: batch, temperature and wear; 8 of 10 within ±20 %";
    DRIVER_BL = "driver.bl", "force factor of a driver", Factor, 0.04, PRACTICE,
        "magnet charge and gap; with mass and compliance it puts 8 of 10 drivers within ±15 % of the published Q";
    DRIVER_RMS = "driver.rms", "mechanical resistance of a driver", Factor, 0.20, PRACTICE,
        "surround and spider damping change with batch and temperature";
    DRIVER_RE = "driver.re", "direct-current resistance of a coil", Factor, 0.025, PRACTICE,
        "wire length and the few degrees between winding and measuring";
    DRIVER_SD = "driver.sd", "effective area of a cone", Factor, 0.02, PRACTICE,
        "how far into the surround the cone counts";
    DRIVER_LE = "driver.le", "inductance of a coil", Factor, 0.10, PRACTICE,
        "published at one frequency only";
    DRIVER_XMAX = "driver.xmax", "linear travel of a driver", Factor, 0.08, PRACTICE,
        "coil height, gap height and how the coil sits at rest";
    DRIVER_POWER = "driver.power", "power rating of a coil", None, 0.0, PRACTICE,
        "a rating, not a measured value";
    PRIOR_MASS = "prior.mass", "moving mass of a driver of unknown data", Factor, 0.30, PRACTICE,
        "drivers of one size and kind differ by a factor of two from end to end";
    PRIOR_FS = "prior.fs", "resonance of a driver of unknown data", Factor, 0.22, PRACTICE,
        "drivers of one size and kind range over most of an octave";
    PRIOR_QMS = "prior.qms", "mechanical Q of a driver of unknown data", Factor, 0.35, PRACTICE,
        "aluminium formers, shorted rings and soft surrounds";
    PRIOR_QES = "prior.qes", "electrical Q of a driver of unknown data", Factor, 0.30, PRACTICE,
        "magnet size is what driver makers save on";
    PRIOR_SD = "prior.sd", "cone area of a driver known by its nominal size", Factor, 0.07, PRACTICE,
        "nominal size is that of the frame, more or less";
    PRIOR_RE = "prior.re", "coil resistance of a driver known by its rated impedance", Factor, 0.05, PRACTICE,
        "0.75 to 0.9 of the rated impedance";
    PRIOR_XMAX = "prior.xmax", "travel of a driver of unknown data", Factor, 0.30, PRACTICE,
        "coil overhang cannot be seen from outside";
    PRIOR_LE = "prior.le", "coil inductance of a driver of unknown data", Factor, 0.40, PRACTICE,
        "coil diameter, layers and shorted rings";
    PRIOR_POWER = "prior.power", "power rating of a driver of unknown data", Factor, 0.30, PRACTICE,
        "guessed from the size of the coil";
    RADIATOR_MASS = "radiator.mass", "moving mass of a passive radiator", Factor, 0.04, PRACTICE,
        "like a driver's";
    RADIATOR_FS = "radiator.fs", "resonance of a passive radiator", Factor, 0.08, PRACTICE,
        "its compliance varies like a driver's";
    RADIATOR_QMS = "radiator.qms", "mechanical Q of a passive radiator", Factor, 0.20, PRACTICE,
        "like a driver's";
    RADIATOR_XMAX = "radiator.xmax", "travel of a passive radiator", Factor, 0.08, PRACTICE,
        "like a driver's";
    CUT_LENGTH = "box.length", "a length cut in wood", EvenAbsolute, 0.000_5, PRACTICE,
        "half a millimetre at a saw with a stop";
    CUT_POSITION = "box.position", "place of a hole in its panel", EvenAbsolute, 0.001, PRACTICE,
        "marked with pencil and square, and the cutter wanders";
    PLACED = "box.placed", "place of a part set in by hand", EvenAbsolute, 0.002, PRACTICE,
        "held with one hand, screwed with the other";
    THICKNESS = "box.thickness", "thickness of a sheet good", EvenAbsolute, 0.000_4, PRACTICE,
        "mill tolerance of thin plywood is about half a millimetre; a measured one states its own";
    DISPLACED = "box.displaced", "air taken up by parts", EvenRelative, 0.10, PRACTICE,
        "outlines are rounder than the block or cylinder they are given as";
    FILLING = "box.filling", "share of the air that lies among fibres", EvenRelative, 0.20, PRACTICE,
        "fibre settles and is teased out by hand";
    RELAXATION = "box.relaxation", "time in which fibre and air exchange heat", Factor, 0.50, PRACTICE,
        "depends on fibre thickness and packing";
    LEAK = "box.leak", "Q of the leaks of a box", Factor, 0.35, PRACTICE,
        "sealing by hand";
    VENT_LENGTH = "vent.length", "length of a vent", EvenAbsolute, 0.001, PRACTICE,
        "sawn and sanded";
    VENT_DIAMETER = "vent.diameter", "inner diameter of a vent", EvenAbsolute, 0.000_3, PRACTICE,
        "tolerance of plastic pipe";
    AMPLIFIER_RESISTANCE = "amplifier.resistance", "resistance in an output stage", Factor, 0.12, PRACTICE,
        "rises by a third from cold to hot";
    AMPLIFIER_IDLE = "amplifier.idle", "idle current of a board", Factor, 0.15, PRACTICE,
        "depends on supply voltage, lamps and radio";
    AMPLIFIER_GAIN = "amplifier.gain", "gain of a board", Factor, 0.02, PRACTICE,
        "set by resistors";
    SOURCE_LEVEL = "source.level", "highest level of a source", Factor, 0.10, PRACTICE,
        "telephones differ";
    BATTERY_CAPACITY = "battery.capacity", "capacity of a battery", EvenRelative, 0.08, PRACTICE,
        "label against what is delivered when nearly new";
    BATTERY_AGE = "battery.age", "share of the new capacity left", EvenRelative, 0.08, PRACTICE,
        "from new to some two hundred cycles; the middle of that is counted";
    BATTERY_RESISTANCE = "battery.resistance", "resistance of a battery", Factor, 0.15, PRACTICE,
        "charge, temperature and connectors";
    WEIGHT = "weight", "weight of a bought part", EvenRelative, 0.05, PRACTICE,
        "published weights are rounded";
    WEIGHT_GUESSED = "weight.guessed", "weight of what is not listed", EvenRelative, 0.40, PRACTICE,
        "wire, screws, glue, finish, and parts whose weight is not given";
    DENSITY = "sheet.density", "density of a sheet good", EvenRelative, 0.06, PRACTICE,
        "moisture and glue";
    PRICE = "price", "price of a part still to be bought", EvenRelative, 0.10, PRACTICE,
        "shops and postage";
    PLACE = "place", "temperature, room and listening height", None, 0.0, PRACTICE,
        "varies only where a tolerance is stated";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_unique() {
        let mut ids: Vec<_> = ALL.iter().map(|row| row.id).collect();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), ALL.len());
    }
}
