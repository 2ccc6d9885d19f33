//! How the box hangs from its handle.

use super::timber::degrees;
use super::{Candidate, Check, Edit, Evidence, Verdict};

pub(super) const CHECK: Check = Check {
    id: "hangs-level",
    title: "Hanging level",
    what: "By what angle the box hangs askew from its handle.",
    why: "The battery is a third of the weight and seldom in the middle. A box that hangs askew \
knocks against the knee, and its handle works loose.",
    limits: "A caution above 5°. From the centre of mass of wood and parts, carried by one hand in \
the middle of the handle.",
    bad: "the handle in the middle of the top, the battery at one end",
    good: "the handle above the centre of mass: leave handle.at out",
    sources: &["common practice, no source"],
    run,
};

/// Angle in degrees above which it is said.
const LIMIT: f64 = 5.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some((carpentry, handle)) = evidence.carpentry.zip(evidence.design().handle.as_ref())
    else {
        return Vec::new();
    };
    let Some(hang) = carpentry.balance.hang else {
        return Vec::new();
    };
    let measured = hang.abs().to_degrees();
    let cause = format!(
        "From its handle the box of {} hangs {} askew.",
        crate::words::number(carpentry.balance.weight, "kg"),
        degrees(hang.abs())
    );
    if measured <= LIMIT {
        return vec![Verdict::good("The box hangs level", cause).measured(measured, LIMIT, "°")];
    }
    let level = carpentry.balance.level_handle;
    let advice = level.map_or_else(
        || "move the battery towards the middle, or the handle over it".into(),
        |[across, up]| {
            format!(
                "put the middle of the handle {:.0} mm from the left and {:.0} mm from the lower \
edge of its wall, seen from outside",
                1e3 * across,
                1e3 * up
            )
        },
    );
    let above = handle.at.as_ref().map(|_| {
        Candidate::new(
            "handle over the centre of mass",
            [Edit::remove("handle.at")],
        )
    });
    let place = handle.at.as_ref().map_or(handle.place, |at| at.place);
    vec![
        Verdict::caution("The box hangs askew", cause)
            .measured(measured, LIMIT, "°")
            .advice(advice)
            .at(place)
            .mends(above),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_handle_belongs_over_the_centre_of_mass() {
        check(CHECK.id, &[], &[]);
        let handle = with(&[("handle.spacing", "100 mm"), ("handle.bolt", "5 mm")]);
        handle.check(CHECK.id, &[Good]);
        let aside = handle.with(&[("handle.at", "330 x 100 mm")]);
        let found = aside.check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(
            (mend.edits[0].key.as_str(), &mend.edits[0].value),
            ("handle.at", &None)
        );
    }
}
