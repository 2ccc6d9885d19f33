//! A bench of the real binary on a copy of an example, spoken to over a raw socket.

use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// Nothing that is waited for takes longer, even on a busy machine.
pub(crate) const PATIENCE: Duration = Duration::from_secs(120);

/// The root of the repository.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A folder of its own, gone afterwards.
#[derive(Debug)]
pub(crate) struct Scratch(PathBuf);

impl Scratch {
    pub(crate) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("boxwright-bench-{}-{count}", std::process::id());
        let path = fs::canonicalize(std::env::temp_dir()).unwrap().join(name);
        fs::create_dir_all(path.join("box")).unwrap();
        Self(path)
    }

    /// A path in the scratch folder; the design lies in `box`.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    pub(crate) fn design(&self) -> PathBuf {
        self.path("box/design.toml")
    }

    pub(crate) fn text(&self) -> String {
        fs::read_to_string(self.design()).unwrap()
    }

    pub(crate) fn write(&self, text: &str) {
        fs::write(self.design(), text).unwrap();
    }

    /// Copies an example's design, with the shelf beside it.
    pub(crate) fn copy(&self, example: &str) {
        for name in ["design.toml", "shelf.toml"] {
            let from = root().join("examples").join(example).join(name);
            if from.exists() {
                fs::copy(from, self.path("box").join(name)).unwrap();
            }
        }
    }

    /// The command that opens the design, studied nominally only.
    pub(crate) fn command(&self) -> Command {
        let mut command = self.bare();
        command.arg(self.design()).arg("--builds=0");
        command
    }

    /// The command without a design.
    pub(crate) fn bare(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_boxwright"));
        command
            .args(["open", "--json", "--no-browser"])
            .current_dir(self.path("box"))
            .env("XDG_STATE_HOME", self.path("state"))
            .env_remove("SOURCE_DATE_EPOCH")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        command
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

/// A running bench.
#[derive(Debug)]
pub(crate) struct Bench {
    child: Child,
    pub(crate) port: u16,
    token: String,
}

impl Bench {
    /// Opens the design of a scratch folder.
    pub(crate) fn open(scratch: &Scratch) -> Self {
        Self::start(scratch.command())
    }

    /// Opens it with as many drawn builds as usual.
    pub(crate) fn with_builds(scratch: &Scratch) -> Self {
        let mut command = scratch.bare();
        command.arg(scratch.design());
        Self::start(command)
    }

    /// Runs a command that opens a bench.
    pub(crate) fn start(mut command: Command) -> Self {
        let mut child = command.spawn().expect("the binary starts");
        let mut said = BufReader::new(child.stdout.take().unwrap());
        let mut text = String::new();
        while serde_json::from_str::<Value>(&text).is_err() {
            let read = said.read_line(&mut text).unwrap();
            assert!(
                read > 0,
                "the bench ended: {text} {}",
                complaint(&mut child)
            );
        }
        let said: Value = serde_json::from_str(&text).unwrap();
        let address = said["address"].as_str().unwrap();
        let port = address
            .strip_prefix("http://127.0.0.1:")
            .and_then(|rest| rest.strip_suffix('/'))
            .unwrap_or_else(|| panic!("{address} is no address of a bench"));
        let mut bench = Self {
            child,
            port: port.parse().unwrap(),
            token: String::new(),
        };
        let page = bench.get("/").text();
        let (_, after) = page
            .split_once("name=\"token\" content=\"")
            .expect("the page holds a token");
        bench.token = after.split('"').next().unwrap().to_owned();
        bench
    }

    pub(crate) fn token(&self) -> &str {
        &self.token
    }

    pub(crate) fn pid(&self) -> u32 {
        self.child.id()
    }

    pub(crate) fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port)
    }

    pub(crate) fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).expect("the bench listens");
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        stream.set_write_timeout(Some(PATIENCE)).unwrap();
        stream
    }

    /// Sends bytes as they are and takes what comes back until the other side hangs up.
    pub(crate) fn raw(&self, bytes: &[u8]) -> Answer {
        let mut stream = self.connect();
        // A bench that has heard enough may hang up before all is said.
        stream.write_all(bytes).ok();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).ok();
        Answer(answer)
    }

    /// A request with headers of its own beside the usual ones.
    pub(crate) fn ask(&self, method: &str, path: &str, headers: &str, body: &[u8]) -> Answer {
        let host = self.host();
        let length = body.len();
        let mut request = format!(
            "{method} {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\
             Content-Length: {length}\r\n{headers}\r\n"
        )
        .into_bytes();
        request.extend_from_slice(body);
        self.raw(&request)
    }

    pub(crate) fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, "", b"")
    }

    /// Asks for something to be done, as the page does.
    pub(crate) fn post(&self, path: &str, body: &Value) -> Answer {
        let headers = format!(
            "Origin: http://{}\r\nSec-Fetch-Site: same-origin\r\nX-Token: {}\r\n\
             Content-Type: application/json\r\n",
            self.host(),
            self.token
        );
        self.ask("POST", path, &headers, body.to_string().as_bytes())
    }

    /// Does something; the number of the newest text.
    pub(crate) fn act(&self, deed: &Value) -> u64 {
        let answer = self.post("/do", deed);
        assert_eq!(answer.status(), 200, "{deed}: {}", answer.text());
        answer.json()["number"].as_u64().unwrap()
    }

    pub(crate) fn set(&self, key: &str, value: &str) -> u64 {
        self.act(&json!({"what": "set", "key": key, "value": value}))
    }

    /// The page as it is after the newest text was looked at.
    pub(crate) fn page(&self) -> String {
        self.get("/").text()
    }

    /// Waits until events tell of a state.
    pub(crate) fn wait(&self, wanted: impl Fn(&Value) -> bool) -> Value {
        self.events()
            .find(wanted)
            .expect("the bench tells of the state")
    }

    /// Everything the bench tells from now on.
    pub(crate) fn events(&self) -> impl Iterator<Item = Value> + use<> {
        let mut stream = self.connect();
        let host = self.host();
        write!(stream, "GET /events HTTP/1.1\r\nHost: {host}\r\n\r\n").unwrap();
        BufReader::new(stream)
            .lines()
            .map_while(Result::ok)
            .filter_map(|line| {
                let data = line.strip_prefix("data: ")?;
                serde_json::from_str(data).ok()
            })
    }

    /// Whether the process is still there.
    pub(crate) fn is_alive(&mut self) -> bool {
        self.child.try_wait().unwrap().is_none()
    }

    /// Ends it at once, whatever it is doing.
    pub(crate) fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Asks it to end as Ctrl-C does; its status.
    #[cfg(unix)]
    pub(crate) fn interrupt(&mut self) -> Option<i32> {
        let pid = self.pid().to_string();
        let told = Command::new("kill").args(["-INT", &pid]).status().unwrap();
        assert!(told.success());
        self.child.wait().unwrap().code()
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        self.child.kill().ok();
        self.child.wait().ok();
    }
}

/// What a command complained of.
pub(crate) fn complaint(child: &mut Child) -> String {
    let mut text = String::new();
    let complaints = child.stderr.take();
    complaints.map(|mut pipe| pipe.read_to_string(&mut text));
    text
}

/// Waits until something holds.
pub(crate) fn until(what: &str, holds: impl Fn() -> bool) {
    let begun = Instant::now();
    while !holds() {
        assert!(begun.elapsed() < PATIENCE, "never came: {what}");
        std::thread::sleep(Duration::from_millis(20));
    }
}

/// What came back.
#[derive(Clone, Debug)]
pub(crate) struct Answer(Vec<u8>);

impl Answer {
    /// The status, or 0 where the bench hung up without a word.
    pub(crate) fn status(&self) -> u16 {
        let line = self
            .0
            .split(|byte| *byte == b'\r')
            .next()
            .unwrap_or_default();
        let line = String::from_utf8_lossy(line);
        let status = line
            .strip_prefix("HTTP/1.1 ")
            .and_then(|rest| rest.get(..3));
        status.map_or(0, |status| status.parse().unwrap())
    }

    fn split(&self) -> (&[u8], &[u8]) {
        let end = self.0.windows(4).position(|window| window == b"\r\n\r\n");
        end.map_or((&self.0[..], &[][..]), |end| {
            (&self.0[..end], &self.0[end + 4..])
        })
    }

    pub(crate) fn header(&self, name: &str) -> Option<String> {
        let head = String::from_utf8_lossy(self.split().0).into_owned();
        head.lines().skip(1).find_map(|line| {
            let (found, value) = line.split_once(':')?;
            found
                .eq_ignore_ascii_case(name)
                .then(|| value.trim().to_owned())
        })
    }

    pub(crate) fn body(&self) -> &[u8] {
        self.split().1
    }

    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(self.body()).into_owned()
    }

    pub(crate) fn json(&self) -> Value {
        serde_json::from_slice(self.body()).unwrap_or_else(|_| panic!("no JSON: {}", self.text()))
    }
}
