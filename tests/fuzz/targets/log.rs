#![no_main]

#[path = "../given.rs"]
mod given;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| given::log(bytes));
