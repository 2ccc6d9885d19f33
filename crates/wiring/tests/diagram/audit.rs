//! What a drawing has to keep, read from its geometry alone.

use boxwright_wiring::diagram::{Circuit, Diagram, Face};

/// Closer than this is the same, mm.
const SAME: f64 = 1e-6;

type Point = [f64; 2];
type Stretch = [Point; 2];

fn stretches(runs: &[Vec<Point>]) -> Vec<Stretch> {
    let pairs = runs.iter().flat_map(|run| run.windows(2));
    pairs.map(|w| [w[0], w[1]]).collect()
}

fn near(a: Point, b: Point) -> bool {
    (a[0] - b[0]).abs() < SAME && (a[1] - b[1]).abs() < SAME
}

/// Low and high corner.
fn bounds([a, b]: Stretch) -> (Point, Point) {
    (
        [a[0].min(b[0]), a[1].min(b[1])],
        [a[0].max(b[0]), a[1].max(b[1])],
    )
}

/// Whether a point lies on a stretch, ends included.
fn on(p: Point, s: Stretch) -> bool {
    let (low, high) = bounds(s);
    (0..2).all(|i| p[i] > low[i] - SAME && p[i] < high[i] + SAME)
}

fn is_end(p: Point, s: Stretch) -> bool {
    near(p, s[0]) || near(p, s[1])
}

/// Whether two closed stretches have a point in common.
fn meet(a: Stretch, b: Stretch) -> bool {
    let ((al, ah), (bl, bh)) = (bounds(a), bounds(b));
    (0..2).all(|i| al[i] < bh[i] + SAME && bl[i] < ah[i] + SAME)
}

/// Whether they cross at right angles, each well within the other.
fn cross(a: Stretch, b: Stretch) -> bool {
    let upright = |s: Stretch| (s[0][0] - s[1][0]).abs() < SAME;
    if upright(a) == upright(b) {
        return false;
    }
    let (v, h) = if upright(a) { (a, b) } else { (b, a) };
    let p = [v[0][0], h[0][1]];
    on(p, v) && on(p, h) && !is_end(p, v) && !is_end(p, h)
}

/// Whether a stretch enters a rectangle.
fn enters(s: Stretch, at: Point, size: Point) -> bool {
    let (low, high) = bounds(s);
    (0..2).all(|i| low[i] < at[i] + size[i] - SAME && high[i] > at[i] + SAME)
}

/// Crossings of lines of different nets, counted from the geometry.
pub(crate) fn crossings(diagram: &Diagram) -> usize {
    let nets: Vec<Vec<Stretch>> = diagram.nets.iter().map(|n| stretches(&n.runs)).collect();
    let mut count = 0;
    for (i, a) in nets.iter().enumerate() {
        for b in &nets[i + 1..] {
            let pairs = a.iter().flat_map(|s| b.iter().map(move |t| (*s, *t)));
            count += pairs.filter(|(s, t)| cross(*s, *t)).count();
        }
    }
    count
}

/// Every fault of a drawing, in words.
pub(crate) fn faults(circuit: &Circuit, diagram: &Diagram) -> Vec<String> {
    let mut out = Vec::new();
    for net in 0..circuit.nets.len() {
        out.extend(joined(circuit, diagram, net));
        out.extend(dots(diagram, net));
    }
    out.extend(apart(diagram));
    out.extend(clear_of_blocks(circuit, diagram));
    out.extend(labels(circuit, diagram));
    out.extend(within(circuit, diagram));
    if crossings(diagram) != diagram.crossings {
        out.push(format!(
            "{} crossings, not {}",
            crossings(diagram),
            diagram.crossings
        ));
    }
    out
}

/// A net is one tree of square stretches that ends at its pins and nowhere else.
fn joined(circuit: &Circuit, diagram: &Diagram, net: usize) -> Vec<String> {
    let pins = &circuit.nets[net].pins;
    let own = stretches(&diagram.nets[net].runs);
    let mut out = Vec::new();
    if pins.len() < 2 {
        if !own.is_empty() {
            out.push(format!("net {net} of one pin is drawn"));
        }
        return out;
    }
    let square = |s: &Stretch| (s[0][0] == s[1][0]) != (s[0][1] == s[1][1]);
    if !own.iter().all(square) {
        out.push(format!("net {net} has a stretch askew"));
    }
    let mut reached = vec![false; own.len()];
    let mut next: Vec<usize> = (0..own.len().min(1)).collect();
    while let Some(at) = next.pop() {
        if !std::mem::replace(&mut reached[at], true) {
            next.extend((0..own.len()).filter(|o| !reached[*o] && meet(own[at], own[*o])));
        }
    }
    if reached.contains(&false) || own.is_empty() {
        out.push(format!("net {net} falls apart"));
    }
    let port = |block: usize, port: usize| diagram.blocks[block].ports[port].at;
    for pin in pins {
        let at = port(pin.block, pin.port);
        if own.iter().filter(|s| is_end(at, **s)).count() != 1 {
            out.push(format!("net {net} does not end at {pin:?}"));
        }
    }
    let free = own.iter().enumerate().flat_map(|(i, s)| s.map(|p| (i, p)));
    for (i, p) in free {
        let alone = !own.iter().enumerate().any(|(j, s)| i != j && on(p, *s));
        if alone && !pins.iter().any(|pin| near(port(pin.block, pin.port), p)) {
            out.push(format!("net {net} ends in the air at {p:?}"));
        }
    }
    for (block, placed) in diagram.blocks.iter().enumerate() {
        for (place, other) in placed.ports.iter().enumerate() {
            let ours = pins.iter().any(|p| (p.block, p.port) == (block, place));
            if !ours && own.iter().any(|s| on(other.at, *s)) {
                out.push(format!("net {net} touches port {place} of block {block}"));
            }
        }
    }
    out
}

/// Dots stand where three or four stretches of a net meet, and only there.
fn dots(diagram: &Diagram, net: usize) -> Vec<String> {
    let drawn = &diagram.nets[net];
    let own = stretches(&drawn.runs);
    let ways = |p: Point| -> usize {
        let at = own.iter().filter(|s| on(p, **s));
        at.map(|s| if is_end(p, *s) { 1 } else { 2 }).sum()
    };
    let mut out = Vec::new();
    for p in own.iter().flatten() {
        if ways(*p) > 2 && !drawn.dots.iter().any(|d| near(*d, *p)) {
            out.push(format!("net {net} lacks a dot at {p:?}"));
        }
    }
    for dot in &drawn.dots {
        if ways(*dot) < 3 {
            out.push(format!("net {net} has a dot on nothing at {dot:?}"));
        }
    }
    out
}

/// Lines of two nets cross or stay apart.
fn apart(diagram: &Diagram) -> Vec<String> {
    let mut out = Vec::new();
    let nets: Vec<Vec<Stretch>> = diagram.nets.iter().map(|n| stretches(&n.runs)).collect();
    for (i, a) in nets.iter().enumerate() {
        for (j, b) in nets.iter().enumerate().skip(i + 1) {
            for (s, t) in a.iter().flat_map(|s| b.iter().map(move |t| (*s, *t))) {
                if meet(s, t) && !cross(s, t) {
                    out.push(format!("nets {i} and {j} touch: {s:?} {t:?}"));
                }
            }
        }
    }
    out
}

fn clear_of_blocks(circuit: &Circuit, diagram: &Diagram) -> Vec<String> {
    let mut out = Vec::new();
    for (b, placed) in diagram.blocks.iter().enumerate() {
        let size = circuit.blocks[b].size;
        for (net, drawn) in diagram.nets.iter().enumerate() {
            let through = stretches(&drawn.runs)
                .into_iter()
                .any(|s| enters(s, placed.at, size));
            if through {
                out.push(format!("net {net} runs through block {b}"));
            }
        }
        for (c, other) in diagram.blocks.iter().enumerate().skip(b + 1) {
            let theirs = circuit.blocks[c].size;
            if (0..2).all(|i| {
                placed.at[i] < other.at[i] + theirs[i] && other.at[i] < placed.at[i] + size[i]
            }) {
                out.push(format!("blocks {b} and {c} overlap"));
            }
        }
        for (place, port) in placed.ports.iter().enumerate() {
            let edge = match port.face {
                Face::Right => placed.at[0] + size[0],
                _ => placed.at[0],
            };
            let asked = circuit.blocks[b].ports[place].face;
            if (port.at[0] - edge).abs() > SAME || (asked != Face::Either && asked != port.face) {
                out.push(format!("port {place} of block {b} is not on its side"));
            }
        }
    }
    out
}

/// Labels are free of lines, blocks and one another, each on its own pin's line.
fn labels(circuit: &Circuit, diagram: &Diagram) -> Vec<String> {
    let mut out = Vec::new();
    for (i, label) in diagram.labels.iter().enumerate() {
        let line = [label.at[0], label.at[1] + label.size[1]];
        let end = [line[0] + label.size[0], line[1]];
        let on_line = |runs: &[Vec<Point>]| {
            let own = stretches(runs).into_iter();
            own.clone().any(|s| on(line, s)) && own.clone().any(|s| on(end, s))
        };
        let own = circuit
            .nets
            .iter()
            .position(|n| n.pins.contains(&label.pin));
        if !own.is_some_and(|net| on_line(&diagram.nets[net].runs)) {
            out.push(format!("label {i} does not lie on its line"));
        }
        for (net, drawn) in diagram.nets.iter().enumerate() {
            if stretches(&drawn.runs)
                .into_iter()
                .any(|s| enters(s, label.at, label.size))
            {
                out.push(format!("net {net} runs through label {i}"));
            }
        }
        let overlap = |at: Point, size: Point| {
            (0..2).all(|k| {
                label.at[k] < at[k] + size[k] - SAME && at[k] < label.at[k] + label.size[k] - SAME
            })
        };
        if diagram.labels[i + 1..]
            .iter()
            .any(|o| overlap(o.at, o.size))
        {
            out.push(format!("label {i} overlaps another"));
        }
        let blocks = diagram.blocks.iter().zip(&circuit.blocks);
        if blocks.into_iter().any(|(p, b)| overlap(p.at, b.size)) {
            out.push(format!("label {i} overlaps a block"));
        }
    }
    out
}

/// Everything lies on the sheet.
fn within(circuit: &Circuit, diagram: &Diagram) -> Vec<String> {
    let inside = |p: Point| (0..2).all(|i| p[i] > -SAME && p[i] < diagram.size[i] + SAME);
    let mut points: Vec<Point> = Vec::new();
    for (placed, block) in diagram.blocks.iter().zip(&circuit.blocks) {
        points.push(placed.at);
        points.push([placed.at[0] + block.size[0], placed.at[1] + block.size[1]]);
    }
    points.extend(
        diagram
            .nets
            .iter()
            .flat_map(|n| n.runs.iter().flatten().copied()),
    );
    points.extend(diagram.labels.iter().map(|l| l.at));
    let out = points.into_iter().filter(|p| !inside(*p));
    out.map(|p| format!("{p:?} is off the sheet")).collect()
}
