//! Values that are changed where they stand.

use maud::{Markup, html};

/// A value of the design that is typed in its place.
pub(super) struct Field<'a> {
    /// What of the page it stands in: the same key may stand twice.
    pub(super) room: &'a str,
    /// Table and key.
    pub(super) key: &'a str,
    /// As written; nothing where the design says nothing.
    pub(super) value: Option<&'a str>,
    /// What it is, for those who do not see it.
    pub(super) label: &'a str,
    /// What holds where nothing is written.
    pub(super) unsaid: &'a str,
}

/// Letters a field has room for at least and at most.
const ROOM: (usize, usize) = (3, 42);

impl Field<'_> {
    fn id(&self) -> String {
        format!("{}-{}", self.room, self.key.replace('.', "-"))
    }

    /// As one of the words of a sentence.
    pub(super) fn word(&self) -> Markup {
        let id = self.id();
        let value = self.value.unwrap_or_default();
        let shown = if value.is_empty() { self.unsaid } else { value };
        let size = shown.chars().count().clamp(ROOM.0, ROOM.1);
        html! {
            span.field {
                input.word id=(id) type="text" value=(value) size=(size) aria-label=(self.label)
                    aria-describedby={ (id) "-error" } placeholder=(self.unsaid)
                    data-key=(self.key) data-was=(value)
                    autocomplete="off" autocapitalize="off" spellcheck="false";
                span.error id={ (id) "-error" } role="alert" {}
            }
        }
    }

    /// As one of some words to choose from.
    pub(super) fn choice(&self, choices: &[(&str, &str)]) -> Markup {
        let id = self.id();
        let value = self.value.unwrap_or(self.unsaid);
        let known = choices.iter().any(|(word, _)| *word == value);
        html! {
            span.field {
                select.word id=(id) aria-label=(self.label) aria-describedby={ (id) "-error" }
                    data-key=(self.key) data-was=(value) {
                    @if !known { option value=(value) selected { (value) } }
                    @for (word, said) in choices {
                        option value=(word) selected[*word == value] { (said) }
                    }
                }
                span.error id={ (id) "-error" } role="alert" {}
            }
        }
    }
}

/// Words that a key is chosen from; none where it is typed.
pub(super) fn choices(key: &str) -> &'static [(&'static str, &'static str)] {
    let last = key.rsplit('.').next().unwrap_or(key);
    let table = key.split('.').next().unwrap_or(key);
    match (table, last) {
        ("brief", "programme") => &[
            ("music", "music"),
            ("speech", "speech"),
            ("squashed music", "squashed music"),
        ],
        ("place", "stands") => &[
            ("free", "free of everything"),
            ("ground", "outdoors on the ground"),
            ("wall", "outdoors against a wall"),
            ("indoors", "indoors"),
        ],
        (_, "sun" | "flush" | "flared" | "charged_inside" | "vented_bay" | "trim") => {
            &[("true", "yes"), ("false", "no")]
        }
        ("box", "leak") => &[
            ("tight", "tight"),
            ("usual", "as usual"),
            ("leaky", "leaky"),
        ],
        ("box", "chambers") => &[("shared", "shared"), ("one per side", "one per side")],
        ("box", "joints") => &[
            ("butt", "butt"),
            ("mitred ring", "mitred ring"),
            ("mitred", "mitred"),
            ("rebated", "rebated"),
        ],
        ("box", "front" | "back") => &[("overlaid", "overlaid"), ("inset", "inset")],
        ("box", "last_with") => &[("glue", "glue"), ("screws", "screws")],
        ("wiring", "ground") => &[
            ("star", "star"),
            ("isolated converter", "isolated converter"),
        ],
        ("wiring", "charging") => &[("separate", "separate"), ("shared", "shared")],
        ("indicator", "cut_off") => &[("none", "none"), ("relay", "relay"), ("mosfet", "mosfet")],
        ("saw", "kind") => &[
            ("panel saw", "panel saw"),
            ("table saw", "table saw"),
            ("track saw", "track saw"),
            ("hand saw", "hand saw"),
        ],
        _ => &[],
    }
}
