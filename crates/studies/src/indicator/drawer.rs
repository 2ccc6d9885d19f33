//! The shelf as the search takes it, and back.

use design::{
    CapacitorKind, CapacitorPart, Common, ComparatorPart, IndicatorUse, LedPart, LightColour,
    Project, ReferencePart, ResistorPart, Shelf, VoltageReference, ZenerPart,
};
use physics::indicator::search::{Drawer, Lamp, Offer};
use physics::indicator::{Capacitor, Comparator, Reference, Resistor};

/// The parts of a shelf with their names.
pub(super) struct Named<'a> {
    pub(super) drawer: Drawer,
    pub(super) comparators: Vec<&'a ComparatorPart>,
    /// Name of each reference.
    pub(super) references: Vec<&'a Common>,
    /// Drawer of each capacitor.
    pub(super) capacitors: Vec<&'a CapacitorPart>,
    pub(super) led: Option<&'a LedPart>,
    shelf: &'a Shelf,
}

/// Resistors rated above are too bulky for a small board, in W.
const SMALL: f64 = 1.0;

/// Leakage of an electrolytic capacitor in A per F at the few volts it has here:
/// common practice, no source (0.002 CV at 5 V).
const LEAKAGE: f64 = 0.01;

/// How far the board's temperature is taken to lie from that of the data, in K.
const AWAY: f64 = 20.0;

/// Share of a zener's test current below which its knee begins, and of its rated
/// power that it is run at: common practice, no source.
const KNEE: f64 = 0.25;
const RUN_AT: f64 = 0.8;

/// How far a slope of a reference may be off, as a share: common practice, no source.
const SLOPE_OFF: f64 = 0.5;

impl<'a> Named<'a> {
    /// What the design allows of what the shelf has, for a battery of so many
    /// volts at most.
    pub(super) fn of(project: &'a Project, used: &'a IndicatorUse, highest: f64) -> Self {
        let shelf = &project.shelf;
        let led = used
            .led
            .as_ref()
            .map(|(part, _)| part)
            .or_else(|| usual_led(shelf));
        let comparators: Vec<&ComparatorPart> = match &used.comparator {
            Some((part, _)) => vec![part],
            None => shelf
                .comparators
                .iter()
                .filter(|part| darkens(part, led))
                .collect(),
        };
        let (references, offers): (Vec<_>, Vec<_>) = match &used.reference {
            Some((VoltageReference::Zener(zener), _)) => vec![of_zener(zener)],
            Some((VoltageReference::Shunt(shunt), _)) => vec![of_shunt(shunt)],
            None => {
                let zeners = shelf.zeners.iter().map(of_zener);
                zeners
                    .chain(shelf.references.iter().map(of_shunt))
                    .collect()
            }
        }
        .into_iter()
        .unzip();
        let (capacitors, caps) = shelf
            .capacitors
            .iter()
            .filter(|part| part.voltage.si >= highest)
            .flat_map(|part| {
                part.values
                    .iter()
                    .map(move |farads| (part, of_capacitor(part, *farads)))
            })
            .unzip();
        let small = shelf.resistors.iter().filter(|part| part.power.si < SMALL);
        Self {
            drawer: Drawer {
                resistors: small
                    .flat_map(|part| part.values.iter().map(|ohms| of_resistor(part, *ohms)))
                    .collect(),
                capacitors: caps,
                references: offers,
                comparators: comparators.iter().map(|part| of_comparator(part)).collect(),
            },
            comparators,
            references,
            capacitors,
            led,
            shelf,
        }
    }

    /// The drawer that holds a resistor.
    pub(super) fn resistor(&self, one: Resistor) -> Option<&'a ResistorPart> {
        let of = |part: &&ResistorPart| {
            part.power.si < SMALL
                && part.tolerance.si == one.tolerance
                && part.values.contains(&one.ohms)
        };
        self.shelf.resistors.iter().find(of)
    }

    /// The capacitor without polarity whose value comes nearest, by ratio.
    pub(super) fn unpolar(&self, farads: f64) -> Option<(&'a CapacitorPart, f64)> {
        let far = |value: f64| physics::math::ln(value / farads).abs();
        let all = self.capacitors.iter().zip(&self.drawer.capacitors);
        all.filter(|(part, _)| part.kind.value != CapacitorKind::Electrolytic)
            .map(|(part, offer)| (*part, offer.part.farads))
            .min_by(|a, b| far(a.1).total_cmp(&far(b.1)))
    }

    /// What the lamp wants.
    pub(super) fn lamp(&self) -> Option<Lamp> {
        self.led.map(|led| Lamp {
            forward: led.forward_voltage.si,
            current: led.current.si,
            most_current: led.most_current.si,
        })
    }
}

/// Share of a lamp's forward voltage at which it begins to glow: common practice, no source.
pub(super) const GLOW: f64 = 0.8;

/// Whether an output, when high, leaves a lamp dark.
fn darkens(part: &ComparatorPart, led: Option<&LedPart>) -> bool {
    let loss = part.output_high.map_or(0.0, |value| value.si);
    led.is_none_or(|led| loss < GLOW * led.forward_voltage.si)
}

fn offer<T>(common: &Common, part: T) -> Offer<T> {
    Offer {
        part,
        to_buy: common.on_hand == 0,
    }
}

/// One in the drawer before one to be bought, red before other colours.
fn usual_led(shelf: &Shelf) -> Option<&LedPart> {
    let rank = |led: &&LedPart| {
        (
            led.common.on_hand == 0,
            led.colour.value != LightColour::Red,
        )
    };
    shelf.leds.iter().min_by_key(rank)
}

fn of_resistor(part: &ResistorPart, ohms: f64) -> Offer<Resistor> {
    offer(
        &part.common,
        Resistor {
            ohms,
            tolerance: part.tolerance.si,
        },
    )
}

fn of_capacitor(part: &CapacitorPart, farads: f64) -> Offer<Capacitor> {
    let leakage = match part.kind.value {
        CapacitorKind::Film | CapacitorKind::Ceramic => 0.0,
        CapacitorKind::Electrolytic | CapacitorKind::Bipolar => LEAKAGE * farads,
    };
    offer(
        &part.common,
        Capacitor {
            farads,
            tolerance: part.tolerance.si,
            leakage,
        },
    )
}

pub(super) fn of_comparator(part: &ComparatorPart) -> Offer<Comparator> {
    offer(
        &part.common,
        Comparator {
            output_high: part.output_high.map(|value| value.si),
            sink: part.output_low.si / part.output_current.si,
            sink_current: part.output_current.si,
            offset: part.offset.si,
            bias: part.bias_current.si,
            supply_current: part.supply_current.si,
            supply: [part.supply_min.si, part.supply_max.si],
            input_low: part.input_low.si,
            input_high: part.input_high.si,
        },
    )
}

fn of_zener(part: &ZenerPart) -> (&Common, Offer<Reference>) {
    let volts = part.voltage.si;
    let reference = Reference {
        volts,
        tolerance: part.tolerance.si,
        drift: zener_drift(volts) * AWAY / volts,
        rated_current: part.test_current.si,
        slope: part.impedance.si,
        slope_tolerance: SLOPE_OFF,
        least_current: KNEE * part.test_current.si,
        most_current: RUN_AT * part.power.si / volts,
    };
    (&part.common, offer(&part.common, reference))
}

/// Amount of a zener's temperature coefficient in V/K: tunnelling below some
/// 5.2 V, avalanche above (from memory, rounded).
fn zener_drift(volts: f64) -> f64 {
    (1.2e-3 * (volts - 5.2)).max(-2e-3).abs().max(0.3e-3)
}

fn of_shunt(part: &ReferencePart) -> (&Common, Offer<Reference>) {
    let reference = Reference {
        volts: part.voltage.si,
        tolerance: part.tolerance.si,
        drift: part.drift.map_or(0.0, |value| value.si),
        rated_current: part.least_current.si,
        slope: part.impedance.map_or(0.0, |value| value.si),
        slope_tolerance: SLOPE_OFF,
        least_current: part.least_current.si,
        most_current: part.most_current.si,
    };
    (&part.common, offer(&part.common, reference))
}
