//! The router asked whatever bytes say, without a network: for `cargo xtask fuzz`, and for the test that asks every kept
//! input again.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, OnceLock};
use std::time::Instant;

use axum::body::Body;
use axum::http::{Method, Request, StatusCode};
use axum::response::Response;
use chrono::Utc;
use tower::ServiceExt as _;

use crate::devices::Devices;
use crate::fates::Fates;
use crate::invitation::Invitation;
use crate::jobs::Jobs;
use crate::live::Live;
use crate::locked;
use crate::photos::Photos;
use crate::routes::{COOKIE_NAME, Served, router};

/// What only paired devices get: without a token each of them is refused.
const CLOSED: [&str; 8] = [
    "/devices",
    "/devices/1",
    "/invitation",
    "/live",
    "/jobs",
    A_JOB,
    "/photos",
    "/photos/0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
];
/// The same, behind the path of the bytes' own: so inputs that were kept earlier still say what they said.
const CLOSED_SINCE: [&str; 2] = ["/deleted", A_FATE];
const OPEN: [&str; 6] = ["/", "/pair", "/pair.js", "/index.html", "/../Cargo.toml", "/devices/%2e%2e/x"];

/// The job that is sent and asked for.
const A_JOB: &str = "/jobs/laptop-1";
const A_FATE: &str = "/deleted/laptop-1";

struct World {
    folder: PathBuf,
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
            fates: Fates::kept_in(&folder),
            photos: Photos::kept_in(&folder),
        });
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
        World { folder, served, cookie: format!("{COOKIE_NAME}={token}"), runtime }
    })
}

impl World {
    fn answer(&self, request: Request<Body>) -> Response {
        let answer = self.runtime.block_on(router(self.served.clone()).oneshot(request));
        answer.unwrap_or_else(|never| match never {})
    }

    /// A job that was taken is in the list, and is given back. Then it is taken away, so that every input begins alike.
    fn reads_again(&self) {
        self.gives(&["/jobs", A_JOB], "a job");
        std::fs::remove_dir_all(self.folder.join("jobs")).expect("the job was kept");
    }

    /// The same of a deletion. One that says nothing is taken, and not kept.
    fn tells_of_the_deletion(&self) {
        self.gives(&["/deleted"], "a deletion");
        let _ = std::fs::remove_file(self.folder.join("deleted.json"));
    }

    fn gives(&self, paths: &[&str], what: &str) {
        for path in paths {
            let asked = Request::builder().uri(*path).header("host", "host").header("cookie", &self.cookie);
            let answer = self.answer(asked.body(Body::empty()).expect("a request"));
            assert_eq!(answer.status(), StatusCode::OK, "{path} after {what} was taken");
        }
    }
}

/// The first byte: method and whether the token is shown; the second: a path of the table or one of the bytes' own; then
/// up to a line feed path or header, and then the body. No answer says that something went wrong within; nothing is given
/// to who shows no token; every answer has its headers; a job that was taken can be read again.
///
/// What was answered; none where the bytes are no request.
///
/// # Panics
/// Where one of these does not hold.
pub fn ask(bytes: &[u8]) -> Option<StatusCode> {
    let [how, which, rest @ ..] = bytes else { return None };
    let world = world();
    let (line, body) = match rest.iter().position(|&byte| byte == b'\n') {
        Some(end) => (&rest[..end], &rest[end + 1..]),
        None => (rest, &[][..]),
    };
    let method = [Method::GET, Method::POST, Method::DELETE, Method::PUT][usize::from(how & 3)].clone();
    let (is_paired, is_ours) = (how & 4 != 0, how & 8 == 0);
    let own = String::from_utf8_lossy(line).into_owned();
    let all: Vec<&str> = CLOSED.into_iter().chain(OPEN).chain([own.as_str()]).chain(CLOSED_SINCE).collect();
    let path = all[usize::from(*which) % all.len()];
    // Withdrawing the one device there is would make all that follow the same.
    if is_paired && method == Method::DELETE && path.contains("devices") {
        return None;
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
    let Ok(request) = request.body(Body::from(body.to_vec())) else { return None };
    let answer = world.answer(request);
    let status = answer.status();
    assert!(
        !status.is_server_error() || status == StatusCode::INSUFFICIENT_STORAGE,
        "{method} {path}: {status}"
    );
    assert!(answer.headers().contains_key("content-security-policy"), "{method} {path}");
    if !is_paired && (CLOSED.contains(&path) || CLOSED_SINCE.contains(&path)) {
        assert!(status.is_client_error(), "{method} {path} without a token: {status}");
    }
    if !is_ours && method != Method::GET {
        assert_ne!(status, StatusCode::OK, "{method} {path} for another site");
    }
    if method == Method::POST && path == A_JOB && status == StatusCode::OK {
        world.reads_again();
    }
    if method == Method::POST && path == A_FATE && status == StatusCode::OK {
        world.tells_of_the_deletion();
    }
    assert_eq!(locked(&world.served.devices).list().len(), 1, "{method} {path}: nobody was paired");
    Some(status)
}

#[cfg(test)]
mod tests {
    use std::sync::Mutex;

    use axum::http::StatusCode;
    use mastwright_api::merge::{HeldJob, NoteHistoryRequest, note_history};
    use mastwright_engine::job::{Stamp, blank};
    use mastwright_engine::quantity::{UnitSystem, Units};

    /// Both ask one world, in which a job that was taken is taken away again.
    static ALONE: Mutex<()> = Mutex::new(());

    /// What the fuzzer may find a way to behind the door: a job that is taken, in the list, and read again.
    #[test]
    fn a_job_that_is_sent_goes_all_the_way_and_half_of_it_nowhere() {
        let _alone = crate::locked(&ALONE);
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let job = serde_json::to_value(blank(units)).expect("JSON");
        let by = Stamp { at_ms: 5, device: "laptop".to_owned() };
        let (before, after) = (job.clone(), job.clone());
        let request = NoteHistoryRequest { job: "laptop-1".to_owned(), history: None, before, after, by };
        let held = HeldJob { job, history: note_history(&request).expect("a history").history };
        let body = serde_json::to_vec(&held).expect("JSON");
        // A POST that shows the token, from this host, as JSON, to the sixth path of the table.
        let asked = |body: &[u8]| super::ask(&[&[0b0101, 5, b'\n'], body].concat());
        assert_eq!(asked(&body), Some(StatusCode::OK));
        assert!(asked(&body[..body.len() / 2]).is_some_and(|status| status.is_client_error()));
        assert!(
            super::ask(&[&[0b0001, 5, b'\n'], &body[..]].concat())
                .is_some_and(|status| status == StatusCode::UNAUTHORIZED)
        );
    }

    #[test]
    fn a_deletion_that_is_sent_goes_all_the_way_and_half_of_it_nowhere() {
        let _alone = crate::locked(&ALONE);
        let body = br#"{"deleted":[{"by":{"at_ms":9,"device":"x"},"device_name":"X","seen":[]}],"kept":[]}"#;
        let asked = |body: &[u8]| super::ask(&[&[0b0101, 16, b'\n'], body].concat());
        assert_eq!(asked(body), Some(StatusCode::OK));
        assert!(asked(&body[..body.len() / 2]).is_some_and(|status| status.is_client_error()));
        assert_eq!(super::ask(&[&[0b0001, 16, b'\n'], &body[..]].concat()), Some(StatusCode::UNAUTHORIZED));
    }

    /// Every input that a fuzzer once found, and those that it began from.
    #[test]
    fn what_was_kept_of_the_fuzzer_breaks_nothing() {
        let _alone = crate::locked(&ALONE);
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/fuzz/corpus/serve");
        let mut asked = 0;
        for file in std::fs::read_dir(folder).expect("the corpus is kept") {
            super::ask(&std::fs::read(file.expect("a file").path()).expect("it can be read"));
            asked += 1;
        }
        assert!(asked >= 12, "{asked} inputs");
    }
}
