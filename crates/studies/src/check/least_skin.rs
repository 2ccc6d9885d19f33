//! Wood that is left under steps, pockets and rounded edges.

use super::timber::{capital, listed, mm};
use super::{Candidate, Check, Evidence, Verdict, swap, things};
use crate::carpentry::{self, Carpentry};
use crate::vary::spreads;
use design::{Design, EdgeJointKind, Joints, OuterEdge, Place, Tolerance, Value};
use wood::{Edge, EdgeForm, Joint, Wall};

pub(super) const CHECK: Check = Check {
    id: "least-skin",
    title: "Wood left under rebates, pockets and rounded edges",
    what: "How much wood rebates, pockets and rounded or chamfered edges leave of their walls, against \
what bears and against the tolerance of the sheet.",
    why: "A rebate 11 mm deep in plywood of 11.8 mm leaves one veneer, which tears off before the glue \
is dry; where the sheet is half a millimetre thinner than said, the router comes through.",
    limits: "Rebates and pockets: a caution where less than a third of the wall or less than 3 mm are \
left. Rounded and chamfered edges: a caution where the bearing of the bit has less than 3 mm to run \
on. A stop where no more is left than the sheet may be thinner than stated, by its own tolerance or \
the usual one. Pilot holes of screws are left out.",
    bad: "rebate = \"11 mm\" in walls of 11.8 mm",
    good: "rebate = \"6 mm\" in the same walls",
    sources: &["common practice, no source"],
    run,
};

/// Least wood under a step or pocket, as a share of the wall and in m.
const SKIN: (f64, f64) = (1.0 / 3.0, 0.003);

/// Least flat that a bit's bearing runs on, in m.
const BEARING: f64 = 0.003;

/// What is left in one place.
struct Left {
    /// What takes the wood, in a word, and its size in m.
    what: &'static str,
    size: f64,
    /// What takes the wood, as edits name it.
    by: String,
    wall: Wall,
    left: f64,
    least: f64,
    spread: f64,
    place: Option<Place>,
    /// The key of its depth, and that depth in m.
    key: Option<(String, f64)>,
}

impl Left {
    fn is_thin(&self) -> bool {
        self.left < self.least - 1e-6
    }

    /// Whether it may come through.
    fn cuts(&self) -> bool {
        self.left <= self.spread
    }

    /// Whether the same is left under the same.
    fn is_like(&self, other: &Self) -> bool {
        let said = |of: &Self| (of.what, mm(of.size), mm(of.left));
        said(self) == said(other)
    }

    /// What is lacking as a share, most first.
    fn rank(&self) -> (bool, f64) {
        (!self.cuts(), self.left / self.least)
    }
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let design = evidence.design();
    let mut verdicts = Vec::new();
    let mut any = false;
    for all in [
        rebates(design, carpentry),
        pockets(design, carpentry),
        formed(design, carpentry),
    ] {
        any |= !all.is_empty();
        let mut thin: Vec<Left> = all.into_iter().filter(Left::is_thin).collect();
        thin.sort_by(|a, b| {
            let (a, b) = (a.rank(), b.rank());
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        });
        verdicts.extend((!thin.is_empty()).then(|| verdict(&thin)));
    }
    if any && verdicts.is_empty() {
        let cause = "Rebates, pockets and rounded edges leave enough of every wall.";
        verdicts.push(Verdict::good("Enough wood is left everywhere", cause));
    }
    verdicts
}

/// By how much a wall may be thinner than stated, in m.
fn spread(design: &Design, of: Wall) -> f64 {
    let enclosure = &design.enclosure;
    let walls = &enclosure.carpentry.walls;
    let own = walls.iter().find(|own| carpentry::wall(own.side) == of);
    let sheet = own.and_then(|own| own.sheet.as_ref());
    let measured = own.and_then(|own| own.thickness);
    let thickness = measured
        .or(sheet.map(|(sheet, _)| sheet.thickness))
        .or(enclosure.thickness)
        .unwrap_or(enclosure.wall.thickness);
    match thickness.tolerance {
        Tolerance::Within(half) => half,
        Tolerance::Unstated => spreads::THICKNESS.spread,
        // "about" is twice as wide as what is usual.
        Tolerance::About => 2.0 * spreads::THICKNESS.spread,
    }
}

fn least(thickness: f64) -> f64 {
    (SKIN.0 * thickness).max(SKIN.1)
}

fn rebates(design: &Design, carpentry: &Carpentry) -> Vec<Left> {
    let plan = &carpentry.body.plan;
    let said = &design.enclosure.carpentry;
    let of = |edge: Edge| {
        let Joint::Rebate { within, depth } = plan.joints[edge.index()] else {
            return None;
        };
        let own = said.edges.iter().enumerate().find(|(_, own)| {
            let (a, b) = own.between;
            Edge::between(carpentry::wall(a), carpentry::wall(b)) == Some(edge)
        });
        let stated = own.and_then(|(index, own)| match own.kind {
            EdgeJointKind::Rebate {
                depth: Some(depth), ..
            } => Some((format!("box.joint.{}.depth", index + 1), depth)),
            _ => None,
        });
        let stated: Option<(String, Value)> =
            stated.or_else(|| said.rebate.map(|depth| ("box.rebate".into(), depth)));
        let pattern = (said.joints.value == Joints::Rebated).then_some(said.joints.place);
        let thickness = plan.walls[within.index()].thickness;
        Some(Left {
            what: "rebate",
            size: depth,
            by: stated
                .as_ref()
                .map_or_else(|| "box".into(), |(key, _)| key.clone()),
            wall: within,
            left: thickness - depth,
            least: least(thickness),
            spread: spread(design, within),
            place: stated
                .as_ref()
                .map(|(_, depth)| depth.place)
                .or(pattern.flatten()),
            key: stated.map(|(key, depth)| (key, depth.si)),
        })
    };
    Edge::ALL.into_iter().filter_map(of).collect()
}

fn pockets(design: &Design, carpentry: &Carpentry) -> Vec<Left> {
    let plan = &carpentry.body.plan;
    let of = |(index, hole): (usize, &wood::Hole)| {
        let depth = hole.pocket.filter(|_| !hole.purpose.is_filled())?;
        let thickness = plan.walls[hole.wall.index()].thickness;
        // Deeper than its wall is told under holes-clear.
        (depth < thickness).then(|| Left {
            what: "pocket",
            size: depth,
            by: things::origin_key(&carpentry.holes[index]),
            wall: hole.wall,
            left: thickness - depth,
            least: least(thickness),
            spread: spread(design, hole.wall),
            place: carpentry.holes[index].place,
            key: None,
        })
    };
    plan.holes.iter().enumerate().filter_map(of).collect()
}

fn formed(design: &Design, carpentry: &Carpentry) -> Vec<Left> {
    let plan = &carpentry.body.plan;
    let (word, key, said) = match design.enclosure.carpentry.outer {
        None => return Vec::new(),
        Some(OuterEdge::Round(value)) => ("rounding", "box.round", value),
        Some(OuterEdge::Chamfer(value)) => ("chamfer", "box.chamfer", value),
    };
    let of = |(edge, form): &(Edge, EdgeForm)| {
        let (EdgeForm::Round(size) | EdgeForm::Chamfer(size)) = *form;
        let thickness = |of: Wall| plan.walls[of.index()].thickness;
        let thin = if thickness(edge.first) < thickness(edge.second) {
            edge.first
        } else {
            edge.second
        };
        // Larger than its wall is told under glue-line.
        (size <= thickness(thin)).then(|| Left {
            what: word,
            size,
            by: key.into(),
            wall: thin,
            left: thickness(thin) - size,
            least: BEARING,
            spread: spread(design, thin),
            place: Some(said.place),
            key: Some((key.into(), said.si)),
        })
    };
    plan.edges.iter().filter_map(of).collect()
}

/// One verdict about all places of a kind, the worst first.
fn verdict(thin: &[Left]) -> Verdict {
    let worst = &thin[0];
    let mut cause = leaves(thin);
    let cutting = thin.iter().filter(|left| left.cuts());
    let walls = walls(cutting);
    let said = if walls.is_empty() {
        Verdict::caution("Little wood is left", cause)
    } else {
        cause += &format!(
            " {} may be {} thinner than stated, and the cut then comes through.",
            capital(&listed(&walls)),
            mm(worst.spread)
        );
        Verdict::stop("A cut may come through its wall", cause)
    };
    let said = said
        .measured(1e3 * worst.left, 1e3 * worst.least, "mm")
        .advice("cut less deep, or take a thicker sheet")
        .at(worst.place)
        .mends(shallower(thin));
    thin.iter().fold(said, |said, left| {
        let things = [things::wall_key(left.wall), left.by.clone()];
        said.about(things, 1e3 * (left.least - left.left))
    })
}

/// The walls of some places, each once, as a sentence speaks of them.
fn walls<'a>(places: impl Iterator<Item = &'a Left>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for left in places {
        let name = things::wall_name(left.wall).to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// "The rebates of 10 mm in the left side and the right side leave 1.9 mm of each."
fn leaves(thin: &[Left]) -> String {
    let mut alike: Vec<Vec<&Left>> = Vec::new();
    for left in thin {
        match alike.iter_mut().find(|known| known[0].is_like(left)) {
            Some(known) => known.push(left),
            None => alike.push(vec![left]),
        }
    }
    let clause = |own: &Vec<&Left>| {
        let Left {
            what, size, left, ..
        } = own[0];
        let walls = walls(own.iter().copied());
        let (s, leave, of) = if walls.len() == 1 {
            ("", "leaves", "it")
        } else {
            ("s", "leave", "each")
        };
        format!(
            "the {what}{s} of {} in {} {leave} {} of {of}",
            mm(*size),
            listed(&walls),
            mm(*left)
        )
    };
    let clauses: Vec<String> = alike.iter().map(clause).collect();
    capital(&format!("{}.", clauses.join("; ")))
}

/// All of them less deep at once; nothing where the depth of one is not stated.
fn shallower(thin: &[Left]) -> Option<Candidate> {
    let mut keys: Vec<(&str, &Left, f64)> = Vec::new();
    for left in thin {
        let (key, now) = left.key.as_ref()?;
        let to = (1e3 * (now - (left.least - left.left)) + 1e-6).floor();
        match keys.iter_mut().find(|(known, ..)| known == key) {
            Some(known) => known.2 = known.2.min(to),
            None => keys.push((key, left, to)),
        }
    }
    let several = keys.len() > 1;
    let each = keys.iter().map(|(key, left, to)| {
        let now = mm(left.size);
        let now = now.trim_end_matches(" mm");
        let place = if several {
            format!(" in {}", things::wall_name(left.wall))
        } else {
            String::new()
        };
        let words = format!("{} {now} → {to} mm{place}", left.what);
        (*to > 0.0).then(|| Candidate::set(words, key, format!("{to} mm")))
    });
    swap::all(each.collect::<Option<Vec<_>>>()?)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_rebate_leaves_a_third_of_its_wall() {
        check(CHECK.id, &[], &[]);
        let rebate = |depth| with(&[("box.joints", "rebated"), ("box.rebate", depth)]);
        rebate("6 mm").check(CHECK.id, &[Good]);
        let found = rebate("9 mm").check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().expect("it may be shallower");
        assert_eq!(mend.edits[0].value.as_deref(), Some("7 mm"));
        let cause = &found[0].cause;
        let all = ["left", "right", "top", "bottom"];
        assert!(all.iter().all(|wall| cause.contains(wall)), "{cause}");
        assert_eq!(mend.words, "rebate 9 → 7 mm");
        let found = rebate("11.7 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].place.is_some(), "{found:#?}");
        // Measured more finely, no more than a veneer is sure to stay.
        let fine = rebate("11.7 mm").with(&[("box.thickness", "11.9 mm ± 0.05 mm")]);
        fine.check(CHECK.id, &[Caution]);
    }

    #[test]
    fn rebates_of_several_walls_are_mended_at_once() {
        let found = with(&[
            ("box.joints", "rebated"),
            ("box.joint.1.edge", "left-back"),
            ("box.joint.1.within", "left"),
            ("box.joint.1.kind", "rebate"),
            ("box.joint.1.depth", "10 mm"),
            ("box.joint.2.edge", "right-back"),
            ("box.joint.2.within", "right"),
            ("box.joint.2.kind", "rebate"),
            ("box.joint.2.depth", "10 mm"),
        ])
        .check(CHECK.id, &[Caution]);
        let both = "in the left side and the right side leave 1.9 mm of each";
        assert!(found[0].cause.contains(both), "{found:#?}");
        let mend = found[0].mend.as_ref().expect("both may be shallower");
        assert_eq!(mend.edits.len(), 2, "{mend:?}");
    }

    #[test]
    fn a_bit_needs_an_edge_to_run_on() {
        let round = |radius| with(&[("box.joints", "mitred"), ("box.round", radius)]);
        round("6 mm").check(CHECK.id, &[Good]);
        round("10 mm").check(CHECK.id, &[Caution]);
        round("11.6 mm").check(CHECK.id, &[Stop]);
    }
}
