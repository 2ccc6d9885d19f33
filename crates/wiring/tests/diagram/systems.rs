//! Generated systems: what a maker's box may hold, and circuits without any sense.

use boxwright_wiring::diagram::{Block, Circuit, Face, Net, Order, Pin, Port};

/// Numbers of a fixed sequence (Lehmer's multiplicative generator, modulus 2³¹ − 1).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed % 2_147_483_646 + 1)
    }

    pub(crate) fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        (self.0 / 7 % sides as u64) as usize
    }
}

/// A circuit under construction.
#[derive(Default)]
pub(crate) struct Maker {
    pub(crate) circuit: Circuit,
}

impl Maker {
    /// Adds a block with so many ports left and right; gives its place.
    pub(crate) fn block(&mut self, left: usize, right: usize) -> usize {
        let faces =
            std::iter::repeat_n(Face::Left, left).chain(std::iter::repeat_n(Face::Right, right));
        self.with(faces.map(|f| Port::at(f).labelled(6.0)).collect())
    }

    /// Adds a block that is passed through either way.
    pub(crate) fn through(&mut self) -> usize {
        self.with(vec![Port::at(Face::Either).labelled(6.0); 2])
    }

    fn with(&mut self, ports: Vec<Port>) -> usize {
        let on = |face| ports.iter().filter(|p| p.face == face).count();
        let most = on(Face::Left).max(on(Face::Right)).max(1);
        let (width, height) = if most == 1 {
            (9.0, 7.5)
        } else {
            (17.0, 5.0 * most as f64 + 5.0)
        };
        self.circuit.blocks.push(Block {
            order: Order::Free,
            ..Block::sized(width, height, ports)
        });
        self.circuit.blocks.len() - 1
    }

    pub(crate) fn net(&mut self, leads: bool, pins: &[(usize, usize)]) {
        let pins_alike = pins.len() == 2;
        let pins = pins.iter().map(|(block, port)| Pin {
            block: *block,
            port: *port,
        });
        self.circuit.nets.push(Net {
            pins: pins.collect(),
            leads,
            alike: pins_alike,
        });
    }
}

/// A stereo box of 25 parts: battery, fuses, switches, charge socket, star point, radio
/// module on a converter, second input, summing resistors, level control, amplifier,
/// indicator, light, drivers of two ways a side with a capacitor each, and posts.
pub(crate) fn twenty_five() -> Circuit {
    let mut m = Maker::default();
    let battery = m.block(0, 2);
    let fuse = m.through();
    let switch = m.through();
    let socket = m.block(0, 2);
    let charge_fuse = m.through();
    let star = m.block(1, 4);
    let converter = m.block(2, 2);
    let radio = m.block(2, 3);
    let jack = m.block(0, 3);
    let sums: Vec<usize> = (0..4).map(|_| m.through()).collect();
    let level = m.block(3, 2);
    let amplifier = m.block(5, 4);
    let indicator = m.block(2, 2);
    let light = m.block(2, 0);
    let posts: Vec<usize> = (0..2).map(|_| m.block(2, 2)).collect();
    let caps: Vec<usize> = (0..2).map(|_| m.through()).collect();
    let drivers: Vec<usize> = (0..4).map(|_| m.block(2, 0)).collect();
    m.net(true, &[(battery, 0), (fuse, 0), (charge_fuse, 1)]);
    m.net(true, &[(fuse, 1), (switch, 0)]);
    m.net(true, &[(socket, 0), (charge_fuse, 0)]);
    m.net(
        true,
        &[(switch, 1), (converter, 0), (amplifier, 0), (indicator, 0)],
    );
    m.net(false, &[(battery, 1), (star, 0)]);
    m.net(false, &[(star, 1), (socket, 1)]);
    m.net(false, &[(star, 2), (converter, 1)]);
    m.net(false, &[(star, 3), (amplifier, 1)]);
    m.net(false, &[(star, 4), (indicator, 1)]);
    m.net(true, &[(converter, 2), (radio, 0)]);
    m.net(false, &[(converter, 3), (radio, 1)]);
    for side in 0..2 {
        m.net(true, &[(radio, 2 + side), (sums[side], 0)]);
        m.net(true, &[(jack, side), (sums[2 + side], 0)]);
        m.net(true, &[(sums[side], 1), (sums[2 + side], 1), (level, side)]);
        m.net(true, &[(level, 3 + side), (amplifier, 2 + side)]);
        m.net(true, &[(amplifier, 5 + 2 * side), (posts[side], 0)]);
        m.net(true, &[(amplifier, 6 + 2 * side), (posts[side], 1)]);
        m.net(
            true,
            &[(posts[side], 2), (drivers[side], 0), (caps[side], 0)],
        );
        m.net(true, &[(caps[side], 1), (drivers[2 + side], 0)]);
        m.net(
            false,
            &[(posts[side], 3), (drivers[side], 1), (drivers[2 + side], 1)],
        );
    }
    m.net(false, &[(radio, 4), (jack, 2), (level, 2), (amplifier, 4)]);
    m.net(true, &[(indicator, 2), (light, 0)]);
    m.net(false, &[(indicator, 3), (light, 1)]);
    assert_eq!(m.circuit.blocks.len(), 25);
    m.circuit
}

/// Blocks and nets without any sense: every port in one net at most, cycles welcome.
pub(crate) fn random(seed: u64, blocks: usize) -> Circuit {
    let mut dice = Dice::new(seed);
    let mut m = Maker::default();
    let mut free = Vec::new();
    for _ in 0..blocks {
        let (block, ports) = match dice.roll(4) {
            0 => (m.through(), 2),
            _ => {
                let (left, right) = (dice.roll(4), dice.roll(4));
                (m.block(left, right), left + right)
            }
        };
        free.extend((0..ports).map(|port| (block, port)));
    }
    while free.len() > 1 {
        let count = (2 + dice.roll(8) / 4 + dice.roll(6) / 5).min(free.len());
        let pins: Vec<_> = (0..count)
            .map(|_| {
                let at = dice.roll(free.len());
                free.swap_remove(at)
            })
            .collect();
        let leads = dice.roll(5) > 0;
        m.net(leads, &pins);
        if dice.roll(6) == 0 {
            let at = dice.roll(free.len().max(1));
            if at < free.len() {
                free.swap_remove(at);
            }
        }
    }
    m.circuit
}
