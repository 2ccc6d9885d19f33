//! What is done when: one line for each step.

use super::clock::Clock;
use super::words::{duration, span};
use crate::geometry::{Point, Rect};
use crate::layout::{BODY, SMALL, STRONG, content_area};
use crate::pack::Page;
use crate::paper::Paper;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use studies::order::{Order, Step, Work};

/// Least and greatest height of a line, height of the head above the first, and width of the
/// names, in mm.
const LINE: f64 = 3.7;
const TALL: f64 = 4.8;
const HEAD: f64 = 13.0;
const NAMES: f64 = 82.0;
const NOTE: &str = "Full bars: hands on. Thin lines: glue, sealant, a coat or a test runs by itself. \
     Nights and idle days are drawn narrow. Times are common practice, no source: to plan with.";

pub(super) fn pages(order: &Order, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let fit = (((area.h - HEAD) / LINE) as usize).max(1);
    let sheets = order.steps.len().div_ceil(fit);
    let each = order.steps.len().div_ceil(sheets);
    let line = ((area.h - HEAD) / each as f64).min(TALL);
    let indices: Vec<usize> = (0..order.steps.len()).collect();
    let pages = indices.chunks(each).map(|some| {
        let steps = some.first().zip(some.last());
        let steps = steps.map_or(&order.steps[..], |(a, z)| &order.steps[*a..=*z]);
        let clock = Clock::new(order, steps);
        let mut drawing = head(order, area);
        drawing.append(grid(&clock, area, line * some.len() as f64));
        for (number, index) in some.iter().enumerate() {
            let rect = Rect::new(area.x, area.y + HEAD + line * number as f64, area.w, line);
            drawing.append(row(order, *index, &clock, rect));
        }
        Page::new("What is done when", drawing).noted(NOTE)
    });
    pages.collect()
}

fn head(order: &Order, area: Rect) -> Drawing {
    let total = &order.total;
    let [quick, usual, slow] = total.days;
    let days = if quick == slow {
        format!("{usual} days")
    } else {
        format!("{usual} days ({quick} to {slow})")
    };
    let said = format!(
        "{} hands on ({}), on {days} of {} at the bench; {} of it while something else dries; all \
         cured after {}.",
        duration(total.hands.usual),
        span(total.hands.quick, total.hands.slow),
        duration(total.day),
        duration(total.meanwhile),
        duration(total.until_ready.usual),
    );
    let mut out = Drawing::default();
    let base = area.y + BODY.cap_height();
    let letters = BODY.fitted(&said, area.w, SMALL.size_mm);
    out.text(Text::new(Point::new(area.x, base), &said, letters));
    out
}

fn grid(clock: &Clock, area: Rect, height: f64) -> Drawing {
    let mut out = Drawing::default();
    let left = area.x + NAMES;
    let width = area.w - NAMES;
    let top = area.y + HEAD;
    let bottom = top + height;
    let mut free = f64::NEG_INFINITY;
    for day in clock.first..clock.days.len() {
        let [from, to] = clock.day(day).map(|share| left + width * share);
        if clock.days[day].0 {
            let rect = Rect::new(from, top, to - from, bottom - top);
            out.rect(rect, Style::filled(Role::Tint));
        }
        let stroke = Stroke::new(Role::Hairline, pen::FINE);
        out.line(
            Point::new(from, top - 1.0),
            Point::new(from, bottom),
            stroke,
        );
        let said = format!("day {}", day + 1);
        let short = (day + 1).to_string();
        let room = to - from;
        let said = if SMALL.width(&said) + 1.0 < room {
            said
        } else {
            short
        };
        if clock.days[day].0 && from >= free {
            out.text(
                Text::new(Point::new(from + 0.5, top - 1.6), &said, SMALL).coloured(Role::Muted),
            );
            free = from + SMALL.width(&said) + 1.5;
        }
    }
    out
}

/// The colour of a sort of work.
const fn role(work: Work) -> Role {
    match work {
        Work::Wood => Role::WoodDark,
        Work::Panel => Role::MetalDark,
        Work::Wiring => Role::Third,
        Work::Fitting => Role::Muted,
        Work::Finish => Role::Second,
        Work::Test => Role::Accent,
    }
}

/// Since when a step is only waited for.
fn waits(order: &Order, step: &Step) -> f64 {
    let before = step.after.iter().map(|(index, _)| order.steps[*index].ends);
    before.fold(0.0, f64::max)
}

fn row(order: &Order, index: usize, clock: &Clock, area: Rect) -> Drawing {
    let step = &order.steps[index];
    let top = area.y;
    let mut out = Drawing::default();
    let base = top + 0.5 * (area.h + SMALL.cap_height());
    let number = (index + 1).to_string();
    let right = Point::new(area.x + 5.0, base);
    out.text(
        Text::new(right, &number, SMALL)
            .anchored(Anchor::End)
            .coloured(Role::Muted),
    );
    let letters = if step.hold.is_some() { STRONG } else { BODY };
    let letters = letters.fitted(&step.title, NAMES - 22.0, SMALL.size_mm);
    let title = letters.ellipsis(&step.title, NAMES - 22.0);
    out.text(Text::new(Point::new(area.x + 7.0, base), &title, letters));
    if step.ends > step.begins {
        let time = duration(step.hands.usual);
        let at = Point::new(area.x + NAMES - 2.0, base);
        out.text(
            Text::new(at, &time, SMALL)
                .anchored(Anchor::End)
                .coloured(Role::Muted),
        );
    }
    let x = |seconds: f64| area.x + NAMES + (area.w - NAMES) * clock.at(seconds);
    let middle = top + area.h / 2.0;
    // What nobody works at is there once it was waited for.
    let dry = if step.ends > step.begins {
        [step.ends, step.ready]
    } else {
        [waits(order, step), step.begins]
    };
    if dry[1] > dry[0] {
        let stroke = Stroke::new(role(step.work), pen::BOLD).dashed(Dash::Short);
        let [from, to] = dry.map(|at| Point::new(x(at), middle));
        out.line(from, to, stroke);
        let tick = |y: f64| Point::new(x(dry[1]), y);
        let end = Stroke::new(role(step.work), pen::THIN);
        out.line(tick(middle - 0.8), tick(middle + 0.8), end);
    }
    if step.ends > step.begins {
        let wide = (x(step.ends) - x(step.begins)).max(0.6);
        let bar = Rect::new(x(step.begins), top + 0.8, wide, area.h - 1.6);
        out.rect(bar, Style::filled(role(step.work)));
    }
    out
}
