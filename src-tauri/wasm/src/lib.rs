//! wasm
