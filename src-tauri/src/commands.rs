//! What the screens may ask of the app. Each command only passes on, away from the window's own thread.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use mastwright_api::Session;
use mastwright_api::messages::Progress;
use serde_json::Value;
use tauri::State;
use tauri::async_runtime::spawn_blocking;
use tauri::ipc::{Channel, Response};

/// The job in hand of the window.
#[derive(Default)]
pub struct InHand(Arc<Mutex<Session>>);

/// One operation of the api: JSON in, JSON out.
///
/// # Errors
/// Only when the computation itself broke; what is wrong with a job comes back inside the answer.
#[tauri::command]
pub async fn call(operation: String, request: String, hand: State<'_, InHand>) -> Result<String, String> {
    let session = hand.0.clone();
    // What a session holds is replaced whole or not at all, so it is sound even if a call broke off.
    let work = move || session.lock().unwrap_or_else(PoisonError::into_inner).call(&operation, &request);
    spawn_blocking(work).await.map_err(|error| format!("The computation stopped unexpectedly: {error}"))
}

/// One operation that puts a job on paper: JSON in, JSON out.
///
/// # Errors
/// As [`call`].
#[tauri::command]
pub async fn call_on_paper(operation: String, request: String) -> Result<String, String> {
    let work = move || mastwright_api::call_on_paper(&operation, &request);
    spawn_blocking(work).await.map_err(|error| format!("The computation stopped unexpectedly: {error}"))
}

/// The sheets of a job as the bytes of a PDF.
///
/// # Errors
/// The JSON answer that names what is wrong with the job, or as [`call`].
#[tauri::command]
pub async fn sheets_pdf(request: String) -> Result<Response, String> {
    let work = move || mastwright_paper::sheets_pdf(&request);
    let bytes = spawn_blocking(work).await;
    bytes.map_err(|error| format!("The computation stopped unexpectedly: {error}"))?.map(Response::new)
}

/// Which watched operations have been asked to stop, by the number that the screen gave each.
#[derive(Default)]
pub struct Stops(Mutex<BTreeMap<u32, Arc<AtomicBool>>>);

impl Stops {
    /// The flag of an operation. Whichever of the operation and its stop comes first makes it.
    fn of(&self, id: u32) -> Arc<AtomicBool> {
        self.all().entry(id).or_default().clone()
    }

    fn all(&self) -> MutexGuard<'_, BTreeMap<u32, Arc<AtomicBool>>> {
        // Nothing that holds the lock can break off half-way, so what it guards is sound even if a thread did.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// One operation that takes long enough to be watched: `progress` is told how far it is, [`stop_watched`] ends it.
///
/// # Errors
/// As [`call`].
#[tauri::command]
pub async fn call_watched(
    operation: String,
    request: String,
    id: u32,
    progress: Channel<Progress<Value>>,
    stops: State<'_, Stops>,
) -> Result<String, String> {
    let stop = stops.of(id);
    let work = move || {
        mastwright_api::call_watched(&operation, &request, &mut |told| {
            // A window that is gone listens no more: then nobody waits for the answer either.
            progress.send(told.clone()).is_ok() && !stop.load(Ordering::Relaxed)
        })
    };
    let answer = spawn_blocking(work).await;
    stops.all().remove(&id);
    answer.map_err(|error| format!("The computation stopped unexpectedly: {error}"))
}

/// Asks a watched operation to stop; it does at its next step.
#[tauri::command]
pub fn stop_watched(id: u32, stops: State<'_, Stops>) {
    stops.of(id).store(true, Ordering::Relaxed);
}
