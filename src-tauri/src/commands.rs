//! What the screens may ask of the app. Each command only passes on, away from the window's own thread.

use tauri::State;
use tauri::async_runtime::spawn_blocking;

use crate::storage::Storage;

/// One operation of the api: JSON in, JSON out.
///
/// # Errors
/// Only when the computation itself broke; what is wrong with a job comes back inside the answer.
#[tauri::command]
pub async fn call(operation: String, request: String) -> Result<String, String> {
    spawn_blocking(move || mastwright_api::call(&operation, &request))
        .await
        .map_err(|error| format!("The computation stopped unexpectedly: {error}"))
}

/// The job as last saved; none on the first start.
#[tauri::command]
pub async fn load_job(storage: State<'_, Storage>) -> Result<Option<String>, String> {
    off_thread(&storage, |storage| storage.load()).await
}

/// Keeps the job; the versions before it stay on disk.
#[tauri::command]
pub async fn save_job(text: String, storage: State<'_, Storage>) -> Result<(), String> {
    off_thread(&storage, move |storage| storage.save(&text)).await
}

/// What the user should know of the last `load_job`, such as a file that could not be read.
#[tauri::command]
pub async fn storage_notice(storage: State<'_, Storage>) -> Result<Option<String>, String> {
    Ok(storage.notice())
}

async fn off_thread<T: Send + 'static>(
    storage: &Storage,
    work: impl FnOnce(&Storage) -> Result<T, crate::storage::StorageError> + Send + 'static,
) -> Result<T, String> {
    let storage = storage.clone();
    match spawn_blocking(move || work(&storage)).await {
        Ok(result) => result.map_err(|error| error.to_string()),
        Err(error) => Err(format!("Reading or writing stopped unexpectedly: {error}")),
    }
}
