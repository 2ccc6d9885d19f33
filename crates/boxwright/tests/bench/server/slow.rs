//! Those who dawdle, and those who take up all the room.

use crate::bench::{Bench, Scratch};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::thread;
use std::time::{Duration, Instant};

/// The bench gives up on a dawdler before this.
const SOON: Duration = Duration::from_secs(25);

/// Waits until the other side hangs up; how long it took.
fn hung_up(mut stream: TcpStream) -> Duration {
    let begun = Instant::now();
    let mut rest = Vec::new();
    stream.set_read_timeout(Some(SOON)).unwrap();
    match stream.read_to_end(&mut rest) {
        Ok(_) => begun.elapsed(),
        Err(error) if error.kind() == std::io::ErrorKind::ConnectionReset => begun.elapsed(),
        Err(error) => panic!("still connected: {error}"),
    }
}

#[test]
fn dawdlers_are_given_up() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::open(&scratch);
    let (host, token) = (bench.host(), bench.token());
    let begins = [
        String::new(),
        "GET / HT".to_owned(),
        format!("GET / HTTP/1.1\r\nHost: {host}\r\nX-Never: "),
        format!(
            "POST /do HTTP/1.1\r\nHost: {host}\r\nX-Token: {token}\r\n\
             Content-Type: application/json\r\nContent-Length: 50\r\n\r\n{{\"what\""
        ),
        format!("GET /asset/bench.css HTTP/1.1\r\nHost: {host}\r\n\r\n"),
    ];
    let waiting: Vec<_> = begins
        .into_iter()
        .map(|begin| {
            let mut stream = bench.connect();
            stream.write_all(begin.as_bytes()).unwrap();
            thread::spawn(move || (hung_up(stream), begin))
        })
        .collect();
    // One that sends a byte now and then is no better.
    let mut drip = bench.connect();
    drip.write_all(b"GET / HTTP/1.1\r\nX-Drip: ").unwrap();
    let begun = Instant::now();
    while drip.write_all(b"x").is_ok() {
        assert!(begun.elapsed() < SOON, "dripping for ever");
        thread::sleep(Duration::from_millis(200));
    }
    for waiting in waiting {
        let (took, begin) = waiting.join().unwrap();
        assert!(took < SOON, "{begin:?}");
    }
    assert_eq!(bench.get("/parts").status(), 200);
}

/// Whoever takes every place has them only until the bench finds nothing comes.
#[test]
fn a_crowd_does_not_lock_the_maker_out() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::open(&scratch);
    let crowd: Vec<TcpStream> = (0..100).map(|_| bench.connect()).collect();
    let begun = Instant::now();
    assert_eq!(bench.get("/parts").status(), 200);
    assert!(begun.elapsed() < 2 * SOON, "{:?}", begun.elapsed());
    drop(crowd);
}

/// Pages that listen have no time limit, but their number has one: the newest are heard.
#[test]
fn a_crowd_of_listeners_does_not_lock_the_maker_out() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::open(&scratch);
    let asked = format!("GET /events HTTP/1.1\r\nHost: {}\r\n\r\n", bench.host());
    let crowd: Vec<TcpStream> = (0..500)
        .map(|_| {
            let mut stream = bench.connect();
            stream.write_all(asked.as_bytes()).unwrap();
            stream
        })
        .collect();
    let begun = Instant::now();
    assert_eq!(bench.get("/parts").status(), 200);
    bench.set("brief.loudness", "77 dB");
    assert!(begun.elapsed() < SOON, "{:?}", begun.elapsed());
    // The newest of them hears what is done, the oldest is gone.
    let mut newest = crowd.last().unwrap();
    let mut heard = String::new();
    while !heard.contains("\"number\":2") {
        let mut bytes = [0; 4096];
        let read = newest.read(&mut bytes).unwrap();
        assert!(read > 0, "{heard}");
        heard += &String::from_utf8_lossy(&bytes[..read]);
    }
    let oldest = crowd.into_iter().next().unwrap();
    hung_up(oldest);
}
