//! What flows in each mode.

use super::aside::WATCHING;
use super::model::{ElectricPart, ModeState, Supply};
use wiring::{Draw, End, Flow, Kind, Limits, Mode, Nets, Role, State, System};

/// Which current of a part is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Which {
    Idle,
    Continuous,
    Peak,
}

impl ElectricPart {
    pub(super) const fn current(&self, which: Which) -> f64 {
        match which {
            Which::Idle => self.idle,
            Which::Continuous => self.continuous,
            Which::Peak => self.peak,
        }
    }
}

/// The first terminal of a role that a part has.
pub(super) fn end_of(system: &System, part: usize, role: Role) -> Option<End> {
    let terminal = system.parts[part].of_role(role).next()?;
    Some(End { part, terminal })
}

/// Poles of what gives supply: the positive one and its return.
pub(super) fn poles(system: &System, part: usize) -> Option<[End; 2]> {
    let plus = end_of(system, part, Role::Plus)?;
    Some([plus, end_of(system, part, Role::Minus)?])
}

/// Where a part takes supply and gives it back.
pub(super) fn intake(system: &System, part: usize) -> Option<[End; 2]> {
    let supply = end_of(system, part, Role::Supply)?;
    Some([supply, end_of(system, part, Role::Return)?])
}

/// Parts that are supplied in a mode: those their feeder reaches at both terminals, in turn
/// from the battery on.
pub(super) fn live(system: &System, mode: &Mode) -> Vec<usize> {
    let mut live: Vec<usize> = Vec::new();
    let mut feeding: Vec<usize> = (0..system.parts.len())
        .filter(|part| system.parts[*part].kind == Kind::Battery)
        .collect();
    while let Some(source) = feeding.pop() {
        let Some([plus, minus]) = poles(system, source) else {
            continue;
        };
        // A light may have its resistor before it.
        let limits = Limits::signal();
        let [plus, minus] = [plus, minus].map(|pole| system.reach(mode, pole, &limits));
        for part in 0..system.parts.len() {
            let Some([supply, back]) = intake(system, part) else {
                continue;
            };
            if part == source || live.contains(&part) || !plus.has(supply) || !minus.has(back) {
                continue;
            }
            live.push(part);
            if poles(system, part).is_some() {
                feeding.push(part);
            }
        }
    }
    live.sort_unstable();
    live
}

/// What is drawn, at which voltage of the battery in V, and what the charger gives in A.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drawn {
    pub(super) which: Which,
    pub(super) volts: f64,
    pub(super) charger: f64,
}

/// Current of a live part in a mode, in A: a contact that the empty battery opened is held no
/// more, and only watched.
fn current(
    (system, mode): (&System, &Mode),
    parts: &[ElectricPart],
    part: usize,
    which: Which,
) -> f64 {
    if mode.state == State::Low && system.parts[part].kind == Kind::Switch {
        return WATCHING;
    }
    parts[part].current(which)
}

/// Wires' currents when every live part draws what is meant: those of the battery's
/// circuit, of converters' and of the charger's together.
pub(super) fn flows(
    system: &System,
    parts: &[ElectricPart],
    mode: &Mode,
    live: &[usize],
    ohms: &[f64],
    drawn: Drawn,
) -> Flow {
    let Drawn {
        which,
        volts,
        charger,
    } = drawn;
    let sources: Vec<usize> = (0..system.parts.len())
        .filter(|part| poles(system, *part).is_some())
        .collect();
    let mut sum: Option<Flow> = None;
    for source in sources {
        let kind = system.parts[source].kind;
        let Some(ends) = poles(system, source) else {
            continue;
        };
        let fed = |part: &&usize| match system.parts[**part].fed_by {
            Some(by) => by == source,
            None => kind == Kind::Battery,
        };
        let mut draws: Vec<Draw> = live
            .iter()
            .filter(fed)
            .filter_map(|part| {
                let [from, to] = intake(system, *part)?;
                let amperes = current((system, mode), parts, *part, which);
                Some(Draw { from, to, amperes })
            })
            .collect();
        if kind == Kind::Battery {
            draws.extend(charging(system, mode, charger));
        }
        let given = match kind {
            Kind::Battery => volts,
            _ => system.parts[source].gives.map_or(0.0, |range| range[0]),
        };
        let own = wiring::flow(system, mode, ends, given, ohms, &draws);
        // Batteries in parallel share alike; the first stands for all.
        let first = sum.is_none();
        match &mut sum {
            None => sum = Some(own),
            Some(_) if kind == Kind::Battery && !first => {}
            Some(sum) => add(sum, &own),
        }
    }
    sum.unwrap_or_else(|| Flow {
        wires: vec![0.0; system.wires.len()],
        inner: system
            .parts
            .iter()
            .map(|part| vec![0.0; part.inner.len()])
            .collect(),
        volts: system.ends().map(|_| None).collect(),
    })
}

fn add(sum: &mut Flow, own: &Flow) {
    for (wire, more) in sum.wires.iter_mut().zip(&own.wires) {
        *wire += more;
    }
    for (inner, more) in sum.inner.iter_mut().zip(&own.inner) {
        for (inner, more) in inner.iter_mut().zip(more) {
            *inner += more;
        }
    }
    for (volts, more) in sum.volts.iter_mut().zip(&own.volts) {
        *volts = volts.or(*more);
    }
}

/// What the charger drives through its socket.
fn charging(system: &System, mode: &Mode, amperes: f64) -> Option<Draw> {
    if !matches!(mode.state, State::Charging | State::Both) {
        return None;
    }
    let socket =
        (0..system.parts.len()).find(|part| system.parts[*part].kind == Kind::ChargeSocket)?;
    Some(Draw {
        from: end_of(system, socket, Role::ChargeReturn)?,
        to: end_of(system, socket, Role::Charge)?,
        amperes,
    })
}

/// Whether the charger is joined to the battery: both poles, through fuses and closed contacts.
pub(super) fn charges(system: &System, mode: &Mode) -> bool {
    if !matches!(mode.state, State::Charging | State::Both) {
        return false;
    }
    let of_kind =
        |kind: Kind| (0..system.parts.len()).filter(move |part| system.parts[*part].kind == kind);
    of_kind(Kind::ChargeSocket).any(|socket| {
        let charge = end_of(system, socket, Role::Charge);
        let back = end_of(system, socket, Role::ChargeReturn);
        let (Some(charge), Some(back)) = (charge, back) else {
            return false;
        };
        of_kind(Kind::Battery).any(|battery| {
            poles(system, battery).is_some_and(|[plus, minus]| {
                let limits = Limits::supply();
                system.reach(mode, charge, &limits).has(plus)
                    && system.reach(mode, back, &limits).has(minus)
            })
        })
    })
}

/// Currents of the amplifier's outputs in every wire, for so many amperes in each channel.
pub(super) fn outputs(system: &System, mode: &Mode, ohms: &[f64], amperes: f64) -> Vec<f64> {
    let mut wires = vec![0.0; system.wires.len()];
    for part in 0..system.parts.len() {
        let own = &system.parts[part];
        if own.kind != Kind::Amplifier {
            continue;
        }
        let legs = |roles: [Role; 2]| {
            let plus = own.of_role(roles[0]);
            plus.map(|terminal| End { part, terminal })
                .collect::<Vec<_>>()
        };
        let driven: Vec<End> = legs([Role::Bridged; 2])
            .into_iter()
            .chain(
                own.terminals
                    .iter()
                    .enumerate()
                    .filter_map(|(terminal, own)| {
                        let single = matches!(own.role, Role::Output | Role::OutputGround);
                        single.then_some(End { part, terminal })
                    }),
            )
            .collect();
        for pair in driven.chunks_exact(2) {
            let flow = wiring::flow(system, mode, [pair[0], pair[1]], 1.0, ohms, &[]);
            let total: f64 = system
                .wires
                .iter()
                .zip(&flow.wires)
                .map(|(wire, current)| match pair[0] {
                    plus if wire.from == plus => *current,
                    plus if wire.to == plus => -*current,
                    _ => 0.0,
                })
                .sum();
            if total > 0.0 {
                for (wire, own) in wires.iter_mut().zip(&flow.wires) {
                    *wire += own * amperes / total;
                }
            }
        }
    }
    wires
}

/// The state of every mode.
pub(super) fn states(
    system: &System,
    parts: &[ElectricPart],
    modes: Vec<Mode>,
    ohms: &[f64],
    supply: &Supply,
    charger: f64,
) -> Vec<ModeState> {
    let state = |mode: Mode| {
        let live = live(system, &mode);
        let drawn = |which: Which| -> f64 {
            let fed = live
                .iter()
                .filter(|part| system.parts[**part].fed_by.is_none());
            fed.fold(0.0, |sum, part| {
                sum + current((system, &mode), parts, *part, which)
            })
        };
        let which = Which::Continuous;
        ModeState {
            nets: Nets::new(system, &mode),
            flow: flows(
                system,
                parts,
                &mode,
                &live,
                ohms,
                Drawn {
                    which,
                    volts: supply.volts[1],
                    charger,
                },
            ),
            idle: drawn(Which::Idle),
            continuous: drawn(which),
            charges: charges(system, &mode),
            live,
            mode,
        }
    };
    modes.into_iter().map(state).collect()
}
