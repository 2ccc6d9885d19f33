//! Requests that a bench must refuse, and that must change nothing.

use crate::bench::{Answer, Bench, Scratch};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use serde_json::json;
use std::net::{TcpStream, UdpSocket};
use std::time::Duration;

/// Every address there is, with the method it answers to.
const ROUTES: [(&str, &str); 15] = [
    ("GET", "/"),
    ("GET", "/parts"),
    ("GET", "/events"),
    ("GET", "/explain/vent-speed"),
    ("GET", "/sheet/1.svg"),
    ("GET", "/sheet/1.pdf"),
    ("GET", "/pack.pdf"),
    ("GET", "/build.html"),
    ("GET", "/cut/templates.pdf"),
    ("GET", "/cut/shopping.csv"),
    ("GET", "/shelf"),
    ("GET", "/asset/bench.js"),
    ("POST", "/do"),
    ("POST", "/try"),
    ("POST", "/driver"),
];

const EDIT: &[u8] = br#"{"what":"set","key":"brief.loudness","value":"77 dB"}"#;

/// A bench that must keep its design, whatever is asked of it.
struct Besieged {
    scratch: Scratch,
    bench: Bench,
    before: String,
}

impl Besieged {
    fn new() -> Self {
        let scratch = Scratch::new();
        scratch.copy("bathing-beach");
        let bench = Bench::open(&scratch);
        let before = scratch.text();
        Self {
            scratch,
            bench,
            before,
        }
    }

    /// Everything is as it was, and the page's own requests still work.
    fn holds(mut self) {
        assert!(self.bench.is_alive());
        assert_eq!(self.scratch.text(), self.before);
        assert_eq!(self.bench.get("/parts").status(), 200);
        self.bench.set("brief.loudness", "77 dB");
        assert!(self.scratch.text().contains("\"77 dB\""));
    }
}

/// The body that a method brings.
fn body(method: &str) -> &'static [u8] {
    if method == "POST" { EDIT } else { b"" }
}

#[test]
fn only_this_machine_is_heard() {
    let besieged = Besieged::new();
    // The address this machine has towards others; nothing is sent to find it out.
    let socket = UdpSocket::bind("0.0.0.0:0").unwrap();
    let outer = socket
        .connect("192.0.2.1:9")
        .and_then(|()| socket.local_addr());
    if let Ok(outer) = outer
        && !outer.ip().is_loopback()
    {
        let address = (outer.ip(), besieged.bench.port).into();
        let heard = TcpStream::connect_timeout(&address, Duration::from_secs(2));
        assert!(heard.is_err(), "heard on {address}");
    }
    if cfg!(target_os = "linux") {
        let sockets = std::fs::read_to_string("/proc/net/tcp").unwrap();
        let port = format!(":{:04X}", besieged.bench.port);
        let listening: Vec<&str> = sockets
            .lines()
            .filter_map(|line| {
                let mut fields = line.split_whitespace().skip(1);
                let (local, remote) = (fields.next()?, fields.next()?);
                (local.ends_with(&port) && remote == "00000000:0000").then_some(local)
            })
            .collect();
        assert_eq!(listening, [format!("0100007F{port}")]);
    }
    besieged.holds();
}

#[test]
fn foreign_hosts_are_refused() {
    let besieged = Besieged::new();
    let (bench, port) = (&besieged.bench, besieged.bench.port);
    let other = port.wrapping_add(1);
    for host in [
        "Host: example.org\r\n".to_owned(),
        format!("Host: example.org:{port}\r\n"),
        format!("Host: 127.0.0.1.example.org:{port}\r\n"),
        format!("Host: 127.0.0.1:{other}\r\n"),
        "Host: 127.0.0.1\r\n".to_owned(),
        format!("Host: 0.0.0.0:{port}\r\n"),
        format!("Host: 2130706433:{port}\r\n"),
        format!("Host: user@127.0.0.1:{port}\r\n"),
        format!("Host: 127.0.0.1:{port}, example.org\r\n"),
        format!("Host: 127.0.0.1:{port}\r\nHost: example.org\r\n"),
        format!("Host: example.org\r\nX-Forwarded-Host: 127.0.0.1:{port}\r\n"),
        "Host:\r\n".to_owned(),
        String::new(),
    ] {
        for (method, path) in ROUTES {
            let body = body(method);
            let head = format!(
                "{method} {path} HTTP/1.1\r\n{host}Connection: close\r\nX-Token: {}\r\n\
                 Content-Type: application/json\r\nContent-Length: {}\r\n\r\n",
                bench.token(),
                body.len()
            );
            let answer = bench.raw(&[head.as_bytes(), body].concat());
            assert!(
                matches!(answer.status(), 400 | 421),
                "{host:?} {path}: {}",
                answer.status()
            );
            assert!(!answer.text().contains("token"), "{host:?} {path}");
        }
    }
    // A name in the request line counts as one in the header.
    let line = format!(
        "GET http://example.org/ HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\r\n",
        bench.host()
    );
    assert_eq!(bench.raw(line.as_bytes()).status(), 421);
    besieged.holds();
}

#[test]
fn foreign_pages_are_refused() {
    let besieged = Besieged::new();
    let (bench, port) = (&besieged.bench, besieged.bench.port);
    let other = port.wrapping_add(1);
    for from in [
        "Origin: https://example.org\r\n".to_owned(),
        "Origin: null\r\n".to_owned(),
        "Origin: file://\r\n".to_owned(),
        "Origin:\r\n".to_owned(),
        format!("Origin: http://127.0.0.1:{other}\r\n"),
        format!("Origin: https://127.0.0.1:{port}\r\n"),
        format!("Origin: http://127.0.0.1:{port}.example.org\r\n"),
        format!("Origin: http://127.0.0.1:{port}\r\nOrigin: https://example.org\r\n"),
        "Sec-Fetch-Site: cross-site\r\n".to_owned(),
        "Sec-Fetch-Site: same-site\r\nSec-Fetch-Mode: no-cors\r\n".to_owned(),
        "Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: cors\r\n".to_owned(),
    ] {
        for (method, path) in ROUTES {
            let headers = format!(
                "{from}X-Token: {}\r\nContent-Type: application/json\r\n",
                bench.token()
            );
            let answer = bench.ask(method, path, &headers, body(method));
            assert_eq!(answer.status(), 403, "{from:?} {path}");
            assert_eq!(answer.header("Access-Control-Allow-Origin"), None);
        }
    }
    // A link on another page may open the bench, but reach nothing else.
    let link = "Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: navigate\r\n";
    assert_eq!(bench.ask("GET", "/", link, b"").status(), 200);
    assert_eq!(bench.ask("GET", "/pack.pdf", link, b"").status(), 403);
    // What a browser asks before it lets a foreign page send a token.
    let ahead = "Origin: https://example.org\r\nAccess-Control-Request-Method: POST\r\n\
                 Access-Control-Request-Headers: x-token\r\n";
    let answer = bench.ask("OPTIONS", "/do", ahead, b"");
    assert_eq!(answer.status(), 403);
    assert_eq!(answer.header("Access-Control-Allow-Origin"), None);
    besieged.holds();
}

#[test]
fn changes_need_the_token() {
    let besieged = Besieged::new();
    let bench = &besieged.bench;
    let token = bench.token();
    assert_eq!(token.len(), 64, "256 bits of chance");
    let wrong: String = token.chars().rev().collect();
    let other = Bench::start(besieged.scratch.bare());
    assert_ne!(other.token(), token);
    for shown in [
        String::new(),
        "X-Token:\r\n".to_owned(),
        format!("X-Token: {wrong}\r\n"),
        format!("X-Token: {}\r\n", other.token()),
        format!("X-Token: {}\r\n", &token[..63]),
        format!("X-Token: {token}0\r\n"),
        format!("X-Token: {}\r\n", token.to_uppercase().replace('0', "o")),
        format!("X-Token: {wrong}\r\nX-Token: {token}\r\n"),
        format!("Cookie: token={token}\r\n"),
        format!("Authorization: Bearer {token}\r\n"),
    ] {
        for path in ["/do", "/try", "/driver", "/"] {
            for method in ["POST", "PUT", "DELETE", "PATCH"] {
                let headers = format!("{shown}Content-Type: application/json\r\n");
                let answer = bench.ask(method, path, &headers, EDIT);
                assert_eq!(answer.status(), 403, "{method} {path} {shown:?}");
            }
        }
    }
    // A token in the address would stand in histories and logs.
    let asked = format!("/do?token={token}&x-token={token}");
    assert_eq!(bench.ask("POST", &asked, "", EDIT).status(), 403);
    // Changes are no links.
    let answer = bench.ask("GET", "/do", &format!("X-Token: {token}\r\n"), EDIT);
    assert_eq!(answer.status(), 405);
    // The body must say what it is, which no foreign form can.
    for kind in [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
    ] {
        let headers = format!("X-Token: {token}\r\nContent-Type: {kind}\r\n");
        assert_eq!(bench.ask("POST", "/do", &headers, EDIT).status(), 415);
    }
    besieged.holds();
}

#[test]
fn no_other_file_is_reached() {
    let besieged = Besieged::new();
    let secret = "a secret of somebody else";
    std::fs::write(besieged.scratch.path("secret.csv"), secret).unwrap();
    std::fs::write(besieged.scratch.path("box/secret.csv"), secret).unwrap();
    let whole = besieged.scratch.path("secret.csv").display().to_string();
    let names = [
        "secret.csv".to_owned(),
        "../secret.csv".to_owned(),
        "../../secret.csv".to_owned(),
        "..%2fsecret.csv".to_owned(),
        "%2e%2e/secret.csv".to_owned(),
        "%2e%2e%2fsecret.csv".to_owned(),
        "%252e%252e%252fsecret.csv".to_owned(),
        "..%5csecret.csv".to_owned(),
        "..\\secret.csv".to_owned(),
        "....//secret.csv".to_owned(),
        "%c0%ae%c0%ae%c0%afsecret.csv".to_owned(),
        "secret.csv%00".to_owned(),
        "secret.csv%00.svg".to_owned(),
        "./secret.csv".to_owned(),
        "design.toml".to_owned(),
        ".design.toml.bench%2fhistory".to_owned(),
        whole.clone(),
        whole.replace('/', "%2f"),
        format!("file://{whole}"),
    ];
    for front in [
        "/",
        "/cut/",
        "/sheet/",
        "/explain/",
        "/asset/",
        "/cut//",
        "/sheet/1.svg/",
    ] {
        for name in &names {
            let path = format!("{front}{name}");
            let answer = besieged.bench.get(&path);
            assert!(
                matches!(answer.status(), 400 | 404 | 421),
                "{path}: {}",
                answer.status()
            );
            let text = answer.text();
            assert!(!text.contains(secret), "{path}");
            assert!(!text.contains("bathing"), "{path}");
        }
    }
    besieged.holds();
}

#[test]
fn bodies_and_heads_are_bounded() {
    let besieged = Besieged::new();
    let bench = &besieged.bench;
    let headers = format!(
        "X-Token: {}\r\nContent-Type: application/json\r\n",
        bench.token()
    );
    let large = json!({"what": "text", "value": "#".repeat(2 << 20)}).to_string();
    for path in ["/do", "/try", "/driver"] {
        let status = bench.ask("POST", path, &headers, large.as_bytes()).status();
        assert!(matches!(status, 413 | 0), "{path}: {status}");
    }
    // The same without saying how long it will be.
    let mut chunked = format!(
        "POST /do HTTP/1.1\r\nHost: {}\r\n{headers}Transfer-Encoding: chunked\r\n\r\n",
        bench.host()
    )
    .into_bytes();
    for _ in 0..40 {
        chunked.extend(format!("10000\r\n{}\r\n", "x".repeat(0x10000)).bytes());
    }
    let status = bench.raw(&chunked).status();
    assert!(matches!(status, 413 | 0), "chunked: {status}");
    // Heads.
    let long = format!("X-Long: {}\r\n", "x".repeat(100_000));
    let many: String = (0..500).map(|n| format!("X-{n}: {n}\r\n")).collect();
    for heads in [long, many] {
        let status = bench.ask("GET", "/", &heads, b"").status();
        assert!(matches!(status, 431 | 400 | 0), "heads: {status}");
    }
    let path = format!("/?{}", "a=1&".repeat(50_000));
    let status = bench.get(&path).status();
    assert!(matches!(status, 414 | 431 | 400 | 0), "path: {status}");
    besieged.holds();
}

/// Two readings of where a request ends are how one is smuggled into another.
#[test]
fn requests_end_where_they_say() {
    let besieged = Besieged::new();
    let bench = &besieged.bench;
    let (host, token) = (bench.host(), bench.token());
    let inner = format!(
        "POST /do HTTP/1.1\r\nHost: {host}\r\nX-Token: {token}\r\n\
         Content-Type: application/json\r\nContent-Length: {}\r\n\r\n{}",
        EDIT.len(),
        String::from_utf8_lossy(EDIT)
    );
    for lengths in [
        "Content-Length: 5\r\nContent-Length: 6\r\n",
        "Content-Length: -1\r\n",
        "Content-Length: 5x\r\n",
        "Transfer-Encoding: chunked, identity\r\nContent-Length: 4\r\n",
        "Transfer-Encoding: chunked\r\n\r\nzz\r\n",
    ] {
        let outer = format!("POST /do HTTP/1.1\r\nHost: {host}\r\n{lengths}\r\n");
        let answer = bench.raw(&[outer.as_bytes(), inner.as_bytes()].concat());
        assert!(matches!(answer.status(), 400 | 403 | 0), "{lengths:?}");
        assert!(!answer.text().contains("\"number\""), "{lengths:?}");
    }
    besieged.holds();
}

#[test]
fn every_answer_tells_the_browser_to_be_careful() {
    let besieged = Besieged::new();
    let bench = &besieged.bench;
    let careful = |answer: &Answer, what: &str| {
        let header = |name: &str| answer.header(name).unwrap_or_default();
        let policy = header("Content-Security-Policy");
        assert_eq!(
            policy,
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
             connect-src 'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'",
            "{what}"
        );
        assert_eq!(header("X-Content-Type-Options"), "nosniff", "{what}");
        assert_eq!(header("Referrer-Policy"), "no-referrer", "{what}");
        assert_eq!(header("Cache-Control"), "no-store", "{what}");
        assert_eq!(header("X-Frame-Options"), "DENY", "{what}");
        for policy in ["Resource", "Opener"] {
            let policy = format!("Cross-Origin-{policy}-Policy");
            assert_eq!(header(&policy), "same-origin", "{what}");
        }
    };
    bench.wait(|event| event["stage"] != "broken" && event["number"] == 1);
    for (method, path) in ROUTES {
        if path == "/events" {
            continue;
        }
        let answer = if method == "POST" {
            bench.post(path, &json!({"what": "hold"}))
        } else {
            bench.get(path)
        };
        careful(&answer, path);
        careful(&bench.ask(method, path, "Origin: null\r\n", b""), path);
    }
    for path in [
        "/nothing",
        "/sheet/0.svg",
        "/sheet/999.svg",
        "/sheet/1.exe",
        "/cut/x",
        "/explain/x",
    ] {
        let answer = bench.get(path);
        assert_eq!(answer.status(), 404, "{path}");
        careful(&answer, path);
    }
    // Of the page itself: no script or style in the text, and nothing from elsewhere.
    let page = bench.page();
    for inline in [
        "<script>",
        "<style",
        " style=\"",
        "onclick=",
        "onload=",
        "javascript:",
    ] {
        assert!(!page.contains(inline), "{inline}");
    }
    besieged.holds();
}

#[test]
fn nonsense_is_refused() {
    let besieged = Besieged::new();
    let bench = &besieged.bench;
    let headers = format!(
        "X-Token: {}\r\nContent-Type: application/json\r\n",
        bench.token()
    );
    let deep = format!("{}1{}", "[".repeat(100_000), "]".repeat(100_000));
    let deed = |value: serde_json::Value| value.to_string();
    for body in [
        String::new(),
        "null".to_owned(),
        "[]".to_owned(),
        "{\"what\":".to_owned(),
        deep.clone(),
        format!("{{\"what\":\"set\",\"key\":{deep},\"value\":\"\"}}"),
        deed(json!({"what": "delete"})),
        deed(json!({"what": "set", "key": 5, "value": []})),
        deed(json!({"what": "set", "key": "brief.loudness"})),
        deed(json!({"what": "settle", "keep": "both"})),
    ] {
        let status = bench.ask("POST", "/do", &headers, body.as_bytes()).status();
        assert_eq!(status, 400, "{}", &body[..body.len().min(60)]);
    }
    let status = bench
        .ask("POST", "/do", &headers, b"{\"what\":\"\xff\"}")
        .status();
    assert_eq!(status, 400);
    let deep = format!("x = {}1{}\n", "[".repeat(50_000), "]".repeat(50_000));
    for body in [
        json!({"what": "set", "key": "", "value": "x"}),
        json!({"what": "set", "key": "a.b.c.d.e.f", "value": "x"}),
        json!({"what": "set", "key": ".".repeat(100_000), "value": "x"}),
        json!({"what": "set", "key": "drivers.99999999999999999999.part", "value": "x"}),
        json!({"what": "set", "key": "brief.loudness", "value": "99 m"}),
        json!({"what": "set", "key": "name", "value": ""}),
        json!({"what": "edits", "edits": [{"key": "name"}]}),
        json!({"what": "edits", "edits": [{"key": "name", "value": "x", "remove": true}]}),
        json!({"what": "step", "id": "../../x", "done": true}),
        json!({"what": "mend", "finding": "no-such", "number": 1}),
        json!({"what": "text", "value": ""}),
        json!({"what": "text", "value": deep}),
        json!({"what": "open", "recent": 0}),
        json!({"what": "begin", "name": "../../x", "example": null}),
    ] {
        let answer = bench.post("/do", &body);
        let said = answer.text();
        assert!(
            matches!(answer.status(), 409 | 422),
            "{}: {said}",
            &body.to_string()[..60.min(body.to_string().len())]
        );
        let problems = answer.json()["problems"].as_array().unwrap().len();
        assert!(problems > 0);
    }
    besieged.holds();
}

/// Whatever bytes arrive, the bench answers or hangs up, and goes on.
#[test]
fn random_bytes_do_no_harm() {
    let besieged = Besieged::new();
    let bench = &besieged.bench;
    let method = prop_oneof!["GET", "POST", "HEAD", "PUT", "[A-Z]{1,8}", "\\PC{1,3}"];
    let path = prop_oneof![
        "/(parts|do|try|sheet|cut|explain|asset|shelf)?",
        "/(sheet|cut|explain)/[%a-z0-9./\\\\]{0,20}",
        "/(parts)?\\?(sheet|promise|look|part|search)=[%a-z0-9&=.]{0,20}",
        "\\PC{1,20}",
    ];
    let body = prop_oneof![
        Just(Vec::new()),
        prop::collection::vec(any::<u8>(), 0..100),
        "\\{\"what\":\"[a-z]{0,6}\",\"key\":\"[a-z.0-9]{0,12}\",\"value\":\"\\PC{0,8}\"\\}"
            .prop_map(String::into_bytes),
    ];
    let garbage = prop::option::weighted(0.2, prop::collection::vec(any::<u8>(), 1..200));
    let mut runner = TestRunner::new(Config {
        cases: 400,
        failure_persistence: None,
        ..Config::default()
    });
    let asked = (method, path, body, garbage);
    runner
        .run(&asked, |(method, path, body, garbage)| {
            // Without the token: what the design says must not depend on luck.
            let answer = match garbage {
                Some(bytes) => bench.raw(&[&bytes[..], b"\r\n\r\n"].concat()),
                None if path.starts_with("/events") => return Ok(()),
                None => bench.ask(&method, &path, "", &body),
            };
            prop_assert!(answer.status() < 500, "{}", answer.text());
            Ok(())
        })
        .unwrap();
    besieged.holds();
}
