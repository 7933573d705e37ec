//! Every published case that was gathered is accounted for in `pieces/published-cases.csv`: it agrees or disagrees, in rows that are run, or
//! cannot be judged for want of something.

use std::{collections::BTreeMap, fs, path::Path};
use toml_edit::{Document, InlineTable};

/// How many cases were gathered.
const GATHERED: usize = 41;

/// The rows of a file whose `id` is one of these, or one of these with something after a stroke.
fn disagreeing(file: &Path, ids: &str) -> (usize, usize) {
    let text = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let document = Document::parse(text.as_str()).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let tables = document.get("table").and_then(|tables| tables.as_array_of_tables()).into_iter().flatten();
    let published = document.get("published").and_then(|table| table.as_table());
    let rows = tables.chain(published).filter_map(|table| table.get("rows")?.as_array()).flatten().filter_map(|row| row.as_inline_table());
    let named = |row: &&InlineTable| {
        let id = row.get("id").and_then(|id| id.as_str()).unwrap_or_default();
        ids.split(' ').any(|wanted| id.strip_prefix(wanted).is_some_and(|rest| rest.is_empty() || rest.starts_with('/')))
    };
    let (mut run, mut disagree) = (0, 0);
    for row in rows.filter(named) {
        assert!(!row.contains_key("context"), "{}: a row of context judges nothing", file.display());
        run += 1;
        disagree += usize::from(row.contains_key("disagrees"));
    }
    (run, disagree)
}

#[test]
fn every_published_case_is_accounted_for() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-values");
    let mut cases = csv::Reader::from_path(root.join("pieces/published-cases.csv")).unwrap();
    let mut verdicts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for case in cases.records().map(Result::unwrap) {
        let [id, outcome, verdict, file, ids, remark] = case.iter().collect::<Vec<_>>()[..] else { panic!("{case:?}") };
        assert!(!id.is_empty() && !outcome.is_empty(), "{case:?}: a case has a name and an outcome");
        match verdict {
            "agrees" | "disagrees" => {
                let (run, disagree) = disagreeing(&root.join(file), ids);
                assert!(run > 0, "{id}: {file} has no row called {ids}");
                assert_eq!(disagree > 0, verdict == "disagrees", "{id}: {disagree} of its {run} rows disagree");
                assert!(verdict == "agrees" || !remark.is_empty(), "{id}: say why it disagrees");
            }
            "cannot be judged" => assert!(file.is_empty() && !remark.is_empty(), "{id}: say what is lacking"),
            other => panic!("{id}: `{other}` is no way to account for a case"),
        }
        verdicts.entry(verdict.to_owned()).or_default().push(id.to_owned());
    }
    let count: usize = verdicts.values().map(Vec::len).sum();
    let unique: std::collections::HashSet<_> = verdicts.values().flatten().collect();
    assert_eq!((count, unique.len()), (GATHERED, GATHERED));
    for (verdict, ids) in &verdicts {
        println!("{} of {count} published cases: {verdict}: {}", ids.len(), ids.join(", "));
    }
}
