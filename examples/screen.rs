//! Looks through many variants of a piece: two knobs or more turned over their ranges, every variant judged, a row each in a CSV file, and a
//! map of where it passes.
//!
//! `cargo run --release --features parallel --example screen -- [FILE] [--piece NAME] [--vary "KNOB=LOW..HIGH"]... [--accept RULE]...
//! [--grid STEPS | --sample COUNT] [--rows FILE.csv] [--map FILE.svg]`. Without a file a gianduja is taken. `--knobs` lists what can be
//! turned, `--accept` takes what a rule finds for good, short of a failure. Rows are written as they come: a run that was stopped goes on with
//! the same command.

#[path = "screen/asked.rs"]
mod asked;
#[path = "screen/map.rs"]
mod map;
mod terminal;

use asked::{axis, chosen, count};
use cordial::assess::{Part, Quantity};
use cordial::engine::Verdict;
use cordial::piece::{Allowance, Knob};
use cordial::screen::{Axis, Found, Plan, Row, Screen};
use cordial::units::{Choice, Measure};
use cordial::{Document, Piece, rules};
use map::{Kind, Map};
use std::collections::BTreeMap;
use std::io::{IsTerminal, Write};
use std::time::{Duration, Instant};
use std::{error::Error, fs, path::Path, process::ExitCode};
use terminal::{Arguments, ended, read, say};

/// What is looked at where nothing is said, and what is turned.
const USUAL: &str = include_str!("data/gianduja.toml");
const TURNED: [&str; 2] = ["shell thickness=0.8 mm..3.5 mm", "depth below the rim to which gianduja is poured=0.5 mm..4 mm"];
/// Rows between two savings of the file.
const SAVED_EVERY: u64 = 4096;

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&["--knobs"], &["--piece", "--vary", "--accept", "--grid", "--sample", "--rows", "--map"])?;
    let document = match arguments.words.as_slice() {
        [] => Document::parse(USUAL)?,
        [file] => Document::parse(&read(file)?).map_err(|error| format!("{file}:\n{error}"))?,
        _ => return Err("one document at a time".into()),
    };
    let mut piece = chosen(&document, arguments.all("--piece").last())?.clone();
    for rule in arguments.all("--accept") {
        piece.allow.push(Allowance { rule: rule.to_owned(), reason: "accepted for this screening".into() });
    }
    let piece = &piece;
    if arguments.has("--knobs") {
        Knob::all(piece).for_each(|knob| say!("{}: stands at {}", knob.label(piece), told(knob, piece, knob.get(piece).unwrap_or(0.0))));
        return Ok(());
    }
    let mut varied: Vec<&str> = arguments.all("--vary").collect();
    if varied.is_empty() && arguments.words.is_empty() {
        varied = TURNED.to_vec();
    }
    let axes = varied.iter().map(|text| axis(text, piece)).collect::<Result<Vec<_>, _>>()?;
    let number = |option| arguments.all(option).last().map(|text| count(option, text)).transpose();
    let (plan, steps) = match (number("--grid")?, number("--sample")?) {
        (Some(_), Some(_)) => return Err("either --grid or --sample".into()),
        (_, Some(count)) => (Plan::sample(axes, count)?, 48),
        (steps, None) => {
            let steps = u32::try_from(steps.unwrap_or(60)).map_err(|_| "--grid: so many steps are not needed")?;
            (Plan::grid(axes.into_iter().map(|axis| (axis, steps)).collect())?, steps)
        }
    };
    let rows = arguments.all("--rows").last().unwrap_or("target/screen.csv");
    let picture = arguments.all("--map").last().unwrap_or("target/screen.svg");
    let sheet = Sheet { piece, plan: &plan };
    sheet.fill(Path::new(rows)).map_err(|error| format!("{rows}: {error}"))?;
    let map = sheet.summed_up(Path::new(rows), steps)?;
    map.draw(Path::new(picture), &format!("{}: where it passes", piece.name))?;
    say!("\nThe rows are in {rows}, the map in {picture}.");
    Ok(())
}

/// A setting as a person would write it: a choice by its word.
fn told(knob: Knob, piece: &Piece, setting: f64) -> String {
    knob.word(setting).map_or_else(|| knob.measure(piece, setting).to_string(), str::to_owned)
}

/// The rows of a plan, as a table in a file.
struct Sheet<'a> {
    piece: &'a Piece,
    plan: &'a Plan,
}

impl Sheet<'_> {
    /// The columns of the table.
    fn head(&self) -> Vec<String> {
        let knobs = self.plan.axes().map(|axis| asked::heading(&axis.knob.label(self.piece), axis.knob.measure(self.piece, 0.0).unit()));
        let activities = self.piece.layers.iter().map(|layer| format!("water activity of {}", layer.name));
        let columns = ["variant".to_owned()].into_iter().chain(knobs).chain(["headroom (mm)".into(), "mass (g)".into()]).chain(activities);
        columns.chain(["verdict", "unknown", "worst rule"].map(str::to_owned)).collect()
    }

    fn line(&self, row: &Row) -> Vec<String> {
        let settings = self.plan.axes().zip(&row.settings);
        let settings = settings.map(|(axis, setting)| axis.knob.measure(self.piece, *setting).value().to_string());
        let wanted = 2 + self.piece.layers.len();
        let found = match &row.found {
            None => vec![String::new(); wanted].into_iter().chain(["impossible", "", ""].map(str::to_owned)).collect(),
            Some(found) => self.told(found),
        };
        [row.index.to_string()].into_iter().chain(settings).chain(found).collect()
    }

    fn told(&self, found: &Found) -> Vec<String> {
        let quantities = [Quantity::Headroom, Quantity::PieceMass].into_iter().chain(std::iter::repeat(Quantity::WaterActivity));
        let estimates = found.estimates.iter().zip(quantities).map(|(estimate, quantity)| {
            let value = estimate.known().map(|estimate| estimate.measure(quantity).value());
            value.map_or_else(String::new, |value| format!("{value:.4}"))
        });
        let unknown = if found.unknown { "something" } else { "" };
        let worst = found.worst.map_or("", |card| card.id);
        estimates.chain([found.verdict.key(), unknown, worst].map(str::to_owned)).collect()
    }

    /// Writes the rows that are not there yet, and saves them block by block.
    fn fill(&self, file: &Path) -> Result<(), Box<dyn Error>> {
        let there = self.there(file)?;
        let mut screen = Screen::new(self.piece, &rules::built_in())?
            .with_estimate(Part::Whole, Quantity::Headroom)
            .with_estimate(Part::Whole, Quantity::PieceMass);
        for layer in 0..self.piece.layers.len() {
            screen = screen.with_estimate(Part::Layer(layer), Quantity::WaterActivity);
        }
        if let Some(folder) = file.parent() {
            fs::create_dir_all(folder)?;
        }
        let opened = fs::OpenOptions::new().create(true).append(true).open(file)?;
        let mut writer = csv::WriterBuilder::new().has_headers(false).from_writer(opened);
        if there == 0 && fs::metadata(file)?.len() == 0 {
            writer.write_record(self.head())?;
        }
        let mut progress = Progress { started: Instant::now(), told: Instant::now(), there, count: self.plan.count() };
        for row in screen.rows(self.plan).from(there) {
            writer.write_record(self.line(&row))?;
            if (row.index + 1) % SAVED_EVERY == 0 {
                writer.flush()?;
                progress.tell(row.index + 1);
            }
        }
        writer.flush()?;
        progress.done();
        Ok(())
    }

    /// How many rows a file holds; a line that was cut off in the middle is taken away.
    fn there(&self, file: &Path) -> Result<u64, Box<dyn Error>> {
        let Ok(opened) = fs::OpenOptions::new().read(true).write(true).open(file) else { return Ok(0) };
        let end = whole_lines(&opened)?;
        opened.set_len(end)?;
        if end == 0 {
            return Ok(0);
        }
        let mut reader = csv::Reader::from_path(file)?;
        let other = "it holds rows of another run: name another file by --rows, or take this one away";
        if reader.headers()?.iter().ne(self.head()) {
            return Err(other.into());
        }
        let (mut count, mut record) = (0, csv::StringRecord::new());
        while reader.read_record(&mut record)? {
            let row = Row { index: count, settings: self.plan.settings(count), found: None };
            let settings = 1 + row.settings.len();
            if count >= self.plan.count() || record.iter().take(settings).ne(self.line(&row).iter().take(settings)) {
                return Err(other.into());
            }
            count += 1;
        }
        Ok(count)
    }

    /// Tells what the rows say, and puts them on a map of the first two knobs.
    fn summed_up(&self, file: &Path, steps: u32) -> Result<Map, Box<dyn Error>> {
        let axes: Vec<Axis> = self.plan.axes().collect();
        let scale = |axis: &Axis| {
            let shown = |setting| axis.knob.measure(self.piece, setting).value();
            let unit = axis.knob.measure(self.piece, 0.0).unit();
            (format!("{}, {}", axis.knob.label(self.piece), unit.code()), shown(axis.least)..shown(axis.most))
        };
        let mut map = Map::new(axes.iter().take(2).map(scale).collect(), steps);
        let (mut kinds, mut rules) = (BTreeMap::new(), BTreeMap::<String, u64>::new());
        let mut passing: Vec<(f64, f64)> = axes.iter().map(|_| (f64::INFINITY, f64::NEG_INFINITY)).collect();
        let mut reader = csv::Reader::from_path(file)?;
        let (mut record, columns) = (csv::StringRecord::new(), self.head().len());
        while reader.read_record(&mut record)? {
            let settings: Vec<f64> = record.iter().skip(1).take(axes.len()).filter_map(|text| text.parse().ok()).collect();
            let word = |from_end: usize| record.get(columns - from_end).unwrap_or("");
            let kind = match (Verdict::from_key(word(3)), word(2)) {
                (None, _) => Kind::Impossible,
                (Some(Verdict::Fail), _) => Kind::Fails,
                (Some(Verdict::Caution), _) => Kind::Doubtful,
                (Some(_), "") => Kind::Passes,
                (Some(_), _) => Kind::Unknown,
            };
            *kinds.entry(kind).or_insert(0_u64) += 1;
            if matches!(kind, Kind::Fails | Kind::Doubtful) {
                *rules.entry(word(1).to_owned()).or_default() += 1;
            }
            if kind == Kind::Passes {
                for ((least, most), setting) in passing.iter_mut().zip(&settings) {
                    (*least, *most) = (least.min(*setting), most.max(*setting));
                }
            }
            map.put(&settings, kind);
        }
        let all: u64 = kinds.values().sum();
        say!("{}: {all} variants", self.piece.name);
        for (kind, count) in &kinds {
            say!("{:>7.1} % {}", 100.0 * *count as f64 / all as f64, kind.words());
        }
        let mut rules: Vec<_> = rules.into_iter().collect();
        rules.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
        for (rule, count) in rules.iter().take(5) {
            say!("{:>7.1} % stopped first by [{rule}]", 100.0 * *count as f64 / all as f64);
        }
        for (axis, (least, most)) in axes.iter().zip(&passing).filter(|(_, (least, most))| least <= most) {
            let unit = axis.knob.measure(self.piece, 0.0).unit();
            say!("What passes has {} from {} to {}", axis.knob.label(self.piece), Measure::new(*least, unit), Measure::new(*most, unit));
        }
        Ok(map)
    }
}

/// Where the last whole line ends.
fn whole_lines(mut file: &fs::File) -> Result<u64, std::io::Error> {
    use std::io::{Read, Seek, SeekFrom};
    let mut end = file.seek(SeekFrom::End(0))?;
    let mut byte = [0];
    while end > 0 {
        file.seek(SeekFrom::Start(end - 1))?;
        file.read_exact(&mut byte)?;
        if byte == [b'\n'] {
            break;
        }
        end -= 1;
    }
    Ok(end)
}

struct Progress {
    started: Instant,
    told: Instant,
    there: u64,
    count: u64,
}

impl Progress {
    /// Tells how far it is, at most four times a second, where somebody may be watching.
    fn tell(&mut self, done: u64) {
        if self.told.elapsed() > Duration::from_millis(250) && std::io::stderr().is_terminal() {
            self.told = Instant::now();
            let share = 100.0 * done as f64 / self.count as f64;
            eprint!("\r{share:5.1} %, {done} of {} variants, {:.0} a second ", self.count, self.speed(done));
            _ = std::io::stderr().flush();
        }
    }

    fn done(&self) {
        if self.there > 0 {
            eprintln!("{} variants were there already", self.there);
        }
        if self.count > self.there {
            eprintln!("\r{} variants screened, {:.0} a second, written out included", self.count - self.there, self.speed(self.count));
        }
    }

    fn speed(&self, done: u64) -> f64 {
        (done - self.there) as f64 / self.started.elapsed().as_secs_f64()
    }
}
