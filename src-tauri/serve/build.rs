//! The built screens go into the program; where they are not built yet an empty folder lets it compile.

fn main() {
    let _ = std::fs::create_dir_all("../../ui/dist");
    println!("cargo::rerun-if-changed=../../ui/dist");
}
