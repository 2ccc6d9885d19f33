//! What disconnects the load, and stays off until it is started anew.

use super::design::{found, hurried};
use super::drawer::Named;
use super::fading::Fading;
use super::model::{CutOff, Kind, Net, Part, Wanted};
use super::parts::{BATTERY, Board, GROUND, OUTPUT, input_of, plain};
use super::study::{Player, threshold};
use super::wants;
use crate::odds::Band;
use design::{CutOff as Wish, IndicatorUse, MosfetChannel, SwitchingKind, SwitchingPart};
use physics::indicator::search;
use physics::indicator::{Resistor, State};

/// How far above the lowest voltage of the battery it disconnects, as a share,
/// for its own spread.
const ABOVE: f64 = 1.015;

/// How far above the highest voltage of the battery it would come back, in V.
const BEYOND: f64 = 0.4;

/// By how much the hysteresis may exceed what latches, as ratios: little where the drawer has
/// the resistors for it, which is soon searched, and much where it has not.
const LATCHES: [f64; 2] = [1.4, 3.0];

/// Current that a switch must carry over what flows at the peaks, as a ratio.
const SPARE: f64 = 1.25;

/// Holds the gate of a P-channel transistor at its source while nothing pulls it down, in Ω.
const GATE_UP: f64 = 100e3;

/// Terminals of the cut-off as the wire list names them: what the battery feeds, what it feeds on.
const IN: &str = "cut-off in";
const OUT: &str = "cut-off out";

/// Before the button that starts it, in Ω.
const START: f64 = 1e3;

/// The cut-off of a design; `None` where none is wanted or the shelf has none.
pub(super) fn cut_off(
    player: &Player<'_>,
    named: &Named<'_>,
    used: &IndicatorUse,
    wanted: &Wanted,
    fading: &Fading,
) -> Option<CutOff> {
    let relay = match used.cut_off.value {
        Wish::None => return None,
        Wish::Relay => true,
        Wish::Mosfet => false,
    };
    let battery = &player.build.battery;
    let sag = wants::sag(player);
    let least = player
        .switched
        .map_or(SPARE * sag.peak_current, |all| all.peak);
    let switch = switch(player, relay, wanted, least)?;
    let trip = ABOVE * battery.end_voltage;
    let latch = wanted.supply[1] + BEYOND - trip;
    let usual = wants::wish(wanted, used, named.lamp()?, f64::INFINITY);
    let mut found = LATCHES.iter().find_map(|most| {
        let wish = search::Wish {
            trip,
            hysteresis: [latch, most * latch],
            recovered: f64::INFINITY,
            ..usual
        };
        let met = &player.subject.indicators;
        found(named, wish, 1, met).into_iter().next()
    })?;
    // It has no lamp: what that would sink would hold the output up.
    found.circuit.light.series = f64::INFINITY;
    found.circuit = hurried(named, found.circuit);
    let circuit = &found.circuit;
    let stack = circuit.falling_stack();
    let off = wants::off(circuit);
    let band = Band::of(fading.drawn.iter().map(|(_, own)| stack.nominal * off(own)));
    let held = match &switch.kind {
        SwitchingKind::Relay {
            coil_resistance, ..
        } => coil_resistance.si,
        SwitchingKind::Mosfet { .. } => GATE_UP,
    };
    let driver = driver(player, wanted, wanted.supply[1] / held)?;
    let held = battery.mid_voltage() / held;
    let loss = match &switch.kind {
        SwitchingKind::Mosfet { on_resistance, .. } => on_resistance.si * sag.mean_current,
        SwitchingKind::Relay { .. } => 0.0,
    };
    let board = board(
        Board::new(named, 10).indicator(&found, None, false),
        [driver, switch],
        input_of(circuit),
    );
    Some(CutOff {
        switch: switch.common.name.text.clone(),
        relay,
        falling: threshold(&stack, band?),
        rising: circuit.thresholds().rising,
        loss,
        dark: circuit.currents(battery.mid_voltage(), State::Dark).drawn + held,
        parts: board.parts,
        nets: as_wired(board.nets),
    })
}

/// The nets under the names that the wire list gives them.
fn as_wired(mut nets: Vec<Net>) -> Vec<Net> {
    for net in &mut nets {
        if net.name == BATTERY {
            IN.clone_into(&mut net.name);
        }
    }
    nets
}

/// An N-channel transistor that the comparator opens and that carries a coil or a gate's resistor.
fn driver<'a>(player: &Player<'a>, wanted: &Wanted, amperes: f64) -> Option<&'a SwitchingPart> {
    let fits = |part: &&SwitchingPart| {
        opened(part, MosfetChannel::N, wanted)
            && part.dc_current.si >= SPARE * amperes
            && part.dc_voltage.si >= wanted.supply[1]
    };
    let all = player.subject.project.shelf.switching.iter();
    all.filter(fits).min_by_key(|part| part.common.on_hand == 0)
}

/// Whether a transistor is of a channel and the battery, empty or full, opens it.
fn opened(part: &SwitchingPart, wants: MosfetChannel, wanted: &Wanted) -> bool {
    let [lowest, highest] = wanted.supply;
    match &part.kind {
        SwitchingKind::Mosfet {
            channel,
            gate_voltage,
            gate_most,
            ..
        } => channel.value == wants && gate_voltage.si <= lowest && gate_most.si >= highest,
        SwitchingKind::Relay { .. } => false,
    }
}

/// The one of the shelf that carries the current and is driven by the battery: rather one that
/// also bears the fuse's current and the rush, then one at hand. It lies in the plus lead, where
/// only a P-channel transistor has its gate pulled open from ground.
fn switch<'a>(
    player: &Player<'a>,
    relay: bool,
    wanted: &Wanted,
    peak: f64,
) -> Option<&'a SwitchingPart> {
    let highest = wanted.supply[1];
    let fits = |part: &&SwitchingPart| {
        let driven = match &part.kind {
            SwitchingKind::Relay {
                coil_voltage,
                pull_in,
                ..
            } => {
                relay
                    && pull_in.map_or(0.75 * coil_voltage.si, |value| value.si)
                        <= player.build.battery.mid_voltage()
                    && highest <= 1.3 * coil_voltage.si
            }
            SwitchingKind::Mosfet { .. } => !relay && opened(part, MosfetChannel::P, wanted),
        };
        driven && part.dc_current.si >= peak && part.dc_voltage.si >= highest
    };
    let mut all = player
        .subject
        .project
        .shelf
        .switching
        .iter()
        .filter(fits)
        .collect::<Vec<_>>();
    let bears = |part: &SwitchingPart| {
        let all = player.switched.unwrap_or_default();
        part.dc_current.si >= all.fuse.max(all.rush / bears_rush(part))
    };
    all.sort_by_key(|part| (!bears(part), part.common.on_hand == 0));
    all.first().copied()
}

/// How many times its rated current a switch stands for the milliseconds of a rush: a contact
/// ten times, a transistor four times. Common practice, no source.
pub(crate) fn bears_rush(switch: &SwitchingPart) -> f64 {
    match &switch.kind {
        SwitchingKind::Relay { .. } => 10.0,
        SwitchingKind::Mosfet { .. } => 4.0,
    }
}

/// The switch, what drives it, and the button that starts it.
fn board<'a>(
    mut board: Board<'a>,
    [driver, switch]: [&SwitchingPart; 2],
    input: &str,
) -> Board<'a> {
    let (driven, does) = match &switch.kind {
        SwitchingKind::Mosfet { .. } => {
            let part = plain(Kind::MosfetP, "disconnects the load", Some(&switch.common));
            let pins = [("gate", "gate"), ("source", BATTERY), ("drain", OUT)];
            board.add("Q", part, &pins);
            let up = Resistor {
                ohms: GATE_UP,
                tolerance: 0.05,
            };
            board.resistor(up, "closes the gate", [BATTERY, "gate"]);
            ("gate", "opens the gate")
        }
        SwitchingKind::Relay { .. } => {
            let part = plain(Kind::Relay, "disconnects the load", Some(&switch.common));
            let pins = [
                ("coil 1", BATTERY),
                ("coil 2", "coil"),
                ("contact 1", BATTERY),
                ("contact 2", OUT),
            ];
            board.add("K", part, &pins);
            let quench: Part = Part {
                name: None,
                ..plain(
                    Kind::Reference,
                    "takes what the coil gives back: any silicon diode",
                    None,
                )
            };
            board.add("D", quench, &[("cathode", BATTERY), ("anode", "coil")]);
            ("coil", "drives the coil")
        }
    };
    let part = plain(Kind::Mosfet, does, Some(&driver.common));
    let pins = [("gate", OUTPUT), ("source", GROUND), ("drain", driven)];
    board.add("Q", part, &pins);
    let start = Resistor {
        ohms: START,
        tolerance: 0.05,
    };
    board.resistor(start, "before the button", [BATTERY, "start"]);
    let button = plain(Kind::Button, "starts it anew", None);
    board.add("S", button, &[("1", "start"), ("2", input)]);
    board
}
