//! What every answer says besides, whatever it is: that it may not be framed, guessed at or read by other sites.

use axum::extract::Request;
use axum::http::{HeaderName, HeaderValue};
use axum::middleware::Next;
use axum::response::Response;

/// The page says itself what it may load (`ui/csp.ts`); these are the parts that only a header can say, and the same for
/// the page to pair on. Content Security Policy Level 3; Fetch, "Cross-Origin-Resource-Policy"; HTML, "Cross-origin opener
/// policies"; Permissions Policy, the sensors by name (Generic Sensor API).
pub const HEADERS: [(&str, &str); 7] = [
    (
        "content-security-policy",
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'self'",
    ),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    ("referrer-policy", "same-origin"),
    ("x-content-type-options", "nosniff"),
    (
        "permissions-policy",
        "accelerometer=(self), gyroscope=(self), magnetometer=(self), geolocation=(self), camera=(self), microphone=(self)",
    ),
    // This machine's browser would otherwise be led to https for everything else on it, too.
    ("strict-transport-security", "max-age=0"),
];

pub async fn on_every_answer(request: Request, next: Next) -> Response {
    let mut answer = next.run(request).await;
    for (name, value) in HEADERS {
        answer.headers_mut().insert(HeaderName::from_static(name), HeaderValue::from_static(value));
    }
    answer
}
