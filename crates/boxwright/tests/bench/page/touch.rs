//! What is touched, read and tabbed to: large enough, seen when it has the focus, and still
//! where nothing is to move.

use super::Open;
use serde_json::json;

/// Controls smaller than 24 pixels either way.
const SMALL: &str = "[...document.querySelectorAll('a, button, input, select, summary')]
    .filter((e) => e.checkVisibility({ visibilityProperty: true }) && !e.matches('.skip') && !e.closest('svg'))
    .map((e) => [e.id || e.textContent.trim() || e.href, e.getBoundingClientRect()])
    .filter(([, r]) => r.width < 23.5 || r.height < 23.5)
    .map(([name, r]) => `${name}: ${r.width} x ${r.height}`).slice(0, 5)";

/// What a thumb in the workshop has to meet: at least 44 pixels high.
const THUMB: &str = "[...document.querySelectorAll('.step label, .step summary, #sheets a')]
    .filter((e) => e.getBoundingClientRect().height < 44)
    .map((e) => e.textContent.trim().slice(0, 40)).slice(0, 5)";

/// Letters of drawings smaller than this cannot be read.
const TINY: &str = "[...document.querySelectorAll('svg text')]
    .filter((t) => t.checkVisibility({ visibilityProperty: true }) && t.textContent.trim())
    .map((t) => { const m = t.getScreenCTM(); return [t.textContent.slice(0, 30), parseFloat(getComputedStyle(t).fontSize) * Math.hypot(m.a, m.b)]; })
    .filter(([, size]) => size < 8)
    .map(([text, size]) => `${text}: ${size.toFixed(1)}`).slice(0, 5)";

/// What takes the focus without showing it. What is drawn shows it by its own outline.
const UNSEEN: &str = "[...document.querySelectorAll('a[href], button:not(:disabled), input:not([type=hidden]), select, summary, textarea, [tabindex=\"0\"]')]
    .filter((e) => e.checkVisibility({ visibilityProperty: true }))
    .filter((e) => {
        const own = e.matches('.grip') ? e.querySelector('polygon') : e.matches('.handle') ? e.querySelector('.reach') : e;
        const look = () => { const s = getComputedStyle(own); return [s.outlineStyle, s.outlineWidth, s.fillOpacity, s.strokeOpacity].join(); };
        const before = look();
        e.focus({ focusVisible: true, preventScroll: true });
        return look() === before;
    }).map((e) => e.id || e.className || e.textContent.trim().slice(0, 30)).slice(0, 5)";

/// What still moves though the machine asks for rest.
const MOVING: &str = "[...document.querySelectorAll('*')]
    .filter((e) => { const s = getComputedStyle(e); return s.transitionDuration !== '0s' || s.animationName !== 'none'; })
    .map((e) => e.id || e.className).slice(0, 5)";

#[test]
fn everything_is_large_enough_seen_and_at_rest() {
    let mut open = Open::example("bathing-beach");
    open.whole();
    for sheet in ["parts", "sound", "power", "cuts", "wires", "build"] {
        open.go(&format!("?sheet={sheet}&side=open"));
        for width in [360, 1280] {
            open.page.size(width, 800);
            for (what, check) in [("small", SMALL), ("tiny", TINY)] {
                let found = open.page.eval(check);
                assert_eq!(found, json!([]), "{what}: {sheet} at {width}");
            }
        }
    }
    open.page.size(360, 800);
    assert_eq!(open.page.eval(THUMB), json!([]));
    open.go("?sheet=sound");
    for check in [UNSEEN, MOVING] {
        assert_eq!(open.page.eval(check), json!([]));
    }
    open.finish();
}
