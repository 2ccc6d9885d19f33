//! From order and heights to points in millimetres.

use super::across::{Across, across};
use super::channel::{Tracks, tracks};
use super::circuit::{Face, Pin};
use super::frame::{Frame, STEP, Term, Wire};
use super::state::State;
use super::trace::Trace;

/// Half steps by which lines are moved off one another, one by one, at most.
const NUDGES: usize = 60;

/// A block in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Its left upper corner.
    pub at: [f64; 2],
    /// Where its ports are, in the order of the block's list.
    pub ports: Vec<PlacedPort>,
}

/// A port in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedPort {
    /// The point on the edge of its block.
    pub at: [f64; 2],
    /// The side: left or right.
    pub face: Face,
}

/// A net as it is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawn {
    /// Lines of level and upright stretches, from pin or branch to pin or branch.
    pub runs: Vec<Vec<[f64; 2]>>,
    /// Where three or four of its stretches meet.
    pub dots: Vec<[f64; 2]>,
}

/// Room kept free for a label.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelBox {
    /// The pin it stands at.
    pub pin: Pin,
    /// Left upper corner.
    pub at: [f64; 2],
    /// Width and height; its lower edge lies on the line.
    pub size: [f64; 2],
}

/// A circuit laid out; everything lies between (0, 0) and its size.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Diagram {
    /// Width and height in mm.
    pub size: [f64; 2],
    /// Every block, in the order of the circuit.
    pub blocks: Vec<Placed>,
    /// Every net, in the order of the circuit.
    pub nets: Vec<Drawn>,
    /// Labels of pins that are in a net.
    pub labels: Vec<LabelBox>,
    /// How often lines of two nets cross.
    pub crossings: usize,
    /// How often a line turns.
    pub bends: usize,
}

/// Draws an order; of labels that say the same, one is left out where the drawing is
/// too wide for its room with all.
pub(super) fn drawn(frame: &Frame, state: &State) -> Diagram {
    let mut state = state.clone();
    let tracks = parted(frame, &mut state);
    let full = put(frame, &state, &tracks, &|_| true);
    if full.size[0] <= frame.rules.room[0] {
        return full;
    }
    let spared = spared_labels(frame);
    put(frame, &state, &tracks, &|pin| !spared.contains(&pin))
}

/// Pins whose label is left out: of a short line that bears it at both ends, the one
/// where fewer others are as wide.
fn spared_labels(frame: &Frame) -> Vec<Pin> {
    let mut out = Vec::new();
    for (channel, wires) in frame.channels.iter().enumerate() {
        let pins = |side: usize, wire: &Wire| -> Vec<Pin> {
            let blocks = wire.ends[side].iter().filter_map(|end| {
                let block = frame.items[end.item].block?;
                let port = end.port;
                Some(Pin { block, port })
            });
            blocks.collect()
        };
        let short = |wire: &&Wire| {
            let net = &frame.circuit.nets[wire.net];
            net.alike && pins(0, wire).len() + pins(1, wire).len() == net.pins.len()
        };
        let widest = |side: usize| {
            let long = wires.iter().filter(|w| !short(w));
            let own = long.flat_map(|w| pins(side, w));
            let labels = own.map(|p| frame.circuit.blocks[p.block].ports[p.port].label);
            labels.fold(0.0, f64::max)
        };
        // Nothing stands left of the first channel and right of the last one.
        let side = match channel {
            0 => 1,
            _ => usize::from(widest(0) <= widest(1)),
        };
        for wire in wires.iter().filter(short) {
            let both = [0, 1].map(|side| pins(side, wire));
            if both.iter().all(|own| !own.is_empty()) {
                out.extend(&both[1 - side]);
            }
        }
    }
    out
}

fn put(frame: &Frame, state: &State, tracks: &[Tracks], bears: &dyn Fn(Pin) -> bool) -> Diagram {
    let top = (frame.items.iter().zip(&state.level)).map(|(i, y)| y + i.reach[0]);
    let top = top.min().unwrap_or(0);
    let bottom = (frame.items.iter().zip(&state.level)).map(|(i, y)| y + i.reach[1]);
    let high = bottom.max().unwrap_or(0) - top;
    let pen = Pen {
        frame,
        state,
        across: across(frame, state, tracks, bears),
        bears,
        top,
    };
    let blocks = pen.blocks();
    let traces = pen.traces(&blocks);
    Diagram {
        size: [pen.across.width, pen.mm(top + high)],
        labels: pen.labels(&blocks),
        crossings: crossings(&traces),
        bends: traces.iter().map(Trace::bends).sum(),
        nets: traces.iter().map(Trace::drawn).collect(),
        blocks,
    }
}

/// Tracks of every channel; where two nets stand in one another's way, a line is moved
/// by half a step.
fn parted(frame: &Frame, state: &mut State) -> Vec<Tracks> {
    for _ in 0..NUDGES {
        match all_tracks(frame, state) {
            Ok(tracks) => return spared(frame, state, tracks),
            Err(term) => nudge(frame, state, term.item),
        }
    }
    // Whole steps in every second column, halves in the others: nothing is level any more.
    for (i, column) in state.columns.clone().iter().enumerate() {
        for item in column {
            let whole = state.level[*item].div_euclid(STEP) * STEP;
            state.level[*item] = whole + (i % 2) as i64;
        }
        space(frame, state, i);
    }
    all_tracks(frame, state).unwrap_or_default()
}

/// Moves items by half a step while that spares crossings which only levels that meet
/// ask for.
fn spared(frame: &Frame, state: &mut State, tracks: Vec<Tracks>) -> Vec<Tracks> {
    let sum = |tracks: &[Tracks]| tracks.iter().map(|t| t.crossings).sum::<i64>();
    let mut best = tracks;
    let mut tried = 0;
    while let Some(channel) = best.iter().position(|t| t.crossings > t.needed) {
        let before = sum(&best);
        let ends = frame.channels[channel].iter().flat_map(|w| &w.ends);
        let mut items: Vec<usize> = ends.flatten().map(|end| end.item).collect();
        items.sort_unstable();
        items.dedup();
        for item in items {
            tried += 1;
            let mut trial = state.clone();
            nudge(frame, &mut trial, item);
            if let Ok(found) = all_tracks(frame, &trial)
                && sum(&found) < sum(&best)
            {
                (*state, best) = (trial, found);
            }
        }
        if sum(&best) == before || tried > NUDGES {
            break;
        }
    }
    best
}

/// Tracks of every channel, or an end that another net has to give way to.
fn all_tracks(frame: &Frame, state: &State) -> Result<Vec<Tracks>, Term> {
    let channels = frame.channels.iter();
    channels
        .map(|wires| {
            let spans = state.spans(wires);
            tracks(&spans).map_err(|stuck| {
                let met = |t: &&Term| {
                    let mut others = spans.iter().enumerate().filter(|(i, _)| *i != stuck);
                    others.any(|(_, s)| s.left.contains(&state.at(**t)))
                };
                let ends = &wires[stuck].ends[1];
                *ends.iter().find(met).unwrap_or(&ends[0])
            })
        })
        .collect()
}

/// Moves an item down by half a step, and what is in its way.
fn nudge(frame: &Frame, state: &mut State, item: usize) {
    state.level[item] += 1;
    space(frame, state, frame.items[item].layer);
}

/// Moves items of a column down until all keep their distances.
fn space(frame: &Frame, state: &mut State, column: usize) {
    for pair in state.columns[column].windows(2) {
        let least = state.level[pair[0]] + frame.apart(pair[0], pair[1]);
        state.level[pair[1]] = state.level[pair[1]].max(least);
    }
}

struct Pen<'a> {
    frame: &'a Frame<'a>,
    state: &'a State,
    across: Across,
    bears: &'a dyn Fn(Pin) -> bool,
    top: i64,
}

impl Pen<'_> {
    /// A height on the sheet.
    fn mm(&self, level: i64) -> f64 {
        (level - self.top) as f64 * self.frame.rules.step / STEP as f64
    }

    fn blocks(&self) -> Vec<Placed> {
        let own = self.frame.circuit.blocks.iter().enumerate();
        own.map(|(b, block)| {
            let at = [self.across.blocks[b], self.mm(self.state.level[b])];
            let ports = (0..block.ports.len()).map(|port| {
                let face = self.frame.faces[b][port];
                let x = match face {
                    Face::Right => at[0] + block.size[0],
                    _ => at[0],
                };
                let y = self.mm(self.state.at(Term { item: b, port }));
                PlacedPort { at: [x, y], face }
            });
            Placed {
                at,
                ports: ports.collect(),
            }
        })
        .collect()
    }

    /// Every net as a tree of points.
    fn traces(&self, blocks: &[Placed]) -> Vec<Trace> {
        let mut out: Vec<Trace> = Vec::new();
        out.resize_with(self.frame.circuit.nets.len(), Trace::default);
        for (channel, wires) in self.frame.channels.iter().enumerate() {
            for (wire, track) in wires.iter().zip(&self.across.tracks[channel]) {
                self.wire(wire, *track, blocks, &mut out[wire.net]);
            }
        }
        for (net, item) in &self.frame.passages {
            let y = self.mm(self.state.level[*item]);
            let [left, right] = self.across.columns[self.frame.items[*item].layer];
            out[*net].join([left, y], [right, y]);
        }
        out
    }

    fn wire(&self, wire: &Wire, track: Option<f64>, blocks: &[Placed], out: &mut Trace) {
        let point = |side: usize, t: &Term| -> [f64; 2] {
            let item = &self.frame.items[t.item];
            match item.block {
                Some(b) => blocks[b].ports[t.port].at,
                None => {
                    let x = self.across.columns[item.layer][1 - side];
                    [x, self.mm(self.state.level[t.item])]
                }
            }
        };
        let ends = [0, 1].map(|side| {
            let own = wire.ends[side].iter();
            own.map(|t| point(side, t)).collect::<Vec<_>>()
        });
        let Some(x) = track else {
            out.join(ends[0][0], ends[1][0]);
            return;
        };
        let mut levels: Vec<f64> = ends.iter().flatten().map(|p| p[1]).collect();
        levels.sort_by(f64::total_cmp);
        levels.dedup();
        for end in ends.iter().flatten() {
            out.join(*end, [x, end[1]]);
        }
        for pair in levels.windows(2) {
            out.join([x, pair[0]], [x, pair[1]]);
        }
    }

    fn labels(&self, blocks: &[Placed]) -> Vec<LabelBox> {
        let rules = self.frame.rules;
        let nets = self.frame.circuit.nets.iter().filter(|n| n.pins.len() > 1);
        let pins = nets.flat_map(|n| &n.pins);
        pins.filter_map(|pin| {
            let width = self.frame.circuit.blocks[pin.block].ports[pin.port].label;
            let port = &blocks[pin.block].ports[pin.port];
            let x = match port.face {
                Face::Right => port.at[0] + rules.stub,
                _ => port.at[0] - rules.stub - width,
            };
            (width > 0.0 && (self.bears)(*pin)).then_some(LabelBox {
                pin: *pin,
                at: [x, port.at[1] - rules.label],
                size: [width, rules.label],
            })
        })
        .collect()
    }
}

/// How often stretches of different nets cross.
fn crossings(traces: &[Trace]) -> usize {
    let mut count = 0;
    for (i, a) in traces.iter().enumerate() {
        for b in &traces[i + 1..] {
            count += a.crossings(b);
        }
    }
    count
}
