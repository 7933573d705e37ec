//! Four simple checks on the same 10,000 formulations: plain `f64`, record by record and column by column, against the engine; then the same
//! with the real water balance solved. Prints times per formulation and ratios, all from one run; the jobs take turns.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a bench may stop at the first surprise")]

mod work;

use cordial::engine::Verdict;
use cordial::matter::{Composition, Constituent, Crystals};
use cordial::models::water::{Solute, water_activity};
use cordial::units::{Checked, Temperature};
use std::hint::black_box;
use std::time::Duration;
use work::four_checks::{Columns, Engine, Formulation, LIMITS, SOLUTES, formulations, numbers, plain, plain_columns, plain_records};

const COUNT: usize = 10_000;
const ROUNDS: usize = 60;
const NAMES: [Constituent; 5] =
    [Constituent::Sucrose, Constituent::Glucose, Constituent::Fructose, Constituent::Sorbitol, Constituent::Glycerol];

fn main() {
    for (constituent, constants) in NAMES.iter().zip(SOLUTES) {
        let solute = Solute::of(*constituent).unwrap();
        assert!(
            (solute.molar_mass, solute.constants) == (constants.0, [constants.1, constants.2, 0.0]),
            "{constituent:?}: the bench has other constants"
        );
    }
    let all = formulations(COUNT);
    let columns = Columns::of(&all);
    closed_formula(&all, &columns);
    water_balance(&all);
}

fn closed_formula(all: &[Formulation], columns: &Columns) {
    let mut records = (vec![[0.0; 4]; COUNT], vec![0_u32; COUNT]);
    let mut by_column = ([(); 4].map(|()| vec![0.0; COUNT]), vec![0_u32; COUNT]);
    let mut batch = ([(); 4].map(|()| vec![0.0; COUNT]), [(); 4].map(|()| vec![Verdict::Pass; COUNT]));
    let (mut held, mut gauged) = (vec![[0.0; 4]; COUNT], vec![[0.0; 4]; COUNT]);
    let (engine, mut gauging, mut judging) = (Engine::new(), Engine::new(), Engine::new());
    let times = work::shortest(
        ROUNDS,
        &mut [
            &mut || plain_records(black_box(all), &mut records.0, &mut records.1),
            &mut || plain_columns(black_box(columns), &mut by_column.0, &mut by_column.1),
            &mut || _ = black_box(engine.columns(black_box(columns), &mut batch.0, &mut batch.1)),
            &mut || {
                for (one, margins) in black_box(all).iter().zip(&mut held) {
                    black_box(engine.hold(numbers(one), margins));
                }
            },
            &mut || {
                for (one, margins) in black_box(all).iter().zip(&mut gauged) {
                    black_box(gauging.gauge(numbers(one), margins));
                }
            },
            &mut || {
                for one in black_box(all) {
                    black_box(judging.judge(numbers(one)));
                }
            },
        ],
    );
    // All say the same of every formulation; the vector code's exponential is another, so rounding may differ.
    for at in 0..COUNT {
        assert_eq!(engine.hold(numbers(&all[at]), &mut [0.0; 4]), records.1[at], "formulation {at}");
        assert_eq!(gauging.gauge(numbers(&all[at]), &mut [0.0; 4]), records.1[at], "formulation {at}");
        assert_eq!(judging.judge(numbers(&all[at])), records.1[at], "formulation {at}");
        assert_eq!(by_column.1[at], records.1[at], "formulation {at}");
        for check in 0..4 {
            let margin = records.0[at][check];
            let near =
                |other: f64| other.to_bits() == margin.to_bits() || (other - margin).abs() <= 1e-12 * margin.abs().max(LIMITS[check].0);
            let found = [by_column.0[check][at], batch.0[check][at], held[at][check], gauged[at][check]];
            assert!(found.into_iter().all(near), "formulation {at}, check {check}");
            assert_eq!(batch.1[check][at] == Verdict::Fail, margin < 0.0, "formulation {at}, check {check}");
        }
    }
    let names = [
        "plain f64, record by record",
        "plain f64, column by column",
        "engine, column by column",
        "engine, one formulation at a time, ready numbers",
        "engine, one formulation at a time, put in an assessment",
        "engine, one formulation at a time, with whole readings",
    ];
    table("Water activity by a closed formula (Ross; Norrish), no root", &names, &times);
}

/// The water balance `Σ n w(a) = n`, solved by Newton's method in plain `f64`, the isotherm of each solute inverted within.
fn balanced(one: &Formulation) -> f64 {
    let moles = one.water / 18.0153;
    let held = |u: f64| {
        one.solutes.iter().zip(SOLUTES).fold((0.0, 0.0), |(water, slope), (mass, (molar_mass, k1, k2))| {
            let mut x = 2.0 * u / (1.0 + (1.0 + 4.0 * (0.5 + k1) * u).max(0.0).sqrt());
            let mut rise = 0.0;
            for _ in 0..50 {
                let at = -(-x).ln_1p() + x * x * (k1 + k2 * x) - u;
                rise = 1.0 / (1.0 - x) + x * (2.0 * k1 + 3.0 * k2 * x);
                let step = at / rise;
                x = (x - step).clamp(0.5 * x, 0.5 * (1.0 + x));
                if step.abs() < 1e-10 * u.min(1.0) {
                    break;
                }
            }
            let particles = mass / molar_mass;
            (water + particles * (1.0 - x) / x, slope - particles / (x * x * rise))
        })
    };
    let mut u = (one.solutes.iter().zip(SOLUTES).map(|(mass, (molar_mass, ..))| mass / molar_mass).sum::<f64>() / moles).ln_1p();
    for _ in 0..50 {
        let (water, slope) = held(u);
        // In logarithms the balance is nearly straight.
        let step = (water / moles).ln() * water / (slope * u);
        u *= (-step).exp();
        if step.abs() < 1e-9 {
            break;
        }
    }
    (-u).exp()
}

fn water_balance(all: &[Formulation]) {
    let room = Temperature::nearest(25.0);
    let compositions: Vec<Composition> = all
        .iter()
        .map(|one| {
            let pure = [Constituent::Water].into_iter().chain(NAMES).map(Composition::pure);
            let masses = [one.water].into_iter().chain(one.solutes);
            Composition::blend(pure.collect::<Vec<_>>().iter().zip(masses)).unwrap()
        })
        .collect();
    let activity = |composition: &Composition| water_activity(composition, Some(Crystals::Dissolved), room).unwrap();
    let (mut plain_ones, mut engine_ones) = (vec![0.0; COUNT], vec![0.0; COUNT]);
    let (mut margins, engine) = ([0.0; 4], Engine::new());
    let times = work::shortest(
        ROUNDS / 6,
        &mut [
            &mut || {
                for (one, found) in black_box(all).iter().zip(&mut plain_ones) {
                    black_box(plain(one, &mut margins));
                    *found = balanced(one);
                    black_box(LIMITS[3].0 - *found);
                }
            },
            &mut || {
                for ((one, composition), found) in black_box(all).iter().zip(&compositions).zip(&mut engine_ones) {
                    let balance = activity(composition);
                    *found = balance.activity.value.base();
                    let [dose, support, headroom, _] = numbers(one);
                    black_box(engine.hold([dose, support, headroom, *found], &mut [0.0; 4]));
                }
            },
        ],
    );
    let apart = plain_ones.iter().zip(&engine_ones).map(|(one, two)| (one - two).abs()).fold(0.0, f64::max);
    assert!(apart < 1e-8, "the two balances are {apart} apart");
    let names = ["plain f64: the root alone", "cordial: the root with band, range and holdings, four checks judged"];
    table("The real water balance of five solutes solved", &names, &times);
}

fn table(title: &str, names: &[&str], times: &[Duration]) {
    println!("\n{title}; {COUNT} formulations, shortest of several rounds that took turns");
    println!("{:<66} {:>12} {:>8}", "", "ns each", "ratio");
    for (name, time) in names.iter().zip(times) {
        let each = time.as_nanos() as f64 / COUNT as f64;
        println!("{name:<66} {each:>12.1} {:>8.2}", time.as_secs_f64() / times[0].as_secs_f64());
    }
}
