//! Any text: the document parser ends in pieces or in faults.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Err(error) = cordial::Document::parse(text) {
        assert!(!error.to_string().is_empty());
    }
});
