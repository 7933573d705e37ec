//! Any document: what parses is checked and reported, in text and in JSON, without a number that is none.
#![no_main]

use cordial::report::{to_json, to_text};
use cordial::{Document, check};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let Ok(document) = Document::parse(text) else { return };
    // Remedies take a while; a few pieces are as good as many.
    for piece in document.pieces().iter().take(2) {
        if let Ok(report) = check(piece) {
            let reports = [report];
            assert!(!to_text(&reports).contains("NaN"));
            assert!(!to_json(&reports).to_string().contains("null"));
        }
    }
});
