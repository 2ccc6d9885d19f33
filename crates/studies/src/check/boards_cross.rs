//! Boards against one another, and against the walls that cut them off.

use super::outgrown;
use super::timber::{capital, listed, mm};
use super::{Candidate, Check, Evidence, Verdict, movers, resize, swap, things};
use crate::carpentry::{self, Carpentry};
use design::{BraceForm, Design, Place, Tolerance};
use wood::vector::Vector;
use wood::{BoardKind, Body, Fault, PanelId, Plan, Wall};

pub(super) const CHECK: Check = Check {
    id: "boards-cross",
    title: "Boards that meet",
    what: "Whether braces, cleats, dividers and the walls of a bay or a recess run into one another or \
into a wall, and which of them pass through one another.",
    why: "Two boards cannot stand in the same place: one of them would have to be planed thin or cut \
short, and no cut list says so. Boards that cross at an angle are another matter: they are cut \
around one another and hold each other.",
    limits: "As drawn, without tolerances. A board passes through another where it comes out of both of \
its faces; the later one in the file is then cut around the earlier. Nothing passes through the \
walls of a bay or a recess. Cleats along a wall that leans are planed to it.",
    bad: "[[brace]] parallel = \"front\" whose face lies 7 mm inside the cleats of the back",
    good: "the same brace 20 mm further forward, or a stick that passes through its window",
    sources: &["common practice, no source"],
    run,
};

/// How many places beside wood are offered, and how many beside parts.
const PLACES: usize = 3;

/// Gap to a part beside which a board is put, in m: common practice, no source.
const PART_GAP: f64 = 0.004;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let plan = &carpentry.body.plan;
    let mut found: Vec<Wrong> = bay_in_wall(evidence, carpentry).into_iter().collect();
    for fault in &carpentry.body.faults {
        let Some((tables, mover, other, by)) = meeting(carpentry, fault) else {
            continue;
        };
        let table = &tables[mover];
        match found.iter_mut().find(|wrong| wrong.table == *table) {
            Some(wrong) => {
                wrong.meets.push((other, by));
                wrong.outgrown |= matches!(fault, Fault::BoardInWall { .. });
            }
            None => {
                let board = match *fault {
                    Fault::BoardsRunIn { boards, .. } => boards[mover],
                    Fault::BoardInWall { board, .. } => board,
                    _ => continue,
                };
                found.push(Wrong {
                    board: Some(board),
                    name: name(plan, board),
                    place: carpentry.boards[board].place,
                    table: table.clone(),
                    thing: things::panel_key(carpentry, PanelId::Board(board)),
                    outgrown: matches!(fault, Fault::BoardInWall { .. }),
                    meets: vec![(other, by)],
                });
            }
        }
    }
    if found.is_empty() {
        return good(&carpentry.body);
    }
    let mut alike: Vec<Vec<&Wrong>> = Vec::new();
    for wrong in &found {
        match alike.iter_mut().find(|known| known[0].is_like(wrong)) {
            Some(known) => known.push(wrong),
            None => alike.push(vec![wrong]),
        }
    }
    alike
        .iter()
        .map(|wrong| verdict(evidence, carpentry, wrong))
        .collect()
}

/// A board and all it runs into.
struct Wrong {
    /// Index of one of its boards; a bay outside the box has none.
    board: Option<usize>,
    /// What it is called.
    name: String,
    /// Where the design speaks of it.
    place: Option<Place>,
    /// Its table, as edits name it.
    table: String,
    /// Its key.
    thing: String,
    /// Whether it reaches out of the room between the walls.
    outgrown: bool,
    /// What it runs into, and how far in m.
    meets: Vec<(String, f64)>,
}

impl Wrong {
    /// Whether two equal boards run equally far into the same: left and right are one finding.
    fn is_like(&self, other: &Self) -> bool {
        let kind = |wrong: &Self| wrong.table.split('.').next().map(str::to_owned);
        let meets = |wrong: &Self| -> Vec<(String, String)> {
            let meets = wrong.meets.iter();
            meets.map(|(name, by)| (name.clone(), mm(*by))).collect()
        };
        kind(self) == kind(other) && meets(self) == meets(other)
    }
}

/// Of two boards the tables, which of them is to move, what is in its way, and how far.
fn meeting(carpentry: &Carpentry, fault: &Fault) -> Option<(Vec<String>, usize, String, f64)> {
    let boards = &carpentry.body.plan.boards;
    let table = |board: usize| carpentry.boards[board].table.clone();
    match *fault {
        Fault::BoardsRunIn { boards: both, by } => {
            // The one that is moved with least ado; of equal ones the later.
            let rank = |board: usize| match boards[board].kind {
                BoardKind::Brace => 0,
                BoardKind::Cleat => 1,
                BoardKind::BayWall => 2,
                BoardKind::RecessWall => 3,
                BoardKind::Divider => 4,
            };
            let mover = usize::from(rank(both[1]) <= rank(both[0]));
            let other = format!("\"{}\"", boards[both[1 - mover]].name);
            Some((both.map(table).into(), mover, other, by))
        }
        Fault::BoardInWall {
            board,
            wall: into,
            by,
        } => Some((vec![table(board)], 0, things::wall_name(into).into(), by)),
        _ => None,
    }
}

/// A bay whose room reaches into a wall of the box: its own walls end there by themselves.
fn bay_in_wall(evidence: &Evidence<'_>, carpentry: &Carpentry) -> Option<Wrong> {
    let bay = evidence.design().bay.as_ref()?;
    let [right, back, top] = outgrown::bay(evidence)?;
    let meets: Vec<(String, f64)> = [(Wall::Right, right), (Wall::Top, top), (Wall::Back, back)]
        .into_iter()
        .filter(|(_, by)| *by > 0.0)
        .map(|(of, by)| (things::wall_name(of).into(), by))
        .collect();
    let mut boards = carpentry.body.plan.boards.iter();
    let board = boards.position(|board| board.kind == BoardKind::BayWall);
    (!meets.is_empty()).then(|| Wrong {
        board,
        name: "The bay".into(),
        place: Some(bay.place),
        table: "bay".into(),
        thing: "bay".into(),
        outgrown: true,
        meets,
    })
}

/// What crosses what, where any do.
fn good(body: &Body) -> Vec<Verdict> {
    let boards = &body.plan.boards;
    if boards.is_empty() {
        return Vec::new();
    }
    let crossings = body.crossings();
    let through: Vec<String> = crossings
        .iter()
        .filter(|crossing| crossing.through)
        .map(|crossing| {
            let [earlier, later] = crossing.boards.map(|board| &boards[board].name);
            format!("\"{later}\" is cut around \"{earlier}\"")
        })
        .collect();
    let cause = if through.is_empty() {
        "No board runs into another or into a wall.".into()
    } else {
        format!(
            "No board runs into another or into a wall. Where they cross, {}.",
            listed(&through)
        )
    };
    vec![Verdict::good("Boards keep clear of one another", cause)]
}

fn verdict(evidence: &Evidence<'_>, carpentry: &Carpentry, wrong: &[&Wrong]) -> Verdict {
    let names: Vec<String> = wrong.iter().map(|one| one.name.clone()).collect();
    let names = capital(&listed(&names));
    let meets: Vec<String> = wrong[0]
        .meets
        .iter()
        .map(|(other, by)| format!("{} into {other}", mm(*by)))
        .collect();
    let all = wrong.iter().flat_map(|one| &one.meets);
    let most = all.map(|(_, by)| *by).fold(0.0, f64::max);
    let (is, runs) = if wrong.len() == 1 {
        ("is", "runs")
    } else {
        ("are", "run")
    };
    let said = Verdict::stop(
        format!("{names} {is} in the way of other wood"),
        format!("{names} {runs} {}.", listed(&meets)),
    )
    .measured(-1e3 * most, 0.0, "mm")
    .advice(
        "move it or make it shorter, so that each board has its own place; where a part stands in \
that place, move the part first",
    )
    .at(wrong[0].place);
    let said = wrong.iter().fold(said, |said, one| {
        let most = one.meets.iter().map(|(_, by)| *by).fold(0.0, f64::max);
        let own = [Some(one.thing.as_str()), one.outgrown.then_some("box")];
        said.about(own.into_iter().flatten(), 1e3 * most)
    });
    let each: Vec<Vec<Candidate>> = wrong
        .iter()
        .map(|one| mends(evidence, carpentry, one))
        .collect();
    let ways = each.iter().map(Vec::len).min().unwrap_or(0);
    let together =
        (0..ways).filter_map(|way| swap::all(each.iter().map(|own| own[way].clone()).collect()));
    said.mends(together).ladders(movers::easing(evidence))
}

fn name(plan: &Plan, board: usize) -> String {
    match plan.boards[board].kind {
        BoardKind::BayWall => "The bay".into(),
        BoardKind::RecessWall => "The recess of the control panel".into(),
        _ => capital(&format!("\"{}\"", plan.boards[board].name)),
    }
}

/// The nearest places at which it is free, as edits.
fn mends(evidence: &Evidence<'_>, carpentry: &Carpentry, wrong: &Wrong) -> Vec<Candidate> {
    let design = evidence.design();
    let number = |list: &str| -> Option<usize> {
        let number: usize = wrong.table.strip_prefix(list)?.parse().ok()?;
        number.checked_sub(1)
    };
    if let Some(index) = number("cleat.") {
        return shorter(design, carpentry, wrong, index)
            .into_iter()
            .collect();
    }
    let brace = number("brace.").and_then(|index| design.braces.get(index));
    let axes: Vec<usize> = match (brace.map(|brace| &brace.form), wrong.board) {
        (Some(BraceForm::Frame { .. }), Some(board)) => {
            vec![carpentry.body.plan.boards[board].across]
        }
        (Some(BraceForm::Stick { from, .. }), _) => {
            let side = carpentry.body.plan.block.frame(carpentry::wall(*from));
            (0..3).filter(|axis| side.out[*axis].abs() < 0.5).collect()
        }
        _ => vec![0, 1, 2],
    };
    nearest(carpentry, &own(carpentry, wrong), &axes)
        .into_iter()
        .flat_map(|step| movers::moves(evidence, carpentry, &wrong.table, step))
        .collect()
}

/// Boards that stand in the same table.
fn own(carpentry: &Carpentry, wrong: &Wrong) -> Vec<usize> {
    let all = 0..carpentry.boards.len();
    all.filter(|board| carpentry.boards[*board].table == wrong.table)
        .collect()
}

/// The shortest steps along some axes, in whole millimetres, after which boards are free of
/// wood: first those up to other boards and walls, then those up to parts.
fn nearest(carpentry: &Carpentry, own: &[usize], axes: &[usize]) -> Vec<Vector> {
    let plan = &carpentry.body.plan;
    let mut low = [f64::INFINITY; 3];
    let mut high = [f64::NEG_INFINITY; 3];
    for board in own.iter().map(|board| &plan.boards[*board]) {
        for axis in 0..3 {
            low[axis] = low[axis].min(board.low[axis]);
            high[axis] = high[axis].max(board.high[axis]);
        }
    }
    if own.is_empty() {
        return Vec::new();
    }
    let [room_low, room_high] = carpentry.body.room.bounds();
    let others = (0..plan.boards.len()).filter(|board| !own.contains(board));
    let others: Vec<usize> = others.collect();
    let whole = |axis: usize, step: f64| {
        // A hair less than a whole millimetre more is that millimetre.
        let mut by = [0.0; 3];
        by[axis] = ((1e3 * step.abs() - 1e-3).ceil() / 1e3).copysign(step);
        by
    };
    let parts = carpentry.parts.iter();
    let parts: Vec<(Vector, Vector)> = parts
        .map(|part| part.part.shape.bounds(&part.part.pose))
        .collect();
    let (mut steps, mut clear): (Vec<Vector>, Vec<Vector>) = Default::default();
    for axis in axes {
        let beside = others.iter().flat_map(|board| {
            let other = &plan.boards[*board];
            [
                other.low[*axis] - high[*axis],
                other.high[*axis] - low[*axis],
            ]
        });
        let walls = [room_low[*axis] - low[*axis], room_high[*axis] - high[*axis]];
        steps.extend(beside.chain(walls).map(|step| whole(*axis, step)));
        let off = parts.iter().flat_map(|(from, to)| {
            [
                from[*axis] - high[*axis] - PART_GAP,
                to[*axis] - low[*axis] + PART_GAP,
            ]
        });
        clear.extend(off.map(|step| whole(*axis, step)));
    }
    let free = |step: &Vector| {
        let mut moved = plan.clone();
        for board in own {
            let board = &mut moved.boards[*board];
            board.low = wood::vector::add(board.low, *step);
            board.high = wood::vector::add(board.high, *step);
        }
        is_free(&moved, own)
    };
    let shortest = |mut steps: Vec<Vector>| -> Vec<Vector> {
        steps.retain(|step| wood::vector::length(*step) > 5e-4);
        steps.sort_by(|a, b| wood::vector::length(*a).total_cmp(&wood::vector::length(*b)));
        steps.dedup();
        steps.into_iter().filter(free).take(PLACES).collect()
    };
    let mut found = shortest(steps);
    found.extend(shortest(clear));
    found
}

/// Whether nothing is wrong with some boards of a plan.
fn is_free(plan: &Plan, own: &[usize]) -> bool {
    let Ok(body) = Body::new(plan) else {
        return false;
    };
    !body.faults.iter().any(|fault| match fault {
        Fault::BoardsRunIn { boards, .. } => boards.iter().any(|board| own.contains(board)),
        Fault::BoardInWall { board, .. }
        | Fault::BoardOff { board, .. }
        | Fault::NoBoard { board }
        | Fault::Window { board, .. } => own.contains(board),
        Fault::HoleBlocked {
            by: wood::PanelId::Board(board),
            ..
        } => own.contains(board),
        _ => false,
    })
}

/// A cleat cut so short that it ends before what it runs into.
fn shorter(
    design: &Design,
    carpentry: &Carpentry,
    wrong: &Wrong,
    index: usize,
) -> Option<Candidate> {
    let said = design.cleats.get(index)?;
    let plan = &carpentry.body.plan;
    let own = wrong.board?;
    let cleat = &plan.boards[own];
    let [room_low, room_high] = carpentry.body.room.bounds();
    let longest = (0..3).max_by(|a, b| {
        let long = |axis: usize| cleat.high[axis] - cleat.low[axis];
        long(*a).total_cmp(&long(*b))
    })?;
    let ends = [
        cleat.low[longest].max(room_low[longest]),
        cleat.high[longest].min(room_high[longest]),
    ];
    let now = ends[1] - ends[0];
    let middle = (room_low[longest] + room_high[longest]) / 2.0;
    let mut half = (now / 2.0).min((room_high[longest] - room_low[longest]) / 2.0);
    for fault in &carpentry.body.faults {
        let Fault::BoardsRunIn { boards, .. } = fault else {
            continue;
        };
        let Some(other) = boards
            .iter()
            .position(|board| *board == own)
            .map(|at| &plan.boards[boards[1 - at]])
        else {
            continue;
        };
        let room = (other.low[longest] - middle).max(middle - other.high[longest]);
        half = half.min(room);
    }
    let to = (2e3 * half + 1e-3).floor() / 1e3;
    let name = &said.name.text;
    let stated = said.length.map_or(now, |length| length.si);
    let words = format!("{name} {} → {} long", mm(stated), mm(to));
    let key = format!("cleat.{}.length", index + 1);
    let text = resize::lengths(&[to], Tolerance::Unstated);
    (to > 0.0 && to < now - 5e-4).then(|| Candidate::set(words, &key, text))
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    const CLEATS: &[(&str, &str)] = &[
        ("cleat.1.name", "cleat above the back"),
        ("cleat.1.along", "top-back"),
        ("cleat.1.section", "15 x 15 mm"),
        ("cleat.2.name", "cleat below the back"),
        ("cleat.2.along", "bottom-back"),
        ("cleat.2.section", "15 x 15 mm"),
    ];

    fn brace(at: &str) -> Probe {
        with(CLEATS).with(&[
            ("brace.1.name", "across"),
            ("brace.1.parallel", "front"),
            ("brace.1.at", at),
            ("brace.1.window", "330 x 170 mm"),
        ])
    }

    #[test]
    fn a_brace_within_cleats_or_walls_is_a_stop_that_moving_mends() {
        check(CHECK.id, &[], &[]);
        // 176 mm inside, 161 mm up to the cleats, 12 mm of brace.
        brace("149 mm").check(CHECK.id, &[Good]);
        let found = brace("152 mm").check(CHECK.id, &[Stop]);
        assert!(
            found[0].cause.contains("cleat above the back"),
            "{found:#?}"
        );
        assert!(
            found[0].cause.contains("cleat below the back"),
            "{found:#?}"
        );
        assert!(
            found[0].measured.is_some_and(|by| (by + 3.0).abs() < 0.31),
            "{found:#?}"
        );
        assert!(found[0].place.is_some(), "{found:#?}");
        let mend = found[0].mend.as_ref().expect("there is room");
        assert_eq!(mend.edits[0].value.as_deref(), Some("149 mm"));
        let found = brace("170 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("the back"), "{found:#?}");
    }

    /// A battery that stands before the cleats leaves no room beside them: the brace goes before
    /// it, 4 mm off.
    #[test]
    fn a_brace_goes_past_a_battery_that_is_in_its_way() {
        let found = brace("152 mm")
            .with(&[("battery.at", "40 x 18 x 100 mm")])
            .check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().expect("there is room before it");
        assert_eq!(mend.edits[0].value.as_deref(), Some("84 mm"));
    }

    #[test]
    fn cleats_that_meet_are_cut_short() {
        let left = |length| {
            with(CLEATS).with(&[
                ("cleat.3.name", "cleat left of the back"),
                ("cleat.3.along", "left-back"),
                ("cleat.3.section", "15 x 15 mm"),
                ("cleat.3.length", length),
            ])
        };
        left("180 mm").check(CHECK.id, &[Good]);
        let found = left("200 mm").check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().expect("it is too long");
        assert_eq!(mend.edits[0].value.as_deref(), Some("186 mm"));
        // As the file says it, not as the walls clip it.
        let mend = left("230 mm").check(CHECK.id, &[Stop])[0].mend.clone();
        let words = mend.expect("it is too long").words;
        assert!(words.contains("230 mm → 186 mm"), "{words}");
        // Both 7 mm too long at either end, or each by its own measure.
        let right = |length| {
            left("200 mm").with(&[
                ("cleat.4.name", "cleat right of the back"),
                ("cleat.4.along", "right-back"),
                ("cleat.4.section", "15 x 15 mm"),
                ("cleat.4.length", length),
            ])
        };
        right("200 mm").check(CHECK.id, &[Stop]);
        right("196 mm").check(CHECK.id, &[Stop, Stop]);
    }

    #[test]
    fn braces_that_cross_are_said() {
        let both = brace("120 mm").with(&[
            ("brace.2.name", "upright"),
            ("brace.2.parallel", "left"),
            ("brace.2.at", "180 mm"),
        ]);
        let found = both.check(CHECK.id, &[Good]);
        assert!(
            found[0]
                .cause
                .contains("\"upright\" is cut around \"across\""),
            "{found:#?}"
        );
    }

    #[test]
    fn a_bay_in_the_back_is_moved_out_of_it() {
        let bay = |at| {
            with(&[
                ("battery.vented_bay", "true"),
                ("bay.inside", "110 x 90 x 90 mm"),
                ("bay.at", at),
                ("bay.opens", "back"),
                ("bay.hole", "12 mm"),
                ("bay.holes", "4"),
            ])
        };
        bay("0 x 0 x 86 mm").check(CHECK.id, &[Good]);
        let found = bay("0 x 0 x 96 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("into the back"), "{found:#?}");
    }
}
