//! What the examples share with every program of a terminal: the words they are called with, the lines they print, how they end.
#![allow(dead_code, unused_imports, unused_macros, reason = "no example uses all of it")]

use cordial::Document;
use cordial::units::{Checked, Choice, Measure, MeasureError, Temperature};
use std::io::{ErrorKind, Read, Write};
use std::process::{ExitCode, exit};
use std::{error::Error, fs, io, str::FromStr};

/// A document to try things on.
pub const WINTER_BOX: &str = include_str!("../data/winter-box.toml");
/// Far more than a file may hold; what lies beyond is not read.
const MOST_READ: u64 = 100 << 20;
/// Columns of a screen.
const WIDTH: usize = 100;

/// Words, and options with what follows them.
pub struct Arguments {
    pub words: Vec<String>,
    options: Vec<(String, String)>,
}

impl Arguments {
    /// The command line; `flags` stand alone, an option of `valued` takes the word after it.
    pub fn read(flags: &[&str], valued: &[&str]) -> Result<Self, String> {
        let mut all = std::env::args().skip(1);
        let mut found = Self { words: Vec::new(), options: Vec::new() };
        while let Some(argument) = all.next() {
            if flags.contains(&argument.as_str()) {
                found.options.push((argument, String::new()));
            } else if valued.contains(&argument.as_str()) {
                let value = all.next().ok_or_else(|| format!("`{argument}` needs something after it"))?;
                found.options.push((argument, value));
            } else if argument.starts_with("--") {
                let options = [flags, valued].concat().join(", ");
                let options = if options.is_empty() { "none" } else { &options };
                return Err(format!(
                    "`{argument}` is not an option here: there are {options}; the first lines of the example say how it is called"
                ));
            } else {
                found.words.push(argument);
            }
        }
        Ok(found)
    }

    /// Everything that an option was given.
    pub fn all(&self, option: &str) -> impl Iterator<Item = &str> {
        self.options.iter().filter(move |(name, _)| name == option).map(|(_, value)| value.as_str())
    }

    /// Whether an option was given.
    pub fn has(&self, option: &str) -> bool {
        self.all(option).next().is_some()
    }

    /// What an option was last given, with its unit.
    pub fn quantity<T: Checked>(&self, option: &str) -> Result<Option<T>, String> {
        let read = |text: &str| quantity(text).map_err(|error| format!("{option}: {error}"));
        self.all(option).last().map(read).transpose()
    }

    /// What an option was last given, of the words there are.
    pub fn choice<T: Choice>(&self, option: &str) -> Result<Option<T>, String> {
        self.all(option).last().map(choice).transpose()
    }
}

/// One of the words there are.
pub fn choice<T: Choice>(word: &str) -> Result<T, String> {
    let words = || T::ALL.iter().map(|choice| choice.key()).collect::<Vec<_>>().join(", ");
    T::from_key(word).ok_or_else(|| format!("`{word}` is not {}: there are {}", T::WHAT, words()))
}

/// A checked quantity from its text.
pub fn quantity<T: Checked>(text: &str) -> Result<T, MeasureError> {
    Measure::from_str(text)?.check()
}

/// The document of the file named, or the winter box.
pub fn document(file: Option<&String>) -> Result<Document, Box<dyn Error>> {
    let Some(file) = file else { return Ok(Document::parse(WINTER_BOX)?) };
    Ok(Document::parse(&read(file)?).map_err(|error| format!("{file}: {error}"))?)
}

/// The text of a file.
pub fn read(file: &str) -> Result<String, Box<dyn Error>> {
    let told = |error: io::Error| format!("{file}: {error}");
    if fs::metadata(file).map_err(told)?.is_dir() {
        return Err(format!("{file}: is a directory: name a document").into());
    }
    let mut text = Vec::new();
    fs::File::open(file).map_err(told)?.take(MOST_READ).read_to_end(&mut text).map_err(told)?;
    String::from_utf8(text).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = 1 + error.as_bytes().iter().take(good).filter(|byte| **byte == b'\n').count();
        format!("{file}: line {line}: this is not UTF-8 text: save the file as UTF-8").into()
    })
}

/// Prints a line.
macro_rules! say {
    () => { $crate::terminal::print(format_args!("\n")) };
    ($($words:tt)*) => { $crate::terminal::print(format_args!("{}\n", format_args!($($words)*))) };
}
/// Prints without ending the line.
macro_rules! put {
    ($($words:tt)*) => { $crate::terminal::print(format_args!($($words)*)) };
}
pub(crate) use {put, say};

/// Prints, and ends in peace where nobody reads on, as behind `head`.
pub fn print(words: std::fmt::Arguments<'_>) {
    let Err(error) = io::stdout().lock().write_fmt(words) else { return };
    if error.kind() == ErrorKind::BrokenPipe {
        exit(0);
    }
    eprintln!("what was found could not be written: {error}");
    exit(2);
}

/// Exit code 0, or 2 after saying why the input cannot be used.
pub fn ended(run: Result<(), Box<dyn Error>>) -> ExitCode {
    judged(run.map(|()| true))
}

/// The same, and 1 where all went well but what was looked for is not so.
pub fn judged(run: Result<bool, Box<dyn Error>>) -> ExitCode {
    match run {
        Ok(so) => ExitCode::from(u8::from(!so)),
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}

/// A paragraph no wider than a screen of 100 columns, its further lines set in.
pub fn paragraph(text: &str) -> String {
    let first = " ".repeat(text.len() - text.trim_start().len());
    let further = if first.is_empty() { String::new() } else { format!("{first}  ") };
    // A number stays with its unit.
    let held = text.trim_start().replace(" %", "\u{a0}%").replace(" °C", "\u{a0}°C").replace(" g ", "\u{a0}g ");
    let options = textwrap::Options::new(WIDTH).initial_indent(&first).subsequent_indent(&further);
    textwrap::fill(&held, options).replace('\u{a0}', " ")
}

/// A temperature as it is given, to a tenth.
pub fn degrees(at: Temperature) -> String {
    // Added to zero, a negative zero has no sign.
    format!("{} °C", (at.celsius() * 10.0).round() / 10.0 + 0.0)
}
