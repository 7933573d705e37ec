//! Puts the pieces of a document right: the fewest and smallest turns, written into a copy of the document.
//!
//! `cargo run --release --example repair -- [FILE [OUTPUT]]`, by default the winter box and `target/repaired.toml`.

mod terminal;

use cordial::engine::Verdict;
use cordial::piece::{Document, Piece};
use cordial::remedy::{Remedy, Repair, repair};
use cordial::report::Advice;
use cordial::rules;
use cordial::units::Choice;
use std::{error::Error, fs, process::ExitCode};
use terminal::{Arguments, WINTER_BOX, document, ended, read, say};

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &[])?;
    let document = document(arguments.words.first())?;
    let mut text = arguments.words.first().map_or(Ok(WINTER_BOX.to_owned()), |file| read(file))?;
    let output = arguments.words.get(1).map_or("target/repaired.toml", String::as_str);
    let rules = rules::built_in();
    for (index, piece) in document.pieces().iter().enumerate() {
        let repair = repair(piece, &rules, |_| true)?;
        tell(piece, &repair);
        text = Document::rewritten(&text, index, piece, &repair.turns)?;
    }
    fs::write(output, &text)?;
    say!("written to {output}: comments are kept, what is new is marked `added`");
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
    say!("{} {outcome}", piece.name);
    let mut described = piece.clone();
    for (knob, to) in &repair.turns {
        let from = knob.get(&described).unwrap_or(*to);
        let remedy = Remedy { knob: *knob, from, to: *to, upsets: Vec::new() };
        say!("    - {}", Advice::new(remedy, &described, &rules::built_in()).text.replace('\u{a0}', " "));
        if let Some(turned) = knob.set(&described, *to) {
            described = turned;
        }
    }
    for (rule, _, verdict) in &repair.left {
        say!("    left: {} ({})", rule.title, verdict.key());
    }
    say!();
}
