//! Dragging writes in the unit the file speaks, and moves what the file can place.

use super::Open;

/// An example whose box is written otherwise.
fn with_size(size: &str) -> Open {
    Open::rewritten("bathing-beach", |text| {
        let line = text.lines().find(|line| line.starts_with("outside = "));
        let line = line.expect("the example states its size");
        text.replace(line, &format!("outside = \"{size}\""))
    })
}

/// The value in the file's first line that begins so.
fn value(open: &Open, key: &str) -> String {
    let text = open.scratch.text();
    let front = format!("{key} = \"");
    let line = text.lines().find_map(|line| line.strip_prefix(&front));
    let line = line.unwrap_or_else(|| panic!("no {key}"));
    line.split('"').next().unwrap().to_owned()
}

/// Waits until the page shows a text of the file.
fn reached(open: &mut Open, wanted: &str) {
    let handle = "document.querySelector('#handle-depth')?.dataset.written";
    open.page.until(&format!(
        "{handle}?.includes({})",
        serde_json::json!(wanted)
    ));
}

#[test]
fn inches_stay_inches_on_the_marks_of_a_rule() {
    let mut open = with_size("14 x 8 x 7 1/2 in ± 1/16 in");
    reached(&mut open, "7 1/2");
    let depth = open.page.middle("#handle-height");
    open.page.drag(depth, (0.0, -25.0));
    open.page.until("!document.querySelector('#undo').disabled");
    let size = value(&open, "outside");
    let rest = size
        .strip_prefix("14 x ")
        .and_then(|s| s.strip_suffix(" x 7 1/2 in ± 1/16 in"));
    let height = rest.unwrap_or_else(|| panic!("{size}"));
    assert_ne!(height, "8");
    let under = height.split_once('/').map_or("1", |(_, under)| under);
    assert!(["1", "2", "4", "8", "16", "32"].contains(&under), "{size}");
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");

    // A lever in fractions, with the arrow keys: one mark of the rule.
    let lever = "#lever-box-depth-range";
    open.page
        .until(&format!("document.querySelector('{lever}')"));
    open.page
        .eval(&format!("document.querySelector('{lever}').focus()"));
    open.page.key("ArrowRight");
    open.saved("14 x 8 x 7 17/32 in ± 1/16 in");
    let said = "document.querySelector('#lever-box-depth-value').textContent";
    open.page.until(&format!("{said} === '7 17/32 in'"));
    open.finish();
}

#[test]
fn centimetres_stay_centimetres() {
    let mut open = with_size("36 x 20 x 18.8 cm");
    reached(&mut open, "18.8");
    open.page
        .eval("document.querySelector('#handle-depth').focus()");
    open.page.key("ArrowUp");
    open.saved("36 x 20 x 18.9 cm");
    open.finish();
}

/// Lines that differ, before and after.
fn changed(before: &str, after: &str) -> Vec<(String, String)> {
    let lines = before.lines().zip(after.lines());
    lines
        .filter(|(old, new)| old != new)
        .map(|(old, new)| (old.to_owned(), new.to_owned()))
        .collect()
}

/// The lengths of a line in mm.
fn mm(line: &str) -> Vec<f64> {
    let text = line.split('"').nth(1).unwrap();
    let numbers = text.trim_end_matches(" mm").split(" x ");
    numbers.map(|number| number.parse().unwrap()).collect()
}

/// Parts on the panel, the handle and the feet.
#[test]
fn what_is_on_the_box_is_dragged_where_the_file_says_so() {
    let mut open = Open::example("bathing-beach");
    open.whole();
    let before = open.scratch.text();
    // Several parts may lie over each other as they are seen: one that can be taken hold of.
    let control = open.page.text(
        "[...document.querySelectorAll('.grip[data-key^=\"control.part.\"]')].find((grip) => { \
         grip.scrollIntoView({ block: 'center' }); const r = grip.getBoundingClientRect(); \
         const top = document.elementFromPoint(r.x + r.width / 2, r.y + r.height / 2); \
         return top?.closest('.grip') === grip; })?.id",
    );
    let grip = format!("#{control}");
    let at = format!("document.querySelector('{grip}').dataset.at");
    let was = open.page.text(&at);
    let middle = open.page.middle(&grip);
    open.page.drag(middle, (0.0, -12.0));
    open.page
        .until(&format!("{at} !== {}", serde_json::json!(was)));
    let text = open.scratch.text();
    let moved = changed(&before, &text);
    assert_eq!(moved.len(), 1, "{moved:?}");
    assert!(
        mm(&moved[0].1)[1] > mm(&moved[0].0)[1],
        "it went up: {moved:?}"
    );
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");
    // With the keyboard by one millimetre, and the other length as it was.
    open.page
        .eval(&format!("document.querySelector('{grip}').focus()"));
    open.page.key("ArrowUp");
    open.page.until("!document.querySelector('#undo').disabled");
    let moved = changed(&before, &open.scratch.text());
    let [old, new] = [mm(&moved[0].0), mm(&moved[0].1)];
    assert_eq!([new[0], new[1]], [old[0], old[1] + 1.0]);

    // The handle, with the keyboard; a foot moves them all.
    open.page.click("#undo");
    open.page.until("document.querySelector('#undo').disabled");
    for (grip, look, key) in [
        ("handle", "closed", "handle.at"),
        ("feet", "front", "feet.inset"),
    ] {
        open.go(&format!("?sheet=sound&look={look}"));
        let grip = format!("#grip-{grip}-0");
        let told = format!("document.querySelector('{grip}').dataset.key");
        assert_eq!(open.page.text(&told), key);
        open.page
            .eval(&format!("document.querySelector('{grip}').focus()"));
        open.page.key("ArrowRight");
        open.page.until("!document.querySelector('#undo').disabled");
        assert_ne!(open.scratch.text(), before, "{grip}");
        open.page.click("#undo");
        open.page.until("document.querySelector('#undo').disabled");
        assert_eq!(open.scratch.text(), before);
    }
    open.finish();
}
