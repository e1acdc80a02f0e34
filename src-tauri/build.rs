use tauri_build::{AppManifest, Attributes};

/// What the screens may ask of the app. Each is allowed to its window in `capabilities/main.json`; what does not stand in
/// both is refused.
const COMMANDS: &[&str] = &[
    "call",
    "call_watched",
    "call_on_paper",
    "sheets_pdf",
    "stop_watched",
    "save_file",
    "store_start",
    "store_cards",
    "store_create",
    "store_hold",
    "store_let_go",
    "store_read",
    "store_version",
    "store_aside",
    "store_append",
    "store_snapshot",
    "store_put_card",
    "store_set_aside",
    "store_remove",
    "store_forget_old",
    "store_put_photo",
    "store_photo",
    "store_forget_other_photos",
];

fn main() {
    // Tauri embeds the built screens and refuses a missing folder; an empty one lets `cargo check` pass on a
    // fresh clone. `cargo xtask run` and `cargo xtask test` build the screens first.
    let _ = std::fs::create_dir_all("../ui/dist");
    let attributes = Attributes::new().app_manifest(AppManifest::new().commands(COMMANDS));
    if let Err(error) = tauri_build::try_build(attributes) {
        println!("cargo::error={error:#}");
    }
}
