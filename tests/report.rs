//! The forms of the report: what programs and people can rely on.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::report::to_json;
use cordial::{Document, Report, check};
use serde_json::Value;

fn reports() -> Vec<Report> {
    let document = Document::parse(include_str!("../examples/data/winter-box.toml")).unwrap();
    document.pieces().iter().map(|piece| check(piece).unwrap()).collect()
}

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

#[test]
fn the_json_form_is_as_designed() {
    let json = to_json(&reports());
    assert_eq!(json["format"], 1);
    let piece = &json["pieces"][0];
    assert_eq!(keys(piece), ["name", "verdict", "assessment", "readings", "accepted", "unknown"]);
    assert_eq!(piece["verdict"], "fail");
    let assessment = &piece["assessment"];
    for key in ["mass", "headroom", "shell", "layers", "cap"] {
        assert!(assessment.get(key).is_some(), "{key}");
    }
    for key in ["mass", "thickness", "lecithin", "yield_value", "plastic_viscosity", "density"] {
        assert!(assessment["shell"].get(key).is_some(), "shell: {key}");
    }
    for key in ["name", "mass", "water_activity", "water", "fat", "sugars", "ethanol", "density", "yield_value"] {
        assert!(assessment["layers"][0].get(key).is_some(), "layer: {key}");
    }
    for key in ["mass", "thickness"] {
        assert!(assessment["cap"].get(key).is_some(), "cap: {key}");
    }
    let activity = &assessment["layers"][0]["water_activity"];
    assert_eq!(keys(activity), ["value", "low", "high", "unit", "known", "in_range"]);
    assert_eq!((activity["unit"].as_str(), activity["known"].as_str()), (Some("1"), Some("modelled")));
    assert_eq!(assessment["headroom"].to_string(), r#"{"value":0.5,"unit":"mm"}"#);
    let reading = piece["readings"].as_array().unwrap().iter().find(|reading| reading["limit"] == "support.min").unwrap();
    assert_eq!(
        keys(reading),
        [
            "rule", "part", "verdict", "severity", "standing", "limit", "value", "bound", "margin", "assured", "sources", "basis", "text",
            "remedies"
        ]
    );
    assert_eq!(keys(&reading["remedies"][0]), ["knob", "from", "to", "upsets", "text"]);
    assert_eq!(keys(&reading["remedies"][0]["to"]), ["value", "unit"]);
}

#[test]
fn what_is_written_out_is_the_tree() {
    let reports = reports();
    let text = cordial::report::to_json_text(&reports);
    assert_eq!(text, format!("{:#}", to_json(&reports)));
}

#[test]
fn measures_of_a_report_read_back() {
    let json = to_json(&reports());
    for reading in json["pieces"].as_array().unwrap().iter().flat_map(|piece| piece["readings"].as_array().unwrap()) {
        let bound: cordial::units::Measure = serde_json::from_value(reading["bound"].clone()).unwrap();
        assert!(bound.value().is_finite());
    }
}

#[test]
fn the_text_forms_say_what_a_confectioner_needs() {
    let (screen, full) = (cordial::report::to_text(&reports()), cordial::report::to_full_text(&reports()));
    for part in ["FAIL ", "CAUTION ", "NOTE ", "Fix: ", "measure this", "recalled", "An estimate is not a measurement"] {
        assert!(screen.contains(part), "{part}");
    }
    assert!(!screen.contains("Basis: ") && !screen.contains("fill_to = "), "the screen is for what is wrong and what to do");
    for part in ["FAIL ", "CAUTION ", "NOTE ", "Why: ", "Basis: ", "Fix: ", "measure this", "An estimate is not a measurement"] {
        assert!(full.contains(part), "{part}");
    }
    for (number, line) in screen.lines().chain(full.lines()).enumerate() {
        assert!(line.chars().count() <= 100 || line.trim_start().starts_with('['), "line {} is too long: {line}", number + 1);
        assert!(!line.contains('\u{a0}'), "line {} holds a no-break space", number + 1);
        assert_eq!(line.trim_end(), line, "line {} ends in blanks", number + 1);
    }
    assert_eq!(screen.matches("An estimate is not a measurement").count(), 1);
}

/// A terminal as tall as most are opened.
const SCREEN: usize = 48;

/// Every demo and every worked piece, the cautions below it included.
#[test]
fn a_piece_is_read_on_one_screen() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let (mut pieces, mut longest) = (0, (0, String::new()));
    for folder in ["examples/data", "reference-values/pieces", "reference-values/pieces/worked"] {
        for file in std::fs::read_dir(root.join(folder)).unwrap().map(|entry| entry.unwrap().path()) {
            if file.extension().is_none_or(|extension| extension != "toml") {
                continue;
            }
            let text = std::fs::read_to_string(&file).unwrap();
            // A wanted balance of masses is no piece.
            let Ok(document) = Document::parse(text.split("\n[published]").next().unwrap()) else {
                assert!(text.contains("[[want]]") || text.contains("[balance"), "{}", file.display());
                continue;
            };
            for report in document.pieces().iter().map(|piece| check(piece).unwrap()) {
                let screen = report.to_text();
                let lines = screen.lines().count();
                assert!(lines <= SCREEN, "{} of {} takes {lines} lines:\n{screen}", report.name, file.display());
                assert!(screen.lines().all(|line| line.chars().count() <= 100), "too wide:\n{screen}");
                // Nothing is dropped: every finding with the least that mends it.
                let told = flat(&screen).to_lowercase();
                for finding in report.findings.iter().filter(|finding| finding.counts()) {
                    let fix = finding.remedies.first().map_or("", |advice| &advice.brief);
                    for said in [finding.rule.title, fix] {
                        assert!(told.contains(&flat(said).to_lowercase()), "`{said}` of {} is not told:\n{screen}", finding.rule.id);
                    }
                }
                pieces += 1;
                longest = longest.max((lines, report.name));
            }
        }
    }
    println!("{pieces} pieces; the longest report is that of {}: {} lines", longest.1, longest.0);
    assert!(pieces > 300, "{pieces} pieces were read");
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn what_is_unknown_is_gathered_by_what_must_be_told() {
    let text = r#"
        format = 1
        [[piece]]
        name = "little is told"
        markets = ["us"]
        keep = "30 d"
        mould = { shape = "hemisphere", diameter = "28 mm" }
        shell = { chocolate = "dark-couverture-64", thickness = "2 mm", temper = "tempered" }
        cap = {}
        [[piece.layer]]
        name = "ganache"
        fill_to = "2 mm"
        temperature = "26 Cel"
        kind = "ganache"
        "#;
    let text = check(&Document::parse(text).unwrap().pieces()[0]).unwrap().to_text();
    let flat = flat(&text);
    let told = |words: &str| {
        assert!(
            flat.contains(words),
            "{words}
{text}"
        )
    };
    told("Tell the layer's recipe (ganache): settles ");
    told("the cooling time, the air's temperature and humidity (workshop): settles 7 rules.");
    told("Tell the storage temperature, the storage humidity (storage): settles storage-off.");
    assert_eq!((flat.matches("Tell ").count(), flat.matches("the layer's recipe (ganache)").count()), (5, 1), "{text}");
}

#[test]
fn what_the_maker_sets_or_accepts_is_told() {
    let text = r#"
        format = 1
        [[piece]]
        name = "own limits"
        profile = "small-kitchen"
        allow = [{ rule = "couverture-too-lean-to-mould", reason = "a thick rustic shell is wanted" }]
        shell = { chocolate = "milk-couverture-34", temper = "tempered", emulsifier = [{ kind = "lecithin", form = "fluid", source = "soy", dose = "0.3 %" }] }
        [piece.limits]
        "shell-fat.moulds" = { value = "45 %", reason = "trial" }
        "#;
    let report = check(&Document::parse(text).unwrap().pieces()[0]).unwrap();
    let text = report.to_text();
    assert!(text.contains("rustic shell is wanted"), "{text}");
    // The small kitchen's profile lets lecithin up to 1 % pass.
    let text = report.to_full_text();
    assert!(!text.split("Passed ").next().unwrap().contains("emulsifier-dose-outside-window"), "{text}");
}

/// Beyond every boil that was compared only the scale tells what is left: it takes the thermometer's place, even where both tell the same mass.
#[test]
fn a_scale_takes_the_place_of_a_thermometer() {
    let text = r#"
        format = 1
        [[piece]]
        name = "A"
        [[piece.layer]]
        name = "toffee"
        kind = "caramel"
        mass = "5 g"
        recipe = [{ ingredient = "sucrose", mass = "100 g" }, { ingredient = "cream-36", mass = "200 g" }]
        cooked_at = "145 Cel"
        "#;
    let report = check(&Document::parse(text).unwrap().pieces()[0]).unwrap();
    assert!(flat(&report.to_text()).contains("Fix: cook toffee down to 193 g instead of 145 °C."), "{}", report.to_text());
    assert!(flat(&report.to_full_text()).contains("[layer 1: cooked_to = \"193 g\" for `cooked_at`]"), "{}", report.to_full_text());
}

/// What keeps to a row of law that is only recalled must be looked up; it is not told as a breach.
#[test]
fn a_recalled_row_of_law_that_is_kept_is_told_as_a_doubt() {
    let text = |dose: &str| {
        let shell = format!("emulsifier = [{{ kind = \"lecithin\", form = \"fluid\", source = \"sunflower\", dose = \"{dose}\" }}]");
        let piece =
            format!("format = 1\n[[piece]]\nname = \"A\"\nmarkets = [\"us\"]\nshell = {{ chocolate = \"dark-couverture-64\", {shell} }}\n");
        flat(&check(&Document::parse(&piece).unwrap().pieces()[0]).unwrap().to_text())
    };
    let (kept, broken) = (text("0.1 %"), text("2 %"));
    assert!(kept.contains("The shell: perhaps more of an additive than the law allows: "), "{kept}");
    assert!(broken.contains("The shell: more of an additive than the law allows: "), "{broken}");
}
