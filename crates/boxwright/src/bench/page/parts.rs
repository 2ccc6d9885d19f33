//! The parts in use, the shelf they are taken from, and a driver's data sheet.

use super::field::Field;
use super::sight::Sight;
use crate::parts::{self, Part};
use design::Shelf;
use maud::{Markup, html};
use studies::check::Severity;
use studies::money::Swap;
use studies::words;

/// Kinds of parts by the table that uses them: key, words, kind on the shelf.
const KINDS: [(&str, &str); 12] = [
    ("drivers", "driver"),
    ("amplifier", "amplifier"),
    ("battery", "battery"),
    ("box.wall", "sheet"),
    ("box.radiator", "radiator"),
    ("control.part", "control"),
    ("control.plate", "sheet"),
    ("module", "module"),
    ("finish", "finish"),
    ("wiring", "wire"),
    ("indicator", ""),
    ("brace", "sheet"),
];

/// The kind of shelf part that a key names; none where it names no part.
fn kind(key: &str) -> Option<&'static str> {
    let last = key.rsplit('.').next()?;
    if last == "fuse" {
        return Some("fuse");
    }
    if key == "wiring.usual" || (key.starts_with("wiring.wire.") && last == "wire") {
        return Some("wire");
    }
    if key == "control.plate" || key == "box.wall" {
        return Some("sheet");
    }
    if last != "part" {
        return None;
    }
    let found = KINDS.iter().find(|(table, _)| key.starts_with(table));
    found.map(|(_, kind)| *kind).filter(|kind| !kind.is_empty())
}

/// The kind that is shown until another is asked for.
const FIRST: &str = "driver";

/// The sheet.
pub(super) fn sheet(sight: &Sight<'_>) -> Markup {
    let used: Vec<(&str, &'static str)> = sight
        .keys()
        .filter_map(|key| Some((key, kind(key)?)))
        .collect();
    html! {
        section #used aria-labelledby="used-title" {
            h2 #used-title { "Parts in use " small { "· swap one, and see what it changes first" } }
            table.parts {
                thead { tr { th scope="col" { "for" } th scope="col" { "part" } th scope="col" { "" } } }
                @for (key, kind) in &used { (line(sight, key, kind)) }
            }
        }
        (swaps(sight))
        section #shelf aria-labelledby="shelf-title" {
            h2 #shelf-title { "Shelf" }
            form #shelf-form role="search" {
                label for="shelf-search" { "search" }
                input #shelf-search type="search" autocomplete="off" spellcheck="false";
                label for="shelf-kind" { "kind" }
                select #shelf-kind {
                    option value="" { "all" }
                    @for kind in kinds(&sight.studied.project.shelf) {
                        option value=(kind) selected[kind == FIRST] { (kind) }
                    }
                }
                input #shelf-key type="hidden" value="";
            }
            p #shelf-for.quiet {}
            div #shelf-found data-keep { (shelf(&sight.studied.project.shelf, "", FIRST)) }
        }
        (data_sheet(&used))
        (money(sight))
    }
}

fn line(sight: &Sight<'_>, key: &str, kind: &str) -> Markup {
    let table = key.rsplit_once('.').map_or(key, |(table, _)| table);
    let name = sight
        .at(&format!("{table}.name"))
        .or_else(|| sight.at(&format!("{table}.label")));
    let mut said = name.map_or_else(|| called(sight, table), str::to_owned);
    if key.ends_with(".fuse") {
        said += ", the fuse in it";
    }
    let label = format!("part for {said}");
    let field = Field {
        room: "used",
        key,
        value: sight.at(key),
        label: &label,
        unsaid: "",
    };
    html! {
        tr {
            th scope="row" { (said) }
            td { (field.word()) }
            td { button.quiet id={ "swap-" (key.replace('.', "-")) } type="button" data-swap=(key) data-kind=(kind)
                aria-label={ "swap the part for " (said) } { "swap" } }
        }
    }
}

/// A table in words; the place in its list only where there are others.
fn called(sight: &Sight<'_>, table: &str) -> String {
    let alone = table
        .strip_suffix(".1")
        .filter(|list| sight.at(&format!("{list}.2.part")).is_none());
    alone.unwrap_or(table).replace('.', " ")
}

fn kinds(shelf: &Shelf) -> Vec<&'static str> {
    let mut kinds: Vec<&'static str> = Vec::new();
    for part in parts::all(shelf) {
        if !kinds.contains(&part.kind) {
            kinds.push(part.kind);
        }
    }
    kinds
}

/// What other parts of the shelf would change, tried one by one.
fn swaps(sight: &Sight<'_>) -> Markup {
    let swaps = &sight.studied.report.money.swaps;
    if swaps.is_empty() {
        return html! {};
    }
    html! {
        details #swaps open {
            summary { "Other parts, tried in this design" }
            div.wide role="group" tabindex="0" aria-label="Other parts; scrolls sideways" {
                table.swaps {
                    thead { tr {
                        th scope="col" { "instead of" } th scope="col" { "this" }
                        @for promise in &sight.studied.report.promises { th scope="col" { (promise.title) } }
                        th scope="col" { "brings" }
                    } }
                    @for swap in swaps { (tried(sight, swap)) }
                }
            }
        }
    }
}

fn tried(sight: &Sight<'_>, swap: &Swap) -> Markup {
    let promises = &sight.studied.report.promises;
    html! {
        tr {
            th scope="row" { (swap.line) }
            td { (swap.part) }
            @match &swap.outcome {
                Ok(changed) => {
                    @for promise in promises {
                        @let by = changed.promises.iter().find(|(id, _)| *id == promise.id);
                        td.number { (by.map_or(String::new(), |(_, by)| words::change(*by, &promise.unit))) }
                    }
                    td {
                        @let stops = changed.brings.iter().filter(|(severity, _)| *severity == Severity::Stop).count();
                        @if stops > 0 { (stops) " stop" @if stops > 1 { "s" } } @else { "–" }
                    }
                }
                Err(why) => td colspan=(promises.len() + 1) { (why) },
            }
        }
    }
}

/// Parts found on the shelf.
pub(crate) fn shelf(shelf: &Shelf, search: &str, kind: &str) -> Markup {
    let wanted: Vec<String> = search.split_whitespace().map(str::to_lowercase).collect();
    let fits = |part: &&Part| {
        let about = part.about.as_deref().unwrap_or_default();
        let text = format!("{} {} {about}", part.kind, part.name).to_lowercase();
        (kind.is_empty() || part.kind == kind) && wanted.iter().all(|word| text.contains(word))
    };
    let all = parts::all(shelf);
    let found: Vec<&Part> = all.iter().filter(fits).collect();
    html! {
        p.quiet role="status" { (found.len()) " found" @if found.len() > MOST { ", the first " (MOST) " shown" } }
        ul.shelf {
            @for part in found.into_iter().take(MOST) { (on_shelf(part)) }
        }
    }
}

/// Parts listed at once.
const MOST: usize = 60;

fn on_shelf(part: &Part) -> Markup {
    html! {
        li {
            strong { (part.name) } " " small { (part.kind) @if part.generic { ", generic" } }
            @if part.on_hand > 0 { " " span.have { (part.on_hand) " in the drawer" } }
            @if let Some(price) = &part.price { " " span.price { (price) } }
            @if let Some(about) = &part.about { p.quiet { (about) } }
            details {
                summary { "data" }
                dl { @for fact in &part.facts { dt { (fact.key) } dd { (fact.text) } } }
            }
            span.tools {
                button.quiet type="button" data-take=(part.name) data-trial="true"
                    aria-label={ "What would " (part.name) " change?" } { "what would change?" }
                button type="button" data-take=(part.name) aria-label={ "use " (part.name) } { "use it" }
            }
        }
    }
}

/// What a data sheet says of a driver: key on the shelf, words, an example.
const SHEET: [(&str, &str, &str); 14] = [
    ("name", "name", "four-inch from the drawer"),
    ("size", "nominal size", "4 in"),
    ("impedance", "nominal impedance", "8 ohm"),
    ("re", "Re", "6.8 ohm"),
    ("fs", "Fs", "80 Hz"),
    ("qms", "Qms", "4.5"),
    ("qes", "Qes", "0.6"),
    ("qts", "Qts", "0.53"),
    ("vas", "Vas", "4 L"),
    ("sd", "Sd", "55 cm²"),
    ("bl", "Bl", "4.6 N/A"),
    ("mms", "Mms", "4.2 g"),
    ("xmax", "Xmax", "3 mm"),
    ("power", "power", "20 W"),
];

fn data_sheet(used: &[(&str, &'static str)]) -> Markup {
    let drivers = used.iter().filter(|(_, kind)| *kind == "driver");
    html! {
        details #driver {
            summary { "Enter a driver from its data sheet" }
            form #driver-form {
                div.rows {
                    @for (key, said, example) in SHEET {
                        div.row {
                            label for={ "driver-" (key) } { (said) }
                            input.word id={ "driver-" (key) } name=(key) type="text" placeholder=(example)
                                autocomplete="off" spellcheck="false";
                        }
                    }
                    div.row {
                        label for="driver-for" { "to be used for" }
                        select #driver-for {
                            @for (key, _) in drivers {
                                option value=(key) { (key.trim_end_matches(".part").replace('.', " ")) }
                            }
                        }
                    }
                }
                div #driver-derived aria-live="polite" data-keep {}
            }
        }
    }
}

fn money(sight: &Sight<'_>) -> Markup {
    let money = &sight.studied.report.money;
    let said =
        |sum: Option<f64>| sum.map_or("–".to_owned(), |sum| words::price(sum, &money.currency));
    html! {
        section #shopping aria-labelledby="shopping-title" {
            h2 #shopping-title { "Shopping list " small { "· " (words::price(money.till(), &money.currency)) " to be spent" } }
            div.wide role="group" tabindex="0" aria-label="Shopping list; scrolls sideways" {
                table.figures {
                    thead { tr { th scope="col" { "part" } th scope="col" { "for" } th scope="col" { "needed" }
                        th scope="col" { "to buy" } th scope="col" { "price" } } }
                    @for line in &money.lines {
                        tr {
                            th scope="row" { (line.label) }
                            td { (line.about) }
                            td.number { (words::stated(line.needed, "")) }
                            td.number { (words::stated(line.to_buy, "")) }
                            td.number { (said(line.till())) }
                        }
                    }
                }
            }
            p.tools { a href="/cut/shopping.csv" download { "as CSV" } }
        }
    }
}
