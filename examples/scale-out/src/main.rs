//! Candidates of a piece in Parquet files, larger than memory if need be, judged inside Apache DataFusion by a function of SQL.
//!
//! `scale-out write DOCUMENT FOLDER [--piece NAME] [--vary "KNOB=LOW..HIGH"]... [--count N] [--files N]` writes candidates; `--knobs` lists
//! what can be turned. `scale-out query DOCUMENT FOLDER [--piece NAME] [--accept RULE]... [--estimate KEY]... [--margin LIMIT]...
//! [--memory MB] [--threads N] [--least COLUMN | --sql QUERY...]` asks about them. `scale-out check DOCUMENT [...]` holds the function
//! against checking one by one.

#[path = "../../screen/asked.rs"]
mod asked;
mod check;
mod column;
mod function;
mod query;
mod question;
#[path = "../../terminal/mod.rs"]
mod terminal;
mod write;

use asked::count;
use datafusion::error::DataFusionError;
use question::Question;
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, ended, read, say};

const USAGE: &str = "write DOCUMENT FOLDER, query DOCUMENT FOLDER or check DOCUMENT: the README beside this program tells the options";
const VALUED: [&str; 11] =
    ["--piece", "--vary", "--accept", "--count", "--files", "--estimate", "--margin", "--memory", "--threads", "--least", "--sql"];

fn main() -> ExitCode {
    ended(run().map_err(|error| told(error.as_ref()).into()))
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&["--knobs"], &VALUED)?;
    let words: Vec<&str> = arguments.words.iter().map(String::as_str).collect();
    let [command, document, folder @ ..] = words.as_slice() else { return Err(USAGE.into()) };
    let asked = Question {
        document: read(document)?,
        piece: arguments.all("--piece").last().map(str::to_owned),
        accepted: arguments.all("--accept").map(str::to_owned).collect(),
        estimates: arguments.all("--estimate").map(str::to_owned).collect(),
        margins: arguments.all("--margin").map(str::to_owned).collect(),
    };
    let piece = asked.piece().map_err(|error| format!("{document}: {error}"))?;
    let number = |option, usual| arguments.all(option).last().map_or(Ok(usual), |text| count(option, text));
    let varied: Vec<&str> = arguments.all("--vary").collect();
    match (*command, folder) {
        ("write", _) if arguments.has("--knobs") => {
            column::Column::all(&piece).for_each(|column| say!("{}", column.heading(&piece)));
            Ok(())
        }
        ("write", [folder]) => write::candidates(&piece, &varied, number("--count", 1_000_000)?, number("--files", 4)?, folder.as_ref()),
        ("query", [folder]) => {
            let threads = std::thread::available_parallelism().map_or(1, |threads| threads.get() as u64);
            let means = query::Means { megabytes: number("--memory", 256)?, threads: number("--threads", threads)? };
            let queries: Vec<&str> = arguments.all("--sql").collect();
            query::run(asked, folder, means, arguments.all("--least").last(), &queries)
        }
        ("check", []) => check::run(asked, &varied, number("--count", 300)?),
        _ => Err(USAGE.into()),
    }
}

/// An error in one line: what lies at the bottom of it, without the names of the layers it came through.
fn told(error: &(dyn Error + 'static)) -> String {
    let Some(error) = error.downcast_ref::<DataFusionError>() else { return error.to_string() };
    let root = error.find_root();
    match root {
        DataFusionError::External(error) => error.to_string(),
        other => other.message().lines().next().unwrap_or_default().to_owned(),
    }
}
