//! The app's own files and the page to pair on: what anybody gets who asks. They are looked up by name among what was built
//! in; no path of a request ever reaches a file system.

use std::borrow::Cow;

use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::{StatusCode, Uri};
use axum::response::{IntoResponse, Response};

/// The built screens.
#[derive(rust_embed::RustEmbed)]
#[folder = "../../ui/dist"]
struct Screens;

const PAIR: [(&str, &str, &[u8]); 3] = [
    ("pair", "text/html; charset=utf-8", include_bytes!("../pages/pair.html")),
    ("pair.css", "text/css; charset=utf-8", include_bytes!("../pages/pair.css")),
    ("pair.js", "text/javascript; charset=utf-8", include_bytes!("../pages/pair.js")),
];

/// Tells the screens that they come from a machine that pairs devices; elsewhere they ask for none.
const MARK: &str = r#"<meta name="mastwright-serves" content="devices" />"#;

/// Whether the screens were built into this program.
pub fn are_built() -> bool {
    Screens::get("index.html").is_some()
}

pub async fn file(uri: Uri) -> Response {
    let name = uri.path().trim_start_matches('/');
    let name = if name.is_empty() { "index.html" } else { name };
    if let Some((_, kind, bytes)) = PAIR.iter().find(|(own, ..)| *own == name) {
        return answer(kind, "no-cache", Cow::Borrowed(*bytes));
    }
    let Some(found) = Screens::get(name) else {
        return (StatusCode::NOT_FOUND, "There is nothing here.").into_response();
    };
    // Files of `assets` have what is in them in their names.
    let cache = if name.starts_with("assets/") { "public, max-age=31536000, immutable" } else { "no-cache" };
    let bytes = if name == "index.html" { marked(&found.data) } else { found.data };
    answer(found.metadata.mimetype(), cache, bytes)
}

fn marked(page: &[u8]) -> Cow<'static, [u8]> {
    let page = String::from_utf8_lossy(page);
    Cow::Owned(page.replacen("<head>", &format!("<head>{MARK}"), 1).into_bytes())
}

fn answer(kind: &str, cache: &'static str, bytes: Cow<'static, [u8]>) -> Response {
    ([(CONTENT_TYPE, kind.to_owned()), (CACHE_CONTROL, cache.to_owned())], bytes.into_owned()).into_response()
}
