//! What the label of each piece, and of each box of several, must say in its markets, for a printer after a qualified person's check.
//!
//! `cargo run --release --example label -- [FILE] [--market us] [--boxes] [--json]`, by default the winter box and the markets of each piece and box;
//! with `--boxes` the boxes alone.

mod terminal;

use cordial::matter::Market;
use cordial::report::Label;
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, choice, document, ended, put, say};

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&["--json", "--boxes"], &["--market"])?;
    let document = match arguments.words.as_slice() {
        [] | [_] => document(arguments.words.first())?,
        _ => return Err("name one document, or none for the winter box".into()),
    };
    let markets = arguments.all("--market").map(choice).collect::<Result<Vec<_>, _>>()?;
    let only_boxes = arguments.has("--boxes");
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
    if arguments.has("--json") {
        say!("{:#}", labels.iter().map(Label::to_json).collect::<serde_json::Value>());
        return Ok(());
    }
    for label in &labels {
        put!("{}", label.to_text());
    }
    say!("{}", Label::cautions());
    Ok(())
}

/// The labels in the markets asked for, or else in its own.
fn in_markets(markets: &[Market], one: impl Fn(Market) -> Label, own: impl Fn() -> Vec<Label>) -> Vec<Label> {
    if markets.is_empty() { own() } else { markets.iter().map(|market| one(*market)).collect() }
}
