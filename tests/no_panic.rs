//! Whatever a document says, a check ends in an error or a report: never in a panic, never in a number that is none.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::string_slice, reason = "a test may stop at the first surprise")]

use cordial::assess::Quantity;
use cordial::matter::Market;
use cordial::report::{Label, to_json, to_text};
use cordial::{Document, check};
use proptest::prelude::*;

const BOX: &str = include_str!("../examples/data/winter-box.toml");

/// Parses, checks and reports; every number reported is finite.
fn run(text: &str) {
    let Ok(document) = Document::parse(text) else { return };
    for market in [Market::Eu, Market::Us, Market::Ca] {
        let labels = document.pieces().iter().map(|piece| Label::of(piece, market));
        for label in labels.chain(document.boxes().iter().map(|sold| Label::of_box(sold, market))) {
            let told = label.to_text();
            assert!(!["NaN", "inf ", " -0"].iter().any(|odd| told.contains(odd)), "{told}\n{text}");
            assert!(label.is_complete() || told.contains("nknown"), "{told}\n{text}");
        }
    }
    for piece in document.pieces() {
        let Ok(report) = check(piece) else { continue };
        for (part, assessed) in report.assessment.parts() {
            for quantity in Quantity::ALL {
                if let Some(known) = assessed.get(*quantity).known() {
                    let band = known.band;
                    assert!(
                        band.value.is_finite() && band.low.is_finite() && band.high.is_finite(),
                        "{part:?} {quantity:?} {band:?}\n{text}"
                    );
                    assert!(band.low <= band.value && band.value <= band.high, "{part:?} {quantity:?} {band:?}\n{text}");
                }
            }
        }
        for reading in report.findings.iter().flat_map(|finding| &finding.readings) {
            assert!(reading.margin.is_finite() && reading.assured.is_finite(), "{}\n{text}", reading.limit.key);
        }
        let reports = std::slice::from_ref(&report);
        assert!(!to_text(reports).contains("NaN"), "{text}");
        assert!(!to_json(reports).to_string().contains("null"), "{text}");
    }
}

/// Every input that was ever found to do harm.
#[test]
fn regressions() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/regressions");
    for entry in std::fs::read_dir(folder).unwrap() {
        run(&String::from_utf8_lossy(&std::fs::read(entry.unwrap().path()).unwrap()));
    }
}

/// The head of the winter box (its chocolates) with one of its pieces.
fn one_piece(index: usize) -> String {
    let mut parts = BOX.split("[[piece]]");
    let head = parts.next().unwrap();
    let pieces: Vec<_> = parts.collect();
    format!("{head}[[piece]]{}", pieces[index % pieces.len()])
}

/// Where the quoted measures of a text stand.
fn measures(text: &str) -> Vec<(usize, usize)> {
    let quotes: Vec<_> = text.match_indices('"').map(|(at, _)| at).collect();
    let quoted = quotes.chunks_exact(2).map(|pair| (pair[0] + 1, pair[1]));
    quoted.filter(|(start, end)| text[*start..*end].starts_with(|c: char| c.is_ascii_digit())).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn extreme_numbers(
        piece in 0usize..9,
        turns in prop::collection::vec(
            (0usize..200, prop_oneof![Just(0.0), Just(1e-9), Just(0.01), 0.0f64..3.0, 0.0f64..100.0, Just(99.999), Just(1e4), Just(1e9)]),
            1..6,
        ),
    ) {
        let mut text = one_piece(piece);
        for (which, value) in turns {
            let measures = measures(&text);
            let (start, end) = measures[which % measures.len()];
            let unit = text[start..end].split_once(' ').map_or("", |(_, unit)| unit).to_owned();
            text.replace_range(start..end, &format!("{value} {unit}"));
        }
        run(&text);
    }

    #[test]
    fn lines_left_out_and_doubled(piece in 0usize..9, lines in prop::collection::vec((0usize..80, any::<bool>()), 1..8)) {
        let text = one_piece(piece);
        let mut kept: Vec<_> = text.lines().collect();
        for (which, double) in lines {
            let at = which % kept.len();
            if double { kept.insert(at, kept[at]) } else { kept.remove(at); }
            if kept.is_empty() { return Ok(()); }
        }
        run(&kept.join("\n"));
    }

    #[test]
    fn characters_changed(piece in 0usize..9, changes in prop::collection::vec((0usize..3000, any::<char>()), 1..5)) {
        let mut text: Vec<char> = one_piece(piece).chars().collect();
        for (at, c) in changes {
            let at = at % text.len();
            text[at] = c;
        }
        run(&text.into_iter().collect::<String>());
    }

    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..500)) {
        run(&String::from_utf8_lossy(&bytes));
    }
}
