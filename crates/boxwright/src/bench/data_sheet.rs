//! A driver typed in from its data sheet: what follows, and how the shelf says it.

use design::{Diagnostic, DriverPart};
use maud::{Markup, html};
use std::collections::BTreeMap;

/// Keys of a driver on the shelf that are words.
const WORDS: [&str; 3] = ["name", "about", "kind"];

/// A shelf with one driver, as a maker would write it.
fn shelf_text(values: &BTreeMap<String, String>) -> String {
    let given = |key: &str| {
        values
            .get(key)
            .map(|value| value.trim())
            .filter(|v| !v.is_empty())
    };
    let name = name(values);
    let kind = given("kind").unwrap_or("full-range");
    let mut text = format!(
        "[[driver]]\nname = {}\nkind = {}\n",
        design::quoted(name),
        design::quoted(kind)
    );
    for key in values.keys() {
        let Some(value) = given(key).filter(|_| !WORDS.contains(&key.as_str())) else {
            continue;
        };
        // A bare number stands without quotes, everything else with them.
        let value = match value.parse::<f64>() {
            Ok(number) if number.is_finite() => value.to_owned(),
            _ => design::quoted(value),
        };
        let is_bare = key.chars().all(|c| c.is_ascii_lowercase() || c == '_');
        let key = if is_bare {
            key.clone()
        } else {
            design::quoted(key)
        };
        text += &format!("{key} = {value}\n");
    }
    text
}

/// What follows from the values, or what is wrong with them.
pub(super) fn fragment(values: &BTreeMap<String, String>) -> Markup {
    let is_said = |(key, value): (&String, &String)| {
        !WORDS.contains(&key.as_str()) && !value.trim().is_empty()
    };
    if !values.iter().any(is_said) {
        return html! { p.quiet { "Type what the data sheet says; what follows appears here." } };
    }
    let name = name(values);
    let text = shelf_text(values);
    match read(&text, name) {
        Ok(part) => told(&part, &text, &[]),
        // Too little for a study may be enough for something to follow.
        Err(found) if found.iter().all(|problem| problem.code == BARE) => {
            let given = |key: &str| {
                values
                    .get(key)
                    .is_some_and(|value| !value.trim().is_empty())
            };
            let stand_ins = STAND_INS.iter().filter(|(key, _)| !given(key));
            let filled: String = stand_ins.map(|(_, line)| *line).collect();
            match read(&format!("{text}{filled}"), name) {
                Ok(part) => told(&part, &text, &found),
                Err(_) => problems(&found),
            }
        }
        Err(found) => problems(&found),
    }
}

/// What is said of a driver of which too little is known.
const BARE: &str = "driver-bare";

/// Lines that make a driver readable and from which no other value follows.
const STAND_INS: [(&str, &str); 2] = [
    ("size", "size = \"4 in\"\n"),
    ("impedance", "impedance = \"4 ohm\"\n"),
];

/// The driver of this name on a shelf with this text.
fn read(text: &str, name: &str) -> Result<DriverPart, Vec<Diagnostic>> {
    let shelf = design::read_shelf(Some(&format!("format = 1\n{text}")))?;
    let mut drivers = shelf.drivers.into_iter();
    let found = drivers.find(|part| part.common.name.text == name);
    found.ok_or_else(Vec::new)
}

/// Its name, or one until it has its own.
fn name(values: &BTreeMap<String, String>) -> &str {
    let given = values.get("name").map(|name| name.trim());
    given
        .filter(|name| !name.is_empty())
        .unwrap_or("new driver")
}

fn problems(found: &[Diagnostic]) -> Markup {
    html! {
        ul.problems { @for problem in found {
            li { strong { (problem.message) } " – " (problem.mend) }
        } }
    }
}

fn told(part: &DriverPart, text: &str, wanting: &[Diagnostic]) -> Markup {
    let sheet = studies::data_sheet(part);
    html! {
        @for problem in wanting { p.quiet { (problem.message) ": " (problem.mend) } }
        @for doubt in &sheet.doubts { p.warn { (doubt) } }
        dl.figures { @for value in &sheet.values {
            dt { (value.words) " (" (value.key) ")" }
            dd { (value.said) " " small { @if value.stated { "as you say" } @else { "follows" } } }
        } }
        @if !sheet.missing.is_empty() {
            p.quiet { "Neither stated nor implied, so the studies would expect what such drivers have: "
                (sheet.missing.join(", ")) "." }
        }
        p { "For your " code { "shelf.toml" } ":" }
        pre { code { (text) } }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(values: &[(&str, &str)]) -> String {
        let values = values
            .iter()
            .map(|(key, value)| ((*key).into(), (*value).into()));
        fragment(&values.collect()).into_string()
    }

    #[test]
    fn values_follow_as_they_are_typed() {
        assert!(said(&[]).contains("data sheet"));
        assert!(said(&[("name", "mine"), ("fs", "")]).contains("data sheet"));
        let some = said(&[("qms", "4"), ("qes", " 0.5 "), ("fs", "80 Hz")]);
        assert!(some.contains("<dd>0.44 <small>follows"), "{some}");
        assert!(some.contains("\nfs = &quot;80 Hz"), "{some}");
    }

    #[test]
    fn mistakes_are_told_and_stay_text() {
        assert!(said(&[("fs", "80 kg")]).contains("fs"));
        assert!(said(&[("nonsense", "1")]).contains("nonsense"));
        for (key, value) in [
            ("fs", "<script>\"'"),
            ("fs", "<script>"),
            ("<script>", "1"),
            ("fs", "1\"\n[[driver]]\nname = \"other"),
            ("a\" = 1\n[x]\n\"b", "1"),
        ] {
            let said = said(&[(key, value)]);
            assert!(!said.contains("<script>"), "{said}");
            assert!(said.contains("problems") || key == "name", "{said}");
        }
    }
}
