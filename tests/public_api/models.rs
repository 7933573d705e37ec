//! Every published correlation says of itself, under six headings, what a reader needs to trust it, and proves one value as it is
//! documented; every other function of a model says which correlation it rests on.

use crate::surface::Entry;
use std::collections::BTreeSet;

const HEADINGS: [&str; 6] = ["Equation", "Units", "Range", "Error", "Worked value", "Source"];

/// The text under a heading.
fn section<'a>(docs: &'a str, heading: &str) -> Option<&'a str> {
    let start = format!("# {heading}\n");
    let at = if docs.starts_with(&start) { 0 } else { docs.find(&format!("\n{start}"))? + 1 };
    let rest = &docs[at + start.len()..];
    // Not at every `# `: examples hide lines by it.
    let ends = HEADINGS.iter().chain(&["Errors", "Panics"]).filter_map(|next| rest.find(&format!("\n# {next}\n")));
    Some(&rest[..ends.min().unwrap_or(rest.len())])
}

/// What a correlation lacks.
fn lacks(docs: &str) -> Vec<String> {
    let mut lacks: Vec<_> = HEADINGS
        .iter()
        .filter(|heading| section(docs, heading).is_none_or(|text| text.trim().is_empty()))
        .map(|heading| format!("`# {heading}`"))
        .collect();
    let places: Vec<_> = HEADINGS.iter().filter_map(|heading| docs.find(&format!("# {heading}\n"))).collect();
    if !places.is_sorted() {
        lacks.push("the usual order of headings".to_owned());
    }
    if let Some(worked) = section(docs, "Worked value")
        && !is_proved(worked)
    {
        lacks.push("a worked value that is run as an example and asserted".to_owned());
    }
    if section(docs, "Source").is_some_and(|source| !KNOWN.iter().any(|word| source.to_lowercase().contains(word))) {
        lacks.push(format!("how its source is known: one of {}", KNOWN.join(", ")));
    }
    lacks
}

/// How a source may be known.
const KNOWN: [&str; 5] = ["seen", "memory", "computed", "self::known", "a choice of this project"];

/// Whether a text holds an example that is compiled, run and asserts something.
fn is_proved(text: &str) -> bool {
    let mut blocks = text.split("```").skip(1).step_by(2);
    blocks.any(|block| {
        let (kind, code) = block.split_once('\n').unwrap_or(("", block));
        let runs = ["", "rust"].contains(&kind.trim());
        runs && code
            .lines()
            .any(|line| ["assert!", "assert_eq!"].iter().any(|call| line.trim_start_matches("# ").trim_start().starts_with(call)))
    })
}

/// Names in links, ``[`density`]`` and ``[`uptake`](super::uptake)``: their last part.
fn links(docs: &str) -> impl Iterator<Item = &str> {
    docs.split("[`").skip(1).filter_map(|rest| rest.split_once("`]")).filter_map(|(name, _)| name.rsplit("::").next())
}

fn last(path: &str) -> &str {
    path.rsplit("::").next().unwrap_or(path)
}

fn parent(path: &str) -> &str {
    path.rsplit_once("::").map_or("", |(parent, _)| parent)
}

fn is_correlation(entry: &Entry) -> bool {
    HEADINGS.iter().any(|heading| section(&entry.docs, heading).is_some())
}

#[test]
fn every_correlation_documents_itself() {
    let models: Vec<&Entry> = crate::entries().iter().filter(|entry| entry.path.starts_with("cordial::models::")).collect();
    let correlations: Vec<_> = models.iter().filter(|entry| is_correlation(entry)).collect();
    assert!(correlations.len() >= 60, "only {} correlations found", correlations.len());
    let mut faults: Vec<String> = Vec::new();
    for entry in &correlations {
        faults.extend(lacks(&entry.docs).iter().map(|lack| format!("{} lacks {lack}", entry.path)));
    }
    let paths: BTreeSet<_> = correlations.iter().map(|entry| entry.path.as_str()).collect();
    // Types a method of which is one.
    let types: BTreeSet<_> = paths.iter().map(|path| parent(path)).filter(|parent| last(parent).starts_with(char::is_uppercase)).collect();
    let names: BTreeSet<_> = paths.iter().map(|path| last(path)).collect();
    for entry in models.iter().filter(|entry| entry.is_function && !is_correlation(entry)) {
        let of_correlation = paths.contains(parent(&entry.path)) || types.contains(parent(&entry.path));
        let of_its_type = models.iter().filter(|other| other.path == parent(&entry.path)).map(|other| other.docs.as_str());
        let linked = of_its_type.chain([entry.docs.as_str()]).any(|docs| links(docs).any(|name| names.contains(name)));
        if !of_correlation && !linked {
            faults.push(format!("{} neither has the six headings nor links to the correlation it rests on", entry.path));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Correlations that no reference value and no other implementation is held against by name, each with what holds it instead.
const UNCOMPARED: [(&str, &str); 9] = [
    ("cordial::models::fat::solid_fat::softening", "arithmetic on `solid`, which is compared"),
    ("cordial::models::flow::casting_flow::CastingFlow::carried", "the undeclared couverture it ends in is compared"),
    ("cordial::models::flow::dose::for_yield_value", "turns `yield_factor` round, which is compared; its tests go there and back"),
    ("cordial::models::growth::Organism", "a table, of which rows hold transcribed entries"),
    ("cordial::models::growth::ShelfLifeClass", "a table of the trade's ranges: its tests hold the edges"),
    ("cordial::models::heat::cooling::WarmBody::cools", "Newton's law in closed form"),
    ("cordial::models::water::MeasuredBatch", "carries one measurement over; the balance it corrects is compared"),
    ("cordial::models::water::minor_osmoles", "the freezing point of milk in its worked value"),
    ("cordial::models::water::supersaturation", "its tests hold it against the solubilities, which are compared"),
];

#[test]
fn every_correlation_is_held_against_something() {
    let mut runners = String::new();
    for folder in ["tests/reference_values/runners", "tests/differential"] {
        for file in std::fs::read_dir(crate::root().join(folder)).unwrap() {
            runners += &std::fs::read_to_string(file.unwrap().path()).unwrap();
        }
    }
    let words: BTreeSet<&str> = runners.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
    let mut faults = Vec::new();
    for entry in crate::entries().iter().filter(|entry| entry.path.starts_with("cordial::models::") && is_correlation(entry)) {
        let excused = UNCOMPARED.iter().any(|(path, _)| *path == entry.path);
        if words.contains(last(&entry.path)) == excused {
            faults.push(entry.path.clone());
        }
    }
    assert!(faults.is_empty(), "nothing runs, or something does though it is excused:\n{}", faults.join("\n"));
}

#[test]
fn a_bad_documentation_is_seen() {
    let good = "What it is.\n\n# Equation\na\n\n# Units\nb\n\n# Range\nc\n\n# Error\nd\n\n# Worked value\ne\n```\nassert!(true);\n```\n\n# Source\nSeen.\n";
    assert_eq!(lacks(good), Vec::<String>::new());
    for (from, to) in [
        ("# Units\nb\n\n", ""),
        ("# Range\nc", "# Range\n"),
        ("assert!", "println!"),
        ("```\nassert", "```no_run\nassert"),
        ("```\nassert", "```text\nassert"),
        ("Seen", "Somewhere"),
    ] {
        assert_eq!(lacks(&good.replacen(from, to, 1)).len(), 1, "{from}");
    }
}
