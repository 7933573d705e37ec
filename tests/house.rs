//! The guards of the house: what nobody has to remember. `BLESS=1 cargo test --test house` writes what can be written.
#![cfg(feature = "documents")]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a test may stop at the first surprise"
)]

use cordial::engine::{Card, Limit, Severity, Side};
use cordial::units::Choice;
use cordial::{Document, check, rules, source};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::path::{Path, PathBuf};
use std::{fmt::Write, fs};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn cards() -> Vec<&'static Card> {
    rules::built_in().cards().collect()
}

fn limits() -> Vec<&'static Limit> {
    cards().iter().flat_map(|card| card.limits.iter().copied()).collect()
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    files(folder).into_iter().filter(|path| path.extension().is_some_and(|end| end == "rs")).collect()
}

/// units <- matter <- models, law <- piece <- assess <- engine <- rules, remedy <- report; source beside matter.
#[test]
fn imports_run_one_way() {
    let may_use = BTreeMap::from([
        ("units", ""),
        ("matter", "units"),
        ("source", "units matter"),
        ("law", "units matter source"),
        ("models", "units matter"),
        ("balance", "units matter"),
        ("piece", "units matter models law"),
        ("assess", "units matter models law piece"),
        ("engine", "units matter law piece assess source"),
        ("rules", "units matter law piece assess source engine"),
        ("remedy", "units matter law piece assess source engine"),
        ("tolerance", "units matter law piece assess source engine"),
        ("screen", "units matter law piece assess source engine"),
        ("report", "units matter models law balance piece assess source engine rules remedy tolerance"),
        ("laws", "units matter models law piece assess source engine rules remedy screen report"),
    ]);
    for file in sources(&root().join("src")) {
        let inside = file.strip_prefix(root().join("src")).unwrap();
        let module = inside.iter().next().unwrap().to_str().unwrap().trim_end_matches(".rs").to_owned();
        let Some(allowed) = may_use.get(module.as_str()) else {
            assert_eq!(module, "lib", "{} has no place in the order of imports", inside.display());
            continue;
        };
        for (number, line) in fs::read_to_string(&file).unwrap().lines().enumerate() {
            let code = line.split("//").next().unwrap();
            for path in code.match_indices("crate::").map(|(at, mark)| &code[at + mark.len()..]) {
                let used: String = path.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                let known = used == module || allowed.split(' ').any(|other| other == used) || !may_use.contains_key(used.as_str());
                assert!(known, "{}:{} uses {used}, which {module} may not", inside.display(), number + 1);
            }
        }
    }
}

#[test]
fn cards_are_complete() {
    let mut ids = HashSet::new();
    for card in cards() {
        for id in card.aliases.iter().chain([&card.id]) {
            assert!(ids.insert(*id), "two rules are called {id}");
            assert!(id.chars().all(|c| c.is_ascii_lowercase() || c == '-') && id.contains('-'), "{id} is no kebab-case");
        }
        assert!(card.title.starts_with(|c: char| c.is_lowercase()) && !card.title.ends_with('.'), "{}: {}", card.id, card.title);
        assert!(card.rationale.matches(". ").count() + 1 >= 2, "{}: the rationale wants two sentences", card.id);
        assert!(card.rationale.trim().ends_with('.'), "{}: the rationale wants a full stop", card.id);
        assert!(!card.limits.is_empty(), "{} has no limit", card.id);
    }
}

#[test]
fn limits_are_complete() {
    let mut keys = HashSet::new();
    for limit in limits() {
        assert!(keys.insert(limit.key), "two limits are called {}", limit.key);
        assert!(limit.key.contains('.') && limit.key.chars().all(|c| c.is_ascii_lowercase() || c == '-' || c == '.'), "{}", limit.key);
        assert!(!limit.place.is_empty(), "{} does not say where in its source, or why", limit.key);
        assert!(source::find(limit.source.key).is_some(), "{} rests on an unlisted source", limit.key);
    }
    for profile in rules::built_in().profiles() {
        for set in profile.limits {
            let limit = limits().into_iter().find(|limit| limit.key == set.key);
            let limit = limit.unwrap_or_else(|| panic!("profile {} sets {}, which is no limit", profile.name, set.key));
            assert_eq!(set.value.unit().dimension(), limit.quantity.dimension(), "profile {}, {}", profile.name, set.key);
        }
    }
}

/// `temper.dark-high` belongs with `temper.dark-lost`, `ganache-water.shelf` with `ganache-water.max`.
fn family(key: &str) -> &str {
    let (group, which) = key.split_once('.').unwrap();
    which.rsplit_once('-').map_or(group, |(case, _)| &key[..group.len() + 1 + case.len()])
}

/// Where several limits of one family and side stand on one quantity, the louder one is further out.
#[test]
fn louder_limits_lie_further_out() {
    for card in cards() {
        for one in card.limits {
            for two in card.limits.iter().filter(|two| {
                family(two.key) == family(one.key)
                    && two.quantity == one.quantity
                    && two.side == one.side
                    && two.severity > one.severity
                    && !two.family
            }) {
                let (one_base, two_base) = (one.careful.base(), two.careful.base());
                let further = if one.side == Side::AtLeast { two_base <= one_base } else { two_base >= one_base };
                assert!(further, "{}: {} is louder than {} but lies inside it", card.id, two.key, one.key);
            }
        }
    }
}

fn limit_words(limit: &Limit) -> String {
    let side = if limit.side == Side::AtLeast { "≥" } else { "≤" };
    let mark = match limit.severity {
        Severity::Breach => "**",
        Severity::Warning => "",
        Severity::Advice => "*",
    };
    // The values of a family stand in the rows of law.
    if limit.family { format!("{mark}by the law of each market{mark}") } else { format!("{mark}{side} {}{mark}", limit.careful) }
}

#[test]
fn the_rule_table_of_the_readme_is_in_step() {
    let mut table = String::from("\n| rule | checks | limits (**breach**, warning, *advice*) |\n|---|---|---|\n");
    for domain in cordial::engine::Domain::ALL {
        for card in cards().into_iter().filter(|card| card.domain == *domain) {
            let mut groups: Vec<(&str, Vec<String>)> = Vec::new();
            for limit in card.limits {
                let words = if limit.family { limit.key } else { limit.quantity.words() };
                match groups.iter_mut().find(|(other, _)| *other == words) {
                    Some((_, limits)) => limits.push(limit_words(limit)),
                    None => groups.push((words, vec![limit_words(limit)])),
                }
            }
            let groups: Vec<_> = groups.iter().map(|(words, limits)| format!("{words} {}", limits.join(", "))).collect();
            writeln!(table, "| `{}` | {} | {} |", card.id, card.title, groups.join("; ")).unwrap();
        }
    }
    table.push('\n');
    keep_between("README.md", "<!-- rules: kept in step by tests/house.rs -->", "<!-- /rules -->", &table);
}

/// Puts a text between two marks of a file, or checks that it stands there.
fn keep_between(file: &str, open: &str, close: &str, wanted: &str) {
    let path = root().join(file);
    let text = fs::read_to_string(&path).unwrap();
    let start = text.find(open).expect("the file has an opening mark") + open.len();
    let end = start + text[start..].find(close).expect("the file has a closing mark");
    if &text[start..end] != wanted {
        assert!(std::env::var_os("BLESS").is_some(), "{file} is out of step: run `BLESS=1 cargo test --test house`");
        fs::write(&path, format!("{}{wanted}{}", &text[..start], &text[end..])).unwrap();
    }
}

#[test]
fn the_sample_report_of_the_readme_is_what_is_printed() {
    let document = Document::parse(&fs::read_to_string(root().join("examples/data/winter-box.toml")).unwrap()).unwrap();
    let printed = check(&document.pieces()[0]).unwrap().to_text();
    // The figures and the first three findings.
    let fourth = printed.match_indices("\nFAIL  ").nth(3).expect("it fails by more than three rules").0;
    keep_between("README.md", "```text\n", "```\n\nAdd `--full`", &printed[..=fourth]);
}

/// Every question has an answer that is there, or says that it has none.
#[test]
fn what_people_ask_is_answered_by_what_there_is() {
    let text = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let (_, asked) = text.split_once("## What people ask").expect("a table of questions");
    let rows: Vec<_> =
        asked.lines().skip_while(|line| !line.starts_with("|---")).skip(1).take_while(|line| line.starts_with('|')).collect();
    assert_eq!(rows.len(), 42);
    for (index, row) in rows.iter().enumerate() {
        let cells: Vec<_> = row.split('|').map(str::trim).collect();
        assert_eq!(cells[1], (index + 1).to_string(), "{row}");
        let named: Vec<_> = cells[3].split('`').skip(1).step_by(2).filter(|name| !name.starts_with('-')).collect();
        for name in &named {
            let there = root().join(format!("examples/{name}.rs")).is_file() || cards().iter().any(|card| card.id == *name);
            assert!(there, "`{name}` is neither an example nor a rule: {row}");
        }
        assert!(!named.is_empty() || cells[3].starts_with("not answered yet"), "{row}");
    }
}

/// Every example is declared, shown in the README and run before anything lands; nothing is that is not there.
#[test]
fn examples_are_listed_everywhere() {
    let names = |text: &str, before: &str, until: char| -> BTreeSet<String> {
        let after = text.split(before).skip(1).map(|rest| rest.split(until).next().unwrap_or_default());
        after.map(|name| name.split_whitespace().next().unwrap_or_default().trim_matches(['`', '"']).to_owned()).collect()
    };
    let files = fs::read_dir(root().join("examples")).unwrap().map(|entry| entry.unwrap().path());
    let files: BTreeSet<String> = files
        .filter(|path| path.extension().is_some_and(|end| end == "rs"))
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    assert_eq!(names(&manifest, "[[example]]\nname = ", '\n'), files, "Cargo.toml against the files in examples/");
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    assert_eq!(names(&readme, "--example ", '\n'), files, "README.md against the files in examples/");
    // Not part of the published package.
    if let Ok(checks) = fs::read_to_string(root().join(".ci/run")) {
        let run: BTreeSet<String> = names(&checks, "\nexpect 0 ", '\n').into_iter().chain(names(&checks, "\nexpect 1 ", '\n')).collect();
        assert_eq!(run, files, ".ci/run against the files in examples/");
    }
}

/// A source that nothing rests on is a promise nobody keeps; where it can be read, the address is one.
#[test]
fn sources_are_used_and_resolve() {
    let mut used = String::new();
    for folder in ["src", "reference-values"] {
        for file in files(&root().join(folder)).iter().filter(|file| !file.ends_with("source.rs")) {
            used += &fs::read_to_string(file).unwrap_or_default();
        }
    }
    let code = fs::read_to_string(root().join("src/source.rs")).unwrap();
    for source in source::ALL {
        assert!(source.at.is_empty() || source.at.starts_with("http"), "{}: `{}` is no address", source.key, source.at);
        assert!(!source.title.is_empty(), "{} has no title", source.key);
        let declared = code.lines().find(|line| line.contains(&format!(" \"{}\" {{", source.key))).unwrap();
        let name = declared.split_whitespace().next().unwrap();
        // By the constant, by the key in data, or in the documentation of a model by the first author, or by what it is about.
        let author: String = source.authors.chars().take_while(|c| c.is_alphanumeric()).collect();
        let about = source.key.trim_end_matches(|c: char| c.is_ascii_digit() || c == '-').replace('-', " ");
        let cited = [format!("source::{name}"), format!("\"{}\"", source.key), author, about];
        assert!(cited.iter().any(|words| words.len() > 3 && used.contains(words)), "nothing rests on {}", source.key);
    }
}

/// No word of any kind that leaks where the work was done, no address that pins a registry.
#[test]
fn the_tree_names_no_place_it_was_made_in() {
    for file in ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "benches/rivals/README.md", "examples/scale-out/README.md"] {
        let text = fs::read_to_string(root().join(file)).unwrap_or_default();
        for word in ["/home/", "/root/", "/work/", "crates-io", "crates.io/", "pypi.org"] {
            assert!(!text.contains(word), "{file} holds {word}");
        }
    }
}
