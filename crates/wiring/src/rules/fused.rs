//! Between the battery and its fuse lies nothing but wire.

use super::view::breach;
use super::{Breach, BreachKind};
use crate::{Kind, Limits, Mode, Role, System};

pub(super) fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let mut found = Vec::new();
    for (index, mode) in modes.iter().enumerate() {
        for battery in system.kind(Kind::Battery) {
            let Some(plus) = system.first(battery, Role::Plus) else {
                continue;
            };
            let reach = system.reach(mode, plus, &Limits::metal());
            // The nearest: all that hangs on it follows.
            let nearest = reach
                .ends()
                .iter()
                .find(|end| end.part != battery && system.parts[end.part].kind != Kind::Fuse);
            found.extend(nearest.map(|end| breach(BreachKind::BeforeFuse, index, [*end])));
        }
    }
    found
}
