//! What the machine needs: system packages, Rust targets, Node. Debian and Ubuntu get the packages installed
//! where we are root or have sudo; elsewhere we say exactly what to install and stop.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use crate::command::{cargo, find_program, npm, output, run};
use crate::place::Place;
use crate::step::Step;

/// The least Node that the screens' tools run on.
const NODE: u32 = 20;

/// A compiler and linker for Rust's build scripts.
const COMPILER: &[&str] = &["build-essential", "pkg-config"];
/// The system's web view, to build the window on Linux.
const WINDOW: &[&str] = &["libwebkit2gtk-4.1-dev", "librsvg2-dev", "libayatana-appindicator3-dev"];
/// A screen that nobody sees and the web view's driver, to test the window.
const WINDOW_TEST: &[&str] = &["xvfb", "webkit2gtk-driver"];

/// For the screens in a browser.
pub fn web() -> Vec<Step> {
    vec![NODE_STEP, WASM_TARGET_STEP]
}

/// For the app's window.
pub fn window() -> Vec<Step> {
    vec![
        Step {
            title: "system packages for the window",
            remedy: "install what is named above, then start again.",
            work: |_| packages(&[COMPILER, WINDOW].concat()),
        },
        NODE_STEP,
        WASM_TARGET_STEP,
    ]
}

/// For every test.
pub fn everything() -> Vec<Step> {
    vec![
        Step {
            title: "system packages for the window and its tests",
            remedy: "install what is named above, then start again.",
            work: |_| packages(&everything_named()),
        },
        NODE_STEP,
        Step {
            title: "Rust's targets for the browser and the phone, its formatter and lints",
            remedy: "install Rust by https://rustup.rs, or add the named target by your system's means.",
            work: |place| {
                rust_target(place, "wasm32-unknown-unknown")?;
                rust_target(place, "aarch64-linux-android")?;
                rust_component(place, "fmt", "rustfmt")?;
                rust_component(place, "clippy", "clippy")
            },
        },
    ]
}

const NODE_STEP: Step = Step {
    title: "Node and npm",
    remedy: "install Node 20 or newer from https://nodejs.org or your system's packages.",
    work: |place| node(place),
};

const WASM_TARGET_STEP: Step = Step {
    title: "Rust's target for the browser",
    remedy: "install Rust by https://rustup.rs, or add the named target by your system's means.",
    work: |place| rust_target(place, "wasm32-unknown-unknown"),
};

/// A Chromium to test in: `$CHROMIUM`, or one of the usual names.
pub fn chromium() -> Option<PathBuf> {
    std::env::var_os("CHROMIUM")
        .map(PathBuf::from)
        .or_else(|| ["chromium", "chromium-browser", "google-chrome"].into_iter().find_map(find_program))
}

fn everything_named() -> Vec<&'static str> {
    let mut all = [COMPILER, WINDOW, WINDOW_TEST].concat();
    if chromium().is_none() {
        all.push("chromium");
    }
    all
}

/// Installs what is missing of Debian packages; on other systems makes sure that somebody did.
fn packages(names: &[&'static str]) -> Result<(), String> {
    if !cfg!(target_os = "linux") {
        return Ok(());
    }
    if find_program("dpkg-query").is_none() {
        return without_apt(names);
    }
    let missing: Vec<&str> = names.iter().copied().filter(|name| !is_installed(name)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    println!("      installing {}", missing.join(", "));
    apt(&["update", "-q"], &missing)?;
    apt(&[&["install", "-y", "-q", "--no-install-recommends"], &missing[..]].concat(), &missing)
}

fn is_installed(package: &str) -> bool {
    let mut query = Command::new("dpkg-query");
    query.args(["-W", "-f=${Status}", package]);
    output(query).is_ok_and(|status| status == "install ok installed")
}

fn apt(arguments: &[&str], wanted: &[&str]) -> Result<(), String> {
    let mut command = if is_root() {
        Command::new("apt-get")
    } else if find_program("sudo").is_some() {
        let mut sudo = Command::new("sudo");
        sudo.args(["--preserve-env=DEBIAN_FRONTEND", "apt-get"]);
        sudo
    } else {
        return Err(install_by_hand(wanted));
    };
    command.args(arguments).env("DEBIAN_FRONTEND", "noninteractive");
    run(command).map_err(|error| format!("{error}\n{}", install_by_hand(wanted)))
}

fn install_by_hand(packages: &[&str]) -> String {
    format!("Please install as root:\n    apt-get update && apt-get install {}", packages.join(" "))
}

fn is_root() -> bool {
    let mut id = Command::new("id");
    id.arg("-u");
    output(id).is_ok_and(|user| user.trim() == "0")
}

/// Other distributions name their packages otherwise, so we look for the things themselves.
fn without_apt(names: &[&str]) -> Result<(), String> {
    let present = |name: &&str| match *name {
        "build-essential" => find_program("cc").is_some(),
        "pkg-config" => find_program("pkg-config").is_some(),
        "libwebkit2gtk-4.1-dev" => library("webkit2gtk-4.1"),
        "librsvg2-dev" => library("librsvg-2.0"),
        "libayatana-appindicator3-dev" => library("ayatana-appindicator3-0.1"),
        "xvfb" => find_program("Xvfb").is_some(),
        "webkit2gtk-driver" => find_program("WebKitWebDriver").is_some(),
        _ => false,
    };
    let missing: Vec<&str> = names.iter().copied().filter(|name| !present(name)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    let system = fs::read_to_string("/etc/os-release").unwrap_or_default();
    let system = system.lines().find_map(|line| line.strip_prefix("PRETTY_NAME=")).unwrap_or("this system");
    Err(format!(
        "On {system} please install what Debian calls: {}.\n\
         The names on other systems are listed at https://tauri.app/start/prerequisites/",
        missing.join(", ")
    ))
}

fn library(name: &str) -> bool {
    let mut query = Command::new("pkg-config");
    query.args(["--exists", name]);
    output(query).is_ok()
}

fn node(place: &Place) -> Result<(), String> {
    npm_answers(place)?;
    let mut node = Command::new("node");
    node.arg("--version");
    let version = output(node)?;
    let major: Option<u32> =
        version.trim().trim_start_matches('v').split('.').next().and_then(|major| major.parse().ok());
    match major {
        Some(major) if major >= NODE => Ok(()),
        _ => Err(format!("Node {NODE} or newer is needed; here is {}.", version.trim())),
    }
}

fn npm_answers(place: &Place) -> Result<(), String> {
    output(npm(&place.root, &["--version"])).map(drop)
}

/// Adds a target by rustup unless its library is already there, wherever it came from.
fn rust_target(place: &Place, target: &str) -> Result<(), String> {
    let mut query = Command::new("rustc");
    query.current_dir(&place.root).args(["--print", "target-libdir", "--target", target]);
    if output(query).is_ok_and(|folder| PathBuf::from(folder.trim()).is_dir()) {
        return Ok(());
    }
    rustup(place, &["target", "add", target])
}

fn rust_component(place: &Place, cargo_command: &str, component: &str) -> Result<(), String> {
    if output(cargo(&place.root, &[cargo_command, "--version"])).is_ok() {
        return Ok(());
    }
    rustup(place, &["component", "add", component])
}

fn rustup(place: &Place, arguments: &[&str]) -> Result<(), String> {
    let mut command = Command::new("rustup");
    command.current_dir(&place.root).args(arguments);
    run(command)
}
