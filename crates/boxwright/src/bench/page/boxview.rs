//! The box, drawn from the design, with what can be taken hold of.

use super::field::{Field, choices};
use super::lengths::Lengths;
use super::meaning::meaning;
use super::sight::Sight;
use super::view::LOOKS;
use crate::bench::pictures::Drawn;
use drawings::boxview::{Grip, Look, Measure, Motion, Picture, Said, pictured};
use drawings::{Rect, export};
use maud::{Markup, PreEscaped, html};
use serde::Serialize;
use studies::carpentry::PlacedPart;
use studies::check::Edit;

/// Size of the drawing, mm.
const SIZE: (f64, f64) = (190.0, 118.0);

/// Tabs of looks, the box, and the part in hand.
pub(super) fn boxview(sight: &Sight<'_>) -> Markup {
    let carpentry = &sight.studied.report.carpentry;
    let (w, h) = SIZE;
    let look = sight.view.look;
    let drawn = sight.state.pictures.of(carpentry, look, |carpentry| {
        let picture = pictured(carpentry, look, Rect::new(0.0, 0.0, w, h));
        let svg = export::svg::elements(&picture.drawing, "box");
        Drawn { picture, svg }
    });
    let picture = &drawn.picture;
    let bounds = picture
        .drawing
        .bounds()
        .unwrap_or(Rect::new(0.0, 0.0, w, h));
    let shown = [
        bounds.x - 2.0,
        bounds.y - 2.0,
        bounds.w + 4.0,
        bounds.h + 4.0,
    ];
    let shown = shown.map(|length| format!("{length:.1}")).join(" ");
    html! {
        section #box aria-label="The box" {
            nav.looks aria-label="Looks at the box" {
                @for (look, word, said) in LOOKS {
                    a id={ "look-" (word) } href=(sight.view.with_look(look).address())
                        aria-current=[(look == sight.view.look).then_some("true")] { (said) }
                }
            }
            div.wide role="group" tabindex="0" aria-label="The box; scrolls sideways" {
                svg.drawing #box-drawing viewBox=(shown) role="group" aria-label="The box, drawn to measure" {
                    g aria-hidden="true" { (PreEscaped(&drawn.svg)) }
                    (grips(sight, picture))
                    (handles(sight, picture))
                }
            }
            @if !matches!(sight.view.look, Look::LidOff | Look::Closed) { (numbers(sight)) }
            p.hint { "Click a part to work on it. Drag it, or a dimension, or use the arrow keys." }
            (in_hand(sight))
        }
    }
}

/// What the numbers in rings stand for.
fn numbers(sight: &Sight<'_>) -> Markup {
    let mut named: Vec<(usize, &str)> = Vec::new();
    for part in &sight.studied.report.carpentry.parts {
        if !named.iter().any(|(number, _)| *number == part.number) {
            named.push((part.number, &part.label));
        }
    }
    named.sort_by_key(|(number, _)| *number);
    html! {
        ul.numbers {
            @for (number, label) in named { li { strong { (number) } " " (label) } }
        }
    }
}

fn grips(sight: &Sight<'_>, picture: &Picture) -> Markup {
    let parts = &sight.studied.report.carpentry.parts;
    html! {
        @for grip in &picture.grips { (held(sight, grip, &parts[grip.part])) }
    }
}

/// One length of a place as a script moves it.
#[derive(Serialize)]
struct Move {
    length: usize,
    run: [f64; 2],
    within: [f64; 2],
}

impl From<&Motion> for Move {
    fn from(run: &Motion) -> Self {
        Self {
            length: run.length,
            run: [run.run.0, run.run.1].map(hundredths),
            within: [tenth(run.within.0), tenth(run.within.1)],
        }
    }
}

/// A length in mm to the tenth.
fn tenth(metres: f64) -> f64 {
    (1e4 * metres).round() / 10.0
}

fn hundredths(length: f64) -> f64 {
    (100.0 * length).round() / 100.0
}

/// The key of a part's place with what is written there, where the design can be told it.
fn key(sight: &Sight<'_>, grip: &Grip, part: &PlacedPart) -> Option<(String, Lengths)> {
    if grip.runs.is_empty() {
        return None;
    }
    let at = format!("{}.at", part.table);
    let key = match grip.said {
        Said::Inset => format!("{}.inset", part.table),
        Said::Each if grip.index > 0 || sight.at(&format!("{at}.1")).is_some() => {
            format!("{at}.{}", grip.index + 1)
        }
        Said::Each => at,
        // Equal parts in the box follow the first one to the right.
        Said::Once if grip.index > 0 => return None,
        Said::Once => at,
    };
    let lengths = match sight.at(&key) {
        Some(text) => Lengths::of(text, grip.at.len()),
        None => Lengths::like(size_key(sight).and_then(|(key, _)| sight.at(key)), &grip.at),
    };
    let edit = Edit {
        key: key.clone(),
        value: Some("1 x 1 x 1 mm".into()),
    };
    let told = design::set_value(&sight.state.text, &edit.path(), "1 x 1 x 1 mm").is_ok();
    lengths.filter(|_| told).map(|lengths| (key, lengths))
}

fn held(sight: &Sight<'_>, grip: &Grip, part: &PlacedPart) -> Markup {
    let (key, written) = key(sight, grip, part).unzip();
    let points: Vec<String> = grip
        .outline
        .iter()
        .map(|point| format!("{:.2},{:.2}", point.x, point.y))
        .collect();
    let moves: Vec<Move> = grip.runs.iter().map(Move::from).collect();
    let moves = serde_json::to_string(&moves).unwrap_or_default();
    let at: Vec<String> = grip.at.iter().map(|m| tenth(*m).to_string()).collect();
    let here = sight.view.part.as_deref() == Some(&part.table);
    let said = match &key {
        Some(_) => format!(
            "{}, at {} mm; drag it or use the arrow keys",
            part.label,
            at.join(" × ")
        ),
        None => part.label.clone(),
    };
    // A place that was found is no longer looked for once it is stated.
    let free = format!("{}.place", part.table);
    let free = (part.found && sight.at(&free).is_some()).then_some(free);
    html! {
        g.grip id={ "grip-" (part.table.replace('.', "-")) "-" (grip.index) } tabindex="0" role="button"
            aria-label=(said) aria-pressed=(if here { "true" } else { "false" })
            data-href=(sight.view.with_part(Some(&part.table)).address())
            data-table=(part.table) data-label=(part.label)
            data-key=[key.as_deref()] data-remove=[key.is_some().then_some(free).flatten()]
            data-at=(at.join(" ")) data-moves=(moves) data-written=[written.map(|written| written.json())] {
            polygon points=(points.join(" ")) {}
        }
    }
}

/// What a dimension over the walls is in the file, and how it is written.
fn size_key(sight: &Sight<'_>) -> Option<(&'static str, [f64; 3])> {
    let accounts = &sight.studied.report.accounts;
    [
        ("box.outside", accounts.outside),
        ("box.inside", accounts.inside),
    ]
    .into_iter()
    .find(|(key, _)| sight.at(key).is_some())
}

fn handles(sight: &Sight<'_>, picture: &Picture) -> Markup {
    let Some((key, size)) = size_key(sight) else {
        return html! {};
    };
    html! {
        @if let Some(written) = sight.at(key).and_then(|text| Lengths::of(text, 3)) {
            @for measure in &picture.measures { (handle(key, size, measure, &written)) }
        }
    }
}

/// Least and greatest side of a box that is dragged, in mm.
const SIDES: (f64, f64) = (60.0, 2000.0);

fn handle(key: &str, size: [f64; 3], measure: &Measure, written: &Lengths) -> Markup {
    let name = ["width", "height", "depth"][measure.length];
    let value = tenth(size[measure.length]);
    let all = size.map(tenth).map(|mm| mm.to_string()).join(" ");
    let (x, y) = (hundredths(measure.end.x), hundredths(measure.end.y));
    html! {
        g.handle id={ "handle-" (name) } tabindex="0" role="slider" aria-label={ (name) " of the box" }
            aria-valuemin=(SIDES.0) aria-valuemax=(SIDES.1) aria-valuenow=(value)
            aria-valuetext=(written.spoken(measure.length))
            data-key=(key) data-written=(written.json()) data-length=(measure.length) data-at=(all)
            data-run={ (hundredths(measure.run.0)) " " (hundredths(measure.run.1)) } {
            circle.reach cx=(x) cy=(y) r="4" {}
            circle.knob cx=(x) cy=(y) r="1.5" {}
        }
    }
}

/// The part in hand: what the design says about it.
fn in_hand(sight: &Sight<'_>) -> Markup {
    let Some(table) = &sight.view.part else {
        return html! {};
    };
    let parts = &sight.studied.report.carpentry.parts;
    let label = parts.iter().find(|part| part.table == *table);
    let rows: Vec<(&str, &str)> = sight.table(table).collect();
    html! {
        section #part aria-labelledby="part-title" {
            h2 #part-title { (label.map_or(table.as_str(), |part| part.label.as_str())) " "
                small { "· " (table.replace('.', " ")) } }
            @if rows.is_empty() { p.quiet { "The design says nothing more of it." } }
            (rows_of("part", &rows))
            div.tools { a #part-close href=(sight.view.with_part(None).address()) { "done with it" } }
        }
    }
}

/// Lines of keys and values, each with what it means.
pub(super) fn rows_of(room: &str, rows: &[(&str, &str)]) -> Markup {
    html! {
        div.rows {
            @for (key, value) in rows {
                @let label = label_of(key);
                @let field = Field { room, key, value: Some(value), label: &label, unsaid: "" };
                @let id = format!("{room}-{}", key.replace('.', "-"));
                div.row {
                    label for=(id) title=[meaning(key)] { (label) }
                    @match choices(key) {
                        [] => (field.word()),
                        words => (field.choice(words)),
                    }
                    @if let Some(meaning) = meaning(key) { p.hint { (meaning) } }
                }
            }
        }
    }
}

/// The last word of a key, and its number in a list.
pub(super) fn label_of(key: &str) -> String {
    let mut steps = key.rsplit('.');
    let last = steps.next().unwrap_or(key);
    let said = if last.bytes().all(|byte| byte.is_ascii_digit()) {
        format!("{} {last}", steps.next().unwrap_or_default())
    } else {
        last.to_owned()
    };
    said.replace('_', " ")
}
