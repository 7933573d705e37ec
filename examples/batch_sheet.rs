//! What to melt and weigh for a batch of each piece of a document, in what order, and what a piece costs.
//!
//! `cargo run --release --example batch_sheet -- [FILE] [--json]`, by default the winter box.

use cordial::Document;
use cordial::report::BatchSheet;
use std::{error::Error, fs, process::ExitCode};

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}

fn run() -> Result<(), Box<dyn Error>> {
    let mut arguments: Vec<String> = std::env::args().skip(1).collect();
    let json = arguments.iter().any(|argument| argument == "--json");
    arguments.retain(|argument| argument != "--json");
    let file = arguments.first().map_or("examples/data/winter-box.toml", String::as_str);
    let document = Document::parse(&fs::read_to_string(file).map_err(|error| format!("{file}: {error}"))?)?;
    for piece in document.pieces() {
        match BatchSheet::of(piece) {
            Ok(sheet) if json => println!("{:#}", sheet.to_json()),
            Ok(sheet) => println!("{}", sheet.to_markdown()),
            Err(error) => println!("{error}\n"),
        }
    }
    Ok(())
}
