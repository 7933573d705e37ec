//! One measured batch, and what it tells of the recipe that is made of it.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at the first surprise")]

use cordial::assess::{Assessed, Estimate, Evidence, Quantity, assess};
use cordial::piece::{Knob, Piece};
use cordial::{Document, check, remedy, rules};

const GANACHE: &str = r#"
format = 1
[[piece]]
name = "bay leaf"
[[piece.layer]]
name = "ganache"
measured = { water_activity = { value = 0.87, uncertainty = 0.003 } } # meter of 3 May
recipe = [
    { ingredient = "cream-35", mass = "100 g" }, # infused
    { ingredient = "dark-couverture-64", mass = "140 g" },
    { ingredient = "invert-sugar-78", mass = "12 g" },
]
"#;

fn piece(text: &str) -> Piece {
    Document::parse(text).unwrap_or_else(|error| panic!("{error}\n{text}")).pieces().first().unwrap().clone()
}

fn activity(piece: &Piece) -> Estimate {
    match assess(piece).layers.first().unwrap().get(Quantity::WaterActivity) {
        Assessed::Known(estimate) => estimate,
        other => panic!("{other:?}"),
    }
}

/// A tenth more cream: higher than measured, nearer to it than to the model, and less certain than the meter.
#[test]
fn a_changed_recipe_is_told_from_the_measured_one() {
    let measured = piece(GANACHE);
    let cream = Knob::IngredientMass(0, 0);
    let creamier = cream.set(&measured, cream.get(&measured).unwrap() * 1.1).unwrap();
    let mut modelled = creamier.clone();
    modelled.layers.iter_mut().for_each(|layer| layer.measured.water_activity = None);
    let (before, after, model) = (activity(&measured), activity(&creamier), activity(&modelled));
    assert_eq!((before.evidence, after.evidence, model.evidence), (Evidence::Measured, Evidence::Corrected, Evidence::Modelled));
    assert!(after.value() > 0.87 && (after.value() - 0.87).abs() < (model.value() - 0.87).abs(), "{after:?} {model:?}");
    assert!(before.half_width() < after.half_width() && after.half_width() < model.half_width(), "{before:?} {after:?} {model:?}");
    // Turned back, it is the batch that was measured.
    let back = activity(&cream.set(&creamier, cream.get(&measured).unwrap()).unwrap());
    assert!((back.value() - 0.87).abs() < 1e-9 && (back.half_width() - before.half_width()).abs() < 1e-9, "{back:?}");
}

/// A meter that ethanol misleads tells nothing of another recipe.
#[test]
fn a_batch_with_spirit_carries_nothing_over() {
    let text = GANACHE.replace(r#""invert-sugar-78", mass = "12 g""#, r#""orange-liqueur-40", mass = "30 g""#);
    let spirited = piece(&text);
    let changed = activity(&Knob::IngredientMass(0, 0).set(&spirited, 0.11).unwrap());
    assert_eq!(changed.evidence, Evidence::Modelled);
}

/// What is mended is written back with the recipe that was measured, comments kept, and reads as the mended piece.
#[test]
fn a_measured_filling_is_mended_and_written_back() {
    // From 0.87 no recipe of these three reaches the limit by its upper end.
    let text = &GANACHE.replace("0.87", "0.86");
    let measured = piece(text);
    assert!(check(&measured).unwrap().of("filling-not-shelf-stable").next().unwrap().counts());
    let mend = remedy::repair(&measured, &rules::built_in(), |knob| matches!(knob, Knob::IngredientMass(..))).unwrap();
    assert!(!mend.turns.is_empty());
    let written = Document::rewritten(text, 0, &measured, &mend.turns).unwrap();
    let again = piece(&written);
    let mended = mend.turns.iter().fold(measured, |piece, (knob, to)| knob.set(&piece, *to).unwrap());
    let layer = again.layers.first().unwrap();
    assert_eq!(layer.measured_recipe, piece(text).layers.first().unwrap().recipe, "{written}");
    assert!((activity(&again).value() - activity(&mended).value()).abs() < 1e-6, "{written}");
    assert!(activity(&again).band.high <= 0.85, "{written}");
    // A table in braces stays on one line.
    assert!(written.lines().any(|line| line.starts_with("measured = {") && line.ends_with("# meter of 3 May")), "{written}");
    assert!(written.contains("# meter of 3 May") && written.contains("# infused"), "{written}");
}

#[test]
fn a_measured_recipe_wants_its_activity() {
    let text =
        GANACHE.replace("water_activity = { value = 0.87, uncertainty = 0.003 }", r#"recipe = [{ ingredient = "water", mass = "1 g" }]"#);
    let error = Document::parse(&text).unwrap_err().to_string();
    assert!(error.contains("water_activity"), "{error}");
}
