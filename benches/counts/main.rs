//! Does one job a number of times, for `run` to count its instructions: `counts JOB TIMES`; without a job, lists them.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a bench may stop at the first surprise")]

#[path = "../work/mod.rs"]
mod work;

use cordial::assess::{Assessment, assess_into, reassess_into};
use cordial::engine::{Findings, Gauge, Tally, Verdict};
use cordial::screen::Screen;
use cordial::units::Checked;
use cordial::{Document, check, rules};
use std::hint::black_box;
use work::four_checks::{Columns, Engine, formulations, numbers, plain_activity, plain_columns, plain_records, typed_activity};

fn main() {
    let mut words = std::env::args().skip(1).filter(|word| word != "--bench");
    let Some(job) = words.next() else {
        println!("{}", JOBS.join("\n"));
        return;
    };
    let times: usize = words.next().map_or(1, |times| times.parse().unwrap());
    let (job, of) = job.split_once('-').map_or((job.as_str(), 1), |(job, of)| (job, of.parse().unwrap_or(1)));
    match job {
        "assess" => {
            let (piece, mut assessment) = (work::piece_of(of), Assessment::default());
            repeat(times, || assess_into(black_box(&piece), &mut assessment));
        }
        "judge" => {
            let (piece, mut assessment, mut findings) = (work::piece_of(of), Assessment::default(), Findings::default());
            let rules = rules::built_in();
            let bounds = rules.bounds(&piece).unwrap();
            assess_into(&piece, &mut assessment);
            repeat(times, || rules.judge(black_box(&assessment), &bounds, &mut findings));
        }
        // A full check.
        "check" => {
            let (piece, mut assessment, mut findings) = (work::piece_of(of), Assessment::default(), Findings::default());
            let rules = rules::built_in();
            let bounds = rules.bounds(&piece).unwrap();
            repeat(times, || {
                assess_into(black_box(&piece), &mut assessment);
                rules.judge(&assessment, &bounds, &mut findings);
            });
        }
        // Every knob of the piece turned once, assessed again and judged.
        "recheck" => {
            let (mut piece, mut assessment, mut tally) = (work::piece_of(of), Assessment::default(), Tally::default());
            let rules = rules::built_in();
            let gauge = Gauge::new(&rules, &rules.bounds(&piece).unwrap());
            assess_into(&piece, &mut assessment);
            let knobs = work::knobs(&piece);
            repeat(times, || {
                for (knob, settings) in &knobs {
                    for to in settings {
                        knob.turn(&mut piece, *to);
                        let changes = reassess_into(&piece, &[*knob], &mut assessment);
                        gauge.judge_again(&assessment, &changes, &mut tally);
                    }
                }
            });
        }
        "untyped" => {
            let all = formulations(1000);
            repeat(times, || _ = black_box(black_box(&all).iter().map(plain_activity).sum::<f64>()));
        }
        "typed" => {
            let all = formulations(1000);
            repeat(times, || _ = black_box(black_box(&all).iter().map(|one| typed_activity(one).base()).sum::<f64>()));
        }
        // A hundred candidates of two knobs.
        "screen" => {
            let piece = work::piece_of(of);
            let plan = work::plan(&piece, 100);
            let screen = Screen::new(&piece, &rules::built_in()).unwrap();
            repeat(times, || _ = black_box(screen.rows(&plan).filter(|row| row.found.is_some()).count()));
        }
        "report" => {
            let piece = work::pieces().swap_remove(0);
            repeat(times, || drop(black_box(check(&piece))));
        }
        "parse" => repeat(times, || drop(black_box(Document::parse(black_box(work::BOX))))),
        "plain" => {
            let all = formulations(1000);
            let (mut margins, mut broken) = (vec![[0.0; 4]; 1000], vec![0; 1000]);
            repeat(times, || plain_records(black_box(&all), &mut margins, &mut broken));
            black_box((margins, broken));
        }
        "columns" => {
            let all = Columns::of(&formulations(1000));
            let (mut margins, mut broken) = ([(); 4].map(|()| vec![0.0; 1000]), vec![0; 1000]);
            repeat(times, || plain_columns(black_box(&all), &mut margins, &mut broken));
            black_box((margins, broken));
        }
        "engine" => {
            let (all, engine) = (formulations(1000), Engine::new());
            let mut margins = vec![[0.0; 4]; 1000];
            repeat(times, || {
                for (one, margins) in black_box(&all).iter().zip(&mut margins) {
                    black_box(engine.hold(numbers(one), margins));
                }
            });
        }
        "assessed" => {
            let (all, mut engine) = (formulations(1000), Engine::new());
            let mut margins = vec![[0.0; 4]; 1000];
            repeat(times, || {
                for (one, margins) in black_box(&all).iter().zip(&mut margins) {
                    black_box(engine.gauge(numbers(one), margins));
                }
            });
        }
        "batch" => {
            let (all, engine) = (Columns::of(&formulations(1000)), Engine::new());
            let (mut margins, mut verdicts) = ([(); 4].map(|()| vec![0.0; 1000]), [(); 4].map(|()| vec![Verdict::Pass; 1000]));
            repeat(times, || _ = black_box(engine.columns(black_box(&all), &mut margins, &mut verdicts)));
        }
        "readings" => {
            let (all, mut engine) = (formulations(1000), Engine::new());
            repeat(times, || {
                for one in black_box(&all) {
                    black_box(engine.judge(numbers(one)));
                }
            });
        }
        "gauge" => {
            let (piece, mut assessment, mut tally) = (work::piece_of(of), Assessment::default(), Tally::default());
            let rules = rules::built_in();
            let gauge = Gauge::new(&rules, &rules.bounds(&piece).unwrap());
            assess_into(&piece, &mut assessment);
            repeat(times, || gauge.judge(black_box(&assessment), &mut tally));
        }
        unknown => panic!("no job is called {unknown}"),
    }
}

/// Once to warm up, then as often as told.
fn repeat(times: usize, mut job: impl FnMut()) {
    job();
    for _ in 0..times {
        job();
    }
}

const JOBS: &[&str] = &[
    "assess-1",
    "assess-3",
    "assess-8",
    "judge-1",
    "judge-3",
    "judge-8",
    "gauge-1",
    "gauge-3",
    "gauge-8",
    "recheck-3",
    "untyped",
    "typed",
    "screen-1",
    "screen-3",
    "report",
    "parse",
    "plain",
    "columns",
    "batch",
    "engine",
    "assessed",
    "readings",
];
