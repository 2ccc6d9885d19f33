//! Electrical parts the box needs and the design does not name.

use super::{Check, Evidence, Verdict};
use crate::electrics::Electrics;

pub(super) const CHECK: Check = Check {
    id: "parts-named",
    title: "Electrical parts that are missing",
    what: "Whether the design names a fuse, a main switch, a source, and what else its wires need.",
    why: "What is not named is not bought, has no place on the panel, and its ratings cannot be \
held against anything.",
    limits: "Silent while the design names no electrical part at all: then the whole net list is a \
proposal.",
    bad: "a panel with switch and socket, and no fuse anywhere",
    good: "a fuse holder with its fuse as a [[module]] close to the battery",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let design = evidence.design();
    let begun = design.control.is_some() || !design.modules.is_empty();
    if !begun {
        return Vec::new();
    }
    if electrics.assumed.is_empty() {
        return vec![Verdict::good(
            "No electrical part is missing",
            all(electrics),
        )];
    }
    let words: Vec<&str> = electrics
        .assumed
        .iter()
        .map(|assumed| assumed.words.as_str())
        .collect();
    let cause = format!(
        "Assumed, because the design names none: {}.",
        words.join("; ")
    );
    let keys = electrics
        .assumed
        .iter()
        .map(|assumed| electrics.system.parts[assumed.part].name.clone());
    let verdict = keys.fold(
        Verdict::caution("Electrical parts are missing", cause),
        |verdict, key| verdict.about([key], 1.0),
    );
    vec![verdict.advice(
        "name them: parts of the panel under [[control.part]], those inside under [[module]]",
    )]
}

/// That all is named but what need not be.
fn all(electrics: &Electrics) -> String {
    let mut small: Vec<&str> = Vec::new();
    for (_, behind) in electrics.small_goods() {
        if !small.contains(&behind.label.as_str()) {
            small.push(&behind.label);
        }
    }
    let named = "The design names every electrical part the net list needs";
    if small.is_empty() {
        format!("{named}.")
    } else {
        format!(
            "{named}, but for small goods, which the shopping list names: {}.",
            small.join("; ")
        )
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check};
    use super::CHECK;
    use crate::check::Severity::Caution;

    #[test]
    fn a_panel_without_a_fuse_is_noticed() {
        check(CHECK.id, &[], &[]);
        let found = check(CHECK.id, PANEL, &[Caution]);
        assert!(found[0].cause.contains("fuse"), "{}", found[0].cause);
        assert!(!found[0].cause.contains("switch"), "{}", found[0].cause);
    }
}
