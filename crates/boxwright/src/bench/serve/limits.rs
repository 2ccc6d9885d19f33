//! How much a request may bring, and how long it may take.

use axum::body::{Body, Bytes};
use axum::http::StatusCode;
use std::time::Duration;

/// A whole design as text is smaller than this, in bytes.
const LARGEST_BODY: usize = 1 << 20;

/// A body comes within this.
const BODY_TIME: Duration = Duration::from_secs(10);

/// Reads a body that is neither too large nor too slow.
pub(super) async fn body(body: Body) -> Result<Bytes, (StatusCode, &'static str)> {
    match tokio::time::timeout(BODY_TIME, axum::body::to_bytes(body, LARGEST_BODY)).await {
        Ok(Ok(bytes)) => Ok(bytes),
        Ok(Err(_)) => Err((StatusCode::PAYLOAD_TOO_LARGE, "this is more than a design")),
        Err(_) => Err((StatusCode::REQUEST_TIMEOUT, "this takes too long")),
    }
}
