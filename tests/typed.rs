//! The library as a program uses it, without documents' help: typed pieces, and rule sets that are asked for what they do not know.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::assess::{Quantity, assess};
use cordial::engine::{Findings, Profile, ProfileLimit, RuleSet, Verdict};
use cordial::matter::{
    Allergen, AllergenSet, Emulsifier, EmulsifierForm, EmulsifierKind, EmulsifierSource, Larder, Market, Recipe, RecipeLine,
};
use cordial::models::cavity::Cavity;
use cordial::piece::{
    Allowance, Amount, Cap, FillingKind, Layer, Measured, Mould, OwnLimit, Piece, Reported, Sale, Shell, StirredIn, Storage, Temper,
    Workshop,
};
use cordial::report::check_with;
use cordial::units::{Checked, Measure, Unit};
use cordial::{Document, check, rules, source};

fn measure<T: Checked>(text: &str) -> T {
    Measure::parse(text).unwrap().check().unwrap()
}

const DESCRIBED: &str = r#"
format = 1
[[piece]]
name = "rum ganache"
markets = ["eu", "ca"]
free_from = ["peanut"]
keep = "3 wk"
mould = { shape = "hemisphere", diameter = "30 mm" }
[piece.shell]
chocolate = "dark-couverture-64"
drained = { time = "10 s" }
thickness = "1.6 mm"
casts = 1
temper = "tempered"
added = [{ ingredient = "cocoa-butter", dose = "2 %" }]
emulsifier = [{ kind = "lecithin", form = "fluid", source = "sunflower", dose = "0.1 %" }]
[[piece.layer]]
name = "ganache"
kind = "ganache"
mass = "5 g"
recipe = [{ ingredient = "cream-36", mass = "200 g" }, { ingredient = "dark-couverture-64", mass = "420 g" }]
measured = { water_activity = { value = 0.83, uncertainty = 0.005 } }
[piece.cap]
[piece.workshop]
air_temperature = "20 Cel"
shared_equipment = ["hazelnut"]
[piece.storage]
temperature = "16 Cel"
sale = "ambient"
"#;

#[test]
fn a_piece_put_together_is_the_one_described() {
    let larder = Larder::built_in();
    let line = |name: &str, mass: &str| RecipeLine { ingredient: larder.get(name).unwrap(), mass: measure(mass) };
    let recipe = Recipe::new(vec![line("cream-36", "200 g"), line("dark-couverture-64", "420 g")], None).unwrap();
    let lecithin = Emulsifier {
        kind: EmulsifierKind::Lecithin,
        form: EmulsifierForm::Fluid,
        source: Some(EmulsifierSource::Sunflower),
        dose: measure("0.1 %"),
        acetone_insoluble: None,
    };
    let shell = Shell::of(larder.get("dark-couverture-64").unwrap())
        .with_thickness(measure("1.6 mm"))
        .with_drained(measure("10 s"))
        .with_temper(Temper::Tempered)
        .with_stirred_in(StirredIn { ingredient: larder.get("cocoa-butter").unwrap(), dose: measure("2 %") })
        .with_emulsifier(lecithin);
    let activity = Reported { value: measure("0.83"), uncertainty: Some(0.005) };
    let layer = Layer::named("ganache")
        .with_kind(FillingKind::Ganache)
        .with_amount(Amount::Mass(measure("5 g")))
        .with_recipe(recipe)
        .with_measured(Measured { water_activity: Some(activity), ..Measured::default() });
    let workshop = Workshop {
        air_temperature: Some(measure("20 Cel")),
        shared_equipment: AllergenSet::of(&[Allergen::Hazelnut]),
        ..Workshop::default()
    };
    let built = Piece::named("rum ganache")
        .with_mould(Mould::of(Cavity::hemisphere(measure("30 mm"))))
        .with_shell(shell)
        .with_layer(layer)
        .with_cap(Cap::default())
        .with_market(Market::Eu)
        .with_market(Market::Ca)
        .with_free_from(AllergenSet::of(&[Allergen::Peanut]))
        .with_keep(measure("3 wk"))
        .with_workshop(workshop)
        .with_storage(Storage { temperature: Some(measure("16 Cel")), sale: Some(Sale::Ambient), ..Storage::default() });
    let described = Document::parse(DESCRIBED).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(built, described.pieces()[0]);
    assert_eq!(check(&built).unwrap().to_text(), check(&described.pieces()[0]).unwrap().to_text());
}

#[test]
fn a_bare_measurement_states_no_uncertainty() {
    let text = DESCRIBED.replace("{ value = 0.83, uncertainty = 0.005 }", "0.83");
    let described = Document::parse(&text).unwrap();
    assert_eq!(described.pieces()[0].layers[0].measured.water_activity, Some(Reported::bare(measure("0.83"))));
}

fn headroom_of(text: &str) -> OwnLimit {
    OwnLimit { key: "headroom.min".into(), value: Measure::parse(text).unwrap(), reason: "a steady hand".into() }
}

#[test]
fn what_the_rules_do_not_know_is_told_with_what_would_do() {
    let piece = || Piece::named("odd one");
    let refused = |piece: Piece| check(&piece).unwrap_err().to_string();
    let profile = refused(Piece { profile: Some("carefull".into()), ..piece() });
    assert!(profile.starts_with("piece \"odd one\": no profile is called `carefull`: use `careful` or `"), "{profile}");
    let misspelt = OwnLimit { key: "headrom.min".into(), ..headroom_of("1.2 mm") };
    assert_eq!(
        refused(Piece { limits: vec![misspelt], ..piece() }),
        "piece \"odd one\", limits: no limit is called `headrom.min`: did you mean `headroom.min`?"
    );
    let unheard_of = OwnLimit { key: "zzz".into(), ..headroom_of("1.2 mm") };
    assert_eq!(refused(Piece { limits: vec![unheard_of], ..piece() }), "piece \"odd one\", limits: no limit is called `zzz`");
    assert_eq!(
        refused(Piece { limits: vec![headroom_of("1.2 g")], ..piece() }),
        "piece \"odd one\", limits, headroom.min: `1.2 g` is not a length"
    );
    let allowance = |rule: &str| vec![Allowance { rule: rule.into(), reason: "tasting size".into() }];
    assert_eq!(
        refused(Piece { allow: allowance("piece-mass-unusal"), ..piece() }),
        "piece \"odd one\", allow: no rule is called `piece-mass-unusal`: did you mean `piece-mass-unusual`?"
    );
    assert!(check(&Piece { allow: allowance("piece-mass-unusual"), ..piece() }).is_ok());
}

#[test]
fn a_profile_of_ones_own_moves_a_limit_and_the_maker_moves_it_again() {
    static LIMITS: [ProfileLimit; 1] =
        [ProfileLimit { key: "headroom.min", value: Measure::new(3.0, Unit::Millimeter), source: &source::PROJECT }];
    let own = rules::built_in().with_profile(Profile { name: "deep", suits: "fillings that rise", limits: &LIMITS });
    assert!(own.profiles().iter().any(|profile| profile.name == "deep") && own.profiles().len() == rules::built_in().profiles().len() + 1);
    let text = DESCRIBED.replace("mass = \"5 g\"", "fill_to = \"2.5 mm\"");
    let careful = Document::parse(&text).unwrap().pieces()[0].clone();
    let deep = Piece { profile: Some("deep".into()), ..careful.clone() };
    let moved_back = Piece { limits: vec![headroom_of("2 mm")], ..deep.clone() };
    let bound = |piece: &Piece| {
        let report = check_with(&own, piece).unwrap();
        let finding = report.of("headroom-outside-window").next().unwrap();
        let reading = finding.readings.iter().find(|reading| reading.limit.key == "headroom.min").unwrap();
        (reading.bound_measure().to_string(), reading.verdict, finding.own_limits)
    };
    assert_eq!(bound(&careful), ("1 mm".into(), Verdict::Pass, false));
    assert_eq!(bound(&deep), ("3 mm".into(), Verdict::Fail, false));
    assert_eq!(bound(&moved_back), ("2 mm".into(), Verdict::Pass, true));
    assert!(own.bounds(&moved_back).unwrap().is_own("headroom.min") && !own.bounds(&deep).unwrap().is_own("headroom.min"));
}

/// Judged one by one, the rules find what they find together; a rule that is added is judged too.
#[test]
fn rules_judge_alone_as_they_do_together() {
    let piece = Document::parse(DESCRIBED).unwrap().pieces()[0].clone();
    let (all, assessment) = (rules::built_in(), assess(&piece));
    let bounds = all.bounds(&piece).unwrap();
    let (mut together, mut alone) = (Findings::default(), Findings::default());
    all.judge(&assessment, &bounds, &mut together);
    let mut readings = 0;
    for card in all.cards() {
        all.judge_by(card.id, &assessment, &bounds, &mut alone);
        assert!(alone.readings.iter().all(|reading| reading.rule.id == card.id), "{}", card.id);
        let own: Vec<_> = together.readings.iter().filter(|reading| reading.rule.id == card.id).collect();
        assert_eq!(alone.readings.len(), own.len(), "{}", card.id);
        for (one, other) in alone.readings.iter().zip(own) {
            assert_eq!(
                (one.limit.key, one.part, one.verdict, one.bound.value.to_bits()),
                (other.limit.key, other.part, other.verdict, other.bound.value.to_bits())
            );
        }
        readings += alone.readings.len();
    }
    assert_eq!(readings, together.readings.len());
    let lone = RuleSet::new([]).with(cordial::rules::BUILT_IN[0]);
    assert_eq!(lone.cards().count(), 1);
    assert!(assessment.layers[0].get(Quantity::WaterActivity).known().is_some());
}
