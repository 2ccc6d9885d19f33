//! Shelf parts told.

use super::layout::heading;
use super::layout::{columns, left, right, wrapped};
use super::plain::{is_hidden, plain};
use crate::parts::{Fact, OFFCUT, Part};
use crate::terminal::{Ink, Tone};

/// Kinds in the order they are listed, with their heading and the facts that
/// tell parts of one kind apart.
const KINDS: [(&str, &str, &[&str]); 18] = [
    ("driver", "Drivers", &["fs", "qts", "vas"]),
    ("radiator", "Passive radiators", &["fs", "mass", "xmax"]),
    (
        "amplifier",
        "Amplifier boards",
        &["supply_max", "minimum_load"],
    ),
    ("battery", "Batteries", &["cells", "capacity"]),
    ("sheet", "Sheet goods", &["thickness", "density"]),
    (
        "control",
        "Parts of control panels",
        &["kind", "thread", "cutout", "hole"],
    ),
    ("fuse", "Fuses", &["current", "speed", "breaking_current"]),
    (
        "module",
        "Electrical parts inside the box",
        &["kind", "supply_min", "output_voltage", "takes"],
    ),
    ("wire", "Wires", &["section", "outer", "in_drawer"]),
    (
        "resistor",
        "Drawers of resistors",
        &["values", "tolerance", "power"],
    ),
    (
        "capacitor",
        "Drawers of capacitors",
        &["values", "tolerance", "voltage"],
    ),
    (
        "zener",
        "Zener diodes",
        &["voltage", "tolerance", "test_current"],
    ),
    (
        "reference",
        "Shunt references",
        &["voltage", "tolerance", "least_current"],
    ),
    (
        "comparator",
        "Comparators",
        &["output", "supply_current", "offset"],
    ),
    (
        "led",
        "Light-emitting diodes",
        &["colour", "forward_voltage", "current"],
    ),
    (
        "switching",
        "Relays and transistors",
        &["kind", "dc_current", "dc_voltage"],
    ),
    ("finish", "Finishes", &["kind", "base", "can", "coverage"]),
    (OFFCUT, "Offcuts", &["length", "width", "count"]),
];

const PRICE: usize = 7;

/// Every part in a line of its own.
pub(crate) fn shelf(parts: &[Part], ink: Ink) -> String {
    let mut out = String::new();
    for (kind, title, keys) in KINDS {
        let of_kind: Vec<&Part> = parts.iter().filter(|part| part.kind == kind).collect();
        if of_kind.is_empty() {
            continue;
        }
        let widest = of_kind
            .iter()
            .map(|part| columns(&part.name))
            .max()
            .unwrap_or(0);
        out += &heading(title, ink);
        for part in of_kind {
            let name = left(&plain(&part.name), widest);
            let price = right(part.price.as_deref().unwrap_or("—"), PRICE);
            out += &wrapped(&format!("  {name} {price}  "), &facts(part, keys));
        }
    }
    let hint = "\nboxwright shelf NAME shows one whole; * marks what your own shelf says.\n";
    out.trim_start_matches('\n').to_owned() + hint
}

fn facts(part: &Part, keys: &[&str]) -> String {
    let mut said: Vec<String> = keys
        .iter()
        .filter_map(|key| part.facts.iter().find(|fact| fact.key == *key))
        .map(|fact| match fact.key {
            "fs" | "qts" | "vas" | "re" | "xmax" => {
                format!("{} {}{}", fact.key, fact.text, star(fact))
            }
            "channels" => format!("{} ch", fact.text),
            "cells" if fact.text == "1" => "1 cell".into(),
            "cells" => format!("{} cells", fact.text),
            "supply_max" => format!("to {}", fact.text),
            "minimum_load" => format!("from {}", fact.text),
            "cutout" | "hole" => format!("{} {}{}", fact.key, fact.text, star(fact)),
            "values" => values(&fact.text),
            "tolerance" => format!("± {}", fact.text),
            "breaking_current" => format!("breaks {}", fact.text),
            "takes" => format!("for {} fuses", fact.text),
            "supply_min" => format!("from {}", fact.text),
            "output_voltage" => format!("gives {}", fact.text),
            "outer" => format!("⌀ {}", fact.text),
            "in_drawer" => format!("{} in the drawer", fact.text),
            "length" => format!("{} long", fact.text),
            "width" => format!("{} wide", fact.text),
            "count" if fact.text == "1" => "one".into(),
            "count" => format!("{} alike", fact.text),
            _ => format!("{}{}", fact.text, star(fact)),
        })
        .collect();
    if part.on_hand > 0 {
        said.push(format!("{} on hand", part.on_hand));
    }
    said.join(", ")
}

/// How many values a drawer has, and from where to where.
fn values(list: &str) -> String {
    let all: Vec<&str> = list.trim_matches(['[', ']']).split(", ").collect();
    let bare = |value: Option<&&str>| value.map_or("", |value| value.trim_matches('"')).to_owned();
    match all.len() {
        1 => bare(all.first()),
        many => format!(
            "{many} values, {} to {}",
            bare(all.first()),
            bare(all.last())
        ),
    }
}

const fn star(fact: &Fact) -> &'static str {
    if fact.own { "*" } else { "" }
}

/// Parts whole, as they would stand in a shelf file.
pub(crate) fn parts(parts: &[Part], ink: Ink) -> String {
    let told: Vec<String> = parts
        .iter()
        .map(|part| {
            let remark = if part.generic {
                "# of the built-in shelf: generic, invented values\n"
            } else {
                "# of your own shelf\n"
            };
            ink.paint(Tone::Faint, remark) + &part_as_toml(part)
        })
        .collect();
    told.join("\n")
}

/// A text between quotes; characters that do not show are written as escapes.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c if is_hidden(c) => out += &format!("\\u{:04x}", u32::from(c)),
            c => out.push(c),
        }
    }
    out + "\""
}

/// A part as an entry of a shelf file.
pub(crate) fn part_as_toml(part: &Part) -> String {
    let mut out = format!(
        "[[{}]]\n{} = {}\n",
        part.kind,
        part.name_key(),
        quoted(&part.name)
    );
    if let Some(about) = &part.about {
        out += &format!("about = {}\n", quoted(about));
    }
    for fact in &part.facts {
        let value = if fact.quoted {
            quoted(&fact.text)
        } else {
            fact.text.clone()
        };
        let remark = if fact.own { "  # your own" } else { "" };
        out += &format!("{} = {value}{remark}\n", fact.key);
    }
    if let Some(price) = &part.price {
        out += &format!("price = {}\n", quoted(price));
    }
    if part.on_hand > 0 {
        out += &format!("on_hand = {}\n", part.on_hand);
    }
    out
}
