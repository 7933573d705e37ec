//! How long the main steps take: one water activity, one assessment, one judgement, one full check with remedies, a thousand pieces.

use cordial::assess::{Assessment, assess_into};
use cordial::engine::Findings;
use cordial::matter::{Composition, Larder, Recipe, RecipeLine};
use cordial::models::water::water_activity;
use cordial::units::{Measure, Temperature};
use cordial::{Document, Piece, check, rules};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;

const BOX: &str = include_str!("../examples/data/winter-box.toml");

fn pieces() -> Vec<Piece> {
    Document::parse(BOX).map(|document| document.pieces().to_vec()).unwrap_or_default()
}

fn ganache() -> Option<Composition> {
    let line = |(name, mass): (&str, &str)| {
        Some(RecipeLine { ingredient: Larder::built_in().get(name).ok()?, mass: Measure::parse(mass).ok()?.check().ok()? })
    };
    let lines = [("cream-35", "250 g"), ("invert-sugar-78", "70 g"), ("glucose-syrup-de60", "40 g"), ("dark-couverture-64", "480 g")];
    Some(Recipe::new(lines.into_iter().map(line).collect::<Option<_>>()?, None).ok()?.composition())
}

fn steps(criterion: &mut Criterion) {
    let Some(ganache) = ganache() else { return };
    let room: Temperature = cordial::units::Checked::nearest(20.0);
    criterion.bench_function("water activity of a ganache", |bencher| bencher.iter(|| water_activity(black_box(&ganache), None, room)));

    let pieces = pieces();
    let Some(piece) = pieces.iter().max_by_key(|piece| piece.layers.len()) else { return };
    let mut assessment = Assessment::default();
    criterion.bench_function("assessment of four layers", |bencher| bencher.iter(|| assess_into(black_box(piece), &mut assessment)));

    let rules = rules::built_in();
    let Ok(bounds) = rules.bounds(piece) else { return };
    let mut findings = Findings::default();
    criterion.bench_function("judgement of four layers, all rules", |bencher| {
        bencher.iter(|| rules.judge(black_box(&assessment), &bounds, &mut findings));
    });
    let mut three = piece.clone();
    three.layers.truncate(3);
    criterion.bench_function("three layers assessed and judged", |bencher| {
        bencher.iter(|| {
            assess_into(black_box(&three), &mut assessment);
            rules.judge(&assessment, &bounds, &mut findings);
        });
    });
    criterion.bench_function("full check of a failing piece, with remedies", |bencher| bencher.iter(|| pieces.first().map(check)));

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
