//! What errors say: lower case, one line, no full stop, the user's words in backticks, named data.

use std::path::{Path, PathBuf};
use syn::{Attribute, Fields, Item};

/// Data that holds what a person wrote, and so stands in backticks.
const USERS_WORDS: [&str; 4] = ["name", "text", "word", "offered"];

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let inside = entries.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] });
    inside.filter(|path| path.extension().is_some_and(|end| end == "rs")).collect()
}

fn is_error(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let mut found = false;
        if attribute.path().is_ident("derive") {
            let _ = attribute.parse_nested_meta(|meta| {
                found |= meta.path.segments.last().is_some_and(|last| last.ident == "Error");
                Ok(())
            });
        }
        found
    })
}

/// The text of `#[error("...")]`; none for a transparent one.
fn message(attributes: &[Attribute]) -> Option<String> {
    let attribute = attributes.iter().find(|attribute| attribute.path().is_ident("error"))?;
    let text = |input: syn::parse::ParseStream| {
        let text: Option<syn::LitStr> = input.parse().ok();
        let _: proc_macro2::TokenStream = input.parse()?;
        Ok(text.map(|text| text.value()))
    };
    attribute.parse_args_with(text).unwrap()
}

/// What is wrong with a message.
fn faults(message: &str) -> Vec<&'static str> {
    let mut faults = Vec::new();
    let mut say = |wrong: bool, what| faults.extend(wrong.then_some(what));
    say(message.starts_with(char::is_uppercase), "begins with a capital");
    say(message.ends_with(['.', '!']), "ends with a stop");
    say(message.contains('\n'), "is more than one line");
    say(message.contains(":?}"), "shows a Rust value");
    say(message.trim().is_empty(), "says nothing");
    let bare = |word: &&str| {
        let hole = format!("{{{word}}}");
        message.match_indices(&hole).any(|(at, _)| !message[..at].ends_with('`'))
    };
    say(USERS_WORDS.iter().any(bare), "shows the user's words without backticks");
    faults
}

#[test]
fn messages_are_as_people_are_told() {
    let (mut seen, mut wrong, mut closed) = (0, Vec::new(), Vec::new());
    for file in files(&crate::root().join("src")) {
        let tree = syn::parse_file(&std::fs::read_to_string(&file).unwrap()).unwrap();
        let place = file.strip_prefix(crate::root()).unwrap().display().to_string();
        let mut judge = |name: &str, attributes: &[Attribute], fields: &Fields| {
            let Some(message) = message(attributes) else { return };
            seen += 1;
            wrong.extend(faults(&message).iter().map(|fault| format!("{place}, {name}: `{message}` {fault}")));
            if matches!(fields, Fields::Unnamed(_)) && message != "{0}" {
                wrong.push(format!("{place}, {name}: its data have no names"));
            }
        };
        for item in &tree.items {
            match item {
                Item::Enum(item) if is_error(&item.attrs) => {
                    item.variants.iter().for_each(|case| judge(&case.ident.to_string(), &case.attrs, &case.fields));
                    if !item.attrs.iter().any(|attribute| attribute.path().is_ident("non_exhaustive")) {
                        closed.push(format!("{place}, {}: not `#[non_exhaustive]`", item.ident));
                    }
                }
                Item::Struct(item) if is_error(&item.attrs) => judge(&item.ident.to_string(), &item.attrs, &item.fields),
                _ => {}
            }
        }
    }
    assert!(seen >= 40, "only {seen} messages found");
    wrong.extend(closed);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn bad_messages_are_seen() {
    assert_eq!(faults("`{name}` is not known here: use one of {known}"), Vec::<&str>::new());
    for bad in ["No such thing", "it failed.", "two\nlines", "found {found:?}", " ", "{name} is not known here"] {
        assert_eq!(faults(bad).len(), 1, "{bad}");
    }
}
