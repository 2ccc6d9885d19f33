//! The charger reaches the battery, the right way round.

use super::view::breach;
use super::{Breach, BreachKind};
use crate::{Carries, End, Kind, Limits, Mode, Role, State, System};

pub(super) fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let mut found = Vec::new();
    for (index, mode) in modes.iter().enumerate().filter(|(_, mode)| mode.charged()) {
        for socket in system.kind(Kind::ChargeSocket) {
            let ends = [Role::Charge, Role::ChargeReturn].map(|role| system.first(socket, role));
            let [Some(charge), Some(back)] = ends else {
                continue;
            };
            found.extend(astray(system, mode, index, [charge, back]));
            let must = mode.state == State::Charging && !shared(system, modes, charge);
            let [plus, minus] = [reaches(system, mode, charge), reaches(system, mode, back)];
            if plus.contains(&Role::Minus) || minus.contains(&Role::Plus) {
                found.push(breach(BreachKind::ChargedReversed, index, [charge, back]));
            } else if must && !plus.contains(&Role::Plus) {
                found.push(breach(BreachKind::NotCharging, index, [charge]));
            } else if must && !minus.contains(&Role::Minus) {
                found.push(breach(BreachKind::NotCharging, index, [back]));
            }
        }
    }
    found.extend(never(system, modes));
    found
}

/// Poles of batteries an end reaches along the wires of supply and charger.
fn reaches(system: &System, mode: &Mode, from: End) -> Vec<Role> {
    let limits = Limits::supply().along(&[Carries::Supply, Carries::Charge]);
    let reach = system.reach(mode, from, &limits);
    let poles = reach.ends().iter().filter(|end| {
        let role = system.role_of(**end);
        let battery = system.parts[end.part].kind == Kind::Battery;
        battery && matches!(role, Role::Plus | Role::Minus)
    });
    poles.map(|end| system.role_of(*end)).collect()
}

/// Whether the socket lies behind the main switch, so that it charges only when that is on.
fn shared(system: &System, modes: &[Mode], charge: End) -> bool {
    let both = modes.iter().find(|mode| mode.state == State::Both);
    both.is_some_and(|mode| reaches(system, mode, charge).contains(&Role::Plus))
}

/// A socket that reaches the battery in no mode.
fn never(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let charged = || modes.iter().enumerate().filter(|(_, mode)| mode.charged());
    let Some((first, _)) = charged().next() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for socket in system.kind(Kind::ChargeSocket) {
        for (own, pole) in [
            (Role::Charge, Role::Plus),
            (Role::ChargeReturn, Role::Minus),
        ] {
            let Some(end) = system.first(socket, own) else {
                continue;
            };
            let joined = charged().any(|(_, mode)| reaches(system, mode, end).contains(&pole));
            if !joined {
                found.push(breach(BreachKind::NotCharging, first, [end]));
            }
        }
    }
    found
}

/// A pole of the socket on a signal or an output.
fn astray(system: &System, mode: &Mode, index: usize, ends: [End; 2]) -> Vec<Breach> {
    let mut found = Vec::new();
    for end in ends {
        let reach = system.reach(mode, end, &Limits::supply());
        let wrong = reach.ends().iter().find(|other| {
            let ground = system.role_of(end) == Role::ChargeReturn;
            match system.role_of(**other) {
                Role::SignalIn | Role::SignalOut | Role::Bridged | Role::Output => true,
                Role::Metal | Role::SignalGround => !ground,
                _ => false,
            }
        });
        found.extend(wrong.map(|other| breach(BreachKind::ChargeAstray, index, [end, *other])));
    }
    found
}
