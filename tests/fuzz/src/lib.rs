//! What is fuzzed: shared with the test that asks every kept input again (`tests/bad-input`), which needs no nightly compiler.

#[path = "../../support/fuzzed.rs"]
pub mod fuzzed;
