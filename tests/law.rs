//! Every row of law from both sides: a piece half a per cent inside its limit and one half a per cent outside, the verdict as the cited text has it.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::assess::{Assessed, Assessment, Estimate, PartAssessment, Quantity};
use cordial::engine::{Findings, Reading, RuleSetError, Verdict};
use cordial::law::{Book, Category, Effect, Row, Side, Term};
use cordial::matter::{ChocolateKind, Known, Market};
use cordial::piece::{OwnLimit, Piece};
use cordial::units::{Measure, Unit};
use cordial::{Document, check, rules};

/// What is judged of a piece that has just this much of what a row limits.
fn reading(row: &Row, value: f64) -> Option<Reading> {
    let mut piece = Piece::named("on the edge").with_market(row.market);
    piece.regions.extend(row.region);
    piece.sold_as = row.names.iter().next();
    let put = |part: &mut PartAssessment, quantity: Quantity, value: f64| part.put(quantity, Assessed::Known(Estimate::declared(value)));
    let mut assessment = Assessment { layers: vec![PartAssessment::NOTHING], ..Assessment::default() };
    let kind = row.kinds.first().copied().unwrap_or(ChocolateKind::Dark);
    match row.term {
        Term::Additives => {
            let in_filling = row.categories.contains(&Category::Filling);
            let part = if in_filling { &mut assessment.layers[0] } else { &mut assessment.shell };
            part.chocolate = Some(kind);
            part.category = row.categories.iter().find(|category| **category != Category::Filling).copied();
            part.additives.add(row.additives.iter().next().unwrap(), value);
            put(part, Quantity::Additives, value);
        }
        Term::OuterChocolate | Term::Chocolate => put(&mut assessment.whole, Quantity::of_term(row.term), value),
        _ if row.effect == Effect::Name => {
            assessment.shell.chocolate = Some(kind);
            put(&mut assessment.shell, Quantity::of_term(row.term), value);
        }
        _ => {
            assessment.whole.category = row.categories.first().copied();
            put(&mut assessment.whole, Quantity::EthanolByMass, 0.01);
            put(&mut assessment.whole, Quantity::of_term(row.term), value);
        }
    }
    let rules = rules::built_in();
    let mut findings = Findings::default();
    rules.judge(&assessment, &rules.bounds(&piece).unwrap(), &mut findings);
    findings.readings.into_iter().find(|reading| reading.bound.row.and_then(|id| piece.law.row(id)).is_some_and(|read| read.id == row.id))
}

/// What the cited text does to a piece beyond it: forbids, makes another thing of it, or only taxes and tells. The federal row on alcohol
/// forbids only what no State permits. What is recalled settles nothing.
fn outside(row: &Row) -> Verdict {
    match row.effect {
        Effect::Duty | Effect::Age | Effect::Statement => Verdict::Note,
        Effect::Licence => Verdict::Caution,
        _ if row.citation.known == Known::Memory || row.id == "us-fed-alcohol" => Verdict::Caution,
        Effect::Name | Effect::Restriction => Verdict::Fail,
    }
}

fn inside(row: &Row) -> Verdict {
    if row.citation.known == Known::Memory { Verdict::Caution } else { Verdict::Pass }
}

#[test]
fn every_limit_holds_half_a_per_cent_to_either_side() {
    let mut judged = 0;
    for row in Book::built_in().rows() {
        let Some(limit) = row.value.map(Measure::base) else { continue };
        judged += 1;
        let (low, high) = if limit > 0.0 { (0.995 * limit, 1.005 * limit) } else { (0.0, 1e-4) };
        let (good, bad) = if row.side == Side::AtLeast { (high, low) } else { (low, high) };
        let verdict = |value: f64| reading(row, value).map(|reading| reading.verdict);
        // None of an additive that may not be there is held against nothing.
        if limit > 0.0 || row.term != Term::Additives {
            assert_eq!(verdict(good), Some(inside(row)), "{} inside, at {good}", row.id);
        }
        assert_eq!(verdict(bad), Some(outside(row)), "{} outside, at {bad}", row.id);
        // At the limit itself: legal, unless the text says "less than".
        if limit > 0.0 && row.citation.known != Known::Memory {
            assert_eq!(verdict(limit) == Some(Verdict::Pass), !row.below, "{} at its limit", row.id);
        }
    }
    assert!(judged > 150, "{judged} rows were judged");
}

#[test]
fn each_market_is_held_as_far_as_the_tables_go() {
    let of = |market: Market| Book::built_in().rows().iter().filter(|row| row.market == market).count();
    for market in [Market::Eu, Market::Uk, Market::Codex, Market::Us, Market::Ca, Market::AuNz] {
        assert!(of(market) > 1, "{market:?} has {} rows", of(market));
    }
}

const OWN: &str = r#"
format = 1
[[law]]
markets = ["jp"]
instrument = "Fair Competition Code on Chocolates"
section = "article 2"
version = "2024-01-01"
effect = "name"
names = ["chocolate"]
limits = [{ id = "jp-own", term = "total-dry-cocoa", at_least = "35 %" }]
[[law]]
markets = ["eu"]
instrument = "Directive 2000/36/EC"
section = "Annex I.A.3(a)"
effect = "name"
names = ["chocolate"]
limits = [{ id = "eu-choc-cocoa-butter", term = "cocoa-butter", at_least = "30 %" }]
[chocolate.dark]
kind = "dark"
cocoa_butter = "25 %"
fat_free_cocoa = "20 %"
sugar = "55 %"
[[piece]]
name = "bar"
markets = ["eu", "jp"]
shell = { chocolate = "dark" }
"#;

#[test]
fn a_document_adds_and_corrects_rows() {
    let document = Document::parse(OWN).unwrap();
    let report = check(&document.pieces()[0]).unwrap();
    let verdict = |id: &str| {
        let mut readings = report.findings.iter().flat_map(|finding| &finding.readings);
        readings.find(|reading| report.row(reading).is_some_and(|row| row.id == id)).map(|reading| reading.verdict)
    };
    assert_eq!(verdict("jp-own"), Some(Verdict::Pass));
    assert_eq!(verdict("eu-choc-cocoa-butter"), Some(Verdict::Fail));
    let text = report.to_text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("cocoa butter 25 %, EU at least 30 % (Directive 2000/36/EC, Annex I.A.3(a))"), "{text}");
    assert!(text.contains("no advice: local authorities and a qualified person decide"), "{text}");
    let json = report.to_json();
    let law = json["pieces"][0]["readings"].as_array().unwrap().iter().find(|reading| reading["law"]["row"] == "jp-own").unwrap();
    assert_eq!((law["law"]["version"].as_str(), law["law"]["known"].as_str()), (Some("2024-01-01"), Some("declared")));
}

#[test]
fn a_faulty_row_is_named() {
    for (good, faulty, says) in [
        ("section = \"article 2\"", "", "law 1: `section` is missing"),
        ("section = \"article 2\"", "section = \"article 2\"\nknown = \"seen\"", "`known` is not a key here"),
        ("\"35 %\" }", "\"35 mm\" }", "`35 mm` is not a ratio, as `total-dry-cocoa` is"),
        ("\"35 %\" }", "\"35\" }", "is not a ratio"),
        ("at_least = \"35 %\"", "", "`at_most` is missing"),
        ("\"total-dry-cocoa\"", "\"total-cocoa\"", "is not a term of law known here: did you mean `total-dry-cocoa`?"),
        ("names = [\"chocolate\"]", "names = [\"choclate\"]", "did you mean `chocolate`?"),
        ("names = [\"chocolate\"]", "", "`names` is missing"),
        ("\"total-dry-cocoa\", at_least = \"35 %\"", "\"additives\", at_most = \"35 %\"", "`categories` is missing"),
        ("markets = [\"jp\"]", "markets = []", "law 1: `markets` is missing"),
    ] {
        let error = Document::parse(&OWN.replacen(good, faulty, 1)).unwrap_err().to_string();
        assert!(error.contains(says), "{faulty}: {error}");
    }
}

/// A maker may set a practice otherwise, not the law.
#[test]
fn no_maker_sets_the_law() {
    let limit = OwnLimit { key: "additives.limit".into(), value: Measure::new(1.0, Unit::Percent), reason: "habit".into() };
    let piece = Piece { limits: vec![limit], ..Piece::named("own law") };
    assert!(matches!(rules::built_in().bounds(&piece), Err(RuleSetError::Statute { .. })));
}

/// A rule of a market looks at no piece that is sold elsewhere.
#[test]
fn the_markets_of_a_rule_are_heeded() {
    let of = |market: &str| {
        let text = format!(
            "format = 1\n[[piece]]\nname = \"wet\"\nmarkets = [\"{market}\"]\nlayer = [{{ name = \"wet\", measured = {{ water_activity = 0.95, ph = 6.0 }} }}]\n"
        );
        let report = check(&Document::parse(&text).unwrap().pieces()[0]).unwrap();
        report.of("needs-time-temperature-control").count()
            + report.unknown.iter().filter(|lack| lack.rule.id == "needs-time-temperature-control").count()
    };
    assert_eq!((of("us"), of("eu")), (1, 0));
}
