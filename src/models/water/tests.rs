//! The balance against measurements, against a second implementation, and against its own equation.

use super::*;
use crate::matter::{Composition, Constituent, Constituent::*, Crystals};
use crate::units::{Checked, MassFraction, Temperature, WaterActivity, quantity::ratio};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use proptest::prelude::*;

fn celsius(degrees: f64) -> Temperature {
    Temperature::from_base(degrees).unwrap()
}

/// A composition from masses in any unit.
fn weighed(parts: &[(Constituent, f64)]) -> Composition {
    let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
    Composition::blend(pure.iter().map(|(composition, mass)| (composition, *mass))).unwrap()
}

fn solve(parts: &[(Constituent, f64)], crystals: Option<Crystals>) -> WaterBalance {
    water_activity(&weighed(parts), crystals, celsius(25.0)).unwrap()
}

fn activity(parts: &[(Constituent, f64)], crystals: Option<Crystals>) -> f64 {
    solve(parts, crystals).activity.value.base()
}

/// A plain implementation in another language, by bisection; all sugar dissolved, cocoa solubles counted.
#[test]
fn agrees_with_a_second_implementation() {
    let table: &[(f64, &[(Constituent, f64)])] = &[
        (
            0.690700809,
            &[
                (Water, 21.05),
                (Glycerol, 16.27),
                (Salt, 1.76),
                (Fructose, 16.85),
                (FatFreeCocoa, 6.21),
                (Starch, 8.67),
                (MilkProtein, 1.88),
            ],
        ),
        (
            0.726935981,
            &[(Water, 27.21), (Acid, 0.67), (Fructose, 6.21), (Maltose, 18.76), (Glucose, 27.02), (Minerals, 1.7), (Xylitol, 14.44)],
        ),
        (
            0.870012228,
            &[(Water, 58.52), (Maltitol, 21.89), (Xylitol, 4.28), (Sorbitol, 29.68), (Maltose, 29.46), (Acid, 2.53), (FatFreeCocoa, 9.76)],
        ),
        (0.836907564, &[(Water, 24.09), (Mannitol, 14.55), (LacticAcid, 2.04), (Ethanol, 3.68), (Maltose, 19.33), (Lactose, 2.35)]),
        (
            0.818730506,
            &[
                (Water, 44.48),
                (Glycerol, 27.5),
                (Sucrose, 19.06),
                (Acid, 2.84),
                (LacticAcid, 0.17),
                (HigherSaccharides, 7.09),
                (Starch, 14.35),
                (MilkProtein, 6.41),
            ],
        ),
        (0.971783671, &[(Water, 50.95), (Trisaccharides, 2.11), (LacticAcid, 1.14), (Glucose, 11.02)]),
        (0.953291661, &[(Water, 18.09), (Sucrose, 4.24), (HigherSaccharides, 19.34), (Trisaccharides, 1.38), (Starch, 1.65)]),
        (0.964184466, &[(Water, 35.69), (Acid, 0.83), (Glucose, 11.52)]),
        (
            0.858872289,
            &[
                (Water, 55.69),
                (HigherSaccharides, 13.45),
                (Glucose, 0.52),
                (Salt, 1.22),
                (Trisaccharides, 17.8),
                (LacticAcid, 2.82),
                (Maltitol, 29.43),
                (Glycerol, 14.32),
                (Acid, 1.3),
                (FatFreeCocoa, 10.02),
            ],
        ),
        (0.816175958, &[(Water, 33.39), (Glucose, 6.69), (Sorbitol, 28.03), (Minerals, 1.75), (Salt, 2.68)]),
        (
            0.775287020,
            &[
                (Water, 36.02),
                (Xylitol, 5.09),
                (Glucose, 1.9),
                (Lactose, 28.78),
                (Trisaccharides, 27.64),
                (Minerals, 1.81),
                (Sorbitol, 2.63),
                (Ethanol, 17.75),
                (MilkProtein, 2.73),
            ],
        ),
        (0.966432678, &[(Water, 23.33), (Fructose, 5.83), (Acid, 1.91)]),
    ];
    for (expected, parts) in table {
        assert_abs_diff_eq!(activity(parts, Some(Crystals::Dissolved)), expected, epsilon = 1e-6);
    }
}

/// Whole fillings, as a plain implementation in another language counts them, by bisection at 25 °C: sugars dissolved to saturation in the
/// mixture, protein on the milk-protein constants. In order: ganache, meringue buttercream, cookie-dough frosting with cream and with water,
/// ganache, sweetened condensed milk.
#[test]
fn counts_whole_fillings_like_a_second_implementation() {
    let table: &[(f64, &[(Constituent, f64)])] = &[
        (
            0.877888,
            &[
                (Water, 0.22841),
                (MilkFat, 0.33359),
                (Lactose, 0.0112),
                (MilkProtein, 0.00832),
                (MilkSalts, 0.00188),
                (Salt, 0.00072),
                (Sucrose, 0.30349),
                (FatFreeCocoa, 0.10503),
            ],
        ),
        (
            0.918309,
            &[
                (Sucrose, 0.2676),
                (Water, 0.2458),
                (MilkProtein, 0.02351),
                (Salt, 0.00053),
                (Minerals, 0.00053),
                (Glucose, 0.00103),
                (MilkFat, 0.44841),
                (Lactose, 0.0033),
                (Ethanol, 0.00182),
                (Fructose, 0.00032),
            ],
        ),
        (
            0.829506,
            &[
                (Water, 0.10094),
                (MilkFat, 0.1905),
                (MilkProtein, 0.01279),
                (Lactose, 0.0039),
                (Sucrose, 0.44039),
                (Starch, 0.06956),
                (Glucose, 0.00222),
                (Fructose, 0.00222),
                (MilkSalts, 0.00216),
                (Ethanol, 0.00188),
                (Inert, 0.1675),
            ],
        ),
        (
            0.833705,
            &[
                (Water, 0.11246),
                (MilkFat, 0.18355),
                (MilkProtein, 0.01101),
                (Lactose, 0.00135),
                (Sucrose, 0.44039),
                (Starch, 0.06956),
                (Glucose, 0.00222),
                (Fructose, 0.00222),
                (MilkSalts, 0.00174),
                (Ethanol, 0.00188),
                (Inert, 0.1675),
            ],
        ),
        (
            0.824398,
            &[
                (Water, 0.15861),
                (MilkFat, 0.37213),
                (Sucrose, 0.2877),
                (FatFreeCocoa, 0.1623),
                (Lactose, 0.00787),
                (MilkProtein, 0.00577),
                (MilkSalts, 0.00131),
            ],
        ),
        (0.846165, &[(Water, 0.265), (Sucrose, 0.445), (MilkFat, 0.085), (Lactose, 0.105), (MilkProtein, 0.073), (MilkSalts, 0.0155)]),
    ];
    for (expected, parts) in table {
        assert_abs_diff_eq!(activity(parts, None), expected, epsilon = 1e-5);
    }
}

fn uncertainty(balance: &WaterBalance) -> f64 {
    (balance.activity.high.base() - balance.activity.low.base()) / 4.0
}

/// Sorbitol is covered by no measurement, sucrose to 67.9 %, fructose to 93.7 %.
#[test]
fn solutes_beyond_their_range_are_named_and_widen_the_band() {
    let beyond = |parts: &[(Constituent, f64)]| solve(parts, Some(Crystals::Dissolved)).beyond_range().collect::<Vec<_>>();
    assert_eq!(beyond(&[(Water, 35.0), (Sucrose, 65.0)]), []);
    assert_eq!(beyond(&[(Water, 30.0), (Sucrose, 70.0)]), [Sucrose]);
    assert_eq!(beyond(&[(Water, 40.0), (Fructose, 50.0), (Sorbitol, 10.0)]), [Sorbitol]);
    // A trace widens by a trace, and is not told of.
    assert_eq!(beyond(&[(Water, 40.0), (Fructose, 60.0), (Sorbitol, 0.05)]), []);
    let of = |sucrose: f64| uncertainty(&solve(&[(Water, 1.0 - sucrose), (Sucrose, sucrose)], Some(Crystals::Dissolved)));
    // No jump where the range ends, nor where the ramp does.
    for end in [0.679, 0.779] {
        assert_abs_diff_eq!(of(end - 1e-6), of(end + 1e-6), epsilon = 1e-6);
    }
    assert!(of(0.74) > 1.5 * 0.005);
}

/// From two solved balances: with half a per cent more or less water the activity is off by as much.
#[test]
fn what_lots_are_off_by_moves_the_activity_by_first_order() {
    let by = 0.005;
    let is_water = |constituent: Constituent| constituent == Water;
    let syrup = weighed(&[(Water, 35.0), (Fructose, 65.0)]);
    let at = |composition: &Composition| water_activity(composition, None, celsius(25.0)).unwrap();
    let [wetter, drier] = [by, -by].map(|by| at(&syrup.with_more(is_water, by).unwrap()).activity.value.base());
    let known = uncertainty(&at(&syrup));
    let found = uncertainty(&at(&syrup.uncertain_by(is_water, MassFraction::from_base(by).unwrap())));
    assert_relative_eq!((found * found - known * known).sqrt(), (wetter - drier) / 2.0, max_relative = 0.02);
    // Beside its crystals sucrose gives way: the plateau hardly moves.
    let plateau = weighed(&[(Water, 20.0), (CocoaButter, 30.0), (Sucrose, 50.0)]);
    let moved = uncertainty(&at(&plateau.uncertain_by(is_water, MassFraction::from_base(by).unwrap())));
    assert!(moved - uncertainty(&at(&plateau)) < 1e-3);
}

#[test]
fn a_filling_of_its_chocolates_sugar_alone_sits_on_the_plateau() {
    let of = |sucrose| solve(&[(Water, 20.0), (CocoaButter, 30.0), (Sucrose, sucrose)], None);
    assert_abs_diff_eq!(of(45.0).activity.value.base(), 0.85, epsilon = 0.01);
    assert_relative_eq!(of(60.0).activity.value.base(), of(45.0).activity.value.base(), max_relative = 1e-12);
    let sucrose = of(60.0).of(Sucrose);
    assert_relative_eq!(sucrose.dissolved * 110.0, 20.0 * sucrose_solubility(celsius(25.0)).get::<ratio>(), max_relative = 1e-9);
    assert_relative_eq!((sucrose.dissolved + sucrose.crystalline) * 110.0, 60.0, max_relative = 1e-12);
}

/// The saturated syrup comes to rest below the activity at which the protein would take all the water: a false root lies there.
#[test]
fn sorption_of_the_last_water_is_no_root() {
    let found = solve(&[(Water, 4.0), (Sucrose, 46.0), (MilkProtein, 12.0), (MilkFat, 38.0)], None);
    let dry = WaterActivity::from_base(found.activity.value.base()).unwrap();
    let sorbed = 0.12 * Sorbent::of(MilkProtein).unwrap().water_held(dry).get::<ratio>();
    assert!(sorbed < 0.04);
    assert_relative_eq!(found.of(Sucrose).water + sorbed, 0.04, max_relative = 1e-9);
}

/// As documented: 0.005 where one solute holds all the water, 0.01 where several share it.
#[test]
fn one_solute_is_surer_than_several() {
    let standard_uncertainty = |parts: &[(Constituent, f64)]| {
        let band = solve(parts, None).activity.map(Checked::base);
        (band.high - band.low) / 4.0
    };
    assert_abs_diff_eq!(standard_uncertainty(&[(Water, 40.0), (Sucrose, 60.0)]), 0.005, epsilon = 1e-4);
    assert_abs_diff_eq!(standard_uncertainty(&[(Water, 60.0), (Sucrose, 25.0), (Glucose, 15.0)]), 0.01, epsilon = 1e-4);
}

/// As documented: 0.3 K and a tenth of the height above water, at most 2 K.
#[test]
fn a_boiling_point_is_surer_the_closer_to_that_of_water() {
    for (sucrose, in_altitude) in [(30.0, 100.0), (60.0, 100.0), (85.0, 100.0), (60.0, 90.0)] {
        let syrup = weighed(&[(Water, 100.0 - sucrose), (Sucrose, sucrose)]);
        let band = boiling_point(&syrup, celsius(in_altitude)).unwrap().temperature.map(Temperature::celsius);
        let standard_uncertainty = 0.3 + 0.1 * (band.value - in_altitude);
        assert!(standard_uncertainty < 2.0);
        assert_abs_diff_eq!((band.high - band.low) / 4.0, standard_uncertainty, epsilon = 1e-3);
    }
}

#[test]
fn what_dissolves_nothing_boils_dry() {
    let boiled = |parts: &[(Constituent, f64)]| boiled_to(&weighed(parts), celsius(110.0), celsius(100.0));
    assert_eq!(boiled(&[(Water, 50.0), (CocoaButter, 50.0)]), Err(BoilingError::Plain));
    assert_eq!(boiled(&[(CocoaButter, 100.0)]), Err(BoilingError::Dry));
    assert!(boiled(&[(Water, 50.0), (CocoaButter, 30.0), (Sucrose, 20.0)]).is_ok());
    // What is left is told to some per cent either way.
    let kept = boiled(&[(Water, 50.0), (Sucrose, 50.0)]).unwrap().kept.map(|kept| kept.get::<ratio>());
    assert!(0.95 * kept.value < kept.low && kept.low < kept.value && kept.value < kept.high && kept.high < 1.1 * kept.value, "{kept:?}");
}

#[test]
fn spirit_in_a_boil_is_told_to_a_tenth() {
    let liqueur = weighed(&[(Water, 60.0), (Ethanol, 12.34), (Sucrose, 27.66)]);
    let refused = boiling_point(&liqueur, celsius(100.0)).unwrap_err().to_string();
    assert!(refused.starts_with("it holds 12.3 % of ethanol"), "{refused}");
}

#[test]
fn pure_water_is_exactly_one_and_no_water_is_refused() {
    for parts in [&[(Water, 1.0)][..], &[(Water, 1.0), (CocoaButter, 3.0)]] {
        let band = solve(parts, None).activity;
        assert_eq!([band.low, band.value, band.high].map(Checked::base), [1.0; 3]);
    }
    let error = water_activity(&Composition::pure(Sucrose), None, celsius(25.0)).unwrap_err();
    assert_eq!(error.to_string(), "there is no water: its activity has no meaning");
    let swollen = solve(&[(Water, 0.9), (Starch, 0.1)], None);
    assert_eq!(swollen.activity.value.base(), 1.0);
    assert!(swollen.sorbed_water() < 0.05);
}

#[test]
fn unidentified_matter_is_named() {
    let of = |share| water_activity(&weighed(&[(Water, 0.5), (Sucrose, 0.5 - share), (Unidentified, share)]), None, celsius(25.0));
    assert!(of(0.02).is_ok());
    assert!(of(0.03).unwrap_err().to_string().starts_with("3 % of the mass is of unknown nature, at most 2 % may be"));
}

#[test]
fn unknown_sugars_span_their_extremes() {
    let of = |sugar| solve(&[(Water, 0.6), (sugar, 0.4)], None).activity;
    let (unknown, sucrose, fructose) = (of(UnsplitSugars), of(Sucrose), of(Fructose));
    assert_relative_eq!(unknown.low.base(), fructose.low.base(), max_relative = 1e-12);
    assert_relative_eq!(unknown.high.base(), sucrose.high.base(), max_relative = 1e-12);
    assert_relative_eq!(unknown.value.base(), f64::midpoint(sucrose.value.base(), fructose.value.base()));
    let both = solve(&[(Water, 0.6), (UnsplitSugars, 0.2), (UnsplitMilkSugars, 0.2)], None);
    assert_relative_eq!(both.holdings().map(|(_, holding)| holding.water).sum::<f64>(), 0.6, max_relative = 1e-9);
}

#[test]
fn milk_protein_bounds_the_lactose_among_milk_sugars() {
    let of = |parts: &[(Constituent, f64)]| solve(parts, None);
    let milk = |sugars: &[(Constituent, f64)]| [&[(Water, 0.2), (MilkProtein, 0.05), (MilkSalts, 0.01), (MilkFat, 0.24)], sugars].concat();
    let unsplit = of(&milk(&[(UnsplitMilkSugars, 0.5)]));
    let [least, most] = [0.04, 0.10].map(|lactose| of(&milk(&[(Lactose, lactose), (Sucrose, 0.5 - lactose)])).activity);
    assert_relative_eq!(unsplit.activity.low.base(), least.low.base().min(most.low.base()), max_relative = 1e-12);
    assert_relative_eq!(unsplit.activity.high.base(), least.high.base().max(most.high.base()), max_relative = 1e-12);
    // What is declared as lactose counts towards it; all of the rest is sucrose.
    let declared = of(&milk(&[(Lactose, 0.1), (UnsplitMilkSugars, 0.4)])).activity;
    assert_eq!(declared, most);
    // Sweetened condensed milk of a food table; its usual range (seen, on an unreferenced page).
    let condensed = of(&[(Water, 27.16), (UnsplitMilkSugars, 54.4), (MilkSalts, 1.83), (MilkFat, 8.7), (MilkProtein, 7.91)]).activity;
    assert!((0.80..=0.86).contains(&condensed.value.base()), "{condensed:?}");
    // Nothing is known where no milk protein is.
    let bare = of(&[(Water, 0.2), (UnsplitMilkSugars, 0.5), (CocoaButter, 0.3)]).activity;
    assert!(bare.low.base() < 0.85 && bare.high.base() > 0.98);
}

/// The liquid beside crystals, taken alone, is just saturated.
#[test]
fn what_is_dissolved_beside_crystals_is_saturated() {
    let parts = [(Water, 0.2), (Sucrose, 0.5), (Lactose, 0.1), (Fructose, 0.05), (MilkProtein, 0.05)];
    let found = solve(&parts, None);
    let liquid: Vec<_> = found.holdings().map(|(constituent, holding)| (constituent, holding.dissolved)).collect();
    let free = 0.2 / parts.iter().map(|(_, part)| part).sum::<f64>() - found.sorbed_water();
    assert!(found.of(Sucrose).crystalline > 0.0 && found.of(Lactose).crystalline > 0.0);
    let liquid = weighed(&[&liquid[..], &[(Water, free)]].concat());
    for crystal in [SugarCrystal::Sucrose, SugarCrystal::LactoseMonohydrate] {
        let found = supersaturation(&liquid, crystal, celsius(25.0)).unwrap().ratio.value.get::<ratio>();
        assert_relative_eq!(found, 1.0, max_relative = 1e-8);
    }
}

#[test]
fn range_is_that_of_the_tests() {
    let in_range = |parts: &[(Constituent, f64)], degrees| water_activity(&weighed(parts), None, celsius(degrees)).unwrap().in_range;
    assert!(in_range(&[(Water, 0.4), (Sucrose, 0.6)], 15.0));
    assert!(!in_range(&[(Water, 0.4), (Sucrose, 0.6)], 14.9));
    assert!(in_range(&[(Water, 0.4), (Ethanol, 0.6)], 20.0));
    assert!(!in_range(&[(Water, 0.39), (Ethanol, 0.61)], 20.0));
    assert!(!in_range(&[(Water, 0.94), (Salt, 0.06)], 20.0));
    // Salt counts against the water it is in, not against the fat beside it.
    assert!(in_range(&[(Water, 0.31), (Salt, 0.015), (LiquidOil, 0.675)], 20.0));
    assert!(!in_range(&[(Water, 0.3), (Salt, 0.02), (LiquidOil, 0.68)], 20.0));
    assert!(in_range(&[(Water, 0.3), (Sucrose, 0.7)], 20.0));
    assert!(!in_range(&[(Water, 0.28), (Ethanol, 0.02), (Sucrose, 0.7)], 20.0));
}

#[test]
fn what_is_too_dry_to_have_been_tested_is_only_said_to_be_dry() {
    let dry = |parts: &[(Constituent, f64)]| water_activity(&weighed(parts), None, celsius(20.0)).unwrap();
    let nut_paste = dry(&[(Water, 0.02), (LiquidOil, 0.5), (Protein, 0.25), (Fibre, 0.2), (Minerals, 0.03)]);
    assert_eq!((nut_paste.activity.low.base(), nut_paste.in_range), (0.0, true));
    assert_relative_eq!(nut_paste.activity.high.base(), 0.55 + 2.0 * 0.027);
    let brine = dry(&[(Water, 0.3), (Salt, 0.7)]);
    assert!(!brine.in_range, "only its salt makes it dry, and so much was never tested");
}

fn any_crystals() -> impl Strategy<Value = Option<Crystals>> {
    prop::sample::select(vec![None, Some(Crystals::Dissolved), Some(Crystals::Fondant), Some(Crystals::Crust), Some(Crystals::Seeded)])
}

fn known() -> Vec<Constituent> {
    let unknown = [UnsplitSugars, UnsplitMilkSugars, Unidentified];
    Constituent::ALL.iter().copied().filter(|constituent| !unknown.contains(constituent)).collect()
}

/// Compositions with some water, of few constituents or many, in amounts from traces up.
fn any_composition() -> impl Strategy<Value = Composition> {
    let amount = prop_oneof![3 => Just(0.0), 3 => 0.0..1.0_f64, 1 => (-30.0..0.0_f64).prop_map(|exponent| 10.0_f64.powf(exponent))];
    let identified = [known(), vec![UnsplitSugars, UnsplitMilkSugars]].concat();
    (
        prop::collection::vec(amount, identified.len()),
        prop_oneof![0.001..3.0_f64, (-20.0..0.0_f64).prop_map(|exponent| 10.0_f64.powf(exponent))],
    )
        .prop_map(move |(amounts, water)| {
            let mut parts: Vec<_> = identified.iter().copied().zip(amounts).collect();
            parts.push((Water, water));
            weighed(&parts)
        })
}

proptest! {
    #[test]
    fn all_that_holds_water_has_an_activity(composition in any_composition(), crystals in any_crystals(), degrees in -40.0..200.0_f64) {
        let found = water_activity(&composition, crystals, celsius(degrees)).unwrap();
        let [low, value, high] = [found.activity.low, found.activity.value, found.activity.high].map(Checked::base);
        prop_assert!(0.0 <= low && low <= value && value <= high && high <= 1.0, "{low} {value} {high}");
        for (constituent, holding) in found.holdings() {
            for mass in [holding.dissolved, holding.crystalline, holding.water] {
                prop_assert!((-1e-15..=1.0 + 1e-9).contains(&mass), "{constituent:?}: {holding:?}");
            }
        }
    }

    #[test]
    fn what_is_held_is_what_there_is(composition in any_composition(), crystals in any_crystals()) {
        let found = water_activity(&composition, crystals, celsius(25.0)).unwrap();
        let (held, water) = (found.holdings().map(|(_, holding)| holding.water).sum::<f64>(), composition.of(Water));
        if found.activity.value.base() < 1.0 {
            prop_assert!((held - water).abs() <= 1e-9, "{held} of {water}");
        }
        prop_assert!(held <= water + 1e-9, "{held} of {water}");
    }

    #[test]
    fn the_table_keeps_to_the_exact_root(composition in any_composition(), crystals in any_crystals(), degrees in 0.0..40.0_f64) {
        let found = water_activity(&composition, crystals, celsius(degrees)).unwrap().activity.value.base();
        let exact = water_activity_by(&Isotherms::shipped(), &composition, crystals, celsius(degrees)).unwrap().activity.value.base();
        prop_assert!((found - exact).abs() <= 1e-9, "{found} {exact}");
    }

    #[test]
    fn more_water_raises_it_and_more_of_anything_else_never_does(
        composition in any_composition(), crystals in any_crystals(), more in prop::sample::select(known()), amount in 1e-6..1.0_f64,
    ) {
        // Milk protein also tells how much of the milk's sugars is lactose, which is another matter.
        prop_assume!(more != MilkProtein || composition.of(UnsplitMilkSugars) <= 0.0);
        let of = |composition: &Composition| water_activity(composition, crystals, celsius(25.0)).unwrap().activity.value.base();
        let added = Composition::blend([(&composition, 1.0), (&Composition::pure(more), amount)]).unwrap();
        let (before, after) = (of(&composition), of(&added));
        if more == Water { prop_assert!(after >= before - 1e-12) } else { prop_assert!(after <= before + 1e-12, "{before} -> {after}") }
    }
}

/// What a syrup of glycerol takes up between two activities, over their distance.
#[test]
fn capacity_is_the_water_taken_up_by_the_activity() {
    let glycerol = Solute::of(Constituent::Glycerol).unwrap();
    let syrup = weighed(&[(Water, 0.5), (Constituent::Glycerol, 0.5)]);
    let mixture = super::mixture::Mixture::new(&syrup, &super::mixture::Split::default(), None);
    for activity in [0.3, 0.6, 0.9] {
        let held = |activity: f64| {
            let moles = glycerol.water_held(WaterActivity::from_base(activity).unwrap()).get::<ratio>();
            0.5 / glycerol.molar_mass * moles * 18.0153
        };
        let chord = (held(activity + 0.01) - held(activity - 0.01)) / 0.02;
        assert_relative_eq!(super::mixture::capacity(&mixture, activity), chord, max_relative = 1e-4);
    }
}

/// A centre whose water is used up before its sugar is split stays solid; one without water cannot be split at all.
#[test]
fn a_dry_centre_never_turns_liquid() {
    let share = |water: f64| inversion_to_dissolve(&weighed(&[(Sucrose, 1.0 - water), (Water, water)]), celsius(20.0));
    for water in [0.0003, 0.01, 0.04] {
        assert_eq!(share(water), Ok(None), "{water}");
    }
    assert_eq!(share(0.0), Err(WaterBalanceError::NoWater));
    assert!(matches!(share(0.2), Ok(Some(_))));
}
