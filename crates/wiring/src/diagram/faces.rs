//! On which side a port stands that may stand on either.

use super::circuit::{Circuit, Face, Pin};

/// Faces of all ports, block by block.
pub(super) type Faces = Vec<Vec<Face>>;

/// The faces as far as the nets that lead decide them: what is nearer to a source gives.
pub(super) fn chosen(circuit: &Circuit) -> Faces {
    let mut faces: Faces = (circuit.blocks.iter())
        .map(|block| block.ports.iter().map(|port| port.face).collect())
        .collect();
    let depth = depths(circuit);
    for net in circuit.nets.iter().filter(|net| net.leads) {
        let given = net.pins.iter().any(|p| of(&faces, p) == Face::Right);
        let open = net.pins.iter().filter(|p| of(&faces, p) == Face::Either);
        let nearest = open.clone().min_by_key(|p| (depth[p.block], **p)).copied();
        let open: Vec<Pin> = open.copied().collect();
        for pin in open {
            let gives = !given && Some(pin) == nearest;
            faces[pin.block][pin.port] = if gives { Face::Right } else { Face::Left };
        }
    }
    pass_through(circuit, &mut faces);
    faces
}

/// Every port on a side: those still open turn to where their net goes.
pub(super) fn settled(circuit: &Circuit, faces: &Faces, layers: &[usize]) -> Faces {
    let mut out = faces.clone();
    for net in &circuit.nets {
        for pin in net.pins.iter().filter(|p| of(faces, p) == Face::Either) {
            let others = net.pins.iter().filter(|p| p.block != pin.block);
            let own = layers[pin.block] as i64;
            let way: i64 = others
                .map(|p| (layers[p.block] as i64 - own).signum())
                .sum();
            out[pin.block][pin.port] = if way > 0 { Face::Right } else { Face::Left };
        }
    }
    for face in out.iter_mut().flatten() {
        if *face == Face::Either {
            *face = Face::Left;
        }
    }
    pass_through(circuit, &mut out);
    out
}

fn of(faces: &Faces, pin: &Pin) -> Face {
    faces[pin.block][pin.port]
}

/// Steps from the nearest block that only gives, through nets that lead.
fn depths(circuit: &Circuit) -> Vec<usize> {
    let count = circuit.blocks.len();
    let mut depth = vec![usize::MAX; count];
    let leads = || circuit.nets.iter().filter(|net| net.leads);
    let mut next: Vec<usize> = (0..count)
        .filter(|b| {
            let own = leads().flat_map(|n| &n.pins).filter(|p| p.block == *b);
            let mut faces = own
                .map(|p| circuit.blocks[*b].ports[p.port].face)
                .peekable();
            faces.peek().is_some() && faces.all(|f| f == Face::Right)
        })
        .collect();
    if next.is_empty() && count > 0 {
        next.push(0);
    }
    for block in &next {
        depth[*block] = 0;
    }
    let mut reached = 0;
    while !next.is_empty() {
        reached += 1;
        let mut found = Vec::new();
        for net in leads().filter(|n| n.pins.iter().any(|p| next.contains(&p.block))) {
            for pin in &net.pins {
                if depth[pin.block] == usize::MAX {
                    depth[pin.block] = reached;
                    found.push(pin.block);
                }
            }
        }
        next = found;
    }
    depth
}

/// Sets the two open ports of a block on opposite sides.
fn pass_through(circuit: &Circuit, faces: &mut Faces) {
    for (b, block) in circuit.blocks.iter().enumerate() {
        let [first, second] = &block.ports[..] else {
            continue;
        };
        if first.face != Face::Either || second.face != Face::Either {
            continue;
        }
        let [a, z] = [faces[b][0], faces[b][1]];
        let opposite = |face| match face {
            Face::Left => Face::Right,
            Face::Right => Face::Left,
            Face::Either => Face::Either,
        };
        match (a, z) {
            (Face::Either, known) => faces[b][0] = opposite(known),
            (known, Face::Either) => faces[b][1] = opposite(known),
            _ if a == z => {
                // The port turns whose net has something on the face it leaves.
                let partner = |port: usize| {
                    let own = Pin { block: b, port };
                    let net = circuit.nets.iter().find(|n| n.pins.contains(&own));
                    net.is_some_and(|n| {
                        let mut others = n.pins.iter().filter(|p| **p != own);
                        n.leads && others.any(|p| of(faces, p) == a)
                    })
                };
                let turned = usize::from(!partner(0) || partner(1));
                faces[b][turned] = opposite(a);
            }
            _ => {}
        }
    }
}
