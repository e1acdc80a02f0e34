//! `cargo xtask run`: from a fresh clone to the app in front of the user.

use std::env;

use crate::command::{cargo, run as start};
use crate::place::Place;
use crate::serve;
use crate::setup;
use crate::step::{Step, run_first};
use crate::ui;

/// Sets up, builds and starts: a window where there is a display, otherwise the screens in a browser.
///
/// # Errors
/// Where an option is unknown or a step failed.
pub fn run(place: &Place, options: &[String]) -> Result<(), String> {
    let port = serve::port_option(options)?;
    reject_unknown(options)?;
    if options.iter().any(|option| option == "--web") || !has_display() {
        in_browser(place, port)
    } else {
        in_window(place)
    }
}

fn reject_unknown(options: &[String]) -> Result<(), String> {
    let unknown = options
        .iter()
        .find(|option| option.starts_with('-') && !["--web", "--port"].contains(&option.as_str()));
    unknown
        .map_or(Ok(()), |option| Err(format!("`run` has no option `{option}`; it knows --web and --port N.")))
}

/// macOS and Windows always have one.
fn has_display() -> bool {
    let set = |name| env::var_os(name).is_some_and(|value| !value.is_empty());
    cfg!(any(windows, target_os = "macos")) || set("DISPLAY") || set("WAYLAND_DISPLAY")
}

fn in_window(place: &Place) -> Result<(), String> {
    let mut steps = setup::window();
    steps.extend(ui::build_steps());
    steps.push(Step {
        title: "building the app (some minutes the first time)",
        remedy: "the compiler's message above says where it stands; `cargo xtask run --web` needs no window.",
        work: |place| {
            let app = ["build", "--release", "-p", "mastwright-app", "--features", "custom-protocol"];
            start(cargo(&place.root, &app))
        },
    });
    run_first(place, &steps)?;
    println!("\nMastwright opens its window. Close it to end.");
    start(std::process::Command::new(place.program("release", "mastwright-app")))
}

fn in_browser(place: &Place, port: u16) -> Result<(), String> {
    let mut steps = setup::web();
    steps.extend(ui::build_steps());
    run_first(place, &steps)?;
    let address = serve::serve_beside(&place.ui_dist(), port)?;
    println!("\nNo window here, so Mastwright runs in the browser of this machine, at {address}\n");
    show_demo(place)?;
    println!("\nThat was the demo's plan. Mastwright is at {address}; Ctrl+C ends it.");
    serve::until_stopped()
}

/// The engine that was just built for the browser answers here, too: nothing else has to be compiled for it.
fn show_demo(place: &Place) -> Result<(), String> {
    let mut show = std::process::Command::new("node");
    show.arg(place.root.join("src-tauri/xtask/demo_plan.mjs")).arg(place.ui_wasm());
    start(show)
}
