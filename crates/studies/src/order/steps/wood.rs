//! From the sheet to a glued box: sawing, drilling, dry fit, glue.

use super::Site;
use crate::carpentry::{DrillLine, GlueStep, Passage};
use crate::order::draft::{Draft, Drafts};
use crate::order::model::{Why, Work};
use crate::order::times;
use crate::words;
use design::{Closing, Glue};
use wood::{Board, PanelId, Purpose};

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>) {
    saw(drafts, site);
    drill(drafts, site);
    dry_fit(drafts, site);
    glue(drafts, site);
    seal(drafts, site);
}

fn saw(drafts: &mut Drafts, site: &Site<'_>) {
    let carpentry = site.carpentry;
    if let Some(ring) = &carpentry.ring {
        let draft = Draft::new(Work::Wood, "Test ring of offcuts", times::TEST_RING)
            .say(format!(
                "four offcuts {} mm long, all ends mitred with the blade as set: the fourth corner \
must close within {:.1} mm",
                (1e3 * ring.test_length).round(),
                1e3 * ring.test_gap
            ))
            .say("set the blade and cut a new ring until it does; no panel is cut before")
            .with(["saw", "masking tape", "rule"]);
        drafts.add("test-ring", draft);
    }
    let pieces: usize = carpentry.sheets.iter().map(|plan| plan.blanks.len()).sum();
    let sheets = carpentry.sheets.len();
    let mut draft = Draft::new(
        Work::Wood,
        "Saw the panels",
        sheets as f64 * times::SHEET + pieces as f64 * times::PIECE,
    );
    for plan in &carpentry.sheets {
        let count = plan.blanks.len();
        let pieces = if count == 1 { "piece" } else { "pieces" };
        draft = draft.say(format!(
            "{}: {count} {pieces}, cut by cut as the sheet shows",
            plan.sheet
        ));
    }
    let draft = draft
        .say("mark letter, outer face and lower edge on each; opposite ones against one stop")
        .with(["saw", "rule", "square", "pencil"]);
    drafts.add("saw", draft);
    let edges = carpentry.body.panels.iter().flat_map(|panel| &panel.edges);
    let worked = edges
        .filter(|edge| edge.step.is_some() || edge.tilt.abs() > 1e-4)
        .count();
    if worked > 0 {
        let draft = Draft::new(
            Work::Wood,
            "Mitre and rebate the edges",
            worked as f64 * times::EDGE,
        )
        .say(format!(
            "{worked} edges, as the cut list says; offcuts first"
        ))
        .with(["saw", "router", "square"]);
        drafts.add("edges", draft);
    }
    drafts.after("saw", ["test-ring"], Why::Test);
    drafts.after("edges", ["saw", "test-ring"], Why::Work);
}

/// Hands-on time of some holes.
fn time_of(lines: &[&DrillLine]) -> f64 {
    let one = |line: &&DrillLine| {
        if line.tool.starts_with("drill") {
            times::DRILLED
        } else {
            times::CUT_OUT
        }
    };
    lines.iter().map(one).sum()
}

fn tools_of(lines: &[&DrillLine]) -> Vec<String> {
    let mut tools: Vec<String> = Vec::new();
    for line in lines {
        let tool = line.tool.split([',', ';']).next().unwrap_or_default();
        if !tools.iter().any(|known| known == tool) {
            tools.push(tool.to_owned());
        }
    }
    tools
}

fn drill(drafts: &mut Drafts, site: &Site<'_>) {
    let last = site.last;
    let closing = |line: &DrillLine| purpose(site, line) == Some(Purpose::Closing);
    let lines: Vec<&DrillLine> = site.carpentry.drilling.iter().collect();
    let own = |takes: &dyn Fn(&DrillLine) -> bool| -> Vec<&DrillLine> {
        let open = lines.iter().copied().filter(|line| !closing(line));
        open.filter(|line| takes(line)).collect()
    };
    let on_last = |line: &DrillLine| site.screwed && line.panel == PanelId::Wall(last);
    let before = own(&|line| line.before.is_some() && !on_last(line));
    let flat = own(&|line| line.before.is_none() && !on_last(line));
    let loose = own(&on_last);
    if !before.is_empty() {
        let mut why: Vec<&str> = Vec::new();
        for line in &before {
            let reason = line.before.as_deref().unwrap_or_default();
            if !why.contains(&reason) {
                why.push(reason);
            }
        }
        let draft = Draft::new(Work::Wood, "Holes that must come first", time_of(&before))
            .say(format!("{}: {}", holes(before.len()), why.join("; ")))
            .with(tools_of(&before));
        drafts.add("drill-before", draft);
    }
    if !flat.is_empty() {
        let draft = Draft::new(Work::Wood, "The other holes", time_of(&flat))
            .say(format!(
                "{}: easier while the panels lie flat on scrap wood",
                holes(flat.len())
            ))
            .with(tools_of(&flat));
        drafts.add("drill-flat", draft);
    }
    if !loose.is_empty() {
        let name = words::wall(last);
        let draft = Draft::new(Work::Wood, format!("Holes in the {name}"), time_of(&loose))
            .say(format!(
                "{}: it comes off again, so this can be done while glue dries",
                holes(loose.len())
            ))
            .with(tools_of(&loose));
        drafts.add("drill-last", draft);
    }
    for id in ["drill-before", "drill-flat", "drill-last"] {
        drafts.after(id, ["saw", "edges"], Why::Work);
    }
}

fn purpose(site: &Site<'_>, line: &DrillLine) -> Option<Purpose> {
    let panel = site.carpentry.body.panel(line.panel)?;
    panel.holes.get(line.hole)?.purpose
}

fn holes(count: usize) -> String {
    match count {
        1 => "1 hole".into(),
        count => format!("{count} holes"),
    }
}

fn dry_fit(drafts: &mut Drafts, site: &Site<'_>) {
    let glue_up = &site.carpentry.glue_up;
    let mut draft = Draft::new(Work::Wood, "Dry fit", times::DRY_FIT)
        .say("the whole box with every clamp, no glue; rehearse the order of gluing")
        .say(format!(
            "both diagonals of the opening read {:.1} mm and differ by no more than {:.1} mm",
            1e3 * glue_up.diagonal,
            1e3 * glue_up.diagonal_within
        ));
    for line in &site.carpentry.access {
        match line.passage {
            Passage::NotFound => {
                draft = draft.say(format!(
                    "try {}: no way out was found on paper, the box in hand decides",
                    line.label
                ));
            }
            Passage::Out if line.slack < CLOSE_CALL => {
                draft = draft.say(format!(
                    "pass {} through {}: {:.1} mm to spare",
                    line.label,
                    line.through.as_deref().unwrap_or("its opening"),
                    1e3 * line.slack.max(0.0)
                ));
            }
            _ => {}
        }
    }
    drafts.add("dry-fit", draft.with(["clamps", "strap", "rule", "square"]));
    let before = ["saw", "edges", "drill-before", "drill-flat"];
    drafts.after("dry-fit", before, Why::Work);
}

/// A way that leaves less room is tried before glue makes it final, in m: common practice, no
/// source.
const CLOSE_CALL: f64 = 0.005;

fn glue(drafts: &mut Drafts, site: &Site<'_>) {
    let said = &site.design.glue;
    let clamped = said
        .clamp_time
        .map_or(Glue::USUAL.clamp_time, |time| time.si);
    let boards = &site.carpentry.body.plan.boards;
    let board_of = |step: &GlueStep| -> Option<usize> {
        let name = step.words.split(':').next()?.to_lowercase();
        boards
            .iter()
            .position(|board| board.name.to_lowercase() == name)
    };
    let mut glued: Vec<(String, Option<usize>)> = Vec::new();
    let steps = site.carpentry.glue_up.steps.iter();
    let steps: Vec<&GlueStep> = steps.filter(|step| step.joints > 0).collect();
    for (index, step) in steps.iter().enumerate() {
        let closes = !site.screwed && index + 1 == steps.len();
        let id = if closes {
            "close".to_owned()
        } else {
            format!("glue-{:02}", index + 1)
        };
        let (title, rest) = step.words.split_once(": ").unwrap_or((&step.words, ""));
        let draft = Draft::new(
            Work::Wood,
            format!("Glue: {}", lower(title)),
            step.time + times::CLAMPS,
        )
        .say(rest)
        .wait(clamped, "the glue in its clamps")
        .with(["wood glue", "brush", "clamps", "strap", "damp cloth"]);
        drafts.add(&id, draft);
        drafts.after(&id, ["dry-fit"], Why::Work);
        let board = board_of(step);
        for (earlier, other) in &glued {
            let joined = match (board, other) {
                (Some(a), Some(b)) => closes || touch(&boards[a], &boards[*b]),
                _ => true,
            };
            if joined {
                drafts.after(&id, [earlier.as_str()], Why::Joint);
            }
        }
        glued.push((id, board));
    }
}

fn lower(title: &str) -> String {
    let mut letters = title.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

fn touch(a: &Board, b: &Board) -> bool {
    const TOUCH: f64 = 1e-6;
    (0..3).all(|axis| a.low[axis] < b.high[axis] + TOUCH && b.low[axis] < a.high[axis] + TOUCH)
}

fn seal(drafts: &mut Drafts, site: &Site<'_>) {
    let inner = drafts.like("glue-");
    let inner: Vec<&str> = inner.iter().map(String::as_str).collect();
    let draft = Draft::new(Work::Wood, "Seal the inner joints", times::FILLET)
        .say(
            "a fillet of glue along every inner joint, braces and cleats as well: the box must be \
airtight, and what is loose rattles",
        )
        .wait(times::GLUE_CURES, "the glue to gain its strength")
        .with(["wood glue", "damp cloth", "lamp"]);
    drafts.add("seal", draft);
    drafts.after("seal", inner.iter().copied(), Why::Drying);
    // A wall glued on last hides the joints that are sealed.
    drafts.after("close", ["seal"], Why::Access);
    let vents = site.count(crate::carpentry::PartKind::Vent);
    if vents > 0 {
        let draft = Draft::new(Work::Wood, "Vent tubes", vents as f64 * times::VENT)
            .say(
                "cut to length, ends rounded, glued in airtight; nothing within a tube's width of \
the inner mouth",
            )
            .wait(times::SEALANT_SETS, "the sealant")
            .with(["fine saw", "sandpaper", "sealant"]);
        drafts.add("vents", draft);
        drafts.after(
            "vents",
            ["saw", "edges", "drill-before", "drill-flat", "drill-last"],
            Why::Work,
        );
        drafts.after("vents", inner, Why::Joint);
        drafts.after("close", ["vents"], Why::Access);
    }
    let formed = site.carpentry.body.plan.edges.len();
    let outside: Vec<String> = drafts
        .like("glue-")
        .into_iter()
        .chain(["close".to_owned()])
        .collect();
    if formed > 0 {
        let hold = if site.screwed {
            "with the last wall clamped on dry; go around against the turn of the bit"
        } else {
            "go around against the turn of the bit, in two passes"
        };
        let draft = Draft::new(
            Work::Wood,
            "Round the outer edges",
            formed as f64 * times::FORMED_EDGE,
        )
        .say(format!("{formed} edges: {hold}"))
        .with(["router", "bearing bit", "sandpaper"]);
        drafts.add("round", draft);
        drafts.after("round", outside.iter().map(String::as_str), Why::Drying);
        drafts.after("round", ["seal"], Why::Drying);
    }
    pilots(drafts, site);
}

/// Pilot holes of a wall that is screwed on.
fn pilots(drafts: &mut Drafts, site: &Site<'_>) {
    if site.design.enclosure.carpentry.last_with.value != Closing::Screws {
        return;
    }
    let holes = site.carpentry.body.wall(site.last).holes.iter();
    let screws = holes
        .filter(|hole| hole.purpose == Some(Purpose::Closing))
        .count();
    if screws == 0 {
        return;
    }
    let steps = site.carpentry.glue_up.steps.iter();
    let said = steps
        .filter(|step| step.joints == 0)
        .map(|step| step.words.as_str());
    let mut draft = Draft::new(
        Work::Wood,
        format!("Screw the {} on dry", words::wall(site.last)),
        screws as f64 * times::PILOT + times::DRILLED,
    );
    for said in said {
        draft = draft.say(said);
    }
    let draft = draft
        .say("mark which way it goes, then take it off again")
        .with(["drill", "screwdriver", "clamps"]);
    drafts.add("pilots", draft);
    let glued = drafts.like("glue-");
    drafts.after("pilots", glued.iter().map(String::as_str), Why::Drying);
    drafts.after("pilots", ["drill-last"], Why::Work);
    drafts.after("round", ["pilots"], Why::Work);
}
