//! What a check may look at.

use crate::build::Build;
use crate::odds::Drawn;
use crate::outcome::{Outcome, Traces};
use crate::report::{Measurement, Promise};
use crate::sound::{Ceiling, Limit};
use crate::subject::Subject;
use crate::versus::Versus;
use design::Design;

/// The nominal build studied on the fine grid, and the drawn builds.
#[derive(Debug)]
pub struct Evidence<'a> {
    pub(crate) subject: &'a Subject,
    pub(crate) build: &'a Build,
    pub(crate) outcome: &'a Outcome,
    pub(crate) traces: &'a Traces,
    pub(crate) hertz: &'a [f64],
    /// Programme voltages at which each limit is just reached.
    pub(crate) ceilings: &'a [Ceiling],
    /// Peak over rms of the programme, as a ratio.
    pub(crate) crest: f64,
    /// Middle range above bass, from face and place, in dB.
    pub(crate) face_loss: f64,
    pub(crate) drawn: &'a Drawn,
    pub(crate) promises: &'a [Promise],
    pub(crate) versus: Option<&'a Versus>,
    pub(crate) measurement: Option<&'a Measurement>,
}

impl Evidence<'_> {
    pub(crate) fn design(&self) -> &Design {
        &self.subject.project.design
    }

    /// Programme voltage at which a limit is reached, V rms.
    pub(crate) fn ceiling(&self, limit: Limit) -> f64 {
        let found = self.ceilings.iter().find(|ceiling| ceiling.limit == limit);
        found.map_or(f64::INFINITY, |ceiling| ceiling.volts)
    }

    pub(crate) fn promise(&self, id: &str) -> Option<&Promise> {
        self.promises.iter().find(|promise| promise.id == id)
    }
}
