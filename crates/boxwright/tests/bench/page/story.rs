//! A maker works on an example.

use super::Open;
use super::bench::{Bench, Scratch};
use super::browser::Page;
use serde_json::json;

const LOUDNESS: &str = "#brief-brief-loudness";

/// Types a value into a word of the brief.
fn say(open: &mut Open, selector: &str, value: &str) {
    open.page.click(selector);
    open.page.retype(value);
    open.page.key("Enter");
}

#[test]
fn the_brief_is_edited_broken_mended_and_undone() {
    let mut open = Open::example("workshop-mono");
    let before = open.scratch.text();

    // Edited in place; the promise follows, and the focus stays.
    say(&mut open, LOUDNESS, "71 dB");
    open.saved("loudness = \"71 dB\"");
    let promise = "document.querySelector('#promise-loud').innerText";
    open.page.until(&format!("{promise}.includes('71 dB')"));
    assert_eq!(format!("#{}", open.page.focused()), LOUDNESS);

    // What cannot be understood is told beside the word, and nothing is written.
    say(&mut open, LOUDNESS, "71 kg");
    let error = format!("document.querySelector('{LOUDNESS}-error').innerText");
    open.page.until(&format!("{error}.length > 10"));
    assert!(open.scratch.text().contains("71 dB"));
    assert_eq!(
        open.page
            .text(&format!("document.querySelector('{LOUDNESS}').value")),
        "71 kg"
    );

    // Mended at the same place.
    say(&mut open, LOUDNESS, "72 dB");
    open.saved("72 dB");
    open.page.until(&format!("{error} === ''"));

    // Escape leaves a word as it was.
    open.page.click(LOUDNESS);
    open.page.retype("99 dB");
    open.page.key("Escape");
    assert_eq!(
        open.page
            .text(&format!("document.querySelector('{LOUDNESS}').value")),
        "72 dB"
    );

    // Undone step by step, also after the page is loaded anew.
    open.page.key("Ctrl+z");
    open.saved("71 dB");
    open.page.reload();
    open.page.until(&format!("{promise}.includes('71 dB')"));
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");
    assert_eq!(open.scratch.text(), before);
    open.page.key("Ctrl+Shift+z");
    open.saved("71 dB");
    open.finish();
}

#[test]
fn levers_parts_and_dimensions_are_dragged_and_a_mend_is_taken() {
    let mut open = Open::example("bathing-beach");
    open.whole();

    // A lever: shown while it is dragged, written when it is let go.
    let lever = "#lever-box-depth-range";
    let (x, y) = open.page.middle(lever);
    let left = open.page.eval(&format!(
        "(() => {{ const e = document.querySelector('{lever}'); const r = e.getBoundingClientRect(); \
         return r.x + 8 + (r.width - 16) * (e.value - e.min) / (e.max - e.min); }})()"
    ));
    let before = open.scratch.text();
    open.page.drag((left.as_f64().unwrap(), y), (x / 12.0, 0.0));
    open.page.until("!document.querySelector('#undo').disabled");
    let after = open.scratch.text();
    assert_ne!(before, after);
    assert!(after.contains("outside = \"360 x 200 x "), "{after}");
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");
    assert_eq!(open.scratch.text(), before);

    // A part, within the box.
    open.whole();
    let battery = open.page.middle("#grip-battery-0");
    open.page.drag(battery, (4000.0, 0.0));
    open.page.until("!document.querySelector('#undo').disabled");
    let text = open.scratch.text();
    let at = text
        .lines()
        .find(|line| line.starts_with("at = ") && line.contains("away from the board"));
    let at = at.expect("the battery still has its place and remark");
    assert!(!at.contains("\"25 x 0 x 66 mm\""), "{at}");
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");

    // A dimension.
    let height = open.page.middle("#handle-height");
    open.page.drag(height, (0.0, -30.0));
    open.page.until("!document.querySelector('#undo').disabled");
    assert!(!open.scratch.text().contains("360 x 200 x 188 mm"));
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");
    assert_eq!(open.scratch.text(), before);

    // A mend: first seen, then taken.
    open.whole();
    let count = "document.querySelectorAll('#mend .finding').length";
    let wrong = open.page.eval(count).as_u64().unwrap();
    open.page.click("[data-try-mend]");
    open.page.until("!document.querySelector('#tried').hidden && document.querySelectorAll('#tried tr').length > 5");
    assert_eq!(open.scratch.text(), before, "nothing is written by looking");
    open.page.click("#tried-accept");
    open.page.until("!document.querySelector('#undo').disabled");
    open.page.until(&format!("{count} < {wrong}"));
    assert_ne!(open.scratch.text(), before);
    open.finish();
}

#[test]
fn an_editor_changes_the_file_meanwhile_and_breaks_and_mends_it() {
    let mut open = Open::example("workshop-mono");
    let text = open.scratch.text();
    let promise = "document.querySelector('#promise-long').innerText";

    let other = text.replace("runtime = \"", "runtime = \"3");
    assert_ne!(text, other, "the example asks for a playing time");
    open.scratch.write(&other);
    open.page
        .until("document.querySelector('#brief-brief-runtime').value.startsWith('3')");

    // Broken by the editor: told with its line, what was good stays to be seen.
    let broken = other.replacen("runtime = \"", "runtime = \"x", 1);
    open.scratch.write(&broken);
    open.page
        .until("document.querySelector('#troubles').innerText.includes('line ')");
    assert!(open.page.text(promise).contains("Long"));

    // Mended in the page's own editor.
    open.page
        .until("document.querySelector('#file-text').value.includes('\"x')");
    open.page
        .eval("document.querySelector('#file').open = true");
    let mended = json!(text);
    open.page.eval(&format!(
        "document.querySelector('#file-text').value = {mended}"
    ));
    open.page.click("#file-save");
    open.page
        .until("document.querySelector('#troubles').hidden");
    assert_eq!(open.scratch.text(), text);
    open.finish();
}

#[test]
fn curves_are_read_states_held_steps_checked_off_and_the_pack_printed() {
    let mut open = Open::with_builds("workshop-mono");
    // A value under the pointer is that of the curve, with its band once builds are drawn.
    open.page
        .until("document.querySelector('#promise-low .band')");
    open.page
        .until("document.querySelector('#in-hand .reader')");
    let (x, y) = open.page.middle("#in-hand .reader");
    open.page.point((x, y));
    let reading = "document.querySelector('#in-hand .reading').textContent";
    open.page.until(&format!(
        "{reading}.includes('Hz') && {reading}.includes('dB (eight of ten: ')"
    ));
    let crossed = open
        .page
        .eval("document.querySelectorAll('#in-hand .cross *').length");
    assert!(crossed.as_u64().unwrap() >= 2);

    // The present state as a ghost.
    open.page.click("#hold");
    open.page.until("document.querySelector('.promise .ghost')");
    open.page.click("#release");
    open.page
        .until("!document.querySelector('.promise .ghost')");

    // Sealed or vented, in one click.
    open.page.until("document.querySelector('#versus-try')");
    open.page.click("#versus-try");
    open.page.until(
        "!document.querySelector('#tried').hidden && document.querySelector('#tried table')",
    );
    open.page.click("#tried-leave");
    open.page.until("document.querySelector('#tried').hidden");

    // Steps remember.
    open.page.click("#sheet-build");
    open.page
        .until("document.querySelector('input[data-step]')");
    open.page.click("input[data-step]");
    open.page.until("document.querySelector('.step.done')");
    open.page.reload();
    open.page
        .until("document.querySelector('.step.done input').checked");

    // What is to mend is folded away beside wide sheets; it opens, and stays open.
    assert_eq!(
        open.page
            .eval("document.querySelector('#mend').checkVisibility()"),
        json!(false)
    );
    open.page.click("#side-fold");
    open.page
        .until("document.querySelector('#mend').checkVisibility()");

    // Explained with the words of the command line.
    open.page
        .eval("document.querySelector('#in-order').open = true");
    let id = open
        .page
        .text("document.querySelector('[data-explain]').dataset.explain");
    open.page.click("[data-explain]");
    open.page.until("document.querySelector('#explained').open");
    let told = std::process::Command::new(env!("CARGO_BIN_EXE_boxwright"))
        .args(["explain", &id])
        .output()
        .unwrap();
    let told = String::from_utf8(told.stdout).unwrap();
    let shown = open
        .page
        .text("document.querySelector('#explained-text').textContent");
    assert_eq!(
        shown.split_whitespace().collect::<Vec<_>>(),
        told.split_whitespace().collect::<Vec<_>>()
    );
    open.page.click("#explained-close");

    // The pack is a PDF.
    let printed = open.page.eval(
        "fetch(document.querySelector('#print').href).then(async (answer) => \
         [answer.status, (await answer.text()).slice(0, 5)])",
    );
    assert_eq!(printed, json!([200, "%PDF-"]));
    open.finish();
}

#[test]
fn a_part_is_found_on_the_shelf_and_swapped() {
    let mut open = Open::example("workshop-mono");
    open.go("?sheet=parts");
    open.rested();
    open.page.click("#swap-amplifier-part");
    open.page
        .until("(() => { const kinds = [...document.querySelectorAll('#shelf-found li > small')]; \
            return kinds.length > 2 && kinds.every((kind) => kind.textContent.startsWith('amplifier')); })()");
    let now = open
        .page
        .text("document.querySelector('#used-amplifier-part').value");
    // Another one than the present one, seen first.
    let other = open.page.text(&format!(
        "[...document.querySelectorAll('#shelf-found [data-take]')].map((b) => b.dataset.take).find((n) => n !== {})",
        json!(now)
    ));
    let take = format!("[data-take={}]", json!(other));
    open.page.click(&format!("{take}[data-trial]"));
    open.page.until("!document.querySelector('#tried').hidden && document.querySelectorAll('#tried tr').length > 5");
    open.page.click("#tried-accept");
    open.saved(&format!("part = \"{other}\""));
    // What comes in while the hand is on its way would move the sheet under it.
    open.page.until(&format!(
        "document.querySelector('#used-amplifier-part').value === {}",
        json!(other)
    ));
    open.whole();

    open.finish();
}

/// A name that is markup, quotes, and letters of everywhere.
const ODD: &str = "<script>\"mine\"</script> Tieftöner 低音";

#[test]
fn a_driver_comes_from_its_data_sheet_onto_the_shelf_and_into_the_box() {
    let mut open = Open::example("workshop-mono");
    let before = open.scratch.text();
    let shelf = open.scratch.path("box/shelf.toml");
    open.go("?sheet=parts");
    open.rested();
    open.page
        .eval("document.querySelector('#driver').open = true");
    for (id, value) in [
        ("name", ODD),
        ("size", "4 in"),
        ("impedance", "8 ohm"),
        ("fs", "80 Hz"),
        ("qms", "4"),
        ("qes", "0.5"),
    ] {
        open.page.click(&format!("#driver-{id}"));
        open.page.retype(value);
    }
    // What follows appears while it is typed.
    let derived = "document.querySelector('#driver-derived')";
    open.page
        .until(&format!("{derived}.innerText.includes('0.44')"));
    for (id, value) in [("vas", "4 L"), ("xmax", "3 mm"), ("power", "20 W")] {
        open.page.click(&format!("#driver-{id}"));
        open.page.retype(value);
    }
    open.page.until("document.querySelector('#driver-try')");

    // Seen before it is made.
    open.page.click("#driver-try");
    open.page.until("!document.querySelector('#tried').hidden && document.querySelectorAll('#tried tr').length > 5");
    assert!(!shelf.exists() && open.scratch.text() == before);
    open.page.click("#tried-accept");
    let part = "document.querySelector('#used-drivers-1-part').value";
    open.page.until(&format!("{part} === {}", json!(ODD)));
    let on_shelf = std::fs::read_to_string(&shelf).unwrap();
    assert!(on_shelf.contains("低音") && on_shelf.contains("fs = \"80 Hz\""));
    open.page
        .until("document.querySelector('#driver-fs').value === ''");
    assert_eq!(
        open.page
            .eval("document.querySelectorAll('main script').length"),
        json!(0)
    );

    // One step back takes both away, one forth brings both.
    open.whole();
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");
    assert_eq!(open.scratch.text(), before);
    assert_eq!(std::fs::read_to_string(&shelf).unwrap(), "format = 1\n");
    open.page.click("#redo");
    open.page.until(&format!("{part} === {}", json!(ODD)));
    assert_eq!(std::fs::read_to_string(&shelf).unwrap(), on_shelf);
    open.finish();
}

#[test]
fn a_design_is_chosen_and_begun() {
    let scratch = Scratch::new();
    let bench = Bench::start(scratch.bare());
    let mut page = Page::new();
    page.open(&format!("http://{}/", bench.host()));
    page.key("Escape");
    page.click("#new-name");
    page.retype("A box of <b>mine</b>");
    page.click("[data-begin=workshop-mono]");
    page.until("document.querySelector('#promise-low')");
    assert_eq!(
        page.text("document.querySelector('h1').textContent"),
        "A box of <b>mine</b>"
    );
    page.is_clean(&bench.host());
}
