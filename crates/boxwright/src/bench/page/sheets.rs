//! The eight sheets: what is drawn on them, and what can be changed there.

use super::boxview::{boxview, label_of, rows_of};
use super::build;
use super::curve::{bar, chart, discharge};
use super::parts;
use super::plot::Plot;
use super::promises::several;
use super::sight::Sight;
use super::view::SheetOf;
use crate::commands::workshop;
use drawings::pack::{Leaf, Subject};
use drawings::{Paper, export};
use maud::{Markup, PreEscaped, html};
use studies::words;

/// Size of a chart among others, mm.
const CHART: (f64, f64) = (84.0, 62.0);

/// What stands in the middle of the page.
pub(super) fn sheet(sight: &Sight<'_>) -> Markup {
    match sight.view.sheet {
        SheetOf::Parts => parts::sheet(sight),
        SheetOf::Sound => sound(sight),
        SheetOf::Power => power(sight),
        SheetOf::Box => html! {
            (boxview(sight))
            (said_of(sight, "What the design says of the box", &["box", "box.vent", "box.radiator", "bay",
                "brace", "cleat", "handle", "feet", "grille", "inside"]))
            (leaves(sight, Subject::Box))
        },
        SheetOf::Cuts => html! {
            (said_of(sight, "Saw and glue", &["saw", "glue"]))
            (cut_files(sight))
            (leaves(sight, Subject::Cuts))
        },
        SheetOf::Panel => html! {
            (said_of(sight, "What the design says of the control panel", &["control", "control.part"]))
            (leaves(sight, Subject::Panel))
        },
        SheetOf::Wires => html! {
            (said_of(sight, "What the design says of the wires", &["wiring", "wiring.wire", "wiring.without"]))
            (leaves(sight, Subject::Wires))
        },
        SheetOf::Build => html! {
            (build::taken_along())
            (build::steps(sight))
            (said_of(sight, "Finish and workshop", &["finish", "workshop"]))
            (leaves(sight, Subject::Build))
            (every_leaf(sight))
        },
    }
}

fn sound(sight: &Sight<'_>) -> Markup {
    html! {
        (boxview(sight))
        div.pair {
            (air(sight))
            (limits(sight))
        }
        (versus(sight))
        (said_of(sight, "Where it plays", &["place", "source"]))
        section #curves aria-labelledby="curves-title" {
            h2 #curves-title { "Curves " small { "· move along them, or use the arrow keys" } }
            div.charts {
                @for curve in &sight.studied.report.curves {
                    @if let Some(chart) = chart(sight, curve.id) {
                        (Plot { id: &format!("curve-{}", curve.id), chart: &chart, size: CHART }.draw())
                    }
                }
            }
        }
        (figures(sight))
    }
}

fn power(sight: &Sight<'_>) -> Markup {
    let chart = discharge(sight);
    html! {
        div.pair {
            section #discharge aria-label="How long it plays" {
                (Plot { id: "curve-discharge", chart: &chart, size: CHART }.draw())
            }
            (said_of(sight, "What the design says of battery and board", &["battery", "amplifier", "source",
                "indicator", "module"]))
        }
        (leaves(sight, Subject::Power))
    }
}

/// Values of some tables, each table with its own heading where there are several.
fn said_of(sight: &Sight<'_>, title: &str, tables: &[&str]) -> Markup {
    let mut found: Vec<(String, Vec<(&str, &str)>)> = Vec::new();
    for table in tables {
        let rows: Vec<(&str, &str)> = sight.table(table).collect();
        if !rows.is_empty() {
            found.push((table.replace('.', ", "), rows));
        }
        for entry in 1.. {
            let rows: Vec<(&str, &str)> = sight.table(&format!("{table}.{entry}")).collect();
            if rows.is_empty() {
                break;
            }
            let named = rows
                .iter()
                .find(|(key, _)| matches!(label_of(key).as_str(), "name" | "label"));
            let named = named.or_else(|| rows.iter().find(|(key, _)| label_of(key) == "part"));
            let name = named.map_or_else(|| entry.to_string(), |(_, value)| (*value).to_owned());
            found.push((format!("{}: {name}", table.replace('.', ", ")), rows));
        }
    }
    if found.is_empty() {
        return html! {};
    }
    let id = format!("said-{}", tables[0].replace('.', "-"));
    html! {
        section.said id=(id) aria-labelledby={ (id) "-title" } {
            h2 id={ (id) "-title" } { (title) " " small { "· change a value where it stands" } }
            @for (index, (name, rows)) in found.iter().enumerate() {
                details id={ (id) "-" (index) } open[index == 0] {
                    summary { (name) }
                    (rows_of("said", rows))
                }
            }
        }
    }
}

/// Less air than this, in m³, is not worth a line.
const SMALL: f64 = 5e-5;

fn air(sight: &Sight<'_>) -> Markup {
    let accounts = &sight.studied.report.accounts;
    let litres = |m3: f64| words::number(1000.0 * m3, "L");
    let (small, said): (Vec<_>, Vec<_>) = accounts
        .air
        .iter()
        .partition(|line| line.volume.abs() < SMALL);
    let outside = accounts
        .outside
        .map(|m| words::stated(1000.0 * m, ""))
        .join(" × ");
    html! {
        section #air aria-labelledby="air-title" {
            h2 #air-title { "Air inside" }
            table.ledger {
                tr { th scope="row" { "outside " (outside) " mm, "
                    (words::stated(1000.0 * accounts.thickness, "mm")) " walls" }
                    td.number { (litres(accounts.gross)) } }
                @for line in &said {
                    tr { th scope="row" { (line.label) } td.number { (litres(-line.volume)) } }
                }
                @if !small.is_empty() {
                    tr { th scope="row" { (small.len()) " small things" }
                        td.number { (litres(-small.iter().map(|line| line.volume).sum::<f64>())) } }
                }
                tr { th scope="row" { "filling makes it act larger" }
                    td.number { "× " (words::bare(accounts.filling_gain, "")) } }
                tr.sum { th scope="row" { "what the cones feel" }
                    td.number { (litres(accounts.net * accounts.filling_gain)) } }
            }
        }
    }
}

/// What gives out first, by how loud each limit lets it play.
fn limits(sight: &Sight<'_>) -> Markup {
    let curve = sight
        .studied
        .report
        .curves
        .iter()
        .find(|curve| curve.id == "max-level");
    let Some((curve, limits)) = curve.and_then(|curve| Some((curve, curve.limits.as_ref()?)))
    else {
        return html! {};
    };
    let brief = sight
        .studied
        .project
        .design
        .brief
        .lowest
        .map(|lowest| lowest.si);
    let low = brief.unwrap_or_else(|| {
        sight
            .studied
            .report
            .promises
            .first()
            .map_or(20.0, |p| p.value)
    });
    // The least level each limit sets from there on, and where.
    let mut rows: Vec<(&'static str, f64, f64)> = Vec::new();
    let points = curve.x.iter().zip(&curve.y).zip(limits);
    for ((hertz, level), limit) in points.filter(|((hertz, _), _)| **hertz >= low) {
        match rows.iter_mut().find(|(name, ..)| *name == limit.words()) {
            Some(row) if *level < row.1 => (row.1, row.2) = (*level, *hertz),
            Some(_) => {}
            None => rows.push((limit.words(), *level, *hertz)),
        }
    }
    rows.sort_by(|a, b| a.1.total_cmp(&b.1));
    let most = curve.y.iter().copied().fold(f64::MIN, f64::max);
    let least = rows.first().map_or(0.0, |row| row.1).min(most) - 20.0;
    html! {
        section #limits aria-labelledby="limits-title" {
            h2 #limits-title { "What gives out first " small { "· from " (words::stated(low, "Hz")) " upwards" } }
            table.bars {
                @for (name, level, hertz) in &rows {
                    tr {
                        th scope="row" { (name) }
                        td.number { (words::number(*level, "dB")) " at " (words::number(*hertz, "Hz")) }
                        td.bar { (bar((level - least) / (most - least).max(1e-9))) }
                    }
                }
            }
        }
    }
}

fn versus(sight: &Sight<'_>) -> Markup {
    let sealed = sight.at("box.kind") == Some("sealed");
    let report = &sight.studied.report;
    let edits = match &report.versus {
        Some(versus) if sealed => {
            let mm = |metres: f64| format!("{:.0} mm", 1000.0 * metres);
            serde_json::json!([
                { "key": "box.kind", "value": "vented" },
                { "key": "box.vent.diameter", "value": mm(versus.vent_diameter) },
                { "key": "box.vent.length", "value": mm(versus.vent_length) },
                { "key": "box.vent.count", "value": versus.vent_count.to_string() },
            ])
        }
        _ if !sealed => {
            let table = if sight.at("box.kind") == Some("vented") {
                "box.vent"
            } else {
                "box.radiator"
            };
            let keys: Vec<serde_json::Value> = sight
                .keys()
                .filter(|key| key.starts_with(&format!("{table}.")))
                .map(|key| serde_json::json!({ "key": key, "remove": true }))
                .collect();
            let mut edits = vec![serde_json::json!({ "key": "box.kind", "value": "sealed" })];
            edits.push(serde_json::json!({ "key": table, "remove": true }));
            if keys.is_empty() {
                edits.truncate(1);
            }
            serde_json::Value::Array(edits)
        }
        _ => serde_json::Value::Null,
    };
    html! {
        section #versus aria-labelledby="versus-title" {
            h2 #versus-title { "Sealed or vented?" }
            @match &report.versus {
                Some(versus) => p { (versus.sentence) },
                None if !sight.is_whole() || report.builds == 0 => {
                    p.quiet { "Weighed once builds are drawn." }
                }
                None if sealed => {
                    p { "No vent was found that fits into the box, lets its air move slowly and keeps the bass even." }
                }
                None => p { "This design cannot be weighed against another way." },
            }
            @if !edits.is_null() {
                div.tools {
                    button #versus-try type="button" data-try=(edits) {
                        @if sealed { "see it vented" } @else { "see it sealed" }
                    }
                }
            }
        }
    }
}

fn figures(sight: &Sight<'_>) -> Markup {
    html! {
        details #figures {
            summary { "Every figure" }
            table.figures {
                thead { tr { th scope="col" { "figure" } th scope="col" { "as designed" }
                    th scope="col" { "eight of ten builds" } } }
                @for figure in &sight.studied.report.figures {
                    tr {
                        th scope="row" { (figure.title) }
                        td.number { (words::number(figure.value, figure.unit)) }
                        td.number {
                            @if let (Some(low), Some(high)) = (figure.p10, figure.p90) {
                                (words::bare(low, figure.unit)) " – " (words::bare(high, figure.unit))
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Files for saw, drill, printer and shop.
fn cut_files(sight: &Sight<'_>) -> Markup {
    let names = workshop::cut_names(&sight.studied.report.carpentry);
    html! {
        section #files aria-labelledby="files-title" {
            h2 #files-title { "Files for the workshop" }
            p.tools {
                a href="/cut/templates.pdf" download { "templates to print at full size" }
                a href="/cut/box.stl" download { "the box as a solid" }
                a href="/cut/shopping.csv" download { "shopping list, CSV" }
                a href="/cut/accounts.csv" download { "accounts, CSV" }
            }
            details #cut-files {
                summary { (several(names.len(), "drawing")) " for machines" }
                table.figures {
                    @for name in &names {
                        tr {
                            th scope="row" { (name.replace('-', " ")) }
                            @for kind in ["dxf", "svg"] {
                                td { a href={ "/cut/" (name) "." (kind) } download
                                    aria-label={ (name) " as " (kind) } { (kind) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The sheet of the pack that a page needs not repeat.
const FIRST: &str = "Brief and box";

/// The printed sheets of the build order, without the way to their files.
pub(super) fn build_leaves(sight: &Sight<'_>) -> Markup {
    shown(sight, &sight.studied.leaves(Subject::Build))
}

/// What the printed sheets of a subject show; with the way to their files, once every build
/// is drawn.
fn leaves(sight: &Sight<'_>, subject: Subject) -> Markup {
    if sight.is_whole() {
        shown(sight, sight.studied.numbered(subject))
    } else {
        shown(sight, &sight.studied.leaves(subject))
    }
}

fn shown<'a>(sight: &Sight<'_>, leaves: impl IntoIterator<Item = &'a Leaf>) -> Markup {
    // The first sheet repeats what stands above.
    let leaves = leaves.into_iter().enumerate();
    html! {
        @for (index, drawn) in leaves.filter(|(_, leaf)| leaf.title != FIRST) {
            (leaf(&format!("leaf-{}-{index}", sight.view.sheet.word()), drawn))
        }
    }
}

/// Every sheet of the pack with the way to its files, also of those that are drawn nowhere
/// on the page.
fn every_leaf(sight: &Sight<'_>) -> Markup {
    if !sight.is_whole() {
        return html! {};
    }
    html! {
        details #every-sheet {
            summary { "Every sheet of the pack" }
            table.figures {
                @for leaf in sight.studied.all_leaves() {
                    tr {
                        th scope="row" { (leaf.title) }
                        @if let Some(number) = leaf.number { td { span.tools { (to_files(number)) } } }
                    }
                }
            }
        }
    }
}

/// The way to the files of a sheet.
fn to_files(number: usize) -> Markup {
    html! {
        a href={ "/sheet/" (number) ".pdf" } download
            aria-label={ "sheet " (number) " as PDF" } { "PDF" }
        a href={ "/sheet/" (number) ".svg" } download
            aria-label={ "sheet " (number) " as SVG" } { "SVG" }
    }
}

fn leaf(id: &str, leaf: &Leaf) -> Markup {
    let Some(bounds) = leaf.drawing.bounds() else {
        return html! {};
    };
    // As wide as the sheet of paper, so that letters are as large on every leaf.
    let page = drawings::layout::content_area(Paper::A4);
    let (left, right) = (bounds.x.min(page.x), bounds.right().max(page.right()));
    let shown = [
        left - 1.0,
        bounds.y - 2.0,
        right - left + 2.0,
        bounds.h + 4.0,
    ];
    let shown = shown.map(|length| format!("{length:.1}")).join(" ");
    html! {
        figure.leaf id=(id) {
            figcaption {
                h2 { (leaf.title) " " small { "· " (leaf.scale) } }
                @if let Some(number) = leaf.number {
                    span.tools { (to_files(number)) }
                }
            }
            div.wide role="group" tabindex="0" aria-label={ (leaf.title) ", drawn; scrolls sideways" } {
                svg.drawing viewBox=(shown) role="img" aria-label=(leaf.title) focusable="false" {
                    (PreEscaped(export::svg::elements(&leaf.drawing, id)))
                }
            }
            @for note in &leaf.notes { p.quiet { (note) } }
        }
    }
}
