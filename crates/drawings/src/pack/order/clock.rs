//! The scale of the timeline: days at the bench wide, nights narrow, days of waiting narrower.

use studies::order::{Order, Step};

const DAY: f64 = 24.0 * 3600.0;
/// Width of a night, and of a day on which nothing is done, against a day at the bench.
const NIGHT: f64 = 0.12;
const IDLE: f64 = 0.16;

/// Where times lie on the scale.
pub(super) struct Clock {
    /// The first day that is shown.
    pub(super) first: usize,
    /// Whether anybody works, day by day, and where each day begins, as a share of the whole.
    pub(super) days: Vec<(bool, f64)>,
    bench: f64,
    whole: f64,
}

impl Clock {
    /// The days on which some of the steps are under way.
    pub(super) fn new(order: &Order, some: &[Step]) -> Self {
        let last = some.iter().map(|step| step.ready).fold(0.0, f64::max);
        let count = (last / DAY).ceil().max(1.0) as usize;
        let begins = some.iter().map(|step| step.begins);
        let first = (begins.fold(f64::INFINITY, f64::min).max(0.0) / DAY) as usize;
        let first = first.min(count - 1);
        let works = |day: usize| {
            let mut steps = order.steps.iter();
            steps.any(|step| step.ends > step.begins && (step.begins / DAY) as usize == day)
        };
        let mut at = 0.0;
        let mut days = Vec::with_capacity(count);
        for day in 0..count {
            let worked = works(day);
            days.push((worked, at));
            at += match (day < first, worked) {
                (true, _) => 0.0,
                (_, true) => 1.0 + NIGHT,
                (_, false) => IDLE,
            };
        }
        Self {
            first,
            days,
            bench: order.total.day,
            whole: at,
        }
    }

    /// Where a moment lies, 0 to 1.
    pub(super) fn at(&self, seconds: f64) -> f64 {
        let day = ((seconds / DAY).max(0.0) as usize).min(self.days.len() - 1);
        let (worked, begins) = self.days[day];
        let clock = (seconds - day as f64 * DAY).clamp(0.0, DAY);
        let within = if !worked {
            IDLE * clock / DAY
        } else if clock <= self.bench {
            clock / self.bench
        } else {
            1.0 + NIGHT * (clock - self.bench) / (DAY - self.bench)
        };
        (begins + within) / self.whole
    }

    /// Where a day begins and where its hours at the bench end, 0 to 1.
    pub(super) fn day(&self, day: usize) -> [f64; 2] {
        let (worked, begins) = self.days[day];
        let wide = if worked { 1.0 } else { IDLE };
        [begins / self.whole, (begins + wide) / self.whole]
    }
}
