//! Tests of the build order against the maker's tools.

use super::{Check, Evidence, Verdict};
use crate::order::lacking;

pub(super) const CHECK: Check = Check {
    id: "tests-possible",
    title: "Tests your tools can take",
    what: "Whether every test of the build order can be taken with the instruments listed under \
[workshop], in one way or another.",
    why: "A fault found at the bench costs minutes; the same one found in a closed box costs the \
box. What is not measured before closing is found out in use.",
    limits: "Only instruments are held against the tests; where another one does as well, the \
order says how. How well they read is taken as of a common multimeter.",
    bad: "tools = [\"phone\"]: nobody measures the idle current, or the sag of the battery",
    good: "tools = [\"multimeter\", \"phone\"]",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let design = evidence.design();
    let lacks = lacking(&design.workshop, design.indicator.as_ref());
    let Some(first) = lacks.first() else {
        return vec![Verdict::good(
            "Your tools take every test",
            "Every test of the build order can be taken with what is listed under [workshop].",
        )];
    };
    let named: Vec<&str> = lacks.iter().map(|lack| lack.test).collect();
    let mut wants: Vec<&str> = Vec::new();
    for lack in &lacks {
        if !wants.contains(&lack.wants) {
            wants.push(lack.wants);
        }
    }
    let cause = format!(
        "With the instruments listed, nobody can measure {}.",
        words(&named)
    );
    let said = Verdict::caution("Some tests cannot be taken", cause)
        .advice(format!(
            "borrow {} for the days of the tests, and list it under [workshop]",
            wants.join(", and ")
        ))
        .measured(lacks.len() as f64, 0.0, "");
    let place = design.workshop.place;
    vec![said.at(place).about([first.id], lacks.len() as f64)]
}

fn words(list: &[&str]) -> String {
    match list.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => list.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_phone_alone_does_not_do() {
        check(CHECK.id, &[], &[Good]);
        check(CHECK.id, &[("workshop.tools.1", "phone")], &[Caution]);
    }
}
