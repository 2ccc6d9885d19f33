//! The page in a real browser: what a maker does there, with mouse and keyboard, in both
//! themes and at every width.

#![allow(
    clippy::unwrap_used,
    reason = "a test may stop where its setting fails"
)]

mod audit;
#[path = "../server/bench.rs"]
#[expect(dead_code, reason = "the tests of the server use the rest of it")]
mod bench;
mod browser;
mod drag;
mod keyboard;
mod looks;
mod phone;
mod pictures;
mod quick;
mod story;
mod touch;

use bench::{Bench, Scratch};
use browser::Page;

/// A bench with an example on it, and a page that shows it.
struct Open {
    scratch: Scratch,
    bench: Bench,
    page: Page,
}

impl Open {
    /// An example, studied nominally only.
    fn example(name: &str) -> Self {
        Self::rewritten(name, |text| text)
    }

    /// The same with another text.
    fn rewritten(name: &str, rewrite: impl Fn(String) -> String) -> Self {
        let scratch = Scratch::new();
        scratch.copy(name);
        scratch.write(&rewrite(scratch.text()));
        Self::on(scratch, Bench::open)
    }

    /// An example with as many drawn builds as usual.
    fn with_builds(name: &str) -> Self {
        let scratch = Scratch::new();
        scratch.copy(name);
        Self::on(scratch, Bench::with_builds)
    }

    fn on(scratch: Scratch, open: fn(&Scratch) -> Bench) -> Self {
        let bench = open(&scratch);
        let mut page = Page::new();
        page.size(1280, 900);
        page.dark(false);
        page.open(&format!("http://{}/", bench.host()));
        Self {
            scratch,
            bench,
            page,
        }
    }

    /// Waits until every build is drawn and every mend tried.
    fn whole(&mut self) {
        self.page
            .until("document.querySelector('#head').dataset.stage === 'whole'");
    }

    /// Waits until nothing more is being tried, so that nothing moves under the hand.
    fn rested(&mut self) {
        self.whole();
        self.page.until("!document.querySelector('#stop')");
    }

    fn go(&mut self, query: &str) {
        self.page
            .open(&format!("http://{}/{query}", self.bench.host()));
    }

    /// Waits until the design file holds a text.
    fn saved(&self, wanted: &str) {
        bench::until(wanted, || self.scratch.text().contains(wanted));
    }

    fn finish(mut self) {
        let host = self.bench.host();
        self.page.is_clean(&host);
    }
}
