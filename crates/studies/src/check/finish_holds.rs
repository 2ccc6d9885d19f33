//! Layers of the finish on one another.

use super::coats::{self, Coats};
use super::{Candidate, Check, Evidence, Verdict};
use crate::finish::{Trouble, troubles};
use design::{FinishKind, FinishUse};

pub(super) const CHECK: Check = Check {
    id: "finish-holds",
    title: "Layers of the finish on one another",
    what: "Whether each layer of the finish holds on what lies right under it, face by face.",
    why: "Lacquer on wax crawls into drops, oil on lacquer stays sticky for good, strong solvent \
wrinkles paint that dried as an oil; all of it is found out on the finished box and ends in sanding \
down to the wood.",
    limits: "Goes by kind and base of what stands on the shelf: a stop where the upper layer cannot \
wet or enter the lower, a caution where its solvent may lift it. What a can says of its own ground \
comes first, and an offcut tells more than any table.",
    bad: "a stain over lacquer, or lacquer over hard-wax oil",
    good: "stain, then lacquer; or oil, then wax",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let said = &evidence.design().finishes;
    let found = troubles(said);
    if said.len() > 1 && found.is_empty() {
        let cause = "Each layer of the finish holds on the one below it.";
        return vec![Verdict::good("The layers of the finish hold", cause)];
    }
    found
        .into_iter()
        .map(|(lower, upper, trouble, because)| {
            let [under, over] = [lower, upper].map(|index| &said[index]);
            let cause = format!(
                "The {} goes right on the {}: {because}.",
                name(over),
                name(under)
            );
            let verdict = match trouble {
                Trouble::OnWax => Verdict::stop("A layer of the finish will not hold", cause),
                Trouble::Closed => Verdict::stop("A layer of the finish cannot soak in", cause),
                Trouble::Lifts => {
                    Verdict::caution("A layer of the finish may lift the one below", cause)
                }
            };
            verdict
                .advice(
                    "put them the other way round, keep them apart by shellac, or leave one out",
                )
                .at(over.place)
                .about([lower, upper].map(|i| format!("finish.{}", i + 1)), 1.0)
                .mends(mends(evidence, said, [lower, upper], trouble))
        })
        .collect()
}

fn name(used: &FinishUse) -> &str {
    &used.part.common.name.text
}

fn mends(
    evidence: &Evidence<'_>,
    said: &[FinishUse],
    [lower, upper]: [usize; 2],
    trouble: Trouble,
) -> Vec<Candidate> {
    let [under, over] = [lower, upper].map(|index| name(&said[index]));
    let mut turned = coats::now(said);
    turned.swap(lower, upper);
    let turned = coats::instead(format!("{over} before {under}"), said, &turned);
    let shellac = coats::on_shelf(evidence, |part| part.kind.value == FinishKind::Shellac);
    let parted = shellac.and_then(|part| {
        let mut between = coats::now(said);
        let coat = Coats {
            coats: Some(1),
            ..Coats::of(part, &said[upper].on)
        };
        between.insert(upper, coat);
        let words = format!(
            "a coat of {} between {under} and {over}",
            part.common.name.text
        );
        coats::instead(words, said, &between)
    });
    let fewer = [upper, lower].map(|index| coats::without(said, index));
    // What lifts is kept apart, so that the layer on top stays the one that was wanted.
    let kept = match trouble {
        Trouble::Lifts => [parted, turned],
        Trouble::OnWax | Trouble::Closed => [turned, parted],
    };
    kept.into_iter().flatten().chain(fewer).collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good, Stop};

    const OIL_PAINT: &str = "[[finish]]\nname = \"oil paint\"\nkind = \"paint\"\nbase = \"oil\"\n\
coverage = \"12 m²/L\"\ncan = \"0.5 L\"\ntouch_dry = \"8 h\"\nrecoat = \"24 h\"\ncure = \"336 h\"\n";

    #[test]
    fn layers_that_do_not_hold_are_found_and_mended() {
        check(CHECK.id, &[], &[]);
        let oak = "[[sheet]]\nname = \"birch plywood 12 mm\"\nspecies = \"oak\"\n";
        let two =
            |lower, upper| with(&[("finish.1.part", lower), ("finish.2.part", upper)]).shelf(oak);
        two("water stain", "water-based lacquer").check(CHECK.id, &[Good]);
        let found = two("water-based lacquer", "water stain").check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().expect("they may change places");
        assert_eq!(mend.words, "water stain before water-based lacquer");
        let found = two("hard-wax oil", "water-based lacquer").check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().expect("one may go");
        assert_eq!(mend.words, "no water-based lacquer");
    }

    #[test]
    fn shellac_goes_between_what_would_lift() {
        let found = with(&[
            ("finish.1.part", "oil paint"),
            ("finish.2.part", "solvent lacquer, spray"),
        ])
        .shelf(OIL_PAINT)
        .check(CHECK.id, &[Caution]);
        let mend = found[0].mend.as_ref().expect("shellac parts them");
        assert_eq!(
            mend.words,
            "a coat of shellac between oil paint and solvent lacquer, spray"
        );
    }

    #[test]
    fn layers_on_other_faces_do_not_meet() {
        with(&[
            ("finish.1.part", "wax paste"),
            ("finish.1.on.1", "front"),
            ("finish.2.part", "water-based lacquer"),
            ("finish.2.on.1", "back"),
        ])
        .check(CHECK.id, &[Good]);
    }
}
