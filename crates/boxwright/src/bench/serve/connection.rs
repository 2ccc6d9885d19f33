//! Connections: few, with small headers, and none that dawdles.

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use std::io;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio::time::{Instant, Sleep};

/// Connections at once.
const MOST: usize = 64;

/// Header lines of a request.
const MOST_HEADERS: usize = 64;

/// Bytes of a request's head.
const LARGEST_HEAD: usize = 16 << 10;

/// The head of a request comes within this, also the next one on a connection.
const HEAD_TIME: Duration = Duration::from_secs(10);

/// A reader that takes nothing for so long has gone.
const STALL: Duration = Duration::from_secs(30);

/// After a failing accept, for instance for want of file handles.
const BREATHER: Duration = Duration::from_millis(100);

/// Answers whoever comes.
pub(in super::super) async fn serve(listener: TcpListener, router: Router) {
    serve_for(listener, router, STALL).await;
}

/// The same, and gives readers up that take nothing for so long.
async fn serve_for(listener: TcpListener, router: Router, stall: Duration) {
    let places = Arc::new(Semaphore::new(MOST));
    loop {
        let Ok(place) = Arc::clone(&places).acquire_owned().await else {
            return;
        };
        let Ok((stream, from)) = listener.accept().await else {
            tokio::time::sleep(BREATHER).await;
            continue;
        };
        if !from.ip().is_loopback() {
            continue;
        }
        let router = router.clone();
        tokio::spawn(async move {
            let stream = TokioIo::new(Patient::new(stream, stall));
            let served = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(HEAD_TIME)
                .max_headers(MOST_HEADERS)
                .max_buf_size(LARGEST_HEAD)
                .serve_connection(stream, TowerToHyperService::new(router))
                .await;
            // Whoever broke the connection off knows.
            drop((served, place));
        });
    }
}

/// A connection that is given up when its reader takes nothing for too long.
struct Patient {
    stream: TcpStream,
    stall: Duration,
    end: Option<Pin<Box<Sleep>>>,
}

impl Patient {
    fn new(stream: TcpStream, stall: Duration) -> Self {
        // Events are small, and each should arrive at once.
        stream.set_nodelay(true).ok();
        Self {
            stream,
            stall,
            end: None,
        }
    }

    /// Passes on how writing went, or gives up.
    fn within<T>(
        &mut self,
        context: &mut Context<'_>,
        written: Poll<io::Result<T>>,
    ) -> Poll<io::Result<T>> {
        if written.is_ready() {
            self.end = None;
            return written;
        }
        let new = || Box::pin(tokio::time::sleep_until(Instant::now() + self.stall));
        match self.end.get_or_insert_with(new).as_mut().poll(context) {
            Poll::Ready(()) => Poll::Ready(Err(io::ErrorKind::TimedOut.into())),
            Poll::Pending => Poll::Pending,
        }
    }
}

impl AsyncRead for Patient {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, buffer)
    }
}

impl AsyncWrite for Patient {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let written = Pin::new(&mut self.stream).poll_write(context, bytes);
        self.within(context, written)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        let flushed = Pin::new(&mut self.stream).poll_flush(context);
        self.within(context, flushed)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        let shut = Pin::new(&mut self.stream).poll_shutdown(context);
        self.within(context, shut)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::routing::get;
    use std::io::{Read, Write};
    use std::{net, time};

    /// More than all buffers between two programs hold.
    const LARGE: usize = 64 << 20;

    const PATIENCE: Duration = Duration::from_secs(1);

    const ASKED: &[u8] = b"GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n";

    /// What a reader gets of a large answer when it sleeps so long before each part.
    fn got(sleep: Duration, part: usize) -> usize {
        let listener = net::TcpListener::bind((net::Ipv4Addr::LOCALHOST, 0)).unwrap();
        let address = listener.local_addr().unwrap();
        listener.set_nonblocking(true).unwrap();
        // It serves as long as the tests run.
        std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_current_thread()
                .enable_all()
                .build()
                .unwrap();
            runtime.block_on(async {
                let listener = TcpListener::from_std(listener).unwrap();
                let router = Router::new().route("/", get(|| async { vec![b'x'; LARGE] }));
                serve_for(listener, router, PATIENCE).await;
            });
        });
        let mut stream = net::TcpStream::connect(address).unwrap();
        stream.write_all(ASKED).unwrap();
        let mut bytes = vec![0; part];
        let mut total = 0;
        loop {
            std::thread::sleep(sleep);
            match stream.read(&mut bytes) {
                Ok(0) | Err(_) => return total,
                Ok(read) => total += read,
            }
        }
    }

    #[test]
    fn a_reader_that_takes_nothing_is_given_up() {
        let begun = time::Instant::now();
        let got = got(4 * PATIENCE, LARGE);
        assert!(got < LARGE / 2, "{got}");
        assert!(begun.elapsed() < 60 * PATIENCE, "{:?}", begun.elapsed());
    }

    /// Slow is not gone: the whole takes far longer than the patience for one part.
    #[test]
    fn a_reader_that_is_slow_gets_everything() {
        let begun = time::Instant::now();
        let got = got(PATIENCE / 10, LARGE / 32);
        assert!(got > LARGE, "{got}: less than the body and its head");
        assert!(begun.elapsed() > 2 * PATIENCE, "{:?}", begun.elapsed());
    }
}
