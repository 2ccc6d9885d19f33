//! The manual against the program: pages made from it, and pages held to it.

use crate::support::{Scratch, answer, boxwright, command, matches, ran, root};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use studies::vary::spreads::{ALL as SPREADS, Kind};

const MADE: &str = "<!-- Made from the program: BLESS=1 cargo test -p boxwright -->\n";

#[test]
fn the_page_of_checks_is_current() {
    let told: Value = serde_json::from_str(&answer(&["explain", "--json"])).unwrap();
    let mut page = format!(
        "{MADE}# Checks\n\nWhat every design is held against, in the order `boxwright explain` lists it.\n\n"
    );
    let checks = told["checks"].as_array().unwrap();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    for check in checks {
        page += &format!(
            "- [{}](#{}): {}\n",
            text(&check["id"]),
            text(&check["id"]),
            text(&check["title"])
        );
    }
    for check in checks {
        page += &format!(
            "\n## {}\n\n**{}.**\n{}\n",
            text(&check["id"]),
            text(&check["title"]),
            text(&check["what"])
        );
        for (title, key) in [
            ("Why", "why"),
            ("Limits", "limits"),
            ("Finds fault with", "bad"),
            ("Passes", "good"),
        ] {
            page += &format!("\n*{title}:* {}\n", text(&check[key]));
        }
        page += "\n*Sources:*\n";
        for source in check["sources"].as_array().unwrap() {
            let key = text(&source["key"]);
            page += &match source["published"].as_str() {
                Some(published) => format!("- {published} [{key}]\n"),
                None => format!("- {key}\n"),
            };
        }
    }
    matches(&root().join("docs/checks.md"), &page);
}

#[test]
fn the_page_of_spreads_is_current() {
    let mut page = format!(
        "{MADE}# Usual spreads\n\n\
         How far a value may be off where the design and the shelf say nothing. A tolerance stated\n\
         with a value takes precedence. A factor is the standard deviation of the logarithm: 5 % puts\n\
         two builds of three within ±5 %. The other spreads are even: anywhere within is as likely.\n\n\
         | name | value | spread | why | source |\n| --- | --- | --- | --- | --- |\n"
    );
    for row in SPREADS {
        let percent = |share: f64| format!("{:.1} %", 100.0 * share).replace(".0 ", " ");
        let spread = match row.kind {
            Kind::Factor => format!("factor {}", percent(row.spread)),
            Kind::EvenRelative => format!("± {}", percent(row.spread)),
            Kind::EvenAbsolute => format!("± {} mm", 1e3 * row.spread),
            Kind::None => "none".into(),
        };
        page += &format!(
            "| `{}` | {} | {spread} | {} | {} |\n",
            row.id, row.what, row.why, row.source
        );
    }
    matches(&root().join("docs/spreads.md"), &page);
}

fn design_page() -> String {
    fs::read_to_string(root().join("docs/design-file.md")).unwrap()
}

/// What stands between fences of this name, one after the other.
fn fenced(page: &str, name: &str) -> String {
    let mut out = String::new();
    for block in page.split(&format!("```{name}\n")).skip(1) {
        out += block.split("```").next().unwrap();
        out.push('\n');
    }
    out
}

#[test]
fn the_design_of_the_manual_passes() {
    let page = design_page();
    let scratch = Scratch::new();
    let design = scratch.file("design.toml", fenced(&page, "toml"));
    let ran = boxwright(&["check", &design]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    let shelf = scratch.file("shelf.toml", fenced(&page, "toml shelf"));
    let listed = answer(&["shelf", "--shelf", &shelf]);
    for name in [
        "woofer from the flea market",
        "radiator from the drawer",
        "pack from the drill",
    ] {
        assert!(listed.contains(name), "{listed}");
    }
    let with_radiator =
        fenced(&page, "toml").replace("kind = \"vented\"", "kind = \"passive radiator\"");
    let (before, rest) = with_radiator.split_once("[box.vent]").unwrap();
    let (_, after) = rest.split_once("[[inside]]").unwrap();
    let radiator = fenced(&page, "toml radiator");
    let design = scratch.file(
        "radiator.toml",
        format!("{before}{radiator}\n[[inside]]{after}"),
    );
    let ran = boxwright(&["check", "--json", &design]);
    assert_ne!(ran.status, 2, "{}", ran.out);
}

/// Keys in the table below a heading.
fn documented(page: &str, heading: &str) -> BTreeSet<String> {
    let section = page.split("\n# The shelf").collect::<Vec<_>>();
    let section = section
        .iter()
        .find_map(|part| part.split(&format!("## `{heading}`")).nth(1))
        .unwrap_or_else(|| panic!("{heading} has no section"));
    let section = section.split("\n## ").next().unwrap();
    section
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next())
        .map(str::to_owned)
        .collect()
}

/// Keys the reader knows in a table, as it says itself about one it does not know.
fn known(file: &str, text: &str, heading: &str) -> BTreeSet<String> {
    let scratch = Scratch::new();
    let asked = text.replacen(&format!("{heading}\n"), &format!("{heading}\nqqq = 1\n"), 1);
    assert_ne!(asked, text, "{heading} is not in the text");
    let path = scratch.file(file, asked);
    let arguments: &[&str] = if file == "shelf.toml" {
        &["shelf", "--json", "--shelf", &path]
    } else {
        &["check", "--json", &path]
    };
    let told: Value = serde_json::from_str(&ran(&mut command(arguments)).out).unwrap();
    let errors = told["errors"].as_array().unwrap();
    let error = errors
        .iter()
        .find(|error| error["code"] == "key-unknown")
        .expect("qqq is no key");
    let (_, list) = error["mend"]
        .as_str()
        .unwrap()
        .split_once("use one of ")
        .unwrap();
    list.split(", ").map(str::to_owned).collect()
}

#[test]
fn the_manual_names_every_key_and_no_other() {
    let page = design_page();
    let design = fenced(&page, "toml");
    for heading in [
        "[brief]",
        "[place]",
        "[[drivers]]",
        "[amplifier]",
        "[source]",
        "[battery]",
        "[box]",
        "[[box.joint]]",
        "[[box.panel]]",
        "[box.vent]",
        "[[inside]]",
        "[[brace]]",
        "[[cleat]]",
        "[bay]",
        "[control]",
        "[[control.part]]",
        "[handle]",
        "[feet]",
        "[grille]",
        "[saw]",
        "[glue]",
    ] {
        let mut named = documented(&page, heading);
        // Tables are not among the keys the reader lists.
        let tables: &[&str] = match heading {
            "[box]" => &["vent", "radiator", "joint", "panel"],
            "[control]" => &["part"],
            _ => &[],
        };
        named.retain(|key| !tables.contains(&key.as_str()));
        assert_eq!(named, known("design.toml", &design, heading), "{heading}");
    }
    let radiator = design.replace("kind = \"vented\"", "kind = \"passive radiator\"")
        + &fenced(&page, "toml radiator");
    assert_eq!(
        documented(&page, "[box.radiator]"),
        known("design.toml", &radiator, "[box.radiator]")
    );
    let shelf = fenced(&page, "toml shelf");
    let (_, common) = page.split_once("\n# The shelf").unwrap();
    let common = common.split("\n## ").next().unwrap();
    for heading in [
        "[[driver]]",
        "[[radiator]]",
        "[[amplifier]]",
        "[[battery]]",
        "[[sheet]]",
        "[[control]]",
        "[[offcut]]",
    ] {
        let mut named = documented(&page, heading);
        let everywhere = common
            .lines()
            .filter_map(|line| line.strip_prefix("| `")?.split('`').next());
        if heading != "[[offcut]]" {
            named.extend(everywhere.map(str::to_owned));
        }
        assert_eq!(named, known("shelf.toml", &shelf, heading), "{heading}");
    }
}

#[test]
fn links_between_pages_lead_somewhere() {
    for folder in [root(), root().join("docs")] {
        for name in crate::support::names(&folder) {
            if !name.ends_with(".md") {
                continue;
            }
            let page = fs::read_to_string(folder.join(&name)).unwrap();
            for link in page
                .split("](")
                .skip(1)
                .map(|rest| rest.split(')').next().unwrap())
            {
                let target = link.split('#').next().unwrap();
                let elsewhere = target.starts_with("http") || target.is_empty();
                assert!(elsewhere || folder.join(target).exists(), "{name}: {link}");
            }
        }
    }
}
