//! When each coat goes on: no coat before the one below is dry, none after its window
//! unless that was sanded, and nobody works at night.

use super::model::{Grit, Job, Layer, Task};

/// When work begins and ends each day, in s from midnight: a choice of ours.
const MORNING: f64 = 9.0 * 3600.0;
const EVENING: f64 = 21.0 * 3600.0;
const DAY: f64 = 86_400.0;
/// Hands-on time of masking one place and of taking it off; common practice, no source.
const MASK: f64 = 240.0;
const UNMASK: f64 = 60.0;
/// Least time after the last coat before things are screwed on, in s; common practice, no source.
const HANDLED: f64 = 12.0 * 3600.0;
/// Grit that dulls a film where its can names none; common practice, no source.
const DULL: u32 = 320;

/// What the layers want, from the morning of the first day.
pub(super) fn jobs(layers: &[Layer], sanding: &[Grit], masks: usize) -> Vec<Job> {
    let Some(top) = layers.last() else {
        return Vec::new();
    };
    let mut plan = Plan {
        jobs: Vec::new(),
        now: MORNING,
    };
    plan.add(
        Task::Sand,
        0.0,
        sanding.iter().map(|round| round.time).sum(),
    );
    plan.add(Task::Mask, 0.0, MASK * masks as f64);
    let mut coats: Vec<(usize, f64)> = Vec::new();
    for (index, layer) in layers.iter().enumerate() {
        for coat in 1..=layer.coats {
            let (from, under) = ready(layers, &coats, index);
            let sanded = under.and_then(|(below, dry)| {
                let lower = &layers[below];
                let late = plan.slot(from, layer.coat_time + lower.sand_time) - dry > lower.window;
                let usual = lower.sand.is_some() && (below == index || layer.sand.is_some());
                (late || usual).then(|| (below, lower.sand.unwrap_or(DULL), lower.sand_time))
            });
            let from = match sanded {
                // Sanding and coating go together, so that nobody sands in the evening what is
                // coated the next day.
                Some((below, grit, time)) => {
                    let from = plan.slot(from, time + layer.coat_time);
                    let dull = Task::Dull { layer: below, grit };
                    plan.add(dull, from, time);
                    from
                }
                None => from,
            };
            let task = Task::Coat { layer: index, coat };
            coats.push((index, plan.add(task, from, layer.coat_time)));
        }
    }
    let last = plan.now;
    plan.add(Task::Unmask, last + top.touch_dry, UNMASK * masks as f64);
    let dry = coats.iter().map(|(of, end)| end + layers[*of].recoat);
    let handled = dry.fold(last + HANDLED, f64::max);
    plan.mark(Task::Handle, handled);
    let cured = coats.iter().map(|(of, end)| end + layers[*of].cure);
    plan.mark(Task::Cured, cured.fold(handled, f64::max));
    plan.jobs
}

/// When a layer may go on, by the coats that lie there, and the coat right under it with the
/// time at which that was laid.
fn ready(layers: &[Layer], coats: &[(usize, f64)], index: usize) -> (f64, Option<(usize, f64)>) {
    let over = &layers[index];
    let mut from: f64 = 0.0;
    let mut under = None;
    for (below, end) in coats {
        let lower = &layers[*below];
        let meets = over.on.iter().any(|wall| lower.on.contains(wall));
        from = from.max(
            end + match (meets, *below == index) {
                (false, _) => lower.touch_dry,
                (true, true) => lower.recoat,
                (true, false) => lower.before_next,
            },
        );
        if meets {
            under = Some((*below, *end));
        }
    }
    (from, under)
}

struct Plan {
    jobs: Vec<Job>,
    /// When hands are free.
    now: f64,
}

impl Plan {
    /// Earliest begin of something so long, within a day's work.
    fn slot(&self, from: f64, time: f64) -> f64 {
        let from = from.max(self.now);
        let midnight = (from / DAY).floor() * DAY;
        let morning = midnight + MORNING;
        let ends = from.max(morning) + time <= midnight + EVENING;
        if ends || from <= morning {
            from.max(morning)
        } else {
            morning + DAY
        }
    }

    /// Adds a job and gives when it ends.
    fn add(&mut self, task: Task, from: f64, time: f64) -> f64 {
        let start = self.slot(from, time);
        self.now = start + time;
        if time > 0.0 {
            self.jobs.push(Job { task, start, time });
        }
        self.now
    }

    fn mark(&mut self, task: Task, start: f64) {
        self.jobs.push(Job {
            task,
            start,
            time: 0.0,
        });
    }
}

#[cfg(test)]
mod tests;
