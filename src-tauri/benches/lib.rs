//! Measurements of the engine; `cargo xtask bench` runs them.
