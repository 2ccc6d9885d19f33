//! Where tests stand among the steps.

use super::Site;
use crate::order::draft::{Draft, Drafts};
use crate::order::lacking;
use crate::order::model::{Why, Work};
use crate::order::times;
use crate::words;

/// A test, what must be there before it, and whether it can be taken only in the shut box.
struct Trial {
    id: &'static str,
    title: &'static str,
    time: f64,
    after: &'static [&'static str],
    /// Taken before the box is shut, since what it tests is then out of reach.
    open: bool,
}

/// Tests in the order in which each makes the next one safe.
const TRIALS: &[Trial] = &[
    trial(
        "test-indicator",
        "Trip points of the indicator",
        times::LONG_TEST,
        &["indicator"],
    ),
    trial(
        "test-cut-off",
        "Trip point of the cut-off",
        times::LONG_TEST,
        &["cut-off"],
    ),
    trial(
        "test-isolation",
        "Outputs touch nothing else",
        times::TEST,
        &["wire-outputs"],
    ),
    trial(
        "test-coils",
        "Resistance of the coils",
        times::TEST,
        &["wire-outputs", "test-isolation"],
    ),
    trial(
        "test-polarity",
        "Cones move the same way",
        times::TEST,
        &["wire-outputs", "test-coils"],
    ),
    trial(
        "test-power-up",
        "First power behind a small fuse",
        times::TEST,
        &["wire", "test-isolation", "test-coils"],
    ),
    trial("test-idle", "Idle current", times::TEST, &["test-power-up"]),
    trial(
        "test-offset",
        "Direct voltage at the outputs",
        times::TEST,
        &["test-power-up", "test-idle"],
    ),
    trial(
        "test-sine",
        "A sine at the terminals",
        times::LONG_TEST,
        &["test-offset", "test-polarity"],
    ),
    trial(
        "test-sag",
        "Sag of the battery",
        times::TEST,
        &["test-sine"],
    ),
    closed(
        "test-soak",
        "An hour's soak",
        times::TEST,
        &["test-sine", "test-sag"],
    ),
    closed("test-leak", "Tightness", times::TEST, &[]),
    closed(
        "test-impedance",
        "Impedance of the closed box",
        times::LONG_TEST,
        &["test-leak", "test-sine", "test-pair"],
    ),
    closed(
        "test-buzz",
        "A sweep for buzz",
        times::LONG_TEST,
        &["test-leak", "test-sine"],
    ),
];

const fn trial(
    id: &'static str,
    title: &'static str,
    time: f64,
    after: &'static [&'static str],
) -> Trial {
    Trial {
        id,
        title,
        time,
        after,
        open: true,
    }
}

const fn closed(
    id: &'static str,
    title: &'static str,
    time: f64,
    after: &'static [&'static str],
) -> Trial {
    Trial {
        open: false,
        ..trial(id, title, time, after)
    }
}

pub(super) fn add(drafts: &mut Drafts, site: &Site<'_>) {
    let shutting = site.shutting();
    pair(drafts, site);
    for trial in TRIALS {
        let there = match trial.id {
            "test-indicator" => site.has_indicator(),
            "test-cut-off" => site.cuts_off,
            _ => true,
        };
        if !there {
            continue;
        }
        let mut draft = Draft::new(Work::Test, trial.title, trial.time);
        if trial.id == "test-soak" {
            draft = draft.wait(times::SOAK, "the hour to pass");
        }
        drafts.add(trial.id, draft);
    }
    for trial in TRIALS {
        drafts.after(trial.id, trial.after.iter().copied(), Why::Test);
        // What stays in a box glued shut is soaked before, with the last wall laid on.
        let before = trial.open || (trial.id == "test-soak" && site.is_hidden_for_good());
        if before {
            drafts.after(shutting, [trial.id], Why::Test);
        } else {
            drafts.after(
                trial.id,
                shut(drafts, site).iter().map(String::as_str),
                Why::Work,
            );
        }
    }
    drafts.after(
        "wire",
        [
            "test-indicator",
            "test-cut-off",
            "test-isolation",
            "test-coils",
            "test-polarity",
        ],
        Why::Test,
    );
    drafts.after("filling", ["test-sag"], Why::Access);
    // Feet and grille hide nothing, but rattle like the rest.
    drafts.after(
        "test-buzz",
        ["fit-feet", "fit-grille", "fit-handle"],
        Why::Work,
    );
}

/// Wires that the impedance of the shut box is read at, where there are tools to read it.
fn pair(drafts: &mut Drafts, site: &Site<'_>) {
    let lacks = lacking(&site.design.workshop, None);
    if lacks.iter().any(|lack| lack.id == "test-impedance") {
        return;
    }
    let way = if site.screwed {
        format!(
            "led out across the sealing strip of the {}",
            words::wall(site.last)
        )
    } else {
        "led out under its frame and sealed with putty".to_owned()
    };
    let draft = Draft::new(
        Work::Wiring,
        "A thin pair for the test of the shut box",
        times::SMALL_PART,
    )
    .say(format!("two thin wires from one driver's terminals, {way}"))
    .with(["soldering iron", "putty"]);
    drafts.add("test-pair", draft);
    drafts.after("test-pair", ["wire-outputs", "test-coils"], Why::Wiring);
    drafts.after(site.shutting(), ["test-pair"], Why::Access);
}

/// Everything that must be in and on before the box is tight.
fn shut(drafts: &Drafts, site: &Site<'_>) -> Vec<String> {
    let mut ids: Vec<String> = drafts.like("fit-");
    ids.retain(|id| !matches!(id.as_str(), "fit-feet" | "fit-grille" | "fit-handle"));
    ids.push(site.shutting().to_owned());
    ids.push("close".to_owned());
    ids
}
