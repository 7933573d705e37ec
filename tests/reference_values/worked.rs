//! Every limit of every built-in rule has a worked piece that keeps it and one that breaks it.

use cordial::rules::BUILT_IN;
use std::{collections::HashSet, fs, path::Path};
use toml_edit::Document;

/// Limits that no piece can break, or none can keep, each with the reason: none, as the law of reachable limits wants it.
const ONE_SIDED: [(&str, &str, &str); 0] = [];

/// What rows without a note of disagreement expect of a limit: `(key, "kept")` or `(key, "broken")`.
fn expected(folder: &Path) -> HashSet<(String, &'static str)> {
    let mut sides = HashSet::new();
    for file in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        let text = fs::read_to_string(&file).unwrap();
        let document = Document::parse(text.as_str()).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let rows = document.get("published").and_then(|table| table.get("rows")).and_then(|rows| rows.as_array());
        for row in rows.into_iter().flatten().filter_map(|row| row.as_inline_table()).filter(|row| !row.contains_key("disagrees")) {
            let word = |key| row.get(key).and_then(|value| value.as_str());
            let side = match word("is") {
                Some("pass") => "kept",
                Some("note" | "caution" | "fail") => "broken",
                _ => continue,
            };
            sides.extend(word("limit").map(|limit| (limit.to_owned(), side)));
        }
    }
    sides
}

#[test]
fn every_limit_is_worked_from_both_sides() {
    let folder = "reference-values/pieces/worked";
    let worked = expected(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder));
    let mut lacking = Vec::new();
    for card in BUILT_IN.iter().map(|rule| rule.card()) {
        for key in card.limits.iter().map(|limit| limit.key) {
            for side in ["kept", "broken"] {
                let there = worked.contains(&(key.to_owned(), side));
                match ONE_SIDED.iter().find(|(limit, missing, _)| *limit == key && *missing == side) {
                    None if !there => lacking.push(format!("{folder}/{}.toml: no row in which `{key}` is {side}", card.id)),
                    Some((.., reason)) if there => lacking.push(format!("`{key}` is {side} in a row, though \"{reason}\"")),
                    _ => {}
                }
            }
        }
    }
    assert!(lacking.is_empty(), "write a worked piece for each, the verdict reasoned from the rule's card:\n{}", lacking.join("\n"));
}
