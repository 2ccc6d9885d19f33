//! What the manual and `explain` tell about every check.

use boxwright_studies::check::{ALL, find};
use std::collections::BTreeSet;

/// In place of a source where there is none.
const PRACTICE: &str = "common practice, no source";

const BIBLIOGRAPHY: &str = include_str!("../../../../bibliography.toml");

fn keys() -> BTreeSet<&'static str> {
    let headers = BIBLIOGRAPHY.lines().filter_map(|line| {
        let header = line.trim().strip_prefix('[')?.strip_suffix(']')?;
        Some(header.trim_matches('"'))
    });
    headers.collect()
}

#[test]
fn sources_stand_in_the_bibliography() {
    let keys = keys();
    assert!(keys.contains("small-1972"));
    for check in ALL {
        assert!(!check.sources.is_empty(), "{}", check.id);
        for source in check.sources {
            assert!(
                *source == PRACTICE || keys.contains(source),
                "{}: {source}",
                check.id
            );
        }
    }
}

#[test]
fn ids_are_unique_plain_and_found() {
    let ids: BTreeSet<&str> = ALL.iter().map(|check| check.id).collect();
    assert_eq!(ids.len(), ALL.len());
    for id in ids {
        let plain = |c: char| c.is_ascii_lowercase() || c == '-';
        assert!(id.chars().all(plain) && !id.is_empty(), "{id}");
        assert_eq!(find(id).map(|check| check.id), Some(id));
    }
    assert!(find("no such check").is_none());
}

#[test]
fn what_can_hurt_comes_first_and_the_brief_next() {
    let group = |id: &str| match id {
        "lead-acid-airtight" | "battery-bay" | "lithium-care" | "hearing" => 0,
        _ if id.starts_with("brief-") => 1,
        _ => 2,
    };
    let order: Vec<u32> = ALL.iter().map(|check| group(check.id)).collect();
    assert!(order.is_sorted(), "{order:?}");
}

#[test]
fn texts_are_whole_sentences() {
    for check in ALL {
        for text in [check.what, check.why, check.limits] {
            assert!(text.ends_with('.'), "{}: {text}", check.id);
        }
        for text in [check.title, check.bad, check.good] {
            assert!(
                !text.is_empty() && !text.ends_with('.'),
                "{}: {text}",
                check.id
            );
        }
        for text in [
            check.title,
            check.what,
            check.why,
            check.limits,
            check.bad,
            check.good,
        ] {
            assert!(
                !text.contains("  ") && text.trim() == text,
                "{}: {text}",
                check.id
            );
        }
    }
}
