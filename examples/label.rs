//! What the label of each piece, and of each box of several, must say in its markets, for a printer after a qualified person's check.
//!
//! `cargo run --release --example label -- [FILE] [--market us] [--boxes] [--json]`, by default the winter box and the markets of each piece and box;
//! with `--boxes` the boxes alone.

use cordial::Document;
use cordial::matter::Market;
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
    let arguments = kitchen::Arguments::read(&["--json", "--boxes"], &["--market"])?;
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
    let only_boxes = arguments.all("--boxes").next().is_some();
    let pieces = document.pieces().iter().filter(|_| !only_boxes);
    let of_pieces = pieces.flat_map(|piece| in_markets(&markets, |market| Label::of(piece, market), || Label::all(piece)));
    let of_box = |one| in_markets(&markets, |market| Label::of_box(one, market), || Label::all_of_box(one));
    let labels: Vec<_> = of_pieces.chain(document.boxes().iter().flat_map(of_box)).collect();
    if only_boxes && document.boxes().is_empty() {
        return Err("the document describes no box: write `[[box]]` with `holds = { \"Quince brandy\" = 6 }`".into());
    }
    if labels.is_empty() {
        return Err("nothing names a market: write `markets = [\"eu\"]`, or add `--market eu`".into());
    }
    if arguments.all("--json").next().is_some() {
        println!("{:#}", labels.iter().map(Label::to_json).collect::<serde_json::Value>());
        return Ok(());
    }
    for label in &labels {
        print!("{}", label.to_text());
    }
    println!("{}", Label::cautions());
    Ok(())
}

/// The labels in the markets asked for, or else in its own.
fn in_markets(markets: &[Market], one: impl Fn(Market) -> Label, own: impl Fn() -> Vec<Label>) -> Vec<Label> {
    if markets.is_empty() { own() } else { markets.iter().map(|market| one(*market)).collect() }
}

fn market(word: &str) -> Result<Market, String> {
    let known = || Market::ALL.iter().map(|market| market.key()).collect::<Vec<_>>().join(", ");
    Market::from_key(word).ok_or_else(|| format!("`{word}` is no market here: there are {}", known()))
}
