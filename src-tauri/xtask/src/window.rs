//! The app's real window, tested on a screen that nobody sees.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};

use crate::command::run;
use crate::place::Place;

/// Drives the program that the test build left in the debug folder.
///
/// # Errors
/// Where the screen can't be had or the journey fails.
pub fn journey(place: &Place) -> Result<(), String> {
    if !cfg!(target_os = "linux") {
        return Err(
            "The window is tested on Linux only: other systems' web views have no such driver.".to_owned()
        );
    }
    let screen = Screen::start()?;
    let mut journey = Command::new("node");
    journey
        .current_dir(&place.root)
        .arg("tests/window/journey.mjs")
        .arg(place.program("debug", "mastwright-app"))
        .arg(place.program("debug", "mastwright"))
        .env("DISPLAY", &screen.name)
        .env_remove("WAYLAND_DISPLAY")
        .env("GDK_BACKEND", "x11");
    run(journey)
}

/// A virtual screen that ends with its owner.
struct Screen {
    server: Child,
    name: String,
}

impl Screen {
    fn start() -> Result<Self, String> {
        // With -displayfd the server picks a free number and tells it once it is ready.
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("Xvfb could not be started: {error}."))?;
        let mut number = String::new();
        if let Some(told) = server.stdout.take() {
            let _ = BufReader::new(told).read_line(&mut number);
        }
        let name = format!(":{}", number.trim());
        let screen = Self { server, name };
        if screen.name == ":" { Err("Xvfb ended before it had a screen.".to_owned()) } else { Ok(screen) }
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}
