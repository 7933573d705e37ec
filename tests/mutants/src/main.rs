//! Runs mutants of cargo-mutants against a quick set of tests; `./run` says how to call it.

mod outcome;
mod plant;
mod suite;

use outcome::{Outcome, Results};
use plant::{Mutant, Tree};
use std::path::{Path, PathBuf};
use std::time::Instant;
use suite::Suite;

type Fault = Box<dyn std::error::Error>;
type Result<T> = std::result::Result<T, Fault>;

fn main() -> Result<()> {
    let mut arguments = std::env::args().skip(1);
    let mut next = || arguments.next().ok_or("call this by tests/mutants/run");
    let (root, base, wanted) = (PathBuf::from(next()?), PathBuf::from(next()?), next()?);
    let all = plant::listed(&base.join("list.json"))?;
    let mut results = Results::open(&base.join("results.tsv"))?;
    let (range, again) = match wanted.as_str() {
        "fresh" => return results.forget(),
        "summary" => (0..all.len(), false),
        "again" => (0..all.len(), true),
        "all" => (0..all.len(), false),
        range => (span(range, all.len())?, false),
    };
    let chosen = &all[range.clone()];
    if wanted != "summary" {
        let open: Vec<_> = chosen
            .iter()
            .filter(|mutant| match results.of(&mutant.id) {
                None => !again,
                Some(known) => again && matches!(known, Outcome::Survived | Outcome::Timeout),
            })
            .collect();
        run(&root, &base, &open, &mut results)?;
    }
    println!("mutants {} to {} of {}", range.start + 1, range.end, all.len());
    print!("{}", results.summary(chosen));
    Ok(())
}

/// `400` is the first 400, `401-800` the next.
fn span(words: &str, all: usize) -> Result<std::ops::Range<usize>> {
    let (from, to) = words.split_once('-').unwrap_or(("1", words));
    let (from, to): (usize, usize) = (from.parse()?, to.parse()?);
    if from == 0 || from > to {
        return Err(format!("`{words}` is no range of mutants").into());
    }
    Ok((from - 1).min(all)..to.min(all))
}

fn run(root: &Path, base: &Path, open: &[&Mutant], results: &mut Results) -> Result<()> {
    let (hopeless, open): (Vec<&Mutant>, Vec<&Mutant>) = open.iter().partition(|mutant| mutant.is_hopeless);
    for mutant in hopeless {
        results.add(&mutant.id, Outcome::Unviable, "no conversion", 0.0)?;
    }
    let (switched, alone): (Vec<&Mutant>, Vec<&Mutant>) = open.iter().partition(|mutant| mutant.can_be_switched);
    println!("{} mutants to run: {} in one build, {} one by one", open.len(), switched.len(), alone.len());
    let mut alone = alone;
    if !switched.is_empty() {
        alone.extend(run_switched(root, base, switched, results)?);
    }
    if !alone.is_empty() {
        run_alone(root, base, &alone, results)?;
    }
    Ok(())
}

/// Gives back those that turned out not to fit beside their originals.
fn run_switched<'a>(root: &Path, base: &Path, mutants: Vec<&'a Mutant>, results: &mut Results) -> Result<Vec<&'a Mutant>> {
    let tree = Tree::copy(root, &base.join("switched"))?;
    let suite = Suite::new(tree.path(), &base.join("build"));
    let mut suspects = Vec::new();
    let mutants = compiling(&tree, &suite, mutants, &mut suspects, results)?;
    tree.plant(&mutants)?;
    let start = Instant::now();
    let mut tests = suite.build(true)?.ok_or("what passed the check does not build")?;
    tests.baseline()?;
    println!("built and tried unmutated in {:.0} s; quick set {:.1} s", start.elapsed().as_secs_f64(), tests.seconds());
    for (index, mutant) in mutants.iter().enumerate() {
        let start = Instant::now();
        let (outcome, by) = tests.run(&mutant.module(), index + 1)?;
        results.add(&mutant.id, outcome, &by, start.elapsed().as_secs_f64())?;
        if outcome == Outcome::Survived {
            println!("survived: {}", mutant.name);
        }
    }
    Ok(suspects)
}

/// Those that compile together. Where the compiler does not end, they are halved until the one is found that it chokes on.
fn compiling<'a>(
    tree: &Tree,
    suite: &Suite,
    mut mutants: Vec<&'a Mutant>,
    suspects: &mut Vec<&'a Mutant>,
    results: &mut Results,
) -> Result<Vec<&'a Mutant>> {
    loop {
        let planted = tree.plant(&mutants)?;
        let Some(errors) = suite.check()? else {
            if let [choking] = mutants[..] {
                println!("the compiler does not end with: {}", choking.name);
                results.add(&choking.id, Outcome::Unviable, "the compiler, which does not end", 0.0)?;
                return Ok(Vec::new());
            }
            println!("the compiler does not end with one of {}", mutants.len());
            let others = mutants.split_off(mutants.len() / 2);
            let mut fit = compiling(tree, suite, mutants, suspects, results)?;
            fit.extend(compiling(tree, suite, others, suspects, results)?);
            return Ok(fit);
        };
        let blame = planted.blamed(&errors)?;
        if blame.is_empty() {
            return Ok(mutants);
        }
        println!("{} mutants do not compile, {} must be built alone", blame.unviable.len(), blame.suspect.len());
        for id in &blame.unviable {
            results.add(id, Outcome::Unviable, "the compiler", 0.0)?;
        }
        suspects.extend(mutants.iter().filter(|mutant| blame.suspect.contains(&mutant.id) && !blame.unviable.contains(&mutant.id)));
        mutants.retain(|mutant| !blame.unviable.contains(&mutant.id) && !blame.suspect.contains(&mutant.id));
    }
}

fn run_alone(root: &Path, base: &Path, mutants: &[&Mutant], results: &mut Results) -> Result<()> {
    let tree = Tree::copy(root, &base.join("alone"))?;
    let suite = Suite::new(tree.path(), &base.join("build"));
    let mut plain = suite.build(true)?.ok_or("the unmutated tree does not build")?;
    plain.baseline()?;
    for mutant in mutants {
        let start = Instant::now();
        tree.replace(mutant)?;
        // The unit tests first; all others only where these notice nothing.
        let mut verdict = (Outcome::Unviable, "the compiler".to_owned());
        for everything in [false, true] {
            let Some(mut tests) = suite.build(everything)? else { break };
            tests.keep_pace_of(&plain);
            verdict = tests.run(&mutant.module(), 0)?;
            if verdict.0 != Outcome::Survived {
                break;
            }
        }
        results.add(&mutant.id, verdict.0, &verdict.1, start.elapsed().as_secs_f64())?;
        if verdict.0 == Outcome::Survived {
            println!("survived: {}", mutant.name);
        }
        tree.restore(mutant)?;
    }
    Ok(())
}
