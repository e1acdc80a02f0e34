//! The screens: npm packages, checks, build.

use std::fs;
use std::path::Path;

use crate::command::{npm, run};
use crate::step::Step;
use crate::wasm;

/// From a fresh clone to `ui/dist`.
pub fn build_steps() -> Vec<Step> {
    vec![
        Step {
            title: "building the browser engine",
            remedy: "the compiler's message above says where it stands.",
            work: wasm::for_browser,
        },
        Step {
            title: "npm packages of the screens",
            remedy: "check the network, then start again.",
            work: |place| npm_packages(&place.ui()),
        },
        Step {
            title: "building the screens",
            remedy: "the message above says where it stands; `npm run check` in ui says more.",
            work: |place| run(npm(&place.ui(), &["run", "build"])),
        },
    ]
}

/// `npm ci`, unless the packages there already are those of the lock file.
///
/// # Errors
/// Where npm fails.
pub fn npm_packages(folder: &Path) -> Result<(), String> {
    let wanted = fs::read(folder.join("package-lock.json"))
        .map_err(|error| format!("{}/package-lock.json: {error}", folder.display()))?;
    let stamp = folder.join("node_modules/.installed-lock.json");
    if fs::read(&stamp).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    run(npm(folder, &["ci", "--no-audit", "--no-fund"]))?;
    fs::write(&stamp, wanted).map_err(|error| format!("{}: {error}", stamp.display()))
}
