//! Puts the pieces of a document right: the fewest and smallest turns, written into a copy of the document.
//!
//! `cargo run --release --example repair -- [FILE [OUTPUT]]`, by default the winter box and `target/repaired.toml`.

mod terminal;

use cordial::engine::Verdict;
use cordial::piece::{Document, Piece};
use cordial::remedy::{Remedy, Repair, repair};
use cordial::report::{Advice, check};
use cordial::rules;
use cordial::units::Choice;
use std::{error::Error, fs, process::ExitCode};
use terminal::{Arguments, WINTER_BOX, document, ended, paragraph, read, say};

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
        tell(piece, &repair)?;
        text = Document::rewritten(&text, index, piece, &repair.turns)?;
    }
    fs::write(output, &text)?;
    say!("written to {output}: comments are kept, what is new is marked `added`");
    Ok(())
}

/// What was turned, and what is left.
fn tell(piece: &Piece, repair: &Repair) -> Result<(), Box<dyn Error>> {
    let outcome = match (repair.turns.len(), repair.left.iter().map(|(_, _, verdict)| *verdict).max()) {
        (0, None) => "needs no repair",
        (_, None) => "is put right",
        (0, Some(Verdict::Caution)) => "does not fail; no turn was found for what is doubtful",
        (_, Some(Verdict::Caution)) => "fails no more",
        (..) => "could not be put right within the ranges searched",
    };
    say!("{} {outcome}", piece.name);
    let mut described = piece.clone();
    for (knob, to) in &repair.turns {
        let from = knob.get(&described).unwrap_or(*to);
        let remedy = Remedy { knob: *knob, from, to: *to, upsets: Vec::new() };
        let advice = Advice::new(remedy, &described, &rules::built_in());
        say!("{}", paragraph(&format!("    - {}", advice.text)));
        if let Some(turned) = knob.set(&described, *to) {
            described = turned;
        }
    }
    let report = check(&repair.piece)?;
    let left = report.findings.iter().filter(|finding| finding.counts() && finding.verdict >= Verdict::Caution);
    let mut told: Vec<(String, Vec<&str>)> = Vec::new();
    for finding in left {
        let (fault, part) = (format!("{} ({})", finding.fault(), finding.verdict.key()), report.part_name(finding.part));
        match told.iter_mut().find(|(known, _)| *known == fault) {
            Some((_, parts)) => parts.push(part),
            None => told.push((fault, vec![part])),
        }
    }
    for (fault, parts) in told {
        say!("{}", paragraph(&format!("    left: {}: {fault}", parts.join(", "))));
    }
    say!();
    Ok(())
}
