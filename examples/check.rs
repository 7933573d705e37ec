//! Checks a file of filled chocolates: what is wrong, how sure that is, why, and what to change.
//!
//! `cargo run --release --example check -- examples/data/winter-box.toml [--full | --json]`
//!
//! Each piece on about one screen; `--full` adds why, on what basis, and the lines to write.
//! Exit code 0: nothing fails; 1: something fails; 2: the input cannot be used, and standard error says why.

use cordial::piece::Document;
use cordial::report::{Report, check, to_full_text, to_json_text, to_text};
use std::{error::Error, fs, process::ExitCode};

const USAGE: &str = "usage: check FILE [--full | --json]";
/// Far more than a document may hold; what lies beyond is not read.
const MOST_READ: u64 = 100 << 20;

fn main() -> ExitCode {
    let mut arguments: Vec<String> = std::env::args().skip(1).collect();
    let mut asked = |option: &str| {
        let before = arguments.len();
        arguments.retain(|argument| argument != option);
        arguments.len() < before
    };
    let (full, json) = (asked("--full"), asked("--json"));
    let [file] = arguments.as_slice() else {
        eprintln!("{USAGE}");
        return ExitCode::from(2);
    };
    let reports = match reports(file) {
        Ok(reports) => reports,
        Err(error) => {
            eprintln!("{file}: {error}");
            return ExitCode::from(2);
        }
    };
    if json {
        println!("{}", to_json_text(&reports));
    } else if full {
        print!("{}", to_full_text(&reports));
    } else {
        print!("{}", to_text(&reports));
    }
    let fails = reports.iter().any(|report| report.verdict() == cordial::engine::Verdict::Fail);
    ExitCode::from(u8::from(fails))
}

fn reports(file: &str) -> Result<Vec<Report>, Box<dyn Error>> {
    let document = Document::parse(&read(file)?)?;
    document.pieces().iter().map(|piece| Ok(check(piece)?)).collect()
}

fn read(file: &str) -> Result<String, Box<dyn Error>> {
    use std::io::Read;
    if fs::metadata(file)?.is_dir() {
        return Err("is a directory: name a document".into());
    }
    let mut text = Vec::new();
    fs::File::open(file)?.take(MOST_READ).read_to_end(&mut text)?;
    String::from_utf8(text).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = 1 + error.as_bytes().iter().take(good).filter(|byte| **byte == b'\n').count();
        format!("line {line}: this is not UTF-8 text: save the file as UTF-8").into()
    })
}
