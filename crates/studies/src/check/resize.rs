//! Candidates that make the box larger or smaller in one direction.

use super::{Candidate, Evidence};
use design::{EnclosureSize, Size, Tolerance, Value};
use physics::math::{exp, ln};

/// A direction of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Axis {
    Width,
    Height,
    Depth,
}

impl Axis {
    /// Depth first: it leaves the front as it is.
    pub(super) const ALL: [Self; 3] = [Self::Depth, Self::Height, Self::Width];

    const fn name(self) -> &'static str {
        match self {
            Self::Width => "width",
            Self::Height => "height",
            Self::Depth => "depth",
        }
    }

    pub(super) const fn index(self) -> usize {
        self as usize
    }

    pub(super) const fn of(self, size: &Size) -> Value {
        match self {
            Self::Width => size.width,
            Self::Height => size.height,
            Self::Depth => size.depth,
        }
    }
}

/// What digits of units leave behind, in tenths of a millimetre.
pub(super) const HALF: f64 = 1e-6;

/// Rungs of a ladder of sizes.
const RUNGS: usize = 12;

/// Growth tried where the brief names no largest size.
const GROWTH: f64 = 1.6;

/// Shrinking tried at most.
const SHRINKING: f64 = 0.6;

/// Larger and larger in one direction, within the brief's largest size.
pub(super) fn larger(evidence: &Evidence<'_>, axis: Axis) -> Vec<Candidate> {
    let design = evidence.design();
    let (size, outside) = stated(evidence);
    let now = axis.of(size).si;
    let walls = if outside {
        0.0
    } else {
        2.0 * evidence.build.enclosure.thickness
    };
    let most = design
        .brief
        .largest
        .map_or(GROWTH * now, |largest| axis.of(&largest).si - walls);
    let most = millimetres(most).floor() / 1e3;
    if most > now {
        ladder(evidence, axis, now, most)
    } else {
        Vec::new()
    }
}

/// Larger in one direction after the other, then in all.
pub(super) fn growth(evidence: &Evidence<'_>) -> Vec<Vec<Candidate>> {
    let single = Axis::ALL.map(|axis| larger(evidence, axis));
    single.into_iter().chain([larger_all(evidence)]).collect()
}

/// Larger and larger in every direction at once, towards the brief's largest size.
fn larger_all(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let now = evidence.build.enclosure.outside;
    let largest = evidence.design().brief.largest;
    let most = |axis: Axis| {
        let now = now[axis.index()];
        largest.map_or(GROWTH * now, |largest| axis.of(&largest).si.max(now))
    };
    (1..=RUNGS)
        .filter_map(|rung| {
            let mut lengths = now;
            for axis in Axis::ALL {
                let length = &mut lengths[axis.index()];
                *length += (most(axis) - *length) * rung as f64 / RUNGS as f64;
            }
            let grows = |axis: &Axis| lengths[axis.index()] > now[axis.index()] + 1e-3;
            let axes: Vec<Axis> = Axis::ALL.into_iter().filter(grows).collect();
            if axes.is_empty() {
                return None;
            }
            outside_to(evidence, &axes, lengths)
        })
        .collect()
}

/// Smaller and smaller in one direction.
pub(super) fn smaller(evidence: &Evidence<'_>, axis: Axis) -> Vec<Candidate> {
    let (size, _) = stated(evidence);
    let now = axis.of(size).si;
    ladder(evidence, axis, now, SHRINKING * now)
}

/// Some directions set to lengths over the walls, in m.
pub(super) fn outside_to(
    evidence: &Evidence<'_>,
    axes: &[Axis],
    lengths: [f64; 3],
) -> Option<Candidate> {
    let (_, outside) = stated(evidence);
    let walls = if outside {
        0.0
    } else {
        2.0 * evidence.build.enclosure.thickness
    };
    let mut targets = [None; 3];
    for axis in axes {
        let target = millimetres(lengths[axis.index()] - walls).floor();
        if target <= 0.0 {
            return None;
        }
        targets[axis.index()] = Some(target);
    }
    Some(resized(evidence, targets))
}

/// From one length towards another in even ratios, in whole millimetres.
fn ladder(evidence: &Evidence<'_>, axis: Axis, now: f64, end: f64) -> Vec<Candidate> {
    let whole = |length: f64| {
        let length = millimetres(length);
        if end > now {
            length.ceil().min(millimetres(end))
        } else {
            length.floor()
        }
    };
    let moved = |length: f64| (length - millimetres(now)).abs() >= 1.0;
    let step = |rung: usize| exp(ln(now) + ln(end / now) * rung as f64 / RUNGS as f64);
    let mut lengths: Vec<f64> = (1..=RUNGS)
        .map(|rung| whole(step(rung)))
        .filter(|&length| length > 0.0 && moved(length))
        .collect();
    lengths.dedup();
    lengths
        .into_iter()
        .map(|length| {
            let mut targets = [None; 3];
            targets[axis.index()] = Some(length);
            resized(evidence, targets)
        })
        .collect()
}

/// A length in mm, cleared of the last digits that units leave behind.
fn millimetres(metres: f64) -> f64 {
    (1e6 * metres).round() / 1e3
}

fn stated<'a>(evidence: &'a Evidence<'_>) -> (&'a Size, bool) {
    match &evidence.design().enclosure.size {
        EnclosureSize::Outside(size) => (size, true),
        EnclosureSize::Inside(size) => (size, false),
    }
}

/// The box with some of its three lengths set to so many millimetres.
fn resized(evidence: &Evidence<'_>, targets: [Option<f64>; 3]) -> Candidate {
    let (size, outside) = stated(evidence);
    let (key, which) = if outside {
        ("box.outside", "box")
    } else {
        ("box.inside", "inside")
    };
    let mut changes = Vec::new();
    let edges = [Axis::Width, Axis::Height, Axis::Depth].map(|axis| {
        let now = shown(millimetres(axis.of(size).si));
        let Some(target) = targets[axis.index()] else {
            return now;
        };
        let then = shown(target);
        changes.push(format!("{which} {} {now} → {then} mm", axis.name()));
        then
    });
    let text = with_tolerance(edges.join(" x "), size.width.tolerance);
    Candidate::set(changes.join(", "), key, text)
}

/// Lengths in m as a design file says them: "120 x 80 mm".
pub(super) fn lengths(lengths: &[f64], tolerance: Tolerance) -> String {
    let edges: Vec<String> = lengths.iter().map(|&m| shown(millimetres(m))).collect();
    with_tolerance(edges.join(" x "), tolerance)
}

fn with_tolerance(edges: String, tolerance: Tolerance) -> String {
    let text = format!("{edges} mm");
    match tolerance {
        Tolerance::Unstated => text,
        Tolerance::About => format!("about {text}"),
        Tolerance::Within(half) => format!("{text} ± {} mm", shown(millimetres(half))),
    }
}

/// Millimetres to a tenth, without a tenth that is zero.
fn shown(millimetres: f64) -> String {
    let tenths = (10.0 * millimetres + HALF).round();
    let text = format!("{:.1}", tenths / 10.0);
    text.strip_suffix(".0").map_or(text.clone(), Into::into)
}

#[cfg(test)]
mod tests {
    use super::super::probe::with;

    /// The value that the mend of a box too long would write.
    fn mended(outside: &str) -> String {
        let findings = with(&[("box.outside", outside)]).findings("box-size");
        let mend = findings[0].mend.as_ref().unwrap();
        mend.edits[0].value.clone().unwrap()
    }

    #[test]
    fn a_stated_tolerance_stays() {
        assert_eq!(mended("440 x 240 x 200 mm"), "420 x 240 x 200 mm");
        let tolerance = "440 x 240 x 200 mm ± 0.5 mm";
        assert_eq!(mended(tolerance), "420 x 240 x 200 mm ± 0.5 mm");
        let about = "about 44 x 24 x 20 cm";
        assert_eq!(mended(about), "about 42 x 24 x 20 cm");
    }

    #[test]
    fn inches_come_out_in_inches() {
        // 420 mm are 16.535 in.
        assert_eq!(mended("17 1/2 x 9 1/2 x 8 in"), "16 17/32 x 9 1/2 x 8 in");
    }

    #[test]
    fn growth_takes_what_is_wanted() {
        let shallow = with(&[("box.outside", "400 x 240 x 76 mm")]);
        let findings = shallow.findings("parts-fit");
        let mend = findings[0].mend.as_ref().unwrap();
        // 42 mm of driver behind the front, 65 mm of battery behind it, 5 mm of slack, and two
        // walls of 11.9 mm are 135.8 mm.
        assert_eq!(mend.edits[0].value.as_deref(), Some("400 x 240 x 136 mm"));
    }
}
