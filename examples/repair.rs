//! Puts the pieces of a document right: the fewest and smallest turns, written into a copy of the document.
//!
//! `cargo run --release --example repair -- [FILE [OUTPUT]]`, by default the winter box and `target/repaired.toml`.

use cordial::engine::Verdict;
use cordial::piece::{Document, Piece};
use cordial::remedy::{Remedy, Repair, repair};
use cordial::report::Advice;
use cordial::rules;
use cordial::units::Choice;
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
    let mut arguments = std::env::args().skip(1);
    let input = arguments.next().unwrap_or_else(|| "examples/data/winter-box.toml".into());
    let output = arguments.next().unwrap_or_else(|| "target/repaired.toml".into());
    let mut text = fs::read_to_string(&input).map_err(|error| format!("{input}: {error}"))?;
    let (document, rules) = (Document::parse(&text)?, rules::built_in());
    for (index, piece) in document.pieces().iter().enumerate() {
        let repair = repair(piece, &rules, |_| true)?;
        tell(piece, &repair);
        text = Document::rewritten(&text, index, piece, &repair.turns)?;
    }
    fs::write(&output, &text)?;
    println!("written to {output}: comments are kept, what is new is marked `added`");
    Ok(())
}

/// What was turned, and what is left.
fn tell(piece: &Piece, repair: &Repair) {
    let fails = repair.left.iter().filter(|(_, _, verdict)| *verdict == Verdict::Fail).count();
    let outcome = match (repair.turns.len(), fails) {
        (0, 0) => "needs no repair",
        (_, 0) => "is put right",
        (..) => "could not be put right within the ranges searched",
    };
    println!("{} {outcome}", piece.name);
    let mut described = piece.clone();
    for (knob, to) in &repair.turns {
        let from = knob.get(&described).unwrap_or(*to);
        let remedy = Remedy { knob: *knob, from, to: *to, upsets: Vec::new() };
        println!("    - {}", Advice::new(remedy, &described, &rules::built_in()).text.replace('\u{a0}', " "));
        if let Some(turned) = knob.set(&described, *to) {
            described = turned;
        }
    }
    for (rule, _, verdict) in &repair.left {
        println!("    left: {} ({})", rule.title, verdict.key());
    }
    println!();
}
