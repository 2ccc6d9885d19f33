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
            let others = reach
                .ends()
                .iter()
                .filter(|end| end.part != battery && system.parts[end.part].kind != Kind::Fuse);
            for &end in others {
                found.push(breach(BreachKind::BeforeFuse, index, [end]));
            }
        }
    }
    found
}
