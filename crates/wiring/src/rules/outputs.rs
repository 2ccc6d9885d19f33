//! Every output leg touches its own load alone, and every driver is driven by its channel,
//! in its sense.

use super::view::breach;
use super::{Breach, BreachKind};
use crate::{Carries, End, Kind, Limits, Mode, Role, Side, Sign, System, flow};

pub(super) fn breaches(system: &System, modes: &[Mode]) -> Vec<Breach> {
    let mut found = Vec::new();
    let channels = channels(system);
    for (index, mode) in modes.iter().enumerate() {
        for channel in &channels {
            for leg in channel.legs {
                found.extend(touched(system, mode, index, channel, leg));
            }
        }
        if mode.plays() {
            found.extend(driven(system, mode, index, &channels));
            found.extend(posts(system, mode, index, &channels));
        }
    }
    found
}

/// Both legs of an output: the one in phase first.
struct Channel {
    legs: [End; 2],
    side: Option<Side>,
    bridged: bool,
}

fn channels(system: &System) -> Vec<Channel> {
    let mut channels = Vec::new();
    for plus in system.ends() {
        let bridged = system.role_of(plus) == Role::Bridged;
        let output = bridged || system.role_of(plus) == Role::Output;
        let sign = |end: End| system.parts[end.part].terminals[end.terminal].sign;
        if !output || sign(plus) != Some(Sign::Plus) {
            continue;
        }
        let other = if bridged {
            Role::Bridged
        } else {
            Role::OutputGround
        };
        let minus = system.role(other).into_iter().find(|end| {
            end.part == plus.part
                && sign(*end) == Some(Sign::Minus)
                && system.side_of(*end) == system.side_of(plus)
        });
        channels.extend(minus.map(|minus| Channel {
            legs: [plus, minus],
            side: system.side_of(plus),
            bridged,
        }));
    }
    channels
}

/// What a driven leg touches beside loads and passive ends.
fn touched(system: &System, mode: &Mode, index: usize, channel: &Channel, leg: End) -> Vec<Breach> {
    if !channel.bridged && leg == channel.legs[1] {
        return Vec::new();
    }
    let metal = system.reach(mode, leg, &Limits::metal());
    let loads = system.reach(mode, leg, &Limits::signal());
    let foreign = |end: &&End| {
        let role = system.role_of(**end);
        let own = channel.legs.contains(*end);
        let ground = !channel.bridged && role == Role::OutputGround;
        !own && !ground && !matches!(role, Role::Load | Role::Contact)
    };
    let mut found: Vec<Breach> = metal
        .ends()
        .iter()
        .filter(foreign)
        .map(|end| breach(BreachKind::OutputTouches, index, [leg, *end]))
        .collect();
    if metal.has(other(channel, leg)) {
        let ends = [leg, other(channel, leg)];
        found.push(breach(BreachKind::OutputTouches, index, ends));
    }
    if channel.bridged && found.is_empty() {
        // Through a voice coil too, nothing but the other leg may be reached.
        let beyond = loads.ends().iter().filter(foreign);
        found.extend(beyond.map(|end| breach(BreachKind::OutputTouches, index, [leg, *end])));
    }
    found
}

fn other(channel: &Channel, leg: End) -> End {
    if leg == channel.legs[0] {
        channel.legs[1]
    } else {
        channel.legs[0]
    }
}

/// Least share of an output's voltage that a driver must have across it: it is less where
/// the way to it is broken.
const DRIVEN: f64 = 0.02;

/// Resistance of a wire while only its being there counts, in Ω.
const WIRE: f64 = 1e-3;

/// Drivers one by one: the voltage across each while one channel after the other is driven.
fn driven(system: &System, mode: &Mode, index: usize, channels: &[Channel]) -> Vec<Breach> {
    let offsets = system.offsets();
    let ohms = vec![WIRE; system.wires.len()];
    let fields: Vec<_> = channels
        .iter()
        .map(|channel| flow(system, mode, channel.legs, 1.0, &ohms, &[]).volts)
        .collect();
    let mut found = Vec::new();
    for driver in system.kind(Kind::Driver) {
        let ends = [0, 1].map(|terminal| End {
            part: driver,
            terminal,
        });
        let across = |field: &Vec<Option<f64>>| {
            let [plus, minus] = ends.map(|end| field[offsets[end.part] + end.terminal]);
            plus.zip(minus).map_or(0.0, |(plus, minus)| plus - minus)
        };
        let volts: Vec<f64> = fields.iter().map(across).collect();
        let own = |channel: &Channel| {
            let side = system.side_of(ends[0]);
            side == channel.side || side == Some(Side::Mono)
        };
        let mine = channels
            .iter()
            .zip(&volts)
            .filter(|(channel, _)| own(channel));
        let best = mine.map(|(_, volts)| *volts).fold(
            0.0,
            |a: f64, b| {
                if b.abs() > a.abs() { b } else { a }
            },
        );
        let foreign = channels
            .iter()
            .zip(&volts)
            .any(|(channel, volts)| !own(channel) && volts.abs() > DRIVEN);
        let kind = match best {
            _ if foreign => BreachKind::OtherChannel,
            best if best.abs() < DRIVEN => BreachKind::Silent,
            best if best < 0.0 => BreachKind::AgainstPhase,
            best if other_share(system.parts[driver].share, best) => BreachKind::OtherShare,
            _ => continue,
        };
        found.push(breach(kind, index, ends));
    }
    found
}

/// How far a share may lie from what it is to be: wires and contacts take some of it.
const SHARE: f64 = 0.05;

fn other_share(wanted: Option<f64>, has: f64) -> bool {
    wanted.is_some_and(|wanted| (has - wanted).abs() > SHARE * wanted)
}

/// Posts lie on the legs of their channel.
fn posts(system: &System, mode: &Mode, index: usize, channels: &[Channel]) -> Vec<Breach> {
    let mut found = Vec::new();
    let along = Limits::metal().along(&[Carries::Output]);
    for post in system.kind(Kind::Post) {
        for (terminal, own) in system.parts[post].terminals.iter().enumerate() {
            let end = End {
                part: post,
                terminal,
            };
            let channel = channels.iter().find(|channel| channel.side == own.side);
            let leg = match own.sign {
                Some(Sign::Minus) => 1,
                _ => 0,
            };
            let joined = channel
                .is_some_and(|channel| system.reach(mode, channel.legs[leg], &along).has(end));
            if !joined {
                found.push(breach(BreachKind::PostLoose, index, [end]));
            }
        }
    }
    found
}
