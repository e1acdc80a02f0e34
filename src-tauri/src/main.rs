// No console window beside the app on Windows.
#![cfg_attr(all(not(debug_assertions), windows), windows_subsystem = "windows")]

fn main() {
    mastwright_app_lib::run();
}
