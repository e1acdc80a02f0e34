//! The router asked whatever bytes say, without a network: for `cargo xtask fuzz`, and for the test that asks every kept
//! input again.

use std::sync::{Arc, Mutex, OnceLock};
use std::time::Instant;

use axum::body::Body;
use axum::http::{Method, Request, StatusCode};
use axum::response::Response;
use chrono::Utc;
use tower::ServiceExt as _;

use crate::devices::Devices;
use crate::invitation::Invitation;
use crate::jobs::Jobs;
use crate::live::Live;
use crate::photos::Photos;
use crate::routes::{COOKIE_NAME, Served, locked, router};

/// What only paired devices get: without a token each of them is refused.
const CLOSED: [&str; 8] = [
    "/devices",
    "/devices/1",
    "/invitation",
    "/live",
    "/jobs",
    "/jobs/laptop-1",
    "/photos",
    "/photos/0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
];
const OPEN: [&str; 6] = ["/", "/pair", "/pair.js", "/index.html", "/../Cargo.toml", "/devices/%2e%2e/x"];

struct World {
    served: Arc<Served>,
    cookie: String,
    runtime: tokio::runtime::Runtime,
}

fn world() -> &'static World {
    static WORLD: OnceLock<World> = OnceLock::new();
    WORLD.get_or_init(|| {
        let folder = std::env::temp_dir().join(format!("mastwright-fuzzed-{}", std::process::id()));
        let mut devices = Devices::kept_in(&folder).expect("a folder to write in");
        let (_, token) = devices.pair("the fuzzer", Utc::now()).expect("the first device");
        let served = Arc::new(Served {
            origin: "https://host".to_owned(),
            devices: Mutex::new(devices),
            invitation: Mutex::new(Invitation::new(Instant::now()).expect("random numbers")),
            live: Live::new(),
            jobs: Jobs::kept_in(&folder),
            photos: Photos::kept_in(&folder),
        });
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
        World { served, cookie: format!("{COOKIE_NAME}={token}"), runtime }
    })
}

/// The first byte: method and whether the token is shown; the second: a path of the table or one of the bytes' own; then
/// up to a line feed path or header, and then the body. No answer says that something went wrong within; nothing is given
/// to who shows no token; every answer has its headers.
///
/// # Panics
/// Where one of these does not hold.
pub fn ask(bytes: &[u8]) {
    let [how, which, rest @ ..] = bytes else { return };
    let world = world();
    let (line, body) = match rest.iter().position(|&byte| byte == b'\n') {
        Some(end) => (&rest[..end], &rest[end + 1..]),
        None => (rest, &[][..]),
    };
    let method = [Method::GET, Method::POST, Method::DELETE, Method::PUT][usize::from(how & 3)].clone();
    let (is_paired, is_ours) = (how & 4 != 0, how & 8 == 0);
    let own = String::from_utf8_lossy(line).into_owned();
    let all: Vec<&str> = CLOSED.into_iter().chain(OPEN).chain([own.as_str()]).collect();
    let path = all[usize::from(*which) % all.len()];
    // Withdrawing the one device there is would make all that follow the same.
    if is_paired && method == Method::DELETE && path.contains("devices") {
        return;
    }
    let mut request = Request::builder().method(method.clone()).uri(path).header("host", "host");
    request = request.header("content-type", if how & 16 == 0 { "application/json" } else { "text/plain" });
    if is_paired {
        request = request.header("cookie", &world.cookie);
    } else if path != own {
        request = request.header("cookie", line);
    }
    if !is_ours {
        request = request.header("origin", "https://elsewhere.example");
    }
    let Ok(request) = request.body(Body::from(body.to_vec())) else { return };
    let answer: Response = world
        .runtime
        .block_on(router(world.served.clone()).oneshot(request))
        .unwrap_or_else(|never| match never {});
    let status = answer.status();
    assert!(
        !status.is_server_error() || status == StatusCode::INSUFFICIENT_STORAGE,
        "{method} {path}: {status}"
    );
    assert!(answer.headers().contains_key("content-security-policy"), "{method} {path}");
    if !is_paired && CLOSED.contains(&path) {
        assert!(status.is_client_error(), "{method} {path} without a token: {status}");
    }
    if !is_ours && method != Method::GET {
        assert_ne!(status, StatusCode::OK, "{method} {path} for another site");
    }
    assert_eq!(locked(&world.served.devices).list().len(), 1, "{method} {path}: nobody was paired");
}

#[cfg(test)]
mod tests {
    /// Every input that a fuzzer once found, and those that it began from.
    #[test]
    fn what_was_kept_of_the_fuzzer_breaks_nothing() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/fuzz/corpus/serve");
        let mut asked = 0;
        for file in std::fs::read_dir(folder).expect("the corpus is kept") {
            super::ask(&std::fs::read(file.expect("a file").path()).expect("it can be read"));
            asked += 1;
        }
        assert!(asked >= 12, "{asked} inputs");
    }
}
