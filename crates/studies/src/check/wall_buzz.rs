//! Walls thin enough to sing along.

use super::timber::{capital, mm};
use super::{Candidate, Check, Edit, Evidence, Verdict, swap};
use crate::carpentry::{Carpentry, WallMode};
use crate::words::{number, wall};
use design::{Chambers, Design, SheetPart};
use physics::math::db_amplitude;
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "wall-buzz",
    title: "Buzzing walls",
    what: "At which frequency each wall bends first, between edges free to turn and edges held fast, \
and how loud it would then be against the cones that shake it.",
    why: "A thin wall moves on its own resonance with the pressure inside. It colours the sound and \
rattles whatever lies against it.",
    limits: "Thin plates without their holes, between walls and braces; the true frequency lies between \
the two bounds, and the middle of them is judged. A caution where it is below 500 Hz and the wall \
comes within 10 dB of the cones, taking a damping of 3 % and the air inside as a spring. Above \
500 Hz that spring no longer holds, and small stiff walls are of no concern.",
    bad: "walls of 6 mm plywood 500 x 300 mm: 4 dB above the cones near 220 Hz",
    good: "the same walls with a brace across the middle, or of 12 mm",
    sources: &["leissa-1973", "common practice, no source"],
    run,
};

/// Highest frequency at which the air inside is taken as a spring, in Hz.
const HIGHEST: f64 = 500.0;

/// Level of the wall against the cones above which it is said, in dB.
const LEVEL: f64 = -10.0;

/// Loss factor of a glued wooden box: common practice, no source.
const LOSS: f64 = 0.03;

/// (∫φ)² / (A∫φ²) of the first mode with supported edges: 64/π⁴.
const COUPLING: f64 = 0.657;

/// A wall with what it does.
#[derive(Clone, Copy, Debug)]
struct Buzz {
    wall: Wall,
    /// Between the bounds, in Hz.
    hertz: f64,
    bounds: [f64; 2],
    /// Volume velocity of the wall against that of the cones, in dB.
    level: f64,
    /// With one brace across the longer span, in Hz.
    braced: [f64; 2],
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let buzzes: Vec<Buzz> = carpentry
        .modes
        .iter()
        .map(|mode| buzz(evidence, carpentry, mode))
        .collect();
    let (wrong, good): (Vec<&Buzz>, Vec<&Buzz>) = buzzes.iter().partition(|buzz| is_weak(buzz));
    if wrong.is_empty() {
        let lowest = good.iter().min_by(|a, b| a.hertz.total_cmp(&b.hertz));
        return lowest.map(|buzz| quiet(buzz)).into_iter().collect();
    }
    // Opposite walls are alike and are braced by one stick.
    let pairs = [
        (Wall::Front, Wall::Back),
        (Wall::Left, Wall::Right),
        (Wall::Top, Wall::Bottom),
    ];
    pairs
        .into_iter()
        .filter_map(|(first, second)| {
            let own: Vec<&Buzz> = wrong
                .iter()
                .copied()
                .filter(|buzz| buzz.wall == first || buzz.wall == second)
                .collect();
            let worst = *own.iter().max_by(|a, b| a.level.total_cmp(&b.level))?;
            let names: Vec<String> = own.iter().map(|buzz| wall(buzz.wall).into()).collect();
            let said = loud(worst, &super::timber::listed(&names), own.len() > 1);
            Some(
                said.at(place(evidence.design(), worst.wall))
                    .mends(mends(evidence, carpentry, first)),
            )
        })
        .collect()
}

fn buzz(evidence: &Evidence<'_>, carpentry: &Carpentry, mode: &WallMode) -> Buzz {
    let design = evidence.design();
    let panel = &carpentry.body.panels[mode.wall.index()];
    let mass = sheet(design, mode.wall).density.si * panel.thickness;
    let hertz = (mode.supported * mode.clamped).sqrt();
    let omega = core::f64::consts::TAU * hertz;
    let chambers = match design.enclosure.chambers.value {
        Chambers::Shared => 1.0,
        Chambers::OnePerSide => 2.0,
    };
    let air = &evidence.build.air;
    let stiffness =
        air.density * air.sound_speed * air.sound_speed * chambers / evidence.build.enclosure.net;
    let area = mode.span[0] * mode.span[1];
    // Pressure inside, from the cones on the air as a spring, drives the wall at its resonance.
    let ratio = stiffness * COUPLING * area / (mass * omega * omega * LOSS);
    Buzz {
        wall: mode.wall,
        hertz,
        bounds: [mode.supported, mode.clamped],
        level: db_amplitude(ratio),
        braced: mode.braced,
    }
}

fn is_weak(buzz: &Buzz) -> bool {
    buzz.hertz < HIGHEST && buzz.level > LEVEL
}

/// The sheet a wall is cut from.
fn sheet(design: &Design, side: Wall) -> &SheetPart {
    let walls = design.enclosure.carpentry.walls.iter();
    let own = walls
        .filter(|own| crate::carpentry::wall(own.side) == side)
        .find_map(|own| own.sheet.as_ref());
    own.map_or(&design.enclosure.wall, |(sheet, _)| sheet)
}

fn place(design: &Design, side: Wall) -> design::Place {
    let mut walls = design.enclosure.carpentry.walls.iter();
    let own = walls.find(|own| crate::carpentry::wall(own.side) == side);
    own.map_or(design.enclosure.wall_place, |own| own.place)
}

fn said(buzz: &Buzz) -> String {
    format!(
        "bends first near {} (between {} and {})",
        number(buzz.hertz, "Hz"),
        number(buzz.bounds[0], "Hz"),
        number(buzz.bounds[1], "Hz")
    )
}

fn against(level: f64) -> String {
    let beyond = if level < 0.0 { "below" } else { "above" };
    format!("{:.0} dB {beyond} the cones", level.abs())
}

fn quiet(buzz: &Buzz) -> Verdict {
    let cause = format!(
        "The {} {}, the lowest of all walls, {}.",
        wall(buzz.wall),
        said(buzz),
        against(buzz.level)
    );
    Verdict::good("Walls are stiff enough", cause).measured(buzz.hertz, HIGHEST, "Hz")
}

fn loud(buzz: &Buzz, names: &str, several: bool) -> Verdict {
    let cause = format!(
        "The {} {} and is then about {}. One brace across its longer span raises that to {} to {}.",
        wall(buzz.wall),
        said(buzz),
        against(buzz.level),
        number(buzz.braced[0], "Hz"),
        number(buzz.braced[1], "Hz")
    );
    let verb = if several { "buzz" } else { "buzzes" };
    Verdict::caution(format!("{} {verb}", capital(names)), cause)
        .measured(buzz.level, LEVEL, "dB")
        .advice("brace it across the longer span, or take a thicker or stiffer sheet")
}

/// Section of the sticks offered, in m: common practice, no source.
const STICK: [f64; 2] = [0.020, 0.030];

/// Other sheets tried.
const SHEETS: usize = 2;

/// A frame across the longest side of the box, a stick between two walls, a thicker sheet.
fn mends(evidence: &Evidence<'_>, carpentry: &Carpentry, from: Wall) -> Vec<Candidate> {
    let number = evidence.design().braces.len() + 1;
    let thicker = swap::walls(evidence, |sheet| {
        sheet.thickness.si > evidence.build.enclosure.thickness + 5e-4
    });
    let sticks = [0.5, 1.0 / 3.0].map(|share| stick(carpentry, from, share, number));
    let frames = [0.5, 1.0 / 3.0].map(|share| frame(evidence, share, number));
    sticks
        .into_iter()
        .chain(frames)
        .chain(thicker.into_iter().take(SHEETS))
        .collect()
}

/// A stick from one wall to that across, so far along the longer side.
fn stick(carpentry: &Carpentry, from: Wall, share: f64, number: usize) -> Candidate {
    let block = &carpentry.body.plan.block;
    let side = match from {
        Wall::Front | Wall::Back => [block.width, block.height],
        Wall::Left | Wall::Right => [block.depth, block.height],
        Wall::Top | Wall::Bottom => [block.width, block.depth],
    };
    let along = usize::from(side[1] > side[0]);
    let mut at = side.map(|length| length / 2.0);
    at[along] = side[along] * share;
    let text = |lengths: [f64; 2]| {
        let [a, b] = lengths.map(|length| (1e3 * length).round());
        format!("{a:.0} x {b:.0} mm")
    };
    let to = wall(from.opposite());
    let words = format!(
        "brace {} from {} to {to}, {} along",
        text(STICK),
        wall(from),
        mm(at[along])
    );
    brace(
        number,
        words,
        &[
            ("from", wall(from).into()),
            ("section", text(STICK)),
            ("at", text(at)),
        ],
    )
}

/// A full board with a window across the longest side of the box.
fn frame(evidence: &Evidence<'_>, share: f64, number: usize) -> Candidate {
    let inside = evidence.build.enclosure.inside;
    let thickness = evidence.build.enclosure.thickness;
    let longest = [0, 1, 2]
        .into_iter()
        .max_by(|a: &usize, b: &usize| inside[*a].total_cmp(&inside[*b]))
        .unwrap_or(0);
    // Width, height, depth; the two sides seen along the normal of the wall it is parallel to.
    let (parallel, sides) = match longest {
        0 => ("left", [inside[2], inside[1]]),
        1 => ("top", [inside[0], inside[2]]),
        _ => ("front", [inside[0], inside[1]]),
    };
    let at = (1e3 * (inside[longest] * share - thickness / 2.0)).round();
    let window = sides.map(|side| (1e3 * WINDOW * side).floor());
    let words = format!("brace with a window, {at:.0} mm from the {parallel}");
    brace(
        number,
        words,
        &[
            ("parallel", parallel.into()),
            ("at", format!("{at:.0} mm")),
            ("window", format!("{:.0} x {:.0} mm", window[0], window[1])),
        ],
    )
}

/// Share of each side that the window of a brace leaves open: common practice, no source.
const WINDOW: f64 = 0.6;

fn brace(number: usize, words: String, keys: &[(&str, String)]) -> Candidate {
    let name = [("name", format!("brace {number}"))];
    let edits: Vec<Edit> = name
        .iter()
        .chain(keys)
        .map(|(key, value)| Edit::set(format!("brace.{number}.{key}"), value))
        .collect();
    Candidate::new(words, edits)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Severity::{Caution, Good};

    const BUZZ: Buzz = Buzz {
        wall: Wall::Top,
        hertz: 220.0,
        bounds: [160.0, 300.0],
        level: 4.0,
        braced: [400.0, 700.0],
    };

    #[test]
    fn low_and_loud_is_weak() {
        assert!(is_weak(&BUZZ));
        assert!(!is_weak(&Buzz {
            hertz: 600.0,
            ..BUZZ
        }));
        assert!(!is_weak(&Buzz {
            level: -14.0,
            ..BUZZ
        }));
        let found = loud(&BUZZ, "top and bottom", true);
        assert_eq!(found.severity, Caution);
        assert_eq!(found.title, "Top and bottom buzz");
        assert!(found.cause.contains("4 dB above the cones"), "{found:?}");
        assert_eq!(quiet(&BUZZ).severity, Good);
    }

    #[test]
    fn the_coupling_is_that_of_the_first_mode() {
        // ∫ sin over a half wave is 2/π, its square 1/2, in both directions.
        let one: f64 = (2.0 / core::f64::consts::PI) * (2.0 / core::f64::consts::PI) / 0.5;
        assert!((one * one - COUPLING).abs() < 1e-3);
    }

    #[test]
    fn thin_walls_are_braced_or_thickened() {
        use crate::check::probe::{check, with};
        check(CHECK.id, &[], &[Good]);
        let thin = with(&[("box.wall", "poplar plywood 5 mm")]);
        let found = thin.findings(CHECK.id);
        assert_eq!(found[0].severity, Caution, "{found:#?}");
        assert!(found.iter().any(|one| one.mend.is_some()), "{found:#?}");
    }
}
