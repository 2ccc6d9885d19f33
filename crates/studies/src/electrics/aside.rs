//! What the parts beside the amplifier take from the battery while the box is on: the one place
//! that playing time, heat, fuse and wires read it from.

use super::named::{self, Named, What};
use design::{
    ControlKind, CutOff, Design, Does, Ground, ModuleKind, ModulePart, Project, SwitchingKind,
    Value,
};

/// Power that grows with the supply as a current does, and power that does not depend on it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Share {
    /// Current in A, whatever the voltage.
    amperes: f64,
    /// Power in W, whatever the voltage.
    watts: f64,
}

impl Share {
    const fn current(amperes: f64) -> Self {
        Self {
            amperes,
            watts: 0.0,
        }
    }

    /// Power in W at so many volts.
    pub(crate) fn power(self, volts: f64) -> f64 {
        self.amperes * volts + self.watts
    }

    /// Current in A at so many volts.
    pub(crate) fn amperes(self, volts: f64) -> f64 {
        self.amperes + self.watts / volts
    }

    fn and(self, other: Self) -> Self {
        Self {
            amperes: self.amperes + other.amperes,
            watts: self.watts + other.watts,
        }
    }
}

/// One part that draws while the box is on.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Taker {
    /// What it is for; nothing a maker names where it is the coil of the cut-off's relay.
    pub(super) does: Option<Does>,
    /// Its place in the list of modules, where it is one of them.
    pub(crate) module: Option<usize>,
    /// What flows in at its own terminals.
    pub(crate) own: Share,
    /// What it takes from the battery: nothing where a converter feeds it.
    pub(crate) drawn: Share,
    /// What it turns into heat.
    pub(crate) heat: Share,
}

/// What a converter gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Converted {
    /// Voltage in V.
    pub(super) volts: f64,
}

/// Everything beside the amplifier that draws while the box is on.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Aside {
    pub(crate) takers: Vec<Taker>,
    /// What feeds the radio module, where a converter does.
    pub(super) converted: Option<Converted>,
}

/// Current of a radio module that states none, in A: common practice, no source.
const RADIO: f64 = 0.05;

/// Current of a light or a meter that states none, in A: common practice, no source.
pub(super) const LIGHT: f64 = 0.01;

/// Current of an indicator that states none, in A: common practice, no source.
const INDICATOR: f64 = 0.005;

/// Current of a cut-off that has opened, in A: comparator, reference and divider go on watching
/// the battery; common practice, no source.
pub(super) const WATCHING: f64 = 0.2e-3;

/// Power of a relay's coil where the shelf has no relay for this battery, in W: common practice,
/// no source.
const COIL: f64 = 0.4;

/// How far above its rated voltage a coil may be held for long: common practice, no source.
const COIL_MOST: f64 = 1.3;

/// Share of its rated voltage at which a coil that does not say surely pulls in: common
/// practice, no source.
const PULL_IN: f64 = 0.75;

/// Share of what a converter takes that it gives, where it states none: common practice, no
/// source.
const EFFICIENCY: f64 = 0.8;

impl Aside {
    /// What a design draws from a battery of so many volts when empty and when full.
    pub(crate) fn of(project: &Project, volts: [f64; 2]) -> Self {
        let design = &project.design;
        let named = named::all(design);
        let mut aside = Self::default();
        aside.radio(design, &named, volts);
        aside.small(design, &named);
        aside.coil(project, volts);
        aside
    }

    /// What all of it takes from the battery.
    pub(crate) fn drawn(&self) -> Share {
        let each = self.takers.iter().map(|taker| taker.drawn);
        each.fold(Share::default(), Share::and)
    }

    /// Current in A into the terminals of the part that is there for something, at so many volts.
    pub(crate) fn current(&self, does: Does, volts: f64) -> f64 {
        self.taken(Some(does), volts)
    }

    /// Current in A of the coil that holds the cut-off closed; 0 where it has none.
    pub(super) fn cut_off(&self, volts: f64) -> f64 {
        self.taken(None, volts)
    }

    fn taken(&self, does: Option<Does>, volts: f64) -> f64 {
        let mut takers = self.takers.iter();
        let own = takers.find(|taker| taker.does == does);
        own.map_or(0.0, |taker| taker.own.amperes(volts))
    }

    fn add(&mut self, does: Option<Does>, named: Option<&Named<'_>>, amperes: f64) {
        let own = Share::current(amperes);
        self.takers.push(Taker {
            does,
            module: named.and_then(Named::module),
            own,
            drawn: own,
            heat: own,
        });
    }

    fn radio(&mut self, design: &Design, named: &[Named<'_>], [empty, full]: [f64; 2]) {
        let radio = named.iter().find(|one| is_radio(one));
        let converter = first(named, Does::RadioSupply);
        let stands = radio.and_then(stands);
        let outside = stands.is_some_and(|[low, high]| empty < low || full > high);
        let isolated = design.wiring.ground.value == Ground::IsolatedConverter;
        let current = radio.map_or(0.0, |one| own_current(one, RADIO));
        if let Some(radio) = radio {
            self.add(Some(Does::Radio), Some(radio), current);
        }
        if converter.is_none() && !(radio.is_some() && (isolated || outside)) {
            return;
        }
        let part = converter.and_then(|one| one.part());
        let volts = part.and_then(|part| si(part.output_voltage));
        let volts = volts.unwrap_or_else(|| usual(stands));
        let share = part.and_then(|part| si(part.efficiency));
        let given = volts * current;
        let taken = given / share.unwrap_or(EFFICIENCY);
        let amperes = part.and_then(|part| si(part.current)).unwrap_or(0.0);
        let own = Share {
            amperes,
            watts: taken,
        };
        if let Some(fed) = self.takers.last_mut() {
            fed.drawn = Share::default();
            fed.heat = Share {
                amperes: 0.0,
                watts: given,
            };
        }
        self.converted = Some(Converted { volts });
        self.takers.push(Taker {
            does: Some(Does::RadioSupply),
            module: converter.and_then(|one| one.module()),
            own,
            drawn: own,
            heat: Share {
                amperes,
                watts: taken - given,
            },
        });
    }

    /// The indicator, the power light and the meter. The light of the indicator is dark until
    /// the battery is low.
    fn small(&mut self, design: &Design, named: &[Named<'_>]) {
        let mut low = named
            .iter()
            .filter(|one| one.does == Some(Does::LowBattery));
        let board = low.clone().find(|one| one.module().is_some());
        if let Some(board) = board {
            self.add(
                Some(Does::LowBattery),
                Some(board),
                own_current(board, INDICATOR),
            );
        } else if low.next().is_some() || design.indicator.is_some() {
            self.add(Some(Does::LowBattery), None, INDICATOR);
        }
        for does in [Does::PowerLight, Does::Voltage] {
            if let Some(one) = first(named, does) {
                self.add(Some(does), Some(one), own_current(one, LIGHT));
            }
        }
    }

    /// The coil of the relay that cuts the load off, held while the box is on: of the relays on
    /// the shelf that this battery drives, the one that takes most, at the full battery.
    fn coil(&mut self, project: &Project, [empty, full]: [f64; 2]) {
        let used = project.design.indicator.as_ref();
        if used.is_none_or(|used| used.cut_off.value != CutOff::Relay) {
            return;
        }
        let halfway = (empty + full) / 2.0;
        let coils = project.shelf.switching.iter().filter_map(|part| {
            let SwitchingKind::Relay {
                coil_voltage,
                coil_resistance,
                pull_in,
                ..
            } = &part.kind
            else {
                return None;
            };
            let pulls = pull_in.map_or(PULL_IN * coil_voltage.si, |value| value.si) <= halfway;
            let bears = full <= COIL_MOST * coil_voltage.si;
            (pulls && bears).then(|| full / coil_resistance.si)
        });
        let most = coils.fold(0.0, f64::max);
        let amperes = if most > 0.0 { most } else { COIL / full };
        self.add(None, None, amperes);
    }
}

/// Halfway between what a radio module stands, as far as that is known.
fn usual(stands: Option<[f64; 2]>) -> f64 {
    match stands {
        Some([low, high]) if high.is_finite() => (low + high) / 2.0,
        Some([low, _]) => low,
        None => 5.0,
    }
}

fn first<'a, 'b>(named: &'b [Named<'a>], does: Does) -> Option<&'b Named<'a>> {
    named.iter().find(|one| one.does == Some(does))
}

/// Whether it is the radio module itself, not a switch for it.
pub(super) fn is_radio(named: &Named<'_>) -> bool {
    named.does == Some(Does::Radio)
        && match named.what {
            What::Panel(used) => used.part.kind.value == ControlKind::Radio,
            What::Module(used) => used.part.kind.value == ModuleKind::Radio,
        }
}

fn si(value: Option<Value>) -> Option<f64> {
    value.map(|value| value.si)
}

/// Lowest and highest supply a part stands, where either is stated.
pub(super) fn stands(named: &Named<'_>) -> Option<[f64; 2]> {
    let (low, high) = match named.what {
        What::Panel(used) => {
            let own = &used.part.electric;
            (own.supply_min, own.supply_max)
        }
        What::Module(used) => (used.part.supply_min, used.part.supply_max),
    };
    if low.is_none() && high.is_none() {
        return None;
    }
    Some([si(low).unwrap_or(0.0), si(high).unwrap_or(f64::INFINITY)])
}

/// Current a part states, in A.
pub(super) fn own_current(named: &Named<'_>, usual: f64) -> f64 {
    let current = match named.what {
        What::Panel(used) => used.part.electric.current,
        What::Module(used) => used.part.current,
    };
    si(current).unwrap_or(usual)
}

impl<'a> Named<'a> {
    /// The module it is, where it is one.
    pub(super) fn part(&self) -> Option<&'a ModulePart> {
        match self.what {
            What::Module(used) => Some(&used.part),
            What::Panel(_) => None,
        }
    }

    /// Its place in the list of modules, from 0.
    pub(super) fn module(&self) -> Option<usize> {
        self.part().map(|_| self.number() - 1)
    }
}
