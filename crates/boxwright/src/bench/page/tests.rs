//! The page of every example: whole, escaped, every id once.

use super::view::{LOOKS, PROMISES, SheetOf};
use super::{View, parts, shelf, tried, whole};
use crate::bench::state::{Stage, State, Studied};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::{Arc, OnceLock};
use studies::{Options, Texts};

fn studied(text: &str, shelf: Option<&str>) -> Studied {
    let texts = Texts {
        design: text,
        shelf,
    };
    let options = Options {
        builds: 0,
        spread: 1.0,
        progress: &|_| {},
    };
    let project = design::read(text, shelf).unwrap();
    let report = studies::survey(texts, options).unwrap();
    Studied::new(project, report)
}

fn state(text: &str, shelf: Option<&str>) -> State {
    State {
        number: 7,
        stage: Stage::Nominal,
        busy: Some((10, 2000)),
        file: "design.toml".into(),
        text: text.into(),
        shelf: shelf.map(Into::into),
        studied: Some(Arc::new(studied(text, shelf))),
        held: None,
        problems: Vec::new(),
        undo: Some("brief loudness 88 dB → 92 dB".into()),
        redo: None,
        done: BTreeSet::new(),
        conflict: None,
        pictures: Arc::default(),
        notice: None,
    }
}

fn read(name: &str, file: &str) -> Option<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    std::fs::read_to_string(root.join(name).join(file)).ok()
}

/// The three examples, studied once.
fn examples() -> &'static [State; 3] {
    static STATES: OnceLock<[State; 3]> = OnceLock::new();
    STATES.get_or_init(|| {
        ["workshop-mono", "bathing-beach", "salvage-party"].map(|name| {
            let text = read(name, "design.toml").unwrap();
            state(&text, read(name, "shelf.toml").as_deref())
        })
    })
}

/// Opening tags of a page, each with its attributes.
fn tags(page: &str) -> Vec<(String, BTreeMap<String, String>)> {
    let mut out = Vec::new();
    for piece in page.split('<').skip(1) {
        let end = piece.find('>').expect("every tag ends");
        let tag = piece[..end].trim_end_matches('/');
        if tag.starts_with(['/', '!']) {
            continue;
        }
        let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
        let mut attributes = BTreeMap::new();
        while !rest.trim().is_empty() {
            rest = rest.trim_start();
            let Some((key, after)) = rest.split_once("=\"") else {
                break;
            };
            let (value, after) = after.split_once('"').expect("every value ends");
            let key = key.rsplit(' ').next().unwrap_or(key);
            attributes.insert(key.to_owned(), value.to_owned());
            rest = after;
        }
        out.push((name.to_owned(), attributes));
    }
    out
}

fn sound(page: &str) {
    let mut seen = BTreeSet::new();
    let tags = tags(page);
    for (name, attributes) in &tags {
        if let Some(id) = attributes.get("id") {
            assert!(seen.insert(id.clone()), "{id} stands twice");
        }
        assert!(
            !attributes.contains_key("style") && name != "style",
            "{name}: inline style"
        );
        let handler = attributes.keys().find(|key| key.starts_with("on"));
        assert!(handler.is_none(), "{name}: {handler:?}");
        if name == "script" {
            assert_eq!(
                attributes.get("src").map(String::as_str),
                Some("/asset/bench.js")
            );
        }
    }
    // Whatever is named by another element is there, and every input is named.
    for (name, attributes) in &tags {
        for key in ["for", "aria-labelledby", "aria-describedby", "data-output"] {
            if let Some(id) = attributes.get(key) {
                assert!(seen.contains(id), "{name}: {key}={id} leads nowhere");
            }
        }
        let typed = ["input", "select", "textarea"].contains(&name.as_str())
            && attributes.get("type").is_none_or(|kind| kind != "hidden");
        if typed {
            let id = attributes.get("id").expect("what is typed in has an id");
            let named = attributes.contains_key("aria-label")
                || tags
                    .iter()
                    .any(|(n, a)| n == "label" && a.get("for") == Some(id));
            assert!(named, "{id} has no name");
        }
    }
}

#[test]
fn every_sheet_of_every_example_is_sound() {
    for state in examples() {
        for sheet in SheetOf::ALL {
            let view = View {
                sheet,
                ..View::default()
            };
            sound(&whole(state, &view, "token").into_string());
        }
        for (look, ..) in LOOKS {
            for promise in PROMISES {
                let view = View {
                    look,
                    promise,
                    part: Some("battery".into()),
                    ..View::default()
                };
                sound(&parts(state, &view).into_string());
            }
        }
    }
}

#[test]
fn every_promise_and_every_wish_is_on_the_page() {
    for state in examples() {
        let page = parts(state, &View::default()).into_string();
        let studied = state.studied.as_ref().unwrap();
        for promise in &studied.report.promises {
            let value = studies::words::bare(promise.value, &promise.unit);
            let tile = page
                .split(&format!("id=\"promise-{}\"", promise.id))
                .nth(1)
                .unwrap();
            assert!(
                tile[..1200].contains(&format!("<strong>{value}</strong>")),
                "{}",
                promise.id
            );
        }
        for (key, value) in design::written(&state.text) {
            if key.starts_with("brief.") {
                assert!(
                    page.contains(&format!("data-key=\"{key}\" data-was=\"{value}\"")),
                    "{key}"
                );
            }
        }
        for lever in &studied.report.levers {
            assert!(
                page.contains(&format!("data-template=\"{}\"", lever.template)),
                "{}",
                lever.label
            );
        }
    }
}

#[test]
fn what_a_maker_names_stays_text() {
    let evil = "<script>alert('x')</script>\\\"&--><svg onload=x>";
    let text = read("workshop-mono", "design.toml").unwrap();
    let edits: Vec<studies::check::Edit> = design::written(&text)
        .into_iter()
        .filter(|(key, _)| key == "name" || key.ends_with(".name") || key.ends_with(".label"))
        .map(|(key, _)| studies::check::Edit {
            value: Some(format!("{evil} {key}")),
            key,
        })
        .collect();
    assert!(edits.len() > 2, "the example names things");
    let text = studies::apply(&text, &edits).unwrap();
    let mut state = state(&text, None);
    state.file = evil.into();
    state.notice = Some(evil.into());
    state.undo = Some(evil.into());
    for sheet in SheetOf::ALL {
        let view = View {
            sheet,
            part: Some(evil.into()),
            ..View::default()
        };
        let page = whole(&state, &view, evil).into_string();
        assert!(!page.contains("<script>"), "{sheet:?}");
        assert!(!page.contains("<svg onload"), "{sheet:?}");
        sound(&page);
    }
}

#[test]
fn a_broken_file_is_told_with_its_line_and_can_be_edited() {
    let good = &examples()[0];
    let text = good.text.replace("loudness = \"", "loudness = \"very ");
    let problems = design::read(&text, None).unwrap_err();
    let broken = State {
        stage: Stage::Broken,
        text: text.as_str().into(),
        studied: None,
        problems: problems.clone(),
        ..state(&good.text, None)
    };
    let page = whole(&broken, &View::default(), "token").into_string();
    sound(&page);
    let line = 1 + text
        .lines()
        .position(|line| line.contains("very "))
        .unwrap();
    assert!(page.contains(&format!("line {line}")), "{problems:?}");
    assert!(page.contains("id=\"file-text\"") && page.contains("very "));
}

#[test]
fn a_trial_tells_every_promise_and_what_comes_and_goes() {
    let [state, ..] = examples();
    let before = state.studied.as_ref().unwrap();
    let edit = studies::check::Edit {
        key: "brief.largest".into(),
        value: Some("100 x 100 x 100 mm".into()),
    };
    let after = studied(&studies::apply(&state.text, &[edit]).unwrap(), None);
    let told = tried(before, &after).into_string();
    for promise in &before.report.promises {
        assert!(told.contains(promise.title), "{told}");
    }
    assert!(
        told.contains("Comes") && told.contains("data-severity=\"stop\""),
        "{told}"
    );
    let back = tried(&after, before).into_string();
    assert!(back.contains("Goes") && !back.contains("Comes"), "{back}");
}

#[test]
fn the_shelf_is_searched_by_words_and_kind() {
    let all = design::read_shelf(None).unwrap();
    let found = |search: &str, kind: &str| {
        let page = shelf(&all, search, kind).into_string();
        page.matches("<li>").count()
    };
    assert!(found("", "driver") > 2);
    assert!(found("12 V", "battery") < found("", "battery"));
    assert_eq!(found("no such thing", ""), 0);
    assert!(
        !shelf(&all, "<script>", "<b>")
            .into_string()
            .contains("<script>")
    );
}

#[test]
fn the_style_sheet_has_the_colours_of_the_sheets() {
    use drawings::{Role, Theme};
    let css = include_str!("../asset/bench.css");
    for (theme, times) in [(Theme::Paper, 1), (Theme::Blueprint, 2)] {
        for role in Role::ALL {
            let c = theme.colour(role);
            let line = format!("--{}: #{:02x}{:02x}{:02x};", role.name(), c.0, c.1, c.2);
            assert!(css.matches(&line).count() >= times, "{line}");
        }
    }
}
