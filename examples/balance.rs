//! What to weigh of which ingredients so that a ganache holds so much water, sugars, cocoa butter and milk fat; what is missed if that cannot
//! be, what binds, and which concession would free it. Then the recipe found is checked like any other.
//!
//! `cargo run --release --features balance --example balance -- [FILE]`, by default the requests in `examples/data/balance.toml`.
//!
//! Exit code 0 if every request is met, 1 if one is not, 2 if the input cannot be used.

mod terminal;

use cordial::assess::Quantity;
use cordial::balance::{Answer, Request, Requests};
use cordial::check;
use cordial::engine::Verdict;
use cordial::piece::{FillingKind, Layer, Piece};
use cordial::report::balance_text;
use cordial::units::{Checked, Choice};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, judged, put, read, say};

const REQUESTS: &str = include_str!("data/balance.toml");

fn main() -> ExitCode {
    judged(run())
}

/// Whether every request is met.
fn run() -> Result<bool, Box<dyn Error>> {
    let requests = match Arguments::read(&[], &[])?.words.first() {
        None => Requests::parse(REQUESTS)?,
        Some(file) => Requests::parse(&read(file)?).map_err(|error| format!("{file}: {error}"))?,
    };
    let mut met = true;
    for request in requests.all() {
        let answer = request.solve().map_err(|error| format!("{}: {error}", request.name))?;
        put!("{}", balance_text(request, &answer));
        check_recipe(request, &answer)?;
        say!();
        met &= answer.is_met();
    }
    Ok(met)
}

/// What the rules for ganache make of the recipe, and its water activity, which no balance can promise.
fn check_recipe(request: &Request, answer: &Answer) -> Result<(), Box<dyn Error>> {
    let layer = Layer::named(request.name.as_str()).with_kind(FillingKind::Ganache).with_recipe(answer.recipe().clone());
    let report = check(&Piece::named(request.name.as_str()).with_layer(layer))?;
    say!();
    let activity = report.assessment.layers.first().and_then(|layer| layer.get(Quantity::WaterActivity).known());
    match (activity, request.water_activity) {
        (None, _) => say!("Water activity: cannot be told of this recipe."),
        (Some(found), wish) => {
            let band = found.band;
            put!("Water activity: {:.3}, very likely between {:.2} and {:.2}", band.value, band.low, band.high);
            match wish.map(Checked::base) {
                None => say!("."),
                Some(most) if band.high <= most => say!(": within the {most:.2} wished for."),
                Some(most) if band.low > most => say!(": above the {most:.2} wished for; want less water or more sugars."),
                Some(most) => say!(": the {most:.2} wished for lies inside what is not certain; measure, or want less water."),
            }
        }
    }
    let mut doubts = report.findings.iter().filter(|finding| finding.counts() && finding.verdict >= Verdict::Caution).peekable();
    if doubts.peek().is_none() {
        say!("No rule objects to it as a ganache.");
    }
    for finding in doubts {
        say!("As a ganache: {} ({}, {}).", finding.rule.title, finding.verdict.key(), finding.rule.id);
    }
    Ok(())
}
