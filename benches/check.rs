//! How long the main steps take: one water activity; pieces of one, three and eight layers assessed, judged and checked with remedies; one knob
//! turned; a thousand pieces; a piece repaired; documents read and reports written.

use cordial::assess::{Assessment, assess_into, reassess_into};
use cordial::engine::{Findings, Gauge, Tally};
use cordial::matter::{Composition, Larder, Recipe, RecipeLine};
use cordial::models::water::water_activity;
use cordial::remedy::repair;
use cordial::units::{Measure, Temperature};
use cordial::{Document, check, rules};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;

mod work;

use work::{BOX, piece_of, pieces};

fn ganache() -> Option<Composition> {
    let line = |(name, mass): (&str, &str)| {
        Some(RecipeLine { ingredient: Larder::built_in().get(name).ok()?, mass: Measure::parse(mass).ok()?.check().ok()? })
    };
    let lines = [("cream-35", "250 g"), ("invert-sugar-78", "70 g"), ("glucose-syrup-de60", "40 g"), ("dark-couverture-64", "480 g")];
    Some(*Recipe::new(lines.into_iter().map(line).collect::<Option<_>>()?, None).ok()?.composition())
}

fn steps(criterion: &mut Criterion) {
    let Some(ganache) = ganache() else { return };
    let room: Temperature = cordial::units::Checked::nearest(20.0);
    criterion.bench_function("water activity of a ganache", |bencher| bencher.iter(|| water_activity(black_box(&ganache), None, room)));

    let pieces = pieces();
    let rules = rules::built_in();
    let (mut assessment, mut findings) = (Assessment::default(), Findings::default());
    for layers in [1, 3, 8] {
        let piece = piece_of(layers);
        let Ok(bounds) = rules.bounds(&piece) else { return };
        criterion.bench_function(&format!("{layers} layers assessed"), |bencher| {
            bencher.iter(|| assess_into(black_box(&piece), &mut assessment));
        });
        assess_into(&piece, &mut assessment);
        criterion.bench_function(&format!("{layers} layers judged by all rules"), |bencher| {
            bencher.iter(|| rules.judge(black_box(&assessment), &bounds, &mut findings));
        });
        criterion.bench_function(&format!("{layers} layers assessed and judged"), |bencher| {
            bencher.iter(|| {
                assess_into(black_box(&piece), &mut assessment);
                rules.judge(&assessment, &bounds, &mut findings);
            });
        });
        criterion
            .bench_function(&format!("{layers} layers, full check with remedies"), |bencher| bencher.iter(|| check(black_box(&piece))));
    }
    let three = piece_of(3);
    let knobs = work::knobs(&three);
    let Ok(bounds) = rules.bounds(&three) else { return };
    let (gauge, mut tally) = (Gauge::new(&rules, &bounds), Tally::default());
    let mut group = criterion.benchmark_group("assessed again");
    group.throughput(Throughput::Elements(2 * knobs.len() as u64));
    group.bench_function("3 layers, each knob turned there and back", |bencher| {
        let mut piece = three.clone();
        assess_into(&piece, &mut assessment);
        bencher.iter(|| {
            for (knob, settings) in &knobs {
                for to in settings {
                    knob.turn(&mut piece, *to);
                    let changes = reassess_into(&piece, &[*knob], &mut assessment);
                    gauge.judge_again(&assessment, &changes, &mut tally);
                }
            }
        });
    });
    group.finish();
    if let Some(failing) = pieces.first() {
        criterion.bench_function("repair of a failing piece", |bencher| bencher.iter(|| repair(black_box(failing), &rules, |_| true)));
    }

    let mut group = criterion.benchmark_group("assessed and judged");
    group.throughput(Throughput::Elements(1000)).sample_size(20);
    group.bench_function("1000 pieces", |bencher| {
        bencher.iter(|| {
            for piece in pieces.iter().cycle().take(1000) {
                assess_into(black_box(piece), &mut assessment);
                rules.judge(&assessment, &bounds, &mut findings);
            }
        });
    });
    group.finish();
}

fn reading(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("documents");
    group.throughput(Throughput::Bytes(BOX.len() as u64));
    group.bench_function("parse the winter box", |bencher| bencher.iter(|| Document::parse(black_box(BOX))));
    let reports: Vec<_> = pieces().iter().filter_map(|piece| check(piece).ok()).collect();
    group.bench_function("report as text", |bencher| bencher.iter(|| cordial::report::to_text(black_box(&reports))));
    group.bench_function("report as JSON", |bencher| bencher.iter(|| cordial::report::to_json_text(black_box(&reports))));
    group.bench_function("report as a tree", |bencher| bencher.iter(|| cordial::report::to_json(black_box(&reports))));
    group.finish();
}

criterion_group!(benches, steps, reading);
criterion_main!(benches);
