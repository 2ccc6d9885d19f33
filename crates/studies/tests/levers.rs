//! What a step of a lever does is what the studies say of the edited file: the difference of
//! two reports on two texts, which share nothing with how levers are tried.

use boxwright_studies as studies;
use std::path::Path;
use studies::check::Edit;
use studies::{Memory, Options, Report, Texts, apply, survey};

const OPTIONS: Options<'static> = Options {
    builds: 0,
    spread: 1.0,
    progress: &|_| {},
};

fn texts<'a>(design: &'a str) -> Texts<'a> {
    Texts {
        design,
        shelf: None,
    }
}

fn example(name: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    std::fs::read_to_string(root.join(name).join("design.toml")).expect("the example is there")
}

fn value(report: &Report, promise: &str) -> f64 {
    let found = report.promises.iter().find(|p| p.id == promise);
    found.expect("every report has this promise").value
}

#[test]
fn a_step_does_what_the_edited_file_says() {
    let text = example("workshop-mono");
    let before = Memory::default().run(texts(&text), OPTIONS).unwrap();
    assert!(before.levers.len() > 5, "{:?}", before.levers);
    let mut moved = 0;
    for lever in &before.levers {
        // What stands in the file is what the lever shows.
        let same = Edit {
            key: lever.key.clone(),
            value: Some(lever.text(lever.value)),
        };
        assert_eq!(apply(&text, &[same]).unwrap(), text, "{}", lever.label);
        let Some(does) = &lever.does else {
            panic!("{} was not tried", lever.label)
        };
        let edit = Edit {
            key: lever.key.clone(),
            value: Some(lever.text(lever.value + does.step)),
        };
        let edited = apply(&text, &[edit]).unwrap();
        let after = survey(texts(&edited), OPTIONS).unwrap();
        for (promise, change) in &does.promises {
            let (old, new) = (value(&before, promise), value(&after, promise));
            // The same laws on the same numbers; only the order of sums may differ.
            let off = (new - old - change).abs();
            assert!(
                off <= 1e-6 * (1.0 + old.abs()),
                "{} {promise}: {change} against {}",
                lever.label,
                new - old
            );
            moved += usize::from(change.abs() > 1e-3 * old.abs());
        }
    }
    assert!(moved > 5, "levers that move nothing prove nothing");
}
