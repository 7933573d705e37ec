//! Random pieces as a workshop might describe them: every shape of mould, every kind of filling, every part once missing.

use super::document::{Described, Table, Value};
use crate::law::{Region, SalesName};
use crate::matter::{AllergenSet, Constituent, Crystals, EmulsifierForm, EmulsifierSource, Larder, Market};
use crate::models::water::boiling_point;
use crate::piece::{Barrier, Document, FillingKind, Sale, SeedKind, Temper, cooked_mass};
use crate::units::{Checked, Choice, Measure, Temperature, Unit};
use proptest::collection::vec;
use proptest::option::weighted;
use proptest::prelude::{Just, Strategy, any};
use proptest::sample::{select, subsequence};
use proptest::strategy::{BoxedStrategy, Union};
use std::fmt::Debug;
use std::ops::RangeInclusive;

/// A value that may be left out.
type Field = BoxedStrategy<Option<Value>>;

/// A usual filling: its kind and what goes into it.
struct Filling {
    kind: FillingKind,
    lines: &'static [Line],
    boiled: bool,
}

/// Of these ingredients one, so many grams of it, this often.
struct Line(&'static [&'static str], RangeInclusive<f64>, f64);

const COUVERTURES: &[&str] =
    &["dark-couverture-64", "dark-couverture-55", "dark-couverture-70", "milk-couverture-38", "white-couverture-30"];
const SYRUPS: &[&str] = &["glucose-syrup-de40", "invert-sugar-78", "honey", "sorbitol-syrup-70"];
const SPIRITS: &[&str] = &["fruit-brandy-42", "spirit-60", "rum-54", "orange-liqueur-40", "ethanol-96"];
const FRUIT: &[&str] = &["raspberry-puree", "rosehip-puree", "passion-fruit-pulp", "blackcurrant-puree"];
const NUTS: &[&str] = &["hazelnut-paste", "almond-paste", "pistachio-paste", "hazelnut-praline-50"];
const CREAM: &[&str] = &["cream-36", "cream-30", "milk-whole", "coconut-milk"];

const FILLINGS: &[Filling] = &[
    Filling {
        kind: FillingKind::Ganache,
        boiled: false,
        lines: &[
            Line(CREAM, 80.0..=350.0, 1.0),
            Line(COUVERTURES, 150.0..=500.0, 1.0),
            Line(SYRUPS, 10.0..=90.0, 0.6),
            Line(&["butter-82", "cocoa-butter", "coconut-oil"], 10.0..=80.0, 0.6),
            Line(SPIRITS, 5.0..=60.0, 0.3),
        ],
    },
    Filling {
        kind: FillingKind::Spirit,
        boiled: false,
        lines: &[
            Line(SPIRITS, 40.0..=200.0, 1.0),
            Line(&["sugar", "invert-sugar-78", "sorbitol-syrup-70", "glucose-syrup-de40"], 20.0..=300.0, 0.9),
            Line(&["water", "quince-juice-concentrate-70"], 5.0..=100.0, 0.5),
            Line(&["xanthan"], 0.1..=3.0, 0.5),
        ],
    },
    Filling {
        kind: FillingKind::FruitGel,
        boiled: true,
        lines: &[
            Line(FRUIT, 100.0..=400.0, 1.0),
            Line(&["sugar"], 80.0..=350.0, 1.0),
            Line(SYRUPS, 20.0..=150.0, 0.8),
            Line(&["pectin-slow-set", "pectin"], 2.0..=12.0, 0.9),
            Line(&["citric-acid-solution-50"], 1.0..=10.0, 0.6),
        ],
    },
    Filling {
        kind: FillingKind::Jam,
        boiled: true,
        lines: &[Line(&["jam", "apricot-jam", "orange-marmalade"], 50.0..=300.0, 1.0), Line(FRUIT, 10.0..=100.0, 0.4)],
    },
    Filling {
        kind: FillingKind::Caramel,
        boiled: true,
        lines: &[
            Line(&["sugar"], 100.0..=250.0, 1.0),
            Line(&["glucose-syrup-de40", "honey"], 50.0..=250.0, 1.0),
            Line(CREAM, 100.0..=350.0, 1.0),
            Line(&["butter-82"], 20.0..=100.0, 0.8),
            Line(&["salt"], 1.0..=5.0, 0.5),
        ],
    },
    Filling {
        kind: FillingKind::NutPaste,
        boiled: false,
        lines: &[
            Line(NUTS, 100.0..=300.0, 1.0),
            Line(COUVERTURES, 50.0..=300.0, 0.9),
            Line(&["cocoa-butter", "sunflower-oil"], 5.0..=50.0, 0.6),
            Line(&["wafer-flake"], 20.0..=100.0, 0.3),
        ],
    },
    Filling {
        kind: FillingKind::Marshmallow,
        boiled: true,
        lines: &[
            Line(&["sugar"], 150.0..=300.0, 1.0),
            Line(SYRUPS, 100.0..=300.0, 1.0),
            Line(&["gelatine-powder"], 8.0..=30.0, 1.0),
            Line(&["water", "blackcurrant-puree"], 60.0..=200.0, 1.0),
        ],
    },
    Filling {
        kind: FillingKind::Fondant,
        boiled: false,
        lines: &[Line(&["fondant"], 100.0..=300.0, 1.0), Line(&["water", "spirit-60"], 2.0..=40.0, 0.8), Line(SYRUPS, 5.0..=60.0, 0.4)],
    },
    Filling {
        kind: FillingKind::Liqueur,
        boiled: false,
        lines: &[
            Line(&["sugar"], 200.0..=400.0, 1.0),
            Line(&["water"], 80.0..=160.0, 1.0),
            Line(&["spirit-60", "ethanol-96", "kirsch-40"], 40.0..=150.0, 1.0),
        ],
    },
    Filling {
        kind: FillingKind::Crisp,
        boiled: false,
        lines: &[Line(&["butter-biscuit", "wafer-flake", "crisped-rice"], 50.0..=150.0, 1.0), Line(COUVERTURES, 20.0..=150.0, 0.7)],
    },
];

/// Everything drawn at once.
pub(super) fn described() -> BoxedStrategy<Described> {
    let layers = vec(layer(), 0..=3).prop_map(|layers| Some(Value::List(named(layers))));
    // What can be left out with the greatest gain comes first: counter-examples are made simpler in this order.
    let piece = table(vec![
        ("name", Just(Some(Value::Text("drawn"))).boxed()),
        ("layer", layers.boxed()),
        ("batch", maybe(0.4, inner(batch()))),
        ("workshop", maybe(0.5, inner(workshop()))),
        ("storage", maybe(0.5, inner(storage()))),
        ("cap", maybe(0.85, cap())),
        ("free_from", maybe(0.3, some_of(AllergenSet::words().collect()))),
        ("markets", maybe(0.5, some_of(Market::ALL.iter().map(|market| market.key()).collect()))),
        ("regions", maybe(0.8, some_of(Region::ALL.iter().map(|region| region.key()).collect()))),
        ("sold_as", maybe(0.4, sold_as())),
        ("keep", maybe(0.6, measure(1.0..=120.0, Unit::Day))),
        ("shell", maybe(0.9, shell())),
        ("mould", maybe(0.9, mould())),
    ]);
    (weighted(0.35, house()), piece).prop_map(|(house, piece)| of_the_house(house, piece)).boxed()
}

/// The shell is cast from the house's chocolate, where there is one.
fn of_the_house(house: Option<Table>, mut piece: Table) -> Described {
    if house.is_some() {
        let shell = piece.iter_mut().filter(|(key, _)| *key == "shell");
        for (_, value) in shell.filter_map(|(_, shell)| if let Value::Table(shell) = shell { Some(shell) } else { None }).flatten() {
            if matches!(value, Value::Text(name) if COUVERTURES.contains(name)) {
                *value = Value::Text("house");
            }
        }
    }
    Described { house, piece }
}

/// A name of the law: that of a filled piece as often as all others together.
fn sold_as() -> BoxedStrategy<Value> {
    let of_piece = SalesName::ALL.iter().copied().filter(|name| name.is_of_piece()).map(Choice::key).collect::<Vec<_>>();
    let all = SalesName::ALL.iter().map(|name| name.key()).collect::<Vec<_>>();
    Union::new([select(of_piece), select(all)]).prop_map(Value::Text).boxed()
}

fn house() -> BoxedStrategy<Table> {
    let measured = table(vec![
        ("yield_value", maybe(0.7, measure(1.0..=30.0, Unit::Pascal))),
        ("plastic_viscosity", maybe(0.7, measure(0.5..=6.0, Unit::PascalSecond))),
        ("measured_at", maybe(0.7, measure(35.0..=45.0, Unit::Celsius))),
        ("cocoa_powder", maybe(0.5, measure(0.0..=8.0, Unit::Percent))),
        ("whey", maybe(0.3, measure(0.0..=8.0, Unit::Percent))),
    ]);
    // In tenths of a per cent, so that they close.
    (280..=420u32, 150..=300u32, 2..=10u32, weighted(0.8, 1..=6u32), measured)
        .prop_map(|(butter, cocoa, water, lecithin, measured)| {
            let sugar = 1000 - butter - cocoa - water - lecithin.unwrap_or(0);
            let tenths = |tenths: u32| Value::Measure(Measure::new(f64::from(tenths) / 10.0, Unit::Percent));
            let fixed = [
                ("kind", Value::Text("dark")),
                ("cocoa_butter", tenths(butter)),
                ("fat_free_cocoa", tenths(cocoa)),
                ("sugar", tenths(sugar)),
                ("water", tenths(water)),
            ];
            let lecithin = lecithin.map(|dose| ("lecithin", Value::Table(vec![("amount", tenths(dose)), ("form", Value::Text("fluid"))])));
            fixed.into_iter().chain(lecithin).chain(measured).collect()
        })
        .boxed()
}

fn mould() -> BoxedStrategy<Value> {
    let width = || 22.0..=40.0;
    let depth = || 8.0..=20.0;
    let of = |shape: &'static str, lengths: Table| -> Table { [("shape", Value::Text(shape))].into_iter().chain(lengths).collect() };
    let millimeters = |length: f64| Value::Measure(rounded(length, Unit::Millimeter));
    let shapes = Union::new([
        width().prop_map(move |diameter| of("hemisphere", vec![("diameter", millimeters(diameter))])).boxed(),
        (width(), 0.5..=0.98)
            .prop_map(move |(diameter, share)| {
                of("segment", vec![("diameter", millimeters(diameter)), ("depth", millimeters(share * diameter / 2.0))])
            })
            .boxed(),
        (width(), 0.6..=0.95, depth())
            .prop_map(move |(opening, share, depth)| {
                let base = millimeters(share * opening);
                of("cone-frustum", vec![("opening", millimeters(opening)), ("base", base), ("depth", millimeters(depth))])
            })
            .boxed(),
        (width(), width(), 0.6..=0.95, depth())
            .prop_map(move |(length, width, share, depth)| {
                let sides = |share: f64| Value::List(vec![millimeters(share * length), millimeters(share * width)]);
                of("pyramid-frustum", vec![("opening", sides(1.0)), ("base", sides(share)), ("depth", millimeters(depth))])
            })
            .boxed(),
        (width(), width(), depth())
            .prop_map(move |(length, width, depth)| {
                of("box", vec![("length", millimeters(length)), ("width", millimeters(width)), ("depth", millimeters(depth))])
            })
            .boxed(),
        (width(), depth(), 0.4..=0.9, any::<bool>())
            .prop_map(move |(opening, depth, share, weighed)| {
                let holds = share * std::f64::consts::FRAC_PI_4 * opening * opening * depth / 1000.0;
                let (key, unit) = if weighed { ("water_weight", Unit::Gram) } else { ("volume", Unit::Milliliter) };
                let holds = Value::Measure(rounded(holds, unit));
                of("measured", vec![(key, holds), ("opening", millimeters(opening)), ("depth", millimeters(depth))])
            })
            .boxed(),
    ]);
    let cavities = weighted(0.6, 8..=40u32);
    (shapes, cavities)
        .prop_map(|(shape, cavities)| {
            Value::Table(shape.into_iter().chain(cavities.map(|many| ("cavities", Value::Count(many)))).collect())
        })
        .boxed()
}

fn shell() -> BoxedStrategy<Value> {
    let drained = inner(table(vec![("time", measure(5.0..=60.0, Unit::Second).prop_map(Some).boxed())]));
    let seed = table(vec![
        ("kind", word::<SeedKind>().prop_map(Some).boxed()),
        ("dose", measure(0.3..=2.0, Unit::Percent).prop_map(Some).boxed()),
        ("at", maybe(0.5, measure(31.0..=35.0, Unit::Celsius))),
    ]);
    inner(table(vec![
        ("chocolate", chocolate().prop_map(Some).boxed()),
        ("thickness", maybe(0.85, measure(0.7..=3.6, Unit::Millimeter))),
        ("drained", maybe(0.3, drained)),
        ("casts", maybe(0.7, (1..=3u32).prop_map(Value::Count).boxed())),
        ("temper", maybe(0.8, word::<Temper>())),
        ("seed", maybe(0.1, inner(seed))),
        ("added", maybe(0.3, stirred_in())),
        ("emulsifier", maybe(0.5, emulsifiers())),
    ]))
}

fn cap() -> BoxedStrategy<Value> {
    inner(table(vec![
        ("thickness", maybe(0.8, measure(0.5..=4.0, Unit::Millimeter))),
        ("coats", maybe(0.3, (1..=3u32).prop_map(Value::Count).boxed())),
        ("chocolate", maybe(0.15, chocolate())),
        ("temper", maybe(0.15, word::<Temper>())),
        ("added", maybe(0.1, stirred_in())),
        ("emulsifier", maybe(0.15, emulsifiers())),
    ]))
}

/// A chocolate: a couverture, or any other of the larder.
fn chocolate() -> BoxedStrategy<Value> {
    let all: Vec<&str> = Larder::built_in().iter().filter(|one| one.chocolate.is_some()).map(|one| one.name.as_str()).collect();
    Union::new([select(COUVERTURES), select(all)]).prop_map(Value::Text).boxed()
}

fn stirred_in() -> BoxedStrategy<Value> {
    let flavours = [
        "cocoa-butter",
        "cocoa-butter",
        "coffee-instant",
        "vanilla-extract",
        "water",
        "honey",
        "cream-36",
        "hazelnut-paste",
        "coconut-oil",
    ];
    let dose = Union::new_weighted(vec![(2, measure(0.05..=3.0, Unit::Percent)), (1, measure(3.0..=20.0, Unit::Percent))]);
    list_of(
        table(vec![
            ("ingredient", select(flavours.to_vec()).prop_map(|name| Some(Value::Text(name))).boxed()),
            ("dose", dose.prop_map(Some).boxed()),
        ]),
        1..=1,
    )
}

fn emulsifiers() -> BoxedStrategy<Value> {
    let usual = |dose: RangeInclusive<f64>| ("dose", measure(dose, Unit::Percent).prop_map(Some).boxed());
    let lecithin = table(vec![
        ("kind", Just(Some(Value::Text("lecithin"))).boxed()),
        ("form", word::<EmulsifierForm>().prop_map(Some).boxed()),
        ("source", maybe(0.7, word::<EmulsifierSource>())),
        usual(0.05..=1.2),
    ]);
    let other = table(vec![
        ("kind", select(&["pgpr", "ammonium-phosphatides", "sorbitan-tristearate"][..]).prop_map(|kind| Some(Value::Text(kind))).boxed()),
        usual(0.05..=0.7),
    ]);
    list_of(Union::new_weighted(vec![(3, lecithin), (1, other)]).boxed(), 1..=2)
}

fn layer() -> BoxedStrategy<Table> {
    let of = |filling: &'static Filling| (details(Some(filling.kind)), recipe(filling));
    let usual: Vec<_> =
        FILLINGS.iter().map(|filling| of(filling).prop_map(|(details, recipe)| [details, recipe].concat()).boxed()).collect();
    let odd = (details(None), odd_recipe()).prop_map(|(details, recipe)| [details, recipe].concat()).boxed();
    let bare = details(None);
    Union::new_weighted(vec![(1, bare), (12, Union::new(usual).boxed()), (1, odd)]).boxed()
}

fn recipe(filling: &'static Filling) -> BoxedStrategy<Table> {
    let line = |Line(names, grams, often): &Line| {
        let line = (select(*names), grams.clone());
        if *often < 1.0 { weighted(*often, line).boxed() } else { line.prop_map(Some).boxed() }
    };
    let lines: Vec<_> = filling.lines.iter().map(line).collect();
    let boiled = weighted(if filling.boiled { 0.8 } else { 0.05 }, 0.1..=0.9);
    (lines, boiled, any::<bool>())
        .prop_map(|(lines, boiled, watched)| {
            let recipe = weighed(lines.into_iter().flatten().collect(), boiled);
            if watched { by_thermometer(recipe) } else { recipe }
        })
        .boxed()
}

/// Whatever the larder holds, thrown together.
fn odd_recipe() -> BoxedStrategy<Table> {
    let all: Vec<&'static str> = Larder::built_in().iter().map(|one| one.name.as_str()).collect();
    (vec((select(all), 1.0..=300.0), 1..=4), weighted(0.3, 0.1..=0.9)).prop_map(|(lines, boiled)| weighed(lines, boiled)).boxed()
}

/// A recipe of which a share of the water is boiled off.
fn weighed(lines: Vec<(&'static str, f64)>, boiled: Option<f64>) -> Table {
    let lines: Vec<_> = lines.into_iter().map(|(name, grams)| (name, rounded(grams, Unit::Gram))).collect();
    let charge: f64 = lines.iter().map(|(_, mass)| mass.value()).sum();
    let water_of = |name: &str| Larder::built_in().find(name).map_or(0.0, |one| one.composition.of(Constituent::Water));
    let water: f64 = lines.iter().map(|(name, mass)| mass.value() * water_of(name)).sum();
    let cooked_to = boiled.filter(|_| water > 5.0).map(|share| rounded(charge - share * water, Unit::Gram));
    let line = |(name, mass)| Value::Table(vec![("ingredient", Value::Text(name)), ("mass", Value::Measure(mass))]);
    let recipe = ("recipe", Value::List(lines.into_iter().map(line).collect()));
    std::iter::once(recipe).chain(cooked_to.map(|mass| ("cooked_to", Value::Measure(mass)))).collect()
}

/// The same boiled until a thermometer shows what it does then, where that can be told.
fn by_thermometer(recipe: Table) -> Table {
    let written: Table = std::iter::once(("name", Value::Text("watched"))).chain(recipe.iter().cloned()).collect();
    let piece = vec![("name", Value::Text("watched")), ("layer", Value::List(vec![Value::Table(written)]))];
    let described = Described { house: None, piece };
    let boils = || {
        let document = Document::parse(&described.text(0)).ok()?;
        let recipe = document.pieces().first()?.layers.first()?.recipe.clone()?;
        recipe.cooked_to()?;
        let at = boiling_point(recipe.composition(), Temperature::nearest(100.0)).ok()?.temperature.value;
        let at = Temperature::from_base(at.celsius().ceil()).ok()?;
        cooked_mass(recipe.lines(), at, None).is_ok().then_some(at.measure(Unit::Celsius))
    };
    match boils() {
        Some(at) => recipe
            .into_iter()
            .map(|(key, value)| if key == "cooked_to" { ("cooked_at", Value::Measure(at)) } else { (key, value) })
            .collect(),
        None => recipe,
    }
}

/// What is said of a layer besides its recipe.
fn details(kind: Option<FillingKind>) -> BoxedStrategy<Table> {
    let kind = kind.map_or_else(word::<FillingKind>, |kind| Just(Value::Text(kind.key())).boxed());
    let amount = Union::new_weighted(vec![
        (1, Just(Table::new()).boxed()),
        (5, measure(0.0..=4.5, Unit::Millimeter).prop_map(|depth| vec![("fill_to", depth)]).boxed()),
        (2, measure(0.5..=9.0, Unit::Gram).prop_map(|mass| vec![("mass", mass)]).boxed()),
        (2, measure(0.4..=7.0, Unit::Milliliter).prop_map(|volume| vec![("volume", volume)]).boxed()),
    ]);
    let fields = table(vec![
        ("kind", maybe(0.6, kind)),
        ("temperature", maybe(0.6, measure(8.0..=42.0, Unit::Celsius))),
        ("crystals", maybe(0.2, word::<Crystals>())),
        ("hydrated_first", maybe(0.3, any::<bool>().prop_map(Value::Flag).boxed())),
        ("barrier", maybe(0.1, word::<Barrier>())),
        ("aerated_density", maybe(0.05, measure(300.0..=900.0, Unit::KilogramPerCubicMeter))),
        ("thickness", maybe(0.2, word::<crate::matter::Consistency>())),
        ("measured", maybe(0.15, inner(measured()))),
        ("heat_treated_in_pack", maybe(0.05, any::<bool>().prop_map(Value::Flag).boxed())),
    ]);
    (amount, fields).prop_map(|(amount, fields)| [amount, fields].concat()).boxed()
}

fn measured() -> BoxedStrategy<Table> {
    let reported = |value: BoxedStrategy<Value>, uncertainty: BoxedStrategy<Value>| {
        (value, weighted(0.3, uncertainty)).prop_map(|(value, uncertainty)| match uncertainty {
            Some(uncertainty) => Value::Table(vec![("value", value), ("uncertainty", uncertainty)]),
            None => value,
        })
    };
    let density = measure(400.0..=1400.0, Unit::KilogramPerCubicMeter);
    table(vec![
        ("water_activity", maybe(0.6, reported(bare(0.3..=0.95), bare(0.003..=0.02)).boxed())),
        ("yield_value", maybe(0.5, reported(measure(0.0..=300.0, Unit::Pascal), measure(0.1..=10.0, Unit::Pascal)).boxed())),
        ("ph", maybe(0.5, reported(bare(2.5..=7.0), bare(0.05..=0.3)).boxed())),
        ("density", maybe(0.3, reported(density, measure(2.0..=20.0, Unit::KilogramPerCubicMeter)).boxed())),
    ])
}

fn workshop() -> BoxedStrategy<Table> {
    table(vec![
        ("air_temperature", maybe(0.5, measure(16.0..=30.0, Unit::Celsius))),
        ("air_humidity", maybe(0.5, measure(30.0..=80.0, Unit::PercentHumidity))),
        ("mould_temperature", maybe(0.5, measure(15.0..=34.0, Unit::Celsius))),
        ("chocolate_temperature", maybe(0.5, measure(27.0..=36.0, Unit::Celsius))),
        ("emulsified_at", maybe(0.5, measure(22.0..=50.0, Unit::Celsius))),
        ("rest_before_cap", maybe(0.5, measure(0.5..=48.0, Unit::Hour))),
        ("cooled_at", maybe(0.5, measure(8.0..=20.0, Unit::Celsius))),
        ("cooled_for", maybe(0.5, measure(5.0..=120.0, Unit::Minute))),
        ("scale_division", maybe(0.8, measure(10.0..=2000.0, Unit::Milligram))),
        ("shared_equipment", maybe(0.2, some_of(AllergenSet::words().collect()))),
    ])
}

fn storage() -> BoxedStrategy<Table> {
    table(vec![
        (
            "temperature",
            maybe(
                0.7,
                Union::new_weighted(vec![(6, measure(4.0..=25.0, Unit::Celsius)), (1, measure(-25.0..=-1.0, Unit::Celsius))]).boxed(),
            ),
        ),
        ("humidity", maybe(0.5, measure(30.0..=80.0, Unit::PercentHumidity))),
        ("wrapped", maybe(0.5, any::<bool>().prop_map(Value::Flag).boxed())),
        ("sale", maybe(0.5, word::<Sale>())),
    ])
}

fn batch() -> BoxedStrategy<Table> {
    table(vec![
        ("melted", maybe(0.6, measure(0.1..=4.0, Unit::Kilogram))),
        ("moulds", maybe(0.8, (1..=20u32).prop_map(Value::Count).boxed())),
        ("overage", maybe(0.5, measure(1.0..=20.0, Unit::Percent))),
        ("scrap", maybe(0.5, measure(1.0..=10.0, Unit::Percent))),
    ])
}

/// Layers go by names, which must differ.
fn named(layers: Vec<Table>) -> Vec<Value> {
    let names = ["first", "second", "third", "fourth"];
    names.into_iter().zip(layers).map(|(name, layer)| Value::Table([vec![("name", Value::Text(name))], layer].concat())).collect()
}

/// The table of those fields that are given.
fn table(fields: Vec<(&'static str, Field)>) -> BoxedStrategy<Table> {
    let (keys, values): (Vec<_>, Vec<_>) = fields.into_iter().unzip();
    values.prop_map(move |values| keys.iter().copied().zip(values).filter_map(|(key, value)| Some((key, value?))).collect()).boxed()
}

fn inner(table: BoxedStrategy<Table>) -> BoxedStrategy<Value> {
    table.prop_map(Value::Table).boxed()
}

fn list_of(table: BoxedStrategy<Table>, many: RangeInclusive<usize>) -> BoxedStrategy<Value> {
    vec(inner(table), many).prop_map(Value::List).boxed()
}

fn some_of(words: Vec<&'static str>) -> BoxedStrategy<Value> {
    subsequence(words, 1..=2).prop_map(|words| Value::List(words.into_iter().map(Value::Text).collect())).boxed()
}

fn maybe(often: f64, value: BoxedStrategy<Value>) -> Field {
    weighted(often, value).boxed()
}

fn word<T: Choice + Debug>() -> BoxedStrategy<Value> {
    select(T::ALL).prop_map(|case| Value::Text(case.key())).boxed()
}

fn measure(range: RangeInclusive<f64>, unit: Unit) -> BoxedStrategy<Value> {
    number(range).prop_map(move |value| Value::Measure(Measure::new(value, unit))).boxed()
}

fn bare(range: RangeInclusive<f64>) -> BoxedStrategy<Value> {
    number(range).prop_map(Value::Bare).boxed()
}

/// A number of one to three digits, as people write them.
fn number(range: RangeInclusive<f64>) -> impl Strategy<Value = f64> {
    (range.clone(), 1..=3usize).prop_map(move |(value, many)| digits(value, many).clamp(*range.start(), *range.end()))
}

fn rounded(value: f64, unit: Unit) -> Measure {
    Measure::new(digits(value, 3), unit)
}

fn digits(value: f64, many: usize) -> f64 {
    format!("{value:.*e}", many.saturating_sub(1)).parse().unwrap_or(value)
}
