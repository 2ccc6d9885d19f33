//! Small graphs against every order there is; large ones against what must hold of any.

use super::*;
use crate::order::model::Why;
use proptest::prelude::*;

/// Days without end, so that only work and waiting count.
const ALWAYS: Hours = Hours {
    bench: f64::INFINITY,
};

/// A graph of steps a, b, …, with times in minutes; a link goes from the lower letter up.
fn graph(times: &[(u32, u32)], links: &[(usize, usize)]) -> Graph {
    let name = |index: usize| format!("{index:02}");
    let mut graph = Graph::default();
    for (index, (hands, wait)) in times.iter().enumerate() {
        let time = Time {
            hands: 60.0 * f64::from(*hands),
            wait: 60.0 * f64::from(*wait),
        };
        graph.add(&name(index), time);
    }
    for (before, later) in links {
        graph.after(&name(*later), &name(*before), Why::Work);
    }
    graph
}

fn slots_keep(graph: &Graph, slots: &[Slot]) {
    assert_eq!(slots.len(), graph.names().count(), "every step once");
    for (index, slot) in slots.iter().enumerate() {
        if let Some(next) = slots.get(index + 1) {
            assert!(next.begins >= slot.ends, "two hands: {slot:?} {next:?}");
        }
        for link in graph.links(&slot.name) {
            let before = slots.iter().find(|other| other.name == link.before);
            let before = before.expect("it is on the clock");
            assert!(before.ready <= slot.begins + 1e-9, "{before:?} {slot:?}");
        }
    }
}

/// Every order of the steps that keeps the links.
fn all_orders(graph: &Graph) -> Vec<Vec<String>> {
    fn more(graph: &Graph, done: &mut Vec<String>, out: &mut Vec<Vec<String>>) {
        let open: Vec<String> = graph
            .names()
            .filter(|name| !done.iter().any(|d| d == name))
            .map(str::to_owned)
            .collect();
        if open.is_empty() {
            out.push(done.clone());
        }
        for name in open {
            let mut links = graph.links(&name).iter();
            if links.all(|link| done.contains(&link.before)) {
                done.push(name);
                more(graph, done, out);
                done.pop();
            }
        }
    }
    let mut out = Vec::new();
    more(graph, &mut Vec::new(), &mut out);
    out
}

prop_compose! {
    fn any_graph(most: usize)(
        times in prop::collection::vec((1_u32..40, prop::sample::select(&[0_u32, 0, 60, 300][..])), 2..=most),
        picks in prop::collection::vec((0_usize..64, 0_usize..64), 0..3 * most),
    ) -> (Vec<(u32, u32)>, Vec<(usize, usize)>) {
        let count = times.len();
        let links = picks.into_iter().map(|(a, b)| (a % count, b % count));
        let links = links.filter(|(a, b)| a != b).map(|(a, b)| (a.min(b), a.max(b)));
        (times, links.collect())
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Work waits for nothing but what it must: no schedule of list form takes longer than all
    /// work and the longest chain of waiting together, so none takes twice the shortest
    /// (`graham-1969`); the shortest is found by trying all orders.
    #[test]
    fn small_graphs_end_nearly_as_soon_as_they_can((times, links) in any_graph(6)) {
        let graph = graph(&times, &links);
        let slots = schedule(&graph, ALWAYS);
        slots_keep(&graph, &slots);
        let orders = all_orders(&graph);
        let names: Vec<String> = slots.iter().map(|slot| slot.name.clone()).collect();
        prop_assert!(orders.contains(&names));
        let best = orders.iter().map(|order| {
            let slots = timed(order.iter().map(String::as_str), &graph, |name| graph.time(name), ALWAYS);
            finished(&slots)
        });
        let best = best.fold(f64::INFINITY, f64::min);
        let found = finished(&slots);
        prop_assert!(found >= best - 1e-9 && found < 2.0 * best, "{found} {best}");
    }

    #[test]
    fn days_end_before_night_and_links_hold((times, links) in any_graph(30)) {
        let graph = graph(&times, &links);
        let slots = schedule(&graph, Hours::USUAL);
        slots_keep(&graph, &slots);
        for slot in &slots {
            let clock = slot.ends - DAY * (slot.begins / DAY).floor();
            prop_assert!(clock <= DAY_AT_THE_BENCH + 1e-6, "{slot:?}");
        }
        let order = slots.iter().map(|slot| slot.name.as_str());
        let again = timed(order, &graph, |name| graph.time(name), Hours::USUAL);
        prop_assert_eq!(&again, &slots);
    }

    /// The same steps and links, told in another order, are scheduled alike.
    #[test]
    fn the_order_of_telling_changes_nothing((times, links) in any_graph(12), turn in 0_usize..12) {
        let plain = graph(&times, &links);
        let mut turned = Graph::default();
        let mut names: Vec<&str> = plain.names().collect();
        let turn = turn % names.len();
        names.rotate_left(turn);
        names.reverse();
        for name in &names {
            turned.add(name, plain.time(name));
        }
        for name in &names {
            for link in plain.links(name).iter().rev() {
                turned.after(name, &link.before, link.why);
            }
        }
        prop_assert_eq!(schedule(&plain, Hours::USUAL), schedule(&turned, Hours::USUAL));
    }

    /// A link that closes a ring is found, whatever else there is.
    #[test]
    fn a_ring_has_no_order((times, links) in any_graph(12), pick in 0_usize..64) {
        let mut ringed = graph(&times, &links);
        let names: Vec<String> = ringed.names().map(str::to_owned).collect();
        let pairs = names.iter().flat_map(|a| names.iter().map(move |b| (a.clone(), b.clone())));
        let ends: Vec<(String, String)> = pairs.filter(|(before, later)| ringed.follows(later, before)).collect();
        prop_assume!(!ends.is_empty());
        let (before, later) = &ends[pick % ends.len()];
        ringed.after(before, later, Why::Work);
        prop_assert!(ringed.any_order().is_none());
        prop_assert!(schedule(&ringed, Hours::USUAL).is_empty());
    }
}

/// By hand: ring 30 min and an hour in the clamps, the harness 40 min meanwhile, then the
/// front for 10 min: done after 100 min, not 140.
#[test]
fn other_work_goes_on_while_glue_dries() {
    let graph = graph(&[(30, 60), (40, 0), (10, 0)], &[(0, 2)]);
    let slots = schedule(&graph, ALWAYS);
    let order: Vec<&str> = slots.iter().map(|slot| slot.name.as_str()).collect();
    assert_eq!(order, ["00", "01", "02"]);
    assert_eq!(finished(&slots), 100.0 * 60.0);
}
