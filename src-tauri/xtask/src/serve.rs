//! A small server of static files for this machine only: the built screens in a browser.

use std::fs;
use std::net::Ipv4Addr;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::thread;

use percent_encoding::percent_decode_str;
use tiny_http::{Header, Method, Request, Response, Server};

/// Answers are files of this machine: a few at once are as many as a browser asks for.
const AT_ONCE: usize = 4;

/// Where the screens are served unless `--port` says otherwise.
pub const PORT: u16 = 4610;

/// Serves until the program is stopped.
///
/// # Errors
/// Where the folder was not built yet or the port is taken.
pub fn serve(folder: &Path, port: u16) -> Result<(), String> {
    println!("Mastwright is at {}", serve_beside(folder, port)?);
    until_stopped()
}

/// Waits while the threads serve.
///
/// # Errors
/// None: nothing but the program's end ends it.
pub fn until_stopped() -> Result<(), String> {
    loop {
        thread::park();
    }
}

/// Serves beside the caller's own work and gives back the address.
///
/// # Errors
/// As for `serve`.
pub fn serve_beside(folder: &Path, port: u16) -> Result<String, String> {
    let server = Arc::new(listen(folder, port)?);
    let address = address(&server)?;
    for _ in 0..AT_ONCE {
        let (server, folder) = (Arc::clone(&server), folder.to_path_buf());
        thread::spawn(move || server.incoming_requests().for_each(|request| answer(request, &folder)));
    }
    Ok(address)
}

/// Reads `--port N`.
///
/// # Errors
/// Where N is not a port.
pub fn port_option(options: &[String]) -> Result<u16, String> {
    let Some(at) = options.iter().position(|option| option == "--port") else {
        return Ok(PORT);
    };
    options
        .get(at + 1)
        .and_then(|text| text.parse().ok())
        .ok_or_else(|| "--port wants a number from 0 to 65535.".to_owned())
}

fn listen(folder: &Path, port: u16) -> Result<Server, String> {
    if !folder.join("index.html").is_file() {
        return Err(format!("{} holds no index.html: run `cargo xtask web` first.", folder.display()));
    }
    Server::http((Ipv4Addr::LOCALHOST, port))
        .map_err(|error| format!("Port {port} can't be used ({error}); choose another with --port N."))
}

/// By name, since browsers give sensors and offline use to `localhost` as to https.
fn address(server: &Server) -> Result<String, String> {
    let local = server.server_addr().to_ip().ok_or("The server has no address.")?;
    Ok(format!("http://localhost:{}", local.port()))
}

fn answer(request: Request, folder: &Path) {
    let (status, kind, body) = found(&request, folder);
    let headers =
        [("Content-Type", kind), ("Cache-Control", "no-cache"), ("X-Content-Type-Options", "nosniff")];
    let mut response = Response::from_data(body).with_status_code(status);
    for header in headers.iter().filter_map(|(name, value)| Header::from_bytes(*name, *value).ok()) {
        response.add_header(header);
    }
    // A browser that hangs up in the middle is no matter.
    let _ = request.respond(response);
}

fn found(request: &Request, folder: &Path) -> (u16, &'static str, Vec<u8>) {
    const TEXT: &str = "text/plain; charset=utf-8";
    if !matches!(request.method(), Method::Get | Method::Head) {
        return (405, TEXT, b"Only GET and HEAD.".to_vec());
    }
    let file =
        file_of(request.url(), folder).and_then(|path| Some((media_type(&path), fs::read(path).ok()?)));
    match file {
        Some((kind, body)) => (200, kind, body),
        None => (404, TEXT, b"There is nothing here.".to_vec()),
    }
}

/// The file a request's target means; none for anything that leads out of the folder.
fn file_of(target: &str, folder: &Path) -> Option<PathBuf> {
    let path = percent_decode_str(target.split(['?', '#']).next()?).decode_utf8().ok()?;
    let relative = Path::new(path.trim_start_matches('/'));
    let stays_inside = relative.components().all(|part| matches!(part, Component::Normal(_)));
    if !stays_inside {
        return None;
    }
    let file = folder.join(relative);
    Some(if file.is_dir() { file.join("index.html") } else { file })
}

/// Browsers compile wasm while it loads only under its right type, and run modules only under theirs.
fn media_type(path: &Path) -> &'static str {
    match path.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json" | "map") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("woff2") => "font/woff2",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Read as _, Write as _};
    use std::net::TcpStream;

    use super::*;

    fn site() -> PathBuf {
        let folder = std::env::temp_dir().join(format!("mastwright-serve-{}", std::process::id()));
        fs::create_dir_all(folder.join("assets")).unwrap();
        fs::write(folder.join("index.html"), "start").unwrap();
        fs::write(folder.join("assets/a b.wasm"), "\0asm").unwrap();
        folder
    }

    fn fetch(address: &str, request: &str) -> String {
        let mut stream = TcpStream::connect(address.trim_start_matches("http://")).unwrap();
        write!(stream, "{request} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn serves_files_with_their_types_and_nothing_outside() {
        let address = serve_beside(&site(), 0).unwrap();
        let start = fetch(&address, "GET /?x=1");
        assert!(start.starts_with("HTTP/1.1 200 OK\r\n") && start.ends_with("\r\n\r\nstart"), "{start}");
        assert!(start.contains("Content-Type: text/html"));
        assert!(fetch(&address, "GET /assets/a%20b.wasm").contains("Content-Type: application/wasm\r\n"));
        let head = fetch(&address, "HEAD /");
        assert!(
            head.starts_with("HTTP/1.1 200")
                && head.contains("Content-Length: 5")
                && head.ends_with("\r\n\r\n")
        );
        assert!(head.contains("Cache-Control: no-cache") && head.contains("X-Content-Type-Options: nosniff"));
        for outside in
            ["/../Cargo.toml", "/%2e%2e/%2e%2e/etc/passwd", "//etc/passwd", "/none.js", "/%zz", "/%ff"]
        {
            assert!(fetch(&address, &format!("GET {outside}")).starts_with("HTTP/1.1 404"), "{outside}");
        }
        assert!(fetch(&address, "POST /").starts_with("HTTP/1.1 405"));
    }

    #[test]
    fn an_unbuilt_folder_says_what_to_run() {
        let error = serve_beside(Path::new("/nowhere"), 0).unwrap_err();
        assert!(error.contains("cargo xtask web"), "{error}");
    }

    #[test]
    fn reads_the_port() {
        let options = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(port_option(&options("--web")), Ok(PORT));
        assert_eq!(port_option(&options("--web --port 8000")), Ok(8000));
        assert!(port_option(&options("--port")).is_err());
        assert!(port_option(&options("--port 70000")).is_err());
    }
}
