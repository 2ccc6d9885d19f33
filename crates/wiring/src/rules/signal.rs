//! Every source reaches the input of its channel, over the level control, and nothing else.

use super::view::breach;
use super::{Breach, BreachKind};
use crate::{Carries, End, Kind, Limits, Mode, Reach, Role, Side, Step, System, Through};

pub(super) fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let mut found = Vec::new();
    let playing = || modes.iter().enumerate().filter(|(_, mode)| mode.plays());
    let Some((first, _)) = playing().next() else {
        return found;
    };
    let sources = system.role(Role::SignalOut);
    let inputs = used_inputs(system);
    // Which source is heard in which mode differs; each must be heard in one.
    let heard = |source: End, input: End| {
        let mut giving = playing().filter(|(_, mode)| gives(system, mode, source));
        giving.any(|(_, mode)| reach(system, mode, source).has(input))
    };
    for &input in &inputs {
        let own = |source: &&End| fits(system, **source, input);
        if !sources
            .iter()
            .filter(own)
            .any(|source| heard(*source, input))
        {
            found.push(breach(BreachKind::NoSignal, first, [input]));
        }
    }
    for &source in &sources {
        let mine = inputs.iter().filter(|input| fits(system, source, **input));
        if !mine.clone().all(|input| heard(source, *input)) || mine.count() == 0 {
            found.push(breach(BreachKind::NoSignal, first, [source]));
        }
        let wrong = inputs.iter().filter(|input| !fits(system, source, **input));
        for input in wrong.filter(|input| heard(source, **input)) {
            found.push(breach(BreachKind::CrossedSignal, first, [*input, source]));
        }
    }
    for (index, mode) in modes.iter().enumerate() {
        found.extend(bare_sums(system, mode, index, &sources));
        found.extend(shorted(system, mode, index, &sources, &inputs));
    }
    for (index, mode) in playing() {
        found.extend(controls(system, mode, index));
    }
    found.extend(grounds(system, modes, first));
    found
}

/// Where a signal is gone.
const GROUNDS: [Role; 4] = [Role::Bottom, Role::SignalGround, Role::Return, Role::Minus];

/// Along signal wires, through contacts and resistances, but not through ground.
fn along() -> Limits {
    Limits::signal()
        .along(&[Carries::Signal])
        .ending_at(&GROUNDS)
}

fn reach(system: &System, mode: &Mode, from: End) -> Reach {
    system.reach(mode, from, &along())
}

/// Inputs of channels that drive something or take a wire.
fn used_inputs(system: &System) -> Vec<End> {
    let drives = |side: Option<Side>| {
        let mut legs = system.ends().filter(|end| {
            let role = system.role_of(*end);
            matches!(role, Role::Bridged | Role::Output) && system.side_of(*end) == side
        });
        let wired = |end: End| {
            let mut wires = system.wires.iter();
            wires.any(|wire| wire.from == end || wire.to == end)
        };
        let wanted = system.kind(Kind::Driver).any(|driver| {
            system.side_of(End {
                part: driver,
                terminal: 0,
            }) == side
        });
        wanted || legs.any(wired)
    };
    let inputs = system.role(Role::SignalIn).into_iter();
    inputs.filter(|end| drives(system.side_of(*end))).collect()
}

/// Whether a source's signal belongs on an input: its own side, or either where one is mono
/// or the box has one channel.
fn fits(system: &System, source: End, input: End) -> bool {
    let (from, to) = (system.side_of(source), system.side_of(input));
    let mono = [from, to].contains(&Some(Side::Mono));
    from == to || mono || used_inputs(system).len() == 1
}

/// Whether a source gives anything in a mode: a socket with contacts gives nothing without its
/// plug.
fn gives(system: &System, mode: &Mode, source: End) -> bool {
    let part = &system.parts[source.part];
    let empty = part.kind == Kind::Jack && mode.positions[source.part] == 0;
    !empty || part.positions.is_empty()
}

/// How many resistances lie on a way.
fn resistors(system: &System, way: &[(Step, End)]) -> usize {
    let passed = way.iter().filter(|(step, _)| match step {
        Step::Inner { part, inner } => {
            let through = system.parts[*part].inner[*inner].through;
            matches!(through, Through::Resistance(_))
        }
        Step::Wire(_) => false,
    });
    passed.count()
}

/// Whether a source lies on an input or on the top of a level control without a resistance.
fn direct(system: &System, mode: &Mode, source: End) -> bool {
    let reach = system.reach(mode, source, &Limits::metal());
    let taking = |end: &End| matches!(system.role_of(*end), Role::SignalIn | Role::Top);
    reach.ends().iter().any(taking)
}

/// Sources of two sides or two parts joined with less than a resistance of each between.
fn bare_sums(system: &System, mode: &Mode, index: usize, sources: &[End]) -> Vec<Breach> {
    let mut found = Vec::new();
    let giving = sources.iter().filter(|end| gives(system, mode, **end));
    let sources: Vec<End> = giving.copied().collect();
    for (place, &one) in sources.iter().enumerate() {
        let reach = reach(system, mode, one);
        for &other in &sources[place + 1..] {
            let way = reach.way(other);
            let bare = direct(system, mode, one) || direct(system, mode, other);
            if way.is_some_and(|way| bare || resistors(system, &way) < 2) {
                found.push(breach(BreachKind::SummedBare, index, [one, other]));
            }
        }
    }
    found
}

/// A source or an input that lies on ground or on the supply.
fn shorted(
    system: &System,
    mode: &Mode,
    index: usize,
    sources: &[End],
    inputs: &[End],
) -> Vec<Breach> {
    let mut found = Vec::new();
    for &hot in sources.iter().chain(inputs) {
        let reach = system.reach(mode, hot, &Limits::metal());
        let wrong = reach.ends().iter().find(|end| {
            matches!(
                system.role_of(**end),
                Role::SignalGround
                    | Role::Plus
                    | Role::Minus
                    | Role::Supply
                    | Role::Return
                    | Role::Bottom
                    | Role::Charge
                    | Role::ChargeReturn
                    | Role::Metal
            )
        });
        found.extend(wrong.map(|end| breach(BreachKind::SignalShorted, index, [hot, *end])));
    }
    found
}

/// Level controls: an input at each wiper, sources at each top, ground at each bottom.
fn controls(system: &System, mode: &Mode, index: usize) -> Vec<Breach> {
    let mut found = Vec::new();
    for part in system.kind(Kind::Potentiometer) {
        for (terminal, own) in system.parts[part].terminals.iter().enumerate() {
            let end = End { part, terminal };
            let reach = system.reach(mode, end, &along().but(&[part]));
            let touches = |wanted: Role| {
                let mut others = reach.ends().iter().filter(|other| other.part != part);
                others.any(|other| system.role_of(*other) == wanted)
            };
            let metal = system.reach(mode, end, &Limits::metal().along(&[Carries::Signal]));
            let grounded = metal
                .ends()
                .iter()
                .any(|other| system.role_of(*other) == Role::SignalGround);
            let right = match own.role {
                Role::Top => touches(Role::SignalOut) || other_mode(system, end),
                Role::Wiper => touches(Role::SignalIn) && !touches(Role::SignalOut),
                Role::Bottom => grounded,
                _ => true,
            };
            if !right {
                found.push(breach(BreachKind::LevelControl, index, [end]));
            }
        }
    }
    found
}

/// Whether an end has a wire of its own, so that a source may reach it in another mode.
fn other_mode(system: &System, end: End) -> bool {
    let contacts = system
        .parts
        .iter()
        .any(|part| part.kind == Kind::Jack && !part.positions.is_empty());
    let mut wires = system.wires.iter();
    contacts && wires.any(|wire| wire.from == end || wire.to == end)
}

/// Grounds of sources reach the amplifier's along signal wires.
fn grounds(system: &System, modes: &[Mode], first: usize) -> Vec<Breach> {
    let mut found = Vec::new();
    let boards: Vec<End> = system
        .kind(Kind::Amplifier)
        .filter_map(|part| system.first(part, Role::SignalGround))
        .collect();
    for end in system.role(Role::SignalGround) {
        if boards.contains(&end) {
            continue;
        }
        let limits = Limits::metal().along(&[Carries::Signal]);
        let reached = system.reach(&modes[first], end, &limits);
        if !boards.iter().any(|board| reached.has(*board)) {
            found.push(breach(BreachKind::NoSignalGround, first, [end]));
        }
    }
    found
}
