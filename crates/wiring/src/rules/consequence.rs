//! What is broken only because something else is: told, it would hide the cause.

use super::{Breach, BreachKind};
use crate::{End, System};

/// The breaches that are not there because of another of them.
pub(super) fn without(system: &System, found: Vec<Breach>) -> Vec<Breach> {
    let follows = |breach: &Breach| found.iter().any(|cause| from(system, cause, breach));
    let kept: Vec<bool> = found.iter().map(|breach| !follows(breach)).collect();
    let mut kept = kept.into_iter();
    let mut found = found;
    found.retain(|_| kept.next().unwrap_or(true));
    found
}

/// Whether one breach is there because of another. No cause is itself one that follows from
/// what it explains, so something is left of whatever was found.
fn from(system: &System, cause: &Breach, breach: &Breach) -> bool {
    let [first, ..] = breach.ends.as_slice() else {
        return false;
    };
    let one_part = |end: &End| end.part == first.part;
    match breach.kind {
        // On the wrong pole it is not on the right one.
        BreachKind::Unfed | BreachKind::WrongSource | BreachKind::ReturnAstray => {
            cause.kind == BreachKind::Reversed && cause.ends.iter().any(one_part)
        }
        BreachKind::NotCharging | BreachKind::ChargeAstray => {
            cause.kind == BreachKind::ChargedReversed && cause.ends.iter().any(one_part)
        }
        // A signal that is heard on the other side is not heard on its own.
        BreachKind::NoSignal => {
            cause.kind == BreachKind::CrossedSignal && cause.ends.contains(first)
        }
        // Two that are joined are heard on both sides.
        BreachKind::CrossedSignal => {
            cause.kind == BreachKind::SummedBare
                && breach.ends.iter().any(|end| cause.ends.contains(end))
        }
        // A shorted output has no share to give.
        BreachKind::OtherShare => {
            let side = |end: &End| system.side_of(*end);
            cause.kind == BreachKind::OutputTouches
                && cause.ends.iter().any(|end| side(end) == side(first))
        }
        _ => false,
    }
}
