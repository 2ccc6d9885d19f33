//! A driver typed in from its data sheet: what follows, and how the shelf says it.

use crate::parts;
use design::{Diagnostic, DriverPart, Shelf};
use maud::{Markup, html};
use std::collections::BTreeMap;

/// What a maker has typed: keys on the shelf with their values.
pub(super) type Typed = BTreeMap<String, String>;

/// Keys of a driver on the shelf that are words.
const WORDS: [&str; 3] = ["name", "about", "kind"];

/// A driver that can come onto the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Entry {
    /// No other part has this name.
    pub(super) name: String,
    /// Its lines in a shelf file.
    pub(super) lines: String,
}

/// The driver as it would come onto a shelf, or what is wrong or missing.
pub(super) fn entry(values: &Typed, shelf: &Shelf) -> Result<Entry, Vec<Diagnostic>> {
    let name = free_name(values, shelf);
    let lines = lines(values, &name);
    read(&lines, &name).map(|_| Entry { name, lines })
}

/// Its name, with a number behind it where another part has that name.
fn free_name(values: &Typed, shelf: &Shelf) -> String {
    let wanted = name(values);
    let all = parts::all(shelf);
    let is_free = |name: &String| all.iter().all(|part| part.name != *name);
    let numbered = (2..).map(|n| format!("{wanted} {n}"));
    let mut names = std::iter::once(wanted.to_owned()).chain(numbered);
    names.find(is_free).unwrap_or_default()
}

/// One driver on a shelf, as a maker would write it.
fn lines(values: &Typed, name: &str) -> String {
    let given = |key: &str| {
        values
            .get(key)
            .map(|value| value.trim())
            .filter(|v| !v.is_empty())
    };
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
pub(super) fn fragment(values: &Typed, shelf: &Shelf) -> Markup {
    let is_said = |(key, value): (&String, &String)| {
        !WORDS.contains(&key.as_str()) && !value.trim().is_empty()
    };
    if !values.iter().any(is_said) {
        return html! { p.quiet { "Type what the data sheet says; what follows appears here." } };
    }
    let name = &free_name(values, shelf);
    let text = lines(values, name);
    let told = |part: &DriverPart, wanting: &[Diagnostic]| {
        html! {
            @if *name != self::name(values) {
                p.quiet { "Another part has this name: this one will be called “" (name) "”." }
            }
            (told(part, &text, wanting))
        }
    };
    match read(&text, name) {
        Ok(part) => told(&part, &[]),
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
                Ok(part) => told(&part, &found),
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
fn name(values: &Typed) -> &str {
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
        details #driver-lines { summary { "as it will stand on your shelf" } pre tabindex="0" { code { (text) } } }
        @if wanting.is_empty() {
            div.tools {
                button #driver-use type="button" data-driver="use" { "put it on the shelf and use it" }
                button.quiet #driver-try type="button" data-driver="try" { "what would change?" }
                button.quiet #driver-keep type="button" data-driver="keep" { "only put it on the shelf" }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(values: &[(&str, &str)]) -> String {
        let values = values
            .iter()
            .map(|(key, value)| ((*key).into(), (*value).into()));
        fragment(&values.collect(), design::built_in_shelf()).into_string()
    }

    #[test]
    fn values_follow_as_they_are_typed() {
        assert!(said(&[]).contains("data sheet"));
        assert!(said(&[("name", "mine"), ("fs", "")]).contains("data sheet"));
        let some = said(&[("qms", "4"), ("qes", " 0.5 "), ("fs", "80 Hz")]);
        assert!(some.contains("<dd>0.44 <small>follows"), "{some}");
        assert!(some.contains("\nfs = &quot;80 Hz"), "{some}");
    }

    /// Enough for a driver.
    const ENOUGH: [(&str, &str); 6] = [
        ("size", "4 in"),
        ("impedance", "8 ohm"),
        ("fs", "80 Hz"),
        ("qms", "4"),
        ("qes", "0.5"),
        ("vas", "4 L"),
    ];

    fn typed(name: &str) -> Typed {
        let name = ("name", name);
        let values = ENOUGH.into_iter().chain([name]);
        values
            .map(|(key, value)| (key.into(), value.into()))
            .collect()
    }

    #[test]
    fn a_name_is_never_that_of_another_part() {
        let shelf = design::built_in_shelf();
        let taken = &shelf.drivers[0].common.name.text;
        let first = entry(&typed(taken), shelf).unwrap();
        assert_eq!(first.name, format!("{taken} 2"));
        // Nor that of a part of another kind: a design says names alone.
        let other = &shelf.sheets[0].common.name.text;
        assert_eq!(
            entry(&typed(other), shelf).unwrap().name,
            format!("{other} 2")
        );
        let more = format!("format = 1\n{}", first.lines);
        let shelf = design::read_shelf(Some(&more)).unwrap();
        assert_eq!(
            entry(&typed(taken), &shelf).unwrap().name,
            format!("{taken} 3")
        );
        assert!(
            fragment(&typed(taken), &shelf)
                .into_string()
                .contains(&format!("{taken} 3"))
        );
    }

    #[test]
    fn whatever_a_name_is_it_stands_on_the_shelf_as_it_was_typed() {
        for name in [
            "<script>alert(1)</script>",
            "\"quoted\" 'twice'",
            "back\\slash",
            "two\nlines",
            "\"\n[[driver]]\nname = \"other",
            "Tieftöner 10 cm — 低音",
            "\u{1F50A} \u{202E}",
        ] {
            let entry = entry(&typed(name), design::built_in_shelf()).unwrap();
            assert_eq!(entry.name, name);
            let text = format!("format = 1\n{}", entry.lines);
            let shelf = design::read_shelf(Some(&text)).unwrap();
            let own = shelf.drivers.last().unwrap();
            assert_eq!(own.common.name.text, name);
            assert_eq!(
                shelf.drivers.len(),
                design::built_in_shelf().drivers.len() + 1
            );
        }
        // Too little, or what no driver has, does not come onto it.
        let none = Typed::from([("name".into(), "mine".into())]);
        assert!(entry(&none, design::built_in_shelf()).is_err());
        let mut odd = typed("mine");
        odd.insert("nonsense".into(), "1".into());
        assert!(entry(&odd, design::built_in_shelf()).is_err());
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
