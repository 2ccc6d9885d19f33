//! A wall seen from inside: what is fixed to it, its terminals drawn apart, the wires
//! that lie along it, and where each of them goes.

use super::callout::{self, Callout, Columns};
use super::scale::{round, said};
use super::wired::{LANE, LANES, Run};
use crate::geometry::{Point, Rect};
use crate::layout::{SMALL, STRONG};
use crate::math;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Group, Stroke, Style, Text, pen};
use crate::text::{Lettering, capital};
use studies::carpentry::Carpentry;
use wood::vector::{Vector, dot, sub};
use wood::{Outline, Panel, Wall};

/// A part that wires end at.
pub(crate) struct Fixed {
    pub(crate) name: String,
    /// Its middle in the frame of the box, m.
    pub(crate) at: Vector,
    /// Its place in the list of parts of the box, where it is one of them.
    pub(crate) placed: Option<usize>,
    pub(crate) ends: Vec<WireEnd>,
}

/// An end of a wire.
pub(crate) struct WireEnd {
    /// The wire, by its place in the list of runs.
    pub(crate) run: usize,
    /// Whether its run ends here, rather than begins.
    pub(crate) last: bool,
    /// The terminal of the part.
    pub(crate) terminal: usize,
    /// What stands beside the wall.
    pub(crate) label: String,
    /// What is said of it below the wall.
    pub(crate) words: String,
}

/// A wire is drawn on a wall from which it is no farther than this, m.
const NEAR: f64 = 0.015;
/// Parts no farther from one wall than from another by this, m, may be on either.
const ALIKE: f64 = 0.0015;
/// Where a part is as near to several walls.
const FIRST: [Wall; 6] = [
    Wall::Bottom,
    Wall::Back,
    Wall::Front,
    Wall::Left,
    Wall::Right,
    Wall::Top,
];
/// Between terminals of a part, mm.
const PITCH: f64 = 2.0;
const CAPTION: f64 = 6.0;
/// Between the wall and a column of labels, and between the wall and the list below it.
const FAN: f64 = 9.0;
const BELOW: f64 = 4.0;
/// Pitch of the list's rows, and between its columns.
const ROW: f64 = 3.3;
const BESIDE: f64 = 6.0;
const NUMBER: Lettering = Lettering::regular(2.0);
const LISTED: Lettering = Lettering::regular(2.2);

/// The wall that a part is fixed to or nearest to.
pub(crate) fn home(carpentry: &Carpentry, part: &Fixed) -> Wall {
    let corners = corners(carpentry, part);
    let depth = |wall: Wall| {
        let panel = carpentry.body.wall(wall);
        let depths = corners.iter().map(|p| depth(panel, *p));
        depths.fold(f64::INFINITY, f64::min)
    };
    let least = FIRST.map(depth).into_iter().fold(f64::INFINITY, f64::min);
    let near = FIRST.into_iter().find(|wall| depth(*wall) <= least + ALIKE);
    near.unwrap_or(Wall::Bottom)
}

/// How far a point is from the inner face of a wall, into the box.
fn depth(panel: &Panel, point: Vector) -> f64 {
    -dot(sub(point, panel.frame.origin), panel.frame.out) - panel.thickness
}

/// The corners around a part, or its middle.
fn corners(carpentry: &Carpentry, part: &Fixed) -> Vec<Vector> {
    let Some(placed) = part.placed.and_then(|p| carpentry.parts.get(p)) else {
        return vec![part.at];
    };
    let (low, high) = placed.part.shape.bounds(&placed.part.pose);
    let corner = |bits: usize| {
        core::array::from_fn(|axis| match bits >> axis & 1 {
            0 => low[axis],
            _ => high[axis],
        })
    };
    (0..8).map(corner).collect()
}

/// Height that the view of a wall wants at a scale, with the list below it.
pub(crate) fn height_wanted(panel: &Panel, scale: f64, parts: &[&Fixed], width: f64) -> f64 {
    let ends = parts.iter().map(|p| p.ends.len()).sum();
    let view = (1000.0 * panel.blank[1] / scale).max(callout::height_wanted(ends));
    CAPTION + view + list(parts, width).1
}

/// The largest round scale at which a wall fits between its labels and above its list.
pub(crate) fn scale(panel: &Panel, parts: &[&Fixed], area: Rect) -> f64 {
    let [w, h] = panel.blank.map(|m| 1000.0 * m);
    let beside = 2.0 * (column(parts) + FAN);
    let below = CAPTION + list(parts, area.w).1;
    round((w, h), (area.w - beside, area.h - below))
}

/// Width of a column of labels.
fn column(parts: &[&Fixed]) -> f64 {
    let ends = parts.iter().flat_map(|p| &p.ends);
    callout::width_wanted(ends.map(|end| end.label.as_str()))
}

/// What is said of every end of a wire, in columns from (0, 0) downwards, and the height
/// that it takes with the room above it.
fn list(parts: &[&Fixed], width: f64) -> (Drawing, f64) {
    let mut said: Vec<(usize, bool, &str)> = (parts.iter().flat_map(|p| &p.ends))
        .map(|end| (end.run, end.last, end.words.as_str()))
        .collect();
    said.sort_unstable();
    let widths = said.iter().map(|(.., words)| LISTED.width(words));
    let pitch = widths.fold(0.0, f64::max) + BESIDE;
    let columns = (((width + BESIDE) / pitch) as usize).clamp(1, said.len().max(1));
    let rows = said.len().div_ceil(columns);
    let mut out = Drawing::default();
    for (i, (.., words)) in said.into_iter().enumerate() {
        let at = Point::new(
            pitch * (i / rows) as f64,
            ROW * (i % rows) as f64 + LISTED.cap_height(),
        );
        out.text(Text::new(at, words, LISTED));
    }
    (out, BELOW + ROW * rows as f64)
}

/// Draws a wall within an area.
pub(crate) fn inside(
    carpentry: &Carpentry,
    wall: Wall,
    parts: &[&Fixed],
    runs: &[Run],
    area: Rect,
) -> Drawing {
    let panel = carpentry.body.wall(wall);
    let scale = scale(panel, parts, area);
    let [w, h] = panel.blank.map(|m| 1000.0 * m / scale);
    let x = area.centre().x - w / 2.0;
    let rect = Rect::new(x, area.y + CAPTION, w, h);
    let seen = Seen { panel, rect, scale };
    let mut out = Drawing::default();
    seen.wood(&mut out);
    for part in parts {
        seen.outline(&corners(carpentry, part), &mut out);
    }
    let dots = seen.terminals(parts);
    let lines: Vec<(usize, Vec<Point>)> = (0..runs.len())
        .flat_map(|run| {
            let chains = seen.chains(run, &runs[run], parts, &dots);
            chains.into_iter().map(move |chain| (run, chain))
        })
        .collect();
    seen.wires(&lines, runs, &dots, &mut out);
    let (listed, high) = list(parts, area.w);
    let view = Rect {
        h: area.h - high,
        ..area
    };
    seen.callouts(parts, &dots, runs, view, &mut out);
    let ends = parts.iter().map(|p| p.ends.len()).sum();
    let deep = h.max(callout::height_wanted(ends)).min(view.h - CAPTION);
    out.append(listed.moved(area.x, rect.y + deep + BELOW));
    seen.numbers(&lines, runs, &dots, &mut out);
    seen.names(carpentry, parts, &mut out);
    seen.caption(wall, area, &mut out);
    out
}

/// A terminal in its place: part and terminal, and the point.
type Dot = (usize, usize, Point);

struct Seen<'a> {
    panel: &'a Panel,
    rect: Rect,
    scale: f64,
}

impl Seen<'_> {
    /// A point of the panel's frame, left and right exchanged.
    fn flat(&self, [u, v]: [f64; 2]) -> Point {
        let mm = 1000.0 / self.scale;
        Point::new(self.rect.right() - u * mm, self.rect.bottom() - v * mm)
    }

    fn at(&self, point: Vector) -> Point {
        let off = sub(point, self.panel.frame.origin);
        self.flat([
            dot(off, self.panel.frame.across),
            dot(off, self.panel.frame.up),
        ])
    }

    /// The inner face and the holes in it.
    fn wood(&self, out: &mut Drawing) {
        let edges = self.panel.edges.iter();
        let face: Vec<Point> = edges.map(|e| self.flat(e.inner[0])).collect();
        let edge = Stroke::new(Role::Ink, pen::MEDIUM);
        out.rect(
            self.rect,
            Style::stroked(Stroke::new(Role::Muted, pen::FINE)),
        );
        out.polygon(&face, Style::washed(Role::Wood, 0.35).edged(edge));
        let mut holes = Drawing::default();
        let fine = Style::stroked(Stroke::new(Role::Muted, pen::FINE).dashed(Dash::Short));
        let mm = 1000.0 / self.scale;
        for hole in &self.panel.holes {
            let at = self.flat(hole.at);
            match hole.outline {
                Outline::Circle { diameter } => holes.circle(at, 0.5 * diameter * mm, fine),
                Outline::Rectangle { width, height, .. } => {
                    let (w, h) = (width * mm, height * mm);
                    holes.rect(Rect::new(at.x - w / 2.0, at.y - h / 2.0, w, h), fine);
                }
            }
        }
        out.group(Group::Clip(self.rect), holes);
    }

    /// The rectangle around a part, as far as the wall reaches.
    fn shadow(&self, corners: &[Vector]) -> Option<Rect> {
        let points: Vec<Point> = corners
            .iter()
            .map(|p| {
                let p = self.at(*p);
                Point::new(
                    p.x.clamp(self.rect.x, self.rect.right()),
                    p.y.clamp(self.rect.y, self.rect.bottom()),
                )
            })
            .collect();
        Rect::around(&points).filter(|r| r.w > 0.5 && r.h > 0.5)
    }

    fn outline(&self, corners: &[Vector], out: &mut Drawing) {
        if let Some(rect) = self.shadow(corners) {
            let edge = Stroke::new(Role::Muted, pen::FINE);
            out.rect(rect, Style::washed(Role::Metal, 0.35).edged(edge));
        }
    }

    /// Every terminal that a wire ends at: those of a part side by side about its
    /// middle, clear of those of other parts.
    fn terminals(&self, parts: &[&Fixed]) -> Vec<Dot> {
        let mut out: Vec<Dot> = Vec::new();
        let mut taken: Vec<Rect> = Vec::new();
        for (index, part) in parts.iter().enumerate() {
            let mut used: Vec<usize> = part.ends.iter().map(|e| e.terminal).collect();
            used.sort_unstable();
            used.dedup();
            let columns = match used.len() {
                0..=3 => used.len().max(1),
                4 => 2,
                _ => 3,
            };
            let rows = used.len().div_ceil(columns);
            let half = [columns, rows].map(|n| 0.5 * PITCH * (n - 1) as f64);
            let around = |at: Point| {
                let [w, h] = half.map(|m| m + 0.6 * PITCH);
                Rect::new(at.x - w, at.y - h, 2.0 * w, 2.0 * h)
            };
            let at = self.at(part.at);
            let free = spots(at).find(|p| {
                let own = around(*p);
                self.rect.contains(&own) && !taken.iter().any(|t| t.overlaps(&own))
            });
            let at = free.unwrap_or(at);
            taken.push(around(at));
            for (place, terminal) in used.into_iter().enumerate() {
                let (column, row) = (place % columns, place / columns);
                let point = at.moved(
                    PITCH * column as f64 - half[0],
                    PITCH * row as f64 - half[1],
                );
                out.push((index, terminal, point));
            }
        }
        out
    }

    /// The pieces of a run along this wall, from its terminals where they are here.
    fn chains(&self, index: usize, run: &Run, parts: &[&Fixed], dots: &[Dot]) -> Vec<Vec<Point>> {
        let near: Vec<bool> = run
            .corners
            .iter()
            .map(|p| math::abs(depth(self.panel, *p)) <= NEAR)
            .collect();
        let lane = LANE * ((index % LANES) as f64 - (LANES / 2) as f64);
        let mut out = Vec::new();
        let mut from = 0;
        while from < near.len() {
            let to = (from..near.len())
                .take_while(|i| near[*i])
                .last()
                .unwrap_or(from);
            let own = &run.corners[from..=to];
            if to > from {
                let mut line: Vec<Point> = own.iter().map(|p| self.at(*p)).collect();
                line.dedup_by(|a, b| a.distance(*b) < 1e-6);
                let ends = [line.first().copied(), line.last().copied()];
                let mut drawn: Vec<Point> = line.iter().map(|p| self.held(*p, lane)).collect();
                for last in [false, true] {
                    let dot = terminal(index, last, parts, dots);
                    let corner = if last {
                        run.corners.last()
                    } else {
                        run.corners.first()
                    };
                    let (Some(dot), Some(corner)) = (dot, corner) else {
                        continue;
                    };
                    let end = ends[usize::from(last)];
                    if line.len() > 1 && end.is_some_and(|p| p.distance(self.at(*corner)) < 0.01) {
                        attach(&mut drawn, &line, last, dot);
                    }
                }
                if drawn.len() > 1 {
                    out.push(drawn);
                }
            }
            from = to + 1;
        }
        out
    }

    /// A corner moved into its lane, but not off the wall.
    fn held(&self, p: Point, lane: f64) -> Point {
        let room = self.rect.inset(0.6);
        Point::new(
            (p.x + lane).clamp(room.x, room.right()),
            (p.y + lane).clamp(room.y, room.bottom()),
        )
    }

    fn wires(&self, lines: &[(usize, Vec<Point>)], runs: &[Run], dots: &[Dot], out: &mut Drawing) {
        for (run, line) in lines {
            out.polyline(line, runs[*run].stroke);
        }
        for (run, line) in lines {
            for end in [line.first(), line.last()].into_iter().flatten() {
                let here = dots.iter().any(|(_, _, p)| p.distance(*end) < 1e-6);
                if !here {
                    let edge = Stroke::new(runs[*run].stroke.role, pen::MEDIUM);
                    out.circle(*end, 0.6, Style::filled(Role::Paper).edged(edge));
                }
            }
        }
    }

    fn callouts(
        &self,
        parts: &[&Fixed],
        dots: &[Dot],
        runs: &[Run],
        area: Rect,
        out: &mut Drawing,
    ) {
        let mut callouts = Vec::new();
        for (index, part) in parts.iter().enumerate() {
            for end in &part.ends {
                let dot = dots.iter().find(|d| (d.0, d.1) == (index, end.terminal));
                callouts.extend(dot.map(|(_, _, at)| Callout {
                    at: *at,
                    text: end.label.clone(),
                    role: runs[end.run].stroke.role,
                }));
            }
        }
        let columns = Columns {
            left: self.rect.x - FAN,
            right: self.rect.right() + FAN,
            wide: self.rect.x - FAN - area.x,
            top: self.rect.y,
            bottom: (self.rect.bottom())
                .max(self.rect.y + callout::height_wanted(callouts.len()))
                .min(area.bottom()),
        };
        callout::draw(&callouts, columns, out);
        for (_, _, at) in dots {
            out.circle(*at, 0.55, Style::filled(Role::Ink));
        }
    }

    /// Numbers on the wires, where there is room.
    fn numbers(
        &self,
        lines: &[(usize, Vec<Point>)],
        runs: &[Run],
        dots: &[Dot],
        out: &mut Drawing,
    ) {
        let around = |at: &Point| Rect::new(at.x - 0.8, at.y - 0.8, 1.6, 1.6);
        let mut taken: Vec<Rect> = dots.iter().map(|(_, _, at)| around(at)).collect();
        for (run, line) in lines {
            taken.extend(
                [line.first(), line.last()]
                    .into_iter()
                    .flatten()
                    .map(around),
            );
            let free = super::wired::spots(line).into_iter().find_map(|at| {
                let text = Text::new(at, &runs[*run].label, NUMBER);
                let text = text.anchored(Anchor::Middle).centred();
                let patch = text.upright_box().inset(-0.3);
                let clear = !taken.iter().any(|t| t.overlaps(&patch));
                (clear && self.rect.contains(&patch)).then_some((text, patch))
            });
            if let Some((text, patch)) = free {
                let edge = Stroke::new(runs[*run].stroke.role, pen::FINE);
                out.rect(patch, Style::filled(Role::Paper).edged(edge));
                out.text(text);
                taken.push(patch);
            }
        }
    }

    /// Names of parts within their outlines, where nothing is in the way.
    fn names(&self, carpentry: &Carpentry, parts: &[&Fixed], out: &mut Drawing) {
        for part in parts {
            let Some(shadow) = self.shadow(&corners(carpentry, part)) else {
                continue;
            };
            if SMALL.width(&part.name) + 1.0 > shadow.w {
                continue;
            }
            for share in [0.12, 0.88, 0.3, 0.7, 0.5] {
                let at = Point::new(shadow.centre().x, shadow.y + share * shadow.h);
                let text = Text::new(at, &part.name, SMALL).anchored(Anchor::Middle);
                let text = text.coloured(Role::Muted).centred();
                if shadow.contains(&text.upright_box()) && out.text_where_clear(text) {
                    break;
                }
            }
        }
    }

    fn caption(&self, wall: Wall, area: Rect, out: &mut Drawing) {
        let name = capital(studies::words::wall(wall));
        let name = format!("{name}, seen from inside");
        let at = Point::new(area.x, area.y + STRONG.cap_height());
        out.text(Text::new(at, &name, STRONG));
        // Edges run counter-clockwise from the lower one as seen from outside.
        let sides = [("above", 2), ("left", 1), ("right", 3), ("below", 0)];
        let sides = sides.iter().filter_map(|(place, edge)| {
            let meets = self.panel.edges.get(*edge)?.meets?;
            Some(format!("{place}: {}", studies::words::wall(meets)))
        });
        let sides: Vec<String> = sides.collect();
        let remark = format!("{} · {}", sides.join(", "), said(self.scale));
        let beside = at.moved(STRONG.width(&name) + 2.5, 0.0);
        out.text(Text::new(beside, &remark, SMALL).coloured(Role::Muted));
    }
}

/// Where the end of a run is drawn, if its terminal is on this wall.
fn terminal(run: usize, last: bool, parts: &[&Fixed], dots: &[Dot]) -> Option<Point> {
    parts.iter().enumerate().find_map(|(index, part)| {
        let own = |e: &&WireEnd| (e.run, e.last) == (run, last);
        let end = part.ends.iter().find(own)?;
        let dot = dots.iter().find(|d| (d.0, d.1) == (index, end.terminal));
        dot.map(|d| d.2)
    })
}

/// Joins a line in its lane to the terminal where it begins or ends, squarely.
fn attach(drawn: &mut Vec<Point>, line: &[Point], last: bool, dot: Point) {
    let count = line.len();
    let (end, next) = match last {
        false => (0, 1),
        true => (count - 1, count - 2),
    };
    let level = math::abs(line[end].y - line[next].y) < math::abs(line[end].x - line[next].x);
    let elbow = match level {
        true => Point::new(dot.x, drawn[end].y),
        false => Point::new(drawn[end].x, dot.y),
    };
    drawn[end] = elbow;
    if last {
        drawn.push(dot);
    } else {
        drawn.insert(0, dot);
    }
}

/// Places about a point, near ones first.
fn spots(at: Point) -> impl Iterator<Item = Point> {
    let around = |ring: i32| {
        (-ring..=ring).flat_map(move |x| {
            let edge = x.abs() == ring;
            let ys = (-ring..=ring).filter(move |y| edge || y.abs() == ring);
            ys.map(move |y| (x, y))
        })
    };
    let rings = (0..24).flat_map(around);
    rings.map(move |(x, y)| at.moved(1.2 * f64::from(x), 1.2 * f64::from(y)))
}
