//! Whether a battery's bay is really open to the outside.

use super::things::wall_name;
use super::timber::mm;
use super::{Candidate, Check, Edit, Evidence, Verdict, resize};
use crate::carpentry::{self, Carpentry, PartKind, PlacedPart};
use crate::words::wall;
use core::f64::consts::FRAC_PI_4;
use design::{Bay, Chemistry, Tolerance};
use wood::{BoardKind, Wall};

pub(super) const CHECK: Check = Check {
    id: "battery-bay",
    title: "Openings of the battery's bay",
    what: "Whether the bay of a lead-acid battery that is charged in the box is drawn, holds the \
battery, lies at the wall that its holes go through, and has holes enough to the outside.",
    why: "A bay that is only meant to be open collects hydrogen like the box around it.",
    limits: "At least two holes, and for each of inlet and outlet 28 cm² for every m³/h of air, the air \
being 0.05 m³/h for every ampere of gassing: 8 mA per Ah and cell while boost charging (from \
memory, after the usual rule for stationary batteries). A lower bound; the battery maker's sheet \
and local codes come first.",
    bad: "vented_bay = true without a [bay], or with a single hole of 6 mm",
    good: "[bay] with six holes of 12 mm through the back",
    sources: &["common practice, no source"],
    run,
};

/// Air per ampere of gassing, m³/h; gassing per Ah and cell, A; opening per m³/h, m². From memory.
const AIR: f64 = 0.05;
const GASSING: f64 = 0.008;
const OPENING: f64 = 28e-4;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let battery = &evidence.design().battery;
    let lead = battery.part.chemistry.value == Chemistry::LeadAcid;
    if !lead || !battery.charged_inside.value || !battery.vented_bay.value {
        return Vec::new();
    }
    let Some(bay) = &evidence.design().bay else {
        let cause = "The design says that the battery has a bay open to the outside, but draws none: \
neither its walls nor its holes are in the cut list.";
        return vec![
            Verdict::caution("The battery's bay is not drawn", cause)
                .advice("add a [bay] with its size, its place, and its holes")
                .at(battery.vented_bay.place)
                .mends(bays(evidence)),
        ];
    };
    let (cells, capacity) = cells_and_capacity(evidence);
    let misplaced = evidence
        .carpentry
        .and_then(|carpentry| shut(bay, carpentry).or_else(|| outside(evidence, bay, carpentry)));
    vec![misplaced.unwrap_or_else(|| verdict(bay, cells, capacity))]
}

/// A bay whose holes go through a wall that it does not reach: between the two stands a wall
/// of its own.
fn shut(bay: &Bay, carpentry: &Carpentry) -> Option<Verdict> {
    let boards = &carpentry.body.plan.boards;
    let has_own = |at: Wall| {
        let own = format!("bay, {}", wall(at));
        let mut boards = boards.iter();
        boards.any(|board| board.kind == BoardKind::BayWall && board.name == own)
    };
    let opens = carpentry::wall(bay.opens.value);
    has_own(opens).then(|| {
        let others = Wall::ALL.into_iter().filter(|other| !has_own(*other));
        let mends = others.filter(|other| *other != Wall::Bottom).map(|other| {
            let name = wall(other);
            let words = format!("the bay opens through {}", wall_name(other));
            Candidate::set(words, "bay.opens", name)
        });
        let name = wall_name(opens);
        let cause = format!(
            "Its holes go through {name}, but the bay does not reach that far: they open the \
speaker's own air, and the battery's gas has no way out."
        );
        Verdict::stop(
            "The battery's bay does not lie at the wall with its holes",
            cause,
        )
        .advice(format!(
            "let it open through a wall it lies at, or move it to {name}"
        ))
        .at(bay.opens.place.or(Some(bay.place)))
        .mends(mends)
    })
}

/// How far a battery may stand out of the room of its bay, in m: rounding.
const OUT: f64 = 1e-4;

/// A battery that does not stand in its bay.
fn outside(evidence: &Evidence<'_>, bay: &Bay, carpentry: &Carpentry) -> Option<Verdict> {
    let [origin, _] = carpentry.body.room.bounds();
    let [right, up, back] = bay.at.map(|value| value.si);
    let size = [bay.size.width.si, bay.size.depth.si, bay.size.height.si];
    let low = wood::vector::add(origin, [right, back, up]);
    let is_in = |part: &PlacedPart| {
        let (from, to) = part.part.shape.bounds(&part.part.pose);
        (0..3).all(|i| from[i] >= low[i] - OUT && to[i] <= low[i] + size[i] + OUT)
    };
    let mut batteries = carpentry.parts.iter();
    let is_out = |part: &&PlacedPart| part.kind == PartKind::Battery && !is_in(part);
    batteries.find(is_out).map(|part| {
        let cause = "It is charged in the box, and its gas does not come into the bay that is \
made for it.";
        let stated = evidence.design().battery.placement.at.is_some();
        let found = Candidate::new(
            "let the program put the battery into its bay",
            vec![Edit::remove("battery.at")],
        );
        Verdict::stop("The battery does not stand in its bay", cause)
            .advice("put it into its bay, or make the bay where it stands")
            .at(Some(part.place))
            .mends(stated.then_some(found))
    })
}

/// Area of all holes together that a battery wants, in m².
fn wanted(cells: f64, capacity: f64) -> f64 {
    2.0 * OPENING * AIR * cells * capacity * GASSING
}

/// A battery's cells and capacity in Ah, equal ones in parallel.
fn cells_and_capacity(evidence: &Evidence<'_>) -> (f64, f64) {
    let battery = &evidence.design().battery;
    let capacity = battery.part.capacity.si / 3600.0 * f64::from(battery.count);
    (f64::from(battery.part.cells), capacity)
}

fn verdict(bay: &Bay, cells: f64, capacity: f64) -> Verdict {
    let wanted = wanted(cells, capacity);
    let one = FRAC_PI_4 * bay.hole.si * bay.hole.si;
    let area = one * f64::from(bay.holes);
    let cause = format!(
        "{} of {} open {:.1} cm² to the outside; {:.1} cm² in two holes at least are wanted for \
{capacity:.0} Ah in {cells:.0} cells.",
        holes(bay.holes),
        mm(bay.hole.si),
        1e4 * area,
        1e4 * wanted
    );
    let numbers = |said: Verdict| said.measured(1e4 * area, 1e4 * wanted, "cm²");
    if area >= wanted && bay.holes >= 2 {
        return numbers(Verdict::good("The battery's bay breathes", cause));
    }
    let enough = (wanted / one).ceil().max(2.0);
    let more = Candidate::set(
        format!("{} → {}", holes(bay.holes), holes(enough as u32)),
        "bay.holes",
        format!("{enough:.0}"),
    );
    numbers(
        Verdict::stop("The battery's bay is all but closed", cause)
            .advice("drill more or larger holes, low and high"),
    )
    .at(bay.place)
    .mends([more])
}

/// Diameter of the holes of a bay that is offered, in m; room around the battery in it, in m.
const HOLE: f64 = 0.012;
const ROOM: f64 = 0.010;

/// Bays for the battery as it stands, on the floor at the back: in the middle, left, right.
pub(super) fn bays(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let battery = &evidence.design().battery;
    let Some(size) = battery
        .part
        .size
        .filter(|_| evidence.design().bay.is_none())
    else {
        return Vec::new();
    };
    let [width, _, depth] = evidence.build.enclosure.inside;
    let whole = |length: f64| (1e3 * length).ceil() / 1e3;
    let own = [
        whole(f64::from(battery.count) * size.width.si + 2.0 * ROOM),
        whole(size.height.si + 2.0 * ROOM),
        whole(size.depth.si + 2.0 * ROOM),
    ];
    let (cells, capacity) = cells_and_capacity(evidence);
    let holes = (wanted(cells, capacity) / (FRAC_PI_4 * HOLE * HOLE)).ceil();
    let text = |lengths: [f64; 3]| resize::lengths(&lengths, Tolerance::Unstated);
    let down = |length: f64| (1e3 * length).floor() / 1e3;
    let back = down(depth - own[2]);
    [0.5, 0.0, 1.0]
        .into_iter()
        .map(|share| down((width - own[0]) * share))
        .filter(|right| *right >= 0.0 && back >= 0.0)
        .map(|right| {
            let mut edits = vec![
                Edit::set("battery.vented_bay", "true"),
                Edit::set("bay.inside", text(own)),
                Edit::set("bay.at", text([right, 0.0, back])),
                Edit::set("bay.hole", mm(HOLE)),
                Edit::set("bay.holes", format!("{:.0}", holes.max(2.0))),
            ];
            if battery.placement.at.is_some() {
                edits.push(Edit::remove("battery.at"));
            }
            Candidate::new("give the battery a bay open to the back", edits)
        })
        .collect()
}

fn holes(count: u32) -> String {
    match count {
        1 => "1 hole".into(),
        count => format!("{count} holes"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::with;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_bay_is_drawn_and_has_holes_enough() {
        let lead = with(&[
            ("battery.part", "lead-acid 12 V 7 Ah"),
            ("battery.charged_inside", "true"),
        ]);
        lead.check(CHECK.id, &[]);
        let said = lead.with(&[("battery.vented_bay", "true")]);
        let found = said.check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        let keys: Vec<&str> = mend.edits.iter().map(|edit| edit.key.as_str()).collect();
        assert!(keys.contains(&"bay.inside"), "{mend:?}");
        let bay = said.with(&[
            ("bay.inside", "160 x 110 x 75 mm"),
            ("bay.at", "108 x 0 x 101 mm"),
            ("bay.hole", "5 mm"),
            ("bay.holes", "1"),
        ]);
        // 7 Ah in 6 cells gas 0.34 A: 0.017 m³/h of air, 0.47 cm² in and as much out.
        let found = bay.check(CHECK.id, &[Stop]);
        assert!((found[0].limit.unwrap() - 0.94).abs() < 0.01, "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].value.as_deref(), Some("5"));
        let breathes = bay.with(&[("bay.holes", "5")]);
        breathes.check(CHECK.id, &[Good]);
        // It stands on the floor at the back: the right side is far.
        let found = breathes
            .clone()
            .with(&[("bay.opens", "right")])
            .check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().expect("it lies at the back");
        assert_eq!(mend.edits[0].value.as_deref(), Some("back"), "{found:#?}");
        let beside = [("battery.at", "0 x 0 x 0 mm")];
        let found = breathes.with(&beside).check(CHECK.id, &[Stop]);
        assert!(
            found[0].title.contains("does not stand in its bay"),
            "{found:#?}"
        );
    }
}
