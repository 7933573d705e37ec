//! Screening: how long per candidate as candidates, layers, rules and threads grow, and how much memory. Prints ratios, all from one run.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a bench may stop at the first surprise")]

mod work;

use cordial::engine::RuleSet;
use cordial::rules;
use cordial::screen::Screen;
use std::hint::black_box;
use std::time::{Duration, Instant};

fn main() {
    pieces();
    #[cfg(feature = "parallel")]
    threads();
    layers();
    number_of_rules();
}

fn timed(job: impl FnOnce()) -> Duration {
    let start = Instant::now();
    job();
    start.elapsed()
}

/// The most memory this process has held so far, in megabytes, where the system tells.
fn peak() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.trim().trim_end_matches("kB").trim().parse::<f64>().ok());
    kilobytes.map_or("not told".into(), |kilobytes| format!("{:.1} MB", kilobytes / 1000.0))
}

fn screened(layers: usize, rules: &RuleSet, count: u64) -> Duration {
    let piece = work::piece_of(layers);
    let (plan, screen) = (work::plan(&piece, count), Screen::new(&piece, rules).unwrap());
    timed(|| _ = black_box(screen.rows(&plan).filter(|row| row.found.is_some()).count()))
}

fn pieces() {
    println!("candidates of two knobs of one piece of three layers, all rules");
    println!("{:>12} {:>14} {:>12} {:>16}", "candidates", "each, µs", "per second", "peak memory");
    let most = std::env::var("CANDIDATES").ok().and_then(|most| most.parse().ok()).unwrap_or(1_000_000_u64);
    screened(3, &rules::built_in(), 1000);
    let mut count = 1000;
    while count <= most {
        let time = screened(3, &rules::built_in(), count).as_secs_f64();
        println!("{count:>12} {:>14.2} {:>12.0} {:>16}", 1e6 * time / count as f64, count as f64 / time, peak());
        count *= 10;
    }
}

#[cfg(feature = "parallel")]
fn threads() {
    println!("\nthreads: time on one over time on so many (shortest of several rounds that took turns)");
    let pool = |threads: usize| rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    let (one, two) = (pool(1), pool(2));
    for count in [100, 1000, 10_000, 100_000] {
        let piece = work::piece_of(3);
        let (plan, screen) = (work::plan(&piece, count), Screen::new(&piece, &rules::built_in()).unwrap());
        let run = || _ = black_box(screen.rows(&plan).filter(|row| row.found.is_some()).count());
        let rounds = usize::try_from(200_000 / count).unwrap().clamp(4, 200);
        let times = work::shortest(rounds, &mut [&mut || one.install(run), &mut || two.install(run)]);
        println!("{count:>12} candidates: two threads {:.2} times as fast", times[0].as_secs_f64() / times[1].as_secs_f64());
    }
}

fn layers() {
    println!("\nlayers, 20,000 candidates each");
    for layers in [1, 2, 4, 8, 16] {
        println!("{layers:>12} {:>14.2} µs each", 1e6 * screened(layers, &rules::built_in(), 20_000).as_secs_f64() / 2e4);
    }
}

fn number_of_rules() {
    println!("\nrules, 20,000 candidates of one piece of three layers each");
    for count in [1, 4, 16, rules::BUILT_IN.len()] {
        let rules = RuleSet::new(rules::BUILT_IN.iter().copied().take(count));
        println!("{count:>12} {:>14.2} µs each", 1e6 * screened(3, &rules, 20_000).as_secs_f64() / 2e4);
    }
}
