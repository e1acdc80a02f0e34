//! What the screens may ask of the disk. Each command only passes on to [`crate::storage`], away from the window's own
//! thread. An answer means that what was asked is on the disk, not on its way there.

use tauri::State;
use tauri::async_runtime::spawn_blocking;
use tauri::ipc::{InvokeBody, Request, Response};

use crate::storage::{AtStart, Card, Kept, Storage, StorageError};

#[tauri::command]
pub async fn store_start(storage: State<'_, Storage>) -> Result<AtStart, String> {
    off_thread(&storage, Storage::start).await
}

#[tauri::command]
pub async fn store_cards(storage: State<'_, Storage>) -> Result<Vec<Card>, String> {
    off_thread(&storage, Storage::cards).await
}

#[tauri::command]
pub async fn store_create(
    job: String,
    card: String,
    text: String,
    storage: State<'_, Storage>,
) -> Result<bool, String> {
    off_thread(&storage, move |storage| storage.create(&job, &card, &text)).await
}

#[tauri::command]
pub async fn store_hold(job: String, storage: State<'_, Storage>) -> Result<bool, String> {
    off_thread(&storage, move |storage| storage.hold(&job)).await
}

#[tauri::command]
pub async fn store_let_go(job: String, storage: State<'_, Storage>) -> Result<(), String> {
    off_thread(&storage, move |storage| {
        storage.let_go(&job);
        Ok(())
    })
    .await
}

#[tauri::command]
pub async fn store_read(job: String, storage: State<'_, Storage>) -> Result<Kept, String> {
    off_thread(&storage, move |storage| storage.read(&job)).await
}

#[tauri::command]
pub async fn store_version(
    job: String,
    n: u64,
    storage: State<'_, Storage>,
) -> Result<Option<String>, String> {
    off_thread(&storage, move |storage| storage.version(&job, n)).await
}

#[tauri::command]
pub async fn store_aside(
    job: String,
    name: String,
    storage: State<'_, Storage>,
) -> Result<Option<String>, String> {
    off_thread(&storage, move |storage| storage.aside(&job, &name)).await
}

#[tauri::command]
pub async fn store_append(job: String, line: String, storage: State<'_, Storage>) -> Result<(), String> {
    off_thread(&storage, move |storage| storage.append(&job, &line)).await
}

#[tauri::command]
pub async fn store_snapshot(
    job: String,
    n: u64,
    text: String,
    drop: Vec<u64>,
    journal_from: u64,
    storage: State<'_, Storage>,
) -> Result<(), String> {
    off_thread(&storage, move |storage| storage.snapshot(&job, n, &text, &drop, journal_from)).await
}

#[tauri::command]
pub async fn store_put_card(job: String, card: String, storage: State<'_, Storage>) -> Result<(), String> {
    off_thread(&storage, move |storage| storage.put_card(&job, &card)).await
}

#[tauri::command]
pub async fn store_set_aside(job: String, n: u64, storage: State<'_, Storage>) -> Result<String, String> {
    off_thread(&storage, move |storage| storage.set_aside(&job, n)).await
}

#[tauri::command]
pub async fn store_remove(job: String, storage: State<'_, Storage>) -> Result<(), String> {
    off_thread(&storage, move |storage| storage.remove(&job)).await
}

#[tauri::command]
pub async fn store_forget_old(storage: State<'_, Storage>) -> Result<(), String> {
    off_thread(&storage, Storage::forget_old).await
}

/// The request's bytes are a photo; its name comes back.
#[tauri::command]
pub async fn store_put_photo(request: Request<'_>, storage: State<'_, Storage>) -> Result<String, String> {
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err("A photo has bytes.".to_owned());
    };
    let bytes = bytes.clone();
    off_thread(&storage, move |storage| storage.put_photo(&bytes)).await
}

/// A photo's bytes; none of them where it is not here.
#[tauri::command]
pub async fn store_photo(name: String, storage: State<'_, Storage>) -> Result<Response, String> {
    let found = off_thread(&storage, move |storage| storage.photo(&name)).await?;
    Ok(Response::new(found.unwrap_or_default()))
}

#[tauri::command]
pub async fn store_forget_other_photos(
    named: Vec<String>,
    storage: State<'_, Storage>,
) -> Result<(), String> {
    off_thread(&storage, move |storage| storage.forget_other_photos(&named)).await
}

async fn off_thread<T: Send + 'static>(
    storage: &Storage,
    work: impl FnOnce(&Storage) -> Result<T, StorageError> + Send + 'static,
) -> Result<T, String> {
    let storage = storage.clone();
    match spawn_blocking(move || work(&storage)).await {
        Ok(result) => result.map_err(|error| error.to_string()),
        Err(error) => Err(format!("Reading or writing stopped unexpectedly: {error}")),
    }
}
