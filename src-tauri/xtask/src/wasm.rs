//! The engine for the browser. wasm-bindgen's generator is a library here, so no tool has to be installed.

use std::path::{Path, PathBuf};

use wasm_bindgen_cli_support::Bindgen;

use crate::command::{cargo, run};
use crate::place::Place;

/// The engine as an ES module that the screens' worker loads, into `ui/src/wasm`.
///
/// # Errors
/// Where the crate does not compile, or the generator can't read the result.
pub fn for_browser(place: &Place) -> Result<(), String> {
    let compiled = compile(place)?;
    let folder = place.ui_wasm();
    let mut bindgen = Bindgen::new();
    bindgen.web(true).map_err(|error| error.to_string())?.typescript(true);
    // The module finds its .wasm beside itself; the bundler follows that address and packs the file too.
    bindgen.omit_default_module_path(false);
    generate(&mut bindgen, &compiled, &folder)?;
    println!("      {} kB in {}", kilobytes(&folder.join("engine_bg.wasm")), folder.display());
    Ok(())
}

/// The same engine for Node, to measure it and to compare its answers.
///
/// # Errors
/// As for the browser.
pub fn for_node(place: &Place) -> Result<(), String> {
    let compiled = compile(place)?;
    let mut bindgen = Bindgen::new();
    bindgen.nodejs(true).map_err(|error| error.to_string())?.typescript(false);
    generate(&mut bindgen, &compiled, &place.node_wasm())
}

fn compile(place: &Place) -> Result<PathBuf, String> {
    let target = "wasm32-unknown-unknown";
    run(cargo(
        &place.root,
        &["build", "-p", "mastwright-wasm", "--target", target, "--profile", "wasm-release"],
    ))?;
    Ok(place.target.join(target).join("wasm-release/mastwright_wasm.wasm"))
}

fn generate(bindgen: &mut Bindgen, compiled: &Path, folder: &Path) -> Result<(), String> {
    bindgen
        .input_path(compiled)
        .remove_name_section(true)
        .remove_producers_section(true)
        .out_name("engine")
        .generate(folder)
        .map_err(|error| format!("wasm-bindgen: {error:#}"))
}

fn kilobytes(file: &Path) -> u64 {
    file.metadata().map_or(0, |data| data.len() / 1000)
}
