//! What disconnects the load, and stays off until it is started anew.

use super::design::{found, hurried};
use super::drawer::Named;
use super::fading::Fading;
use super::model::{CutOff, Kind, Part, Wanted};
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
    let switch = switch(player, relay, wanted, sag.peak_current)?;
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
    found.circuit = hurried(named, found.circuit);
    let circuit = &found.circuit;
    let stack = circuit.falling_stack();
    let off = wants::off(circuit);
    let band = Band::of(fading.drawn.iter().map(|(_, own)| stack.nominal * off(own)));
    let coil = match &switch.kind {
        SwitchingKind::Relay {
            coil_resistance, ..
        } => battery.mid_voltage() / coil_resistance.si,
        SwitchingKind::Mosfet { .. } => 0.0,
    };
    let loss = match &switch.kind {
        SwitchingKind::Mosfet { on_resistance, .. } => on_resistance.si * sag.mean_current,
        SwitchingKind::Relay { .. } => 0.0,
    };
    let board = board(
        Board::new(named, 10).indicator(&found, None, false),
        player,
        switch,
        input_of(circuit),
    );
    Some(CutOff {
        switch: switch.common.name.text.clone(),
        relay,
        falling: threshold(&stack, band?),
        rising: circuit.thresholds().rising,
        loss,
        dark: circuit.currents(battery.mid_voltage(), State::Dark).drawn + coil,
        parts: board.parts,
        nets: board.nets,
    })
}

/// The first of the shelf that carries the current and is driven by the battery.
fn switch<'a>(
    player: &Player<'a>,
    relay: bool,
    wanted: &Wanted,
    peak: f64,
) -> Option<&'a SwitchingPart> {
    let [lowest, highest] = wanted.supply;
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
            SwitchingKind::Mosfet {
                channel,
                gate_voltage,
                gate_most,
                ..
            } => {
                !relay
                    && channel.value == MosfetChannel::N
                    && gate_voltage.si <= lowest
                    && gate_most.si >= highest
            }
        };
        driven && part.dc_current.si >= SPARE * peak && part.dc_voltage.si >= highest
    };
    let mut all = player
        .subject
        .project
        .shelf
        .switching
        .iter()
        .filter(fits)
        .collect::<Vec<_>>();
    all.sort_by_key(|part| part.common.on_hand == 0);
    all.first().copied()
}

/// The switch, what drives it, and the button that starts it.
fn board<'a>(
    mut board: Board<'a>,
    player: &Player<'_>,
    switch: &SwitchingPart,
    input: &str,
) -> Board<'a> {
    match &switch.kind {
        SwitchingKind::Mosfet { .. } => {
            let part = plain(Kind::Mosfet, "disconnects the load", Some(&switch.common));
            board.add(
                "Q",
                part,
                &[("gate", OUTPUT), ("source", GROUND), ("drain", "load −")],
            );
        }
        SwitchingKind::Relay { .. } => {
            let part = plain(Kind::Relay, "disconnects the load", Some(&switch.common));
            let pins = [
                ("coil 1", BATTERY),
                ("coil 2", "coil"),
                ("contact 1", BATTERY),
                ("contact 2", "load +"),
            ];
            board.add("K", part, &pins);
            let drives = player.subject.project.shelf.switching.iter().find(|part| {
                matches!(&part.kind, SwitchingKind::Mosfet { channel, .. } if channel.value == MosfetChannel::N)
            });
            let part = plain(
                Kind::Mosfet,
                "drives the coil",
                drives.map(|part| &part.common),
            );
            board.add(
                "Q",
                part,
                &[("gate", OUTPUT), ("source", GROUND), ("drain", "coil")],
            );
            let quench: Part = Part {
                name: None,
                ..plain(
                    Kind::Reference,
                    "takes what the coil gives back: any silicon diode",
                    None,
                )
            };
            board.add("D", quench, &[("cathode", BATTERY), ("anode", "coil")]);
        }
    }
    let start = Resistor {
        ohms: START,
        tolerance: 0.05,
    };
    board.resistor(start, "before the button", [BATTERY, "start"]);
    let button = plain(Kind::Button, "starts it anew", None);
    board.add("S", button, &[("1", "start"), ("2", input)]);
    board
}
