//! What to melt and weigh for a batch of each piece of a document, in what order, and what a piece costs.
//!
//! `cargo run --release --example batch_sheet -- [FILE] [--json]`, by default the winter box.

mod terminal;

use cordial::report::BatchSheet;
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, document, ended, say};

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&["--json"], &[])?;
    let json = arguments.has("--json");
    let document = document(arguments.words.first())?;
    for piece in document.pieces() {
        match BatchSheet::of(piece) {
            Ok(sheet) if json => say!("{:#}", sheet.to_json()),
            Ok(sheet) => say!("{}", sheet.to_markdown()),
            Err(error) => say!("{error}\n"),
        }
    }
    Ok(())
}
