//! Positions across the sheet: every track and every column as far left as what
//! stands at the same height lets it.

use super::channel::Tracks;
use super::circuit::Pin;
use super::frame::{Frame, STEP, Term, Wire};
use super::state::{Span, State};

/// Where everything stands from left to right, mm.
pub(super) struct Across {
    /// Left and right edge of every column.
    pub(super) columns: Vec<[f64; 2]>,
    /// Left edge of every block.
    pub(super) blocks: Vec<f64>,
    /// The track of every wire of every channel; `None` for one that runs level.
    pub(super) tracks: Vec<Vec<Option<f64>>>,
    pub(super) width: f64,
}

/// An end of a wire at the side of a channel, with the label on its line.
struct End {
    /// Half steps.
    height: i64,
    /// How far its port is inside its column.
    inset: f64,
    label: f64,
}

/// Places everything; `bears` says which pins have their label drawn.
pub(super) fn across(
    frame: &Frame,
    state: &State,
    tracks: &[Tracks],
    bears: &dyn Fn(Pin) -> bool,
) -> Across {
    let ruler = Ruler {
        frame,
        state,
        bears,
        inset: insets(frame),
    };
    let mut out = Across {
        columns: Vec::new(),
        blocks: vec![0.0; frame.circuit.blocks.len()],
        tracks: Vec::new(),
        width: 0.0,
    };
    let mut x = 0.0;
    for (channel, own) in tracks.iter().enumerate() {
        let (placed, right) = ruler.channel(channel, own, x);
        out.tracks.push(placed);
        x = right;
        if let Some(column) = frame.columns.get(channel) {
            let edge = x + ruler.width(column);
            for block in column.iter().filter_map(|i| frame.items[*i].block) {
                out.blocks[block] = x + ruler.inset[block][0];
            }
            out.columns.push([x, edge]);
            x = edge;
        }
    }
    out.width = x;
    out
}

/// How far every block stands from the left and from the right edge of its column: at
/// the side its lines are on, else in the middle.
fn insets(frame: &Frame) -> Vec<[f64; 2]> {
    let mut out = vec![[0.0; 2]; frame.circuit.blocks.len()];
    for column in &frame.columns {
        let widest = width(frame, column);
        for item in column.iter().map(|i| &frame.items[*i]) {
            let Some(block) = item.block else {
                continue;
            };
            let spare = widest - frame.circuit.blocks[block].size[0];
            let share = match (item.ports[0].is_empty(), item.ports[1].is_empty()) {
                (true, false) => 1.0,
                (false, true) => 0.0,
                _ => 0.5,
            };
            out[block] = [share * spare, (1.0 - share) * spare];
        }
    }
    out
}

fn width(frame: &Frame, column: &[usize]) -> f64 {
    let blocks = column.iter().filter_map(|i| frame.items[*i].block);
    let widths = blocks.map(|b| frame.circuit.blocks[b].size[0]);
    widths.fold(0.0, f64::max)
}

struct Ruler<'a> {
    frame: &'a Frame<'a>,
    state: &'a State,
    bears: &'a dyn Fn(Pin) -> bool,
    inset: Vec<[f64; 2]>,
}

impl Ruler<'_> {
    fn width(&self, column: &[usize]) -> f64 {
        width(self.frame, column)
    }

    /// Between a label and a track.
    fn clear(&self) -> f64 {
        0.5 * self.frame.rules.track
    }

    fn end(&self, side: usize, term: &Term) -> End {
        let item = &self.frame.items[term.item];
        let (inset, label) = match item.block {
            Some(block) => {
                let pin = Pin {
                    block,
                    port: term.port,
                };
                let label = self.frame.circuit.blocks[block].ports[term.port].label;
                let shown = if (self.bears)(pin) { label } else { 0.0 };
                (self.inset[block][1 - side], shown)
            }
            None => (0.0, 0.0),
        };
        End {
            height: self.state.at(*term),
            inset,
            label,
        }
    }

    fn ends(&self, wires: &[Wire], side: usize) -> Vec<End> {
        let all = wires.iter().flat_map(|w| &w.ends[side]);
        all.map(|t| self.end(side, t)).collect()
    }

    /// How far the label of an end reaches into the channel from the edge of its column.
    fn reach(&self, end: &End) -> f64 {
        match end.label > 0.0 {
            true => self.frame.rules.stub + end.label - end.inset,
            false => 0.0,
        }
    }

    /// Half steps that a label stands above its line.
    fn tall(&self) -> i64 {
        let rules = self.frame.rules;
        libm::ceil(rules.label / rules.step * STEP as f64) as i64
    }

    /// Whether a track passes beside the label of an end.
    fn beside(&self, end: &End, span: &Span) -> bool {
        end.label > 0.0 && span.low <= end.height && span.high > end.height - self.tall()
    }

    /// Tracks of a channel that begins at `x`, and where its right column begins.
    fn channel(&self, channel: usize, tracks: &Tracks, x: f64) -> (Vec<Option<f64>>, f64) {
        let rules = self.frame.rules;
        let wires = &self.frame.channels[channel];
        let spans = self.state.spans(wires);
        let [left, right] = [0, 1].map(|side| self.ends(wires, side));
        let first = if channel == 0 { x } else { x + rules.track };
        let last = channel == self.frame.columns.len();
        let mut order: Vec<(usize, usize)> = (tracks.of.iter().enumerate())
            .filter_map(|(wire, track)| Some(((*track)?, wire)))
            .collect();
        order.sort_unstable();
        let mut placed: Vec<Option<f64>> = vec![None; wires.len()];
        for (track, wire) in &order {
            let span = &spans[*wire];
            let labels = left.iter().filter(|end| self.beside(end, span));
            let mut at = labels
                .map(|end| x + self.reach(end) + self.clear())
                .fold(first, f64::max);
            let before = order
                .iter()
                .filter(|(t, w)| t < track && near(&spans[*w], span));
            for known in before.filter_map(|(_, w)| placed[*w]) {
                at = at.max(known + rules.track);
            }
            placed[*wire] = Some(at);
        }
        let mut edge = match (channel, last) {
            (0, _) | (_, true) => x,
            _ => x + 2.0 * rules.track,
        };
        let margin = if last { 0.0 } else { rules.track };
        for (wire, track) in placed.iter().enumerate() {
            let Some(track) = track else { continue };
            edge = edge.max(track + margin);
            for end in right.iter().filter(|end| self.beside(end, &spans[wire])) {
                edge = edge.max(track + self.clear() + self.reach(end));
            }
        }
        for end in &left {
            edge = edge.max(x + self.reach(end) + if last { 0.0 } else { self.clear() });
        }
        for end in right.iter().filter(|end| end.label > 0.0) {
            let meets =
                |other: &&End| other.label > 0.0 && (other.height - end.height).abs() < self.tall();
            let from = left.iter().filter(meets).map(|other| self.reach(other));
            let from = from.fold(0.0, f64::max);
            edge = edge.max(x + from + self.clear() + self.reach(end));
        }
        (placed, edge)
    }
}

/// Whether two tracks stand so near in height that they keep their distance.
fn near(a: &Span, b: &Span) -> bool {
    a.low <= b.high + 1 && b.low <= a.high + 1
}
