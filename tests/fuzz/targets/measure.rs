//! Any text: a measure that is read prints so that it reads the same again.
#![no_main]

use cordial::units::Measure;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Ok(measure) = Measure::parse(text) {
        let again = Measure::parse(&measure.to_string()).map(|again| again.to_string());
        assert_eq!(again, Ok(measure.to_string()));
    }
});
