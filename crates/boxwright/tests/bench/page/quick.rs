//! Many edits in a row: what is shown is never older than what was shown before.

use super::Open;

/// Notes, whenever anything on the page changes, which text it shows and what of it.
const WATCH: &str = r#"(() => {
    window.noted = [];
    const note = () => {
        const { number, stage } = document.querySelector('#head').dataset;
        const odds = document.querySelector('#promise-loud .odds').innerText;
        const last = noted[noted.length - 1];
        if (last?.number !== Number(number) || last.stage !== stage || last.odds !== odds) {
            noted.push({ number: Number(number), stage, odds });
        }
    };
    const { body } = document;
    new MutationObserver(note).observe(body, { subtree: true, childList: true, attributes: true, characterData: true });
    note();
})()"#;

/// Fifty edits, faster than any is answered; none to a whole number, which is told without
/// its zero.
const EDITS: &str = r#"(async () => {
    const word = () => document.querySelector('#brief-brief-loudness');
    for (let n = 0; n < 50; n++) {
        word().value = `${70 + Math.floor(n / 9)}.${n % 9 + 1} dB`;
        word().dispatchEvent(new Event("change", { bubbles: true }));
        await new Promise((rest) => setTimeout(rest, 5));
    }
})()"#;

#[test]
fn fifty_quick_edits_show_each_text_whole_and_the_last_one_last() {
    let mut open = Open::with_builds("workshop-mono");
    open.whole();
    open.page.eval(WATCH);
    open.page.eval(EDITS);
    open.saved("loudness = \"75.5 dB\"");
    let number = "Number(document.querySelector('#head').dataset.number)";
    let first = open.page.eval("noted[0].number").as_u64().unwrap();
    open.page.until(&format!("{number} === {}", first + 50));
    open.whole();
    let noted = open.page.eval("noted");
    let noted = noted.as_array().unwrap();
    let rank = |stage: &str| {
        ["broken", "nominal", "bands", "whole"]
            .iter()
            .position(|s| *s == stage)
    };
    let mut before = None;
    for state in noted {
        let number = state["number"].as_u64().unwrap();
        let now = Some((number, rank(state["stage"].as_str().unwrap())));
        assert!(now >= before, "{state} came after {before:?}: {noted:?}");
        before = now;
        if let Some(edit) = (number - first).checked_sub(1) {
            let asked = format!("{}.{} dB", 70 + edit / 9, edit % 9 + 1);
            let odds = state["odds"].as_str().unwrap();
            assert!(odds.contains(&asked), "{asked} was asked for: {state}");
        }
    }
    let word = "document.querySelector('#brief-brief-loudness').value";
    assert_eq!(open.page.text(word), "75.5 dB");
    assert_eq!(open.page.eval(number).as_u64(), Some(first + 50));
    open.finish();
}
