//! Steps as they are gathered, before they are put in order.

use super::graph::{Graph, Time};
use super::model::{Why, Work};
use crate::finish::Task;
use std::collections::BTreeMap;

/// A step without its place in the order.
#[derive(Clone, Debug)]
pub(crate) struct Draft {
    pub(crate) title: String,
    pub(crate) words: Vec<String>,
    pub(crate) work: Work,
    /// Usual hands-on time in s.
    pub(crate) hands: f64,
    pub(crate) wait: f64,
    pub(crate) wait_for: Option<&'static str>,
    pub(crate) tools: Vec<String>,
    pub(crate) hides: Vec<String>,
    /// What of the finish is done in it, one after the other, with its hands-on time in s.
    pub(crate) finish: Vec<(Task, f64)>,
}

impl Draft {
    pub(crate) fn new(work: Work, title: impl Into<String>, hands: f64) -> Self {
        Self {
            title: title.into(),
            words: Vec::new(),
            work,
            hands,
            wait: 0.0,
            wait_for: None,
            tools: Vec::new(),
            hides: Vec::new(),
            finish: Vec::new(),
        }
    }

    pub(crate) fn say(mut self, words: impl Into<String>) -> Self {
        self.words.push(words.into());
        self
    }

    /// Waiting after it, in s, and for what.
    pub(crate) const fn wait(mut self, seconds: f64, what: &'static str) -> Self {
        self.wait = seconds;
        self.wait_for = Some(what);
        self
    }

    /// Work of the finish, whose time is the time of the step.
    pub(crate) fn of_finish(mut self, tasks: impl IntoIterator<Item = (Task, f64)>) -> Self {
        self.finish.extend(tasks);
        self.hands = self.finish.iter().map(|(_, time)| time).sum();
        self
    }

    pub(crate) fn with<T: Into<String>>(mut self, tools: impl IntoIterator<Item = T>) -> Self {
        for tool in tools {
            let tool = tool.into();
            if !self.tools.contains(&tool) {
                self.tools.push(tool);
            }
        }
        self
    }
}

/// Steps and what each comes after.
#[derive(Clone, Debug, Default)]
pub(crate) struct Drafts {
    pub(crate) graph: Graph,
    pub(crate) steps: BTreeMap<String, Draft>,
}

impl Drafts {
    /// Adds a step after others; those that are not there are passed over.
    pub(crate) fn add(&mut self, id: &str, draft: Draft) {
        let time = Time {
            hands: draft.hands,
            wait: draft.wait,
        };
        self.graph.add(id, time);
        self.steps.insert(id.to_owned(), draft);
    }

    /// A step comes after others, all for one reason.
    pub(crate) fn after<'a>(
        &mut self,
        later: &str,
        before: impl IntoIterator<Item = &'a str>,
        why: Why,
    ) {
        for before in before {
            self.graph.after(later, before, why);
        }
    }

    /// Names of steps that begin so.
    pub(crate) fn like(&self, start: &str) -> Vec<String> {
        let names = self.steps.keys();
        names.filter(|id| id.starts_with(start)).cloned().collect()
    }
}
