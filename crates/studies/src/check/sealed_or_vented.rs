//! Sealed or vented? Which way keeps the brief more surely.

use super::{Check, Evidence, Verdict};
use design::EnclosureKind;

pub(super) const CHECK: Check = Check {
    id: "sealed-or-vented",
    title: "Sealed or vented",
    what: "The same design studied closed and with the best vent that fits, both under its \
tolerances.",
    why: "A vent wins bass and level where everything is known; a sealed box forgives errors of \
volume and driver data that spoil a vented one. Odds say which counts for more here.",
    limits: "One tube or one for each side, straight, from usual pipe sizes; compared are how low and \
how loud. How the two sound is left to taste.",
    bad: "a sealed box that reaches the brief's lowest note in 5 of 100 builds, where 90 of 100 vented ones do",
    good: "the way that keeps the brief in more builds",
    sources: &["small-1972", "small-1973"],
    run,
};

/// Odds by which the other way must be better to be worth a change.
const WORTH: f64 = 0.2;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(versus) = evidence.versus else {
        return Vec::new();
    };
    let odds = |way: &crate::versus::Way| {
        let of = |odds: Option<f64>| odds.unwrap_or(1.0);
        of(way.odds_low).min(of(way.odds_loud))
    };
    let (sealed, vented) = (odds(&versus.sealed), odds(&versus.vented));
    let cause = versus.sentence.clone();
    let (now, other, way, advice) = match &evidence.design().enclosure.kind {
        EnclosureKind::Sealed => (sealed, vented, "Vented", "vent it as described"),
        EnclosureKind::Vented(_) => (vented, sealed, "Sealed", "close the box"),
        EnclosureKind::PassiveRadiator(_) => {
            return vec![Verdict::good(
                "Vent and closed box looked at as well",
                cause,
            )];
        }
    };
    if other - now < WORTH {
        return vec![Verdict::good(
            "Sealed or vented, looked at both ways",
            cause,
        )];
    }
    let of = crate::words::of_hundred;
    let title = format!(
        "{way} it would keep the brief in {} builds of 100 instead of {}",
        of(other),
        of(now)
    );
    vec![
        Verdict::caution(title, cause)
            .measured(100.0 * now, 100.0 * other, "of 100")
            .advice(advice),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn the_other_way_is_named_where_it_is_surer() {
        check(CHECK.id, &[], &[]);
        with(&[]).builds(200).check(CHECK.id, &[Good]);
        let deep = with(&[("brief.lowest", "55 Hz")]).builds(200);
        let found = deep.check(CHECK.id, &[Caution]);
        assert!(found[0].title.starts_with("Vented it would"), "{found:#?}");
    }
}
