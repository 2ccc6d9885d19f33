//! What follows from what: one fault is told once, and what it brings stands under it.

use crate::check::{Said, Severity};
use std::collections::BTreeSet;

/// Checks whose stops bring others about the same things, the deepest cause first, each with
/// what it brings.
const BRINGS: &[(&str, &[&str])] = &[
    (
        "box-holds",
        &[
            "vent-fits",
            "drivers-fit",
            "boards-fit",
            "boards-cross",
            "holes-clear",
            "parts-fit",
            "inside-box",
            "parts-collide",
            "parts-close",
            "comes-out",
            "screws-reached",
        ],
    ),
    (
        "drivers-fit",
        &[
            "vent-fits",
            "holes-clear",
            "parts-collide",
            "parts-close",
            "comes-out",
        ],
    ),
    (
        "boards-fit",
        &[
            "boards-cross",
            "holes-clear",
            "parts-collide",
            "parts-close",
        ],
    ),
    (
        "boards-cross",
        &["holes-clear", "parts-collide", "parts-close"],
    ),
    (
        "inside-box",
        &[
            "parts-collide",
            "parts-close",
            "comes-out",
            "screws-reached",
        ],
    ),
    (
        "holes-clear",
        &["parts-collide", "parts-close", "panel-bodies"],
    ),
    ("vent-fits", &["parts-collide", "parts-close"]),
    ("parts-fit", &["parts-collide", "parts-close", "comes-out"]),
    ("panel-bodies", &["knobs-apart"]),
    ("panel-plate", &["panel-bodies", "knobs-apart"]),
    ("grille-clear", &["parts-collide", "parts-close"]),
    (
        "parts-collide",
        &["parts-close", "comes-out", "screws-reached"],
    ),
];

/// A finding and what follows from it, as indices of what was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Group {
    pub(crate) lead: usize,
    pub(crate) brings: Vec<usize>,
}

impl Group {
    pub(crate) fn all(&self) -> impl Iterator<Item = usize> + '_ {
        core::iter::once(self.lead).chain(self.brings.iter().copied())
    }
}

/// Everything that was said, each once: alone, or under what brings it.
pub(crate) fn groups(said: &[Said]) -> Vec<Group> {
    let mut leads: Vec<Option<usize>> = vec![None; said.len()];
    for (cause, brings) in BRINGS {
        for lead in 0..said.len() {
            if said[lead].0.id != *cause || leads[lead].is_some() {
                continue;
            }
            for other in 0..said.len() {
                let free = leads[other].is_none() && other != lead;
                if free && brings.contains(&said[other].0.id) && follows(said, lead, other) {
                    leads[other] = Some(lead);
                }
            }
        }
    }
    let alone = (0..said.len()).filter(|index| leads[*index].is_none());
    alone
        .map(|lead| Group {
            lead,
            brings: (0..said.len())
                .filter(|other| leads[*other] == Some(lead))
                .collect(),
        })
        .collect()
}

/// Whether all that one verdict is about has to do with what a worse one is about.
fn follows(said: &[Said], lead: usize, other: usize) -> bool {
    let (lead, other) = (&said[lead].1, &said[other].1);
    if lead.severity > other.severity || other.severity == Severity::Good {
        return false;
    }
    let things: BTreeSet<String> = lead
        .abouts()
        .into_iter()
        .flat_map(|about| about.things)
        .collect();
    let shared = |things_of: &[String]| things_of.iter().any(|thing| things.contains(thing));
    other.abouts().iter().all(|about| shared(&about.things))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{Verdict, find};

    fn said(id: &str, severity: Severity, abouts: &[&[&str]]) -> Said {
        let verdict = Verdict::new(severity, "A title", "A cause.");
        let verdict = abouts.iter().fold(verdict, |verdict, things| {
            verdict.about(things.iter().copied(), 1.0)
        });
        (find(id).unwrap(), verdict)
    }

    use Severity::{Caution, Stop};

    #[test]
    fn a_consequence_stands_under_its_cause() {
        let all = [
            said("drivers-fit", Stop, &[&["drivers.1.at.1"]]),
            said("parts-collide", Stop, &[&["drivers.1.at.1", "wall.top"]]),
            said("parts-collide", Stop, &[&["battery", "control"]]),
            said("parts-close", Caution, &[&["drivers.1.at.1", "battery"]]),
        ];
        let found = groups(&all);
        assert_eq!(
            found,
            [
                Group {
                    lead: 0,
                    brings: vec![1, 3]
                },
                Group {
                    lead: 2,
                    brings: vec![]
                }
            ]
        );
    }

    #[test]
    fn what_is_also_about_something_else_stands_alone() {
        let all = [
            said("drivers-fit", Stop, &[&["drivers.1.at.1"]]),
            said(
                "parts-collide",
                Stop,
                &[&["drivers.1.at.1", "wall.top"], &["battery", "control"]],
            ),
        ];
        assert!(groups(&all).iter().all(|group| group.brings.is_empty()));
    }

    #[test]
    fn a_stop_does_not_follow_from_a_caution() {
        let all = [
            said("vent-fits", Caution, &[&["box.vent"]]),
            said("parts-collide", Stop, &[&["box.vent", "battery"]]),
        ];
        assert!(groups(&all).iter().all(|group| group.brings.is_empty()));
    }
}
