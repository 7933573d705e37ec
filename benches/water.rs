//! How long a water activity with its band takes, and the exact root for comparison.

use cordial::matter::{Composition, Constituent, Constituent::*, Crystals, Larder, Recipe, RecipeLine};
use cordial::models::water::{Isotherms, water_activity, water_activity_by};
use cordial::units::{Checked, Measure, Temperature};
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

fn mixed(parts: &[(Constituent, f64)]) -> Option<Composition> {
    let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
    Composition::blend(pure.iter().map(|(composition, mass)| (composition, *mass)))
}

fn cooked(lines: &[(&str, &str)]) -> Option<Composition> {
    let line = |(name, mass): &(&str, &str)| {
        Some(RecipeLine { ingredient: Larder::built_in().get(name).ok()?, mass: Measure::parse(mass).ok()?.check().ok()? })
    };
    Some(*Recipe::new(lines.iter().map(line).collect::<Option<_>>()?, None).ok()?.composition())
}

const MANY: &[(Constituent, f64)] = &[
    (Water, 30.0),
    (Sucrose, 10.0),
    (Glucose, 8.0),
    (Fructose, 8.0),
    (Lactose, 2.0),
    (Maltose, 4.0),
    (Trisaccharides, 3.0),
    (HigherSaccharides, 6.0),
    (Sorbitol, 3.0),
    (Glycerol, 2.0),
    (Ethanol, 3.0),
    (Acid, 0.5),
    (Salt, 0.5),
    (FatFreeCocoa, 5.0),
    (MilkProtein, 2.0),
    (Starch, 3.0),
    (CocoaButter, 10.0),
];

fn activities(criterion: &mut Criterion) {
    let dissolved = Some(Crystals::Dissolved);
    let ganache = [("cream-35", "250 g"), ("invert-sugar-78", "70 g"), ("glucose-syrup-de60", "40 g"), ("dark-couverture-64", "480 g")];
    let gianduja = [("almond-paste", "300 g"), ("milk-couverture-38", "300 g"), ("cocoa-butter", "30 g")];
    let fillings = [
        ("12 solutes and 3 sorbing solids, all dissolved", mixed(MANY), dissolved),
        ("12 solutes and 3 sorbing solids", mixed(MANY), None),
        ("ganache", cooked(&ganache), None),
        ("gianduja", cooked(&gianduja), None),
        ("syrup beside its crystals", mixed(&[(Water, 2.0), (Sucrose, 6.0), (Glucose, 1.0), (Fructose, 1.0)]), None),
        ("sucrose syrup beside its crystals", mixed(&[(Water, 2.0), (Sucrose, 8.0)]), None),
        ("sugars of unknown kind", mixed(&[(Water, 3.0), (UnsplitSugars, 2.0), (UnsplitMilkSugars, 3.0), (MilkProtein, 1.0)]), None),
    ];
    let room: Temperature = Checked::nearest(20.0);
    for (name, filling, crystals) in fillings {
        let Some(filling) = filling else { continue };
        let mut group = criterion.benchmark_group(name);
        group.bench_function("value and band", |bencher| bencher.iter(|| water_activity(black_box(&filling), crystals, room)));
        let shipped = Isotherms::shipped();
        let exactly = || water_activity_by(&shipped, black_box(&filling), crystals, room);
        group.bench_function("by the exact inverse of every isotherm", |bencher| bencher.iter(exactly));
        group.finish();
    }
}

criterion_group!(benches, activities);
criterion_main!(benches);
