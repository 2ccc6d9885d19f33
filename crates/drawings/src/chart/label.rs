//! Where the names of curves, level marks and points go: beside what they
//! name, clear of every line and of one another.

use super::curve::Mapping;
use super::{Chart, Mark};
use crate::geometry::{Point, Rect};
use crate::math;
use crate::path::Polyline;
use crate::role::Role;
use crate::sheet::{Drawing, Stroke, Text, pen};
use crate::spread::spread;
use crate::text::Lettering;

/// Letters of names in the plot.
pub(crate) const LETTERS: Lettering = Lettering::regular(2.4);
/// Distance of names in the column beside the plot.
const PITCH: f64 = 3.4;
/// From the edge of the plot to the names in the column.
const GUTTER: f64 = 4.5;
/// Clear space around a name.
const CLEAR: f64 = 0.45;

/// Something to be named.
pub(crate) struct Subject {
    name: String,
    role: Role,
    /// What it is drawn with, visible parts.
    stretches: Vec<(Point, Point)>,
    /// Bands that belong to others are to be kept out of.
    foreign_bands: Vec<Polyline>,
    /// The place of a point mark; its name may stand off, with a leader.
    point: Option<Point>,
    /// Whether it is a curve: its name must not be taken for another's.
    curve: bool,
}

/// A name with its place.
pub(crate) struct Label {
    pub(crate) text: Text,
    /// The line from the thing to its name, when it stands apart.
    leader: Vec<Point>,
}

impl Label {
    /// The room the name takes, with its clear space.
    pub(crate) fn room(&self) -> Rect {
        self.text.upright_box().inset(-CLEAR)
    }

    pub(crate) fn draw(self, out: &mut Drawing) {
        if !self.leader.is_empty() {
            out.polyline(&self.leader, Stroke::new(self.text.role, pen::FINE));
        }
        out.text(self.text);
    }
}

/// Everything in the chart that can be seen and is to be named, or, without
/// a name, is to be kept clear of.
pub(crate) fn subjects(chart: &Chart, map: &Mapping<'_>) -> Vec<Subject> {
    let mut out = Vec::new();
    for (i, series) in chart.series.iter().enumerate() {
        let foreign = chart.series.iter().enumerate().filter(|(j, _)| *j != i);
        out.push(Subject {
            name: series.name.clone(),
            role: series.style.role(),
            stretches: map.visible(series),
            foreign_bands: foreign.flat_map(|(_, s)| map.band_outlines(s)).collect(),
            point: None,
            curve: true,
        });
    }
    out.extend(
        chart
            .marks
            .iter()
            .filter_map(|m| mark_subject(m, chart, map)),
    );
    out.retain(|s| !s.stretches.is_empty());
    // Points first: they have the fewest places to choose from.
    out.sort_by_key(|s| s.point.is_none());
    out
}

fn mark_subject(mark: &Mark, chart: &Chart, map: &Mapping<'_>) -> Option<Subject> {
    let (name, stretches, point) = match mark {
        Mark::AtY(y, name) if chart.y.holds(*y) => {
            let y = map.y_mm(*y);
            let ends = (Point::new(map.plot.x, y), Point::new(map.plot.right(), y));
            (name, vec![ends], None)
        }
        Mark::Point(x, y, name) if chart.x.holds(*x) && chart.y.holds(*y) => {
            let p = Point::new(map.x_mm(*x), map.y_mm(*y));
            (name, point_box(p), Some(p))
        }
        _ => return None,
    };
    Some(Subject {
        name: name.clone(),
        role: Role::Ink,
        stretches,
        foreign_bands: Vec::new(),
        point,
        curve: false,
    })
}

/// A point is avoided and named like the small square around it.
fn point_box(p: Point) -> Vec<(Point, Point)> {
    let c = Rect::new(p.x, p.y, 0.0, 0.0).inset(-0.8).corners();
    (0..4).map(|i| (c[i], c[(i + 1) % 4])).collect()
}

/// The width of the column beside the plot that some subjects need.
pub(crate) fn column_width(subjects: &[Subject], columned: &[usize]) -> f64 {
    columned
        .iter()
        .map(|i| LETTERS.width(&subjects[*i].name))
        .fold(0.0, |a: f64, w| a.max(w + GUTTER))
}

/// Places all names; `Err` gives the subject that found no place in the plot
/// and has to go to the column.
pub(crate) fn place(
    subjects: &[Subject],
    upright_marks: &[f64],
    map: &Mapping<'_>,
    columned: &[usize],
) -> Result<Vec<Label>, usize> {
    let plot = map.plot;
    let mut lines: Vec<(Point, Point)> = upright_marks
        .iter()
        .map(|x| (Point::new(*x, plot.y), Point::new(*x, plot.bottom())))
        .collect();
    lines.extend(subjects.iter().flat_map(|s| s.stretches.iter().copied()));
    let mut labels = in_column(subjects, columned, plot);
    for label in &labels {
        lines.extend(label.leader.windows(2).map(|w| (w[0], w[1])));
    }
    for (i, subject) in subjects.iter().enumerate() {
        if subject.name.is_empty() || columned.contains(&i) {
            continue;
        }
        let others = subjects.iter().enumerate().filter(|(j, _)| *j != i);
        let foreign: Vec<_> = others.flat_map(|(_, s)| s.stretches.clone()).collect();
        let tried = match subject.point {
            Some(p) => off_a_point(subject, p),
            None => candidates(subject, plot),
        };
        let found = tried.into_iter().find(|c| {
            let room = c.rect.inset(-CLEAR);
            plot.inset(0.3).contains(&room)
                && !lines.iter().any(|(a, b)| room.clip(*a, *b).is_some())
                && !labels.iter().any(|l| l.room().overlaps(&room))
                && !labels.iter().any(|l| c.leader_meets(&l.room()))
                && (!subject.curve || !foreign_nearer(c, &foreign))
                && !in_foreign_band(&c.rect, &subject.foreign_bands)
        });
        let Some(found) = found else {
            return Err(i);
        };
        lines.extend(found.leader.windows(2).map(|w| (w[0], w[1])));
        labels.push(Label {
            text: Text::new(found.base(), &subject.name, LETTERS).coloured(subject.role),
            leader: found.leader,
        });
    }
    Ok(labels)
}

/// A place tried for a name.
struct Candidate {
    rect: Rect,
    gap: f64,
    cost: f64,
    leader: Vec<Point>,
}

impl Candidate {
    fn leader_meets(&self, room: &Rect) -> bool {
        self.leader
            .windows(2)
            .any(|w| room.clip(w[0], w[1]).is_some())
    }

    /// Start of the base line.
    fn base(&self) -> Point {
        Point::new(self.rect.x, self.rect.bottom() - descent())
    }
}

fn descent() -> f64 {
    0.24 * LETTERS.size_mm
}

fn size(name: &str) -> (f64, f64) {
    (LETTERS.width(name), 0.76 * LETTERS.size_mm + descent())
}

/// Places around a point, nearest first; farther ones have a leader.
fn off_a_point(subject: &Subject, p: Point) -> Vec<Candidate> {
    const AWAY: [f64; 7] = [1.6, 2.6, 4.0, 6.0, 9.0, 12.0, 16.0];
    let (w, h) = size(&subject.name);
    let mut out = Vec::new();
    for away in AWAY {
        for sixteenth in 0..16 {
            let turn = f64::from(sixteenth) * core::f64::consts::TAU / 16.0;
            let (dx, dy) = (math::cos(turn), math::sin(turn));
            let tip = p.moved(away * dx, away * dy);
            let leader = if away > 2.0 {
                vec![p.moved(0.7 * dx, 0.7 * dy), tip.moved(-0.6 * dx, -0.6 * dy)]
            } else {
                Vec::new()
            };
            let rect = Rect::met_by(tip, (dx, dy), w, h);
            let (gap, cost) = (away, away);
            out.push(Candidate {
                rect,
                gap,
                cost,
                leader,
            });
        }
    }
    out
}

fn candidates(subject: &Subject, plot: Rect) -> Vec<Candidate> {
    let (w, h) = size(&subject.name);
    let wanted_x = plot.x + 0.72 * plot.w;
    let mut out = Vec::new();
    for p in along(&subject.stretches, 2.0) {
        for gap in [0.7, 1.3, 2.2, 3.4, 5.0] {
            for shift in [-0.5, 0.0, -1.0] {
                for above in [true, false] {
                    let y = if above { p.y - gap - h } else { p.y + gap };
                    let rect = Rect::new(p.x + shift * w, y, w, h);
                    let off = (rect.centre().x - wanted_x).abs() / plot.w;
                    let cost = gap + 3.0 * off + if above { 0.0 } else { 0.3 };
                    let leader = Vec::new();
                    out.push(Candidate {
                        rect,
                        gap,
                        cost,
                        leader,
                    });
                }
            }
        }
    }
    out.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    out
}

/// Points along some stretches, `pitch` mm from one another.
fn along(stretches: &[(Point, Point)], pitch: f64) -> Vec<Point> {
    let mut out = Vec::new();
    let mut left = 0.0;
    for (a, b) in stretches {
        let length = a.distance(*b);
        let mut at = left;
        while at <= length {
            let t = if length > 0.0 { at / length } else { 0.0 };
            out.push(a.towards(*b, t));
            at += pitch;
        }
        left = at - length;
    }
    out
}

/// Whether a curve of another name comes about as near as the own one.
fn foreign_nearer(c: &Candidate, foreign: &[(Point, Point)]) -> bool {
    let around = c.rect.inset(-(c.gap + 0.8));
    foreign.iter().any(|(a, b)| around.clip(*a, *b).is_some())
}

fn in_foreign_band(rect: &Rect, bands: &[Polyline]) -> bool {
    let probes = rect.corners().into_iter().chain([rect.centre()]);
    probes
        .into_iter()
        .any(|p| bands.iter().any(|band| band.holds(p)))
}

/// Names beside the plot, each joined to the last visible point of what it
/// names by a leader; in the order of those points, so that none cross.
fn in_column(subjects: &[Subject], columned: &[usize], plot: Rect) -> Vec<Label> {
    let mut ends: Vec<(usize, Point)> = columned
        .iter()
        .filter_map(|i| Some((*i, last_point(&subjects[*i])?)))
        .collect();
    ends.sort_by(|a, b| a.1.y.total_cmp(&b.1.y).then(a.0.cmp(&b.0)));
    let wanted: Vec<f64> = ends.iter().map(|(_, p)| p.y).collect();
    let middles = spread(&wanted, PITCH, plot.y + 1.0, plot.bottom() - 1.0);
    ends.iter()
        .zip(middles)
        .map(|((i, end), y)| {
            let subject = &subjects[*i];
            let x = plot.right();
            let name_at = Point::new(x + GUTTER, y);
            Label {
                text: Text::new(name_at, &subject.name, LETTERS)
                    .coloured(subject.role)
                    .centred(),
                leader: vec![
                    *end,
                    Point::new(x.max(end.x) + 0.6, end.y),
                    Point::new(x + GUTTER - 0.9, y),
                ],
            }
        })
        .collect()
}

fn last_point(subject: &Subject) -> Option<Point> {
    subject
        .stretches
        .iter()
        .flat_map(|(a, b)| [*a, *b])
        .max_by(|a, b| a.x.total_cmp(&b.x))
}
