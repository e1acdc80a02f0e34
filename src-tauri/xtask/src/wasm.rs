//! The engine for the browser. wasm-bindgen's generator is a library here, so no tool has to be installed.

use std::path::{Path, PathBuf};

use wasm_bindgen_cli_support::Bindgen;

use crate::command::{cargo, run};
use crate::place::Place;

/// The modules, each a crate with the name its files get: what a browser loads at once, the whole engine, and what it loads
/// to print.
const MODULES: [(&str, &str); 3] =
    [("mastwright-map-wasm", "map"), ("mastwright-wasm", "engine"), ("mastwright-paper-wasm", "paper")];

/// The engine as ES modules that the screens' workers load, into `ui/src/wasm`.
///
/// # Errors
/// Where a crate does not compile, or the generator can't read the result.
pub fn for_browser(place: &Place) -> Result<(), String> {
    let folder = place.ui_wasm();
    for (compiled, name) in compile(place)? {
        let mut bindgen = Bindgen::new();
        bindgen.web(true).map_err(|error| error.to_string())?.typescript(true);
        // The module finds its .wasm beside itself; the bundler follows that address and packs the file too.
        bindgen.omit_default_module_path(false);
        generate(&mut bindgen, &compiled, name, &folder)?;
        let file = folder.join(format!("{name}_bg.wasm"));
        println!("      {} kB in {}", kilobytes(&file), file.display());
    }
    Ok(())
}

/// The same modules for Node, to measure them and to compare their answers.
///
/// # Errors
/// As for the browser.
pub fn for_node(place: &Place) -> Result<(), String> {
    for (compiled, name) in compile(place)? {
        let mut bindgen = Bindgen::new();
        bindgen.nodejs(true).map_err(|error| error.to_string())?.typescript(false);
        generate(&mut bindgen, &compiled, name, &place.node_wasm())?;
    }
    Ok(())
}

/// All in one go, so that one is linked while the other one is: linking is what takes longest, on one processor each.
fn compile(place: &Place) -> Result<Vec<(PathBuf, &'static str)>, String> {
    let target = "wasm32-unknown-unknown";
    let packages = MODULES.iter().flat_map(|(package, _)| ["-p", package]);
    let arguments = ["build", "--target", target, "--profile", "wasm-release"].into_iter().chain(packages);
    run(cargo(&place.root, &arguments.collect::<Vec<_>>()))?;
    let folder = place.target.join(target).join("wasm-release");
    Ok(MODULES
        .map(|(package, name)| (folder.join(format!("{}.wasm", package.replace('-', "_"))), name))
        .to_vec())
}

fn generate(bindgen: &mut Bindgen, compiled: &Path, name: &str, folder: &Path) -> Result<(), String> {
    bindgen
        .input_path(compiled)
        .remove_name_section(true)
        .remove_producers_section(true)
        .out_name(name)
        .generate(folder)
        .map_err(|error| format!("wasm-bindgen: {error:#}"))
}

fn kilobytes(file: &Path) -> u64 {
    file.metadata().map_or(0, |data| data.len() / 1000)
}
