//! The finish day by day: a picture of the hours, and what is done in them.

use super::said::{clock, day, span};
use crate::geometry::{Point, Rect};
use crate::layout::{Align, Block, Cell, Column, Heading, Piece, SMALL, Table};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use crate::text::number;
use studies::finish::{Finish, Job, Task};

pub(super) fn blocks(finish: &Finish) -> Vec<Box<dyn Block>> {
    let hands = span(finish.hands_on());
    let mut out: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "Bare wood",
            "each grit until the scratches of the last are gone",
        )),
        Box::new(grits(finish)),
        Box::new(Heading::new(
            "Day by day",
            &format!(
                "{hands} of work; days of the build order, from nine; dark: coats, pale: sanding, dots: drying"
            ),
        )),
    ];
    out.push(Box::new(Hours {
        jobs: finish.schedule.clone(),
    }));
    out.push(Box::new(list(finish)));
    out
}

fn grits(finish: &Finish) -> Table {
    let rows = finish.sanding.iter().map(|round| {
        vec![
            Cell::from(format!("P{}", round.grit)).strong(),
            Cell::from(round.words.as_str()),
            Cell::from(span(round.time)),
        ]
    });
    Table {
        columns: vec![
            Column::new("paper", Align::Left, 1.0),
            Column::new("for", Align::Left, 7.0),
            Column::new("time", Align::Right, 1.2),
        ],
        rows: rows.collect(),
    }
}

fn list(finish: &Finish) -> Table {
    let rows = finish.schedule.iter().enumerate().map(|(index, job)| {
        vec![
            Cell::from((index + 1).to_string()).strong(),
            Cell::from(format!("day {}", day(job.start))),
            Cell::from(clock(job.start)),
            Cell::from(words(finish, job)),
            Cell::from(if job.time > 0.0 {
                span(job.time)
            } else {
                String::new()
            }),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Align::Left, 0.5),
            Column::new("on", Align::Left, 1.1),
            Column::new("at", Align::Right, 0.9),
            Column::new("do", Align::Left, 5.4),
            Column::new("takes", Align::Right, 1.2),
        ],
        rows: rows.collect(),
    }
}

fn words(finish: &Finish, job: &Job) -> String {
    match job.task {
        Task::Sand => "sand the bare wood".to_owned(),
        Task::Mask => "mask what stays bare".to_owned(),
        Task::Dull { layer, grit } => {
            format!(
                "sand the {} dull with P{grit}, dust off",
                finish.layers[layer].name
            )
        }
        Task::Coat { layer, coat } => {
            let of = &finish.layers[layer];
            match of.coats {
                1 => of.name.clone(),
                coats => format!("{}, coat {coat} of {coats}", of.name),
            }
        }
        Task::Unmask => "masks off, along a cut with a sharp knife".to_owned(),
        Task::Handle => "it may be touched: fit it out".to_owned(),
        Task::Cured => "it has cured".to_owned(),
    }
}

/// Height of the row of one day, mm.
const ROW: f64 = 8.0;
/// Width left for its name.
const NAME: f64 = 11.0;
/// First and last hour drawn.
const FROM: f64 = 8.0;
const UNTIL: f64 = 24.0;
const HOUR: f64 = 3600.0;

/// The hours of every day on which something is done, a row each.
struct Hours {
    jobs: Vec<Job>,
}

impl Hours {
    fn x(width: f64, at: f64) -> f64 {
        let hour = (at % (24.0 * HOUR) / HOUR).clamp(FROM, UNTIL);
        NAME + (width - NAME) * (hour - FROM) / (UNTIL - FROM)
    }

    fn row(&self, number: usize, width: f64) -> Drawing {
        let mut out = Drawing::default();
        let (top, foot) = (2.6, ROW - 1.4);
        let name = Text::new(Point::new(0.0, foot - 0.6), &format!("day {number}"), SMALL);
        out.text(name);
        let line = Stroke::new(Role::Hairline, pen::FINE);
        for hour in [9.0, 12.0, 15.0, 18.0, 21.0] {
            let x = Self::x(width, hour * HOUR);
            out.line(Point::new(x, top), Point::new(x, foot), line);
        }
        let base = Stroke::new(Role::Muted, pen::FINE);
        out.line(Point::new(NAME, foot), Point::new(width, foot), base);
        self.drying(number, width, (top + foot) / 2.0, &mut out);
        for (index, job) in self.jobs.iter().enumerate() {
            if day(job.start) != number || job.time <= 0.0 {
                continue;
            }
            let x = Self::x(width, job.start);
            let w = (Self::x(width, job.start + job.time) - x).max(0.6);
            let edge = Stroke::new(Role::Ink, pen::FINE);
            let style = Style::filled(colour(job.task)).edged(edge);
            out.rect(Rect::new(x, top, w, foot - top), style);
            let at = Point::new(x + w / 2.0, top - 0.5);
            let text = Text::new(at, &(index + 1).to_string(), SMALL);
            out.text_where_clear(text.anchored(Anchor::Middle));
        }
        out
    }

    /// From each coat to what comes next, dotted.
    fn drying(&self, number: usize, width: f64, y: f64, out: &mut Drawing) {
        let dots = Stroke::new(Role::Accent, pen::THIN).dashed(crate::sheet::Dash::Dotted);
        let midnight = 24.0 * HOUR * number as f64;
        for pair in self.jobs.windows(2) {
            if !matches!(pair[0].task, Task::Coat { .. }) {
                continue;
            }
            let (from, until) = (pair[0].start + pair[0].time, pair[1].start);
            let (begin, end) = (midnight - 24.0 * HOUR, midnight - 1.0);
            if until <= begin || from >= end {
                continue;
            }
            let [a, b] = [from.max(begin), until.min(end)].map(|at| Self::x(width, at));
            if b > a {
                out.line(Point::new(a, y), Point::new(b, y), dots);
            }
        }
    }
}

const fn colour(task: Task) -> Role {
    match task {
        Task::Coat { .. } => Role::Accent,
        Task::Sand | Task::Dull { .. } => Role::Wood,
        Task::Mask | Task::Unmask | Task::Handle | Task::Cured => Role::Tint,
    }
}

impl Block for Hours {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let mut days: Vec<usize> = self
            .jobs
            .iter()
            .filter(|job| job.time > 0.0)
            .map(|job| day(job.start))
            .collect();
        days.dedup();
        let last = days.last().copied();
        let rows = days.iter().map(|number| Piece {
            height: ROW,
            drawing: self.row(*number, width),
            keep_with_next: true,
        });
        let mut pieces: Vec<Piece> = rows.collect();
        if last.is_some() {
            pieces.push(hours(width));
        }
        pieces
    }

    fn space_above(&self) -> f64 {
        1.5
    }
}

/// The hours below the rows.
fn hours(width: f64) -> Piece {
    let mut drawing = Drawing::default();
    for hour in [9.0, 12.0, 15.0, 18.0, 21.0] {
        let at = Point::new(Hours::x(width, hour * HOUR), SMALL.cap_height());
        let text = Text::new(at, &number(hour, 0), SMALL).anchored(Anchor::Middle);
        drawing.text(text.coloured(Role::Muted));
    }
    Piece {
        height: 3.6,
        drawing,
        keep_with_next: false,
    }
}
