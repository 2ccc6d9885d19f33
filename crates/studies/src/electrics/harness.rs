//! How every wire is made: section, colour, ends, labels.

use super::colour;
use super::draft::Draft;
use super::model::{Ending, EndingKind, HarnessWire};
use super::overrides::Said;
use super::section;
use design::{Chemistry, Design, WireColour, WirePart};
use wiring::{Carries, End, Kind, Role, System};

/// Resistance of a wire in Ω at 20 °C (`iec-60228`).
pub(super) fn ohms(length: f64, square: f64) -> f64 {
    physics::wire::STRANDED_EXCESS * physics::wire::resistance(length, square, 20.0)
}

/// Every wire, its length still open.
pub(super) fn wires(draft: &Draft, said: &[Said<'_>], design: &Design) -> Vec<HarnessWire> {
    let system = &draft.system;
    let wire = |(index, wire): (usize, &wiring::Wire)| {
        let known = said[index];
        let use_of = known.wire;
        let label = format!("W{}", index + 1);
        let ends = [wire.from, wire.to].map(|end| system.name(end));
        let colour = use_of
            .and_then(|own| own.colour.as_ref())
            .map_or_else(|| colour::colour(draft.duties[index]), |own| own.value);
        HarnessWire {
            texts: [&ends[1], &ends[0]].map(|far| format!("{label} to {far}")),
            label,
            from: ends[0].clone(),
            to: ends[1].clone(),
            carries: wire.carries,
            section: 0.0,
            stock: None,
            colour,
            run: Vec::new(),
            lies: 0.0,
            length: 0.0,
            usual: 0.0,
            reaches: 0.0,
            endings: [wire.from, wire.to].map(|end| ending(system, end, design)),
            continuous: 0.0,
            peak: 0.0,
            drop: 0.0,
            ohms: 0.0,
            stated: use_of.is_some(),
            place: use_of.map(|own| own.place),
        }
    };
    system.wires.iter().enumerate().map(wire).collect()
}

/// What is put on an end, by what it is joined to. Common practice, no source.
fn ending(system: &System, end: End, design: &Design) -> Ending {
    let part = &system.parts[end.part];
    let role = part.terminals[end.terminal].role;
    let signal = matches!(role, Role::SignalIn | Role::SignalGround);
    let kind = match part.kind {
        Kind::Battery if design.battery.part.chemistry.value == Chemistry::LeadAcid => {
            EndingKind::PushOn
        }
        Kind::Battery => EndingKind::Plug,
        Kind::Driver | Kind::Fuse => EndingKind::PushOn,
        Kind::Post | Kind::Plate => EndingKind::Ring,
        Kind::Star => EndingKind::Ferrule,
        Kind::Amplifier if !signal => EndingKind::Ferrule,
        _ => EndingKind::Solder,
    };
    let strip = match kind {
        EndingKind::Ferrule => 8e-3,
        EndingKind::PushOn | EndingKind::Ring => 6e-3,
        EndingKind::Solder => 5e-3,
        EndingKind::Plug => 4e-3,
    };
    Ending { kind, strip }
}

/// Loop left where a part comes out again, in m, and slack as a share, where the design says
/// nothing: common practice, no source.
const LOOP: f64 = 0.05;
const SLACK: f64 = 0.1;

/// From one lug of a part to another of it, in m: common practice, no source.
const LUGS: f64 = 0.025;

/// Wires are cut to the next of these, in m.
const CUT_STEP: f64 = 0.005;

/// Lengths to cut: the run, slack, a loop at each part that comes out, and what is stripped.
pub(super) fn lengths(
    system: &System,
    harness: &mut [HarnessWire],
    said: &[Said<'_>],
    design: &Design,
) {
    let plan = &design.wiring;
    let slack = plan.slack.map_or(SLACK, |value| value.si);
    let service = plan.service_loop.map_or(LOOP, |value| value.si);
    for (index, own) in harness.iter_mut().enumerate() {
        let wire = &system.wires[index];
        if wire.carries == Carries::Touch {
            continue;
        }
        let stated = said[index].wire.and_then(|own| own.length);
        let strips: f64 = own.endings.iter().map(|ending| ending.strip).sum();
        let wanted = if wire.from.part == wire.to.part {
            // It comes out with its part.
            own.lies.max(LUGS) + strips
        } else {
            let ends = [wire.from, wire.to].into_iter();
            let loops = ends.filter(|end| comes_out(system.parts[end.part].kind));
            own.lies * (1.0 + slack) + service * loops.count() as f64 + strips
        };
        own.usual = (wanted / CUT_STEP - 1e-9).ceil() * CUT_STEP;
        own.reaches = own.lies + strips;
        own.length = stated.map_or(own.usual, |value| value.si);
    }
}

/// Whether a part is taken out again with its wires on.
const fn comes_out(kind: Kind) -> bool {
    !matches!(
        kind,
        Kind::Star | Kind::Resistor | Kind::Plate | Kind::Other
    )
}

/// Sections as stated, or as needed, and the wire on the shelf each is cut from.
pub(super) fn sections(
    harness: &mut [HarnessWire],
    needed: &[f64],
    said: &[Said<'_>],
    design: &Design,
    shelf: &[WirePart],
) {
    let usual = design.wiring.usual.as_ref().map(|(part, _)| part);
    let cable = design.amplifier.cable_section.map(|value| value.si);
    for (index, own) in harness.iter_mut().enumerate() {
        if own.carries == Carries::Touch {
            continue;
        }
        let named = said[index].wire.and_then(|own| own.wire.as_ref());
        let power = own.carries != Carries::Signal;
        let part = named.map(|(part, _)| part).or(usual.filter(|_| power));
        if let Some(part) =
            part.filter(|_| named.is_some() || own.carries != Carries::Output || cable.is_none())
        {
            own.section = part.section.si;
            own.stock = Some(part.common.name.text.clone());
            continue;
        }
        let wanted = match (own.carries, cable) {
            (Carries::Output, Some(square)) => square,
            _ => needed[index],
        };
        own.section = wanted;
        if let Some(part) = from_shelf(shelf, wanted, own.colour) {
            // What is stated is kept, even where the shelf only has thicker wire.
            if own.carries != Carries::Output || cable.is_none() {
                own.section = part.section.si;
            }
            own.stock = Some(part.common.name.text.clone());
        }
    }
}

/// The thinnest wire on the shelf that will do, in its colour where there is one.
fn from_shelf(shelf: &[WirePart], least: f64, colour: WireColour) -> Option<&WirePart> {
    let serves = |part: &&WirePart| part.section.si >= least - 1e-12;
    let fits = |part: &&WirePart| part.colours.is_empty() || part.colours.contains(&colour);
    let by_section = |a: &&WirePart, b: &&WirePart| a.section.si.total_cmp(&b.section.si);
    let thinnest = shelf.iter().filter(serves).min_by(by_section)?;
    let coloured = shelf.iter().filter(serves).filter(fits).min_by(by_section);
    // A much thicker one only for its colour is not taken.
    coloured
        .filter(|part| part.section.si <= 1.6 * thinnest.section.si)
        .or(Some(thinnest))
}

/// The least each wire must be, before voltage drop: what it carries, the fuse, and pulling.
pub(super) fn needs(harness: &[HarnessWire], fuse: f64) -> Vec<f64> {
    harness
        .iter()
        .map(|own| {
            let pulled = section::mechanical(own.carries);
            match own.carries {
                Carries::Supply | Carries::Charge => {
                    pulled.max(section::least(own.continuous.max(fuse)))
                }
                Carries::Output => pulled.max(section::least(own.continuous)).max(0.75e-6),
                Carries::Signal | Carries::Touch => pulled,
            }
        })
        .collect()
}
