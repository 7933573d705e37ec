//! What became of each mutant, kept in a file that a later run goes on with.

use crate::Result;
use crate::plant::Mutant;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::{fs, io};

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Outcome {
    Killed,
    Timeout,
    Survived,
    Unviable,
}

impl Outcome {
    const ALL: [Self; 4] = [Self::Killed, Self::Timeout, Self::Survived, Self::Unviable];

    fn word(self) -> &'static str {
        match self {
            Self::Killed => "killed",
            Self::Timeout => "timeout",
            Self::Survived => "survived",
            Self::Unviable => "unviable",
        }
    }
}

pub struct Results {
    path: PathBuf,
    known: BTreeMap<String, (Outcome, String, f64)>,
}

impl Results {
    pub fn open(path: &Path) -> Result<Self> {
        let text = match fs::read_to_string(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => String::new(),
            text => text?,
        };
        let mut known = BTreeMap::new();
        for line in text.lines() {
            let fields: Vec<_> = line.split('\t').collect();
            let [word, seconds, by, id] = fields[..] else { return Err(format!("{}: `{line}`", path.display()).into()) };
            let outcome = Outcome::ALL.into_iter().find(|outcome| outcome.word() == word).ok_or_else(|| format!("`{word}`"))?;
            known.insert(id.to_owned(), (outcome, by.to_owned(), seconds.parse()?));
        }
        Ok(Self { path: path.to_owned(), known })
    }

    pub fn forget(&self) -> Result<()> {
        Ok(fs::write(&self.path, "")?)
    }

    pub fn of(&self, id: &str) -> Option<Outcome> {
        self.known.get(id).map(|(outcome, ..)| *outcome)
    }

    pub fn add(&mut self, id: &str, outcome: Outcome, by: &str, seconds: f64) -> Result<()> {
        let mut file = fs::OpenOptions::new().create(true).append(true).open(&self.path)?;
        writeln!(file, "{}\t{seconds:.2}\t{by}\t{id}", outcome.word())?;
        self.known.insert(id.to_owned(), (outcome, by.to_owned(), seconds));
        Ok(())
    }

    /// Counts, the kill rate with its 95 % interval, and the survivors.
    pub fn summary(&self, chosen: &[Mutant]) -> String {
        let run: Vec<_> = chosen.iter().filter_map(|mutant| Some((mutant, self.known.get(&mutant.id)?))).collect();
        let count = |wanted| run.iter().filter(|(_, (outcome, ..))| *outcome == wanted).count();
        let mut text = format!("{} run", run.len());
        for outcome in Outcome::ALL {
            let _ = write!(text, ", {} {}", count(outcome), outcome.word());
        }
        let noticed = count(Outcome::Killed) + count(Outcome::Timeout);
        let viable = noticed + count(Outcome::Survived);
        let (low, high) = wilson(noticed as f64, viable as f64);
        let rate = 100.0 * noticed as f64 / viable as f64;
        let seconds: f64 = run.iter().map(|(_, (.., seconds))| seconds).sum();
        let _ = writeln!(
            text,
            "\n{noticed} of {viable} viable mutants noticed: {rate:.1} % (95 % interval {:.1} to {:.1} %); {:.1} s a mutant",
            100.0 * low,
            100.0 * high,
            seconds / run.len().max(1) as f64
        );
        for (mutant, _) in run.iter().filter(|(_, (outcome, ..))| *outcome == Outcome::Survived) {
            let _ = writeln!(text, "  {}", mutant.name);
        }
        text
    }
}

/// Wilson's score interval of a proportion at 95 %.
fn wilson(hits: f64, of: f64) -> (f64, f64) {
    let z = 1.959_964_f64;
    let share = hits / of;
    let middle = share + z * z / (2.0 * of);
    let half = z * (share * (1.0 - share) / of + z * z / (4.0 * of * of)).sqrt();
    let scale = 1.0 + z * z / of;
    ((middle - half) / scale, (middle + half) / scale)
}

#[test]
fn wilson_as_published() {
    // Newcombe 1998, Stat. Med. 17:857, table I: 81 of 263, score method.
    let (low, high) = wilson(81.0, 263.0);
    assert!((low - 0.2553).abs() < 5e-5 && (high - 0.3662).abs() < 5e-5, "{low} {high}");
}
