//! What is still to be spent against the brief.

use super::wish::{self, Wish};
use super::{Check, Evidence, Severity, Verdict, swap};
use crate::money::nothing_priced;
use crate::words::number;
use design::Common;

pub(super) const CHECK: Check = Check {
    id: "brief-cost",
    title: "Cost, against the brief",
    what: "Whether what is still to be bought stays within the brief's money, and in how many builds \
of a hundred.",
    why: "Money is spent part by part; the sum is seen too late.",
    limits: "What lies in the drawer costs nothing; parts without a price in the brief's currency are \
not counted and are named. Sheets are bought whole, as many as the sawing layout cuts into, finishes by the \
can, wire by the metre. Glue, screws and tools are not counted.",
    bad: "cost = \"60 €\" with a battery for 62 €",
    good: "cost = \"170 €\" where parts come to 122 €",
    sources: &["common practice, no source"],
    run,
};

const WISH: Wish = Wish {
    promise: "cost",
    kept: "Cheap enough",
    missed: "Costs too much",
    does: "still takes",
    much: 1.3,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(mut verdict) = wish::verdict(evidence, &WISH) else {
        return in_part(evidence).into_iter().collect();
    };
    let lines = evidence.subject.cost.lines();
    if nothing_priced(lines) {
        return in_part(evidence).into_iter().collect();
    }
    let currency = &evidence.design().brief.currency;
    let dearest = lines
        .iter()
        .filter_map(|line| Some((line, line.till().filter(|sum| *sum > 0.0)?)))
        .max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((line, sum)) = dearest {
        verdict.cause += &format!(" Dearest: {} for {}.", line.label, number(sum, currency));
    }
    if let Some(part) = in_part(evidence) {
        verdict.cause += &format!(" {}", part.cause);
        if verdict.severity == Severity::Good {
            verdict.severity = part.severity;
            verdict.title = part.title;
            verdict.advice = part.advice;
            return vec![verdict];
        }
    }
    if verdict.severity == Severity::Good {
        return vec![verdict];
    }
    let price = |common: &Common| common.price.as_ref().map(|price| price.amount.si);
    let below = |other: &Common, now: &Common| {
        other.on_hand > 0
            || price(other)
                .zip(price(now))
                .is_some_and(|(other, now)| other < now)
    };
    let design = evidence.design();
    let drivers = design
        .drivers
        .iter()
        .enumerate()
        .flat_map(|(index, group)| {
            swap::drivers(evidence, index, |part| {
                below(&part.common, &group.part.common)
            })
        });
    let batteries = swap::batteries(evidence, |part| {
        below(&part.common, &design.battery.part.common)
    });
    let boards = swap::amplifiers(evidence, |part| {
        below(&part.common, &design.amplifier.part.common)
    });
    let walls = swap::walls(evidence, |part| {
        below(&part.common, &design.enclosure.wall.common)
    });
    vec![
        verdict
            .advice("take cheaper parts, or what lies in the drawer")
            .mends(batteries.clone())
            .mends(boards.clone())
            .mends(drivers)
            .mends(walls)
            .mends(swap::pairs(&batteries, &boards)),
    ]
}

/// Said where something has to be bought at a price that nobody knows.
fn in_part(evidence: &Evidence<'_>) -> Option<Verdict> {
    let currency = &evidence.design().brief.currency;
    let lines = evidence.subject.cost.lines().iter();
    let unknown = lines.filter(|line| line.till().is_none());
    let unknown: Vec<&str> = unknown.map(|line| line.label.as_str()).collect();
    let cause = format!(
        "Not counted, for want of a price in {currency}: {}.",
        unknown.join(", ")
    );
    let verdict = Verdict::caution("Cost is known in part only", cause)
        .advice(format!("put their prices in {currency} on the shelf"));
    (!unknown.is_empty()).then_some(verdict)
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    /// No sum is held against the brief where no price is known.
    #[test]
    fn a_brief_in_a_currency_without_prices_is_not_kept() {
        let found = check(CHECK.id, &[("brief.cost", "$ 100")], &[Caution]);
        assert_eq!(found[0].title, "Cost is known in part only");
        assert!(
            found[0].cause.starts_with("Not counted"),
            "{}",
            found[0].cause
        );
    }

    #[test]
    fn a_dear_battery_is_swapped() {
        check(CHECK.id, &[], &[Good]);
        let dear = [
            ("battery.part", "iron phosphate 12.8 V 12 Ah"),
            ("brief.cost", "150 €"),
        ];
        let found = check(CHECK.id, &dear, &[Caution]);
        assert!(
            found[0]
                .cause
                .contains("Dearest: birch plywood 12 mm for 66 €"),
            "{found:#?}"
        );
        assert!(found[0].mend.is_some(), "{found:#?}");
        check(CHECK.id, &[("brief.cost", "20 €")], &[Stop]);
    }

    #[test]
    fn an_unknown_price_is_said_whether_or_not_the_brief_asks() {
        // Its name overrides that of the built-in one, price and all, where it states another.
        let priced = |probe: Probe| {
            probe.shelf("[[battery]]\nname = \"iron phosphate 12.8 V 6 Ah\"\nprice = \"$70\"\n")
        };
        for probe in [with(&[]), with(&[]).without("brief.cost")] {
            assert!(!said(&probe), "all prices are known");
            assert!(said(&priced(probe)));
        }
    }

    fn said(probe: &Probe) -> bool {
        let found = probe.findings(CHECK.id);
        let mut found = found.iter();
        found.any(|one| one.title == "Cost is known in part only" && one.cause.contains("6 Ah"))
    }

    #[test]
    fn other_currencies_are_said_in_words() {
        let found = check(CHECK.id, &[("brief.cost", "125 CHF")], &[Caution]);
        assert!(
            found[0].measured.is_none() && found[0].cause.contains("Not counted"),
            "{found:#?}"
        );
    }
}
