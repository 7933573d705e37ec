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
fn what_no_row_is_held_for_is_said_and_never_passed() {
    let piece =
        piece("[[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{ ingredient = \"sugar\", mass = \"100 g\" }]\n");
    for market in [Market::Codex, Market::Ca, Market::AuNz, Market::Jp] {
        let label = Label::of(&piece, market);
        assert!(!label.is_complete(), "{market:?}");
        assert!(label.ingredients.value.is_some() && label.allergens.value.is_some(), "{market:?}");
        let nutrition = label.nutrition.value.as_ref().unwrap();
        assert!(nutrition.lines.iter().all(|line| line.printed.is_none()), "{market:?} rounds by no rule");
        assert!(label.nutrition.unknown[0].contains("no rule of this market is held here"), "{market:?}");
        assert!(label.statements.unknown.iter().chain(&label.cocoa.unknown).all(|lack| lack.contains("no rule")), "{market:?}");
        let text = label.to_text();
        assert!(text.contains("no rule of this market"), "{text}");
    }
    let japan = Label::of(&piece, Market::Jp);
    assert!(japan.quantities.value.is_none() && japan.cocoa.value.is_none());
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

fn winter_box() -> cordial::piece::Assortment {
    Document::parse(WINTER_BOX).unwrap().boxes()[0].clone()
}

#[test]
fn a_box_is_the_sum_of_its_pieces() {
    let winter = winter_box();
    for market in [Market::Eu, Market::Us] {
        let whole = Label::of_box(&winter, market);
        let parts: Vec<_> = winter.held.iter().map(|held| (f64::from(held.count), Label::of(&held.piece, market))).collect();
        let mass = |label: &Label| label.net_quantity.value.unwrap().piece;
        let net = whole.net_quantity.value.unwrap();
        let all: f64 = parts.iter().map(|(count, label)| count * mass(label)).sum();
        assert!((net.pack() - all).abs() < 1e-12 && net.pieces == 12, "{net:?}, {all} kg");

        // Each thing weighs in the box what it weighs in all pieces together, water apart, which may be left out of some lists.
        let list = whole.ingredients.value.as_ref().unwrap();
        assert!(list.entries.is_sorted_by(|one, two| one.share >= two.share));
        for entry in list.entries.iter().filter(|entry| entry.named.label != "water") {
            let of_part = |label: &Label| {
                let entries = &label.ingredients.value.as_ref().unwrap().entries;
                entries
                    .iter()
                    .filter(|other| other.named == entry.named && other.contains == entry.contains)
                    .map(|other| other.share)
                    .sum::<f64>()
            };
            let sum: f64 = parts.iter().map(|(count, label)| count * mass(label) * of_part(label)).sum();
            assert!((entry.share - sum / all).abs() < 1e-12, "{}: {} and {}", entry.named.label, entry.share, sum / all);
        }

        // What boils out of one piece takes no added water from another.
        let water = |label: &Label| label.ingredients.value.as_ref().unwrap().added_water;
        let added: f64 = parts.iter().map(|(count, label)| count * mass(label) * water(label)).sum();
        assert!((list.added_water - added / all).abs() < 1e-12);

        // Every allergen of any piece, and no other.
        let due = |label: &Label| label.allergens.value.as_ref().unwrap().due.iter().map(|due| due.allergen).collect::<Vec<_>>();
        let of_parts: Vec<_> = parts.iter().flat_map(|(_, label)| due(label)).collect();
        let of_box = due(&whole);
        assert!(of_parts.iter().all(|allergen| of_box.contains(allergen)) && of_box.iter().all(|allergen| of_parts.contains(allergen)));

        let ethanol: f64 = parts.iter().map(|(count, label)| count * label.alcohol.value.unwrap().ethanol).sum();
        assert!((whole.alcohol.value.unwrap().ethanol - ethanol).abs() < 1e-15);
    }
}

#[test]
fn a_box_keeps_apart_what_its_pieces_stress_and_promise() {
    let winter = winter_box();
    let label = Label::of_box(&winter, Market::Eu);
    let quantities = label.quantities.value.as_ref().unwrap();
    assert!(quantities.iter().all(|quantity| quantity.of.is_some()), "{quantities:?}");
    let brandy = |quantities: &[cordial::report::label::StressedQuantity]| {
        quantities.iter().find(|quantity| quantity.label == "fruit brandy").unwrap().share
    };
    let alone = Label::of(&winter.held[0].piece, Market::Eu).quantities.value.unwrap();
    assert!((brandy(quantities) - brandy(&alone)).abs() < 1e-12, "the share of the piece whose name stresses it");
    assert!(label.ingredients.value.as_ref().unwrap().entries.iter().all(|entry| entry.quantity.is_none()));
    assert!(
        label.allergens.notes.iter().any(|note| note == "that Quince brandy, thickened is free from milk, soy cannot be said of the box")
    );
    assert!(label.ingredients.basis.iter().any(|basis| basis.section == "Art 3(2)"), "one list for an assortment");
    let us = Label::of_box(&winter, Market::Us);
    assert!(us.ingredients.unknown.iter().any(|lack| lack.contains("several kinds in a box")), "{:?}", us.ingredients.unknown);

    let stressed = cordial::piece::Assortment {
        stressed: vec![Larder::built_in().get("almond-paste").unwrap()],
        free_from: cordial::matter::AllergenSet::of(&[Allergen::Milk, Allergen::Peanut]),
        ..winter
    };
    let label = Label::of_box(&stressed, Market::Eu);
    let list = label.ingredients.value.unwrap();
    let almond = list.entries.iter().find(|entry| entry.named.label == "almond paste").unwrap();
    assert!(almond.quantity.as_ref().is_some_and(|quantity| quantity.ends_with(" %")), "{almond:?}");
    assert_eq!(label.allergens.value.unwrap().broken_promises, [Allergen::Milk]);
}

#[test]
fn what_a_box_lacks_is_named_with_its_piece() {
    let text = "[[piece]]\nname = \"centre\"\nmarkets = [\"eu\"]\n[[piece.layer]]\nname = \"centre\"\nrecipe = [{ ingredient = \"cream-35\", mass = \"1 g\" }]\n\
        [[box]]\nname = \"few\"\nmarkets = [\"eu\"]\nholds = { centre = 2 }\n";
    let document = Document::parse(&format!("format = 1\n{text}")).unwrap();
    let label = Label::of_box(&document.boxes()[0], Market::Eu);
    assert!(!label.is_complete());
    assert_eq!(label.ingredients.unknown, ["of centre: the mould, the shell and the layers"]);
    assert_eq!(label.allergens.value.unwrap().classed(), ["milk"], "what comes in is told all the same");
    assert!(label.net_quantity.value.is_none() && label.alcohol.value.is_none() && label.nutrition.value.is_none());
}

#[test]
fn what_nobody_describes_holds_nobody_knows_what() {
    let label = Label::of(&Piece::named("bought in"), Market::Us);
    assert_eq!(label.allergens.unknown, ["what bought in is made of: neither a shell nor a layer is described"]);
    let empty = Label::of_box(&cordial::piece::Assortment { name: "empty".into(), ..Default::default() }, Market::Eu);
    assert!(empty.ingredients.value.is_none() && empty.nutrition.value.is_none() && empty.net_quantity.value.is_none());
    assert_eq!(empty.ingredients.unknown, ["what the box holds"]);
}

#[test]
fn a_faulty_box_is_named() {
    let parse = |lines: &str| {
        let text = format!("format = 1\n[[piece]]\nname = \"quince\"\n[[piece]]\nname = \"almond\"\n[[box]]\nname = \"few\"\n{lines}\n");
        Document::parse(&text).unwrap_err().to_string()
    };
    for (lines, says) in [
        ("", "box \"few\": `holds` is missing"),
        ("holds = {}", "`holds` is missing: add how many of each piece"),
        ("holds = [\"quince\"]", "holds: expected a table of names, such as `{ \"a name\" = ... }`, found a list"),
        ("holds = { quinse = 2 }", "`quinse` is no piece of this document: did you mean `quince`?"),
        ("holds = { gianduja = 2 }", "`gianduja` is no piece of this document: describe it as a `[[piece]]` with that `name`"),
        ("holds = { quince = 0 }", "holds, quince: expected a whole number from 1 to 10000, found `0`"),
        ("holds = { quince = \"two\" }", "holds, quince: expected a number"),
        ("holds = { quince = 2 }\nmarket = [\"eu\"]", "`market` is not a key here: did you mean `markets`?"),
        ("holds = { quince = 2 }\nmarkets = [\"europe\"]", "`europe` is not a market known here"),
        ("holds = { quince = 2 }\nfree_from = [\"milc\"]", "did you mean `milk`?"),
        ("holds = { quince = 2 }\nstressed = [\"almonds\"]", "almonds"),
        ("holds = { quince = 2 }\nsold_as = \"\"", "this is blank"),
        ("holds = { quince = 2 }\n[[box]]\nname = \"few\"\nholds = { almond = 1 }", "`few` is the name of another one too"),
    ] {
        let error = parse(lines);
        assert!(error.contains(says), "{lines}: {error}");
    }
}

#[test]
fn the_us_is_told_added_sugars_and_daily_values_and_nothing_nobody_stated() {
    let bar = |more: &str| {
        piece(&format!(
            "[chocolate.dark]\nkind = \"dark\"\ncocoa_butter = \"40 %\"\nfat_free_cocoa = \"25 %\"\nsugar = \"35 %\"\n{more}\
             [[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{{ ingredient = \"dark\", mass = \"100 g\" }}]\n"
        ))
    };
    let line = |piece: &Piece, name: &str| {
        let lines = Label::of(piece, Market::Us).nutrition.value.unwrap().lines;
        let line = lines.into_iter().find(|line| line.name == name).unwrap();
        (line.printed.map(|printed| printed.to_string()), line.daily.map(|daily| daily.to_string()), line.unknown)
    };
    let told = |printed: &str, daily: Option<&str>| (Some(printed.to_owned()), daily.map(str::to_owned), Vec::<String>::new());
    // 35 % of 30 g are 10.5 g, 21 % of 50 g; 12 g of fat are 15 % of 78 g.
    assert_eq!(line(&bar(""), "incl. added sugars"), told("11", Some("21")));
    assert_eq!(line(&bar(""), "total fat"), told("12", Some("15")));
    assert_eq!(line(&bar(""), "total sugars"), told("11", None));
    assert_eq!((line(&bar(""), "trans fat"), line(&bar(""), "cholesterol")), (told("0", None), told("0", Some("0"))));
    assert_eq!(line(&bar(""), "iron").2, ["the iron of dark (iron)"]);
    // 120 mg/kg in 30 g are 3.6 mg, 20 % of 18 mg.
    assert_eq!(line(&bar("iron = \"120 mg/kg\"\n"), "iron"), told("3.6", Some("20")));
    assert_eq!(line(&bar("added_sugars = \"30 %\"\n"), "incl. added sugars"), told("9", Some("18")));
    let mixed =
        piece("[[piece]]\nname = \"jam\"\n[[piece.layer]]\nname = \"jam\"\nrecipe = [{ ingredient = \"jam\", mass = \"100 g\" }]\n");
    assert_eq!(line(&mixed, "incl. added sugars").2, ["whether the sugars of jam are added (sugars or added_sugars)"]);
}

#[test]
fn a_serving_in_the_us_is_of_whole_pieces() {
    let document = Document::parse(WINTER_BOX).unwrap();
    let per = |name: &str| {
        let piece = document.pieces().iter().find(|piece| piece.name == name).unwrap();
        let label = Label::of(piece, Market::Us);
        (label.nutrition.value.unwrap().per, label.net_quantity.value.unwrap().piece)
    };
    // 11 g are 37 % of 30 g: three pieces are nearer to it than two.
    let (told, piece) = per("Quince brandy, thickened");
    assert_eq!(told, format!("serving of 3 pieces ({:.0} g)", 3000.0 * piece));
    assert!((0.010..0.012).contains(&piece), "{piece} kg");
    assert_eq!(Label::of_box(&document.boxes()[0], Market::Us).nutrition.value.unwrap().per, "serving of 30 g");
}

#[test]
fn canada_groups_sugars_and_japan_parts_additives() {
    let sweet = piece(
        "[[piece]]\nname = \"sweet\"\n[[piece.layer]]\nname = \"sweet\"\nrecipe = [{ ingredient = \"cream-35\", mass = \"45 g\" }, \
         { ingredient = \"sugar\", mass = \"25 g\" }, { ingredient = \"honey\", mass = \"28 g\" }, { ingredient = \"sorbitol-powder\", mass = \"30 g\" }]\n",
    );
    let text = |market| Label::of(&sweet, market).ingredients.value.unwrap().text();
    assert_eq!(text(Market::Ca), "sugars (honey, sugar), cream, sorbitol.", "53 g of sugars stand before 45 g of cream");
    assert_eq!(text(Market::Jp), "cream (milk), honey, sugar / sorbitol.");
    assert_eq!(text(Market::Eu), "cream (MILK), humectant: sorbitol, honey, sugar.");
    assert_eq!(text(Market::Us), "cream, sorbitol, honey, sugar.");
}

#[test]
fn the_uk_is_told_the_milk_solids_of_milk_chocolate() {
    let bar = piece(
        "[chocolate.milk]\nkind = \"milk\"\ncocoa_butter = \"26 %\"\nfat_free_cocoa = \"6 %\"\nmilk_fat = \"6 %\"\nfat_free_milk = \"15.9 %\"\nsugar = \"46.1 %\"\n\
         [[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{ ingredient = \"milk\", mass = \"100 g\" }]\n",
    );
    let told = |market| Label::of(&bar, market).cocoa.value.unwrap().remove(0);
    let (uk, eu) = (told(Market::Uk), told(Market::Eu));
    assert_eq!((uk.declared.as_str(), uk.milk.as_deref()), ("Cocoa solids: 32 % minimum", Some("Milk solids: 21 % minimum")));
    assert_eq!(eu.milk, None);
}

#[test]
fn the_us_is_told_how_much_would_bring_too_much_sorbitol() {
    let soft = piece(
        "[[piece]]\nname = \"soft\"\n[[piece.layer]]\nname = \"soft\"\nrecipe = [{ ingredient = \"sorbitol\", mass = \"5 g\" }, { ingredient = \"sucrose\", mass = \"95 g\" }]\n",
    );
    let statements = Label::of(&soft, Market::Us).statements;
    assert!(statements.unknown.iter().any(|lack| lack.contains("50 g of sorbitol, 1.0 kg of this")), "{:?}", statements.unknown);
}

#[test]
fn other_fat_in_chocolate_is_told_in_the_eu() {
    let coated = piece(
        "[chocolate.dark]\nkind = \"dark\"\ncocoa_butter = \"30 %\"\nfirm_fat = \"4 %\"\nfat_free_cocoa = \"26 %\"\nsugar = \"40 %\"\n\
         [[piece]]\nname = \"bar\"\n[[piece.layer]]\nname = \"bar\"\nrecipe = [{ ingredient = \"dark\", mass = \"100 g\" }]\n",
    );
    let statements = Label::of(&coated, Market::Eu).statements;
    let words: Vec<_> = statements.value.unwrap().into_iter().filter_map(|statement| statement.words).collect();
    assert_eq!(words, ["contains vegetable fats in addition to cocoa butter"]);
}

#[test]
fn a_row_of_the_document_rules_the_label_too() {
    let strict = piece(
        "[[law]]\nmarkets = [\"eu\"]\ninstrument = \"A code\"\nsection = \"4\"\neffect = \"statement\"\nlimits = [{ id = \"eu-polyol\", term = \"added-polyols\", at_most = \"2 %\" }]\n\
         [[piece]]\nname = \"soft\"\n[[piece.layer]]\nname = \"soft\"\nrecipe = [{ ingredient = \"sorbitol-powder\", mass = \"5 g\" }, { ingredient = \"sugar\", mass = \"95 g\" }]\n",
    );
    let statements = Label::of(&strict, Market::Eu).statements;
    assert!(statements.basis.iter().any(|basis| basis.instrument == "A code"));
    assert!(statements.value.unwrap()[0].words.is_some_and(|words| words.contains("laxative")));
}
