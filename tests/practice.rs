//! What every confectioner knows must come out right.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test may stop at the first surprise")]

use cordial::assess::Quantity;
use cordial::engine::Verdict::{self, Caution, Fail, Note, Pass};
use cordial::{Document, Report, check};

fn report(piece: &str) -> Report {
    let text = format!(
        r#"
        format = 1
        [chocolate.plain-dark]
        kind = "dark"
        cocoa_butter = "38.5 %"
        fat_free_cocoa = "25.5 %"
        sugar = "35.4 %"
        water = "0.6 %"
        lecithin = {{ amount = "0 %", form = "fluid", source = "sunflower" }}
        yield_value = "8 Pa"
        plastic_viscosity = "2 Pa.s"
        [[piece]]
        name = "trial"
        {piece}
        "#
    );
    let document = Document::parse(&text).unwrap_or_else(|error| panic!("{error}"));
    check(&document.pieces()[0]).unwrap()
}

fn verdict(report: &Report, rule: &str) -> Option<Verdict> {
    report.of(rule).map(|finding| finding.verdict).max()
}

#[test]
fn lecithin_has_a_best_dose() {
    let dosed = |dose: &str| {
        let emulsifier = format!(r#"[{{ kind = "lecithin", form = "fluid", source = "sunflower", dose = "{dose}" }}]"#);
        verdict(&report(&format!(r#"shell = {{ chocolate = "plain-dark", emulsifier = {emulsifier} }}"#)), "emulsifier-dose-outside-window")
    };
    assert_eq!(dosed("0.1 %"), Some(Note), "underdosed");
    for good in ["0.3 %", "0.4 %", "0.5 %"] {
        assert_eq!(dosed(good), Some(Pass), "{good} is good");
    }
    for past in ["0.51 %", "0.75 %", "1 %"] {
        assert_eq!(dosed(past), Some(Caution), "{past} is usable but past the optimum");
    }
    assert_eq!(dosed("1.01 %"), Some(Fail), "overdosed");
}

fn filled(fill_to: &str, layer: &str) -> Report {
    report(&format!(
        r#"
        mould = {{ shape = "segment", diameter = "28 mm", depth = "13 mm" }}
        shell = {{ chocolate = "plain-dark", thickness = "2 mm", casts = 2, temper = "tempered" }}
        cap = {{ thickness = "2 mm" }}
        [[piece.layer]]
        name = "filling"
        fill_to = "{fill_to}"
        {layer}
        "#
    ))
}

#[test]
fn neat_spirit_leaks_and_ganache_holds() {
    let spirit = filled("2 mm", r#"recipe = [{ ingredient = "spirit-40", mass = "100 g" }]"#);
    assert_eq!(verdict(&spirit, "filling-too-thin-to-cap"), Some(Fail));
    let needed = spirit.assessment.layers[0].get(Quantity::YieldNeeded).value().unwrap();
    assert!((4.0..5.0).contains(&needed), "{needed} Pa under 2 mm");
    let ganache = r#"recipe = [{ ingredient = "cream-35", mass = "100 g" }, { ingredient = "plain-dark", mass = "180 g" }]"#;
    assert_eq!(verdict(&filled("2 mm", ganache), "filling-too-thin-to-cap"), Some(Pass));
}

#[test]
fn a_filling_to_the_brim_cannot_be_capped() {
    let full = filled("0 mm", r#"recipe = [{ ingredient = "cream-35", mass = "100 g" }, { ingredient = "plain-dark", mass = "180 g" }]"#);
    assert_eq!(verdict(&full, "headroom-outside-window"), Some(Fail));
    assert_eq!(verdict(&full, "cap-too-thin"), Some(Caution));
}

#[test]
fn hot_untempered_chocolate_drains_to_a_thin_shell() {
    let wall = |temper: &str, temperature: &str| {
        let report = report(&format!(
            r#"
            mould = {{ shape = "segment", diameter = "28 mm", depth = "13 mm" }}
            shell = {{ chocolate = "plain-dark", drained = {{ time = "10 s" }}, temper = "{temper}" }}
            workshop = {{ chocolate_temperature = "{temperature}" }}
            "#
        ));
        report.assessment.shell.get(Quantity::PredictedWall).value().unwrap() * 1000.0
    };
    let (tempered, hot) = (wall("tempered", "31.5 Cel"), wall("untempered", "45 Cel"));
    assert!((1.0..3.0).contains(&tempered), "tempered leaves {tempered} mm");
    assert!(hot < 0.8 * tempered, "hot untempered leaves {hot} mm, tempered {tempered} mm");
}

#[test]
fn fifteen_grams_of_water_seize_a_kilogram() {
    let seized = |dose: &str| {
        let added = format!(r#"[{{ ingredient = "water", dose = "{dose}" }}]"#);
        verdict(&report(&format!(r#"shell = {{ chocolate = "plain-dark", added = {added} }}"#)), "chocolate-would-seize")
    };
    assert_eq!(seized("1.5 %"), Some(Fail));
    assert_eq!(seized("0.5 %"), Some(Caution));
    assert_eq!(seized("0.2 %"), Some(Pass));
}
