//! libFuzzer at the reader `query`. Never more than the call: what holds stands in `what.rs`.
#![no_main]

#[path = "../what.rs"]
mod what;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| what::query(bytes));
