//! The electrics: parts, wires, modes, harness.

use serde::Serialize;
use studies::electrics::{Electrics as Model, EndingKind, HarnessWire, ModeState, Spool, colour};

#[derive(Serialize)]
pub(super) struct Electrics<'a> {
    parts: Vec<Part<'a>>,
    wires: Vec<Wire<'a>>,
    spools: Vec<Reel<'a>>,
    modes: Vec<Mode<'a>>,
    fuse: Option<Fuse<'a>>,
    supply: Supply,
    assumed: Vec<&'a str>,
}

#[derive(Serialize)]
struct Part<'a> {
    name: &'a str,
    label: &'a str,
    table: &'a str,
    assumed: bool,
    terminals: Vec<&'a str>,
    at_m: [f64; 3],
    idle_a: f64,
    continuous_a: f64,
    peak_a: f64,
}

#[derive(Serialize)]
struct Wire<'a> {
    label: &'a str,
    from: &'a str,
    to: &'a str,
    texts: &'a [String; 2],
    section_m2: f64,
    stock: Option<&'a str>,
    colour: &'static str,
    letters: &'static str,
    dashes_mm: &'static [f64],
    length_m: f64,
    run_m: &'a [[f64; 3]],
    endings: [Ending; 2],
    continuous_a: f64,
    peak_a: f64,
    drop_v: f64,
    resistance_ohm: f64,
    stated: bool,
}

#[derive(Serialize)]
struct Reel<'a> {
    label: &'a str,
    section_m2: f64,
    stocked: bool,
    length_m: f64,
    in_drawer_m: f64,
    to_buy_m: f64,
    colours: Vec<Strand<'a>>,
}

#[derive(Serialize)]
struct Strand<'a> {
    colour: &'static str,
    letters: &'static str,
    wires: Vec<&'a str>,
    length_m: f64,
}

#[derive(Serialize)]
struct Ending {
    kind: &'static str,
    strip_m: f64,
}

#[derive(Serialize)]
struct Mode<'a> {
    name: &'a str,
    positions: Vec<Position<'a>>,
    nets: Vec<Vec<String>>,
    live: Vec<&'a str>,
    charges: bool,
    idle_a: f64,
    continuous_a: f64,
}

#[derive(Serialize)]
struct Position<'a> {
    part: &'a str,
    at: &'a str,
}

#[derive(Serialize)]
struct Fuse<'a> {
    part: &'a str,
    stock: Option<&'a str>,
    stated: bool,
    rated_a: f64,
    least_a: f64,
    most_a: Option<f64>,
    reach_m: Option<f64>,
}

#[derive(Serialize)]
struct Supply {
    full_v: f64,
    mid_v: f64,
    empty_v: f64,
    continuous_a: f64,
    sine_a: f64,
    peak_a: f64,
    inrush_a: f64,
    inrush_s: f64,
}

impl<'a> Electrics<'a> {
    pub(super) fn new(model: &'a Model) -> Self {
        let parts = model.parts.iter().zip(&model.system.parts);
        let supply = &model.supply;
        Self {
            parts: parts
                .map(|(behind, part)| Part {
                    name: &part.name,
                    label: &behind.label,
                    table: &behind.table,
                    assumed: behind.assumed,
                    terminals: part.terminals.iter().map(|own| own.name.as_str()).collect(),
                    at_m: behind.at,
                    idle_a: behind.idle,
                    continuous_a: behind.continuous,
                    peak_a: behind.peak,
                })
                .collect(),
            wires: model.harness.iter().map(wire).collect(),
            spools: model.spools.iter().map(|own| reel(model, own)).collect(),
            modes: model.modes.iter().map(|state| mode(model, state)).collect(),
            fuse: model.fuse.as_ref().map(|fuse| Fuse {
                part: &model.system.parts[fuse.part].name,
                stock: fuse
                    .stock
                    .as_ref()
                    .map(|part| part.common.name.text.as_str()),
                stated: fuse.stated,
                rated_a: fuse.current,
                least_a: fuse.least,
                most_a: finite(fuse.most),
                reach_m: finite(fuse.reach),
            }),
            supply: Supply {
                full_v: supply.volts[0],
                mid_v: supply.volts[1],
                empty_v: supply.volts[2],
                continuous_a: supply.continuous,
                sine_a: supply.sine,
                peak_a: supply.peak,
                inrush_a: supply.inrush.0,
                inrush_s: supply.inrush.1,
            },
            assumed: model.assumed.iter().map(|own| own.words.as_str()).collect(),
        }
    }
}

fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

fn wire(own: &HarnessWire) -> Wire<'_> {
    Wire {
        label: &own.label,
        from: &own.from,
        to: &own.to,
        texts: &own.texts,
        section_m2: own.section,
        stock: own.stock.as_deref(),
        colour: colour::name(own.colour),
        letters: colour::letters(own.colour),
        dashes_mm: colour::dashes(own.colour),
        length_m: own.length,
        run_m: &own.run,
        endings: own.endings.map(|ending| Ending {
            kind: ending_word(ending.kind),
            strip_m: ending.strip,
        }),
        continuous_a: own.continuous,
        peak_a: own.peak,
        drop_v: own.drop,
        resistance_ohm: own.ohms,
        stated: own.stated,
    }
}

fn reel<'a>(model: &'a Model, spool: &'a Spool) -> Reel<'a> {
    let wire = |index: &usize| model.harness[*index].label.as_str();
    let colours = spool.colours.iter();
    Reel {
        label: &spool.label,
        section_m2: spool.section,
        stocked: spool.part.is_some(),
        length_m: spool.length(),
        in_drawer_m: spool.in_drawer(),
        to_buy_m: spool.to_buy(),
        colours: colours
            .map(|strand| Strand {
                colour: colour::name(strand.colour),
                letters: colour::letters(strand.colour),
                wires: strand.wires.iter().map(wire).collect(),
                length_m: strand.length,
            })
            .collect(),
    }
}

const fn ending_word(kind: EndingKind) -> &'static str {
    match kind {
        EndingKind::PushOn => "push-on",
        EndingKind::Ring => "ring",
        EndingKind::Ferrule => "ferrule",
        EndingKind::Solder => "solder",
        EndingKind::Plug => "plug",
    }
}

fn mode<'a>(model: &'a Model, state: &'a ModeState) -> Mode<'a> {
    let system = &model.system;
    let parts = system.parts.iter().zip(&state.mode.positions);
    let nets = (0..state.nets.len()).map(|net| state.nets.members(net));
    Mode {
        name: &state.mode.name,
        positions: parts
            .filter_map(|(part, position)| {
                Some(Position {
                    part: &part.name,
                    at: part.positions.get(*position)?,
                })
            })
            .collect(),
        nets: nets
            .filter(|ends| ends.len() > 1)
            .map(|ends| ends.iter().map(|end| system.name(*end)).collect())
            .collect(),
        live: state
            .live
            .iter()
            .map(|part| system.parts[*part].name.as_str())
            .collect(),
        charges: state.charges,
        idle_a: state.idle,
        continuous_a: state.continuous,
    }
}
