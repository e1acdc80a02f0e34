//! `mastwright serve`: the screens and the engine's browser build over https in the local network, for the phones in the
//! yard. A phone's browser gives its motion sensor only to https, so a plain file server at home is not enough.
//!
//! - `certificate`: made on the first run and kept, so that a browser asks about it once
//! - `devices`: who may talk to each other here: a token each, given on pairing, withdrawn at will
//! - `invitation`: the one-time code that pairs a device, as an address and a picture to be scanned
//! - `routes`: what is answered to whom; `headers`: what every answer says besides
//! - `live`: readings that one device sends and the others see
//! - `files`: the app's own files, the only thing anybody gets without a token, besides the page to pair on
//! - `jobs`: the jobs that paired devices hold together: what each sends is merged with what is here; `photos`: what they show

mod certificate;
mod devices;
mod fates;
mod files;
#[cfg(any(test, feature = "fuzzed"))]
pub mod fuzzed;
mod headers;
mod invitation;
mod jobs;
mod keep;
mod listen;
mod live;
mod photos;
mod routes;

use std::net::IpAddr;
use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, PoisonError};

pub use listen::run;

/// How to serve.
#[derive(Debug, Clone)]
pub struct Options {
    /// The address to listen on; all of this machine's by default.
    pub bind: IpAddr,
    pub port: u16,
    /// Where the certificate and the list of devices are kept.
    pub folder: PathBuf,
}

/// Never held across an `await`. Who panicked while it held one has left nothing half done: lists and files are replaced whole.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
