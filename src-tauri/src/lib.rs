//! The app: a window over the engine. It adds two things to the api that every face shares: the system's
//! window, and the jobs kept on disk.

mod commands;
mod keeping;
mod saving;
mod storage;

use tauri::Manager;

/// Starts the app and returns when its window is closed.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run() {
    let started = tauri::Builder::default()
        .manage(commands::Stops::default())
        .manage(commands::InHand::default())
        .setup(|app| {
            let folder = app.path().app_data_dir()?;
            app.manage(storage::Storage::at(folder));
            Ok(())
        })
        .invoke_handler(tauri::generate_handler![
            commands::call,
            commands::call_watched,
            commands::call_on_paper,
            commands::sheets_pdf,
            commands::stop_watched,
            saving::save_file,
            keeping::store_start,
            keeping::store_cards,
            keeping::store_create,
            keeping::store_hold,
            keeping::store_let_go,
            keeping::store_read,
            keeping::store_version,
            keeping::store_aside,
            keeping::store_append,
            keeping::store_snapshot,
            keeping::store_put_card,
            keeping::store_set_aside,
            keeping::store_remove,
            keeping::store_forget_old,
            keeping::store_put_photo,
            keeping::store_photo,
            keeping::store_forget_other_photos
        ])
        .run(tauri::generate_context!());
    if let Err(error) = started {
        eprintln!("Mastwright could not open its window: {error}");
        std::process::exit(1);
    }
}
