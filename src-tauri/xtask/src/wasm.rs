//! The engine for the browser. wasm-bindgen's generator is a library here, so no tool has to be installed.

use std::path::{Path, PathBuf};
use std::process::Command;

use wasm_bindgen_cli_support::Bindgen;

use crate::command::{cargo, output, run};
use crate::place::Place;

/// The modules, each a crate with the name its files get: what a browser loads at once, the whole engine, and what it loads
/// to print.
const MODULES: [(&str, &str); 3] =
    [("mastwright-map-wasm", "map"), ("mastwright-wasm", "engine"), ("mastwright-paper-wasm", "paper")];

/// What the first map's module may be, packed: it is what somebody with a weak signal waits for.
const MOST_PACKED_BYTES: u64 = 560_000;

/// The engine as ES modules that the screens' workers load, into `ui/src/wasm`.
///
/// # Errors
/// Where a crate does not compile, the generator can't read the result, or what is loaded first has grown too large.
pub fn for_browser(place: &Place) -> Result<(), String> {
    let folder = place.ui_wasm();
    for (compiled, name) in compile(place, &MODULES)? {
        let mut bindgen = Bindgen::new();
        bindgen.web(true).map_err(|error| error.to_string())?.typescript(true);
        // The module finds its .wasm beside itself; the bundler follows that address and packs the file too.
        bindgen.omit_default_module_path(false);
        generate(&mut bindgen, &compiled, name, &folder)?;
        let file = folder.join(format!("{name}_bg.wasm"));
        println!("      {} kB in {}", kilobytes(&file), file.display());
    }
    first_answers(place)?;
    let first = folder.join("map_bg.wasm");
    let packed = packed_bytes(place, &first)?;
    println!("      {packed} bytes of {} are loaded for the first map, packed by brotli", first.display());
    fits(&first, packed)
}

/// What the first module answers when the demo is opened, as a file beside it: a browser shows that before it has the module.
fn first_answers(place: &Place) -> Result<(), String> {
    let mut node = Command::new("node");
    node.current_dir(&place.root).arg("src-tauri/xtask/first_answers.mjs").arg(place.ui_wasm());
    run(node)
}

/// How long a file is, packed by brotli at its highest.
fn packed_bytes(place: &Place, file: &Path) -> Result<u64, String> {
    let mut node = Command::new("node");
    node.current_dir(&place.root).arg("src-tauri/xtask/packed_size.mjs").arg(file);
    let said = output(node)?;
    said.trim().parse().map_err(|_| format!("node said `{}` instead of a number of bytes.", said.trim()))
}

fn fits(file: &Path, packed: u64) -> Result<(), String> {
    let over = packed.saturating_sub(MOST_PACKED_BYTES);
    (over == 0).then_some(()).ok_or_else(|| {
        format!(
            "{} is {packed} bytes packed by brotli, {over} more than the {MOST_PACKED_BYTES} that the first map may \
             take. Move what it does not need to an operation that is not `at_first` (src-tauri/api/src/operations.rs); \
             what was tried before stands in docs/performance.md, row \"Size of the browser's modules\".",
            file.display()
        )
    })
}

/// The same modules for Node, to measure them and to compare their answers.
///
/// # Errors
/// As for the browser.
pub fn for_node(place: &Place) -> Result<(), String> {
    generate_for_node(place, &MODULES)
}

/// What is measured in wasm and belongs to no operation, for Node.
///
/// # Errors
/// As for the browser.
pub fn of_benches(place: &Place) -> Result<(), String> {
    generate_for_node(place, &[("mastwright-benches", "benches")])
}

fn generate_for_node(place: &Place, modules: &[(&str, &'static str)]) -> Result<(), String> {
    for (compiled, name) in compile(place, modules)? {
        let mut bindgen = Bindgen::new();
        bindgen.nodejs(true).map_err(|error| error.to_string())?.typescript(false);
        generate(&mut bindgen, &compiled, name, &place.node_wasm())?;
    }
    Ok(())
}

/// All in one go, so that one is linked while the other one is: linking is what takes longest, on one processor each.
fn compile(place: &Place, modules: &[(&str, &'static str)]) -> Result<Vec<(PathBuf, &'static str)>, String> {
    let target = "wasm32-unknown-unknown";
    let packages = modules.iter().flat_map(|(package, _)| ["-p", package]);
    // Of the benches the library alone.
    let arguments =
        ["build", "--lib", "--target", target, "--profile", "wasm-release"].into_iter().chain(packages);
    run(cargo(&place.root, &arguments.collect::<Vec<_>>()))?;
    let folder = place.target.join(target).join("wasm-release");
    let file = |package: &str| folder.join(format!("{}.wasm", package.replace('-', "_")));
    Ok(modules.iter().map(|(package, name)| (file(package), *name)).collect())
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_first_module_that_is_too_large_is_named_with_how_much() {
        let file = Path::new("ui/src/wasm/map_bg.wasm");
        assert_eq!(fits(file, MOST_PACKED_BYTES), Ok(()));
        let said = fits(file, MOST_PACKED_BYTES + 1234).unwrap_err();
        assert!(
            said.starts_with("ui/src/wasm/map_bg.wasm is 561234 bytes packed by brotli, 1234 more than"),
            "{said}"
        );
    }
}
