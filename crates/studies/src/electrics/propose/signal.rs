//! From the sources to the amplifier's inputs.

use super::super::colour::Duty;
use super::super::draft::Draft;
use super::super::kinds::{self, sided};
use super::super::model::ElectricPart;
use super::super::named::{Named, What};
use super::Given;
use design::{Does, Sum};
use wiring::{Carries, End, Role, Side};

/// Each resistor of a sum where the design states none, in Ω: common practice, no source
/// (470 Ω to 1 kΩ keeps a source of some 100 Ω from driving the other).
const SUM_RESISTOR: f64 = 1000.0;

/// Track of a level control that states none, in Ω: common practice, no source.
const TRACK: f64 = 10_000.0;

/// A source of signal: what gives each side, and what it is measured against.
struct Source {
    gives: Vec<(Side, End)>,
    ground: End,
    name: String,
}

pub(super) fn signal(draft: &mut Draft, given: &Given<'_>, amplifier: usize, radio: Option<usize>) {
    let sources = sources(draft, given, radio);
    let inputs: Vec<(Side, End)> = given
        .sides
        .iter()
        .map(|&side| (side, draft.end(amplifier, &sided(side, "in"))))
        .collect();
    let volume = volume(draft, given);
    let ground = draft.end(amplifier, "signal ground");
    let entries: Vec<(Side, End)> = match volume {
        Some(volume) => through(draft, volume, &inputs, ground),
        None => inputs,
    };
    let meet = volume.map_or(ground, |volume| {
        let bottom = draft.system.parts[volume].of_role(Role::Bottom).next();
        bottom.map_or(ground, |terminal| End {
            part: volume,
            terminal,
        })
    });
    for source in &sources {
        draft.wire(source.ground, meet, Carries::Signal, Duty::SignalGround);
    }
    for (side, entry) in entries {
        feed(draft, given, &sources, side, entry);
    }
}

/// The sockets and the radio; a socket is assumed where there is neither.
fn sources(draft: &mut Draft, given: &Given<'_>, radio: Option<usize>) -> Vec<Source> {
    let named: Vec<&Named<'_>> = given.all(Does::Input).collect();
    let single = given.sides.len() == 1;
    let summed = given.design.source.sum.value == Sum::Resistors;
    let ring_used = !single || summed;
    let mut sockets = Vec::new();
    let pair = named.len() == 2 && named.iter().all(|named| poles(named) == Some(2));
    for (index, named) in named.iter().enumerate() {
        let mono = poles(named) == Some(2);
        let tip = match (pair, mono, index) {
            (true, _, 1) => Side::Right,
            (false, true, _) => Side::Mono,
            _ => Side::Left,
        };
        let ring = (!mono && ring_used).then_some(Side::Right);
        let switched = !pair && radio.is_some() && breaks(named);
        let part = kinds::jack("input", tip, ring, switched);
        sockets.push(draft.add(part, ElectricPart::named(named)));
    }
    if sockets.is_empty() && radio.is_none() {
        let part = kinds::jack("input", Side::Left, ring_used.then_some(Side::Right), false);
        sockets.push(draft.assume(part, "a 3.5 mm signal socket"));
    }
    let mut sources: Vec<Source> = sockets.iter().map(|&part| source(draft, part)).collect();
    if let Some(radio) = radio {
        if !ring_used {
            let right = draft.system.parts[radio].of_role(Role::SignalOut).nth(1);
            let right = right.expect("a radio is made with two outputs");
            draft.system.parts[radio].terminals[right].role = Role::Contact;
        }
        let own = source(draft, radio);
        let first = sockets.first().copied();
        let breaking = first.filter(|part| !draft.system.parts[*part].positions.is_empty());
        match breaking {
            Some(socket) => radio_through(draft, socket, own),
            None => sources.push(own),
        }
    }
    sources
}

fn poles(named: &Named<'_>) -> Option<u32> {
    match named.what {
        What::Panel(used) => used.part.electric.poles,
        What::Module(_) => None,
    }
}

/// Whether a socket opens contacts when a plug goes in.
fn breaks(named: &Named<'_>) -> bool {
    match named.what {
        What::Panel(used) => {
            let switched = used.part.electric.switched.as_ref();
            switched.is_some_and(|switched| switched.value)
        }
        What::Module(_) => false,
    }
}

fn source(draft: &Draft, part: usize) -> Source {
    let own = &draft.system.parts[part];
    let end = |terminal| End { part, terminal };
    let gives = own
        .of_role(Role::SignalOut)
        .map(|terminal| {
            let side = own.terminals[terminal].side.unwrap_or(Side::Mono);
            (side, end(terminal))
        })
        .collect();
    let ground = own.of_role(Role::SignalGround).next();
    Source {
        gives,
        ground: end(ground.expect("a source is made with a ground")),
        name: own.name.clone(),
    }
}

/// The radio's outputs go through the contacts of the socket, which a plug opens.
fn radio_through(draft: &mut Draft, socket: usize, radio: Source) {
    let own = draft.system.parts[socket].clone();
    for (index, terminal) in own.of_role(Role::SignalOut).enumerate() {
        let Some((side, end)) = radio.gives.get(index).copied() else {
            continue;
        };
        let name = format!("{} switch", own.terminals[terminal].name);
        let to = draft.end(socket, &name);
        draft.wire(end, to, Carries::Signal, Duty::Signal(side));
    }
    let sleeve = draft.end(socket, "sleeve");
    draft.wire(radio.ground, sleeve, Carries::Signal, Duty::SignalGround);
}

/// The level control, where one is named.
fn volume(draft: &mut Draft, given: &Given<'_>) -> Option<usize> {
    let named = given.first(Does::Volume)?;
    let What::Panel(used) = named.what else {
        return None;
    };
    let electric = &used.part.electric;
    let gangs = electric.gangs.unwrap_or(given.sides.len() as u32) as usize;
    let sides: Vec<Side> = given.sides.iter().copied().take(gangs).collect();
    let ohms = electric.resistance.map_or(TRACK, |value| value.si);
    let names = match sides.as_slice() {
        [_] => vec![Side::Mono],
        _ => sides,
    };
    let part = draft.add(
        kinds::volume("volume", &names, ohms),
        ElectricPart::named(named),
    );
    if names.len() < given.sides.len() {
        draft.doubts.push((
            part,
            "The level control has one track, the box two channels: it sets the left one alone."
                .into(),
            "take a level control with two tracks".into(),
        ));
    }
    Some(part)
}

/// Wipers to the inputs, the lower ends to ground: where the sources go.
fn through(
    draft: &mut Draft,
    volume: usize,
    inputs: &[(Side, End)],
    ground: End,
) -> Vec<(Side, End)> {
    let own = draft.system.parts[volume].clone();
    let ends = |role: Role| -> Vec<End> {
        own.of_role(role)
            .map(|terminal| End {
                part: volume,
                terminal,
            })
            .collect()
    };
    let (tops, wipers, bottoms) = (ends(Role::Top), ends(Role::Wiper), ends(Role::Bottom));
    let mut entries = Vec::new();
    for (index, &(side, input)) in inputs.iter().enumerate() {
        let Some(&top) = tops.get(index) else {
            entries.push((side, input));
            continue;
        };
        draft.wire(wipers[index], input, Carries::Signal, Duty::Signal(side));
        entries.push((side, top));
    }
    for pair in bottoms.windows(2) {
        draft.wire(pair[0], pair[1], Carries::Signal, Duty::SignalGround);
    }
    draft.wire(bottoms[0], ground, Carries::Signal, Duty::SignalGround);
    entries
}

/// Leads every source to one entry, through a resistor each where there are several.
fn feed(draft: &mut Draft, given: &Given<'_>, sources: &[Source], side: Side, entry: End) {
    let single = given.sides.len() == 1;
    let mut feeding: Vec<(Side, End, String)> = Vec::new();
    for source in sources {
        for &(own, end) in &source.gives {
            if single || own == Side::Mono || own == side {
                feeding.push((own, end, source.name.clone()));
            }
        }
    }
    if let [(own, end, _)] = feeding.as_slice() {
        draft.wire(*end, entry, Carries::Signal, Duty::Signal(*own));
        return;
    }
    let ohms = given
        .design
        .source
        .sum_resistor
        .map_or(SUM_RESISTOR, |value| value.si);
    let mut meets: Option<End> = None;
    for (own, end, name) in feeding {
        let label = format!("{name} resistor {}", kinds::side_word(own));
        let part = kinds::resistor(label.trim_end(), ohms);
        let words = format!("resistor {}", crate::words::prefixed(ohms, "Ω"));
        let resistor = draft.small(part, words);
        let (near, far) = (draft.end(resistor, "1"), draft.end(resistor, "2"));
        draft.wire(end, near, Carries::Signal, Duty::Signal(own));
        let to = meets.unwrap_or(entry);
        draft.wire(far, to, Carries::Signal, Duty::Signal(side));
        meets = Some(meets.unwrap_or(far));
    }
}
