//! The main job on the winter box: what must be found there, and that the fixes do what they say.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::assess::{Part, Quantity, assess};
use cordial::engine::Findings;
use cordial::engine::Verdict::{self, Caution, Fail, Note, Pass};
use cordial::{Document, Report, check, rules};

const BOX: &str = include_str!("../examples/data/winter-box.toml");

fn reports(text: &str) -> Vec<Report> {
    let document = Document::parse(text).unwrap_or_else(|error| panic!("{error}"));
    document.pieces().iter().map(|piece| check(piece).unwrap()).collect()
}

fn report(name: &str) -> Report {
    reports(BOX).into_iter().find(|report| report.name == name).unwrap_or_else(|| panic!("no piece is called {name}"))
}

fn verdict(report: &Report, rule: &str) -> Option<Verdict> {
    report.of(rule).map(|finding| finding.verdict).max()
}

/// Checks a list of verdicts at once, so that a failure shows all of them.
fn assert_verdicts(name: &str, wanted: &[(&str, Verdict)]) {
    let report = report(name);
    let found: Vec<_> = wanted.iter().map(|(rule, _)| (*rule, verdict(&report, rule))).collect();
    let wanted: Vec<_> = wanted.iter().map(|(rule, verdict)| (*rule, Some(*verdict))).collect();
    assert_eq!(found, wanted, "{name}");
}

#[test]
fn the_first_quince_leaks() {
    assert_verdicts(
        "Quince brandy, first try",
        &[
            ("filling-too-thin-to-cap", Fail),
            ("headroom-outside-window", Fail),
            ("ethanol-attacks-shell", Fail),
            ("liquid-in-single-cast", Caution),
            ("shell-thickness-outside-range", Caution),
            ("filling-lighter-than-chocolate", Note),
            ("cap-too-thin", Caution),
            // The spirit is strong enough that alcohol, not activity, would have to keep it.
            ("filling-not-shelf-stable", Caution),
            ("yeast-could-ferment", Caution),
        ],
    );
}

#[test]
fn the_thickened_quince_holds() {
    assert_verdicts(
        "Quince brandy, thickened",
        &[
            // The xanthan estimate and the density both cross the limit at their bad end.
            ("filling-too-thin-to-cap", Caution),
            ("headroom-outside-window", Pass),
            ("ethanol-attacks-shell", Note),
            ("yeast-could-ferment", Caution),
            ("promise-broken", Pass),
        ],
    );
}

#[test]
fn the_balanced_ganache_is_a_matter_for_a_meter() {
    assert_verdicts(
        "Cardamom cream, balanced",
        &[("ganache-too-wet", Pass), ("ganache-fat-water-unbalanced", Pass), ("filling-not-shelf-stable", Caution)],
    );
    let activity = report("Cardamom cream, balanced").assessment.layers[0].get(Quantity::WaterActivity).known().unwrap();
    assert!((activity.value() - 0.82).abs() < 0.01, "{activity:?}");
    assert!(activity.band.low < 0.85 && 0.85 < activity.band.high);
}

#[test]
fn the_plain_ganache_is_too_wet_to_sell_from_the_shelf() {
    assert_verdicts("Cardamom cream, plain", &[("ganache-too-wet", Fail), ("filling-not-shelf-stable", Fail)]);
    let activity = report("Cardamom cream, plain").assessment.layers[0].get(Quantity::WaterActivity).value().unwrap();
    assert!((0.93..=0.97).contains(&activity), "{activity}");
}

#[test]
fn the_layered_pieces_close() {
    for name in ["Rosehip over almond", "Blackcurrant marshmallow, bare biscuit", "Blackcurrant marshmallow, enrobed biscuit"] {
        assert_verdicts(name, &[("cavity-overfilled", Pass), ("headroom-outside-window", Pass), ("filling-not-shelf-stable", Pass)]);
    }
}

#[test]
fn the_caramel_is_mended_by_cooking_and_room() {
    assert_verdicts("Buckwheat-honey caramel, stopped early", &[("headroom-outside-window", Fail), ("yeast-could-ferment", Caution)]);
    assert_verdicts(
        "Buckwheat-honey caramel, cooked through",
        &[("headroom-outside-window", Pass), ("filling-too-thin-to-cap", Pass), ("filling-not-shelf-stable", Pass)],
    );
}

#[test]
fn at_least_two_pieces_fail_and_each_has_a_fix() {
    let failing: Vec<_> = reports(BOX).into_iter().filter(|report| report.verdict() == Fail).collect();
    assert!(failing.len() >= 2);
    for report in failing {
        assert!(report.findings.iter().any(|finding| finding.verdict == Fail && !finding.remedies.is_empty()), "{}", report.name);
    }
}

/// Every remedy of every finding, applied, makes that finding vanish.
#[test]
fn every_fix_cures() {
    let (document, rules) = (Document::parse(BOX).unwrap(), rules::built_in());
    let (mut tried, mut judged) = (0, Findings::default());
    for piece in document.pieces() {
        for finding in check(piece).unwrap().findings {
            for advice in &finding.remedies {
                let turned = advice.remedy.knob.set(piece, advice.remedy.to).unwrap();
                rules.judge(&assess(&turned), &rules.bounds(&turned).unwrap(), &mut judged);
                let verdict = judged.verdict(finding.rule.id, finding.part);
                assert!(verdict < Some(finding.verdict), "{}: {}: {} gives {verdict:?}", piece.name, finding.rule.id, advice.text);
                tried += 1;
            }
        }
    }
    assert!(tried > 50, "only {tried} remedies were tried");
}

/// The line that a fix offers in brackets, written into the file by hand.
#[test]
fn a_fix_written_into_the_file_makes_its_finding_vanish() {
    let first = report("Quince brandy, first try");
    let fix = |rule: &str, word: &str| {
        let finding = first.of(rule).next().unwrap();
        finding.remedies.iter().find(|advice| advice.text.contains(word)).unwrap_or_else(|| panic!("{rule} has no fix with {word}")).clone()
    };
    let deeper = fix("headroom-outside-window", "fill_to");
    let filled = BOX.replacen("fill_to = \"0.5 mm\"", &format!("fill_to = \"{}\"", deeper.to), 1);
    assert_eq!(verdict(&reports(&filled)[0], "headroom-outside-window"), Some(Pass));

    let gum = fix("filling-too-thin-to-cap", "xanthan");
    let water = "    { ingredient = \"water\", mass = \"32 g\" },\n]";
    let line = format!(
        "    {{ ingredient = \"water\", mass = \"32 g\" }},\n    {{ ingredient = \"xanthan\", mass = \"{}\" }},\n]\nhydrated_first = true",
        gum.to
    );
    let thickened = BOX.replacen(water, &line, 1);
    assert!(verdict(&reports(&thickened)[0], "filling-too-thin-to-cap") < Some(Caution));
}

fn chocolate(emulsifier: &str) -> Report {
    let text = format!(
        r#"
        format = 1
        [chocolate.house]
        kind = "dark"
        cocoa_butter = "38.5 %"
        fat_free_cocoa = "25.5 %"
        sugar = "35 %"
        water = "0.6 %"
        lecithin = {{ amount = "0.4 %", form = "fluid", source = "sunflower" }}
        [[piece]]
        name = "trial"
        markets = ["eu"]
        shell = {{ chocolate = "house", temper = "tempered", emulsifier = [{emulsifier}] }}
        "#
    );
    reports(&text).remove(0)
}

#[test]
fn what_the_couverture_holds_counts() {
    let report = chocolate(r#"{ kind = "lecithin", form = "fluid", source = "sunflower", dose = "0.8 %" }"#);
    let total = report.assessment.shell.get(Quantity::Lecithin).value().unwrap();
    assert!((total - 0.012).abs() < 1e-12, "{total}");
    assert_eq!(verdict(&report, "emulsifier-dose-outside-window"), Some(Fail));
}

#[test]
fn powder_in_chocolate_is_a_breach() {
    let report = chocolate(r#"{ kind = "lecithin", form = "powder", source = "soy", dose = "0.1 %" }"#);
    assert_eq!(verdict(&report, "emulsifier-form-unfit-for-fat"), Some(Fail));
    let fixes = &report.of("emulsifier-form-unfit-for-fat").next().unwrap().remedies;
    assert!(fixes.iter().any(|fix| fix.text.contains("the forms never change places gram for gram")), "{fixes:?}");
}

#[test]
fn fluid_soy_for_fluid_sunflower_changes_only_the_allergen() {
    let dose = |plant: &str| chocolate(&format!(r#"{{ kind = "lecithin", form = "fluid", source = "{plant}", dose = "0.1 %" }}"#));
    let (soy, sunflower) = (dose("soy"), dose("sunflower"));
    assert_eq!(soy.assessment.shell.get(Quantity::Lecithin), sunflower.assessment.shell.get(Quantity::Lecithin));
    let differing: Vec<_> = soy
        .findings
        .iter()
        .filter(|finding| {
            sunflower.of(finding.rule.id).find(|other| other.part == finding.part).map(|other| other.verdict) != Some(finding.verdict)
        })
        .map(|finding| (finding.rule.id, finding.part))
        .collect();
    assert_eq!(differing, [("allergens-to-declare", Part::Whole)]);
}

#[test]
fn fifteen_grams_of_water_in_a_kilogram_of_chocolate_is_a_breach() {
    let text = r#"
        format = 1
        [[piece]]
        name = "watery flavour"
        shell = { chocolate = "dark-couverture-64", temper = "tempered", added = [{ ingredient = "water", dose = "1.5 %" }] }
        "#;
    assert_eq!(verdict(&reports(text)[0], "chocolate-would-seize"), Some(Fail));
}

#[test]
fn a_promise_with_lecithin_of_unknown_plant_is_not_judged() {
    let text = r#"
        format = 1
        [[piece]]
        name = "soy-free?"
        free_from = ["soy"]
        shell = { chocolate = "dark-couverture-64", temper = "tempered", emulsifier = [{ kind = "lecithin", form = "fluid", dose = "0.1 %" }] }
        "#;
    let text = text.replace("dark-couverture-64", "dark-couverture-66-without-lecithin");
    let report = &reports(&text)[0];
    assert_eq!(verdict(report, "promise-broken"), None);
    assert!(report.unknown.iter().any(|unknown| unknown.rule.id == "promise-broken"));
}

#[test]
fn a_measurement_beats_a_model_but_not_beside_ethanol() {
    let measured = |recipe: &str| {
        let text = format!(
            "format = 1\n[[piece]]\nname = \"x\"\n[[piece.layer]]\nname = \"filling\"\nrecipe = [{recipe}]\nmeasured = {{ water_activity = 0.70 }}"
        );
        reports(&text)[0].assessment.layers[0].get(Quantity::WaterActivity).known().unwrap().value()
    };
    let syrup = r#"{ ingredient = "sucrose", mass = "60 g" }, { ingredient = "water", mass = "40 g" }"#;
    assert!((measured(syrup) - 0.70).abs() < 1e-12);
    let spirit = format!(r#"{syrup}, {{ ingredient = "ethanol", mass = "5 g" }}"#);
    assert!(measured(&spirit) > 0.8);
}

#[test]
fn a_piece_by_name_only_is_checked_in_silence() {
    let report = &reports("format = 1\n[[piece]]\nname = \"an idea\"")[0];
    assert_eq!(report.verdict(), Pass);
    assert!(report.unknown.is_empty(), "{:?}", report.unknown);
}

/// What the notes to each piece of the box expect of it, verdict by verdict: `(piece, rule, expected, otherwise)`. Where the rules say otherwise,
/// `otherwise` has what they say (none where they read nothing) and why.
type Expected = (&'static str, &'static str, &'static [Verdict], Option<(Option<Verdict>, &'static str)>);

const ANY: &[Verdict] = &[Pass, Note, Caution, Fail];

const EXPECTED: &[Expected] = &[
    ("Quince brandy, first try", "filling-too-thin-to-cap", &[Fail], None),
    ("Quince brandy, first try", "headroom-outside-window", &[Fail], None),
    ("Quince brandy, first try", "ethanol-attacks-shell", &[Fail], None),
    ("Quince brandy, first try", "liquid-in-single-cast", &[Caution], None),
    ("Quince brandy, first try", "shell-thickness-outside-range", &[Caution], None),
    ("Quince brandy, first try", "filling-lighter-than-chocolate", &[Note], None),
    ("Quince brandy, first try", "cap-too-thin", &[Caution], None),
    ("Quince brandy, first try", "filling-not-shelf-stable", ANY, None),
    ("Quince brandy, first try", "yeast-could-ferment", ANY, None),
    ("Quince brandy, thickened", "filling-too-thin-to-cap", &[Pass, Caution], None),
    ("Quince brandy, thickened", "headroom-outside-window", &[Pass], None),
    ("Quince brandy, thickened", "ethanol-attacks-shell", &[Note, Caution], None),
    ("Quince brandy, thickened", "yeast-could-ferment", &[Caution], None),
    ("Quince brandy, thickened", "shell-would-crack", &[Caution], None),
    ("Cardamom cream, balanced", "ganache-too-wet", &[Pass], None),
    ("Cardamom cream, balanced", "ganache-short-of-sugars", &[Pass], None),
    ("Cardamom cream, balanced", "ganache-fat-water-unbalanced", &[Pass], None),
    ("Cardamom cream, balanced", "ganache-too-soft-to-set", &[Pass], None),
    ("Cardamom cream, balanced", "filling-not-shelf-stable", &[Caution], None),
    ("Cardamom cream, balanced", "humectants-overused", &[Pass], None),
    ("Cardamom cream, plain", "ganache-too-wet", &[Fail], None),
    ("Cardamom cream, plain", "ganache-short-of-sugars", &[Caution], None),
    ("Cardamom cream, plain", "filling-not-shelf-stable", &[Fail], None),
    ("Cardamom cream, plain", "keeping-claim-too-long", &[Fail], None),
    (
        "Rosehip over almond",
        "crisp-would-soften",
        &[Pass],
        Some((None, "its flakes lie in gianduja, a nut paste and no crisp layer: fat parts them from the gel, and the rule reads nothing")),
    ),
    (
        "Rosehip over almond",
        "nut-oil-would-migrate",
        &[Caution],
        Some((Some(Pass), "it is kept at 16 °C, and the rule warns of a quarter of oil above 18 °C")),
    ),
    ("Rosehip over almond", "fruit-gel-will-not-set", &[Pass], None),
    (
        "Rosehip over almond",
        "milk-fat-softens-shell",
        &[Note],
        Some((Some(Pass), "the gianduja holds 3 % of milk fat and the gel none; the rule warns from 15 %")),
    ),
    ("Rosehip over almond", "cavity-overfilled", &[Pass], None),
    ("Buckwheat-honey caramel, stopped early", "caramel-moisture-off", &[Caution], None),
    ("Buckwheat-honey caramel, stopped early", "filling-melts-shell", &[Fail], None),
    ("Buckwheat-honey caramel, stopped early", "headroom-outside-window", &[Fail], None),
    ("Buckwheat-honey caramel, stopped early", "caramel-would-creep", &[Caution], None),
    ("Buckwheat-honey caramel, stopped early", "cap-poured-too-soon", &[Caution], None),
    ("Buckwheat-honey caramel, stopped early", "yeast-could-ferment", &[Caution], None),
    ("Buckwheat-honey caramel, cooked through", "caramel-moisture-off", &[Pass], None),
    ("Buckwheat-honey caramel, cooked through", "filling-melts-shell", &[Pass], None),
    ("Buckwheat-honey caramel, cooked through", "headroom-outside-window", &[Pass], None),
    ("Buckwheat-honey caramel, cooked through", "caramel-would-grain", &[Pass], None),
    ("Buckwheat-honey caramel, cooked through", "filling-not-shelf-stable", &[Pass, Caution], None),
    ("Blackcurrant marshmallow, bare biscuit", "crisp-would-soften", &[Fail], None),
    ("Blackcurrant marshmallow, bare biscuit", "filling-melts-shell", &[Fail], None),
    ("Blackcurrant marshmallow, bare biscuit", "filling-not-shelf-stable", &[Pass], None),
    ("Blackcurrant marshmallow, enrobed biscuit", "crisp-would-soften", &[Pass], None),
    ("Blackcurrant marshmallow, enrobed biscuit", "filling-melts-shell", &[Pass], None),
    (
        "Blackcurrant marshmallow, enrobed biscuit",
        "layers-trade-water",
        &[Caution],
        Some((None, "a film of chocolate parts disc and marshmallow: no gap is read across it")),
    ),
];

/// How each piece of the box is to come out, failing or not.
const OUTCOMES: [(&str, bool); 9] = [
    ("Quince brandy, first try", true),
    ("Quince brandy, thickened", false),
    ("Cardamom cream, balanced", false),
    ("Cardamom cream, plain", true),
    ("Rosehip over almond", false),
    ("Buckwheat-honey caramel, stopped early", true),
    ("Buckwheat-honey caramel, cooked through", false),
    ("Blackcurrant marshmallow, bare biscuit", true),
    ("Blackcurrant marshmallow, enrobed biscuit", false),
];

#[test]
fn every_expected_verdict_is_accounted_for() {
    let reports = reports(BOX);
    let of = |name: &str| reports.iter().find(|report| report.name == name).unwrap_or_else(|| panic!("no piece is called {name}"));
    let mut wrong = Vec::new();
    for (piece, rule, expected, otherwise) in EXPECTED {
        let found = verdict(of(piece), rule);
        let met = found.is_some_and(|found| expected.contains(&found));
        let as_told = match otherwise {
            None => met,
            Some((told, why)) => !met && found == *told && !why.is_empty(),
        };
        if !as_told {
            wrong.push(format!("{piece}: {rule}: {found:?}, expected {expected:?}, otherwise {otherwise:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(OUTCOMES.map(|(name, _)| name).to_vec(), reports.iter().map(|report| report.name.as_str()).collect::<Vec<_>>());
    for (name, fails) in OUTCOMES {
        assert_eq!(of(name).verdict() == Fail, fails, "{name}");
        assert!(EXPECTED.iter().any(|(piece, ..)| *piece == name), "{name} expects nothing");
    }
    let otherwise = EXPECTED.iter().filter(|(.., otherwise)| otherwise.is_some()).count();
    println!("{} expected verdicts on {} pieces: {otherwise} come out otherwise, each with its reason", EXPECTED.len(), OUTCOMES.len());
}

#[test]
fn a_framed_ganache_wants_more_cocoa_butter() {
    let framed = BOX.replace("name = \"Cardamom cream, balanced\"", "name = \"Cardamom cream, balanced\"\nprofile = \"framed-ganache\"");
    assert_eq!(verdict(&reports(&framed)[2], "ganache-too-soft-to-set"), Some(Caution));
}

/// They are sold as filled chocolates: the outer chocolate of each is far above the quarter that the EU asks for, and the US have no such standard.
#[test]
fn every_piece_may_be_called_a_filled_chocolate_in_the_eu() {
    for report in reports(BOX) {
        assert_eq!(verdict(&report, "filled-piece-name-not-met"), Some(Pass), "{}", report.name);
        assert!(report.unknown.iter().any(|lack| lack.rule.id == "filled-piece-name-not-met"), "{}: no row of the US", report.name);
    }
}
