//! What the label of each piece must say in its markets, for a printer after a qualified person's check.
//!
//! `cargo run --release --example label -- [FILE] [--market us] [--json]`, by default the winter box and the markets of each piece.

use cordial::Document;
use cordial::matter::Market;
use cordial::piece::Piece;
use cordial::report::Label;
use cordial::units::Choice;
use std::{error::Error, fs, process::ExitCode};

#[path = "kitchen/mod.rs"]
#[allow(dead_code, reason = "a label weighs no fillings")]
mod kitchen;

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
    let arguments = kitchen::Arguments::read(&["--json"], &["--market"])?;
    let document = match arguments.words.as_slice() {
        [] => Document::parse(kitchen::WINTER_BOX)?,
        [file] => {
            let text = fs::read(file).map_err(|error| format!("{file}: {error}"))?;
            let text = String::from_utf8(text).map_err(|_| format!("{file}: it is no text in UTF-8"))?;
            Document::parse(&text).map_err(|error| format!("{file}: {error}"))?
        }
        _ => return Err("name one document, or none for the winter box".into()),
    };
    let markets = arguments.all("--market").map(market).collect::<Result<Vec<_>, _>>()?;
    let labels: Vec<_> = document.pieces().iter().flat_map(|piece| labels(piece, &markets)).collect();
    if arguments.all("--json").next().is_some() {
        println!("{:#}", labels.iter().map(Label::to_json).collect::<serde_json::Value>());
        return Ok(());
    }
    if labels.is_empty() {
        return Err("no piece names a market: write `markets = [\"eu\"]`, or add `--market eu`".into());
    }
    for label in &labels {
        print!("{}", label.to_text());
    }
    println!("{}", Label::cautions());
    Ok(())
}

fn labels(piece: &Piece, markets: &[Market]) -> Vec<Label> {
    if markets.is_empty() { Label::all(piece) } else { markets.iter().map(|market| Label::of(piece, *market)).collect() }
}

fn market(word: &str) -> Result<Market, String> {
    let known = || Market::ALL.iter().map(|market| market.key()).collect::<Vec<_>>().join(", ");
    Market::from_key(word).ok_or_else(|| format!("`{word}` is no market here: there are {}", known()))
}
