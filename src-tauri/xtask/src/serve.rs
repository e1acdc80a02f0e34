//! A small server of static files for this machine only: the built screens in a browser.

use std::fs;
use std::io::{self, BufRead, BufReader, Read as _, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::thread;

use percent_encoding::percent_decode_str;

/// More than any browser says of what it asks for.
const LONGEST_HEAD: u64 = 64 * 1024;

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
    let listener = listen(folder, port)?;
    let address = address(&listener)?;
    let folder = folder.to_path_buf();
    thread::spawn(move || {
        for stream in listener.incoming().filter_map(Result::ok) {
            let folder = folder.clone();
            // A thread each: a browser opens several connections at once and keeps them, and none may wait for another to end.
            // One that hangs up in the middle is no matter.
            thread::spawn(move || answer_all(&stream, &folder));
        }
    });
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

fn listen(folder: &Path, port: u16) -> Result<TcpListener, String> {
    if !folder.join("index.html").is_file() {
        return Err(format!("{} holds no index.html: run `cargo xtask web` first.", folder.display()));
    }
    TcpListener::bind((Ipv4Addr::LOCALHOST, port))
        .map_err(|error| format!("Port {port} can't be used ({error}); choose another with --port N."))
}

/// By name, since browsers give sensors and offline use to `localhost` as to https.
fn address(listener: &TcpListener) -> Result<String, String> {
    let local = listener.local_addr().map_err(|error| format!("The server has no address: {error}."))?;
    Ok(format!("http://localhost:{}", local.port()))
}

/// What is asked for, of HTTP/1.1 as much as files need (RFC 9112).
struct Request {
    method: String,
    target: String,
    /// Whether another one may follow on the same connection.
    goes_on: bool,
}

/// Answers what comes on a connection until its end.
fn answer_all(mut stream: &TcpStream, folder: &Path) -> io::Result<()> {
    let mut reader = BufReader::new(stream);
    while let Some(request) = read(&mut reader) {
        stream.write_all(&answer(&request, folder))?;
        if !request.goes_on {
            break;
        }
    }
    Ok(())
}

/// The next request; none at the connection's end, or where it is no request.
fn read(reader: &mut impl BufRead) -> Option<Request> {
    let mut lines = reader.take(LONGEST_HEAD).lines().map_while(Result::ok);
    let first = lines.next()?;
    let [method, target, version @ ("HTTP/1.0" | "HTTP/1.1")] = first.split(' ').collect::<Vec<_>>()[..]
    else {
        return None;
    };
    // What else has a body: where that ends nobody looks.
    let mut goes_on = version == "HTTP/1.1" && matches!(method, "GET" | "HEAD");
    loop {
        let line = lines.next()?;
        if line.is_empty() {
            return Some(Request { method: method.to_owned(), target: target.to_owned(), goes_on });
        }
        goes_on &= !line.to_ascii_lowercase().replace(' ', "").starts_with("connection:close");
    }
}

fn answer(request: &Request, folder: &Path) -> Vec<u8> {
    let (status, kind, body) = found(request, folder);
    let goes_on = if request.goes_on { "" } else { "Connection: close\r\n" };
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n\
         X-Content-Type-Options: nosniff\r\n{goes_on}\r\n",
        body.len()
    );
    // In one piece: a second one would wait until the first was acknowledged.
    let body = if request.method == "HEAD" { Vec::new() } else { body };
    [head.into_bytes(), body].concat()
}

fn found(request: &Request, folder: &Path) -> (&'static str, &'static str, Vec<u8>) {
    const TEXT: &str = "text/plain; charset=utf-8";
    if !matches!(request.method.as_str(), "GET" | "HEAD") {
        return ("405 Method Not Allowed", TEXT, b"Only GET and HEAD.".to_vec());
    }
    let file =
        file_of(&request.target, folder).and_then(|path| Some((media_type(&path), fs::read(path).ok()?)));
    match file {
        Some((kind, body)) => ("200 OK", kind, body),
        None => ("404 Not Found", TEXT, b"There is nothing here.".to_vec()),
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
    use std::time::Duration;

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

    /// A library that this was built on before gave some of a browser's first connections no thread until another one ended:
    /// a file in them never came.
    #[test]
    fn many_connections_that_are_kept_open_are_all_answered_and_answered_again() {
        let address = serve_beside(&site(), 0).unwrap();
        let open = || TcpStream::connect(address.trim_start_matches("http://")).unwrap();
        let mut connections: Vec<TcpStream> = (0..24).map(|_| open()).collect();
        for _ in 0..2 {
            for stream in &mut connections {
                stream.write_all(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
            }
            for stream in &mut connections {
                stream.set_read_timeout(Some(Duration::from_secs(10))).unwrap();
                let mut reader = BufReader::new(stream);
                let head: Vec<String> = reader
                    .by_ref()
                    .lines()
                    .map_while(Result::ok)
                    .take_while(|line| !line.is_empty())
                    .collect();
                assert_eq!(head.first().map(String::as_str), Some("HTTP/1.1 200 OK"));
                let mut body = [0; 5];
                reader.read_exact(&mut body).unwrap();
                assert_eq!(&body, b"start");
            }
        }
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
