//! What a check says, before its mends are tried.

use crate::finding::{Edit, Severity};
use design::Place;

/// A mend not yet tried.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Candidate {
    pub(crate) words: String,
    pub(crate) edits: Vec<Edit>,
}

impl Candidate {
    pub(crate) fn new(words: impl Into<String>, edits: impl Into<Vec<Edit>>) -> Self {
        Self {
            words: words.into(),
            edits: edits.into(),
        }
    }

    /// One key set to one value.
    pub(crate) fn set(words: impl Into<String>, key: &str, value: impl Into<String>) -> Self {
        Self::new(words, [Edit::set(key, value)])
    }
}

/// One thing a verdict is about, or two that meet, and by how much it falls short.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct About {
    /// Stable keys in order: tables of the design such as `drivers.1.at.2`, `battery` or
    /// `brace.1`, and walls as `wall.back`.
    pub(crate) things: Vec<String>,
    /// What is missing, in the unit of the check: larger is worse.
    pub(crate) short: f64,
}

impl About {
    /// The things as one key.
    pub(crate) fn key(&self) -> String {
        self.things.join(" ")
    }
}

/// What a check says, before its mends are tried.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Verdict {
    pub(crate) severity: Severity,
    pub(crate) title: String,
    pub(crate) cause: String,
    pub(crate) advice: Option<String>,
    pub(crate) measured: Option<f64>,
    pub(crate) limit: Option<f64>,
    pub(crate) unit: &'static str,
    /// Mends to be tried, the smallest change first. Each ladder holds more
    /// and more of one change: where its last rung leaves the finding, all do.
    pub(crate) ladders: Vec<Vec<Candidate>>,
    /// Not said when every finding of this check has a mend.
    pub(crate) unless_mended: Option<&'static str>,
    /// Where the text speaks of it.
    pub(crate) place: Option<Place>,
    /// What it is about; nothing where its check speaks of one thing only.
    about: Vec<About>,
}

impl Verdict {
    pub(crate) fn new(
        severity: Severity,
        title: impl Into<String>,
        cause: impl Into<String>,
    ) -> Self {
        Self {
            severity,
            title: title.into(),
            cause: cause.into(),
            advice: None,
            measured: None,
            limit: None,
            unit: "",
            ladders: Vec::new(),
            unless_mended: None,
            place: None,
            about: Vec::new(),
        }
    }

    pub(crate) fn stop(title: impl Into<String>, cause: impl Into<String>) -> Self {
        Self::new(Severity::Stop, title, cause)
    }

    pub(crate) fn caution(title: impl Into<String>, cause: impl Into<String>) -> Self {
        Self::new(Severity::Caution, title, cause)
    }

    pub(crate) fn good(title: impl Into<String>, cause: impl Into<String>) -> Self {
        Self::new(Severity::Good, title, cause)
    }

    /// With the measured value and what it is held against.
    pub(crate) fn measured(mut self, measured: f64, limit: f64, unit: &'static str) -> Self {
        (self.measured, self.limit, self.unit) = (Some(measured), Some(limit), unit);
        self
    }

    /// With advice in words.
    pub(crate) fn advice(mut self, advice: impl Into<String>) -> Self {
        self.advice = Some(advice.into());
        self
    }

    /// With the place in the text that speaks of it.
    pub(crate) fn at(mut self, place: impl Into<Option<Place>>) -> Self {
        self.place = place.into();
        self
    }

    /// About one thing, or two that meet, of which so much is missing.
    pub(crate) fn about<T: Into<String>>(
        mut self,
        things: impl IntoIterator<Item = T>,
        short: f64,
    ) -> Self {
        let mut things: Vec<String> = things.into_iter().map(Into::into).collect();
        things.sort();
        things.dedup();
        // One thing is named once, with the most that it lacks.
        match self.about.iter_mut().find(|about| about.things == things) {
            Some(known) => known.short = known.short.max(short),
            None => self.about.push(About { things, short }),
        }
        self
    }

    /// What it is about; where it does not say so, it is about what its check is about.
    pub(crate) fn abouts(&self) -> Vec<About> {
        if !self.about.is_empty() {
            return self.about.clone();
        }
        let short = match (self.measured, self.limit) {
            (Some(measured), Some(limit)) => (measured - limit).abs(),
            _ => 0.0,
        };
        vec![About {
            things: Vec::new(),
            short,
        }]
    }

    /// The keys of what it is about.
    pub(crate) fn keys(&self) -> Vec<String> {
        self.abouts().iter().map(About::key).collect()
    }

    /// With mends to be tried in this order, each for itself.
    pub(crate) fn mends(mut self, mends: impl IntoIterator<Item = Candidate>) -> Self {
        self.ladders
            .extend(mends.into_iter().map(|mend| vec![mend]));
        self
    }

    /// With more and more of one change to be tried.
    pub(crate) fn ladder(self, rungs: Vec<Candidate>) -> Self {
        self.ladders([rungs])
    }

    /// With several such changes.
    pub(crate) fn ladders(mut self, ladders: impl IntoIterator<Item = Vec<Candidate>>) -> Self {
        let filled = ladders.into_iter().filter(|rungs| !rungs.is_empty());
        self.ladders.extend(filled);
        self
    }

    /// Only said when the findings of another check have no mend.
    pub(crate) const fn unless_mended(mut self, check: &'static str) -> Self {
        self.unless_mended = Some(check);
        self
    }
}
