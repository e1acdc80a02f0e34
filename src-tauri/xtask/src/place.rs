//! Where things are in this checkout.

use std::env;
use std::path::{Path, PathBuf};

/// The checkout's folders.
#[derive(Debug, Clone)]
pub struct Place {
    pub root: PathBuf,
    pub target: PathBuf,
}

impl Place {
    pub fn of_this_checkout() -> Self {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        let root = here.ancestors().nth(2).unwrap_or(here).to_path_buf();
        let target =
            env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), |set| root.join(set));
        Self { root, target }
    }

    pub fn ui(&self) -> PathBuf {
        self.root.join("ui")
    }

    pub fn ui_dist(&self) -> PathBuf {
        self.ui().join("dist")
    }

    pub fn ui_wasm(&self) -> PathBuf {
        self.ui().join("src/wasm")
    }

    pub fn node_wasm(&self) -> PathBuf {
        self.target.join("wasm-node")
    }

    pub fn browser_tests(&self) -> PathBuf {
        self.root.join("tests/browser")
    }

    /// A program that cargo built in the debug or release folder.
    pub fn program(&self, profile: &str, name: &str) -> PathBuf {
        self.target.join(profile).join(format!("{name}{}", env::consts::EXE_SUFFIX))
    }
}
