//! Changes in words, for undo.

use studies::check::Edit;

/// The longest value that is said whole.
const LONGEST: usize = 40;

/// What edits do to a text: "brief loudness 88 dB → 92 dB".
pub(super) fn edits(text: &str, edits: &[Edit]) -> String {
    match edits {
        [] => "nothing".to_owned(),
        [edit] => one(text, edit),
        [first, rest @ ..] => format!("{} and {} more", one(text, first), rest.len()),
    }
}

fn one(text: &str, edit: &Edit) -> String {
    let name = edit.key.replace(['.', '_'], " ");
    let name = short(&name);
    let old = design::value_at(text, &edit.path());
    match (old.as_deref(), edit.value.as_deref()) {
        (Some(old), Some(new)) => format!("{name} {} → {}", short(old), short(new)),
        (None, Some(new)) => format!("{name} {}", short(new)),
        (_, None) => format!("{name} taken out"),
    }
}

/// Whether what edits speak of is the same in two texts: the values at their keys, and all of
/// a table that is counted, for another one may have come before it.
pub(super) fn speak_of_the_same(one: &str, other: &str, edits: &[Edit]) -> bool {
    edits.iter().all(|edit| {
        let [here, there] = [one, other].map(|text| spoken_of(text, &edit.key));
        here == there
    })
}

/// Keys and values of the first counted table that a key leads through, else of the key.
fn spoken_of(text: &str, key: &str) -> Vec<(String, String)> {
    let mut end = 0;
    let counted = key.split('.').find_map(|step| {
        end += step.len() + 1;
        let is_count = step.bytes().all(|byte| byte.is_ascii_digit());
        (is_count && end > step.len() + 1).then(|| &key[..end - 1])
    });
    let root = counted.unwrap_or(key);
    let is_there = |found: &str| {
        let rest = found.strip_prefix(root);
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    };
    let mut found = design::written(text);
    found.retain(|(found, _)| is_there(found));
    found
}

/// A text as far as there is room for it.
pub(super) fn short(text: &str) -> String {
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    let kept: String = text.chars().take(LONGEST).collect();
    format!("{}…", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;

    const PARTS: &str =
        "a = 1\n[[b]]\npart = \"x\"\n[[b]]\npart = \"y\"\nat = \"1 mm\"\n[[b.c]]\nd = 1\n";

    #[test]
    fn edits_speak_of_what_stands_at_their_keys() {
        let moved = PARTS.replacen("[[b]]", "[[b]]\npart = \"new\"\n[[b]]", 1);
        let edit = |key: &str| Edit {
            key: key.to_owned(),
            value: None,
        };
        for (key, same) in [
            ("a", true),
            ("none", true),
            ("b.1.part", false),
            ("b.2.at", false),
            ("b.2.none", false),
            ("b.2.c.1.d", false),
        ] {
            assert_eq!(
                speak_of_the_same(PARTS, &moved, &[edit(key)]),
                same,
                "{key}"
            );
            assert!(speak_of_the_same(PARTS, PARTS, &[edit(key)]), "{key}");
        }
        let other = PARTS.replace("1 mm", "2 mm");
        assert!(speak_of_the_same(
            PARTS,
            &other,
            &[edit("b.1.part"), edit("a")]
        ));
        assert!(!speak_of_the_same(
            PARTS,
            &other,
            &[edit("a"), edit("b.2.c.1.d")]
        ));
    }

    #[test]
    fn changes_are_said_with_old_and_new() {
        let text = "[brief]\nloudness = \"88 dB\"\n[[drivers]]\ncount = 2\n";
        let edit = |key: &str, value: Option<&str>| Edit {
            key: key.into(),
            value: value.map(Into::into),
        };
        for (edit, said) in [
            (
                edit("brief.loudness", Some("92 dB")),
                "brief loudness 88 dB → 92 dB",
            ),
            (edit("drivers.1.count", Some("1")), "drivers 1 count 2 → 1"),
            (edit("brief.lowest", Some("70 Hz")), "brief lowest 70 Hz"),
            (edit("brief.loudness", None), "brief loudness taken out"),
        ] {
            assert_eq!(edits(text, &[edit]), said);
        }
    }
}
