use super::arms::Arms;
use super::bound::Top;
use super::frame::Frame;
use super::score::score;
use super::*;
use crate::indicator::{Capacitor, Comparator, Indicator, Reference, Resistor, State};
use proptest::prelude::*;

/// Invented parts of the usual kinds.
fn shunt(volts: f64, tolerance: f64) -> Reference {
    Reference {
        volts,
        tolerance,
        drift: 0.003,
        rated_current: 1e-3,
        slope: 0.3,
        slope_tolerance: 0.5,
        least_current: 0.4e-3,
        most_current: 0.1,
    }
}

fn zener(volts: f64, slope: f64) -> Reference {
    Reference {
        volts,
        tolerance: 0.05,
        drift: 0.01,
        rated_current: 5e-3,
        slope,
        slope_tolerance: 0.5,
        least_current: 1e-3,
        most_current: 0.08,
    }
}

fn open_collector() -> Comparator {
    Comparator {
        output_high: None,
        sink: 60.0,
        sink_current: 10e-3,
        offset: 5e-3,
        bias: 100e-9,
        supply_current: 0.5e-3,
        supply: [2.0, 36.0],
        input_low: 0.0,
        input_high: 1.5,
    }
}

fn push_pull() -> Comparator {
    Comparator {
        output_high: Some(1.4),
        sink: 150.0,
        sink_current: 15e-3,
        offset: 7e-3,
        bias: 250e-9,
        supply_current: 0.8e-3,
        supply: [3.0, 32.0],
        input_low: 0.0,
        input_high: 1.5,
    }
}

fn offer<T>(part: T, to_buy: bool) -> Offer<T> {
    Offer { part, to_buy }
}

/// E24 values (`iec-60063`) of so many decades from `from` Ω on.
fn e24(from: f64, decades: u32) -> Vec<f64> {
    const STEPS: [f64; 24] = [
        1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1,
        5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
    ];
    let mut values = Vec::new();
    let mut decade = from;
    for _ in 0..decades {
        values.extend(STEPS.iter().map(|step| step * decade));
        decade *= 10.0;
    }
    values
}

fn wish() -> Wish {
    Wish {
        trip: 11.4,
        within: 0.03,
        hysteresis: [0.3, 0.6],
        recovered: 12.4,
        delay: [2.0, 8.0],
        supply: [10.0, 15.0],
        lamp: Lamp {
            forward: 1.9,
            current: 4e-3,
            most_current: 20e-3,
        },
    }
}

fn capacitor(farads: f64) -> Offer<Capacitor> {
    offer(
        Capacitor {
            farads,
            tolerance: 0.2,
            leakage: 5e-9,
        },
        true,
    )
}

fn big_drawer() -> Drawer {
    let resistor = |ohms| {
        offer(
            Resistor {
                ohms,
                tolerance: 0.01,
            },
            false,
        )
    };
    Drawer {
        resistors: e24(100.0, 5).into_iter().map(resistor).collect(),
        capacitors: [1e-6, 2.2e-6, 4.7e-6, 1e-5, 2.2e-5, 4.7e-5, 1e-4]
            .map(capacitor)
            .to_vec(),
        references: [
            shunt(2.495, 0.01),
            shunt(1.24, 0.01),
            zener(3.3, 95.0),
            zener(4.7, 80.0),
            zener(5.1, 60.0),
            zener(5.6, 40.0),
            zener(6.2, 10.0),
            zener(6.8, 15.0),
        ]
        .map(|part| offer(part, false))
        .to_vec(),
        comparators: [open_collector(), push_pull()]
            .map(|part| offer(part, false))
            .to_vec(),
    }
}

#[test]
fn a_full_drawer_gives_what_is_wanted() {
    let (drawer, wish) = (big_drawer(), wish());
    let found = search(&drawer, &wish, 4);
    assert_eq!(found.len(), 4);
    for one in &found {
        let thresholds = one.circuit.thresholds();
        assert!(
            (thresholds.falling - wish.trip).abs() < 0.01 * wish.trip,
            "{one:#?}"
        );
        assert!((0.3..=0.6).contains(&thresholds.hysteresis()), "{one:#?}");
        assert!(
            (2.0..=8.0).contains(&one.circuit.delay_seconds()),
            "{one:#?}"
        );
        assert!(one.circuit.currents(10.0, State::Lit).reference > 0.4e-3);
    }
    assert!(found.is_sorted_by(|a, b| a.score <= b.score));
    let pairs: Vec<_> = found
        .iter()
        .map(|one| (one.comparator, one.reference))
        .collect();
    assert!((1..4).all(|i| !pairs[..i].contains(&pairs[i])), "{pairs:?}");
    // A one per cent shunt beats every five per cent zener.
    assert!(found[0].reference < 2 && found[1].reference < 2);
}

/// What hardly draws lets a large resistor and a small capacitor wait; what draws does not.
#[test]
fn a_thrifty_input_takes_a_small_capacitor() {
    let mut drawer = big_drawer();
    drawer
        .capacitors
        .extend([1e-6, 2.2e-6, 4.7e-6].map(|farads| {
            let mut film = capacitor(farads);
            film.part.leakage = 0.0;
            film
        }));
    for one in &mut drawer.capacitors[..7] {
        one.part.leakage = 0.01 * one.part.farads;
    }
    drawer.comparators.truncate(1);
    let best = |drawer: &Drawer| search(drawer, &wish(), 1)[0].circuit;
    drawer.comparators[0].part.bias = 1e-9;
    let thrifty = best(&drawer);
    assert!(thrifty.slow.is_some(), "{thrifty:#?}");
    assert!(thrifty.delay.unwrap().farads < 10e-6, "{thrifty:#?}");
    let drawn = |one: &Indicator| one.shares()[10].falling.abs();
    assert!(drawn(&thrifty) < 0.02, "{}", drawn(&thrifty));
    drawer.comparators[0].part.bias = 2e-6;
    assert!(best(&drawer).slow.is_none());
}

/// Every combination judged, without a bound.
fn brute(drawer: &Drawer, wish: &Wish, keep: usize) -> Vec<(f64, usize, usize)> {
    let arms = Arms::of(&drawer.resistors);
    let mut best: Vec<(f64, usize, usize)> = Vec::new();
    let backs: Vec<Option<&Offer<Resistor>>> = if wish.feeds_back() {
        drawer.resistors.iter().map(Some).collect()
    } else {
        vec![None]
    };
    let all = || arms.all();
    for frame in Frame::all(drawer, wish, &arms) {
        for top in all() {
            for back in &backs {
                let top = Top::new(&frame, top, back.map(|offer| offer.part), wish);
                for bottom in all() {
                    let Some(error) = frame.judge(&top, bottom, wish) else {
                        continue;
                    };
                    let to_buy = frame.to_buy
                        + back.map_or(0, |offer| u32::from(offer.to_buy))
                        + top.entry.to_buy
                        + bottom.to_buy;
                    let parts = top.entry.count + bottom.count;
                    let score = score(error, top.drain, parts, to_buy);
                    let found = frame.found(&top, bottom, score, to_buy);
                    let pair = (found.comparator, found.reference);
                    match best.iter_mut().find(|one| (one.1, one.2) == pair) {
                        Some(one) => one.0 = one.0.min(score),
                        None => best.push((score, pair.0, pair.1)),
                    }
                }
            }
        }
    }
    best.retain(|one| one.0 < super::HOPELESS);
    best.sort_by(|a, b| a.0.total_cmp(&b.0));
    best.truncate(keep);
    let worst = best.first().map_or(0.0, |one| super::ALTERNATIVE * one.0);
    best.retain(|one| one.0 <= worst);
    best
}

fn small_drawer() -> impl Strategy<Value = Drawer> {
    let resistor = (
        prop::sample::select(e24(1e3, 3)),
        prop::sample::select(vec![0.01, 0.02, 0.05]),
        any::<bool>(),
    );
    let extra = prop::collection::vec(resistor, 4..7);
    let zeners = prop::collection::vec((2.4_f64..7.0, 1.0_f64..90.0), 0..3);
    (extra, zeners, any::<bool>(), any::<bool>()).prop_map(|(extra, zeners, first, both)| {
        // What every circuit needs: a lamp's resistor, a feed, a divider and a feedback of megohms.
        let needed = [
            (1.5e3, 0.05),
            (4.7e3, 0.01),
            (330e3, 0.01),
            (1e6, 0.05),
            (4.7e6, 0.05),
        ];
        let mut resistors: Vec<_> = needed
            .into_iter()
            .map(|(ohms, tolerance)| offer(Resistor { ohms, tolerance }, first))
            .collect();
        resistors.extend(extra.into_iter().map(|(ohms, tolerance, buy)| {
            offer(
                Resistor {
                    ohms: 10.0 * ohms,
                    tolerance,
                },
                buy,
            )
        }));
        let mut references = vec![offer(shunt(2.495, 0.01), both)];
        references.extend(
            zeners
                .into_iter()
                .map(|(volts, slope)| offer(zener(volts, slope), !both)),
        );
        let mut comparators = vec![offer(
            if first { open_collector() } else { push_pull() },
            false,
        )];
        if both {
            comparators.push(offer(
                if first { push_pull() } else { open_collector() },
                true,
            ));
        }
        Drawer {
            resistors,
            references,
            comparators,
            capacitors: [4.7e-6, 2.2e-5, 1e-4].map(capacitor).to_vec(),
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn the_search_is_as_good_as_trying_everything(
        drawer in small_drawer(),
        trip in 10.2_f64..12.0,
        hysteresis in prop::sample::select(vec![[0.0, 0.0], [0.2, 0.5], [0.1, 1.0]]),
        delay in prop::sample::select(vec![[0.0, 0.0], [1.0, 4.0], [2.0, 12.0]]),
    ) {
        let wish = Wish { trip, hysteresis, delay, ..wish() };
        let found = search(&drawer, &wish, 3);
        let all = brute(&drawer, &wish, 3);
        prop_assert_eq!(found.len(), all.len());
        for (one, (score, comparator, reference)) in found.iter().zip(all) {
            prop_assert!((one.score - score).abs() < 1e-9, "{} {score}", one.score);
            prop_assert_eq!((one.comparator, one.reference), (comparator, reference));
        }
    }

    /// What the search takes for the reach to first order is what the stack gives.
    #[test]
    fn first_order_reach_is_that_of_the_stack(drawer in small_drawer(), trip in 10.4_f64..11.8) {
        let wish = Wish { trip, ..wish() };
        for one in search(&drawer, &wish, 3) {
            let stack = one.circuit.falling_stack();
            let miss = stack.nominal - wish.trip;
            let error = (miss * miss + stack.root_square * stack.root_square).sqrt() / wish.trip;
            let weights = one.score - 100.0 * error;
            prop_assert!(weights > 0.0 && stack.least < stack.nominal && stack.nominal < stack.most);
            let reach = stack.root_square;
            prop_assert!(reach <= (stack.most - stack.least) / 2.0 * (1.0 + 1e-9));
        }
    }
}

/// A leak that outdoes the divider ends the search, instead of having every useless circuit
/// ranked; what the same drawer can reach is still found.
#[test]
fn a_delay_out_of_reach_is_given_up_at_once() {
    let mut drawer = big_drawer();
    drawer.capacitors = [1e-6, 1e-5, 1e-4, 1e-3, 4.7e-3].map(capacitor).to_vec();
    for one in &mut drawer.capacitors {
        one.part.leakage = 0.1 * one.part.farads;
    }
    let found = |delay: f64| {
        let wish = Wish {
            delay: [1.15 * delay, 2.5 * delay],
            ..wish()
        };
        search(&drawer, &wish, 4)
    };
    assert_eq!(found(3.0).len(), 4);
    for delay in [30.0, 120.0, 600.0, 3600.0] {
        assert_eq!(found(delay), [], "{delay} s");
    }
}
