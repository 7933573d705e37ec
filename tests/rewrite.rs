//! A document is written again as its pieces are turned: whatever knob, it reads back as the turned piece, and nothing else has changed.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::Document;
use cordial::piece::{Knob, KnobKind, Piece, RewriteError, Turn};
use cordial::units::Choice;
use std::collections::BTreeSet;

const EVERY_KEY: &str = include_str!("documents/every-key.toml");
const QUINCE_BRANDY: &str = include_str!("documents/quince-brandy.toml");
const BOX: &str = include_str!("../examples/data/winter-box.toml");
/// What the others have none of: all on one line, a box of one piece, layers by depth, an emulsifier that inherits its form.
const TERSE: &str = r#"format = 1
[[piece]]
name = "terse"
mould = { shape = "hemisphere", diameter = "28 mm" }
shell = { chocolate = "dark-couverture-64", thickness = "2 mm", temper = "tempered", emulsifier = [{ kind = "lecithin", form = "fluid", dose = "0.1 %" }] }
layer = [{ name = "spirit", fill_to = "3 mm", temperature = "20 Cel", recipe = [{ ingredient = "orange-liqueur-40", mass = "100 g" }, { ingredient = "xanthan", mass = "1 g" }] }, { name = "caramel", mass = "2 g", cooked_at = "114 Cel", recipe = [{ ingredient = "sugar", mass = "100 g" }, { ingredient = "glucose-syrup-de42", mass = "120 g" }, { ingredient = "cream-36", mass = "160 g" }] }]
cap = { thickness = "2 mm" }
"#;

/// Settings to try: every word and whole number; of a scale a few steps about where it stands, and as far as half way to either end.
fn settings(knob: Knob, piece: &Piece) -> Vec<f64> {
    let (least, most) = knob.range(piece);
    let from = knob.get(piece).unwrap();
    match knob.turns(piece) {
        Turn::Whole => (0..).map(|count| least + f64::from(count)).take_while(|to| *to <= most).collect(),
        Turn::Continuous { step } => {
            let tried = [from + 3.0 * step, from - step, f64::midpoint(from, most), f64::midpoint(from, least)];
            let onto_scale = tried.map(|to| (to / step).round() * step);
            onto_scale.into_iter().filter(|to| (least..=most).contains(to) && *to > 0.0).collect()
        }
    }
}

/// Where every knob of a piece stands.
fn stands(piece: &Piece) -> Vec<(Knob, f64)> {
    Knob::all(piece).map(|knob| (knob, knob.get(piece).unwrap())).collect()
}

#[test]
fn every_knob_reads_back_as_it_was_turned() {
    let mut kinds = BTreeSet::new();
    for text in [EVERY_KEY, QUINCE_BRANDY, BOX, TERSE] {
        let document = Document::parse(text).unwrap_or_else(|error| panic!("{error}"));
        for (index, piece) in document.pieces().iter().enumerate() {
            for knob in Knob::all(piece) {
                for to in settings(knob, piece) {
                    let Some(turned) = knob.set(piece, to) else { continue };
                    let place = format!("{}, {knob:?} to {to}", piece.name);
                    let written = Document::rewritten(text, index, piece, &[(knob, to)]).unwrap_or_else(|error| panic!("{place}: {error}"));
                    let again = Document::parse(&written).unwrap_or_else(|error| panic!("{place}: {error}\n{written}"));
                    let (found, wanted) = (stands(&again.pieces()[index]), stands(&turned));
                    assert_eq!(found.len(), wanted.len(), "{place}\n{written}");
                    for ((one, found), (other, wanted)) in found.iter().zip(&wanted) {
                        let close = (found - wanted).abs() <= 1e-8 * wanted.abs();
                        assert!(one == other && close, "{place}: {one:?} {found}, not {other:?} {wanted}\n{written}");
                    }
                    for (number, other) in document.pieces().iter().enumerate().filter(|(number, _)| *number != index) {
                        assert_eq!(&again.pieces()[number], other, "{place}");
                    }
                    for comment in text.lines().filter(|line| line.trim_start().starts_with('#')) {
                        assert!(written.contains(comment), "{place}: lost {comment}");
                    }
                    kinds.insert(knob.kind());
                }
            }
        }
    }
    let untried: Vec<_> = KnobKind::ALL.iter().filter(|kind| !kinds.contains(kind)).collect();
    assert!(untried.is_empty(), "{untried:?}");
}

#[test]
fn what_is_added_is_marked_and_what_is_turned_keeps_its_comment() {
    let document = Document::parse(EVERY_KEY).unwrap();
    let piece = &document.pieces()[0];
    let one = |text: &str, knob: Knob, to: f64| Document::rewritten(text, 0, piece, &[(knob, to)]).unwrap();
    let commented = EVERY_KEY.replace("drained = { time = \"10 s\" }", "drained = { time = \"10 s\" } # tapped twice");
    assert!(one(&commented, Knob::DrainTime, 12.0).contains("drained = { time = \"12 s\" } # tapped twice"));
    let gum = Knob::all(piece).find(|knob| knob.kind() == KnobKind::Thickener).unwrap();
    let thickened = one(EVERY_KEY, gum, 0.001);
    let added = "    { ingredient = \"sorbate\", mass = \"300 mg\" },\n    # added:\n    { ingredient = \"xanthan\", mass = \"1 g\" }";
    assert!(thickened.contains(added), "{thickened}");
}

#[test]
fn what_has_no_place_is_named() {
    let document = Document::parse(EVERY_KEY).unwrap();
    let piece = &document.pieces()[0];
    let refused = |text: &str, index, turns: &[(Knob, f64)]| Document::rewritten(text, index, piece, turns).unwrap_err().to_string();
    let thickness = [(Knob::CapThickness, 0.003)];
    assert_eq!(refused(EVERY_KEY, 3, &thickness), "piece 4 of the document has no place for the cap thickness");
    let without = EVERY_KEY.replace("[piece.cap]", "[piece.batch]").replacen("[piece.batch]\nmoulds", "[piece.none]\nmoulds", 1);
    assert_eq!(refused(&without, 0, &thickness), "piece 1 of the document has no place for the cap thickness");
    // A setting that makes no piece.
    assert!(matches!(Document::rewritten(EVERY_KEY, 0, piece, &[(Knob::CapThickness, -1.0)]), Err(RewriteError::NoPlace { piece: 1, .. })));
    assert!(refused("no TOML", 0, &thickness).starts_with("only documents in TOML can be written again: "));
}
