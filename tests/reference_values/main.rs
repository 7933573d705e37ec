//! Runs every row of `reference-values/` against its model or rule; `CORDIAL_REFERENCE=<folder>` runs another folder in the same format.
//! The format is described in `reference-values/README.md`.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

mod cases;
mod complaints;
mod evidence;
mod expected;
mod pieces;
mod row;
mod runners;
mod summary;
mod walk;
mod worked;

use std::path::{Path, PathBuf};
use walk::{Folder, Walk};

/// What a row cannot be used for, in words.
type Fault = Box<dyn std::error::Error>;
type Result<T> = std::result::Result<T, Fault>;

#[test]
fn every_row_is_run() {
    let built_in = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-values");
    let (root, folder) = match std::env::var_os("CORDIAL_REFERENCE") {
        Some(own) => (PathBuf::from(own), Folder::Own),
        None => (built_in, Folder::BuiltIn),
    };
    let mut walk = Walk::new(folder);
    walk.folder(&root);
    let report = walk.finish();
    println!("{report}");
    assert!(report.faults.is_empty(), "{} faults in {}:\n{}", report.faults.len(), root.display(), report.faults.join("\n"));
}
