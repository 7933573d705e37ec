//! How many batches of each piece pass, what makes them differ, and how fine a scale that takes.
//!
//! `cargo run --release --example tolerance -- [FILE] [--scale "0.1 g"]`, by default the winter box and the scale each piece names.
//!
//! Exit code 0, or 2 if the input cannot be used.

use cordial::Document;
use cordial::report::{tolerance_legend, tolerance_text};
use cordial::rules;
use cordial::tolerance::{Care, Study, scale_need};
use cordial::units::{Checked, Measure, Portion};
use std::{error::Error, fs, process::ExitCode};

/// In nineteen of twenty batches a verdict is to be kept.
const KEPT: f64 = 0.95;

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
    let mut file = "examples/data/winter-box.toml".to_owned();
    let mut scale: Option<Portion> = None;
    while let Some(argument) = arguments.next() {
        if argument == "--scale" {
            let text = arguments.next().ok_or("`--scale` needs a mass after it, such as `0.1 g`")?;
            let division: Portion = Measure::parse(&text)?.check().map_err(|error| format!("--scale: {error}"))?;
            if division <= Portion::nearest(0.0) {
                return Err("--scale: a scale that shows steps of nothing is none: give its division, such as `0.1 g`".into());
            }
            scale = Some(division);
        } else {
            file = argument;
        }
    }
    let text = fs::read_to_string(&file).map_err(|error| format!("{file}: {error}"))?;
    let document = Document::parse(&text).map_err(|error| format!("{file}: {error}"))?;
    let (rules, care) = (rules::built_in(), Care::default());
    for described in document.pieces() {
        let mut piece = described.clone();
        piece.workshop.scale_division = scale.or(piece.workshop.scale_division);
        let study = Study::of(&piece, &rules, &care)?;
        println!("{}", tolerance_text(&piece, &care, &study, &scale_need(&piece, &rules, &care, KEPT)?));
    }
    print!("{}", tolerance_legend(&care));
    Ok(())
}
