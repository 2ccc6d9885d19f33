//! A circuit too large for its room, cut into several drawings.

use super::circuit::{Block, Circuit, Face, Net, Order, Pin, Port, Rules};
use super::geometry::Diagram;
use super::within;

/// Columns that may be saved to keep a circuit on one page.
const FEWER: usize = 3;
/// Drawings wider than this share of the room are not tried in fewer columns.
const FOLDED: f64 = 1.5;

/// What a block of a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Member {
    /// A block of the circuit.
    Block(usize),
    /// The end of a net that goes on on other pages.
    Flag {
        /// The net, by its place in the circuit's list.
        net: usize,
        /// Whether it goes on behind what stands here.
        onward: bool,
    },
}

/// A part of a circuit that fits the room.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What its blocks are.
    pub members: Vec<Member>,
    /// Its nets, by their place in the circuit's list.
    pub nets: Vec<usize>,
    /// Blocks and nets of the page itself.
    pub circuit: Circuit,
    /// Its layout.
    pub diagram: Diagram,
}

/// The circuit on as many pages as it takes, from left to right. `flag` is the size of
/// a flag in mm; a page of a single block may be larger than the room.
#[must_use]
pub fn pages(circuit: &Circuit, rules: &Rules, flag: [f64; 2]) -> Vec<Page> {
    let (whole, layers) = within(circuit, rules, None);
    let mut blocks: Vec<usize> = (0..circuit.blocks.len()).collect();
    blocks.sort_by(|a, b| {
        let key = |i: &usize| (layers[*i], whole.blocks[*i].at[1]);
        let ((l, y), (m, z)) = (key(a), key(b));
        l.cmp(&m).then(y.total_cmp(&z))
    });
    let cutter = Cutter {
        circuit,
        rules,
        flag,
        order: &blocks,
        layers: &layers,
    };
    let mut out = Vec::new();
    cutter.cut(0, blocks.len(), &mut out);
    out
}

struct Cutter<'a> {
    circuit: &'a Circuit,
    rules: &'a Rules,
    flag: [f64; 2],
    /// Blocks from left to right.
    order: &'a [usize],
    layers: &'a [usize],
}

impl Cutter<'_> {
    /// The blocks in places `from` to `to` on one page, or on two or more.
    fn cut(&self, from: usize, to: usize, out: &mut Vec<Page>) {
        if from == to {
            return;
        }
        let mut page = self.page(from, to);
        page.diagram = self.narrowed(&page.circuit);
        if self.fits(&page.diagram) || to - from == 1 {
            out.push(page);
            return;
        }
        let at = self.middle(from, to);
        self.cut(from, at, out);
        self.cut(at, to, out);
    }

    fn fits(&self, diagram: &Diagram) -> bool {
        let room = self.rules.room;
        (0..2).all(|i| diagram.size[i] <= room[i] + 1e-9)
    }

    /// The drawing of a circuit; where it is too wide, in a few columns less if that fits.
    fn narrowed(&self, circuit: &Circuit) -> Diagram {
        let (whole, layers) = within(circuit, self.rules, None);
        let columns = layers.iter().max().map_or(0, |l| l + 1);
        let wide = whole.size[0] > self.rules.room[0];
        if self.fits(&whole) || !wide || whole.size[0] > FOLDED * self.rules.room[0] {
            return whole;
        }
        let fewer = (1..=FEWER).filter(|less| columns > less + 1);
        fewer
            .map(|less| within(circuit, self.rules, Some(columns - less)).0)
            .find(|trial| self.fits(trial))
            .unwrap_or(whole)
    }

    /// Where to cut: between two columns if it can be, across few nets, in the middle.
    fn middle(&self, from: usize, to: usize) -> usize {
        let cost = |at: usize| {
            let column = |place: usize| self.layers[self.order[place]];
            let within = i64::from(column(at - 1) == column(at));
            let crossing = self.circuit.nets.iter().filter(|net| {
                let place = |p: &Pin| self.order.iter().position(|b| *b == p.block);
                let places = || net.pins.iter().filter_map(place);
                let here = || places().filter(|p| (from..to).contains(p));
                here().any(|p| p < at) && here().any(|p| p >= at)
            });
            let off = (2 * at as i64 - (from + to) as i64).abs();
            4 * within + 2 * crossing.count() as i64 + 3 * off
        };
        (from + 1..to)
            .min_by_key(|at| cost(*at))
            .unwrap_or(from + 1)
    }

    fn page(&self, from: usize, to: usize) -> Page {
        let place = |block: usize| self.order.iter().position(|b| *b == block).unwrap_or(0);
        let here = |block: usize| (from..to).contains(&place(block));
        let mut members: Vec<Member> = (self.order[from..to].iter())
            .map(|b| Member::Block(*b))
            .collect();
        let mut circuit = Circuit {
            blocks: (self.order[from..to].iter())
                .map(|b| self.circuit.blocks[*b].clone())
                .collect(),
            nets: Vec::new(),
        };
        let mut nets = Vec::new();
        for (index, net) in self.circuit.nets.iter().enumerate() {
            if net.pins.len() < 2 || !net.pins.iter().any(|p| here(p.block)) {
                continue;
            }
            let own = net.pins.iter().filter(|p| here(p.block));
            let mut pins: Vec<Pin> = own
                .map(|p| Pin {
                    block: place(p.block) - from,
                    port: p.port,
                })
                .collect();
            let whole = pins.len() == net.pins.len();
            let elsewhere = |onward: bool| {
                let mut places = net.pins.iter().map(|p| place(p.block));
                places.any(|p| if onward { p >= to } else { p < from })
            };
            for onward in [false, true] {
                if !elsewhere(onward) {
                    continue;
                }
                pins.push(Pin {
                    block: circuit.blocks.len(),
                    port: 0,
                });
                circuit.blocks.push(self.flag_block(onward));
                members.push(Member::Flag { net: index, onward });
            }
            circuit.nets.push(Net {
                pins,
                leads: net.leads,
                alike: net.alike && whole,
            });
            nets.push(index);
        }
        Page {
            members,
            nets,
            circuit,
            diagram: Diagram::default(),
        }
    }

    fn flag_block(&self, onward: bool) -> Block {
        let face = if onward { Face::Left } else { Face::Right };
        Block {
            size: self.flag,
            middle: self.flag[1] / 2.0,
            ports: vec![Port::at(face)],
            order: Order::Fixed,
        }
    }
}
