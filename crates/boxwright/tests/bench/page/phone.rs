//! The build order on a phone: a file of its own, away from the bench.

use super::Open;
use super::bench::Scratch;
use super::browser::Page;
use serde_json::json;

#[test]
fn the_build_order_is_taken_along_and_remembers() {
    let mut open = Open::example("workshop-mono");
    open.go("?sheet=build");
    open.whole();
    open.page.click("input[data-step]");
    open.page.until("document.querySelector('.step.done')");
    let text = open
        .page
        .text("fetch(document.querySelector('#build-file').href).then((file) => file.text())");
    let kept = Scratch::new();
    let file = kept.path("build.html");
    std::fs::write(&file, &text).unwrap();
    let steps = open
        .page
        .eval("document.querySelectorAll('input[data-step]').length");
    // The bench ends, and the file is all there is.
    open.finish();

    let mut phone = Page::new();
    phone.size(360, 740);
    let address = format!("file://{}", file.display());
    phone.open(&address);
    let checked =
        "[...document.querySelectorAll('input[data-step]')].filter((b) => b.checked).length";
    assert_eq!(
        phone.eval("document.querySelectorAll('input[data-step]').length"),
        steps
    );
    assert_eq!(
        phone.eval(checked),
        json!(1),
        "what was done when it was saved"
    );
    for index in [2, 3] {
        phone.click(&format!("#steps li.step:nth-of-type({}) input", index + 1));
    }
    phone.until(&format!("{checked} === 3"));
    let said = "document.querySelector('#steps-title small').textContent";
    phone.until(&format!("{said}.includes('3 of')"));
    // One is taken back that was done at the bench.
    phone.click(".step.done input");
    phone.until(&format!("{checked} === 2"));
    phone.reload();
    assert_eq!(phone.eval(checked), json!(2));
    assert_eq!(
        phone.eval("document.querySelectorAll('.step.done').length"),
        json!(2)
    );
    assert_eq!(
        phone.eval("document.querySelector('#forgets').hidden"),
        json!(true)
    );
    // Nothing runs over the edge of the screen, and nothing is asked of anybody.
    let wide = phone.eval("document.documentElement.scrollWidth <= innerWidth");
    assert_eq!(wide, json!(true));
    assert_eq!(
        phone.eval("performance.getEntriesByType('resource').length"),
        json!(0)
    );
    phone.is_alone(&address);
}
