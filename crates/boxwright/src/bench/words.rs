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
