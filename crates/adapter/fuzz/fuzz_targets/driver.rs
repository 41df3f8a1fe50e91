#![no_main]
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| adapter_fuzz::driver(bytes));
