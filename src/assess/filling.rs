//! A filling by itself, before it is poured: composition, water activity, density, yield value.

use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity, keeping, kind, law, makeup};
use crate::matter::{AllergenSet, Composition, Constituent, ConstituentSet, Role};
use crate::models::density::{ethanol_water, filling as density};
use crate::models::flow::{consistency, xanthan::Dispersion};
use crate::models::water::{Balanced, MeasuredBatch, Saturations, sucrose_beside_spirit, water_activity_alone};
use crate::piece::{FillingKind, Layer, Piece, Reported};
use crate::units::quantity::{kilogram_per_cubic_meter, pascal, ratio};
use crate::units::{Band, Checked, MassFraction, Ph, Temperature, WaterActivity};

/// The temperature of a store that is not described, in degrees Celsius.
const ROOM: f64 = 20.0;
/// Standard uncertainty of a measured water activity that states none.
const ACTIVITY_METER: f64 = 0.01;
/// Relative standard uncertainty of a measured yield value or density that states none.
const RHEOMETER: f64 = 0.1;
const PYCNOMETER: f64 = 0.005;
/// Standard uncertainty of a measured pH that states none.
const PH_METER: f64 = 0.05;
/// The strongest spirit beside which a solubility of sucrose is known.
const STRONGEST: f64 = 0.70;
/// Ethanol by mass above which it misleads a water activity meter.
const MISLEADS_METER: f64 = 0.01;

/// Where the sugars of all fillings are saturated in the store.
pub(super) fn store(piece: &Piece) -> Saturations {
    Saturations::at(piece.storage.temperature.unwrap_or(Temperature::nearest(ROOM)))
}

pub(super) fn assess(piece: &Piece, layer: &Layer, store: &Saturations, part: &mut PartAssessment) {
    part.clear();
    let composition = layer.recipe.as_ref().map(crate::matter::Recipe::composition);
    part.kind = kind::of(layer, composition);
    part.crystals = layer.crystals;
    part.barrier = layer.barrier;
    part.allergens = layer.recipe.as_ref().map_or(AllergenSet::EMPTY, |recipe| recipe.proportions().allergens);
    assess_makeup(part, composition);
    assess_activity(part, layer, composition, store);
    super::cooking::widen(part, layer, piece.workshop.water_boils_at, store);
    super::freezing::assess(part, composition, piece.storage.temperature);
    part.put(Quantity::Ph, ph(layer));
    assess_pouring(layer, part);
    part.put(Quantity::YieldValue, yield_value(layer, part.kind, composition));
    match &layer.recipe {
        Some(recipe) => {
            makeup::assess(part, layer, recipe);
            law::assess_filling(part, recipe);
        }
        None => {
            makeup::lack(part);
            part.put(Quantity::Additives, Assessed::lacking(Quantity::Composition));
        }
    }
    keeping::assess(part, piece, layer);
}

/// What follows from the temperature it is poured at.
pub(super) fn assess_pouring(layer: &Layer, part: &mut PartAssessment) {
    let composition = layer.recipe.as_ref().map(crate::matter::Recipe::composition);
    part.put(Quantity::PouringTemperature, Assessed::declared_or(layer.temperature.map(Checked::base), Quantity::PouringTemperature));
    part.put(Quantity::Density, filling_density(layer, part.kind, composition));
}

fn ph(layer: &Layer) -> Assessed {
    let measured = |reported: Reported<Ph>| Estimate::measured(reported.value.base(), reported.uncertainty.unwrap_or(PH_METER));
    layer.measured.ph.map_or(Assessed::lacking(Quantity::Ph), |reported| Assessed::Known(measured(reported)))
}

/// What follows from the composition by arithmetic.
pub(super) fn assess_makeup(part: &mut PartAssessment, composition: Option<&Composition>) {
    let Some(composition) = composition else {
        for quantity in [
            Quantity::Water,
            Quantity::Fat,
            Quantity::Sugars,
            Quantity::Ethanol,
            Quantity::SpiritStrength,
            Quantity::CocoaButter,
            Quantity::MilkFat,
            Quantity::FreeOil,
            Quantity::FatFreeCocoa,
            Quantity::FatToWater,
            Quantity::DissolvedSolids,
            Quantity::DoctorRatio,
            Quantity::LargestHumectant,
            Quantity::Humectants,
            Quantity::SpiritShare,
        ] {
            part.put(quantity, Assessed::lacking(Quantity::Composition));
        }
        return;
    };
    let (water, fat) = (composition.of(Constituent::Water), composition.fat());
    part.put(Quantity::Water, Assessed::declared(water));
    part.put(Quantity::Fat, Assessed::declared(fat));
    part.put(Quantity::Sugars, Assessed::declared(composition.sweeteners()));
    part.put(Quantity::Ethanol, Assessed::declared(composition.of(Constituent::Ethanol)));
    let strength = ethanol_water::by_volume(MassFraction::nearest(composition.spirit_strength()));
    part.put(Quantity::SpiritStrength, Assessed::declared(strength.base()));
    part.put(Quantity::CocoaButter, Assessed::declared(composition.of(Constituent::CocoaButter)));
    part.put(Quantity::MilkFat, Assessed::declared(composition.of(Constituent::MilkFat)));
    part.put(Quantity::FreeOil, Assessed::declared(composition.of(Constituent::LiquidOil)));
    part.put(Quantity::FatFreeCocoa, Assessed::declared(composition.of(Constituent::FatFreeCocoa)));
    let dissolved: f64 =
        [Role::Sugar, Role::Saccharide, Role::Polyol, Role::Electrolyte].into_iter().map(|role| composition.of_role(role)).sum();
    if dissolved + water > 0.0 {
        part.put(Quantity::DissolvedSolids, Assessed::declared(dissolved / (dissolved + water)));
    }
    let sucrose = composition.of(Constituent::Sucrose);
    if sucrose > 0.0 {
        // Lactose is no syrup: it crystallises beside the sucrose.
        let milk = composition.of(Constituent::Lactose) + composition.of(Constituent::UnsplitMilkSugars);
        let others = composition.of_role(Role::Sugar) + composition.of_role(Role::Saccharide) - sucrose - milk;
        part.put(Quantity::DoctorRatio, Assessed::declared(others / sucrose));
    }
    if water > 0.0 {
        part.put(Quantity::FatToWater, Assessed::declared(fat / water));
    }
}

/// Water activity, as it is and as it would be without its ethanol; a measured one takes the place of the modelled, except that beside
/// ethanol the higher of the two is used. One measured on another recipe corrects the model as far as the two are alike.
pub(super) fn assess_activity(part: &mut PartAssessment, layer: &Layer, composition: Option<&Composition>, store: &Saturations) {
    let measured = layer.measured.water_activity.map(|reported| {
        let estimate = Estimate::measured(reported.value.base(), reported.uncertainty.unwrap_or(ACTIVITY_METER));
        Estimate { band: estimate.band.map(|activity| activity.clamp(0.0, 1.0)), ..estimate }
    });
    // A batch that tells nothing of others, as ethanol misled its meter, leaves the model as it is.
    let batch = layer.measured_recipe.as_ref().zip(measured).and_then(|(recipe, measured)| {
        MeasuredBatch::new(recipe.composition(), layer.crystals, store.temperature(), measured.band.map(WaterActivity::nearest)).ok()
    });
    let corrected = |composition: &Composition| {
        let predicted = batch?.predict(composition).ok()?;
        let band = predicted.activity.map(Checked::base);
        Some(Assessed::Known(Estimate { band, evidence: Evidence::Corrected, in_range: predicted.in_range }))
    };
    let balanced = |composition: &Composition, sucrose: bool| water_activity_alone(composition, layer.crystals, store, sucrose).ok();
    let modelled = |composition: Option<&Composition>, balance: Option<&Balanced>| match composition {
        None => Assessed::lacking(Quantity::WaterActivity),
        Some(composition) if composition.of(Constituent::Water) <= 0.0 => Assessed::Absent,
        Some(composition) => corrected(composition).unwrap_or_else(|| {
            balance.map_or(Assessed::lacking(Quantity::Composition), |balance| {
                let band = balance.activity.map(Checked::base);
                Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: balance.in_range })
            })
        }),
    };
    let measured = measured.filter(|_| layer.measured_recipe.is_none());
    let ethanol = composition.map(|composition| composition.of(Constituent::Ethanol));
    let spirit = ethanol.is_some_and(|ethanol| ethanol > 0.0);
    let grains = composition.is_some_and(|composition| may_grain(part.kind, composition));
    let balance = composition.and_then(|composition| balanced(composition, grains && !spirit));
    part.beyond_range = balance.map_or(ConstituentSet::EMPTY, |balance| balance.beyond_range);
    let with_ethanol = modelled(composition, balance.as_ref());
    let without = composition.filter(|_| spirit).and_then(Composition::without_ethanol);
    let balance_without = if spirit { without.as_ref().and_then(|without| balanced(without, grains)) } else { balance };
    let without_ethanol = if spirit { modelled(without.as_ref(), balance_without.as_ref()) } else { with_ethanol };
    let spirited =
        ethanol.map_or(matches!(part.kind, Some(FillingKind::Spirit | FillingKind::Liqueur)), |ethanol| ethanol > MISLEADS_METER);
    let settle = |modelled: Assessed| match (measured, modelled) {
        (None, modelled) => modelled,
        (Some(measured), _) if !spirited => Assessed::Known(measured),
        (Some(measured), Assessed::Known(modelled)) => Assessed::Known(higher(measured, modelled)),
        // A meter alone cannot be trusted beside ethanol.
        (Some(_), lacking) => lacking,
    };
    part.put(Quantity::SucroseSupersaturation, sucrose_supersaturation(part.kind, composition, balance_without.as_ref()));
    part.put(Quantity::WaterActivity, settle(with_ethanol));
    part.put(Quantity::ActivityWithoutEthanol, settle(without_ethanol));
}

/// Whether its sugar never was in solution, or has set to a glass.
fn is_never_syrup(kind: Option<FillingKind>) -> bool {
    matches!(kind, Some(FillingKind::NutPaste | FillingKind::Crisp))
}

/// Whether there is sucrose that could leave its solution.
fn may_grain(kind: Option<FillingKind>, composition: &Composition) -> bool {
    let [sucrose, water] = [Constituent::Sucrose, Constituent::Water].map(|constituent| composition.of(constituent));
    !is_never_syrup(kind) && sucrose > 0.0 && water > 0.0
}

/// How much more sucrose there is than stays in solution, by mass. Beside spirit a gram of water takes up less: what it would without is
/// lowered by a table that is recalled. The balance is that without its ethanol.
fn sucrose_supersaturation(kind: Option<FillingKind>, composition: Option<&Composition>, balance: Option<&Balanced>) -> Assessed {
    let composition = match composition {
        _ if is_never_syrup(kind) => return Assessed::Absent,
        None => return Assessed::lacking(Quantity::Composition),
        Some(composition) if !may_grain(kind, composition) => return Assessed::Absent,
        Some(composition) => composition,
    };
    let Some(Balanced { in_range, sucrose: Some(sucrose), .. }) = balance else { return Assessed::lacking(Quantity::Composition) };
    let strength = ethanol_water::by_volume(MassFraction::nearest(composition.spirit_strength()));
    if !in_range || strength.base() > STRONGEST {
        return Assessed::lacking(Quantity::SucroseSupersaturation);
    }
    let band = if strength.base() > 0.0 {
        let beside = sucrose_beside_spirit(strength).map(|relative| relative.get::<ratio>());
        Band { value: sucrose.value / beside.value, low: sucrose.low / beside.high, high: sucrose.high / beside.low }
    } else {
        *sucrose
    };
    Assessed::Known(Estimate::modelled(band))
}

/// The higher of two estimates, at each end of the band.
fn higher(one: Estimate, two: Estimate) -> Estimate {
    let upper = if one.band.value >= two.band.value { one } else { two };
    let band =
        Band { value: one.band.value.max(two.band.value), low: one.band.low.max(two.band.low), high: one.band.high.max(two.band.high) };
    Estimate { band, ..upper }
}

/// Density at pouring temperature: measured, declared for what is aerated, or modelled.
fn filling_density(layer: &Layer, kind: Option<FillingKind>, composition: Option<&Composition>) -> Assessed {
    if let Some(reported) = layer.measured.density {
        let value = reported.value.base();
        return Assessed::Known(Estimate::measured(value, reported.uncertainty.unwrap_or(PYCNOMETER * value)));
    }
    if let Some(density) = layer.aerated_density {
        return Assessed::declared(density.base());
    }
    if kind == Some(FillingKind::Marshmallow) {
        // Marshmallow weighs 300 to 500 kg/m³ (common practice).
        return Assessed::Known(Estimate::assumed(Band::normal(400.0, 50.0)));
    }
    let Some(composition) = composition else { return Assessed::lacking(Quantity::Composition) };
    // The model ends at 0 and 40 °C; what is poured hotter or colder changes little by then.
    let temperature = layer.temperature.map_or(ROOM, Temperature::celsius).clamp(0.0, 40.0);
    density::density(composition, Temperature::nearest(temperature)).map_or(Assessed::lacking(Quantity::Density), |density| {
        Assessed::Known(Estimate::modelled(density.map(|density| density.get::<kilogram_per_cubic_meter>())))
    })
}

/// Yield value when the cap is poured: measured, from the word for how it stands, from its xanthan, or from its kind.
fn yield_value(layer: &Layer, kind: Option<FillingKind>, composition: Option<&Composition>) -> Assessed {
    if let Some(reported) = layer.measured.yield_value {
        let value = reported.value.base();
        let estimate = Estimate::measured(value, reported.uncertainty.unwrap_or(RHEOMETER * value));
        let band = estimate.band.map(|stress| stress.max(0.0));
        return Assessed::Known(Estimate { band, ..estimate });
    }
    if let Some(word) = layer.consistency {
        return Assessed::Known(Estimate::assumed(consistency::band(word).map(|stress| stress.get::<pascal>())));
    }
    if let Some(band) = kind.and_then(usual_yield_value) {
        return Assessed::Known(Estimate::assumed(band));
    }
    let Some(composition) = composition else { return Assessed::lacking(Quantity::YieldValue) };
    if kind::is_solution(composition) {
        return Assessed::Known(Estimate::modelled(Band::exact(0.0)));
    }
    // Gum that meets spirit dry does not swell; without spirit nothing hinders it.
    let hydrated = layer.hydrated_first.unwrap_or(composition.of(Constituent::Ethanol) <= 0.0);
    match Dispersion::of(composition, hydrated, None) {
        Some(dispersion) => {
            let thickened = dispersion.yield_value();
            let band = thickened.yield_value.map(|stress| stress.get::<pascal>());
            Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: thickened.inside_range })
        }
        None => Assessed::lacking(Quantity::YieldValue),
    }
}

/// The yield value a kind of filling usually has once it has set (recalled): a wide band, so that a measurement is asked for where it matters.
fn usual_yield_value(kind: FillingKind) -> Option<Band<f64>> {
    match kind {
        FillingKind::Ganache => Some(Band::within_factor(150.0, 6.0)),
        FillingKind::FruitGel | FillingKind::Marshmallow => Some(Band { value: 150.0, low: 25.0, high: 1000.0 }),
        FillingKind::Jam => Some(Band { value: 45.0, low: 20.0, high: 100.0 }),
        FillingKind::NutPaste => Some(Band { value: 100.0, low: 5.0, high: 2000.0 }),
        FillingKind::Fondant => Some(Band { value: 50.0, low: 5.0, high: 500.0 }),
        FillingKind::Caramel => Some(Band { value: 1.0, low: 0.0, high: 25.0 }),
        FillingKind::Crisp => Some(Band { value: 10_000.0, low: 1000.0, high: 100_000.0 }),
        FillingKind::Spirit | FillingKind::Liqueur => None,
    }
}
