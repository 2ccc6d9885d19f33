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
            let stream = TokioIo::new(Patient::new(stream));
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
    end: Option<Pin<Box<Sleep>>>,
}

impl Patient {
    fn new(stream: TcpStream) -> Self {
        // Events are small, and each should arrive at once.
        stream.set_nodelay(true).ok();
        Self { stream, end: None }
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
        let new = || Box::pin(tokio::time::sleep_until(Instant::now() + STALL));
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
