//! The box against the brief's largest size.

use super::resize::{self, Axis};
use super::{Candidate, Check, Evidence, Verdict};

pub(super) const CHECK: Check = Check {
    id: "box-size",
    title: "Box against the largest size asked for",
    what: "Whether the outside of the box stays within the brief's largest size.",
    why: "A box that does not fit the bicycle, the shelf or the car stays at home.",
    limits: "Outside of the walls; handle, feet, knobs and grilles stand out further.",
    bad: "outside = \"420 x 200 x 180 mm\" where the brief says largest = \"400 x 220 x 200 mm\"",
    good: "outside = \"400 x 200 x 180 mm\"",
    sources: &["common practice, no source"],
    run,
};

/// A tenth of a millimetre: below what anyone can saw.
const SAWN: f64 = 1e-4;

/// Too much in one direction from which on it is no slip: common practice, no source.
const MUCH: f64 = 1.25;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(largest) = evidence.design().brief.largest else {
        return Vec::new();
    };
    let outside = evidence.build.enclosure.outside;
    let allowed = [largest.width.si, largest.height.si, largest.depth.si];
    let said = |sides: [f64; 3]| {
        let [w, h, d] = sides.map(|side| format!("{:.0}", 1e3 * side));
        format!("{w} x {h} x {d} mm")
    };
    let cause = format!(
        "It is {} outside, the brief allows {}.",
        said(outside),
        said(allowed)
    );
    let worst = (0..3)
        .max_by(|&a, &b| (outside[a] / allowed[a]).total_cmp(&(outside[b] / allowed[b])))
        .unwrap_or(0);
    let numbers = (1e3 * outside[worst], 1e3 * allowed[worst]);
    if outside[worst] <= allowed[worst] + SAWN {
        return vec![
            Verdict::good("Box is small enough", cause).measured(numbers.0, numbers.1, "mm"),
        ];
    }
    let sorted = |mut sides: [f64; 3]| {
        sides.sort_by(f64::total_cmp);
        sides
    };
    let turned = sorted(outside)
        .iter()
        .zip(sorted(allowed))
        .all(|(side, most)| *side <= most + SAWN);
    let verdict = if turned {
        Verdict::caution("Box is small enough only when turned", cause)
    } else if outside[worst] > MUCH * allowed[worst] {
        Verdict::stop("Box is much too large", cause)
    } else {
        Verdict::caution("Box is too large", cause)
    };
    vec![
        verdict
            .measured(numbers.0, numbers.1, "mm")
            .advice("make the box smaller, or allow it to be larger")
            .mends(trimmed(evidence, allowed)),
    ]
}

/// Every direction that is too long cut back to what is allowed.
fn trimmed(evidence: &Evidence<'_>, allowed: [f64; 3]) -> Option<Candidate> {
    let outside = evidence.build.enclosure.outside;
    let long: Vec<Axis> = Axis::ALL
        .into_iter()
        .filter(|axis| outside[axis.index()] > allowed[axis.index()] + SAWN)
        .collect();
    resize::outside_to(evidence, &long, allowed)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn too_large_is_trimmed() {
        check(CHECK.id, &[], &[Good]);
        let long = [("box.outside", "440 x 240 x 200 mm")];
        let found = check(CHECK.id, &long, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].value.as_deref(), Some("420 x 240 x 200 mm"));
        check(CHECK.id, &[("box.outside", "560 x 240 x 200 mm")], &[Stop]);
    }

    #[test]
    fn turned_it_would_fit() {
        let found = check(
            CHECK.id,
            &[("box.outside", "240 x 400 x 200 mm")],
            &[Caution],
        );
        assert_eq!(found[0].title, "Box is small enough only when turned");
    }

    #[test]
    fn inside_sizes_grow_by_their_walls() {
        // 11.9 mm walls: 400 inside are 423.8 outside.
        let inside = with(&[])
            .without("box.outside")
            .with(&[("box.inside", "400 x 210 x 180 mm")]);
        let found = inside.check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].value.as_deref(), Some("396 x 210 x 180 mm"));
    }
}
