//! Battery and board inside the box.

use super::{Check, Evidence, Verdict, resize, swap};
use design::Size;

pub(super) const CHECK: Check = Check {
    id: "parts-fit",
    title: "Battery and board inside",
    what: "Whether battery and amplifier board find room behind, beside or above the drivers.",
    why: "Litres may suffice where no single space does: a battery stands in the way of a magnet.",
    limits: "Each part by itself as a block in any position, against the spaces that the magnets \
leave along the walls, with 5 mm to spare; braces, vents and other things inside are not looked at. \
Whether it comes out again through an opening is not looked at either.",
    bad: "a 151 x 98 x 98 mm battery in a box 120 mm deep inside, behind two drivers 60 mm deep",
    good: "the same battery in a box 180 mm deep inside",
    sources: &["common practice, no source"],
    run,
};

/// To spare around a part, in m: common practice, no source.
const SLACK: f64 = 0.005;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let design = evidence.design();
    let battery = &design.battery;
    let board = &design.amplifier.part;
    let mut verdicts = Vec::new();
    let mut look = |name: &str, what: &'static str, size: Option<Size>| {
        if let Some(size) = size {
            let sides = [size.width.si, size.height.si, size.depth.si];
            verdicts.push(verdict(evidence, name, what, sides));
        }
    };
    look(&battery.part.common.name.text, "battery", battery.part.size);
    look(&board.common.name.text, "board", board.size);
    verdicts
}

fn verdict(evidence: &Evidence<'_>, name: &str, what: &'static str, part: [f64; 3]) -> Verdict {
    let inside = evidence.build.enclosure.inside;
    let said = |sides: [f64; 3]| {
        let [a, b, c] = sides.map(|side| format!("{:.0}", 1e3 * side));
        format!("{a} x {b} x {c} mm")
    };
    let spaces = spaces(evidence);
    if spaces.iter().any(|space| fits(part, *space)) {
        return Verdict::good(
            format!("Room for the {what}"),
            format!("{name} ({}) finds room beside the drivers.", said(part)),
        );
    }
    let cause = format!(
        "{name} is {}; the box is {} inside, of which the drivers leave no space that large.",
        said(part),
        said(inside)
    );
    let found = if fits(part, inside) {
        Verdict::caution(format!("No room for the {what} beside the drivers"), cause)
    } else {
        Verdict::stop(format!("The {what} does not fit into the box"), cause)
    };
    let found = found
        .advice(format!("make the box larger, or take a smaller {what}"))
        .ladders(resize::growth(evidence));
    match what {
        "battery" => found.mends(swap::batteries(evidence, |_| true)),
        _ => found.mends(swap::amplifiers(evidence, |_| true)),
    }
}

/// Blocks of air that the drivers leave: behind all of them, above and below,
/// at the ends of the row, and between neighbours.
fn spaces(evidence: &Evidence<'_>) -> Vec<[f64; 3]> {
    let [width, height, depth] = evidence.build.enclosure.inside;
    let wall = evidence.build.enclosure.thickness;
    let groups = &evidence.design().drivers;
    let deepest = groups
        .iter()
        .filter_map(|group| group.part.depth)
        .map(|depth| depth.si)
        .fold(0.0, f64::max);
    let spots = &evidence.subject.front.spots;
    let widest = spots.iter().map(|spot| spot.cutout).fold(0.0, f64::max);
    let lying = evidence.subject.front.width >= evidence.subject.front.height;
    let (along, across) = if lying {
        (width, height)
    } else {
        (height, width)
    };
    let mut spaces = vec![[width, height, depth - deepest]];
    spaces.push([along, (across - widest) / 2.0, depth]);
    // Between the holes, along the row.
    let at = |spot: &crate::subject::Spot| if lying { spot.x } else { -spot.y };
    let mut edge = -along / 2.0 - wall;
    for spot in spots {
        spaces.push([
            at(spot) - spot.cutout / 2.0 - edge.max(-along / 2.0),
            across,
            depth,
        ]);
        edge = at(spot) + spot.cutout / 2.0;
    }
    spaces.push([along / 2.0 - edge, across, depth]);
    spaces
}

/// Whether a block fits into another in some position along its edges.
fn fits(part: [f64; 3], mut space: [f64; 3]) -> bool {
    let mut part = part.map(|side| side + SLACK);
    part.sort_by(f64::total_cmp);
    space.sort_by(f64::total_cmp);
    part.iter().zip(&space).all(|(part, space)| part <= space)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::*;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn a_block_fits_in_any_position() {
        let part = [0.151, 0.098, 0.065];
        assert!(fits(part, [0.08, 0.16, 0.12]));
        assert!(!fits(part, [0.08, 0.10, 0.30]));
        assert!(!fits(part, [0.30, 0.30, 0.068]));
    }

    #[test]
    fn a_battery_finds_room_beside_the_drivers() {
        check(CHECK.id, &[], &[Good, Good]);
        // 151 x 98 x 98 mm behind drivers 54 mm deep.
        let large = ("battery.part", "lead-acid 12 V 12 Ah");
        let size = |text| [("box.outside", text), large];
        with(&size("400 x 240 x 200 mm")).check(CHECK.id, &[Good, Good]);
        with(&size("300 x 200 x 130 mm")).check(CHECK.id, &[Caution, Good]);
        with(&size("300 x 200 x 110 mm")).check(CHECK.id, &[Stop, Good]);
    }
}
