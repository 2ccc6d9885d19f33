//! Stretches tidied: nothing drawn twice, pieces joined into lines.

use super::flat::{Flat, minus, wedge};
use super::hide::{SHORT, Stretch, joined};
use crate::math;
use std::collections::BTreeMap;

/// Ends nearer than this, in m, are one point.
const SAME: f64 = 2e-7;

/// A line through one or more edges.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Chain {
    /// Whose.
    pub(crate) thing: usize,
    /// Its points; the first again at the end where it is closed.
    pub(crate) points: Vec<Flat>,
    /// Whether nothing covers it.
    pub(crate) seen: bool,
}

/// The lines that are seen, then those that are not.
pub(super) fn chains(stretches: Vec<Stretch>) -> Vec<Chain> {
    let (seen, hidden) = apart_by_line(&stretches);
    let mut out = linked(&seen);
    out.extend(linked(&hidden));
    out
}

type Line = (i64, i64);

/// Stretches with those on the same straight line merged: what is seen is drawn
/// once, what is hidden only where nothing seen runs over it.
fn apart_by_line(stretches: &[Stretch]) -> (Vec<Stretch>, Vec<Stretch>) {
    let mut lines: BTreeMap<Line, Vec<Stretch>> = BTreeMap::new();
    for s in stretches {
        lines.entry(line_of(s)).or_default().push(*s);
    }
    let (mut seen, mut hidden) = (Vec::new(), Vec::new());
    for group in lines.into_values() {
        let axis = axis(&group[0]);
        let mut covered: Vec<[f64; 2]> = Vec::new();
        for of_seen in [true, false] {
            for s in group.iter().filter(|s| s.seen == of_seen) {
                let span = span(s, axis);
                let out = if of_seen { &mut seen } else { &mut hidden };
                for part in without(span, &covered) {
                    out.push(piece(s, axis, span, part));
                }
                covered.push(span);
                covered = joined(covered, 0.0);
            }
        }
    }
    (seen, hidden)
}

/// Direction of a stretch, turned so that equal lines agree.
fn axis(s: &Stretch) -> Flat {
    let d = minus(s.ends[1], s.ends[0]);
    let long = math::hypot(d[0], d[1]);
    let sign = if d[0] > 1e-9 * long || (d[0] > -1e-9 * long && d[1] > 0.0) {
        1.0
    } else {
        -1.0
    };
    [sign * d[0] / long, sign * d[1] / long]
}

/// Which straight line a stretch lies on: angle and distance from the origin,
/// roughly; lines that fall on both sides of a rounding stay apart, which only
/// draws them twice.
fn line_of(s: &Stretch) -> Line {
    let d = axis(s);
    let turn = math::atan2(d[1], d[0]);
    let off = wedge(d, s.ends[0]);
    (
        math::round(turn * 1e5) as i64,
        math::round(off * 1e6 + 0.1234) as i64,
    )
}

fn span(s: &Stretch, axis: Flat) -> [f64; 2] {
    let [a, b] = s.ends.map(|p| p[0] * axis[0] + p[1] * axis[1]);
    [a.min(b), a.max(b)]
}

/// A span with what is covered taken off.
fn without(span: [f64; 2], covered: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut out = Vec::new();
    let mut at = span[0];
    for [a, b] in covered {
        if *b < at || *a > span[1] {
            continue;
        }
        if *a - at > SHORT {
            out.push([at, *a]);
        }
        at = at.max(*b);
    }
    if span[1] - at > SHORT {
        out.push([at, span[1]]);
    }
    out
}

fn piece(s: &Stretch, axis: Flat, span: [f64; 2], part: [f64; 2]) -> Stretch {
    if part == span {
        return *s;
    }
    let base = s.ends[0];
    let own = base[0] * axis[0] + base[1] * axis[1];
    let at = |t: f64| [base[0] + (t - own) * axis[0], base[1] + (t - own) * axis[1]];
    Stretch {
        ends: part.map(at),
        ..*s
    }
}

/// Stretches of one thing that meet end to end, and there meet no third one,
/// joined.
fn linked(stretches: &[Stretch]) -> Vec<Chain> {
    type Node = (usize, i64, i64);
    let node = |thing: usize, p: Flat| -> Node {
        let round = |v: f64| math::round(v / SAME) as i64;
        (thing, round(p[0]), round(p[1]))
    };
    let mut meeting: BTreeMap<Node, Vec<usize>> = BTreeMap::new();
    for (i, s) in stretches.iter().enumerate() {
        for p in s.ends {
            meeting.entry(node(s.thing, p)).or_default().push(i);
        }
    }
    let mut used = vec![false; stretches.len()];
    let next = |from: usize, p: Flat, used: &[bool]| -> Option<usize> {
        let held = meeting.get(&node(stretches[from].thing, p))?;
        let others: Vec<usize> = held.iter().copied().filter(|i| *i != from).collect();
        (held.len() == 2 && others.len() == 1 && !used[others[0]]).then(|| others[0])
    };
    let mut out = Vec::new();
    for start in 0..stretches.len() {
        if used[start] {
            continue;
        }
        used[start] = true;
        let s = &stretches[start];
        let mut ways: [Vec<Flat>; 2] = [vec![s.ends[1]], vec![s.ends[0]]];
        for way in &mut ways {
            let mut at = start;
            while let Some(other) = next(at, way[way.len() - 1], &used) {
                used[other] = true;
                let tip = way[way.len() - 1];
                let [a, b] = stretches[other].ends;
                let near = |p: Flat| (p[0] - tip[0]).abs() + (p[1] - tip[1]).abs();
                way.push(if near(a) < near(b) { b } else { a });
                at = other;
            }
        }
        let [forward, mut points] = ways;
        points.reverse();
        points.extend(forward);
        out.push(Chain {
            thing: s.thing,
            points: straightened(points),
            seen: s.seen,
        });
    }
    out
}

/// Points on a straight line between their neighbours left out.
fn straightened(points: Vec<Flat>) -> Vec<Flat> {
    let mut out: Vec<Flat> = Vec::new();
    for p in points {
        if let [.., a, b] = out[..] {
            let (u, v) = (minus(b, a), minus(p, b));
            let scale = math::hypot(u[0], u[1]) * math::hypot(v[0], v[1]);
            let onward = u[0] * v[0] + u[1] * v[1] > 0.0;
            if onward && wedge(u, v).abs() < 1e-9 * scale {
                out.pop();
            }
        }
        out.push(p);
    }
    out
}
