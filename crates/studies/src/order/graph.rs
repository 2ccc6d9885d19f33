//! What has to be done before what.

use super::model::Why;
use std::collections::{BTreeMap, BTreeSet};

/// Work and what it waits for; steps are known by name, so that neither the order of
/// adding them nor that of the links changes what comes out.
#[derive(Clone, Debug, Default)]
pub(crate) struct Graph {
    /// Hands-on and waiting time in s of each step.
    times: BTreeMap<String, Time>,
    /// What each step comes after.
    links: BTreeMap<String, Vec<Link>>,
}

/// How long a step takes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Time {
    /// With hands on it, in s.
    pub(crate) hands: f64,
    /// After that, until what comes after may begin, in s.
    pub(crate) wait: f64,
}

/// One step comes after another.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Link {
    /// The earlier one.
    pub(crate) before: String,
    /// Why.
    pub(crate) why: Why,
    /// Waiting in s between them, where it is not what the earlier one has after itself.
    pub(crate) wait: Option<f64>,
}

impl Graph {
    /// Adds a step.
    pub(crate) fn add(&mut self, name: &str, time: Time) {
        self.times.insert(name.to_owned(), time);
    }

    /// Whether there is such a step.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.times.contains_key(name)
    }

    /// One step comes after another; nothing is said where one of them is not there, or where
    /// it was said before.
    pub(crate) fn after(&mut self, later: &str, before: &str, why: Why) {
        self.link(later, before, why, None);
    }

    /// The same with so many s between them; where they were linked before, that wait is theirs.
    pub(crate) fn after_waiting(&mut self, later: &str, before: &str, why: Why, wait: f64) {
        self.link(later, before, why, Some(wait));
    }

    fn link(&mut self, later: &str, before: &str, why: Why, wait: Option<f64>) {
        if later == before || !self.has(later) || !self.has(before) {
            return;
        }
        let links = self.links.entry(later.to_owned()).or_default();
        match links.iter_mut().find(|link| link.before == before) {
            Some(known) => known.wait = wait.or(known.wait),
            None => links.push(Link {
                before: before.to_owned(),
                why,
                wait,
            }),
        }
        links.sort_by(|a, b| a.before.cmp(&b.before));
    }

    /// What lies between the end of the earlier step of a link and the later one, in s.
    pub(crate) fn wait(&self, link: &Link) -> f64 {
        link.wait.unwrap_or_else(|| self.time(&link.before).wait)
    }

    /// Whether a step comes after another already, directly or not.
    pub(crate) fn follows(&self, later: &str, before: &str) -> bool {
        let mut seen: BTreeSet<&str> = BTreeSet::new();
        let mut open = vec![later];
        while let Some(next) = open.pop() {
            for link in self.links(next) {
                if link.before == before {
                    return true;
                }
                if seen.insert(&link.before) {
                    open.push(&link.before);
                }
            }
        }
        false
    }

    /// What a step comes directly after, by name.
    pub(crate) fn links(&self, name: &str) -> &[Link] {
        self.links.get(name).map_or(&[], Vec::as_slice)
    }

    /// Names of all steps.
    pub(crate) fn names(&self) -> impl Iterator<Item = &str> {
        self.times.keys().map(String::as_str)
    }

    /// How long a step takes; nothing where there is no such step.
    pub(crate) fn time(&self, name: &str) -> Time {
        self.times.get(name).copied().unwrap_or_default()
    }

    /// Time in s from the beginning of each step to the end of all that waits for it, hands and
    /// waiting; `None` where steps wait for each other in a ring.
    pub(crate) fn tails(&self) -> Option<BTreeMap<&str, f64>> {
        let order = self.any_order()?;
        let mut tails: BTreeMap<&str, f64> = BTreeMap::new();
        for name in order.into_iter().rev() {
            let time = self.time(name);
            let tail = tails.entry(name).or_insert(0.0);
            *tail = tail.max(time.hands + time.wait);
            let own = *tail;
            for link in self.links(name) {
                let Some((before, time)) = self.times.get_key_value(&link.before) else {
                    continue;
                };
                let through = time.hands + self.wait(link) + own;
                let known = tails.entry(before).or_insert(0.0);
                *known = known.max(through);
            }
        }
        Some(tails)
    }

    /// Some order that keeps every link, the same for the same graph; `None` where there is
    /// none (`kahn-1962`).
    pub(crate) fn any_order(&self) -> Option<Vec<&str>> {
        let mut open: BTreeMap<&str, usize> = self
            .names()
            .map(|name| (name, self.links(name).len()))
            .collect();
        let mut order = Vec::with_capacity(open.len());
        while let Some(next) = open
            .iter()
            .find(|(_, left)| **left == 0)
            .map(|(name, _)| *name)
        {
            open.remove(next);
            order.push(next);
            for (name, left) in &mut open {
                *left -= usize::from(self.links(name).iter().any(|link| link.before == next));
            }
        }
        open.is_empty().then_some(order)
    }
}
