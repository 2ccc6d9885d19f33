//! From the battery to everything that draws.

use super::super::aside::{LIGHT, is_radio, own_current, stands};
use super::super::colour::Duty;
use super::super::draft::Draft;
use super::super::kinds;
use super::super::model::ElectricPart;
use super::super::named::{Named, What};
use super::Given;
use design::{ChargePath, Contacts, ControlKind, CutOff, Does, Ground};
use wiring::{Carries, End, Kind, Part};

/// What the rest of the net list asks of the supply.
pub(super) struct Supply {
    /// The radio module.
    pub(super) radio: Option<usize>,
}

/// Something that draws behind the main switch: where it takes supply, and where it gives it back.
struct Taker {
    plus: End,
    minus: End,
}

pub(super) fn supply(draft: &mut Draft, given: &Given<'_>, amplifier: usize) -> Supply {
    let (sources, minus) = batteries(draft, given);
    let (fed, charged) = switched(draft, given, &sources);
    let radio = radio(draft, given);
    let mut takers = vec![Taker {
        plus: draft.end(amplifier, "+"),
        minus: draft.end(amplifier, "-"),
    }];
    takers.extend(radio_supply(draft, given, radio));
    takers.extend(small_loads(draft, given));
    let held = cut_off(draft, given, fed);
    let out = held.as_ref().map_or(fed, |held| held.out);
    let mut returns: Vec<End> = takers.iter().map(|taker| taker.minus).collect();
    returns.extend(held.as_ref().map(|held| held.minus));
    let meet = distribute(draft, out, &minus, &takers, &returns);
    // A charger behind the contact could not reach a battery that was cut off.
    let behind = held.map_or(meet[0], |held| held.entry);
    charging(draft, given, charged, [sources[0], behind], &minus, meet[1]);
    Supply { radio }
}

/// Batteries, each with a fuse of its own: the far ends of the fuses, and the negative poles.
fn batteries(draft: &mut Draft, given: &Given<'_>) -> (Vec<End>, Vec<End>) {
    let used = &given.design.battery;
    let mut holders = given.all(Does::Fuse);
    let count = used.count.max(1);
    let letter = |index: u32| match count {
        1 => String::new(),
        _ => format!(" {}", char::from(b'A' + (index % 26) as u8)),
    };
    let mut sources = Vec::new();
    let mut returns = Vec::new();
    for index in 0..count {
        let behind = ElectricPart {
            table: "battery".into(),
            place: Some(used.place),
            assumed: false,
            ..ElectricPart::unnamed(used.part.common.name.text.as_str())
        };
        let [empty, full] = given.volts;
        let name = format!("battery{}", letter(index));
        let battery = draft.add(kinds::battery(&name, [empty, full]), behind);
        let part = kinds::fuse(&format!("fuse{}", letter(index)));
        let fuse = match holders.next() {
            Some(named) => draft.add(part, ElectricPart::named(named)),
            None => draft.assume(part, "a fuse in a holder, close to the battery"),
        };
        let (plus, near) = (draft.end(battery, "+"), draft.end(fuse, "1"));
        draft.wire(plus, near, Carries::Supply, Duty::Plus);
        sources.push(draft.end(fuse, "2"));
        returns.push(draft.end(battery, "-"));
    }
    (sources, returns)
}

/// The contacts of a switch of the panel; one that opens and closes where it does not say.
fn contacts(named: &Named<'_>) -> Contacts {
    let What::Panel(used) = named.what else {
        return Contacts::Spst;
    };
    let said = used.part.electric.contacts.as_ref();
    said.map_or(Contacts::Spst, |contacts| contacts.value)
}

/// The main switch, and a selector before it: what they feed, and where the charger goes.
fn switched(draft: &mut Draft, given: &Given<'_>, sources: &[End]) -> (End, Option<End>) {
    let selector = given.first(Does::ChargeSelector);
    let power = given.first(Does::Power);
    let mut from = sources.to_vec();
    let mut charged = None;
    if let Some(named) = selector.filter(|named| contacts(named).throws() == 2) {
        let off = matches!(
            contacts(named),
            Contacts::SpdtCentreOff | Contacts::DpdtCentreOff
        );
        let alone = power.is_none() && off;
        let name = if alone {
            "main switch"
        } else {
            "charge selector"
        };
        let part = draft.add(
            kinds::switch(name, contacts(named)),
            ElectricPart::named(named),
        );
        let common = draft.end(part, "1");
        for source in from {
            draft.wire(source, common, Carries::Supply, Duty::Plus);
        }
        charged = Some(draft.end(part, "3"));
        from = vec![draft.end(part, "2")];
        if alone {
            return (from[0], charged);
        }
    }
    let part = match power {
        Some(named) => draft.add(
            kinds::switch("main switch", contacts(named)),
            ElectricPart::named(named),
        ),
        None => draft.assume(
            kinds::switch("main switch", Contacts::Spst),
            "a main switch",
        ),
    };
    let common = draft.end(part, "1");
    for source in from {
        draft.wire(source, common, Carries::Supply, Duty::Plus);
    }
    (draft.end(part, "2"), charged)
}

/// The radio module, of the panel or inside, without its wires.
fn radio(draft: &mut Draft, given: &Given<'_>) -> Option<usize> {
    let named = given.all(Does::Radio).find(|named| is_radio(named))?;
    let behind = drawing(given, Does::Radio, ElectricPart::named(named));
    Some(draft.add(kinds::radio("radio", stands(named)), behind))
}

/// What stands behind a part, with the current that it draws.
fn drawing(given: &Given<'_>, does: Does, behind: ElectricPart) -> ElectricPart {
    let [empty, _] = given.volts;
    let current = given.aside.current(does, empty);
    ElectricPart {
        idle: current,
        continuous: current,
        peak: current,
        ..behind
    }
}

/// What feeds the radio: itself, or a converter before it, either behind its own switch.
fn radio_supply(draft: &mut Draft, given: &Given<'_>, radio: Option<usize>) -> Option<Taker> {
    let converter = given.first(Does::RadioSupply);
    let Some(radio) = radio else {
        let part = add_converter(draft, given, Some(converter?))?;
        return Some(Taker {
            plus: draft.end(part, "in +"),
            minus: draft.end(part, "in -"),
        });
    };
    let mut taker = Taker {
        plus: draft.end(radio, "+"),
        minus: draft.end(radio, "-"),
    };
    if let Some(part) = add_converter(draft, given, converter) {
        draft.system.parts[radio].fed_by = Some(part);
        let (plus, minus) = (draft.end(part, "out +"), draft.end(part, "out -"));
        draft.wire(plus, taker.plus, Carries::Supply, Duty::Derived);
        draft.wire(minus, taker.minus, Carries::Supply, Duty::Return);
        taker = Taker {
            plus: draft.end(part, "in +"),
            minus: draft.end(part, "in -"),
        };
    }
    let is_switch = |named: &&Named<'_>| match named.what {
        What::Panel(used) => used.part.kind.value == ControlKind::Switch,
        What::Module(_) => false,
    };
    if let Some(named) = given.all(Does::Radio).find(is_switch) {
        let part = kinds::switch("radio switch", contacts(named));
        let switch = draft.add(part, ElectricPart::named(named));
        let out = draft.end(switch, "2");
        draft.wire(out, taker.plus, Carries::Supply, Duty::Switched);
        taker.plus = draft.end(switch, "1");
    }
    Some(taker)
}

/// The converter, named or assumed, where one feeds the radio.
fn add_converter(draft: &mut Draft, given: &Given<'_>, named: Option<&Named<'_>>) -> Option<usize> {
    let volts = given.aside.converted?.volts;
    let wanted = given.design.wiring.ground.value == Ground::IsolatedConverter;
    let module = named.and_then(|named| named.part());
    let isolated = module.map_or(wanted, |own| own.isolated.value);
    let stands = named.and_then(stands);
    let part = kinds::converter("converter", stands, [volts, volts], isolated);
    let index = match named {
        Some(named) => draft.add(part, ElectricPart::named(named)),
        None => {
            let kind = if isolated { "an isolated" } else { "a" };
            let words = format!("{kind} converter to {volts:.1} V for the radio module");
            draft.assume(part, &words)
        }
    };
    let behind = draft.parts[index].clone();
    draft.parts[index] = drawing(given, Does::RadioSupply, behind);
    Some(index)
}

/// Lights, the meter and the indicator.
fn small_loads(draft: &mut Draft, given: &Given<'_>) -> Vec<Taker> {
    let mut takers = Vec::new();
    takers.extend(indicator(draft, given));
    if let Some(named) = given.first(Does::PowerLight) {
        takers.push(light(draft, given, named));
    }
    if let Some(named) = given.first(Does::Voltage) {
        let behind = drawing(given, Does::Voltage, ElectricPart::named(named));
        let part = kinds::load(Kind::Meter, "meter", stands(named));
        let meter = draft.add(part, behind);
        takers.push(Taker {
            plus: draft.end(meter, "+"),
            minus: draft.end(meter, "-"),
        });
    }
    takers
}

/// A light behind the main switch, with a resistor where it has none of its own.
fn light(draft: &mut Draft, given: &Given<'_>, named: &Named<'_>) -> Taker {
    let part = bare_light(draft, "power light", named);
    let mut plus = draft.end(part, "+");
    if let Some(resistor) = light_resistor(draft, given, named) {
        let out = draft.end(resistor, "2");
        draft.wire(out, plus, Carries::Supply, Duty::Switched);
        plus = draft.end(resistor, "1");
    }
    Taker {
        plus,
        minus: draft.end(part, "-"),
    }
}

fn bare_light(draft: &mut Draft, name: &str, named: &Named<'_>) -> usize {
    let current = own_current(named, LIGHT);
    let behind = ElectricPart {
        idle: current,
        continuous: current,
        peak: current,
        ..ElectricPart::named(named)
    };
    draft.add(kinds::load(Kind::Light, name, None), behind)
}

/// The resistor of a bare light: the next value above what passes its current at full battery.
fn light_resistor(draft: &mut Draft, given: &Given<'_>, named: &Named<'_>) -> Option<usize> {
    let What::Panel(used) = named.what else {
        return None;
    };
    let forward = used.part.electric.forward_voltage?.si;
    let [_, full] = given.volts;
    let least = (full - forward).max(0.0) / own_current(named, LIGHT);
    let ohms = *design::Series::E12.between(least, 10.0 * least).first()?;
    let words = format!("resistor {}", crate::words::number(ohms, "Ω"));
    let part = kinds::resistor("light resistor", ohms);
    Some(draft.small(part, words))
}

/// The low-battery indicator and its light.
fn indicator(draft: &mut Draft, given: &Given<'_>) -> Option<Taker> {
    let is_light = |named: &&Named<'_>| matches!(named.what, What::Panel(_));
    let board = given.all(Does::LowBattery).find(|named| !is_light(named));
    let light = given.all(Does::LowBattery).find(is_light);
    if board.is_none() && light.is_none() && given.design.indicator.is_none() {
        return None;
    }
    let part = match board {
        Some(named) => {
            let behind = drawing(given, Does::LowBattery, ElectricPart::named(named));
            draft.add(kinds::indicator("indicator", stands(named)), behind)
        }
        None => {
            let part = kinds::indicator("indicator", None);
            let mut behind = ElectricPart::unnamed("the indicator's board");
            if let Some(used) = &given.design.indicator {
                behind.table = "indicator".into();
                behind.place = Some(used.place);
                behind.assumed = false;
            }
            draft.add(part, drawing(given, Does::LowBattery, behind))
        }
    };
    let lamp = match light {
        Some(named) => Some(bare_light(draft, "low-battery light", named)),
        // The board of a module carries its own.
        None if board.is_some() => None,
        None => {
            let part = kinds::load(Kind::Light, "low-battery light", None);
            Some(draft.assume(part, "a light for the low-battery indicator"))
        }
    };
    if let Some(lamp) = lamp {
        draft.system.parts[lamp].fed_by = Some(part);
        for (out, end) in [("light +", "+"), ("light -", "-")] {
            let (from, to) = (draft.end(part, out), draft.end(lamp, end));
            let duty = if end == "+" {
                Duty::Derived
            } else {
                Duty::Return
            };
            draft.wire(from, to, Carries::Supply, duty);
        }
    }
    Some(Taker {
        plus: draft.end(part, "+"),
        minus: draft.end(part, "-"),
    })
}

/// The contact that opens when the battery is low.
struct Held {
    entry: End,
    minus: End,
    out: End,
}

/// What opens when the battery is low, between the main switch and the rest.
fn cut_off(draft: &mut Draft, given: &Given<'_>, fed: End) -> Option<Held> {
    let wanted = given.design.indicator.as_ref();
    let used = wanted.filter(|used| used.cut_off.value != CutOff::None)?;
    let [empty, _] = given.volts;
    let coil = given.aside.cut_off(empty);
    let behind = ElectricPart {
        table: "indicator".into(),
        place: Some(used.place),
        assumed: false,
        idle: coil,
        continuous: coil,
        peak: coil,
        ..ElectricPart::unnamed("what the indicator switches off with")
    };
    let part = draft.add(kinds::cut_off("cut-off"), behind);
    let entry = draft.end(part, "in");
    draft.wire(fed, entry, Carries::Supply, Duty::Switched);
    Some(Held {
        entry,
        minus: draft.end(part, "-"),
        out: draft.end(part, "out"),
    })
}

/// Leads supply and return to everything that draws: where both meet.
fn distribute(
    draft: &mut Draft,
    fed: End,
    minus: &[End],
    takers: &[Taker],
    returns: &[End],
) -> [End; 2] {
    let [first, ..] = takers else {
        return [fed, minus[0]];
    };
    if returns.len() == 1 {
        draft.wire(fed, first.plus, Carries::Supply, Duty::Switched);
        for &pole in minus {
            draft.wire(pole, first.minus, Carries::Supply, Duty::Return);
        }
        return [first.plus, first.minus];
    }
    let strip = |draft: &mut Draft, name: &str, ways: usize| {
        let part: Part = kinds::strip(name, ways);
        draft.small(part, format!("terminal strip, {ways} ways"))
    };
    let plus = strip(draft, "supply strip", takers.len() + 1);
    let ground = strip(draft, "ground strip", returns.len() + minus.len() + 1);
    let entry = draft.end(plus, "1");
    draft.wire(fed, entry, Carries::Supply, Duty::Switched);
    for (index, &pole) in minus.iter().enumerate() {
        let way = draft.end(ground, &(index + 1).to_string());
        draft.wire(pole, way, Carries::Supply, Duty::Return);
    }
    for (index, taker) in takers.iter().enumerate() {
        let way = draft.end(plus, &(index + 2).to_string());
        draft.wire(way, taker.plus, Carries::Supply, Duty::Switched);
    }
    for (index, &back) in returns.iter().enumerate() {
        let way = draft.end(ground, &(index + 1 + minus.len()).to_string());
        draft.wire(way, back, Carries::Supply, Duty::Return);
    }
    let last = (returns.len() + minus.len() + 1).to_string();
    [entry, draft.end(ground, &last)]
}

/// The charger's socket: before the main switch, behind it, or at a selector.
fn charging(
    draft: &mut Draft,
    given: &Given<'_>,
    selected: Option<End>,
    [before, behind]: [End; 2],
    minus: &[End],
    ground: End,
) {
    let named = given.first(Does::Charging);
    let inside = given.design.battery.charged_inside.value;
    let socket = match named {
        Some(named) => draft.add(
            kinds::charge_socket("charging socket"),
            ElectricPart::named(named),
        ),
        None if inside => {
            draft.assume(kinds::charge_socket("charging socket"), "a charging socket")
        }
        None => return,
    };
    let shared = given.design.wiring.charging.value == ChargePath::Shared;
    let plus = selected.unwrap_or(if shared { behind } else { before });
    let return_to = if shared { ground } else { minus[0] };
    let (own, back) = (draft.end(socket, "+"), draft.end(socket, "-"));
    draft.wire(own, plus, Carries::Charge, Duty::Charge);
    draft.wire(back, return_to, Carries::Charge, Duty::Return);
}
