//! What must stay bare, and how.

use super::model::{Bare, Mask};
use crate::carpentry::{Carpentry, Opening, wall};
use crate::subject::{SpotKind, Subject};
use crate::words;
use design::Closing;
use wood::{Outline, PanelHole, Purpose, Wall};

/// What to mask, side by side, then the wall that comes off again.
pub(super) fn list(subject: &Subject, carpentry: &Carpentry) -> Vec<Mask> {
    let site = Site {
        openings: &subject.enclosure.plan.openings,
        carpentry,
    };
    let mut masks: Vec<Mask> = Wall::ALL
        .into_iter()
        .flat_map(|wall| site.holes(wall))
        .collect();
    let said = &subject.project.design.enclosure.carpentry;
    let last = wall(said.last.value);
    if said.last_with.value == Closing::Screws {
        masks.push(Mask {
            wall: last,
            bare: Vec::new(),
            around: true,
            what: format!(
                "{}: inner rim, and the cleats it lies on",
                words::wall(last)
            ),
            how: "sealing strip sticks to bare wood only, and film on film creaks; wipe off what \
                  ran into the joint"
                .into(),
        });
    }
    masks
}

struct Site<'a> {
    openings: &'a [Opening],
    carpentry: &'a Carpentry,
}

/// How holes of one purpose are called and masked.
struct Kind {
    purposes: &'static [Purpose],
    one: &'static str,
    more: &'static str,
    how: &'static str,
    /// In place of that where the hole lies in a pocket.
    let_in: &'static str,
}

const SEAT: &str = "card behind, tape to where the frame ends: the gasket seals on bare wood";
const LET_IN: &str = "card pressed into the rebate: a thick coat lets the frame stand proud and its \
gasket stick";

const KINDS: [Kind; 6] = [
    Kind {
        purposes: &[Purpose::Driver],
        one: "hole of a driver, with its seat",
        more: "holes of drivers, with their seats",
        how: SEAT,
        let_in: LET_IN,
    },
    Kind {
        purposes: &[Purpose::Radiator],
        one: "hole of the radiator, with its seat",
        more: "holes of radiators, with their seats",
        how: SEAT,
        let_in: LET_IN,
    },
    Kind {
        purposes: &[Purpose::Vent],
        one: "mouth of the vent",
        more: "mouths of the vent",
        how: "a ball of paper: a run inside whistles",
        let_in: "a ball of paper: a run inside whistles",
    },
    Kind {
        purposes: &[Purpose::Control],
        one: "opening of the control panel",
        more: "openings of the control panel",
        how: "card behind, tape on the ledge: the plate lies there",
        let_in: "tape on the ledge: the plate lies and its screws bite there, and coats on its rim \
                 take the gap around the plate",
    },
    Kind {
        purposes: &[Purpose::Bay],
        one: "air hole of the battery's bay",
        more: "air holes of the battery's bay",
        how: "a toothpick in each: they must stay open",
        let_in: "a toothpick in each: they must stay open",
    },
    Kind {
        purposes: &[Purpose::Fastening, Purpose::Closing],
        one: "hole of a bolt or screw",
        more: "holes of bolts and screws",
        how: "a matchstick in each; turned out before the coat is hard",
        let_in: "a matchstick in each; turned out before the coat is hard",
    },
];

impl Site<'_> {
    fn holes(&self, wall: Wall) -> Vec<Mask> {
        KINDS
            .iter()
            .filter_map(|kind| self.mask(wall, kind))
            .collect()
    }

    fn mask(&self, wall: Wall, kind: &Kind) -> Option<Mask> {
        let panel = self.carpentry.body.wall(wall);
        let own: Vec<(usize, &PanelHole)> = panel
            .holes
            .iter()
            .enumerate()
            .filter(|(_, hole)| hole.purpose.is_some_and(|own| kind.purposes.contains(&own)))
            .collect();
        let let_in = own.iter().any(|(_, hole)| hole.pocket.is_some());
        let through = own.iter().filter(|(_, hole)| hole.pocket.is_none()).count();
        let what = match through.max(usize::from(let_in)) {
            0 => return None,
            1 => kind.one.to_owned(),
            count => format!("{count} {}", kind.more),
        };
        let bare = own.iter().map(|(index, hole)| Bare {
            hole: *index,
            rim: if let_in { 0.0 } else { self.rim(wall, hole) },
        });
        Some(Mask {
            wall,
            bare: bare.collect(),
            around: false,
            what,
            how: (if let_in { kind.let_in } else { kind.how }).to_owned(),
        })
    }

    /// How far what covers a hole reaches beyond it, in m.
    fn rim(&self, wall: Wall, hole: &PanelHole) -> f64 {
        let kind = match (hole.purpose, hole.outline) {
            (Some(Purpose::Control), Outline::Rectangle { width, .. }) => {
                let plate = self.carpentry.control.as_ref();
                return plate.map_or(0.0, |plate| ((plate.size[0] - width) / 2.0).max(0.0));
            }
            (Some(purpose), _) => purpose,
            (None, _) => return 0.0,
        };
        let covered = |opening: &&Opening| match opening.kind {
            SpotKind::Driver(_) => kind == Purpose::Driver,
            SpotKind::Radiator => kind == Purpose::Radiator,
            SpotKind::Vent => false,
        };
        let Outline::Circle { diameter } = hole.outline else {
            return 0.0;
        };
        let same = |opening: &&Opening| (opening.cutout - diameter).abs() < 1e-6;
        let mut own = self.openings.iter().filter(|o| o.wall == wall);
        own.find(|o| covered(o) && same(o))
            .map_or(0.0, |o| ((o.diameter - o.cutout) / 2.0).max(0.0))
    }
}
