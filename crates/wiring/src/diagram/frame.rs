//! What stands in the columns and which nets meet in the channels between them.

use super::circuit::{Circuit, Face, Order, Rules};
use super::faces::Faces;

/// Half steps in a step: heights are whole steps, and half a step off to keep apart
/// what would lie on one line.
pub(super) const STEP: i64 = 2;
/// Between the ports of a side.
const PITCH: i64 = 2 * STEP;

/// A block, or the line of a net that passes through a column.
pub(super) struct Item {
    /// Its column.
    pub(super) layer: usize,
    /// The block; `None` for a passage.
    pub(super) block: Option<usize>,
    /// Highest and lowest that it takes, from its own level, half steps.
    pub(super) reach: [i64; 2],
    /// Ports that are in use or drawn, on the left and on the right, as listed.
    pub(super) ports: [Vec<usize>; 2],
    /// Whether they may change places.
    pub(super) free: bool,
    /// Where its ports are spread about, half steps below its level.
    pub(super) middle: i64,
}

/// Where a net ends at the side of a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Term {
    /// The item, by its place in the list.
    pub(super) item: usize,
    /// The port of its block; 0 for a passage.
    pub(super) port: usize,
}

/// A net in one channel.
pub(super) struct Wire {
    pub(super) net: usize,
    /// Where it comes from the column on the left, and goes to that on the right.
    pub(super) ends: [Vec<Term>; 2],
    /// How strongly it pulls.
    pub(super) pull: i64,
}

/// What would be level with an end of an item.
pub(super) struct Link {
    pub(super) own: usize,
    pub(super) other: Term,
    pub(super) weight: i64,
}

/// A circuit in columns.
pub(super) struct Frame<'a> {
    pub(super) circuit: &'a Circuit,
    pub(super) faces: &'a Faces,
    pub(super) rules: &'a Rules,
    /// Blocks first, in their order, then passages.
    pub(super) items: Vec<Item>,
    /// Items of each column.
    pub(super) columns: Vec<Vec<usize>>,
    /// Nets of each channel; channel `c` lies left of column `c`.
    pub(super) channels: Vec<Vec<Wire>>,
    /// For every item what it would be level with to its left and to its right.
    pub(super) links: Vec<[Vec<Link>; 2]>,
    /// Net and item of every passage.
    pub(super) passages: Vec<(usize, usize)>,
}

impl<'a> Frame<'a> {
    pub(super) fn new(
        circuit: &'a Circuit,
        faces: &'a Faces,
        layers: &[usize],
        rules: &'a Rules,
    ) -> Self {
        let count = layers.iter().max().map_or(0, |l| l + 1);
        let blocks = (0..circuit.blocks.len()).map(|b| block(circuit, faces, rules, b, layers[b]));
        let mut frame = Self {
            circuit,
            faces,
            rules,
            items: blocks.collect(),
            columns: vec![Vec::new(); count],
            channels: (0..=count).map(|_| Vec::new()).collect(),
            links: Vec::new(),
            passages: Vec::new(),
        };
        for net in 0..circuit.nets.len() {
            frame.run(net, layers);
        }
        for (i, item) in frame.items.iter().enumerate() {
            frame.columns[item.layer].push(i);
        }
        frame.links = frame.linked();
        frame
    }

    /// Leads a net through channels and columns.
    fn run(&mut self, net: usize, layers: &[usize]) {
        let pins = &self.circuit.nets[net].pins;
        if pins.len() < 2 {
            return;
        }
        let channel = |block: usize, port: usize| {
            layers[block] + usize::from(self.faces[block][port] == Face::Right)
        };
        let low = pins
            .iter()
            .map(|p| channel(p.block, p.port))
            .min()
            .unwrap_or(0);
        let high = pins
            .iter()
            .map(|p| channel(p.block, p.port))
            .max()
            .unwrap_or(0);
        let pull = self.circuit.nets[net].pull();
        let mut wires: Vec<Wire> = (low..=high)
            .map(|_| Wire {
                net,
                ends: [Vec::new(), Vec::new()],
                pull,
            })
            .collect();
        for pin in pins {
            let side = usize::from(self.faces[pin.block][pin.port] == Face::Left);
            let term = Term {
                item: pin.block,
                port: pin.port,
            };
            wires[channel(pin.block, pin.port) - low].ends[side].push(term);
        }
        for layer in low..high {
            let item = self.items.len();
            self.items.push(Item {
                layer,
                block: None,
                reach: [0, 0],
                ports: [vec![0], vec![0]],
                free: false,
                middle: 0,
            });
            self.passages.push((net, item));
            let term = Term { item, port: 0 };
            wires[layer - low].ends[1].push(term);
            wires[layer + 1 - low].ends[0].push(term);
        }
        for (i, wire) in wires.into_iter().enumerate() {
            self.channels[low + i].push(wire);
        }
    }

    /// What every item would be level with.
    fn linked(&self) -> Vec<[Vec<Link>; 2]> {
        let mut out: Vec<[Vec<Link>; 2]> = self.items.iter().map(|_| Default::default()).collect();
        let passage = |t: &Term| self.items[t.item].block.is_none();
        for wire in self.channels.iter().flatten() {
            for side in [0, 1] {
                let across = &wire.ends[1 - side];
                for end in &wire.ends[side] {
                    // Where nothing is across, what is on the same side draws it near.
                    let (others, share) = match across.is_empty() {
                        true => (&wire.ends[side], 1),
                        false => (across, 4),
                    };
                    for other in others.iter().filter(|o| o.item != end.item) {
                        let long = 1 + i64::from(passage(end)) + i64::from(passage(other));
                        let weight = (share * wire.pull * long).max(1);
                        out[end.item][1 - side].push(Link {
                            own: end.port,
                            other: *other,
                            weight,
                        });
                    }
                }
            }
        }
        out
    }

    /// Least distance of the levels of two neighbours in a column.
    pub(super) fn apart(&self, upper: usize, lower: usize) -> i64 {
        let [a, b] = [&self.items[upper], &self.items[lower]];
        let gap = match (a.block, b.block) {
            (Some(_), Some(_)) => 2 * STEP,
            _ => STEP,
        };
        a.reach[1] - b.reach[0] + gap
    }
}

fn block(circuit: &Circuit, faces: &Faces, rules: &Rules, at: usize, layer: usize) -> Item {
    let own = &circuit.blocks[at];
    let steps = |mm: f64| libm::ceil(mm / rules.step - 1e-9) as i64 * STEP;
    let on = |face: Face| -> Vec<usize> {
        let all = 0..own.ports.len();
        all.filter(|p| faces[at][*p] == face).collect()
    };
    let ports = [on(Face::Left), on(Face::Right)];
    let middle = steps(own.middle);
    let most = ports[0].len().max(ports[1].len()) as i64;
    let reach = match most {
        0 => [0, steps(own.size[1])],
        // A step above the highest port for its label, and one below the lowest.
        n => {
            let half = (n - 1) * PITCH / 2 + STEP;
            [
                (middle - half).min(0),
                steps(own.size[1]).max(middle + half),
            ]
        }
    };
    Item {
        layer,
        block: Some(at),
        reach,
        ports,
        free: own.order == Order::Free,
        middle,
    }
}

/// How far the port in a place of so many is from the middle.
pub(super) fn spread(place: usize, count: usize) -> i64 {
    (2 * place as i64 - (count as i64 - 1)) * PITCH / 2
}
