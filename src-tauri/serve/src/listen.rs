//! From the options to a machine that answers.

use std::net::{IpAddr, SocketAddr, TcpListener};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use axum_server::tls_rustls::RustlsConfig;
use chrono::Utc;
use hyper_util::rt::TokioTimer;

use crate::Options;
use crate::devices::Devices;
use crate::fates::Fates;
use crate::invitation::Invitation;
use crate::jobs::Jobs;
use crate::live::Live;
use crate::photos::Photos;
use crate::routes::{Served, router};
use crate::{certificate, files};

/// Who has not said within this time what it wants holds a connection for nothing.
pub const TO_ASK: Duration = Duration::from_secs(10);
/// The same of a paired device that brings a job or a photo: 2 MB over 0.4 Mb/s, the far end of a yard.
pub const TO_CARRY: Duration = Duration::from_secs(60);

/// Serves until the program is stopped.
///
/// # Errors
/// In words: the screens are not built, the port is taken, the folder can't be written.
pub fn run(options: &Options) -> Result<(), String> {
    if !files::are_built() {
        return Err("The screens are not built: run `cargo xtask web` first.".to_owned());
    }
    let listener = TcpListener::bind(SocketAddr::new(options.bind, options.port)).map_err(|error| {
        format!("{} port {} can't be used ({error}); choose another with --port.", options.bind, options.port)
    })?;
    let port = listener.local_addr().map_err(|error| error.to_string())?.port();
    let addresses = addresses(options.bind);
    let certificate = certificate::kept_or_new(&options.folder, &addresses, Utc::now())?;
    let host = addresses.first().map_or("localhost".to_owned(), host);
    let served = Arc::new(Served {
        origin: format!("https://{host}:{port}"),
        devices: Mutex::new(Devices::kept_in(&options.folder)?),
        invitation: Mutex::new(Invitation::new(Instant::now())?),
        live: Live::new(),
        jobs: Jobs::kept_in(&options.folder),
        fates: Fates::kept_in(&options.folder),
        photos: Photos::kept_in(&options.folder),
    });
    println!("Mastwright is at {}", served.origin);
    println!(
        "The browser will say that it does not know this machine's certificate. Nobody vouches for a machine at home; that \
         is expected here, once for each device, and nowhere else (docs/phone.md)."
    );
    served.invite_on_the_terminal()?;
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().worker_threads(2).build();
    runtime.map_err(|error| error.to_string())?.block_on(answer(listener, &certificate, served))
}

async fn answer(
    listener: TcpListener,
    certificate: &certificate::Certificate,
    served: Arc<Served>,
) -> Result<(), String> {
    // Another may have been chosen before: then it stays.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let (chain, key) = (certificate.certificate_pem.clone(), certificate.key_pem.clone());
    let tls = RustlsConfig::from_pem(chain.into_bytes(), key.into_bytes())
        .await
        .map_err(|error| format!("The kept certificate can't be used: {error}"))?;
    listener.set_nonblocking(true).map_err(|error| error.to_string())?;
    let mut server = axum_server::from_tcp_rustls(listener, tls).map_err(|error| error.to_string())?;
    let builder = server.http_builder();
    builder.http1().timer(TokioTimer::new()).header_read_timeout(TO_ASK);
    builder.http2().timer(TokioTimer::new()).keep_alive_interval(TO_ASK).keep_alive_timeout(TO_ASK);
    server.serve(router(served).into_make_service()).await.map_err(|error| error.to_string())
}

/// The addresses that other devices reach this machine by: what it was bound to, or all of its own but the loopback.
fn addresses(bind: IpAddr) -> Vec<IpAddr> {
    if !bind.is_unspecified() {
        return vec![bind];
    }
    let mut own: Vec<IpAddr> = if_addrs::get_if_addrs()
        .unwrap_or_default()
        .into_iter()
        .filter(|one| !one.is_loopback() && !one.is_link_local())
        .map(|one| one.ip())
        .collect();
    // People read and type IPv4 addresses more easily.
    own.sort_by_key(|ip| (ip.is_ipv6(), *ip));
    own
}

fn host(ip: &IpAddr) -> String {
    match ip {
        IpAddr::V4(ip) => ip.to_string(),
        IpAddr::V6(ip) => format!("[{ip}]"),
    }
}
