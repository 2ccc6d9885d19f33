//! Returns lead to their source along supply wires, not through one another, and grounds
//! that a converter keeps apart stay apart.

use super::view::breach;
use super::{Breach, BreachKind};
use crate::{Carries, Kind, Limits, Mode, Role, System};

pub(super) fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let mut found = Vec::new();
    for (index, mode) in modes.iter().enumerate().filter(|(_, mode)| mode.plays()) {
        for part in 0..system.parts.len() {
            found.extend(chained(system, mode, index, part));
            found.extend(joined(system, mode, index, part));
        }
    }
    found
}

/// A return that flows through the terminals of another part that draws, the amplifier's
/// own supply terminals left out: those may be the star.
fn chained(system: &System, mode: &Mode, index: usize, part: usize) -> Option<Breach> {
    let [_, back] = system.intake(part)?;
    let limits = Limits::supply().along(&[Carries::Supply, Carries::Charge]);
    let source = system.feeders(part).into_iter().next()?;
    let minus = system.first(source, Role::Minus)?;
    let way = system.reach(mode, back, &limits).way(minus);
    let Some(way) = way else {
        return Some(breach(BreachKind::ReturnAstray, index, [back]));
    };
    let through = way.iter().map(|(_, end)| *end).find(|end| {
        let kind = system.parts[end.part].kind;
        end.part != part
            && end.part != source
            && system.intake(end.part).is_some()
            && kind != Kind::Amplifier
    });
    through.map(|other| breach(BreachKind::ReturnChained, index, [back, other]))
}

/// Both sides of an isolated converter joined, other than along signal wires.
fn joined(system: &System, mode: &Mode, index: usize, part: usize) -> Option<Breach> {
    if system.parts[part].kind != Kind::Converter {
        return None;
    }
    let [_, back] = system.intake(part)?;
    let minus = system.first(part, Role::Minus)?;
    let own = &system.parts[part];
    let bridged = own.inner.iter().any(|inner| {
        inner.through == crate::Through::Metal && inner.between.contains(&minus.terminal)
    });
    if bridged {
        return None;
    }
    let limits = Limits::supply().along(&[Carries::Supply, Carries::Charge, Carries::Touch]);
    let reach = system.reach(mode, back, &limits);
    reach
        .has(minus)
        .then(|| breach(BreachKind::NotIsolated, index, [back, minus]))
}
