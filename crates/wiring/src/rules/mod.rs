//! What every system must keep, by what its terminals are for.
//!
//! A rule looks at one system in some modes and gives what breaks it: where,
//! in which mode, and what kind of breach it is. It knows of no design.

mod charge;
mod consequence;
mod fused;
mod ground;
mod outputs;
mod signal;
mod supplied;
mod view;

use crate::{End, Mode, System};

/// What a rule finds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Breach {
    /// Which rule.
    pub kind: BreachKind,
    /// The terminals concerned, the one at fault first.
    pub ends: Vec<End>,
    /// The first mode it is found in, by its place in the list.
    pub mode: usize,
}

/// Kinds of breaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BreachKind {
    /// Poles of a source are joined, or two sources with each other.
    Short,
    /// Batteries in parallel are not always joined: they would rush into one another.
    BatteriesApart,
    /// Something that draws is not fed when it should be.
    Unfed,
    /// It is fed the wrong way round.
    Reversed,
    /// It is fed by another source than it should be.
    WrongSource,
    /// What should be dead when the box is off is fed.
    LiveWhenOff,
    /// What should have been taken off the empty battery is fed past the open contact.
    NotCutOff,
    /// What is to close a contact is fed from behind it: it never closes.
    OwnOutput,
    /// Something else than the battery lies before the fuse.
    BeforeFuse,
    /// An output leg touches what is not its own load.
    OutputTouches,
    /// A driver is not driven.
    Silent,
    /// A driver has another share of its channel's voltage across it than it is to have.
    OtherShare,
    /// A driver is driven against its sense.
    AgainstPhase,
    /// A driver is driven by another channel.
    OtherChannel,
    /// An output terminal for outside is not joined to its leg.
    PostLoose,
    /// An input gets no signal, or a source's signal goes nowhere.
    NoSignal,
    /// An input gets the other channel's signal.
    CrossedSignal,
    /// Two channels, or two sources, are joined with less than a resistance of each between.
    SummedBare,
    /// A signal is joined to ground or to the supply.
    SignalShorted,
    /// A level control is not wired from its top over its wiper to its bottom.
    LevelControl,
    /// A source's ground does not reach the amplifier's along signal wires.
    NoSignalGround,
    /// A return does not reach its source along supply wires.
    ReturnAstray,
    /// A return leads through another part's terminals.
    ReturnChained,
    /// Grounds that should be apart are joined.
    NotIsolated,
    /// The charger does not reach the battery.
    NotCharging,
    /// It reaches it the wrong way round.
    ChargedReversed,
    /// The charger's pole lies on something else than battery, contacts and fed parts.
    ChargeAstray,
}

/// What breaks one rule.
type Rule = fn(&System, &[Mode]) -> Vec<Breach>;

/// Everything that breaks a rule, each once, in the order of its first mode; what only
/// follows from another breach is left out.
#[must_use]
pub fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let rules: [Rule; 6] = [
        supplied::breaches,
        fused::breaches,
        outputs::breaches,
        signal::breaches,
        ground::breaches,
        charge::breaches,
    ];
    let mut found: Vec<Breach> = Vec::new();
    for rule in rules {
        for breach in rule(system, modes) {
            let same = |known: &&Breach| known.kind == breach.kind && known.ends == breach.ends;
            if !found.iter().any(|known| same(&known)) {
                found.push(breach);
            }
        }
    }
    consequence::without(system, found)
}
