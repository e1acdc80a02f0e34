#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| mastwright_fuzz::fuzzed::plan(bytes));
