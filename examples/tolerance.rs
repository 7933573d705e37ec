//! How many batches of each piece pass, what makes them differ, and how fine a scale that takes.
//!
//! `cargo run --release --example tolerance -- [FILE] [--scale "0.1 g"]`, by default the winter box and the scale each piece names.
//!
//! Exit code 0, or 2 if the input cannot be used.

mod terminal;

use cordial::report::{tolerance_legend, tolerance_text};
use cordial::rules;
use cordial::tolerance::{Care, Study, scale_need};
use cordial::units::{Checked, Portion};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, document, ended, put, say};

/// In nineteen of twenty batches a verdict is to be kept.
const KEPT: f64 = 0.95;

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &["--scale"])?;
    let scale: Option<Portion> = arguments.quantity("--scale")?;
    if scale.is_some_and(|division| division <= Portion::nearest(0.0)) {
        return Err("--scale: a scale that shows steps of nothing is none: give its division, such as `0.1 g`".into());
    }
    let document = document(arguments.words.first())?;
    let (rules, care) = (rules::built_in(), Care::default());
    for described in document.pieces() {
        let mut piece = described.clone();
        piece.workshop.scale_division = scale.or(piece.workshop.scale_division);
        let study = Study::of(&piece, &rules, &care)?;
        say!("{}", tolerance_text(&piece, &care, &study, &scale_need(&piece, &rules, &care, KEPT)?));
    }
    put!("{}", tolerance_legend(&care));
    Ok(())
}
