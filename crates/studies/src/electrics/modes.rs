//! What the switches can be set to.

use wiring::{Kind, Mode, Part, State, System};

/// The modes of a system: off, on (from each source), and with the charger where it has a socket.
pub(super) fn modes(system: &System) -> Vec<Mode> {
    let has = |kind: Kind| system.parts.iter().any(|part| part.kind == kind);
    let named = |name: &str| system.part(name);
    let selectable = named("radio").is_some() && named("input").is_some();
    let breaks = named("input").is_some_and(|part| !system.parts[part].positions.is_empty());
    let mut modes = vec![mode(system, "off", State::Off, true)];
    modes.push(mode(system, "on", State::On, true));
    if selectable && breaks {
        modes.push(mode(system, "on, from the radio", State::On, false));
    }
    if has(Kind::ChargeSocket) {
        modes.push(mode(system, "charging", State::Charging, true));
        modes.push(mode(system, "charging while playing", State::Both, true));
    }
    if let Some(part) = named("cut-off") {
        // What the indicator opened stays open with the main switch on: all is dead again but
        // what watches the battery.
        modes.push(mode(system, "cut off at low battery", State::Low, true));
        // The main switch alone must do, for what is fed from behind the cut-off holds it closed.
        let mut just = mode(system, "just switched off", State::Off, true);
        just.positions[part] = 1;
        modes.push(just);
    }
    modes
}

fn mode(system: &System, name: &str, state: State, plugged: bool) -> Mode {
    let position = |part: &Part| position(part, state, plugged);
    Mode {
        name: name.into(),
        state,
        positions: system.parts.iter().map(position).collect(),
    }
}

/// Where a part stands in a mode.
fn position(part: &Part, state: State, plugged: bool) -> usize {
    let last = part.positions.len().saturating_sub(1);
    let charges = matches!(state, State::Charging | State::Both);
    let plays = matches!(state, State::On | State::Both);
    let on = plays || state == State::Low;
    let at = match (part.kind, part.name.as_str()) {
        (Kind::ChargeSocket, _) => usize::from(charges),
        (Kind::Jack, _) => usize::from(plugged),
        (Kind::Switch, "charge selector") => match (charges, last) {
            (true, 2) => 2,
            (true, _) => 0,
            (false, _) => 1,
        },
        // Play, off and charge in one switch: playing, it cannot charge.
        (Kind::Switch, "main switch") if last == 2 => match state {
            State::Off => 0,
            State::On | State::Both | State::Low => 1,
            State::Charging => 2,
        },
        // What the indicator opens is closed while the battery is not empty.
        (Kind::Switch, "cut-off") => usize::from(plays),
        (Kind::Switch, "main switch") => usize::from(on),
        (Kind::Switch, _) => 1,
        _ => 0,
    };
    at.min(last)
}
