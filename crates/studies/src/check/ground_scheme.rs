//! Where grounds meet.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use crate::words::number;
use design::Ground;
use wiring::rules::{Breach, BreachKind};
use wiring::{Carries, Kind, Through};

pub(super) const CHECK: Check = Check {
    id: "ground-scheme",
    title: "Grounds meet in one point",
    what: "Whether every return leads to the star by a wire of its own, a converter meant to isolate \
does, and no supply current flows along signal grounds.",
    why: "A radio module's supply current in a signal ground, or the amplifier's in a shared return, \
is heard as whine, clicks and hum.",
    limits: "Direct currents in the net list. A radio module that shares supply and signal ground with \
the amplifier sends a part of its current along the signal ground whatever the star; if it whines, an \
isolated converter ends it.",
    bad: "a converter that joins its grounds where an isolated one is wanted",
    good: "each return on its own wire to the ground strip beside the amplifier",
    sources: &["common practice, no source"],
    run,
};

/// Current in a signal ground above which something is wrong, in A: common practice, no source.
const STRAY: f64 = 0.05;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let kinds = [BreachKind::ReturnChained, BreachKind::NotIsolated];
    let say = |names: &[String], breach: &Breach| match breach.kind {
        BreachKind::ReturnChained => capital(&format!(
            "the return from {} leads through {}",
            names[0], names[1]
        )),
        _ => capital(&format!(
            "{} and {} are to be apart and are joined",
            names[0], names[1]
        )),
    };
    let mut found = stops(
        evidence,
        &kinds,
        "Grounds do not meet in one point",
        say,
        "lead each return to the star by a wire of its own",
    );
    found.extend(not_isolated(evidence));
    let signal = |index: &usize| electrics.harness[*index].carries == Carries::Signal;
    let stray = (0..electrics.harness.len())
        .filter(signal)
        .map(|index| (electrics.harness[index].continuous, index))
        .fold(
            (0.0, 0),
            |worst, own| if own.0 > worst.0 { own } else { worst },
        );
    if stray.0 > STRAY {
        let wire = &electrics.harness[stray.1];
        let cause = format!(
            "{} from {} to {} is a signal wire and carries {} of supply current.",
            wire.label,
            wire.from,
            wire.to,
            number(stray.0, "A")
        );
        found.push(
            Verdict::caution("Supply current in a signal ground", cause)
                .measured(stray.0, STRAY, "A")
                .advice("look for a second way to ground: a return left out, or bare metal on the panel")
                .mends(super::circuit::wire_mends(evidence)),
        );
    }
    if found.is_empty() {
        let cause =
            "Every return has a wire of its own to the star, and signal grounds carry no supply.";
        found.push(Verdict::good("Grounds meet in one point", cause));
    }
    found
}

/// A converter that does not isolate where one is wanted that does.
fn not_isolated(evidence: &Evidence<'_>) -> Option<Verdict> {
    let plan = &evidence.design().wiring;
    if plan.ground.value != Ground::IsolatedConverter {
        return None;
    }
    let system = &evidence.electrics()?.system;
    let joins = system.parts.iter().any(|part| {
        part.kind == Kind::Converter
            && part
                .inner
                .iter()
                .any(|inner| inner.through == Through::Metal)
    });
    joins.then(|| {
        Verdict::stop(
            "Converter does not isolate",
            "The design wants an isolated converter; the one it names joins its grounds.",
        )
        .at(plan.ground.place)
        .advice("take an isolated converter, or ground = \"star\"")
        .mends([super::Candidate::set(
            "one star for all grounds",
            "wiring.ground",
            "star",
        )])
    })
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_converter_must_isolate_where_it_is_wanted() {
        check(CHECK.id, &[], &[Good]);
        let converter = "[[module]]\nname = \"own converter\"\nkind = \"converter\"\nsupply_min = \"9 V\"\nsupply_max = \"18 V\"\noutput_current = \"1 A\"\nefficiency = \"80 %\"\noutput_voltage = \"5 V\"\nisolated = ";
        let keys = [
            ("module.1.part", "own converter"),
            ("module.1.place", "auto"),
            ("wiring.ground", "isolated converter"),
        ];
        let joined = with(&[]).shelf(&format!("{converter}false")).with(&keys);
        let found = joined.check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some());
        let apart = with(&[]).shelf(&format!("{converter}true")).with(&keys);
        apart.check(CHECK.id, &[Good]);
    }
}
