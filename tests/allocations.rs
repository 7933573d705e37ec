//! Once warm, assessing and judging a piece allocate nothing.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use cordial::assess::{Assessment, assess_into};
use cordial::engine::Findings;
use cordial::{Document, rules};

#[test]
fn warm_assessing_and_judging_allocate_nothing() {
    let document = Document::parse(include_str!("../examples/data/winter-box.toml")).unwrap();
    let rules = rules::built_in();
    let bounds: Vec<_> = document.pieces().iter().map(|piece| rules.bounds(piece).unwrap()).collect();
    let (mut assessment, mut findings) = (Assessment::default(), Findings::default());
    let mut run = || {
        for (piece, bounds) in document.pieces().iter().zip(&bounds) {
            assess_into(piece, &mut assessment);
            rules.judge(&assessment, bounds, &mut findings);
        }
    };
    run();
    assert_eq!(allocation_counter::measure(run).count_total, 0);
}
