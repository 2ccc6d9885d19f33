//! What the rules ask of a system again and again.

use super::{Breach, BreachKind};
use crate::{End, Kind, Mode, Role, State, System};

impl System {
    /// The first terminal of a role that a part has.
    pub(super) fn first(&self, part: usize, role: Role) -> Option<End> {
        let terminal = self.parts[part].of_role(role).next()?;
        Some(End { part, terminal })
    }

    /// Where a part takes supply and gives it back.
    pub(super) fn intake(&self, part: usize) -> Option<[End; 2]> {
        Some([
            self.first(part, Role::Supply)?,
            self.first(part, Role::Return)?,
        ])
    }

    /// Parts of a kind.
    pub(super) fn kind(&self, kind: Kind) -> impl Iterator<Item = usize> + '_ {
        (0..self.parts.len()).filter(move |part| self.parts[*part].kind == kind)
    }

    /// All terminals of a role.
    pub(super) fn role(&self, role: Role) -> Vec<End> {
        self.ends()
            .filter(|end| self.role_of(*end) == role)
            .collect()
    }

    pub(super) fn role_of(&self, end: End) -> Role {
        self.parts[end.part].terminals[end.terminal].role
    }

    pub(super) fn side_of(&self, end: End) -> Option<crate::Side> {
        self.parts[end.part].terminals[end.terminal].side
    }

    /// Parts that feed a part: the one it names, else every battery.
    pub(super) fn feeders(&self, part: usize) -> Vec<usize> {
        match self.parts[part].fed_by {
            Some(by) => vec![by],
            None => self.kind(Kind::Battery).collect(),
        }
    }
}

impl Mode {
    /// Whether the box is to play.
    pub(super) fn plays(&self) -> bool {
        self.state == State::On
    }

    /// Whether a charger is plugged in.
    pub(super) fn charged(&self) -> bool {
        matches!(self.state, State::Charging | State::Both)
    }
}

pub(super) fn breach(kind: BreachKind, mode: usize, ends: impl Into<Vec<End>>) -> Breach {
    Breach {
        kind,
        ends: ends.into(),
        mode,
    }
}
