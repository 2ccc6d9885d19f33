//! What the design says of single wires, laid over the proposal.

use super::colour::Duty;
use super::draft::Draft;
use super::model::Trouble;
use design::{Text, WireUse, WiringPlan};
use wiring::{Carries, End, Role, System};

/// What is known of a wire beside its ends.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Said<'a> {
    /// The wire of the design, where it names it.
    pub(super) wire: Option<&'a WireUse>,
}

/// Lays the wires of the design over the proposal: what it says of each wire, in their order.
pub(super) fn apply<'a>(
    draft: &mut Draft,
    plan: &'a WiringPlan,
    troubles: &mut Vec<Trouble>,
) -> Vec<Said<'a>> {
    for (index, left) in plan.without.iter().enumerate() {
        let key = format!("wiring.without.{}", index + 1);
        let ends = [(&left.from, "from"), (&left.to, "to")]
            .map(|(text, end)| resolve(&draft.system, text, &format!("{key}.{end}"), troubles));
        let [Some(from), Some(to)] = ends else {
            continue;
        };
        match between(&draft.system, from, to) {
            Some(wire) => {
                draft.system.wires.remove(wire);
                draft.duties.remove(wire);
            }
            None => troubles.push(Trouble {
                words: format!(
                    "No wire is proposed from {} to {}, so none can be left out.",
                    left.from.text, left.to.text
                ),
                advice: format!(
                    "take the entry out, or name a wire of the wire list: {} is joined to {}",
                    left.from.text,
                    joined(&draft.system, from)
                ),
                // Another wire left out is not what was meant by one that is not there.
                near: Vec::new(),
                key: format!("{key}.to"),
                place: left.place,
            }),
        }
    }
    let mut said = vec![Said::default(); draft.system.wires.len()];
    for (index, wire) in plan.wires.iter().enumerate() {
        let key = format!("wiring.wire.{}", index + 1);
        let ends = [(&wire.from, "from"), (&wire.to, "to")]
            .map(|(text, end)| resolve(&draft.system, text, &format!("{key}.{end}"), troubles));
        let [Some(from), Some(to)] = ends else {
            continue;
        };
        let own = Said { wire: Some(wire) };
        if let Some(known) = between(&draft.system, from, to) {
            said[known] = own;
        } else {
            let (carries, duty) = guessed(&draft.system, from, to);
            draft.wire(from, to, carries, duty);
            said.push(own);
        }
    }
    said
}

/// The wire between two terminals.
fn between(system: &System, a: End, b: End) -> Option<usize> {
    let mut wires = system.wires.iter();
    wires.position(|wire| (wire.from, wire.to) == (a, b) || (wire.from, wire.to) == (b, a))
}

/// Terminals that have a wire to one, as a list in words.
fn joined(system: &System, end: End) -> String {
    let other = |wire: &wiring::Wire| match end {
        _ if wire.from == end => Some(wire.to),
        _ if wire.to == end => Some(wire.from),
        _ => None,
    };
    let ends = system.wires.iter().filter_map(other);
    let names: Vec<String> = ends.map(|end| system.name(end)).collect();
    if names.is_empty() {
        return "nothing".into();
    }
    names.join(", ")
}

/// What a wire between two terminals carries, by what they are for.
fn guessed(system: &System, a: End, b: End) -> (Carries, Duty) {
    let roles = [a, b].map(|end| {
        let terminal = &system.parts[end.part].terminals[end.terminal];
        (terminal.role, terminal.side)
    });
    let has = |wanted: &[Role]| roles.iter().any(|(role, _)| wanted.contains(role));
    let side = roles.iter().find_map(|(_, side)| *side);
    let side = side.unwrap_or(wiring::Side::Mono);
    if has(&[Role::Bridged, Role::Output, Role::OutputGround, Role::Load]) {
        (Carries::Output, Duty::Output(side, true))
    } else if has(&[Role::SignalGround, Role::Bottom]) {
        (Carries::Signal, Duty::SignalGround)
    } else if has(&[Role::SignalIn, Role::SignalOut, Role::Top, Role::Wiper]) {
        (Carries::Signal, Duty::Signal(side))
    } else if has(&[Role::Charge]) {
        (Carries::Charge, Duty::Charge)
    } else if has(&[Role::ChargeReturn]) {
        (Carries::Charge, Duty::Return)
    } else if has(&[Role::Minus, Role::Return]) {
        (Carries::Supply, Duty::Return)
    } else {
        (Carries::Supply, Duty::Plus)
    }
}

/// How many near names are told.
const NEAR: usize = 3;

/// A terminal by its name; a trouble with the nearest names where there is none.
fn resolve(system: &System, text: &Text, key: &str, troubles: &mut Vec<Trouble>) -> Option<End> {
    if let Some(end) = system.end(&text.text) {
        return Some(end);
    }
    let mut known: Vec<(usize, String)> = system
        .ends()
        .map(|end| {
            let name = system.name(end);
            (edits(&text.text.to_lowercase(), &name.to_lowercase()), name)
        })
        .collect();
    known.sort();
    let near: Vec<String> = known.into_iter().take(NEAR).map(|(_, name)| name).collect();
    troubles.push(Trouble {
        words: format!("There is no terminal \"{}\".", text.text),
        advice: format!("terminals that come near: {}", near.join(", ")),
        near,
        key: key.into(),
        place: text.place,
    });
    None
}

/// How many letters must be changed, put in or taken out to make one text the other.
fn edits(one: &str, other: &str) -> usize {
    let other: Vec<char> = other.chars().collect();
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (above, letter) in one.chars().enumerate() {
        let mut corner = row[0];
        row[0] = above + 1;
        for (index, same) in other.iter().enumerate() {
            let replaced = corner + usize::from(*same != letter);
            corner = row[index + 1];
            row[index + 1] = replaced.min(row[index] + 1).min(corner + 1);
        }
    }
    row[other.len()]
}

#[cfg(test)]
mod tests {
    use super::edits;

    #[test]
    fn letters_are_counted() {
        for (one, other, count) in [
            ("", "", 0),
            ("battery +", "battery +", 0),
            ("batery +", "battery +", 1),
            ("fuse 1", "fuse 2", 1),
            ("kitten", "sitting", 3),
            ("", "abc", 3),
        ] {
            assert_eq!(edits(one, other), count, "{one} {other}");
            assert_eq!(edits(other, one), count, "{other} {one}");
        }
    }
}
