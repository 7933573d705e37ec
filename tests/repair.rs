//! All findings at once: a piece is put right, and the document with it.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::engine::Verdict;
use cordial::piece::{Knob, KnobKind};
use cordial::remedy::repair;
use cordial::{Document, check, rules};

const BOX: &str = include_str!("../examples/data/winter-box.toml");

/// The head of the winter box (its chocolates) with one of its pieces.
fn one_piece(index: usize) -> String {
    let mut parts = BOX.split("[[piece]]");
    let head = parts.next().unwrap();
    format!("{head}[[piece]]{}", parts.nth(index).unwrap())
}

#[test]
fn failing_pieces_are_put_right_and_written_back() {
    for index in [0, 5] {
        let text = one_piece(index);
        let document = Document::parse(&text).unwrap();
        let piece = &document.pieces()[0];
        assert_eq!(check(piece).unwrap().verdict(), Verdict::Fail);
        let repair = repair(piece, &rules::built_in(), |_| true).unwrap();
        assert!(repair.left.iter().all(|(_, _, verdict)| *verdict < Verdict::Fail), "{:?}", repair.left);

        let written = Document::rewritten(&text, 0, piece, &repair.turns).unwrap();
        let again = Document::parse(&written).unwrap_or_else(|error| panic!("{error}\n{written}"));
        assert!(check(&again.pieces()[0]).unwrap().verdict() < Verdict::Fail, "{written}");
        for comment in text.lines().filter(|line| line.trim_start().starts_with('#')) {
            assert!(written.contains(comment), "lost: {comment}");
        }
        let changed = written.lines().filter(|line| !text.contains(*line)).count();
        assert!(changed <= 3 * repair.turns.len(), "more lines changed than knobs turned:\n{written}");
    }
}

#[test]
fn what_is_pinned_stays() {
    let text = one_piece(0);
    let document = Document::parse(&text).unwrap();
    let pinned = |knob: Knob| knob.kind() != KnobKind::FillDepth;
    let repair = repair(&document.pieces()[0], &rules::built_in(), pinned).unwrap();
    assert!(repair.turns.iter().all(|(knob, _)| knob.kind() != KnobKind::FillDepth));
    assert!(repair.left.iter().any(|(rule, _, verdict)| rule.id == "headroom-outside-window" && *verdict == Verdict::Fail));
}

#[test]
fn only_toml_is_written_again() {
    let document = Document::parse(BOX).unwrap();
    assert!(Document::rewritten("{ \"format\": 1 }", 0, &document.pieces()[0], &[]).is_err());
}
