//! The same four checks on the same 10,000 formulations: plain `f64`, cordial's engine, a script engine, an interpreter of CEL, and numpy.
//! Each must break the same limits on every formulation. Times are the shortest of several rounds that took turns.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a bench may stop at the first surprise")]

#[path = "../../work/mod.rs"]
mod work;

use std::hint::black_box;
use std::process::Command;
use std::time::Duration;
use work::four_checks::{Columns, Engine, Formulation, SOLUTES, formulations, numbers, plain_columns};

const COUNT: usize = 10_000;

fn main() {
    let python = std::env::args().nth(1).unwrap_or_else(|| "python3".into());
    let all = formulations(COUNT);
    let columns = Columns::of(&all);
    // Which limits each formulation breaks, a bit each, as plain `f64` says.
    let wanted: Vec<u32> = all.iter().map(broken).collect();

    let mut batch = ([(); 4].map(|()| vec![0.0; COUNT]), [(); 4].map(|()| vec![cordial::engine::Verdict::Pass; COUNT]));
    let (engine, mut assessing) = (Engine::new(), Engine::new());
    let (mut margins, mut counts) = ([(); 4].map(|()| vec![0.0; COUNT]), vec![0; COUNT]);
    let (mut rhai, mut cel) = (Rhai::new(), Cel::new());

    let in_python = Python::write(&python, &columns, &wanted);
    let mut numpy = in_python.run();
    let times = work::shortest(
        12,
        &mut [
            &mut || plain_columns(black_box(&columns), &mut margins, &mut counts),
            &mut || _ = black_box(engine.columns(black_box(&columns), &mut batch.0, &mut batch.1)),
            &mut || all.iter().for_each(|one| _ = black_box(engine.hold(numbers(one), &mut [0.0; 4]))),
            &mut || all.iter().for_each(|one| _ = black_box(assessing.gauge(numbers(one), &mut [0.0; 4]))),
            &mut || all.iter().zip(&wanted).for_each(|(one, wanted)| assert_eq!(rhai.broken(one), *wanted, "rhai: {one:?}")),
            &mut || all.iter().zip(&wanted).for_each(|(one, wanted)| assert_eq!(cel.broken(one), *wanted, "CEL: {one:?}")),
        ],
    );
    numpy = numpy.min(in_python.run());

    for (at, wanted) in wanted.iter().enumerate() {
        let by_column = margins.iter().enumerate().map(|(check, margins)| u32::from(margins[at] < 0.0) << check).sum::<u32>();
        let by_engine = batch.1.iter().enumerate();
        let by_engine = by_engine.map(|(check, verdicts)| u32::from(verdicts[at] > cordial::engine::Verdict::Note) << check).sum::<u32>();
        assert!((by_column, by_engine) == (*wanted, *wanted), "formulation {at}");
    }
    let [columns_time, engine_time, one_time, assessed_time, rhai_time, cel_time] = times[..] else { return };
    let row = |name: &str, time: Duration| {
        let each = time.as_nanos() as f64 / COUNT as f64;
        let over = |base: Duration| time.as_secs_f64() / base.as_secs_f64();
        println!("| {name} | {each:.1} | {:.1} | {:.1} | {:.1} |", over(columns_time), over(engine_time), over(one_time));
    };
    println!("| four checks by | ns each | over columns of plain f64 | over the engine, in columns | over the engine, one by one |");
    println!("|---|---|---|---|---|");
    row("plain f64 in columns", columns_time);
    row("cordial's engine, in columns", engine_time);
    row("cordial's engine, one formulation at a time", one_time);
    row("the same, put in an assessment", assessed_time);
    row("numpy", numpy);
    row("rhai", rhai_time);
    row("cel", cel_time);
}

/// Which limits are broken, a bit each.
fn broken(one: &Formulation) -> u32 {
    let mut margins = [0.0; 4];
    work::four_checks::plain(one, &mut margins);
    margins.iter().enumerate().map(|(check, margin)| u32::from(*margin < 0.0) << check).sum()
}

const NAMES: [&str; 5] = ["sucrose", "glucose", "fructose", "sorbitol", "glycerol"];

/// A number as a script reads it: exactly, and always with a point.
fn literal(number: f64) -> String {
    format!("{number:?}")
}

struct Rhai {
    engine: rhai::Engine,
    script: rhai::AST,
    scope: rhai::Scope<'static>,
}

impl Rhai {
    fn new() -> Self {
        let mut text = String::from("let moles = water / 18.0153;\nlet dilution = 1.0;\nlet pull = 0.0;\n");
        for (name, (molar_mass, k1, k2)) in NAMES.iter().zip(SOLUTES) {
            let [per_gram, k1, k2] = [1.0 / molar_mass, k1, k2].map(literal);
            text += &format!("let n = {name} * {per_gram};\nlet x = n / (n + moles);\n");
            text += &format!("dilution *= 1.0 - x;\npull += x * x * ({k1} + {k2} * x);\n");
        }
        text += "let activity = dilution * exp(-pull);\n";
        text += &format!("let bearing = {} * yield_value;\n", literal(2.0 + std::f64::consts::PI));
        text += "let support = bearing / (max(cap_density - density, 0.0) * 9.80665 * headroom);\n";
        text += "let broken = 0;\nif dose > 0.01 { broken += 1; }\nif support < 1.0 { broken += 2; }\n";
        text += "if headroom < 0.001 { broken += 4; }\nif activity > 0.85 { broken += 8; }\nbroken\n";
        let mut engine = rhai::Engine::new();
        engine.set_optimization_level(rhai::OptimizationLevel::Full);
        let script = engine.compile(text).unwrap();
        Self { engine, script, scope: rhai::Scope::new() }
    }

    fn broken(&mut self, one: &Formulation) -> u32 {
        self.scope.clear();
        let numbers = [one.dose, one.yield_value, one.density, one.cap_density, one.headroom, one.water];
        for (name, number) in ["dose", "yield_value", "density", "cap_density", "headroom", "water"].into_iter().zip(numbers) {
            self.scope.push(name, number);
        }
        for (name, mass) in NAMES.into_iter().zip(one.solutes) {
            self.scope.push(name, mass);
        }
        let broken: i64 = self.engine.eval_ast_with_scope(&mut self.scope, &self.script).unwrap();
        u32::try_from(broken).unwrap()
    }
}

struct Cel {
    context: cel::Context<'static, 'static>,
    /// CEL has no names for what was computed: each solute's share is a program of its own, put back as a variable.
    shares: Vec<(String, cel::Program)>,
    checks: Vec<cel::Program>,
}

impl Cel {
    fn new() -> Self {
        let mut context = cel::Context::default();
        context.add_function("exp", |x: f64| x.exp()).unwrap();
        context.add_function("above", |x: f64, least: f64| x.max(least)).unwrap();
        let compiled = |text: &str| cel::Program::compile(text).unwrap();
        let share = |(name, (molar_mass, ..)): (&&str, (f64, f64, f64))| {
            let moles = format!("{name} * {}", literal(1.0 / molar_mass));
            (format!("x_{name}"), compiled(&format!("{moles} / ({moles} + water / 18.0153)")))
        };
        let of = |text: fn(&str, [String; 2]) -> String, between: &str| {
            let terms = NAMES.iter().zip(SOLUTES).map(|(name, (_, k1, k2))| text(&format!("x_{name}"), [k1, k2].map(literal)));
            terms.collect::<Vec<_>>().join(between)
        };
        let dilution = of(|x, _| format!("(1.0 - {x})"), " * ");
        let pull = of(|x, [k1, k2]| format!("{x} * {x} * ({k1} + {k2} * {x})"), " + ");
        let bearing = literal(2.0 + std::f64::consts::PI);
        let checks = [
            "dose > 0.01".to_owned(),
            format!("{bearing} * yield_value / (above(cap_density - density, 0.0) * 9.80665 * headroom) < 1.0"),
            "headroom < 0.001".to_owned(),
            format!("{dilution} * exp(-({pull})) > 0.85"),
        ];
        Self { context, shares: NAMES.iter().zip(SOLUTES).map(share).collect(), checks: checks.iter().map(|text| compiled(text)).collect() }
    }

    fn broken(&mut self, one: &Formulation) -> u32 {
        let numbers = [one.dose, one.yield_value, one.density, one.cap_density, one.headroom, one.water];
        for (name, number) in ["dose", "yield_value", "density", "cap_density", "headroom", "water"].into_iter().zip(numbers) {
            self.context.add_variable_from_value(name, number);
        }
        for (name, mass) in NAMES.into_iter().zip(one.solutes) {
            self.context.add_variable_from_value(name, mass);
        }
        for (name, program) in &self.shares {
            let share = program.execute(&self.context).unwrap();
            self.context.add_variable_from_value(name.as_str(), share);
        }
        let is_broken = |program: &cel::Program| program.execute(&self.context).unwrap() == cel::Value::Bool(true);
        self.checks.iter().enumerate().map(|(check, program)| u32::from(is_broken(program)) << check).sum()
    }
}

/// The columns in a file, for numpy to read.
struct Python {
    command: String,
    file: std::path::PathBuf,
}

impl Python {
    fn write(command: &str, columns: &Columns, wanted: &[u32]) -> Self {
        let six = [&columns.dose, &columns.yield_value, &columns.density, &columns.cap_density, &columns.headroom, &columns.water];
        let wanted: Vec<f64> = wanted.iter().map(|bits| f64::from(*bits)).collect();
        let all = six.into_iter().chain(&columns.solutes).chain([&wanted]).flatten();
        let file = std::env::temp_dir().join(format!("cordial-rivals-{}.f64", std::process::id()));
        std::fs::write(&file, all.flat_map(|number| number.to_le_bytes()).collect::<Vec<u8>>()).unwrap();
        Self { command: command.to_owned(), file }
    }

    /// The shortest time of a round; the script checks every formulation.
    fn run(&self) -> Duration {
        let script = concat!(env!("CARGO_MANIFEST_DIR"), "/four_checks.py");
        let out = Command::new(&self.command).arg(script).arg(&self.file).output().unwrap();
        assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
        Duration::from_secs_f64(String::from_utf8_lossy(&out.stdout).trim().parse().unwrap())
    }
}

impl Drop for Python {
    fn drop(&mut self) {
        _ = std::fs::remove_file(&self.file);
    }
}
