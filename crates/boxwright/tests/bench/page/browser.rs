//! A real browser, driven over its debugging protocol.

use serde_json::{Value, json};
use std::fs;
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};
use tungstenite::stream::MaybeTlsStream;
use tungstenite::{Message, WebSocket};

/// Nothing that is waited for takes longer, even on a busy machine.
const PATIENCE: Duration = Duration::from_secs(90);

/// No network, no first-run pages, a profile of its own.
const FLAGS: [&str; 10] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
    "--remote-debugging-port=0",
];

/// Names under which the browser is installed.
const NAMES: [&str; 2] = ["chromium", "chromium-browser"];

/// One page of a browser of its own.
pub(crate) struct Page {
    browser: Child,
    profile: PathBuf,
    socket: WebSocket<MaybeTlsStream<TcpStream>>,
    session: String,
    sent: u64,
    heard: Vec<Value>,
}

fn start(profile: &Path) -> Child {
    for name in NAMES {
        let started = Command::new(name)
            .args(FLAGS)
            .arg(format!("--user-data-dir={}", profile.display()))
            .arg("about:blank")
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn();
        if let Ok(child) = started {
            return child;
        }
    }
    panic!("Chromium is needed for this test: ./check installs it");
}

impl Page {
    /// An empty page.
    pub(crate) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("boxwright-browser-{}-{count}", std::process::id());
        let profile = std::env::temp_dir().join(name);
        fs::create_dir_all(&profile).unwrap();
        let browser = start(&profile);
        let told = profile.join("DevToolsActivePort");
        let begun = Instant::now();
        let (port, path) = loop {
            let text = fs::read_to_string(&told).unwrap_or_default();
            if let Some((port, path)) = text.split_once('\n')
                && !path.is_empty()
            {
                break (port.to_owned(), path.trim().to_owned());
            }
            assert!(begun.elapsed() < PATIENCE, "the browser does not start");
            std::thread::sleep(Duration::from_millis(30));
        };
        let address = format!("ws://127.0.0.1:{port}{path}");
        let (socket, _) = tungstenite::connect(address).expect("the browser listens");
        if let MaybeTlsStream::Plain(stream) = socket.get_ref() {
            stream.set_read_timeout(Some(PATIENCE)).unwrap();
        }
        let mut page = Self {
            browser,
            profile,
            socket,
            session: String::new(),
            sent: 0,
            heard: Vec::new(),
        };
        page.attach();
        page
    }

    fn attach(&mut self) {
        let made = self.send("Target.createTarget", json!({"url": "about:blank"}));
        let target = &made["targetId"];
        let attached = self.send(
            "Target.attachToTarget",
            json!({"targetId": target, "flatten": true}),
        );
        self.session = attached["sessionId"].as_str().unwrap().to_owned();
        for domain in ["Page", "Runtime", "Log", "Network"] {
            self.send(&format!("{domain}.enable"), json!({}));
        }
    }

    /// Sends a command and gives its result.
    pub(crate) fn send(&mut self, method: &str, params: Value) -> Value {
        self.sent += 1;
        let id = self.sent;
        let mut message = json!({"id": id, "method": method, "params": params});
        if !self.session.is_empty() {
            message["sessionId"] = json!(self.session);
        }
        self.socket
            .send(Message::text(message.to_string()))
            .unwrap_or_else(|error| panic!("{method}: {error}"));
        loop {
            let heard = self
                .socket
                .read()
                .unwrap_or_else(|error| panic!("{method}: {error}"));
            let Message::Text(text) = heard else { continue };
            let heard: Value = serde_json::from_str(&text).unwrap();
            if heard["id"] == id {
                assert!(heard.get("error").is_none(), "{method}: {heard}");
                return heard["result"].clone();
            }
            self.heard.push(heard);
        }
    }

    /// The value of an expression.
    pub(crate) fn eval(&mut self, script: &str) -> Value {
        let params = json!({"expression": script, "awaitPromise": true, "returnByValue": true});
        let done = self.send("Runtime.evaluate", params);
        let thrown = done.get("exceptionDetails");
        assert!(thrown.is_none(), "{script}: {thrown:?}");
        done["result"]["value"].clone()
    }

    pub(crate) fn text(&mut self, script: &str) -> String {
        let value = self.eval(script);
        value
            .as_str()
            .map_or_else(|| value.to_string(), str::to_owned)
    }

    /// Waits until an expression holds.
    pub(crate) fn until(&mut self, script: &str) {
        let begun = Instant::now();
        while self.eval(&format!("Boolean({script})")) != json!(true) {
            if begun.elapsed() > PATIENCE {
                let page = self.text("document.body.innerText.slice(0, 1500)");
                panic!("never came: {script}\n{page}");
            }
            std::thread::sleep(Duration::from_millis(40));
        }
    }

    /// Opens an address and waits until its script runs.
    pub(crate) fn open(&mut self, address: &str) {
        self.send("Page.navigate", json!({"url": address}));
        // The old document may still answer for a moment.
        let here = format!("location.href.startsWith({}) ", json!(address));
        self.until(&format!(
            "{here} && document.documentElement?.dataset.ready"
        ));
    }

    /// Reloads the page.
    pub(crate) fn reload(&mut self) {
        self.eval("document.documentElement.dataset.ready = ''");
        self.send("Page.reload", json!({}));
        self.until("document.documentElement?.dataset.ready");
    }

    /// Width and height of the window.
    pub(crate) fn size(&mut self, width: u32, height: u32) {
        let params =
            json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false});
        self.send("Emulation.setDeviceMetricsOverride", params);
    }

    /// Light or dark, as the machine would ask for it.
    pub(crate) fn dark(&mut self, dark: bool) {
        let value = if dark { "dark" } else { "light" };
        let features = json!([{"name": "prefers-color-scheme", "value": value},
            {"name": "prefers-reduced-motion", "value": "reduce"}]);
        self.send("Emulation.setEmulatedMedia", json!({"features": features}));
    }

    /// The middle of an element, scrolled into view.
    pub(crate) fn middle(&mut self, selector: &str) -> (f64, f64) {
        let script = format!(
            "(() => {{ const e = document.querySelector({}); if (!e) return null; \
             e.scrollIntoView({{block: 'center', inline: 'center'}}); \
             const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; }})()",
            json!(selector)
        );
        let at = self.eval(&script);
        let of = |index: usize| {
            at[index]
                .as_f64()
                .unwrap_or_else(|| panic!("no {selector}"))
        };
        (of(0), of(1))
    }

    fn mouse(&mut self, kind: &str, (x, y): (f64, f64), buttons: u32) {
        let params = json!({"type": kind, "x": x, "y": y, "button": "left", "buttons": buttons, "clickCount": 1});
        self.send("Input.dispatchMouseEvent", params);
    }

    pub(crate) fn click(&mut self, selector: &str) {
        let at = self.middle(selector);
        self.mouse("mouseMoved", at, 0);
        self.mouse("mousePressed", at, 1);
        self.mouse("mouseReleased", at, 0);
    }

    /// Drags by so many pixels from a point, in steps as a hand does.
    pub(crate) fn drag(&mut self, from: (f64, f64), (dx, dy): (f64, f64)) {
        self.mouse("mouseMoved", from, 0);
        self.mouse("mousePressed", from, 1);
        for step in 1..=8 {
            let share = f64::from(step) / 8.0;
            self.mouse("mouseMoved", (from.0 + share * dx, from.1 + share * dy), 1);
        }
        self.mouse("mouseReleased", (from.0 + dx, from.1 + dy), 0);
    }

    /// Moves the mouse to a point.
    pub(crate) fn point(&mut self, at: (f64, f64)) {
        self.mouse("mouseMoved", at, 0);
    }

    /// Presses a key by its name; with Ctrl or Shift where wanted.
    pub(crate) fn key(&mut self, key: &str) {
        let (held, name) = key.rsplit_once('+').unwrap_or(("", key));
        let held: Vec<&str> = held.split('+').collect();
        let modifiers =
            2 * u32::from(held.contains(&"Ctrl")) + 8 * u32::from(held.contains(&"Shift"));
        let (name, code, number, text) = match name {
            "Space" => (" ", "Space", 32, " "),
            "Enter" => ("Enter", "Enter", 13, "\r"),
            "Tab" => ("Tab", "Tab", 9, ""),
            "Escape" => ("Escape", "Escape", 27, ""),
            "ArrowLeft" => ("ArrowLeft", "ArrowLeft", 37, ""),
            "ArrowUp" => ("ArrowUp", "ArrowUp", 38, ""),
            "ArrowRight" => ("ArrowRight", "ArrowRight", 39, ""),
            "ArrowDown" => ("ArrowDown", "ArrowDown", 40, ""),
            "z" => ("z", "KeyZ", 90, ""),
            "a" => ("a", "KeyA", 65, ""),
            other => panic!("no key {other}"),
        };
        let params = |kind: &str, text: &str| {
            json!({"type": kind, "key": name, "code": code, "windowsVirtualKeyCode": number,
                "modifiers": modifiers, "text": text, "unmodifiedText": text})
        };
        let down = if text.is_empty() {
            "rawKeyDown"
        } else {
            "keyDown"
        };
        self.send("Input.dispatchKeyEvent", params(down, text));
        self.send("Input.dispatchKeyEvent", params("keyUp", ""));
    }

    /// Types a text into what has the focus, in the place of what stands there.
    pub(crate) fn retype(&mut self, text: &str) {
        self.eval("document.activeElement.select()");
        self.send("Input.insertText", json!({"text": text}));
    }

    /// Where the focus is: the id.
    pub(crate) fn focused(&mut self) -> String {
        self.text("document.activeElement?.id ?? ''")
    }

    /// A picture of the window, PNG in base64.
    pub(crate) fn picture(&mut self, whole: bool) -> String {
        let params = json!({"format": "png", "captureBeyondViewport": whole});
        let taken = self.send("Page.captureScreenshot", params);
        taken["data"].as_str().unwrap_or_default().to_owned()
    }

    /// Nothing went wrong, and nothing was asked of any other machine.
    pub(crate) fn is_clean(&mut self, host: &str) {
        self.is_alone(&format!("http://{host}/"));
    }

    /// Nothing went wrong, and nothing was asked for that does not begin so.
    pub(crate) fn is_alone(&mut self, ours: &str) {
        self.eval("1");
        for heard in &self.heard {
            let params = &heard["params"];
            match heard["method"].as_str().unwrap_or_default() {
                "Runtime.exceptionThrown" => panic!("{params}"),
                "Runtime.consoleAPICalled" if params["type"] == "error" => panic!("{params}"),
                "Log.entryAdded" => {
                    let entry = &params["entry"];
                    // A value that is refused is told to the maker; the browser notes it, too.
                    let refused = entry["source"] == "network"
                        && entry["text"].as_str().unwrap_or_default().contains("422");
                    assert!(entry["level"] != "error" || refused, "{entry}");
                }
                "Network.requestWillBeSent" => {
                    let url = params["request"]["url"].as_str().unwrap_or_default();
                    let inner = url.starts_with("data:") || url == "about:blank";
                    assert!(inner || url.starts_with(ours), "asked for {url}");
                }
                _ => {}
            }
        }
        self.heard.clear();
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        self.browser.kill().ok();
        self.browser.wait().ok();
        fs::remove_dir_all(&self.profile).ok();
    }
}
