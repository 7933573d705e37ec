//! Labels: what they say, what they leave open, and what holds for every one of them.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "tests assert on known values")]

use cordial::assess::{Quantity, assess};
use cordial::matter::{Allergen, Larder, Market, Recipe, RecipeLine};
use cordial::piece::{Layer, Piece};
use cordial::report::Label;
use cordial::units::{Checked, Portion};
use cordial::{Document, law::allergen};
use proptest::prelude::*;

const WINTER_BOX: &str = include_str!("../examples/data/winter-box.toml");

fn piece(text: &str) -> Piece {
    Document::parse(&format!("format = 1\n{text}")).unwrap().pieces()[0].clone()
}

fn filling(lines: &[(usize, f64)]) -> Piece {
    let larder: Vec<_> = Larder::built_in().iter().cloned().collect();
    let line = |(index, grams): &(usize, f64)| RecipeLine {
        ingredient: larder[index % larder.len()].clone(),
        mass: Portion::from_base(grams / 1000.0).unwrap(),
    };
    Piece::named("any").with_layer(Layer::named("any").with_recipe(Recipe::new(lines.iter().map(line).collect(), None).unwrap()))
}

fn recipes() -> impl Strategy<Value = Vec<(usize, f64)>> {
    prop::collection::vec((0..500_usize, 0.1..900.0_f64), 1..9)
}

proptest! {
    #[test]
    fn a_list_descends_and_holds_all_that_goes_in(lines in recipes(), us in any::<bool>()) {
        let market = if us { Market::Us } else { Market::Eu };
        let list = Label::of(&filling(&lines), market).ingredients.value.unwrap();
        prop_assert!(list.entries.is_sorted_by(|one, two| one.share >= two.share));
        let left_out = if list.omits_water { list.added_water } else { 0.0 };
        let sum: f64 = list.entries.iter().map(|entry| entry.share).sum();
        prop_assert!((sum + left_out - 1.0).abs() < 1e-9, "{sum} and {left_out}");
        if let Some(figure) = list.small {
            prop_assert!(list.free().all(|entry| entry.share <= figure * (1.0 + 1e-9)));
        }
    }

    #[test]
    fn no_allergen_is_lost_and_each_due_in_the_eu_stands_in_capitals(lines in recipes()) {
        for market in [Market::Eu, Market::Us, Market::Ca, Market::AuNz] {
            let label = Label::of(&filling(&lines), market);
            let statement = label.allergens.value.unwrap();
            let told = statement.due.iter().map(|due| due.allergen).chain(statement.spared.iter().map(|spared| spared.allergen));
            let told: Vec<_> = told.chain(statement.unlisted.iter().copied()).collect();
            let larder: Vec<_> = Larder::built_in().iter().cloned().collect();
            for allergen in lines.iter().flat_map(|(index, _)| larder[index % larder.len()].allergens.iter()) {
                prop_assert!(told.contains(&allergen), "{allergen:?} in {market:?}");
            }
            if market == Market::Eu {
                let list = label.ingredients.value.unwrap();
                let text = list.text();
                let parts = list.entries.iter().flat_map(|entry| entry.contains.iter().cloned().chain([entry.own()]));
                for word in parts.flat_map(|named| named.emphasised(market)) {
                    prop_assert!(text.contains(&word), "{word} in {text}");
                }
                for due in &statement.due {
                    let stem = due.word.trim_end_matches('s').trim_end_matches("bean").to_uppercase();
                    prop_assert!(text.contains(&stem), "{stem} in {text}");
                }
            }
        }
    }

    #[test]
    fn nutrition_closes(lines in recipes()) {
        let label = Label::of(&filling(&lines), Market::Eu);
        let nutrition = label.nutrition.value.unwrap();
        let amount = |name: &str| nutrition.lines.iter().find(|line| line.name == name).and_then(|line| line.amount).map_or(0.0, |band| band.value);
        let sum = amount("fat") + amount("carbohydrate") + amount("fibre") + amount("protein");
        prop_assert!(sum <= 100.0 + 1e-6, "{sum}");
        prop_assert!(amount("of which sugars") <= amount("carbohydrate") + 1e-9);
        prop_assert!(amount("of which saturates") <= amount("fat") * 1.001 + 0.05);
    }
}

#[test]
fn a_market_without_rows_answers_unknown() {
    let piece =
        piece("[[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{ ingredient = \"sugar\", mass = \"100 g\" }]\n");
    let label = Label::of(&piece, Market::Jp);
    assert!(label.ingredients.value.is_none() && label.allergens.value.is_none() && label.nutrition.value.is_none());
    assert!(label.allergens.unknown[0].contains("no rule of this market"));
    assert!(!label.is_complete());
}

#[test]
fn the_plant_of_a_lecithin_decides() {
    let shell = |lecithin: &str| {
        piece(&format!(
            "[chocolate.dark]\nkind = \"dark\"\ncocoa_butter = \"38 %\"\nfat_free_cocoa = \"26 %\"\nsugar = \"35.6 %\"\n\
             contains = [\"cocoa mass\", \"sugar\", \"cocoa butter\"]\nlecithin = {{ amount = \"0.4 %\"{lecithin} }}\n\
             [[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{{ ingredient = \"dark\", mass = \"100 g\" }}]\n"
        ))
    };
    let told = |piece: &Piece| Label::of(piece, Market::Eu);
    let soy = told(&shell(", source = \"soy\""));
    assert_eq!(soy.allergens.value.as_ref().unwrap().classed(), ["soybeans"]);
    assert_eq!(soy.ingredients.value.unwrap().text(), "dark (cocoa mass, sugar, cocoa butter, emulsifier: SOY lecithin).");
    let sunflower = told(&shell(", source = \"sunflower\""));
    assert!(sunflower.allergens.value.as_ref().unwrap().due.is_empty() && sunflower.allergens.unknown.is_empty());
    let unnamed = told(&shell(""));
    assert!(unnamed.allergens.value.unwrap().due.is_empty());
    assert_eq!(unnamed.allergens.unknown, ["soy may come in: the plant of a lecithin lacks (source)"]);
}

#[test]
fn what_lacks_is_named_and_nothing_is_made_up() {
    let label = Label::of(
        &piece(
            "[ingredient.paste]\nliquid-oil = \"50 %\"\nprotein = \"20 %\"\nfibre = \"30 %\"\nallergens = [\"hazelnut\"]\n\
             [[piece]]\nname = \"bar\"\nstressed = [\"sugar\"]\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{ ingredient = \"paste\", mass = \"60 g\" }, \
             { ingredient = \"milk-chocolate\", mass = \"40 g\" }]\n",
        ),
        Market::Eu,
    );
    assert_eq!(label.ingredients.unknown, ["what milk chocolate is made of (contains)"]);
    assert_eq!(label.quantities.unknown, ["granulated sugar: it is stressed, but no part of the piece holds it"]);
    let nutrition = label.nutrition.value.unwrap();
    let line = |name: &str| nutrition.lines.iter().find(|line| line.name == name).unwrap();
    assert_eq!(line("of which saturates").unknown, ["the saturates of paste (saturates)"]);
    assert_eq!(line("salt").unknown, ["the sodium of paste (sodium)"]);
    assert!(line("salt").printed.is_none() && line("fat").printed.is_some());
}

#[test]
fn a_piece_without_a_recipe_is_no_piece_without_allergens() {
    let piece = piece("[[piece]]\nname = \"bought in\"\nmarkets = [\"eu\"]\n[[piece.layer]]\nname = \"centre\"\nmass = \"6 g\"\n");
    let label = Label::of(&piece, Market::Eu);
    assert!(label.ingredients.value.is_none());
    assert_eq!(label.allergens.unknown, ["more may come in: the layer's recipe lacks"]);
}

#[test]
fn recalled_rows_say_so() {
    let piece =
        piece("[[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{ ingredient = \"almond\", mass = \"100 g\" }]\n");
    let label = Label::of(&piece, Market::AuNz);
    assert!(label.allergens.is_recalled());
    let text = label.to_text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("S9-3 (recalled, unverified)"), "{text}");
    assert!(label.allergens.value.unwrap().sentence().is_some_and(|sentence| sentence == "Contains: almond."));
}

#[test]
fn every_label_of_the_winter_box_can_be_read() {
    let document = Document::parse(WINTER_BOX).unwrap();
    for piece in document.pieces() {
        for label in Label::all(piece) {
            let text = label.to_text();
            assert!(label.ingredients.value.is_some(), "{text}");
            assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
            let json = label.to_json();
            assert_eq!(json["ingredients"]["value"]["text"].as_str(), Some(label.ingredients.value.unwrap().text().as_str()));
        }
    }
}

#[test]
fn what_goes_in_weighs_what_the_piece_is_assessed_to_weigh() {
    let text = WINTER_BOX.replace("markets = [\"eu\", \"us\"]\nkeep", "markets = [\"eu\"]\npieces_in_pack = 1\nkeep");
    for piece in Document::parse(&text).unwrap().pieces() {
        let assessed = assess(piece).whole.get(Quantity::PieceMass).value().unwrap();
        let net = Label::of(piece, Market::Eu).net_quantity.value.unwrap();
        assert!((net.piece - assessed).abs() < 1e-9, "{}: {} kg, assessed {assessed} kg", piece.name, net.piece);
    }
}

#[test]
fn the_nut_piece_of_the_winter_box_is_told_apart_by_market() {
    let document = Document::parse(WINTER_BOX).unwrap();
    let almond = document.pieces().iter().find(|piece| piece.name == "Rosehip over almond").unwrap();
    let sentence = |market| Label::of(almond, market).allergens.value.unwrap().sentence();
    assert_eq!(sentence(Market::Eu), None, "told within the list");
    assert_eq!(sentence(Market::Us).as_deref(), Some("Contains: milk, soy, wheat, almond."));
    let eu = Label::of(almond, Market::Eu).allergens.value.unwrap();
    assert_eq!(eu.classed(), ["milk", "soybeans", "cereals containing gluten: wheat", "nuts: almond"]);
    assert!(allergen::declared(Market::Eu).is_some_and(|list| list.iter().any(|listed| listed == Allergen::Rye)));
}
