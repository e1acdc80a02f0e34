#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    mastwright_serve::fuzzed::ask(bytes);
});
