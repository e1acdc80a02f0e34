fn main() {
    // Tauri embeds the built screens and refuses a missing folder; an empty one lets `cargo check` pass on a
    // fresh clone. `cargo xtask run` and `cargo xtask test` build the screens first.
    let _ = std::fs::create_dir_all("../ui/dist");
    tauri_build::build();
}
