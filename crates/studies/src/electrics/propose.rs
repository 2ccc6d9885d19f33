//! The net list a portable stereo box needs.
//!
//! Battery, fuse, main switch, then a strip to which everything is led that
//! draws; returns meet in one strip beside the amplifier. The signal goes from
//! its sources to the level control and on to the amplifier, whose outputs go
//! to drivers and posts. What the design does not name is assumed.

mod outputs;
mod signal;
mod supply;

use super::aside::Aside;
use super::draft::Draft;
use super::kinds;
use super::model::ElectricPart;
use super::named::{self, Named, What};
use crate::subject::Subject;
use design::{Design, Does, Side as On};
use wiring::{Carries, Kind, Side};

/// What the net list is made from.
pub(super) struct Given<'a> {
    pub(super) design: &'a Design,
    pub(super) named: Vec<Named<'a>>,
    /// What draws beside the amplifier.
    pub(super) aside: &'a Aside,
    /// Voltage of the battery when empty and when full, in V.
    pub(super) volts: [f64; 2],
    /// Channels that drivers hang on.
    pub(super) sides: Vec<Side>,
}

impl<'a> Given<'a> {
    pub(super) fn new(subject: &'a Subject, volts: [f64; 2]) -> Self {
        let design = &subject.project.design;
        Self {
            design,
            named: named::all(design),
            aside: &subject.aside,
            volts,
            sides: sides(design),
        }
    }

    /// Everything named for a purpose.
    fn all(&self, does: Does) -> impl Iterator<Item = &Named<'a>> {
        self.named.iter().filter(move |one| one.does == Some(does))
    }

    fn first(&self, does: Does) -> Option<&Named<'a>> {
        self.all(does).next()
    }
}

/// The channels drivers hang on; one of both where a board has but one.
fn sides(design: &Design) -> Vec<Side> {
    let on = |sides: &[On]| {
        let mut groups = design.drivers.iter();
        groups.any(|group| sides.contains(&group.side.value))
    };
    if design.amplifier.part.channels < 2 {
        return vec![Side::Mono];
    }
    let mut used = Vec::new();
    if on(&[On::Both, On::Left, On::Mono]) {
        used.push(Side::Left);
    }
    if on(&[On::Both, On::Right]) {
        used.push(Side::Right);
    }
    used
}

/// The net list of a design.
pub(super) fn propose(given: &Given<'_>) -> Draft {
    let mut draft = Draft::default();
    let amplifier = amplifier(&mut draft, given);
    let supply = supply::supply(&mut draft, given, amplifier);
    signal::signal(&mut draft, given, amplifier, supply.radio);
    outputs::outputs(&mut draft, given, amplifier);
    plate(&mut draft, given);
    spare(&mut draft, given);
    draft
}

fn amplifier(draft: &mut Draft, given: &Given<'_>) -> usize {
    let used = &given.design.amplifier;
    let part = &used.part;
    let sides = match part.channels {
        0 | 1 => vec![Side::Mono],
        _ => vec![Side::Left, Side::Right],
    };
    let stands = [part.supply_min.si, part.supply_max.si];
    let behind = ElectricPart {
        table: "amplifier".into(),
        place: Some(used.place),
        assumed: false,
        idle: part.idle_current.si,
        capacitance: part.supply_capacitance.map_or(0.0, |value| value.si),
        ..ElectricPart::unnamed(part.common.name.text.as_str())
    };
    draft.add(kinds::amplifier(&sides, part.bridged, stands), behind)
}

/// Joins what is bare metal on a metal plate.
fn plate(draft: &mut Draft, given: &Given<'_>) {
    let Some(control) = &given.design.control else {
        return;
    };
    if !control.plate.metal.value {
        return;
    }
    let mut touching = Vec::new();
    for (index, used) in control.parts.iter().enumerate() {
        if used.part.insulated.value {
            continue;
        }
        let table = format!("control.part.{}", index + 1);
        let own = draft.parts.iter().position(|part| part.table == table);
        let Some(part) = own else { continue };
        let bare = match draft.system.parts[part].kind {
            Kind::Jack => "sleeve",
            Kind::ChargeSocket => "-",
            Kind::Post => match draft.system.parts[part].terminals.last() {
                Some(last) => last.name.as_str(),
                None => continue,
            },
            _ => continue,
        };
        touching.push(draft.end(part, bare));
    }
    if touching.is_empty() {
        return;
    }
    let behind = ElectricPart {
        table: "control".into(),
        place: Some(control.plate_place),
        assumed: false,
        ..ElectricPart::unnamed(control.plate.common.name.text.as_str())
    };
    let plate = draft.add(kinds::plate("control panel", touching.len()), behind);
    for (index, end) in touching.into_iter().enumerate() {
        let own = draft.end(plate, &(index + 1).to_string());
        let duty = super::colour::Duty::SignalGround;
        draft.wire(end, own, Carries::Touch, duty);
    }
}

/// Parts that are named but for nothing, or for what another does already.
fn spare(draft: &mut Draft, given: &Given<'_>) {
    for named in &given.named {
        let table = named.table();
        if draft.parts.iter().any(|part| part.table == table) {
            continue;
        }
        let name = named.called().unwrap_or(match named.what {
            What::Panel(_) => "spare part",
            What::Module(_) => "spare module",
        });
        let part = wiring::Part::new(name, Kind::Other);
        let index = draft.add(part, ElectricPart::named(named));
        draft.doubts.push((
            index,
            format!("{} is not wired to anything.", named.label()),
            "say with does = \"…\" what it is for, or take it out".into(),
        ));
    }
}
