//! Everything by keyboard alone.

use super::Open;

/// Presses Tab until an element has the focus.
fn tab_to(open: &mut Open, id: &str) {
    for _ in 0..200 {
        if open.page.focused() == id {
            return;
        }
        open.page.key("Tab");
    }
    panic!(
        "{id} is not reached by Tab; stopped at {}",
        open.page.focused()
    );
}

#[test]
fn the_keyboard_alone_is_enough() {
    let mut open = Open::example("workshop-mono");
    open.whole();
    let before = open.scratch.text();

    // The first stop leads past everything to the sheet.
    open.page.eval("document.activeElement.blur()");
    open.page.key("Tab");
    assert_eq!(open.page.text("document.activeElement.className"), "skip");

    // A word of the brief.
    tab_to(&mut open, "brief-brief-distance");
    open.page.retype("2.5 m");
    open.page.key("Enter");
    open.saved("distance = \"2.5 m\"");

    // A promise, then a sheet.
    tab_to(&mut open, "promise-long");
    open.page.key("Enter");
    open.page.until("location.search.includes('promise=long')");
    open.page
        .until("document.querySelector('#promise-long').ariaCurrent === 'true'");
    assert_eq!(
        open.page.focused(),
        "promise-long",
        "the focus stays where it was"
    );

    // What has the focus can be seen.
    let seen = open
        .page
        .eval("getComputedStyle(document.activeElement).outlineStyle");
    assert_ne!(seen, "none");

    // A look at the box.
    tab_to(&mut open, "look-above");
    open.page.key("Enter");
    open.page
        .until("document.querySelector('#look-above').ariaCurrent === 'true'");

    // A part is moved with the arrow keys and taken in hand with Enter.
    let grip = open
        .page
        .text("document.querySelector('.grip[data-key]:not([data-table^=drivers])').id");
    tab_to(&mut open, &grip);
    open.page.key("ArrowRight");
    open.page.key("ArrowRight");
    open.page
        .until("document.querySelector('#undo').title.includes(' at ')");
    assert_ne!(open.scratch.text(), before);
    // One after the other in less time than a key takes to rest: both are moved.
    let was = open.scratch.text();
    open.page
        .until("!document.querySelector('.grip.moving') && !document.querySelector('#stop')");
    let two =
        "[...document.querySelectorAll('.grip[data-key]:not([data-table^=drivers])')].slice(0, 2)";
    for index in 0..2 {
        open.page.eval(&format!("{two}[{index}].focus()"));
        open.page.key("ArrowRight");
    }
    super::bench::until("both", || {
        let now = open.scratch.text();
        was.lines().zip(now.lines()).filter(|(a, b)| a != b).count() == 2
    });
    for _ in 0..2 {
        let text = open.scratch.text();
        open.page.key("Ctrl+z");
        super::bench::until("taken back", || open.scratch.text() != text);
    }
    assert_eq!(open.scratch.text(), was);
    open.page
        .eval(&format!("document.getElementById('{grip}').focus()"));
    open.page.key("Enter");
    open.page.until("document.querySelector('#part')");

    // A lever.
    open.whole();
    tab_to(&mut open, "lever-box-depth-range");
    let was = open.scratch.text();
    open.page.key("ArrowRight");
    super::bench::until("the lever", || open.scratch.text() != was);

    // A curve is read with the arrow keys.
    tab_to(&mut open, "in-hand-reader");
    open.page.key("ArrowRight");
    let said = open
        .page
        .text("document.activeElement.getAttribute('aria-valuetext')");
    assert!(said.contains("volts") && said.contains(" h "), "{said}");

    // And all of it undone.
    for _ in 0..3 {
        let text = open.scratch.text();
        open.page.key("Ctrl+z");
        super::bench::until("undone", || open.scratch.text() != text);
    }
    assert_eq!(open.scratch.text(), before);
    open.finish();
}
