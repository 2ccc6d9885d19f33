//! Every sheet in both themes at five widths: nothing runs out of the window, no text lies
//! on another, no id stands twice.

use super::Open;
use serde_json::json;

const SHEETS: [&str; 8] = [
    "parts", "sound", "power", "box", "cuts", "panel", "wires", "build",
];
const WIDTHS: [u32; 5] = [360, 768, 1280, 1920, 2560];

/// Texts that lie on one another. Letters within drawings are held apart where those are made.
const COLLISIONS: &str = "(() => {
    const found = [];
    const boxes = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const node = walker.currentNode;
        const holder = node.parentElement;
        if (!node.data.trim() || holder.closest('svg, script, dialog, #tried, #say, .skip, select, textarea')) continue;
        if (!holder.checkVisibility({ visibilityProperty: true })) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const r of range.getClientRects()) {
            if (r.width > 1 && r.height > 1) boxes.push({ r, node, text: node.data.trim().slice(0, 40) });
        }
    }
    for (const field of document.querySelectorAll('input.word, select.word')) {
        if (field.checkVisibility()) boxes.push({ r: field.getBoundingClientRect(), node: field, text: field.value });
    }
    boxes.sort((a, b) => a.r.top - b.r.top);
    for (let i = 0; i < boxes.length; i++) {
        for (let j = i + 1; j < boxes.length && boxes[j].r.top < boxes[i].r.bottom - 3; j++) {
            const [a, b] = [boxes[i], boxes[j]];
            if (a.node === b.node) continue;
            const wide = Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left);
            const high = Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top);
            const sticky = (box) => (box.node.parentElement ?? box.node).closest('#sheets');
            if (wide > 2 && high > 6 && !sticky(a) !== !sticky(b)) continue;
            if (wide > 2 && high > 6) found.push([a.text, b.text]);
        }
    }
    return found.slice(0, 5);
})()";

/// Texts of one drawing that lie on one another; those aslant take less than their frames.
const DRAWN: &str = "(() => {
    const found = [];
    for (const svg of document.querySelectorAll('svg.drawing')) {
        const texts = [...svg.querySelectorAll('text')]
            .filter((t) => t.textContent.trim() && t.checkVisibility({ visibilityProperty: true }))
            .filter((t) => { const m = t.getScreenCTM(); return Math.abs(m.a * m.b) < 1e-6; })
            .map((t) => ({ r: t.getBoundingClientRect(), text: t.textContent.slice(0, 40) }));
        texts.sort((a, b) => a.r.top - b.r.top);
        for (let i = 0; i < texts.length; i++) {
            for (let j = i + 1; j < texts.length && texts[j].r.top < texts[i].r.bottom; j++) {
                const [a, b] = [texts[i], texts[j]];
                const wide = Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left);
                const high = Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top);
                // The frame of a letter is higher than the letter.
                const least = Math.min(a.r.height, b.r.height, a.r.width, b.r.width);
                if (wide > 1 && high > 0.4 * least) found.push([a.text, b.text]);
            }
        }
    }
    return found.slice(0, 5);
})()";

const TWICE: &str = "(() => {
    const seen = new Set();
    const twice = [];
    for (const element of document.querySelectorAll('[id]')) {
        if (seen.has(element.id)) twice.push(element.id);
        seen.add(element.id);
    }
    return twice;
})()";

/// What reaches beyond the window, but for what scrolls by itself.
const BEYOND: &str = "(() => {
    const wide = document.documentElement.clientWidth;
    if (document.scrollingElement.scrollWidth <= wide + 1) return [];
    return [...document.querySelectorAll('body *')]
        .filter((e) => e.getBoundingClientRect().right > wide + 1 && !e.closest('.wide, #sheets'))
        .map((e) => e.tagName + '#' + e.id + '.' + e.className).slice(0, 5);
})()";

#[test]
fn every_sheet_is_whole_in_both_themes_at_every_width() {
    let mut open = Open::example("workshop-mono");
    open.whole();
    for (index, sheet) in SHEETS.into_iter().enumerate() {
        open.go(&format!("?sheet={sheet}"));
        for width in WIDTHS {
            open.page.size(width, 900);
            for dark in [false, true] {
                open.page.dark(dark);
                let ground = open
                    .page
                    .text("getComputedStyle(document.body).backgroundColor");
                assert_eq!(ground == "rgb(15, 36, 60)", dark, "{ground}");
                if dark && index > 1 {
                    // Only colours differ.
                    continue;
                }
                let said = format!("{sheet} at {width}, dark: {dark}");
                for check in [COLLISIONS, DRAWN, TWICE, BEYOND] {
                    assert_eq!(open.page.eval(check), json!([]), "{said}");
                }
            }
        }
    }
    open.finish();
}

#[test]
fn the_switch_stays_as_it_was_set_and_letters_twice_as_large_still_fit() {
    let mut open = Open::example("workshop-mono");
    open.page.click("#theme");
    let ground = "getComputedStyle(document.body).backgroundColor";
    open.page.until(&format!("{ground} === 'rgb(15, 36, 60)'"));
    open.page.reload();
    open.page.until(&format!("{ground} === 'rgb(15, 36, 60)'"));
    open.page.click("#theme");
    open.page
        .until(&format!("{ground} === 'rgb(255, 255, 255)'"));
    // 200 % in a window of 1280 pixels leaves half as many.
    open.page.size(640, 450);
    for check in [COLLISIONS, DRAWN, BEYOND] {
        assert_eq!(open.page.eval(check), json!([]));
    }
    open.finish();
}
