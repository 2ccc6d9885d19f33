//! Everything that draws is fed when the box plays, the right way round, from its own source,
//! and dead when it is off; no source is shorted.

use super::view::breach;
use super::{Breach, BreachKind};
use crate::{Carries, Limits, Mode, Role, State, System};

pub(super) fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let mut found = Vec::new();
    for (index, mode) in modes.iter().enumerate() {
        found.extend(shorts(system, mode, index));
        found.extend(apart(system, mode, index));
        for part in 0..system.parts.len() {
            match mode.state {
                State::On => found.extend(fed(system, mode, index, part)),
                State::Off => {
                    found.extend(live(system, mode, index, part, BreachKind::LiveWhenOff));
                }
                // What watches the empty battery must live; all else must not.
                State::Low if holds(system, part) => {
                    found.extend(fed(system, mode, index, part));
                }
                State::Low => {
                    found.extend(live(system, mode, index, part, BreachKind::NotCutOff));
                }
                State::Charging | State::Both => {}
            }
            found.extend(reversed(system, mode, index, part));
            found.extend(own_output(system, mode, index, part));
        }
    }
    found
}

/// Poles joined by metal or a fuse, of one source or of two.
fn shorts(system: &System, mode: &Mode, index: usize) -> Vec<Breach> {
    let mut found = Vec::new();
    for plus in system.role(Role::Plus) {
        let reach = system.reach(mode, plus, &Limits::supply());
        for minus in system.role(Role::Minus) {
            if reach.has(minus) {
                found.push(breach(BreachKind::Short, index, [plus, minus]));
            }
        }
        for other in system.role(Role::Plus) {
            let alike = system.parts[other.part].kind == system.parts[plus.part].kind;
            if other > plus && reach.has(other) && !alike {
                found.push(breach(BreachKind::Short, index, [plus, other]));
            }
        }
    }
    found
}

/// Batteries in parallel whose like poles are not joined.
fn apart(system: &System, mode: &Mode, index: usize) -> Vec<Breach> {
    let mut batteries = system.kind(crate::Kind::Battery);
    let Some(first) = batteries.next() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for other in batteries {
        for role in [Role::Plus, Role::Minus] {
            let poles = [first, other].map(|battery| system.first(battery, role));
            let [Some(one), Some(two)] = poles else {
                continue;
            };
            if !system.reach(mode, one, &Limits::supply()).has(two) {
                found.push(breach(BreachKind::BatteriesApart, index, [one, two]));
            }
        }
    }
    found
}

/// A part is reached from both poles of its feeder.
fn fed(system: &System, mode: &Mode, index: usize, part: usize) -> Option<Breach> {
    let [supply, back] = system.intake(part)?;
    // A light may have its resistor before it; nothing else may be fed through one.
    let limits = match system.parts[part].kind {
        crate::Kind::Light => Limits::signal(),
        _ => Limits::supply(),
    };
    let limits = limits.along(&[Carries::Supply, Carries::Charge]);
    let reaches = |role: Role, end| {
        let sources = (0..system.parts.len()).filter(|other| *other != part);
        let mut poles = sources.filter_map(|source| Some((source, system.first(source, role)?)));
        poles
            .find(|(_, pole)| system.reach(mode, *pole, &limits).has(end))
            .map(|(source, _)| source)
    };
    let own = system.feeders(part);
    // Batteries in parallel must all be joined.
    let all = |role: Role, end| {
        own.iter().all(|source| {
            let pole = system.first(*source, role);
            pole.is_some_and(|pole| system.reach(mode, pole, &limits).has(end))
        })
    };
    match reaches(Role::Plus, supply) {
        None => Some(breach(BreachKind::Unfed, index, [supply])),
        Some(source) if !own.contains(&source) => {
            Some(breach(BreachKind::WrongSource, index, [supply]))
        }
        Some(_) if !all(Role::Plus, supply) => Some(breach(BreachKind::Unfed, index, [supply])),
        Some(_) if !all(Role::Minus, back) => Some(breach(BreachKind::Unfed, index, [back])),
        Some(_) => None,
    }
}

/// A return reached from a positive pole, or a supply terminal from a negative one.
fn reversed(system: &System, mode: &Mode, index: usize, part: usize) -> Option<Breach> {
    let [supply, back] = system.intake(part)?;
    let limits = Limits::supply();
    let wrong = |role: Role, end| {
        system
            .role(role)
            .into_iter()
            .any(|pole| pole.part != part && system.reach(mode, pole, &limits).has(end))
    };
    if wrong(Role::Minus, supply) {
        Some(breach(BreachKind::Reversed, index, [supply]))
    } else if wrong(Role::Plus, back) {
        Some(breach(BreachKind::Reversed, index, [back]))
    } else {
        None
    }
}

/// Whether a part is a contact that must be fed to close.
fn holds(system: &System, part: usize) -> bool {
    system.parts[part].kind == crate::Kind::Switch && system.intake(part).is_some()
}

/// A contact that must be fed to close, fed through itself alone: it never closes, or where it
/// is a transistor whose body conducts backwards, it never opens.
fn own_output(system: &System, mode: &Mode, index: usize, part: usize) -> Option<Breach> {
    if !mode.plays() || !holds(system, part) {
        return None;
    }
    let [entry, _] = system.intake(part)?;
    let fed = |limits: &Limits| {
        let poles = system.kind(crate::Kind::Battery);
        let mut poles = poles.filter_map(|battery| system.first(battery, Role::Plus));
        poles.any(|pole| system.reach(mode, pole, limits).has(entry))
    };
    let closed = Limits::supply();
    let open = closed.clone().but(&[part]);
    (fed(&closed) && !fed(&open)).then(|| breach(BreachKind::OwnOutput, index, [entry]))
}

/// What is fed although it should be dead.
fn live(
    system: &System,
    mode: &Mode,
    index: usize,
    part: usize,
    kind: BreachKind,
) -> Option<Breach> {
    let [supply, back] = system.intake(part)?;
    let limits = Limits::signal();
    let joined = |role: Role, end| {
        let poles = system.role(role).into_iter();
        let mut batteries =
            poles.filter(|pole| system.parts[pole.part].kind == crate::Kind::Battery);
        batteries.any(|pole| system.reach(mode, pole, &limits).has(end))
    };
    (joined(Role::Plus, supply) && joined(Role::Minus, back)).then(|| breach(kind, index, [supply]))
}
