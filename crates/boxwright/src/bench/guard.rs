//! Who may ask for what: this machine's own page and nobody else.

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::sync::Arc;

/// Bytes of chance in a token.
const CHANCE: usize = 32;

const TOKEN: HeaderName = HeaderName::from_static("x-token");
const SITE: HeaderName = HeaderName::from_static("sec-fetch-site");
const MODE: HeaderName = HeaderName::from_static("sec-fetch-mode");

/// What the page may load: its own script, style and drawings, and nothing from anywhere else.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; \
    img-src 'self' data:; connect-src 'self'; form-action 'none'; frame-ancestors 'none'; \
    base-uri 'none'";

/// On every answer.
const HEADERS: [(HeaderName, &str); 7] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::CACHE_CONTROL, "no-store"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
    (
        HeaderName::from_static("cross-origin-opener-policy"),
        "same-origin",
    ),
];

/// Knows the bench's own address and its secret.
#[derive(Debug)]
pub(super) struct Guard {
    hosts: [String; 2],
    token: String,
}

impl Guard {
    /// A guard for a port, with a new secret.
    pub(super) fn new(port: u16) -> Result<Self, getrandom::Error> {
        let mut chance = [0; CHANCE];
        getrandom::fill(&mut chance)?;
        Ok(Self {
            hosts: [format!("127.0.0.1:{port}"), format!("localhost:{port}")],
            token: chance.iter().map(|byte| format!("{byte:02x}")).collect(),
        })
    }

    /// What a page must show to change something.
    pub(super) fn token(&self) -> &str {
        &self.token
    }

    /// Why a request is refused.
    fn refuses(&self, request: &Request) -> Option<(StatusCode, &'static str)> {
        let headers = request.headers();
        if !self.is_here(request) {
            return Some((
                StatusCode::MISDIRECTED_REQUEST,
                "this is not the address of the bench",
            ));
        }
        if !self.is_own(headers) || !is_same_site(request) {
            return Some((StatusCode::FORBIDDEN, "only the bench's own page may ask"));
        }
        let changes = !matches!(*request.method(), Method::GET | Method::HEAD);
        if changes && !self.knows(headers) {
            return Some((
                StatusCode::FORBIDDEN,
                "reload the page: this one is of an earlier bench",
            ));
        }
        None
    }

    /// Whether the request was sent to this address by this name.
    fn is_here(&self, request: &Request) -> bool {
        let mut named = request.headers().get_all(header::HOST).iter();
        let (Some(host), None) = (named.next(), named.next()) else {
            return false;
        };
        let ours = |host: &str| self.hosts.iter().any(|own| own.eq_ignore_ascii_case(host));
        let authority = request.uri().authority();
        host.to_str().is_ok_and(ours) && authority.is_none_or(|named| ours(named.as_str()))
    }

    /// Whether the request comes from the bench's page, as far as it says where from.
    fn is_own(&self, headers: &HeaderMap) -> bool {
        headers.get_all(header::ORIGIN).iter().all(|origin| {
            let host = origin.to_str().ok().and_then(|o| o.strip_prefix("http://"));
            host.is_some_and(|host| self.hosts.iter().any(|own| own == host))
        })
    }

    /// Whether the request shows the secret.
    fn knows(&self, headers: &HeaderMap) -> bool {
        let mut shown = headers.get_all(TOKEN).iter();
        let (Some(shown), None) = (shown.next(), shown.next()) else {
            return false;
        };
        alike(shown.as_bytes(), self.token.as_bytes())
    }
}

/// Whether two secrets are the same, found out in a time that does not tell
/// where they differ.
fn alike(a: &[u8], b: &[u8]) -> bool {
    let differing = a.iter().zip(b).fold(0, |all, (a, b)| all | (a ^ b));
    a.len() == b.len() && std::hint::black_box(differing) == 0
}

/// What a browser tells of who asks: a link from elsewhere may open the page, and
/// that is all.
fn is_same_site(request: &Request) -> bool {
    let told = |name: &HeaderName| request.headers().get(name).map(HeaderValue::as_bytes);
    match told(&SITE) {
        None | Some(b"same-origin" | b"none") => true,
        Some(_) => {
            told(&MODE) == Some(b"navigate")
                && *request.method() == Method::GET
                && request.uri().path() == "/"
        }
    }
}

/// Lets through what is allowed, and tells browsers to be careful with every answer.
pub(super) async fn guarded(
    State(guard): State<Arc<Guard>>,
    request: Request,
    next: Next,
) -> Response {
    let mut response = match guard.refuses(&request) {
        Some((status, why)) => (status, why).into_response(),
        None => next.run(request).await,
    };
    for (name, value) in HEADERS {
        response
            .headers_mut()
            .insert(name, HeaderValue::from_static(value));
    }
    response
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn secrets_are_compared_whole() {
        assert!(alike(b"abc", b"abc"));
        for other in [&b"abd"[..], b"ab", b"abcd", b""] {
            assert!(!alike(other, b"abc"));
        }
    }

    #[test]
    fn every_bench_has_its_own_secret() {
        let [a, b] = [1, 1].map(|port| Guard::new(port).unwrap());
        assert_eq!(a.token().len(), 2 * CHANCE);
        assert_ne!(a.token(), b.token());
    }
}
