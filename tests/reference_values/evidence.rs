//! Every limit and every parameter rests on a reference value, or tells whoever reads the report that it does not.

use crate::pieces::Pieces;
use cordial::engine::Standing;
use cordial::matter::{Known, Larder};
use cordial::models::growth::{CLASSES, ORGANISMS};
use cordial::models::water::Solute;
use cordial::report::to_json;
use cordial::rules::BUILT_IN;
use cordial::units::Choice;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use toml_edit::Document;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The files of a folder of reference values and of those in it.
fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let inside = entries.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] });
    inside.filter(|path| path.extension().is_some_and(|end| end == "toml")).collect()
}

/// What reports on the worked pieces tell of the evidence of each limit: its standing and its basis.
fn told() -> BTreeMap<String, (String, String)> {
    let mut told = BTreeMap::new();
    for file in files(&root().join("reference-values/pieces")) {
        let text = fs::read_to_string(&file).unwrap();
        let document = Document::parse(text.as_str()).unwrap();
        let (pieces, _) = Pieces::check(&document).unwrap_or_else(|fault| panic!("{}: {fault}", file.display()));
        let json = to_json(pieces.reports());
        for reading in json["pieces"].as_array().unwrap().iter().flat_map(|piece| piece["readings"].as_array().unwrap()) {
            let word = |key: &str| reading[key].as_str().unwrap().to_owned();
            told.insert(word("limit"), (word("standing"), word("basis")));
        }
    }
    told
}

#[test]
fn every_limit_tells_on_what_it_rests() {
    let told = told();
    // The members of a family rest each on its own section of law: see tests/law.rs.
    for limit in BUILT_IN.iter().flat_map(|rule| rule.card().limits).filter(|limit| !limit.family) {
        let (standing, basis) = told.get(limit.key).unwrap_or_else(|| panic!("no worked piece reads {}", limit.key));
        assert_eq!(standing, limit.standing.key(), "{}", limit.key);
        assert!(basis.starts_with(limit.standing.key()) && basis.contains(limit.place), "{}: {basis}", limit.key);
        let mark = match limit.source.known {
            Known::Memory if limit.source.key == "common-practice" => "common practice",
            Known::Memory => "(recalled, unverified)",
            Known::Mixed => "(partly recalled)",
            Known::Declared => "a choice of this project",
            Known::Seen | Known::Computed => limit.source.title,
        };
        assert!(basis.contains(mark), "{}: `{basis}` does not say `{mark}`", limit.key);
    }
}

/// A limit that claims to be measured or written law has a reference value of its source.
#[test]
fn measured_limits_and_statutes_have_reference_values() {
    let mut rows = String::new();
    for file in files(&root().join("reference-values")).iter().filter(|file| !file.iter().any(|part| part == "worked")) {
        rows += &fs::read_to_string(file).unwrap();
    }
    for limit in BUILT_IN.iter().flat_map(|rule| rule.card().limits) {
        if !matches!(limit.standing, Standing::Measured | Standing::Statute) {
            continue;
        }
        let source = limit.source;
        assert!(source.known != Known::Memory, "{} is {} by what is only remembered", limit.key, limit.standing.key());
        let has_row = rows.contains(&format!("source = \"{}\"", source.key));
        assert!(has_row || source.known == Known::Computed, "{}: no reference value of {}", limit.key, source.key);
    }
}

/// Words by which a source says that nothing was measured for it here.
const UNMEASURED: [&str; 5] = ["memory", "weak", "estimate", "assumed", "default"];

#[test]
fn every_solute_is_measured_or_says_it_is_not() {
    let mut rows = String::new();
    for file in files(&root().join("reference-values/water")) {
        rows += &fs::read_to_string(&file).unwrap();
    }
    // Of solids that take up water without dissolving the documentation says that all constants are remembered.
    for solute in Solute::ALL {
        let (key, source) = (solute.constituent.key(), solute.source);
        let has_row = rows.contains(&format!("{key} = \""));
        let honest = UNMEASURED.iter().any(|word| source.contains(word));
        assert!(has_row || honest, "{key} has no reference value, yet its source is `{source}`");
        assert!(has_row || solute.covered <= 0.0, "{key} is said to be covered by measurements, of which none stands here");
    }
}

#[test]
fn parameters_of_growth_and_the_larder_say_how_they_are_known() {
    for organism in ORGANISMS {
        assert!(!organism.source.is_empty() && organism.known != Known::Declared, "{}", organism.name);
    }
    for class in CLASSES {
        assert!(!class.source.is_empty() && class.known != Known::Declared, "{}", class.name);
    }
    let larder = Larder::built_in();
    assert!(larder.iter().count() > 50);
    for ingredient in larder.iter() {
        assert!(!ingredient.record.is_empty(), "{} has no record", ingredient.name);
    }
}
