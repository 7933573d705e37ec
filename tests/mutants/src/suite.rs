//! The quick set of tests: built once, run for each mutant until one notices it.

use crate::Result;
use crate::outcome::Outcome;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use wait_timeout::ChildExt;

/// In the order they are run: what notices most in the least time first. With a name, that test alone: the others test the kit of laws
/// itself, and want more cases than are drawn here.
const TARGETS: [(&str, &str); 17] = [
    ("reference_values", ""),
    ("winter_box", ""),
    ("differential", ""),
    ("documents", ""),
    ("report", ""),
    ("batch_sheet", ""),
    ("practice", ""),
    ("screen", ""),
    ("law", ""),
    ("label", ""),
    ("measured_batch", ""),
    ("balance", ""),
    ("exchange", ""),
    ("allocations", ""),
    ("repair", ""),
    ("no_panic", ""),
    ("laws", "the_built_in_rules_are_lawful"),
];
/// A test that takes longer than this many times what it takes unmutated hangs.
const PATIENCE: f64 = 6.0;
const LEAST_PATIENCE: f64 = 60.0;
/// Seconds on a processor that the compiler gets to check, and to build: more than twice what it takes.
const TO_CHECK: u32 = 90;
const TO_BUILD: u32 = 600;
/// The same for the documentation's examples, which are compiled anew for each run; seconds by the clock.
const TO_READ: f64 = 120.0;

/// How the tests of a tree are built.
#[derive(Clone)]
pub struct Suite {
    tree: PathBuf,
    target: PathBuf,
}

impl Suite {
    pub fn new(tree: &Path, target: &Path) -> Self {
        Self { tree: tree.to_owned(), target: target.to_owned() }
    }

    fn cargo(&self, seconds: u32, words: &[&str]) -> Command {
        let mut command = Command::new("sh");
        command
            .args(["-c", &format!("ulimit -t {seconds}; exec cargo \"$@\""), "cargo"])
            .args(words)
            .arg("--all-features")
            .current_dir(&self.tree);
        command.env("CARGO_TARGET_DIR", &self.target).env("CARGO_PROFILE_DEV_DEBUG", "0").env("RUSTFLAGS", "--cap-lints=allow");
        command.stderr(Stdio::null());
        command
    }

    /// The compiler's errors in the library: file, line, message; none to be had where it ends without one, or not in its time: a mutant
    /// may send it round in circles.
    pub fn check(&self) -> Result<Option<Vec<(String, usize, String)>>> {
        let output = self.cargo(TO_CHECK, &["check", "--lib", "--message-format=json"]).output()?;
        let mut errors = Vec::new();
        for message in messages(&output.stdout).filter(|message| message["message"]["level"] == "error") {
            let message = &message["message"];
            let spans = message["spans"].as_array().into_iter().flatten().filter(|span| span["is_primary"] == true);
            for span in spans {
                let (file, line) = (span["file_name"].as_str().unwrap_or_default(), span["line_start"].as_u64().unwrap_or_default());
                errors.push((file.to_owned(), line as usize, message["message"].as_str().unwrap_or_default().to_owned()));
            }
        }
        Ok((output.status.success() || !errors.is_empty()).then_some(errors))
    }

    /// The unit tests, or those and all others; none where it does not compile.
    pub fn build(&self, everything: bool) -> Result<Option<Tests>> {
        let mut words = vec!["test", "--message-format=json", "--no-run", "--lib"];
        if everything {
            words.extend(TARGETS.iter().flat_map(|(target, _)| ["--test", *target]));
        }
        let output = self.cargo(TO_BUILD, &words).output()?;
        if !output.status.success() {
            return Ok(None);
        }
        let built: Vec<_> = messages(&output.stdout)
            .filter_map(|message| Some((message["target"]["name"].as_str()?.to_owned(), PathBuf::from(message["executable"].as_str()?))))
            .collect();
        let named = |wanted: &str| built.iter().find(|(name, _)| name == wanted).map(|(_, path)| path.clone());
        let order = [("cordial", "")].into_iter().chain(everything.then_some(TARGETS).into_iter().flatten());
        let binaries = order.filter_map(|(name, only)| Some(Binary { name, only, path: named(name)?, seconds: 0.0 })).collect();
        Ok(Some(Tests { tree: self.tree.clone(), binaries, examples: everything.then(|| self.clone()) }))
    }

    /// Compiles the documentation's examples against the library that is built, and runs them.
    fn examples(&self, mutant: usize) -> Result<Outcome> {
        let mut command = self.cargo(TO_BUILD, &["test", "--doc"]);
        command.env("CORDIAL_MUTANT", mutant.to_string());
        ended(&mut command, TO_READ)
    }
}

fn messages(stdout: &[u8]) -> impl Iterator<Item = Value> {
    stdout.split(|byte| *byte == b'\n').filter_map(|line| serde_json::from_slice(line).ok())
}

struct Binary {
    name: &'static str,
    only: &'static str,
    path: PathBuf,
    seconds: f64,
}

/// Test binaries that are built.
pub struct Tests {
    tree: PathBuf,
    binaries: Vec<Binary>,
    /// Whose documentation is run where all else notices nothing.
    examples: Option<Suite>,
}

impl Tests {
    /// Runs everything unmutated: all must pass, and how long it takes tells when a mutant hangs.
    pub fn baseline(&mut self) -> Result<()> {
        for binary in &mut self.binaries {
            let start = Instant::now();
            if run(&self.tree, &binary.path, binary.only, 0, 600.0)? != Outcome::Survived {
                return Err(format!("{} fails without a mutant", binary.name).into());
            }
            binary.seconds = start.elapsed().as_secs_f64();
        }
        if let Some(suite) = &self.examples
            && suite.examples(0)? != Outcome::Survived
        {
            return Err("the documentation's examples fail without a mutant".into());
        }
        Ok(())
    }

    /// Takes over the times of a baseline.
    pub fn keep_pace_of(&mut self, other: &Self) {
        for binary in &mut self.binaries {
            binary.seconds = other.binaries.iter().find(|known| known.name == binary.name).map_or(0.0, |known| known.seconds);
        }
    }

    /// What the unmutated set takes.
    pub fn seconds(&self) -> f64 {
        self.binaries.iter().map(|binary| binary.seconds).sum()
    }

    /// Runs the unit tests of the mutant's module, then all tests, then the documentation's examples; says which noticed it.
    pub fn run(&self, module: &str, mutant: usize) -> Result<(Outcome, String)> {
        let nearest = self.binaries.first().map(|unit| (unit, module)).into_iter();
        for (binary, only) in nearest.chain(self.binaries.iter().map(|binary| (binary, binary.only))) {
            let outcome = run(&self.tree, &binary.path, only, mutant, LEAST_PATIENCE.max(PATIENCE * binary.seconds))?;
            if outcome != Outcome::Survived {
                return Ok((outcome, binary.name.to_owned()));
            }
        }
        match self.examples.as_ref().map(|suite| suite.examples(mutant)).transpose()? {
            None | Some(Outcome::Survived) => Ok((Outcome::Survived, "nothing".to_owned())),
            Some(outcome) => Ok((outcome, "documentation".to_owned())),
        }
    }
}

/// Runs the tests whose names hold a word; `Survived` means that they passed.
fn run(tree: &Path, binary: &Path, only: &str, mutant: usize, patience: f64) -> Result<Outcome> {
    // Memory is bounded: a mutated loop may fill it before it is found to hang.
    let mut command = Command::new("sh");
    command
        .args(["-c", "ulimit -v 4000000; exec \"$0\" --quiet --skip laws::tests --skip take_no_time \"$@\""])
        .arg(binary)
        .arg(only)
        .current_dir(tree);
    command.env("CORDIAL_MUTANT", mutant.to_string()).env("CARGO_MANIFEST_DIR", tree);
    // The same cases every time, and fewer than usual but for the laws, which must draw what reaches every limit.
    command.env("PROPTEST_RNG_SEED", "1");
    if !only.contains("lawful") {
        command.env("PROPTEST_CASES", "48");
    }
    ended(&mut command, patience)
}

fn ended(command: &mut Command, patience: f64) -> Result<Outcome> {
    command.stdout(Stdio::null()).stderr(Stdio::null());
    let mut child = command.spawn()?;
    match child.wait_timeout(Duration::from_secs_f64(patience))? {
        Some(status) if status.success() => Ok(Outcome::Survived),
        Some(_) => Ok(Outcome::Killed),
        None => {
            child.kill()?;
            child.wait()?;
            Ok(Outcome::Timeout)
        }
    }
}
