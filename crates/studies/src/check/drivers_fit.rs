//! Frames and openings on the walls they are mounted in.

use super::box_holds::{Kind, Outgrown};
use super::resize::{self, Axis};
use super::timber::{Middle, capital, grown, listed, mm};
use super::{Candidate, Check, Evidence, Verdict, movers, swap, things, tune};
use crate::carpentry::{Carpentry, Opening, extent};
use crate::subject::SpotKind;
use physics::math::hypot;
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "drivers-fit",
    title: "Drivers on their walls",
    what: "Whether all frames and openings find room side by side on the walls they are mounted in.",
    why: "Found out after cutting, it costs the front; after gluing, the box.",
    limits: "Frames as circles. What is not placed is laid out in one row along the longer side of its \
wall, with the same gap everywhere; two rows must be placed by hand. Magnets and baskets inside are \
told under parts-collide, holes over joints under holes-clear.",
    bad: "two 6.5 in drivers on a front 300 mm wide",
    good: "two 6.5 in drivers on a front 400 mm wide and 200 mm high",
    sources: &["common practice, no source"],
    run,
};

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-6;

/// Room beyond the least when a frame is moved, in m.
const SPARE: f64 = 0.001;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some((carpentry, walls)) = evidence.carpentry.zip(faces(evidence)) else {
        return Vec::new();
    };
    let openings = openings(evidence);
    let mut verdicts = Vec::new();
    for side in Wall::ALL {
        let wrong: Vec<Clash> = clashes(openings, &walls)
            .into_iter()
            .filter(|clash| openings[clash.first].wall == side)
            .collect();
        let is_row = |clash: &Clash| clash.ends().any(|index| !openings[index].stated);
        if wrong.iter().any(is_row) {
            verdicts.push(row(evidence, carpentry, side));
            continue;
        }
        let (over, overlap): (Vec<Clash>, Vec<Clash>) =
            wrong.into_iter().partition(|clash| clash.second.is_none());
        let frames = Frames {
            evidence,
            carpentry,
            openings,
            side,
        };
        verdicts.extend((!over.is_empty()).then(|| frames.over(&over)));
        verdicts.extend((!overlap.is_empty()).then(|| frames.overlap(&overlap)));
    }
    if verdicts.is_empty() && !openings.is_empty() {
        let used = openings.iter().map(|opening| opening.wall);
        let used: Vec<String> = Wall::ALL
            .into_iter()
            .filter(|side| used.clone().any(|other| other == *side))
            .map(|side| things::wall_name(side).into())
            .collect();
        let cause = format!("Frames and openings lie side by side on {}.", listed(&used));
        verdicts.push(Verdict::good("Walls have room for every frame", cause));
    }
    verdicts.extend(unknown_depth(evidence));
    verdicts
}

fn openings<'a>(evidence: &'a Evidence<'_>) -> &'a [Opening] {
    &evidence.subject.enclosure.plan.openings
}

/// Lowest and highest corner of the outer face of each wall on its side of the block.
fn faces(evidence: &Evidence<'_>) -> Option<[[[f64; 2]; 2]; 6]> {
    let body = &evidence.carpentry?.body;
    Some(Wall::ALL.map(|side| {
        let panel = body.wall(side);
        let [u, v] = body.plan.block.frame(side).flat(panel.frame.origin);
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        for point in panel.edges.iter().flat_map(|edge| edge.outer) {
            for (axis, offset) in [u, v].into_iter().enumerate() {
                low[axis] = low[axis].min(point[axis] + offset);
                high[axis] = high[axis].max(point[axis] + offset);
            }
        }
        [low, high]
    }))
}

/// Two frames that overlap, or one that reaches over the edge of its wall.
struct Clash {
    first: usize,
    second: Option<usize>,
    /// By how much, in m.
    by: f64,
    /// How the first, or the second of two, is to be moved, in m.
    shift: [f64; 2],
}

impl Clash {
    fn ends(&self) -> impl Iterator<Item = usize> + use<> {
        [Some(self.first), self.second].into_iter().flatten()
    }
}

fn clashes(openings: &[Opening], faces: &[[[f64; 2]; 2]; 6]) -> Vec<Clash> {
    let mut found = Vec::new();
    for (index, opening) in openings.iter().enumerate() {
        let [low, high] = faces[opening.wall.index()];
        let radius = opening.diameter / 2.0;
        let shift = [0, 1].map(|axis| {
            let under = (low[axis] - (opening.at[axis] - radius)).max(0.0);
            let over = (opening.at[axis] + radius - high[axis]).max(0.0);
            under - over
        });
        let by = shift[0].abs().max(shift[1].abs());
        if by > TOUCHES {
            found.push(Clash {
                first: index,
                second: None,
                by,
                shift,
            });
        }
        for (earlier, other) in openings[..index].iter().enumerate() {
            let way = [0, 1].map(|axis| opening.at[axis] - other.at[axis]);
            let apart = hypot(way[0], way[1]);
            let by = radius + other.diameter / 2.0 - apart;
            if other.wall == opening.wall && by > TOUCHES {
                let unit = if apart > 0.0 {
                    way.map(|part| part / apart)
                } else {
                    [1.0, 0.0]
                };
                found.push(Clash {
                    first: earlier,
                    second: Some(index),
                    by,
                    shift: unit.map(|part| part * by),
                });
            }
        }
    }
    found
}

/// What is laid out in a row finds no room in it.
fn row(evidence: &Evidence<'_>, carpentry: &Carpentry, side: Wall) -> Verdict {
    let plan = &evidence.subject.enclosure.plan;
    let block = plan.hull(&crate::vary::Draw::Nominal).block;
    let [width, height] = extent(&block, side);
    let (along, across) = (width.max(height), width.min(height));
    let own: Vec<&Opening> = openings(evidence)
        .iter()
        .filter(|opening| opening.wall == side)
        .collect();
    let sum = |drivers_only: bool| -> f64 {
        let is_driver = |opening: &Opening| matches!(opening.kind, SpotKind::Driver(_));
        own.iter()
            .filter(|opening| !drivers_only || is_driver(opening))
            .map(|opening| opening.diameter)
            .sum()
    };
    let widest = own
        .iter()
        .map(|opening| opening.diameter)
        .fold(0.0, f64::max);
    let cause = format!(
        "Frames and openings in a row on {} take {} of {}, the widest {} of {}.",
        things::wall_name(side),
        mm(sum(false)),
        mm(along),
        mm(widest),
        mm(across)
    );
    let (measured, limit) = if widest >= across {
        (widest, across)
    } else {
        (sum(false), along)
    };
    let only_openings = sum(true) < along && widest < across && sum(true) > 0.0;
    let name = capital(things::wall_name(side));
    let said = if only_openings {
        Verdict::caution(format!("{name} has no room beside the drivers"), cause)
            .advice("put vent or radiator on another wall, place everything by hand, or make the box larger")
    } else {
        Verdict::stop(format!("{name} has no room for what sits in it"), cause)
            .advice("make the box larger, take smaller drivers, or place them by hand")
    };
    let axes = match side {
        Wall::Front | Wall::Back => [Axis::Width, Axis::Height],
        Wall::Left | Wall::Right => [Axis::Depth, Axis::Height],
        Wall::Top | Wall::Bottom => [Axis::Width, Axis::Depth],
    };
    let said = own.iter().fold(said, |said, opening| {
        let thing = thing(carpentry, opening);
        said.about([thing], 1e3 * (measured - limit).max(0.0))
    });
    said.measured(1e3 * measured, 1e3 * limit, "mm")
        .ladders(axes.map(|axis| resize::larger(evidence, axis)))
}

/// What is placed by hand on one wall.
struct Frames<'a> {
    evidence: &'a Evidence<'a>,
    carpentry: &'a Carpentry,
    openings: &'a [Opening],
    side: Wall,
}

impl Frames<'_> {
    fn name(&self, index: usize) -> String {
        name(self.carpentry, &self.openings[index])
    }

    /// Frames that reach over the edge of their wall.
    fn over(&self, over: &[Clash]) -> Verdict {
        let on = things::wall_name(self.side);
        let clause = |clash: &Clash| {
            let (it, by) = (self.name(clash.first), edges(clash));
            format!("{it} reaches {by}")
        };
        let clauses: Vec<String> = over.iter().map(clause).collect();
        let cause = format!("On {on}, {}.", clauses.join("; "));
        let title = match over {
            [one] => {
                let it = capital(&self.name(one.first));
                format!("{it} reaches over the edge of {on}")
            }
            _ => format!("Frames reach over the edge of {on}"),
        };
        let said = self.said(Verdict::stop(title, cause), over);
        let back: Vec<(usize, [f64; 2])> = over
            .iter()
            .map(|clash| (clash.first, clash.shift))
            .collect();
        said.advice("move it, take a smaller one, or make the box larger")
            .mends(self.moved(&back))
            .ladder(self.larger(over))
            .mends(self.smaller(over))
    }

    /// Frames that overlap.
    fn overlap(&self, overlap: &[Clash]) -> Verdict {
        let on = things::wall_name(self.side);
        let clause = |clash: &Clash| {
            let second = clash.second.unwrap_or(clash.first);
            let (it, other) = (self.name(clash.first), self.name(second));
            format!("{it} and {other} overlap by {}", mm(clash.by))
        };
        let clauses: Vec<String> = overlap.iter().map(clause).collect();
        let cause = format!("On {on}, {}.", clauses.join("; "));
        let title = match overlap {
            [one] => {
                let names: Vec<String> = one.ends().map(|index| self.name(index)).collect();
                format!("{} overlap", capital(&listed(&names)))
            }
            _ => format!("Frames overlap on {on}"),
        };
        let said = self.said(Verdict::stop(title, cause), overlap);
        let singly = match overlap {
            [clash] => self.singly(clash),
            _ => Vec::new(),
        };
        said.advice("move one of them, take a smaller one, or make the box larger")
            .mends(singly)
            .mends(self.moved(&self.spread()))
            .mends(self.narrower(overlap))
            .mends(self.smaller(overlap))
    }

    /// One of two moved off the other, by just so much and by more: vents first.
    fn singly(&self, clash: &Clash) -> Vec<Candidate> {
        let second = clash.second.unwrap_or(clash.first);
        let mut ends = [
            (second, clash.shift),
            (clash.first, clash.shift.map(|part| -part)),
        ];
        ends.sort_by_key(|(index, _)| self.openings[*index].kind != SpotKind::Vent);
        let long = hypot(clash.shift[0], clash.shift[1]).max(1e-9);
        let further = |(index, shift): (usize, [f64; 2])| {
            FURTHER.into_iter().flat_map(move |more| {
                self.moved(&[(index, shift.map(|part| part * (1.0 + more / long)))])
            })
        };
        ends.into_iter().flat_map(further).collect()
    }

    /// With what is wrong with it, and where that is written.
    fn said(&self, verdict: Verdict, wrong: &[Clash]) -> Verdict {
        let most = wrong.iter().map(|clash| clash.by).fold(0.0, f64::max);
        let last = wrong.iter().flat_map(Clash::ends).last();
        let place = last.and_then(|index| self.middle(index));
        let verdict = verdict
            .measured(-1e3 * most, 0.0, "mm")
            .at(place.map(|middle| middle.place));
        wrong.iter().fold(verdict, |verdict, clash| {
            let things = clash
                .ends()
                .map(|index| thing(self.carpentry, &self.openings[index]));
            verdict.about(things, 1e3 * clash.by)
        })
    }

    fn middle(&self, index: usize) -> Option<Middle> {
        let key = thing(self.carpentry, &self.openings[index]);
        let found = movers::middle(self.evidence.design(), self.carpentry, &key);
        found.map(|(_, middle)| middle)
    }

    /// Some of them moved, all at once, each a little further than it must.
    fn moved(&self, by: &[(usize, [f64; 2])]) -> Vec<Candidate> {
        let spare = |shift: [f64; 2]| {
            let long = hypot(shift[0], shift[1]).max(1e-9);
            shift.map(|part| part * (1.0 + SPARE / long))
        };
        let mut each = by.iter().map(|(index, shift)| {
            let middle = self.middle(*index);
            middle.map_or_else(Vec::new, |middle| middle.moved(spare(*shift)))
        });
        let Some(first) = each.next() else {
            return Vec::new();
        };
        each.fold(first, |sum, next| swap::pairs(&sum, &next))
    }

    /// How far each frame goes when all that overlap push one another apart within the wall.
    fn spread(&self) -> Vec<(usize, [f64; 2])> {
        let Some(faces) = faces(self.evidence) else {
            return Vec::new();
        };
        let mut now = self.openings.to_vec();
        for _ in 0..PUSHES {
            let wrong = clashes(&now, &faces);
            let own: Vec<&Clash> = wrong
                .iter()
                .filter(|clash| now[clash.first].wall == self.side)
                .collect();
            if own.is_empty() {
                break;
            }
            for clash in own {
                let ends = match clash.second {
                    None => vec![(clash.first, 1.0)],
                    Some(second) => vec![(second, 0.55), (clash.first, -0.55)],
                };
                for (index, share) in ends {
                    for axis in 0..2 {
                        now[index].at[axis] += share * clash.shift[axis];
                    }
                }
            }
        }
        let by = |index: usize| {
            let (from, to) = (self.openings[index].at, now[index].at);
            [to[0] - from[0], to[1] - from[1]]
        };
        (0..now.len())
            .map(|index| (index, by(index)))
            .filter(|(_, by)| hypot(by[0], by[1]) > 1e-4)
            .collect()
    }

    /// The box so much larger that places measured from the left and the bottom lie within.
    fn larger(&self, over: &[Clash]) -> Vec<Candidate> {
        grown(
            self.evidence,
            over.iter().fold([0.0; 3], |most, clash| {
                let one = along_box(self.side, clash.shift.map(|part| (-part).max(0.0)));
                [0, 1, 2].map(|axis| f64::max(most[axis], one[axis]))
            }),
        )
    }

    /// Narrower tubes where vents are at fault.
    fn narrower(&self, wrong: &[Clash]) -> Vec<Candidate> {
        let mut ends = wrong.iter().flat_map(Clash::ends);
        let vent = ends.any(|index| self.openings[index].kind == SpotKind::Vent);
        let Some(vent) = self.evidence.vent().filter(|_| vent) else {
            return Vec::new();
        };
        tune::other_tubes(self.evidence, |diameter| diameter < vent.diameter.si)
    }

    /// Smaller drivers where drivers are at fault.
    fn smaller(&self, wrong: &[Clash]) -> Vec<Candidate> {
        let kinds = wrong.iter().flat_map(Clash::ends);
        let mut groups: Vec<usize> = kinds
            .filter_map(|index| match self.openings[index].kind {
                SpotKind::Driver(group) => Some(group),
                SpotKind::Vent | SpotKind::Radiator => None,
            })
            .collect();
        groups.sort_unstable();
        groups.dedup();
        let smaller = |group| movers::smaller_drivers(self.evidence, group);
        groups.into_iter().flat_map(smaller).collect()
    }
}

/// How much further than it must one of two frames is moved, in m.
const FURTHER: [f64; 4] = [0.0, 0.006, 0.012, 0.024];

/// Frames placed by hand for which the box is too small.
pub(super) fn outgrown(evidence: &Evidence<'_>, carpentry: &Carpentry) -> Vec<Outgrown> {
    let Some(faces) = faces(evidence) else {
        return Vec::new();
    };
    let openings = openings(evidence);
    let over = clashes(openings, &faces)
        .into_iter()
        .filter(|clash| clash.second.is_none() && openings[clash.first].stated);
    over.map(|clash| {
        let opening = &openings[clash.first];
        let beyond = clash.shift.map(|part| (-part).max(0.0));
        Outgrown {
            kind: Kind::Frame,
            thing: thing(carpentry, opening),
            name: name(carpentry, opening),
            missing: along_box(opening.wall, beyond),
        }
    })
    .collect()
}

/// Rounds of pushing frames apart.
const PUSHES: usize = 60;

/// Over which edges a frame reaches and how far: "29 mm over the upper edge".
fn edges(clash: &Clash) -> String {
    let words = [["left", "right"], ["lower", "upper"]];
    let reaching = clash
        .shift
        .iter()
        .zip(words)
        .filter(|(by, _)| by.abs() > TOUCHES);
    let clauses = reaching.map(|(by, [low, high])| {
        let edge = if *by > 0.0 { low } else { high };
        format!("{} over the {edge} edge", mm(by.abs()))
    });
    listed(&clauses.collect::<Vec<_>>())
}

/// Lengths across and up a wall as lengths along x, y and z.
const fn along_box(side: Wall, [across, up]: [f64; 2]) -> [f64; 3] {
    match side {
        Wall::Front | Wall::Back => [across, 0.0, up],
        Wall::Left | Wall::Right => [0.0, across, up],
        Wall::Top | Wall::Bottom => [across, up, 0.0],
    }
}

/// The table of an opening.
fn table(opening: &Opening) -> String {
    match opening.kind {
        SpotKind::Driver(group) => format!("drivers.{}", group + 1),
        SpotKind::Vent => "box.vent".into(),
        SpotKind::Radiator => "box.radiator".into(),
    }
}

/// The key of what is at an opening.
fn thing(carpentry: &Carpentry, opening: &Opening) -> String {
    let found = things::part_of(carpentry, &table(opening), opening.index);
    found.map_or_else(
        || things::middle_key(&table(opening), opening.index),
        |index| things::key(carpentry, index),
    )
}

fn name(carpentry: &Carpentry, opening: &Opening) -> String {
    let found = things::part_of(carpentry, &table(opening), opening.index);
    found.map_or_else(|| table(opening), |index| things::name(carpentry, index))
}

/// Where no driver's depth is known, nothing can be said of what is behind it.
fn unknown_depth(evidence: &Evidence<'_>) -> Option<Verdict> {
    let groups = &evidence.design().drivers;
    let unknown = groups.iter().find(|group| group.part.depth.is_none())?;
    let cause = format!(
        "How deep {} is is not on the shelf; it is drawn half as deep as its hole is wide.",
        unknown.part.common.name.text
    );
    Some(
        Verdict::caution("Depth of a driver not known", cause)
            .advice("measure from the back of the frame to the back of the magnet and write it on the shelf as depth")
            .at(unknown.place),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, check, with};
    use super::CHECK;
    use crate::check::Severity;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn frames_stay_on_the_front() {
        check(CHECK.id, &[], &[Good]);
        let narrow = [("box.outside", "210 x 240 x 230 mm")];
        let found = with(&narrow).findings(CHECK.id);
        assert_eq!(
            found[0].severity,
            Severity::Good,
            "stands upright: {found:#?}"
        );
        let small = [("box.outside", "150 x 200 x 230 mm")];
        let found = check(CHECK.id, &small, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn openings_may_go_elsewhere() {
        let row = with(RADIATOR).with(&[
            ("box.radiator.part", "radiator 6.5 in"),
            ("box.outside", "360 x 240 x 200 mm"),
        ]);
        row.check(CHECK.id, &[Caution]);
    }
}
