//! Bass lost to a narrow box where it stands.

use super::{Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "face-loss",
    title: "Bass lost to a narrow box",
    what: "How much weaker the bass comes out than the middle range, from the face of the box and \
the place alone.",
    why: "Middle and treble are sent forwards by the face of the box, the bass goes all round it: \
a narrow box out of doors loses up to 6 dB below about 115 Hz·m over its width. A wall behind it or a \
room gives much of that back.",
    limits: "Compares 60 to 120 Hz with 500 to 2,000 Hz, straight ahead. The promise of how low it \
plays is about the box's own roll-off and does not count this.",
    bad: "a box 20 cm wide on a post",
    good: "the same box against a wall, or indoors on a shelf",
    sources: &["svensson-1999", "diffraction-table"],
    run,
};

/// Loss in dB from which on a box sounds thin without a bass control: common practice, no source.
const THIN: f64 = 5.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let loss = evidence.face_loss;
    let place = crate::words::stands(evidence.design().place.stands.value);
    let cause = format!(
        "Standing {place}, its bass comes out {} {} than the middle range.",
        number(loss.abs(), "dB"),
        if loss < 0.0 { "stronger" } else { "weaker" }
    );
    if loss <= THIN {
        return vec![
            Verdict::good("Bass comes through where it stands", cause).measured(loss, THIN, "dB"),
        ];
    }
    vec![
        Verdict::caution("Bass is lost to the narrow face", cause)
            .measured(loss, THIN, "dB")
            .advice("play it against a wall, turn the bass up a little, or make the face wider; bass turned up takes travel and battery"),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_wall_gives_back_what_the_open_takes() {
        check(CHECK.id, &[], &[Good]);
        let wall = check(CHECK.id, &[], &[Good])[0].measured.unwrap();
        let free = check(CHECK.id, &[("place.stands", "free")], &[Caution])[0]
            .measured
            .unwrap();
        assert!(free > wall + 3.0, "{free} {wall}");
    }
}
