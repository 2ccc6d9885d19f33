//! Asking for the way of one part, each question once.

use super::{STRAIGHT, Site};
use crate::carpentry::model::Passage;
use crate::memo::Memo;
use std::sync::Arc;
use wood::{Carry, Opening, Part, Plan, Scene, Verdict, Wall};

/// Size of the search for a way through one opening: of a design that is shown, and of a
/// mend that is tried, which at worst is not offered.
const NODES: usize = 200;
const NODES_OF_TRIAL: usize = 40;

/// What is asked: whether a part comes out of a box through some openings. What is compared
/// soonest stands first.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Question {
    moving: usize,
    nodes: usize,
    openings: Vec<Opening>,
    among: Arc<Among>,
}

/// A box and what is in it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Among {
    plan: Plan,
    parts: Vec<Part>,
}

/// What is drawn straight off a wall, and what is out of its way.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Drawing {
    moving: usize,
    wall: Wall,
    out: Vec<usize>,
    among: Arc<Among>,
}

/// The way out of a part, and whether tools reach it through the same opening.
#[derive(Clone, Debug)]
pub(crate) struct Way {
    /// The opening, by index among those asked.
    pub(super) through: Option<usize>,
    pub(super) passage: Passage,
    pub(super) slack: f64,
    turned: f64,
    tipped: f64,
    pub(super) driver_reaches: bool,
    pub(super) hand_reaches: bool,
    /// Parts taken out for it that would lie in it.
    in_it: Vec<usize>,
}

impl Way {
    /// Out by hand, straight.
    pub(super) const fn straight(slack: f64) -> Self {
        Self {
            through: Some(0),
            passage: Passage::Out,
            slack,
            turned: 0.0,
            tipped: 0.0,
            driver_reaches: true,
            hand_reaches: true,
            in_it: Vec::new(),
        }
    }

    /// As it was found, out of reach of tools until they are asked for.
    pub(super) const fn of(carry: &Carry) -> Self {
        Self {
            through: carry.through,
            passage: match carry.verdict {
                Verdict::ComesOut => Passage::Out,
                Verdict::TooLarge => Passage::TooLarge,
                Verdict::NotFound => Passage::NotFound,
                Verdict::NoOpening => Passage::NoOpening,
            },
            slack: carry.slack,
            turned: carry.turned,
            tipped: carry.tipped,
            driver_reaches: false,
            hand_reaches: false,
            in_it: Vec::new(),
        }
    }

    pub(super) fn how(&self) -> String {
        if self.passage != Passage::Out {
            return "not at all".into();
        }
        let degrees = |angle: f64| format!("{:.0}°", angle.to_degrees());
        match (self.turned >= STRAIGHT, self.tipped >= STRAIGHT) {
            (false, false) => "straight".into(),
            (_, true) => format!("tipped {}", degrees(self.tipped)),
            (true, false) => format!("turned {}", degrees(self.turned)),
        }
    }
}

/// Ways found so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Ways {
    out: Memo<Question, Way>,
    off: Memo<Drawing, Option<f64>>,
}

/// Asks for ways in one box.
pub(super) struct Ask<'s, 'a> {
    site: &'s Site<'a>,
    among: Arc<Among>,
    nodes: usize,
}

impl<'s, 'a> Ask<'s, 'a> {
    pub(super) fn new(site: &'s Site<'a>) -> Self {
        let nodes = if site.trial { NODES_OF_TRIAL } else { NODES };
        let among = Among::of(site, site.solids.to_vec());
        Self { site, among, nodes }
    }

    /// The way through the first opening that lets a part pass; the best failure otherwise.
    pub(super) fn way(&self, moving: usize, openings: &[Opening]) -> Arc<Way> {
        self.asked(moving, openings, self.nodes)
    }

    /// The same by pushes and turns alone, which are soon tried.
    pub(super) fn simple_way(&self, moving: usize, openings: &[Opening]) -> Arc<Way> {
        self.asked(moving, openings, 0)
    }

    fn asked(&self, moving: usize, openings: &[Opening], nodes: usize) -> Arc<Way> {
        let question = question(&self.among, moving, openings, nodes);
        let ways = &self.site.ways.out;
        ways.of(question, |asked| answer((self.site.scene)(), asked))
    }

    /// The same by pushes and turns alone, among other parts than those of the list.
    pub(super) fn among(
        &self,
        among: &Arc<Among>,
        moving: usize,
        openings: &[Opening],
    ) -> Arc<Way> {
        let question = question(among, moving, openings, 0);
        self.site.ways.out.of(question, |asked| {
            answer(&(self.site.scene)().with(&among.parts), asked)
        })
    }

    /// The smallest gap around a part among others that is drawn straight off a wall; `None`
    /// where it cannot be.
    pub(super) fn drawn_off(
        &self,
        among: &Arc<Among>,
        moving: usize,
        wall: Wall,
        out: &[usize],
    ) -> Option<f64> {
        let drawing = Drawing {
            moving,
            wall,
            out: out.to_vec(),
            among: Arc::clone(among),
        };
        let found = self.site.ways.off.of(drawing, |asked| {
            let scene = (self.site.scene)().with(&among.parts);
            scene.draw_off(asked.moving, asked.wall, &asked.out)
        });
        *found
    }

    /// With as few as can be of the parts out that were out for a way; `way` asks for one. A
    /// mend that is tried leaves out whatever lies in the first way.
    pub(super) fn with_fewest_out(
        &self,
        found: Arc<Way>,
        out: Vec<usize>,
        way: impl Fn(&[usize]) -> Arc<Way>,
    ) -> (Arc<Way>, Vec<usize>) {
        let fewer = |(found, out): (Arc<Way>, Vec<usize>), keep: &dyn Fn(&usize) -> bool| {
            let fewer: Vec<usize> = out.iter().copied().filter(|part| keep(part)).collect();
            if fewer.len() == out.len() {
                return (found, out);
            }
            let this = way(&fewer);
            if this.passage == Passage::Out {
                (this, fewer)
            } else {
                (found, out)
            }
        };
        // What does not lie in the way stays in at once, then each of the others that may.
        let in_it = found.in_it.clone();
        let mut best = fewer((found, out), &|part| in_it.contains(part));
        if !self.site.trial {
            for part in best.1.clone() {
                best = fewer(best, &|other| *other != part);
            }
        }
        best
    }
}

impl Among {
    /// The box of a site with other parts in it than its own.
    pub(super) fn of(site: &Site<'_>, parts: Vec<Part>) -> Arc<Self> {
        let plan = site.body.plan.clone();
        Arc::new(Self { plan, parts })
    }
}

fn question(among: &Arc<Among>, moving: usize, openings: &[Opening], nodes: usize) -> Question {
    Question {
        moving,
        nodes,
        openings: openings.to_vec(),
        among: Arc::clone(among),
    }
}

fn answer(scene: &Scene<'_>, asked: &Question) -> Way {
    // Most parts come out by pushes and turns, and most of those where a whole wall is off,
    // which stands first; the search is for the others.
    let simple = first_way(scene, asked, 0);
    let searched = simple.verdict == Verdict::NotFound && asked.nodes > 0;
    let carry = if searched {
        first_way(scene, asked, asked.nodes)
    } else {
        simple
    };
    let opening = carry.through.map(|index| &asked.openings[index]);
    let part = asked.moving;
    let out = opening.map_or(&[][..], |way| &way.taken_out);
    let lies_in = |other: &&usize| scene.lies_in(&carry.path, part, **other);
    Way {
        in_it: out.iter().filter(lies_in).copied().collect(),
        driver_reaches: opening.is_some_and(|way| scene.screwdriver_reaches(part, way)),
        hand_reaches: opening.is_some_and(|way| scene.hand_reaches(part, way)),
        ..Way::of(&carry)
    }
}

fn first_way(scene: &Scene<'_>, asked: &Question, nodes: usize) -> Carry {
    // What was only not found tells more than what is proven too large.
    let tells = |carry: &Carry| (carry.verdict == Verdict::NotFound, carry.slack);
    let mut best = scene.carry_out(asked.moving, &[], nodes);
    for (index, opening) in asked.openings.iter().enumerate() {
        let found = scene.carry_out(asked.moving, core::slice::from_ref(opening), nodes);
        match found.verdict {
            Verdict::NoOpening => {}
            Verdict::ComesOut => {
                return Carry {
                    through: Some(index),
                    ..found
                };
            }
            Verdict::TooLarge | Verdict::NotFound => {
                if best.verdict == Verdict::NoOpening || tells(&found) > tells(&best) {
                    best = found;
                }
            }
        }
    }
    best
}
