#![no_main]
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| frames_fuzz::isotp(bytes));
