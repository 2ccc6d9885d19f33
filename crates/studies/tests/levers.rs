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

/// In a file that speaks fractions of an inch, levers move by the marks of a rule.
#[test]
fn inches_are_moved_in_fractions() {
    let text = example("bathing-beach");
    let line = text.lines().find(|line| line.starts_with("outside = "));
    let line = line.expect("the example says its size");
    let inches = text.replace(line, "outside = \"14 x 8 x 7 1/2 in ± 1/16 in\"");
    let before = survey(texts(&inches), OPTIONS).unwrap();
    for (name, size) in [
        ("box width", "14 1/2 x 8 x 7 1/2 in ± 1/16 in"),
        ("box height", "14 x 8 1/2 x 7 1/2 in ± 1/16 in"),
        ("box depth", "14 x 8 x 8 in ± 1/16 in"),
    ] {
        let lever = before.levers.iter().find(|lever| lever.label == name);
        let lever = lever.expect("a size in inches has its levers");
        assert_eq!(
            (lever.unit, lever.step, lever.fine),
            ("in", 0.5, 1.0 / 32.0)
        );
        assert_eq!(lever.text(lever.value + lever.step), size);
        let edit = Edit {
            key: lever.key.clone(),
            value: Some(lever.text(lever.value + lever.fine)),
        };
        let edited = apply(&inches, &[edit]).unwrap();
        let after = survey(texts(&edited), OPTIONS).unwrap();
        let [old, new] = [&before, &after].map(|report| report.accounts.outside);
        let grown: f64 = new.iter().zip(old).map(|(new, old)| new - old).sum();
        assert!((grown - 0.0254 / 32.0).abs() < 1e-9, "{name}: {grown}");
    }
}
