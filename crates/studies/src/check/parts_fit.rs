//! Parts whose place is left to be found.

use super::timber::{capital, larger_along, mm, the};
use super::{Check, Evidence, Verdict, swap, things};
use crate::carpentry::{Carpentry, GapLine, PartKind, PlacedPart};

pub(super) const CHECK: Check = Check {
    id: "parts-fit",
    title: "Battery and board inside",
    what: "Whether battery, board and whatever else nobody placed find room behind, beside or above \
what is in the box already.",
    why: "Litres may suffice where no single space does: a battery stands in the way of a magnet.",
    limits: "Each part in any upright or lying position, the heaviest first, low and in the middle. The \
search is good but not complete: a clever maker may find a place that it does not, and can state \
it with at. Whether parts come out again is told under comes-out.",
    bad: "a 151 x 98 x 98 mm battery in a box 120 mm deep inside, behind two drivers 60 mm deep",
    good: "the same battery in a box 180 mm deep inside",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let loose = |part: &PlacedPart| part.found && part.part.sits_in.is_none();
    let mut verdicts: Vec<Verdict> = Vec::new();
    let mut told: Vec<&str> = Vec::new();
    for part in carpentry.parts.iter().filter(|part| loose(part)) {
        if told.contains(&part.table.as_str()) {
            continue;
        }
        told.push(&part.table);
        // Equal parts share a verdict: that of the one with the least room.
        let lines = carpentry.gaps.iter().filter(|line| {
            !line.air && carpentry.parts[line.part].table == part.table && line.gap < -TOUCHES
        });
        let worst = lines.min_by(|a, b| a.gap.total_cmp(&b.gap));
        verdicts.push(verdict(evidence, carpentry, part, worst));
    }
    verdicts
}

/// Other parts tried.
const TRIES: usize = 3;

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-5;

fn verdict(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    part: &PlacedPart,
    worst: Option<&GapLine>,
) -> Verdict {
    let (low, high) = part.part.shape.bounds(&part.part.pose);
    let size = [0, 2, 1].map(|axis: usize| format!("{:.0}", 1e3 * (high[axis] - low[axis])));
    let it = the(part);
    let what = it.trim_start_matches("the ");
    let Some(worst) = worst else {
        let cause = format!(
            "{} stands with {} mm in width, height and depth where it finds room.",
            capital(&it),
            size.join(" x ")
        );
        return Verdict::good(format!("Room for {it}"), cause);
    };
    let cause = format!(
        "{} ({} mm in width, height and depth) finds no free place; in the best it reaches {} into {}.",
        part.label,
        size.join(" x "),
        mm(-worst.gap),
        things::near_name(carpentry, worst.near)
    );
    // Only of a part larger than the room does the box as such lack something.
    let sorted = |mut sides: [f64; 3]| {
        sides.sort_by(f64::total_cmp);
        sides
    };
    let own = sorted([0, 1, 2].map(|axis| high[axis] - low[axis]));
    let room = sorted(evidence.build.enclosure.inside);
    let outgrown = own.iter().zip(room).any(|(own, room)| *own > room);
    let things = [Some(part.table.as_str()), outgrown.then_some("box")];
    let found = Verdict::stop(format!("No room for {it}"), cause)
        .about(things.into_iter().flatten(), -1e3 * worst.gap)
        .measured(1e3 * worst.gap, 0.0, "mm")
        .advice(format!(
            "make the box larger, take a smaller {what}, or state a place you know of with at"
        ))
        .at(part.place)
        .ladders([1, 0, 2].map(|axis| larger_along(evidence, axis, -worst.gap)));
    match part.kind {
        PartKind::Battery => {
            found.mends(swap::batteries(evidence, |_| true).into_iter().take(TRIES))
        }
        PartKind::Board => {
            found.mends(swap::amplifiers(evidence, |_| true).into_iter().take(TRIES))
        }
        _ => found,
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::*;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_battery_finds_room_beside_the_drivers() {
        check(CHECK.id, &[], &[Good, Good]);
        // 151 x 98 x 98 mm behind drivers 54 mm deep.
        let large = ("battery.part", "lead-acid 12 V 12 Ah");
        let size = |text| [("box.outside", text), large];
        with(&size("400 x 240 x 200 mm")).check(CHECK.id, &[Good, Good]);
        with(&size("300 x 200 x 110 mm")).check(CHECK.id, &[Stop, Good]);
    }
}
