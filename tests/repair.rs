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

/// The whole winter box: every failing piece put right in turn, in one document that is written out, read again and checked.
#[test]
fn the_winter_box_written_out_again_holds_no_failure() {
    let (mut text, document, rules) = (BOX.to_owned(), Document::parse(BOX).unwrap(), rules::built_in());
    let failing = |text: &str| {
        let document = Document::parse(text).unwrap_or_else(|error| panic!("{error}\n{text}"));
        let failing = document.pieces().iter().filter(|piece| check(piece).unwrap().verdict() == Verdict::Fail);
        failing.map(|piece| piece.name.clone()).collect::<Vec<_>>()
    };
    assert!(failing(BOX).len() >= 4, "{:?}", failing(BOX));
    for (index, piece) in document.pieces().iter().enumerate() {
        let repair = repair(piece, &rules, |_| true).unwrap();
        text = Document::rewritten(&text, index, piece, &repair.turns).unwrap();
    }
    let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("repaired-winter-box.toml");
    std::fs::write(&file, &text).unwrap();
    assert_eq!(failing(&std::fs::read_to_string(&file).unwrap()), [""; 0], "{text}");
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

/// More brandy would bring the water that an oily ganache wants, but how much sucrose dissolves beside it is known to nobody.
#[test]
fn what_can_no_longer_be_judged_is_told() {
    let text = r#"
        format = 1
        [[piece]]
        name = "oily ganache"
        [[piece.layer]]
        name = "ganache"
        recipe = [
            { ingredient = "cream-35", mass = "60 g" },
            { ingredient = "dark-couverture-64", mass = "183 g" },
            { ingredient = "fruit-brandy-42", mass = "5 g" },
        ]
        "#;
    let report = check(&Document::parse(text).unwrap().pieces()[0]).unwrap();
    assert!(report.of("sucrose-would-grain").next().is_some());
    let oily = report.of("ganache-fat-water-unbalanced").next().unwrap();
    let spirited = oily.remedies.iter().find(|advice| advice.text.contains("fruit-brandy-42"));
    let spirited = spirited.unwrap_or_else(|| panic!("{}", report.to_full_text()));
    let upset = spirited.remedy.upsets.iter().find(|upset| upset.rule == "sucrose-would-grain");
    assert!(upset.is_some_and(|upset| upset.verdict.is_none()), "{:?} {}", spirited.remedy.upsets, spirited.text);
    assert!(spirited.brief.contains("the sucrose would crystallise (can no longer be judged, ganache)"), "{}", spirited.brief);
}
