//! Every library that is declared stands with its reason in docs/dependencies.md, and none that is not.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Names in the `[…dependencies]` tables of a crate, without the workspace's own.
fn crates(manifest: &str) -> Vec<String> {
    let mut inside = false;
    let mut found = Vec::new();
    for line in manifest.lines().map(str::trim) {
        if let Some(table) = line.strip_prefix('[').and_then(|line| line.strip_suffix(']')) {
            inside = table.ends_with("dependencies");
        } else if inside && !line.starts_with('#') && line.contains('=') {
            let name = line.split(['=', '.']).next().unwrap_or_default().trim();
            found.push(name.to_owned());
        }
    }
    found.retain(|name| !name.starts_with("mastwright-"));
    found
}

fn packages(manifest: &str) -> Vec<String> {
    let manifest: serde_json::Value = serde_json::from_str(manifest).expect("JSON");
    let of = |table: &str| manifest[table].as_object().map(|all| all.keys().cloned().collect::<Vec<_>>());
    ["dependencies", "devDependencies"].into_iter().filter_map(of).flatten().collect()
}

fn declared() -> BTreeSet<String> {
    let folder = root().join("src-tauri");
    let below = fs::read_dir(&folder).expect("src-tauri").filter_map(|entry| Some(entry.ok()?.path()));
    let manifests = below
        .chain([folder, root().join("tests"), root().join("tests/fuzz"), root()])
        .map(|folder| folder.join("Cargo.toml"));
    let crates = manifests.filter(|path| path.is_file()).flat_map(|path| crates(&read(&path)));
    let packages = ["ui", "tests/browser"]
        .into_iter()
        .flat_map(|at| packages(&read(&root().join(at).join("package.json"))));
    crates.chain(packages).collect()
}

fn reasoned() -> BTreeSet<String> {
    let page = read(&root().join("docs/dependencies.md"));
    let rows = page.lines().filter_map(|line| line.strip_prefix("| `")?.split_once("` | "));
    rows.inspect(|(name, reason)| assert!(reason.len() > 5, "{name} has no reason"))
        .map(|(name, _)| name.to_owned())
        .collect()
}

#[test]
fn every_library_has_a_reason_and_every_reason_a_library() {
    let (declared, reasoned) = (declared(), reasoned());
    assert!(declared.len() > 40, "the manifests were not read: {declared:?}");
    let without: Vec<_> = declared.difference(&reasoned).collect();
    let left: Vec<_> = reasoned.difference(&declared).collect();
    assert_eq!((without, left), (vec![], vec![]), "without a reason; a reason without a library");
}
