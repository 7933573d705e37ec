//! Batch sheets against sums done by hand.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use approx::assert_relative_eq;
use cordial::Document;
use cordial::report::{BatchSheet, BatchSheetError};

/// Five moulds of 24 boxes of 30 × 30 × 15 mm.
const BOXES: &str = r#"
format = 1
chocolate.house = { kind = "dark", cocoa_butter = "38 %", fat_free_cocoa = "24 %", sugar = "37.6 %", lecithin = { amount = "0.4 %", source = "sunflower" } }

[[piece]]
name = "boxes"
mould = { shape = "box", length = "30 mm", width = "30 mm", depth = "15 mm", cavities = 24 }
shell = { chocolate = "house", thickness = "2 mm", temper = "tempered", emulsifier = [{ kind = "lecithin", form = "fluid", dose = "1 g/kg" }] }
cap = { coats = 2 }
workshop = { scale_division = "1 g" }
batch = { moulds = 5, overage = "8 %", scrap = "4 %", prices = { house = 10, cream-35 = 4, lecithin-fluid-sunflower = 20 } }

[[piece.layer]]
name = "ganache"
kind = "ganache"
temperature = "28 Cel"
mass = "5 g"
barrier = "cocoa-butter"
recipe = [{ ingredient = "cream-35", mass = "450 g" }, { ingredient = "house", mass = "600 g" }]
cooked_to = "1000 g"
"#;

fn sheet(document: &str) -> Result<BatchSheet, BatchSheetError> {
    BatchSheet::of(&Document::parse(document).unwrap().pieces()[0])
}

#[test]
fn fillings_are_scaled_to_the_batch_with_what_is_lost() {
    let sheet = sheet(BOXES).unwrap();
    assert_eq!((sheet.pieces, sheet.good), (120, 115), "5 × 24; 4 % less, and no broken piece counts");
    let layer = &sheet.layers[0];
    // 120 × 5 g × 1.08, of which each kilogram takes 450 g and 600 g.
    assert_relative_eq!(layer.needed, 0.648, max_relative = 1e-12);
    assert_relative_eq!(layer.weighings[0].mass, 0.648 * 0.45, max_relative = 1e-12);
    assert_relative_eq!(layer.weighings[1].mass, 0.648 * 0.60, max_relative = 1e-12);
    assert_relative_eq!(layer.cooked_to.unwrap(), 0.648, max_relative = 1e-12);
}

#[test]
fn a_full_mould_more_is_melted_than_stays() {
    let sheet = sheet(BOXES).unwrap();
    // 24 × 13.5 cm³ of liquid chocolate, 1.20 to 1.27 g/cm³, run back from the last mould.
    assert!((0.3888..0.4115).contains(&sheet.returned), "{}", sheet.returned);
    // The walls and the cap fill what 5 g of filling leave of 13.5 cm³, at 1.2 to 1.4 g/cm³; a twentieth stays on bowls and tools.
    let stays = (sheet.melt - sheet.returned) * 0.95 / 120.0;
    assert!((0.0102..0.0133).contains(&stays), "{stays}");
    assert_relative_eq!(sheet.stirred_in[0].mass, sheet.melt / 1000.0, max_relative = 1e-12);
    let hint = sheet.stirred_in[0].hint.as_deref().unwrap();
    assert!(hint.contains("by difference") && hint.contains("too coarse"), "{hint}");
}

#[test]
fn a_price_lacking_is_told_and_no_cost_made_up() {
    let priced = sheet(BOXES).unwrap();
    // All that is used up: of what is poured 1000 parts in 1001 are chocolate and one is lecithin.
    let poured = priced.melt - priced.returned;
    let chocolate = poured * 1000.0 / 1001.0 + 0.648 * 0.60;
    let cost = 10.0 * chocolate + 4.0 * 0.648 * 0.45 + 20.0 * poured / 1001.0;
    assert_relative_eq!(priced.cost.unwrap(), cost / 115.0, max_relative = 1e-9);
    let unpriced = sheet(&BOXES.replace(", cream-35 = 4", "")).unwrap();
    assert_eq!((unpriced.cost, unpriced.unpriced.as_slice()), (None, &["cream-35".to_owned()][..]));
    assert!(unpriced.to_markdown().contains("No cost for want of a price for: cream-35."));
}

#[test]
fn the_work_is_told_in_order() {
    let sheet = sheet(BOXES).unwrap();
    let starts = [
        "Melt house, temper it",
        "Cast the moulds to a wall of 2",
        "Make ganache and fill it in at 28",
        "Close with the cap in 2 thin coats",
    ];
    assert_eq!(sheet.steps.len(), starts.len());
    for (step, start) in sheet.steps.iter().zip(starts) {
        assert!(step.replace('\u{a0}', " ").starts_with(start), "{step}");
    }
    assert!(sheet.steps[2].contains("brush a film of cocoa butter on it"));
    let untempered = self::sheet(&BOXES.replace(r#"temper = "tempered""#, r#"temper = "untempered""#)).unwrap();
    assert!(!untempered.steps[0].contains("temper it"), "{}", untempered.steps[0]);
}

#[test]
fn both_forms_say_the_same() {
    let sheet = sheet(BOXES).unwrap();
    let json = sheet.to_json();
    assert_eq!(json["layers"][0]["needed"].to_string(), r#"{"value":648.0,"unit":"g"}"#);
    assert_eq!(json["good"], 115);
    let text = sheet.to_markdown();
    assert!(text.starts_with("# boxes: 120 pieces, 115 expected good"), "{text}");
    assert!(text.contains("## ganache: 648 g") && text.contains("Cook it down to 648 g"), "{text}");
}

#[test]
fn what_lacks_is_named() {
    let without = |what: &str| sheet(&BOXES.replace(what, "")).unwrap_err().to_string();
    assert!(without(", cavities = 24").contains("cavities"));
    assert!(without("mass = \"5 g\"").contains("for want of"));
    let no_mould =
        BOXES.replace("mould = { shape = \"box\", length = \"30 mm\", width = \"30 mm\", depth = \"15 mm\", cavities = 24 }", "");
    assert!(sheet(&no_mould).unwrap_err().to_string().contains("the mould"));
}

#[test]
fn what_is_stirred_in_and_dosed_is_paid_for() {
    let unpriced = |document: &str| sheet(document).unwrap().unpriced;
    assert_eq!(unpriced(&BOXES.replace(", lecithin-fluid-sunflower = 20", "")), ["lecithin-fluid"]);
    let thinned =
        BOXES.replace("temper = \"tempered\",", "temper = \"tempered\", added = [{ ingredient = \"cocoa-butter\", dose = \"4 %\" }],");
    assert_eq!(unpriced(&thinned), ["cocoa-butter"]);
    let priced = sheet(&thinned.replace("house = 10,", "house = 10, cocoa-butter = 30,")).unwrap();
    let poured = priced.melt - priced.returned;
    let cost = poured * (10.0 + 30.0 * 0.04 + 20.0 * 0.001) / 1.041 + 10.0 * 0.648 * 0.60 + 4.0 * 0.648 * 0.45;
    assert_relative_eq!(priced.cost.unwrap(), cost / 115.0, max_relative = 1e-9);
    // A cap of another chocolate is bought apart.
    let capped = BOXES.replace("cap = { coats = 2 }", "cap = { coats = 2, chocolate = \"dark-couverture-64\" }");
    assert_eq!(unpriced(&capped), ["dark-couverture-64"]);
}
