//! A circuit too large for its room, cut into several drawings.

use super::circuit::{Block, Circuit, Face, Net, Order, Pin, Port, Rules};
use super::geometry::Diagram;
use super::{columns, in_columns};

/// Drawings wider than this share of the room are not tried in fewer columns.
const FOLDED: f64 = 1.6;
/// Fewer columns that are drawn to see whether they fit, at most.
const TRIED: usize = 5;
/// Columns that it is begun with more than the room's share of the width.
const MORE: usize = 2;
/// Shares of the room's height that columns are filled to.
const FILLED: [f64; 2] = [1.0, 0.7];
/// Share of the mean width of the channels that those of a drawing in fewer columns take
/// at least.
const CHANNEL: f64 = 0.95;

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
    let layers = columns(circuit, rules, None, 1.0);
    let whole = in_columns(circuit, rules, &layers);
    if let Some(diagram) = narrowed(circuit, rules, &whole, &layers) {
        return vec![Page {
            members: (0..circuit.blocks.len()).map(Member::Block).collect(),
            nets: (0..circuit.nets.len()).collect(),
            circuit: circuit.clone(),
            diagram,
        }];
    }
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
    if blocks.len() > 1 {
        let at = cutter.middle(0, blocks.len());
        cutter.cut(0, at, &mut out);
        cutter.cut(at, blocks.len(), &mut out);
    } else {
        cutter.cut(0, blocks.len(), &mut out);
    }
    out
}

fn fits(diagram: &Diagram, rules: &Rules) -> bool {
    (0..2).all(|i| diagram.size[i] <= rules.room[i] + 1e-9)
}

/// The drawing if it fits; where it is too wide, in the fewer columns that do, with as
/// few lines back as that takes.
fn narrowed(
    circuit: &Circuit,
    rules: &Rules,
    whole: &Diagram,
    layers: &[usize],
) -> Option<Diagram> {
    if fits(whole, rules) {
        return Some(whole.clone());
    }
    let [wide, room] = [whole.size[0], rules.room[0]];
    if wide <= room || wide > FOLDED * room {
        return None;
    }
    let count = layers.iter().max().map_or(0, |l| l + 1);
    let channel = CHANNEL * (wide - filled(circuit, layers)) / (count + 1) as f64;
    let mut tried: Vec<Vec<usize>> = Vec::new();
    let start = (count - 1).min((count as f64 * room / wide) as usize + MORE);
    let fewer = |share: &f64| {
        let share = *share;
        (2..=start).rev().map(move |most| (share, most))
    };
    for (share, most) in FILLED.iter().flat_map(fewer) {
        let trial = columns(circuit, rules, Some(most), share);
        let own = trial.iter().max().map_or(0, |l| l + 1);
        let least = filled(circuit, &trial) + channel * (own + 1) as f64;
        if least > room || tried.contains(&trial) {
            continue;
        }
        let diagram = in_columns(circuit, rules, &trial);
        if fits(&diagram, rules) {
            return Some(diagram);
        }
        tried.push(trial);
        if tried.len() == TRIED {
            break;
        }
    }
    None
}

/// Width of all columns without the channels.
fn filled(circuit: &Circuit, layers: &[usize]) -> f64 {
    let count = layers.iter().max().map_or(0, |l| l + 1);
    let mut widths = vec![0.0_f64; count];
    for (block, layer) in circuit.blocks.iter().zip(layers) {
        widths[*layer] = widths[*layer].max(block.size[0]);
    }
    widths.iter().sum()
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
        let layers = columns(&page.circuit, self.rules, None, 1.0);
        page.diagram = in_columns(&page.circuit, self.rules, &layers);
        match narrowed(&page.circuit, self.rules, &page.diagram, &layers) {
            Some(diagram) => page.diagram = diagram,
            None if to - from > 1 => {
                let at = self.middle(from, to);
                self.cut(from, at, out);
                self.cut(at, to, out);
                return;
            }
            None => {}
        }
        out.push(page);
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
