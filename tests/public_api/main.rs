//! The public surface of the crate, read from its sources: listed in `tests/public_api.txt`, so that a change of it is seen and meant; the
//! models, which must say of themselves what a reader needs to trust them; and what errors say. `BLESS=1 cargo test --test public_api` writes
//! the list.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

mod messages;
mod models;
mod surface;

use std::fmt::Write as _;
use std::path::Path;
use std::sync::LazyLock;
use std::{env, fs};
use surface::{Entry, Surface};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn entries() -> &'static [Entry] {
    static ENTRIES: LazyLock<Vec<Entry>> = LazyLock::new(|| Surface::of(&root().join("src")).entries());
    &ENTRIES
}

#[test]
fn the_public_surface_is_as_listed() {
    let mut listed = String::new();
    for entry in entries() {
        writeln!(listed, "{}: {}", entry.path, entry.words).unwrap();
    }
    let file = root().join("tests/public_api.txt");
    let known = fs::read_to_string(&file).unwrap_or_default();
    if known == listed {
        return;
    }
    if env::var_os("BLESS").is_some() {
        fs::write(&file, listed).unwrap();
        return;
    }
    let only = |one: &str, other: &str, mark: &str| -> String {
        let other: std::collections::HashSet<_> = other.lines().collect();
        one.lines().filter(|line| !other.contains(line)).map(|line| format!("{mark} {line}\n")).collect()
    };
    panic!(
        "the public surface has changed; if that is meant, run `BLESS=1 cargo test --test public_api` and say so in CHANGELOG.md:\n{}{}",
        only(&known, &listed, "-"),
        only(&listed, &known, "+")
    );
}
