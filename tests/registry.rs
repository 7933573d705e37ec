//! Keeps `src/rules/mod.rs` and the lists in its folders in step with the files that are there: `BLESS=1 cargo test --test registry`.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used, reason = "a test may stop at the first surprise")]

use std::{fs, path::Path};

const OPEN: &str = "// <registry> kept in step by tests/registry.rs\n";
const CLOSE: &str = "// </registry>\n";

fn names(folder: &Path, wanted: impl Fn(&Path) -> bool) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut names: Vec<_> =
        entries.filter(|path| wanted(path)).map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned()).collect();
    names.sort();
    names
}

fn rules(folder: &Path) -> Vec<String> {
    names(folder, |path| path.extension().is_some_and(|end| end == "rs") && path.file_name().unwrap() != "mod.rs")
}

fn type_name(file: &str) -> String {
    file.split('_').map(|word| word[..1].to_uppercase() + &word[1..]).collect()
}

/// Puts `body` between the marks of a file, or checks that it stands there.
fn keep(file: &Path, body: &str) {
    let text = fs::read_to_string(file).unwrap_or_else(|_| format!("//! Rules.\n\n{OPEN}{CLOSE}"));
    let start = text.find(OPEN).expect("the file has an opening mark") + OPEN.len();
    let end = text.find(CLOSE).expect("the file has a closing mark");
    if &text[start..end] == body {
        return;
    }
    assert!(std::env::var_os("BLESS").is_some(), "{} is out of step: run `BLESS=1 cargo test --test registry`", file.display());
    fs::write(file, format!("{}{body}{}", &text[..start], &text[end..])).unwrap();
}

#[test]
fn registry_is_in_step() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules");
    let domains = names(&root, Path::is_dir);
    let mut all = String::new();
    for domain in &domains {
        let rules = rules(&root.join(domain));
        let modules: String = rules.iter().map(|rule| format!("mod {rule};\n")).collect();
        let types: String = rules.iter().map(|rule| format!("pub use {rule}::{};\n", type_name(rule))).collect();
        keep(&root.join(domain).join("mod.rs"), &format!("{modules}\n{types}"));
        all += &rules.iter().map(|rule| format!("    &{domain}::{},\n", type_name(rule))).collect::<String>();
    }
    let modules: String = domains.iter().map(|domain| format!("pub mod {domain};\n")).collect();
    let list = "/// Every rule of the crate, by domain and name.\npub static BUILT_IN: &[&dyn Rule] = &[\n";
    keep(&root.join("mod.rs"), &format!("{modules}\n{list}{all}];\n"));
}

#[test]
fn files_are_named_after_their_rules() {
    for rule in cordial::rules::BUILT_IN {
        let card = rule.card();
        let file = Path::new(card.file);
        assert_eq!(file.file_stem().unwrap().to_str().unwrap().replace('_', "-"), card.id);
        assert_eq!(file.parent().unwrap().file_name().unwrap().to_str().unwrap(), cordial::units::Choice::key(card.domain), "{}", card.id);
    }
}
