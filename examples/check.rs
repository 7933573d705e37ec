//! Checks a file of filled chocolates: what is wrong, how sure that is, why, and what to change.
//!
//! `cargo run --release --example check -- examples/data/winter-box.toml [--full | --json]`
//!
//! Each piece on about one screen; `--full` adds why, on what basis, and the lines to write.
//! Exit code 0: nothing fails; 1: something fails; 2: the input cannot be used, and standard error says why.

mod terminal;

use cordial::Document;
use cordial::engine::Verdict;
use cordial::report::{Report, check, to_full_text, to_json_text, to_text};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, judged, put, read, say};

const USAGE: &str = "usage: check FILE [--full | --json]";

fn main() -> ExitCode {
    judged(run())
}

/// Whether nothing fails.
fn run() -> Result<bool, Box<dyn Error>> {
    let arguments = Arguments::read(&["--full", "--json"], &[])?;
    let [file] = arguments.words.as_slice() else { return Err(USAGE.into()) };
    let reports = reports(&read(file)?).map_err(|error| format!("{file}: {error}"))?;
    if arguments.has("--json") {
        say!("{}", to_json_text(&reports));
    } else if arguments.has("--full") {
        put!("{}", to_full_text(&reports));
    } else {
        put!("{}", to_text(&reports));
    }
    Ok(reports.iter().all(|report| report.verdict() < Verdict::Fail))
}

fn reports(text: &str) -> Result<Vec<Report>, Box<dyn Error>> {
    let document = Document::parse(text)?;
    document.pieces().iter().map(|piece| Ok(check(piece)?)).collect()
}
