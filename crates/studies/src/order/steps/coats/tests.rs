//! Coats of any layers hold to their times.

use super::*;
use crate::finish::{Grit, Job, Mask};
use crate::order::schedule::{DAY, DAY_AT_THE_BENCH, MORNING};
use ::wood::Wall;
use design::{FinishBase, FinishKind};
use proptest::prelude::*;

const HOUR: f64 = 3600.0;

const fn is_film(kind: FinishKind) -> bool {
    matches!(kind, FinishKind::Lacquer | FinishKind::Paint)
}

/// The days of a finish alone, as the order of a box with nothing else to do has them.
fn jobs(layers: &[Layer], sanding: &[Grit], masks: usize) -> Vec<Job> {
    let mask = Mask {
        wall: Wall::Front,
        bare: Vec::new(),
        around: false,
        what: String::new(),
        how: String::new(),
    };
    let finish = Finish {
        faces: Vec::new(),
        woods: Vec::new(),
        layers: layers.to_vec(),
        holds: Vec::new(),
        cans: Vec::new(),
        sanding: sanding.to_vec(),
        offcut: Vec::new(),
        offcut_wait: 0.0,
        masks: vec![mask; masks],
        schedule: Vec::new(),
        sequence: Vec::new(),
        air: Vec::new(),
        cautions: Vec::new(),
        wet_weight: None,
        raw: None,
    };
    let gather = |late: &Late| {
        let mut drafts = Drafts::default();
        super::layers(&mut drafts, &finish, late);
        drafts
    };
    let (drafts, slots) = crate::order::settled(&finish, gather);
    let steps = slots.iter();
    let steps = steps.map(|slot| (slot.begins, drafts.steps[&slot.name].finish.as_slice()));
    crate::order::jobs(steps)
}

/// A layer with these times in hours.
fn layer(kind: FinishKind, coats: u32, [recoat, next, cure]: [f64; 3], sand: Option<u32>) -> Layer {
    Layer {
        name: "any".into(),
        kind,
        base: FinishBase::Water,
        coats,
        on: Wall::ALL.into(),
        area: 0.5,
        volume: 0.0,
        volume_band: (0.0, 0.0),
        wet_thickness: 0.0,
        touch_dry: 0.25 * recoat * HOUR,
        recoat: recoat * HOUR,
        window: if is_film(kind) {
            (24.0 * HOUR).max(recoat * HOUR)
        } else {
            f64::INFINITY
        },
        before_next: next * HOUR,
        cure: cure * HOUR,
        sand,
        sprayed: false,
        self_heating: false,
        coat_time: 1200.0,
        sand_time: 750.0,
    }
}

prop_compose! {
    fn any_layer()(
        kind in prop::sample::select(&[
            FinishKind::Oil, FinishKind::Lacquer, FinishKind::Stain, FinishKind::Paint,
        ][..]),
        coats in 1_u32..5,
        recoat in 0.2_f64..30.0,
        next in 1.0_f64..4.0,
        cure in 1.0_f64..10.0,
        sand in prop::option::of(prop::sample::select(&[240_u32, 320][..])),
        on in prop::sample::subsequence(Wall::ALL.to_vec(), 1..=6),
        coat_time in 300.0_f64..10_000.0,
    ) -> Layer {
        let times = [recoat, recoat * next, recoat * next * cure];
        Layer { on, coat_time, ..layer(kind, coats, times, sand) }
    }
}

/// Every coat as (layer, begin, end), in order.
fn coats(layers: &[Layer], jobs: &[Job]) -> Vec<(usize, f64, f64)> {
    let coats = jobs.iter().filter_map(|job| match job.task {
        Task::Coat { layer, .. } => Some((layer, job.start, job.start + job.time)),
        _ => None,
    });
    let coats: Vec<_> = coats.collect();
    let wanted: u32 = layers.iter().map(|layer| layer.coats).sum();
    assert_eq!(coats.len(), wanted as usize);
    coats
}

proptest! {
    #[test]
    fn no_coat_before_its_time_nor_after_its_window_unsanded(
        layers in prop::collection::vec(any_layer(), 1..5),
    ) {
        let sanding = [Grit { grit: 120, words: String::new(), time: 900.0 }];
        let jobs = jobs(&layers, &sanding, 3);
        let coats = coats(&layers, &jobs);
        for (i, (over, begin, _)) in coats.iter().enumerate() {
            let meets = |other: usize| {
                layers[*over].on.iter().any(|wall| layers[other].on.contains(wall))
            };
            let mut under = None;
            for (below, _, end) in &coats[..i] {
                if !meets(*below) {
                    continue;
                }
                let lower = &layers[*below];
                let wait = if below == over { lower.recoat } else { lower.before_next };
                prop_assert!(begin - end >= wait - 1e-6, "{begin} {end} {wait}");
                under = Some((*below, *end));
            }
            let Some((below, end)) = under else { continue };
            let sanded = jobs.iter().any(|job| {
                matches!(job.task, Task::Dull { layer, .. } if layer == below)
                    && job.start >= end
                    && job.start < *begin
            });
            prop_assert!(sanded || begin - end <= layers[below].window + 1e-6);
        }
    }

    #[test]
    fn one_pair_of_hands_works_by_day(layers in prop::collection::vec(any_layer(), 1..5)) {
        let jobs = jobs(&layers, &[], 3);
        let mut free = 0.0;
        for job in jobs.iter().filter(|job| job.time > 0.0) {
            prop_assert!(job.start >= free - 1e-6);
            free = job.start + job.time;
            let hour = (job.start % DAY) / HOUR;
            let end = hour + job.time / HOUR;
            let [begins, ends] = [MORNING, MORNING + DAY_AT_THE_BENCH].map(|at| at / HOUR);
            prop_assert!(hour >= begins - 1e-9 && end <= ends + 1e-6, "{hour} {end}");
        }
        let cured = jobs.last().expect("it ends");
        prop_assert_eq!(cured.task, Task::Cured);
        for (of, _, end) in coats(&layers, &jobs) {
            prop_assert!(cured.start >= end + layers[of].cure - 1e-6);
        }
    }
}

/// By hand: two coats of 20 min, four hours apart, sanded for 12.5 min, begun at 9:00 with the
/// bare wood: 9:15, then not before 13:35. An hour after 14:07:30 the day at the bench is over,
/// so the masks come off the next morning; a day after the last coat it is fitted out, which is
/// within the hours at the bench.
#[test]
fn a_day_of_lacquer() {
    let lacquer = layer(FinishKind::Lacquer, 2, [4.0, 4.0, 168.0], Some(240));
    let sanding = [Grit {
        grit: 180,
        words: String::new(),
        time: 900.0,
    }];
    let jobs = jobs(&[lacquer], &sanding, 0);
    let at = |job: &Job| (job.task, job.start);
    let found: Vec<_> = jobs.iter().map(at).collect();
    let clock = |hours: f64, minutes: f64| hours * HOUR + minutes * 60.0;
    let dull = Task::Dull {
        layer: 0,
        grit: 240,
    };
    let coat = |coat| Task::Coat { layer: 0, coat };
    assert_eq!(
        found,
        [
            (Task::Sand, clock(9.0, 0.0)),
            (Task::Mask, clock(9.0, 15.0)),
            (coat(1), clock(9.0, 15.0)),
            (dull, clock(13.0, 35.0)),
            (coat(2), clock(13.0, 47.5)),
            (Task::Unmask, clock(24.0 + 9.0, 0.0)),
            (Task::Handle, clock(24.0 + 14.0, 7.5)),
            (Task::Cured, clock(168.0 + 14.0, 7.5)),
        ]
    );
}

/// A coat that must wait over a night longer than its window is sanded first, whatever its can
/// says.
#[test]
fn a_late_coat_is_sanded() {
    let slow = Layer {
        window: 20.0 * HOUR,
        ..layer(FinishKind::Lacquer, 2, [15.0, 15.0, 168.0], None)
    };
    let dulled = |layers: &[Layer]| {
        let jobs = jobs(layers, &[], 0);
        let mut tasks = jobs.iter().map(|job| job.task);
        tasks.any(|task| matches!(task, Task::Dull { grit: DULL, .. }))
    };
    assert!(dulled(std::slice::from_ref(&slow)));
    let patient = Layer {
        window: 30.0 * HOUR,
        ..slow
    };
    assert!(!dulled(&[patient]));
}
